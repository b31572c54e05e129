"""How wide a tier or a board is, in words: a regular polygon is bought by either of two sizes."""

from __future__ import annotations

from collections.abc import Callable

from templates_gen.geometry.outline import Outline
from templates_gen.units import in_both

Written = Callable[[float], str]
"""Writes a length in mm in both units."""


def width_words(outline: Outline, written: Written = in_both) -> str:
    """Say how wide a plan is: across, or both ways where they differ."""
    if outline.across_flats is not None:
        return polygon_words(outline.across_flats, 2 * outline.reach, written)
    wide, deep = (written(side) for side in outline.bounds.size)
    return f"{wide} across" if wide == deep else f"{wide} by {deep}"


def across_words(outline: Outline) -> str:
    """Say what ``across`` is said before: the larger width, of a regular polygon both its sizes."""
    return in_both(outline.across) if outline.across_flats is None else width_words(outline)


def polygon_words(flats: float, corners: float, written: Written = in_both) -> str:
    """Say both sizes of a regular polygon, mm: that of its tin, and that of the circle round it."""
    return f"{written(flats)} across flats, {written(corners)} corner to corner"
