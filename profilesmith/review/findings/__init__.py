"""Words of findings: from a check's reason and numbers to title, sentences and short numbers. It judges nothing."""
