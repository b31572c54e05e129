"""The caption of a window: what it shows and, where the piece starts, what to do with it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fontTools.misc.transform import Transform

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import (
    LEAST_TEXT,
    TEXT,
    Line,
    are_cut,
    broken,
    inked_height,
    set_lines,
)
from templates_gen.geometry.box import Box

NAME = 5.0
"""Em size of the name of a piece, its part and how many to cut, mm: over 14 points."""
AIR = 0.35
"""What is left beside the lines, mm."""
MOST_LINES = 6
"""The most lines, besides the name, that say what to do."""
LEAST_STRIP = NAME * (fonts.CAP_HEIGHT + fonts.DESCENT) + 2 * AIR
"""Room beside a window for a name, mm."""

Caption = tuple[Line, ...]


def strip_width(caption: Caption) -> float:
    """Return the width that a caption takes beside a window, mm."""
    return inked_height(caption) + 2 * AIR if caption else LEAST_STRIP


def width(caption: Caption) -> float:
    """Return how wide the widest line of a caption is, mm."""
    return max((line.width for line in caption), default=0.0)


def full(piece: Piece, part: str, available: float) -> Caption:
    """Return the caption with what to do, wrapped to ``available`` mm; none if too long."""
    head = short(piece, part, available)
    lines = broken([Line(piece.use)], available)
    crowded = len(lines) > MOST_LINES or are_cut(lines)
    return () if crowded or not head else (*head, *lines)


def short(piece: Piece, part: str, available: float, depth: float = math.inf) -> Caption:
    """Return the name within ``available`` mm and a strip of ``depth`` mm: as much of it as fits.

    First the size of the tier goes, then what can be read on the piece; the tier and the kind
    never, except on a sliver that has no room for a name at all.
    """
    for size in (NAME, TEXT, LEAST_TEXT):
        for text in _names(piece, part):
            if fonts.text_width(text, size, bold=True) <= available:
                return (Line(text, size, bold=True),)
        caption = _broken(piece, part, available, size)
        if caption and strip_width(caption) <= depth:
            return caption
    sizes = (NAME, TEXT, LEAST_TEXT)
    texts = ((part or f"cut {piece.copies}", size) for size in sizes)
    left = (each for each in texts if fonts.text_width(*each, bold=True) <= available)
    return tuple(Line(text, size, bold=True) for text, size in list(left)[:1])


def is_named(piece: Piece, caption: Caption) -> bool:
    """Tell whether a caption has the names of tier and piece in full."""
    text = " ".join(line.text for line in caption)
    tier, kind = _apart(piece)
    return tier in text and kind in text


def is_small(caption: Caption) -> bool:
    """Tell whether the name in a caption is smaller than it should be."""
    return not caption or caption[0].size < NAME


def _name(piece: Piece) -> str:
    """Return the title of a piece without what its fold edge says."""
    return piece.title.rpartition(", ")[0] if piece.unfolding else piece.title


def _apart(piece: Piece) -> tuple[str, str]:
    """Return the tier that the title of a piece names, if it does, and what the piece is."""
    name, of_tier = _name(piece), f"{piece.tier}: "
    return (piece.tier, name[len(of_tier) :]) if name.startswith(of_tier) else ("", name)


def _names(piece: Piece, part: str) -> Iterator[str]:
    """Yield what a window can be called, the fullest first."""
    cut = f"cut {piece.copies}"
    tier, _ = _apart(piece)
    if tier and piece.tier_size:
        yield _said(f"{tier} ({piece.tier_size}){piece.title[len(tier) :]}", part, cut)
    yield _said(piece.title, part, cut)
    yield _said(_name(piece), part, cut)
    if part and piece.copies == 1:
        yield _said(_name(piece), part)


def _said(*words: str) -> str:
    return " · ".join(filter(None, words))


def _broken(piece: Piece, part: str, available: float, size: float) -> Caption:
    """Return the name in several lines, then which part it is and how many to cut; or none."""
    cut = "" if part and piece.copies == 1 else f"cut {piece.copies}"
    words = (_name(piece), _said(part, cut))
    lines = broken((Line(text, size, bold=True) for text in words), available)
    return () if are_cut(lines) else tuple(lines)


def caption_drawing(caption: Caption, box: Box, *, upright: bool) -> Drawing:
    """Write a caption above a window, or along its left when ``upright``."""
    corner = (box.x0, box.y0) if upright else (box.x0, box.y1)
    there = Transform().translate(*corner)
    turned = Transform(0, 1, -1, 0, 0, 0) if upright else Transform()
    labels = set_lines(caption)
    foot = min((label.at[1] - fonts.DESCENT * label.size for label in labels), default=0.0)
    onto = there.transform(turned).translate(0, AIR - foot)
    return Drawing(labels=tuple(label.transformed(onto) for label in labels))
