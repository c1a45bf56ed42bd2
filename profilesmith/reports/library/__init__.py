"""What the workflows of ``library`` came to, in words."""
