"""Three-way merge: what was derived, what hands made of it since, what the recipes make of a newer base. Pure."""
