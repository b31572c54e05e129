"""Tests of what is printed of the pieces."""
