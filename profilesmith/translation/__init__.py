"""The only room that knows both text and meaning: key maps, spellings, text to profile and ledger to text."""
