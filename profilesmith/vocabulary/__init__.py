"""What can be set about a print, as data read from ``knowledge/vocabulary.toml``."""
