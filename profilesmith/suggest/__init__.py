"""A stranger's settings text to proposals for its key map: which key holds which setting, how sure that is, and why."""
