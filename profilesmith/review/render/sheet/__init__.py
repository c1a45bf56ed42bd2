"""Checklists for typing in by hand: a Sheet is made of a Review or of a Recipe alone, and shown as text or page."""
