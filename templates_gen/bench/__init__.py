"""Words and numbers for the bench. Knows no files."""
