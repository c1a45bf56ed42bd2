"""The neutral model: Profile (settings and values), Ledger (what was done to them and why), comparison."""
