"""Goals on motion files: check one against a ledger, compare two, propose a words map."""
