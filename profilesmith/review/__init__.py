"""Renderings of a ledger. They judge nothing: one Review, many forms."""
