"""Filled areas. The only package that speaks to shapely."""
