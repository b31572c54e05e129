"""Geometry that knows no cake: paths, outlines, offsets, areas, curves, warps."""
