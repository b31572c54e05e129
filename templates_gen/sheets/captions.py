"""The caption of a window: what it shows and, where the piece starts, what to do with it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import product

from fontTools.misc.transform import Offset, Transform

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Label
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
from templates_gen.geometry.box import Box, Point
from templates_gen.units import NO_BREAK

NAME = 5.0
"""Em size of the name of a piece, its part and how many to cut, mm: over 14 points."""
AIR = 0.35
"""What is left beside the lines, mm."""
MOST_LINES = 6
"""The most lines beside a window, without the name."""
MOST_ON_PIECE = 12
"""The most lines on a piece, without the name."""
LEAST_STRIP = NAME * (fonts.CAP_HEIGHT + fonts.DESCENT) + 2 * AIR
"""Room beside a window for a name without accents on capitals, mm."""

Caption = tuple[Line, ...]


def strip_width(caption: Caption) -> float:
    """Return the width that a caption takes beside a window, mm."""
    return inked_height(caption) + 2 * AIR if caption else LEAST_STRIP


def least_strip(piece: Piece) -> float:
    """Return the room that the name of a piece takes beside a window, on one line, mm."""
    return strip_width((Line(piece.title, NAME, bold=True),))


def width(caption: Caption) -> float:
    """Return how wide the widest line of a caption is, mm."""
    return max((line.width for line in caption), default=0.0)


def full(piece: Piece, part: str, available: float) -> Caption:
    """Return the caption with what to do, wrapped to ``available`` mm; none if too long."""
    return _with_words(short(piece, part, available), [piece.use], available, MOST_LINES)


def on_piece(
    piece: Piece, part: str, widths: Sequence[float], facts: Sequence[str]
) -> Iterator[Caption]:
    """Yield captions to stand on the piece, with nothing left out of the name, then shorter ones.

    Of either the widest comes first. Between the name and what to do stand some ``facts``.
    """
    texts = [" · ".join(facts), piece.use]
    whole = Line(next(_names(piece, part)), NAME, bold=True)
    names: tuple[Callable[[float], Sequence[Line]], ...] = (
        lambda width: broken([whole], width),
        lambda width: short(piece, part, width),
    )
    tried = set[Caption]()
    for named, width in product(names, widths):
        caption = _with_words(named(width), texts, width, MOST_ON_PIECE)
        if caption and caption not in tried:
            tried.add(caption)
            yield caption


def _with_words(
    named: Sequence[Line], texts: Iterable[str], available: float, most: int
) -> Caption:
    """Return a name with texts under it, wrapped to ``available`` mm, ``most`` lines; or none."""
    lines = broken((Line(text) for text in texts if text), available)
    crowded = len(lines) > most or are_cut([*named, *lines])
    return () if crowded or not named else (*named, *lines)


def short(piece: Piece, part: str, available: float, depth: float = math.inf) -> Caption:
    """Return the name within ``available`` mm and a strip of ``depth`` mm: as much of it as fits.

    First the size of the tier goes, then what can be read on the piece; the tier and the kind
    never, except on a sliver that has no room for a name at all.
    """
    sizes = (NAME, TEXT, LEAST_TEXT)
    for size in sizes:
        for text in _names(piece, part):
            if fonts.text_width(text, size, bold=True) <= available:
                return (Line(text, size, bold=True),)
        caption = _broken(piece, part, available, size)
        if caption and strip_width(caption) <= depth:
            return caption
    said = part or f"cut {piece.copies}"
    left = [size for size in sizes if fonts.text_width(said, size, bold=True) <= available]
    return tuple(Line(said, size, bold=True) for size in left[:1])


def is_named(piece: Piece, caption: Caption) -> bool:
    """Tell whether a caption has the names of tier and piece in full."""
    text = " ".join(line.text for line in caption)
    tier, kind = _apart(piece)
    return tier in text and kind in text


def is_small(caption: Caption) -> bool:
    """Tell whether the name in a caption is smaller than it should be."""
    return not caption or caption[0].size < NAME


def name(piece: Piece) -> str:
    """Return the title of a piece without what its fold edge says."""
    return piece.title.rpartition(", ")[0] if piece.unfolding else piece.title


def _apart(piece: Piece) -> tuple[str, str]:
    """Return the tier that the title of a piece names, if it does, and what the piece is."""
    whole, of_tier = name(piece), f"{piece.tier}: "
    return (piece.tier, whole[len(of_tier) :]) if whole.startswith(of_tier) else ("", whole)


def _names(piece: Piece, part: str) -> Iterator[str]:
    """Yield what a window can be called, the fullest first."""
    part, cut = _whole(part), _whole(f"cut {piece.copies}")
    tier, _ = _apart(piece)
    if tier and piece.tier_size:
        yield _said(f"{tier} ({piece.tier_size}){piece.title[len(tier) :]}", part, cut)
    yield _said(piece.title, part, cut)
    yield _said(name(piece), part, cut)
    if part and piece.copies == 1:
        yield _said(name(piece), part)


def _whole(words: str) -> str:
    """Return words that stay on one line, as a number with what it counts."""
    return words.replace(" ", NO_BREAK)


def _said(*words: str) -> str:
    return " · ".join(filter(None, words))


def _broken(piece: Piece, part: str, available: float, size: float) -> Caption:
    """Return the name in several lines, then which part it is and how many to cut; or none."""
    cut = "" if part and piece.copies == 1 else f"cut {piece.copies}"
    words = (name(piece), _said(_whole(part), _whole(cut)))
    lines = broken((Line(text, size, bold=True) for text in words), available)
    return () if are_cut(lines) else tuple(lines)


def beside(caption: Caption, box: Box, *, upright: bool) -> tuple[Label, ...]:
    """Return the lines of a caption above a window, or along its left when ``upright``."""
    corner = (box.x0 - AIR, box.y0) if upright else (box.x0, box.y1 + AIR)
    return on_foot(caption, corner, upright=upright)


def on_foot(caption: Caption, at: Point, *, upright: bool) -> tuple[Label, ...]:
    """Return the lines of a caption, the lower left of them all ``at`` a point."""
    labels = set_lines(caption)
    foot = min((label.at[1] - fonts.DESCENT * label.size for label in labels), default=0.0)
    turned = Transform(0, 1, -1, 0, *at) if upright else Offset(*at)
    onto = turned.translate(0, -foot)
    return tuple(label.transformed(onto) for label in labels)
