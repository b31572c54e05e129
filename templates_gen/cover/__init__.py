"""The pages of words of a pack."""
