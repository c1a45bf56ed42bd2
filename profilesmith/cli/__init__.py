"""The command line: options to one workflow to text and an exit code."""
