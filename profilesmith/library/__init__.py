"""Folders of recipes, key maps and facts: finding them by name, running the recipes' own examples."""
