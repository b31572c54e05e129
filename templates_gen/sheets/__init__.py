"""Pieces laid on numbered sheets, every coordinate final. Knows no PDF and no SVG."""
