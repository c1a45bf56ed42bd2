"""A simulated workshop: hidden causes, prints, noisy eyes. It judges advice and knows nothing of how advice is made."""
