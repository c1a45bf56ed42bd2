"""What recipes were tried on and how that went: records in text files that merge, and sums that promise no more."""
