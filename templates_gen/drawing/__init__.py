"""Stage 0: the vocabulary every later stage speaks. Knows no cake, no paper, no file format."""
