"""What the HTML forms share: the frame of a self-contained file, its style, its script, its rows."""
