"""Many derivations from one order file."""
