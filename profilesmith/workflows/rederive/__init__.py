"""A derived profile onto a better base, with its hand edits."""
