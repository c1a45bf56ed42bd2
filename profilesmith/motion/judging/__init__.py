"""Figures held against what a ledger promises: one outcome a setting, as data. ``review`` makes the words."""
