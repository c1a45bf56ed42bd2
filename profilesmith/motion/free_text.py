"""M words whose line carries free text: nothing in it is a word. Common practice of desktop machines, no source."""

# Messages and questions shown to a person or a host, a progress bar, names of files on a card.
FREE_TEXT = ("16", "23", "28", "32", "36", "73", "115", "117", "118", "291", "928", "919")
