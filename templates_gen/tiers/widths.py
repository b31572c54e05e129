"""How wide a tier or a board is, in words: of a regular polygon both its sizes."""

from __future__ import annotations

from collections.abc import Callable

from templates_gen.geometry.outline import Outline
from templates_gen.units import in_both

Written = Callable[[float], str]
"""Writes a length in mm in both units."""
OF = (("across flats", "corner to corner"), ("at its widest", "side to corner"))
"""What the sizes of a regular polygon are, of an even number of sides and of an odd one."""


def width_words(outline: Outline, written: Written = in_both) -> str:
    """Say how wide a plan is: across, or both ways where they differ."""
    if outline.across_flats is not None:
        return polygon_words(polygon_sizes(outline), len(outline.corners), written)
    wide, deep = (written(side) for side in outline.bounds.size)
    return f"{wide} across" if wide == deep else f"{wide} by {deep}"


def across_words(outline: Outline) -> str:
    """Say what ``across`` is said before: the larger width, of a regular polygon both its sizes."""
    return in_both(outline.across) if outline.across_flats is None else width_words(outline)


def polygon_sizes(outline: Outline) -> tuple[float, float]:
    """Return the two sizes of a regular polygon that can be measured across it, mm.

    Flat to flat and corner to corner, by either of which it is bought. Of an odd number of sides,
    which have a corner opposite each, the widest and from a side to its corner.
    """
    if outline.across_flats is not None and len(outline.corners) % 2 == 0:
        return outline.across_flats, 2 * outline.reach
    deep, wide = sorted(outline.bounds.size)
    return wide, deep


def polygon_words(sizes: tuple[float, float], sides: int, written: Written = in_both) -> str:
    """Say both sizes of a regular polygon of so many sides, as ``polygon_sizes`` has them."""
    return ", ".join(f"{written(size)} {of}" for size, of in zip(sizes, OF[sides % 2], strict=True))
