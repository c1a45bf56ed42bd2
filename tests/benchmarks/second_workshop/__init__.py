"""A second invented workshop, by other hands than the first; see README.md."""
