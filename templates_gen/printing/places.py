"""Where on a side things have their place: the sections that hold them, each with a mark."""

from __future__ import annotations

from collections.abc import Iterable

from templates_gen.pieces.marks import QUARTERS

Span = tuple[float, float]
"""From one u to another, mm; it may reach over the join."""
AROUND = 8.0
"""Paper on either side of what a section carries, mm."""
NEAR = 40.0
"""Things no farther apart than this are on one section, mm."""
MOST = 0.6
"""The most of the girth that sections may take."""


def spans_of(things: Iterable[Span], girth: float) -> list[tuple[float, float, str]] | None:
    """Return the sections of a girth that hold things, each with the name of a mark in it.

    Things are as wide as they are drawn, wherever round the side. None where the sections would
    be most of the girth.
    """
    padded = [(start - AROUND, end + AROUND) for start, end in things]
    if any(end - start > MOST * girth for start, end in padded):
        return None
    spans = [_with_mark(span, girth) for span in _joined(padded, girth)]
    # a section that was made longer for its mark may have reached another
    spans = [
        _with_mark((start, end), girth) for start, end in _joined([s[:2] for s in spans], girth)
    ]
    return None if sum(end - start for start, end, _ in spans) > MOST * girth else spans


def _joined(spans: Iterable[Span], girth: float) -> list[Span]:
    """Return spans in order, each starting on the first turn, near ones as one."""
    ordered = sorted((start % girth, start % girth + end - start) for start, end in spans)
    joined: list[Span] = []
    for start, end in ordered:
        if joined and start - joined[-1][1] < NEAR:
            joined[-1] = joined[-1][0], max(joined[-1][1], end)
        else:
            joined.append((start, end))
    # the last may go on over the join into the first
    if len(joined) > 1 and joined[0][0] + girth - joined[-1][1] < NEAR:
        first, (start, end) = joined.pop(0), joined[-1]
        joined[-1] = start, max(end, first[1] + girth)
    return joined


def _with_mark(span: Span, girth: float) -> tuple[float, float, str]:
    """Return a span made longer to the nearest of front, quarters and back join, and its name."""
    start, end = span
    marks = [
        (share * girth + turn * girth, name)
        for share, name in (*QUARTERS, (0.0, "back join"))
        for turn in (0, 1)
    ]
    u, name = min(marks, key=lambda mark: max(start - mark[0], mark[0] - end, 0.0))
    return (
        min(start, u - AROUND if u < start else start),
        max(end, u + AROUND if u > end else end),
        name,
    )
