"""Flat templates, one kind a file, one line each in the table. Knows no paper."""
