"""Recipes: declarative rules in TOML, how they combine, and the ledger of what they did."""
