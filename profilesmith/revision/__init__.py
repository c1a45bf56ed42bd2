"""Two versions of a recipe: which rules came, went or changed, what that does to profiles, and all of it in words."""
