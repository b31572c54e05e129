"""What a template is made of: lines, words, shapes. Knows no cake, no paper, no file format."""
