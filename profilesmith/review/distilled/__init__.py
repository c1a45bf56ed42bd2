"""What was distilled from pairs, in words: recipes with their evidence as comments, and reasons for reports."""
