"""Tests of the pages of words."""
