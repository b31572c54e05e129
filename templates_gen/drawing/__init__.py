"""Stage 1: the vocabulary every later stage speaks. Knows no cake, no paper, no file format."""
