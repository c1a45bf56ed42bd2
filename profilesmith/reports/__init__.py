"""What the workflows came to, in words, for the doors: terminal, Markdown, pages, JSON. Nothing is worked out here."""
