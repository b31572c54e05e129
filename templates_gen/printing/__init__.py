"""What is printed of each piece: the whole of it, a part on the fold, a tape, or numbers alone."""
