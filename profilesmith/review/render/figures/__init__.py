"""Figures of a review: what is to be shown (``figure``), where it stands (``drawing``), one file for each kind."""
