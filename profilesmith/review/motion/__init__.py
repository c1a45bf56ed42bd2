"""Words for what a motion file tells: judged settings, doubts, hours and grams. Judges nothing."""
