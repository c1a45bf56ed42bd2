"""Two versions of a recipe: which rules came, went or changed, and what that does to profiles, as data."""
