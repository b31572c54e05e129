"""Sizes in words, as pictures give them."""

from __future__ import annotations

from templates_gen.geometry.outline import Outline
from templates_gen.units import in_both


def width_words(outline: Outline) -> str:
    """Say how wide a plan is, both ways where they differ."""
    wide, deep = (in_both(side) for side in outline.bounds.size)
    return f"{wide} across" if wide == deep else f"{wide} by {deep}"
