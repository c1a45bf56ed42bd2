"""The command line: options to one workflow to text and an exit code."""

import gc

# A run is short and builds far more than it drops: collecting at every 700 objects costs a tenth of the start.
gc.set_threshold(50_000, 20, 20)
