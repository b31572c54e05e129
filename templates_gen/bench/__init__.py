"""Stage 7: words and numbers for the bench. Knows no files."""
