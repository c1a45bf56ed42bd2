"""What the workflows of ``forward`` came to, in words."""
