"""What was distilled from pairs, in words: recipes with their evidence as comments, and the reasons that reports share."""
