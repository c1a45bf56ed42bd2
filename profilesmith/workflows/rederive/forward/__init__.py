"""Many derived files brought forward in one run, each with its hand edits, and one review for all."""
