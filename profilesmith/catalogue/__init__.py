"""A library as pages that need no program to read: an index and one page a recipe, in HTML or Markdown."""
