"""A club's library: laid out, listed, checked, its rules explained."""
