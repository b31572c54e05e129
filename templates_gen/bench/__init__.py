"""Stage 6: words and numbers for the bench. Knows no files."""
