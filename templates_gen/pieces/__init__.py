"""Stage 4: flat templates, one kind a file, one line each in the table. Knows no paper."""
