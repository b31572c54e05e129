"""Lining: the two strips of paste that line a hole through a tier."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import replace

from fontTools.misc.transform import Identity

from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, measure, text_block, title_lines
from templates_gen.geometry.box import Box
from templates_gen.geometry.mirror import edges_of, is_same
from templates_gen.geometry.path import Path, backwards, closed, line
from templates_gen.geometry.warp import bent
from templates_gen.pieces.making import fondant
from templates_gen.pieces.marks import strokes
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.tunnel import Crossing, tunnel

HALVES = (
    ("bottom", "lower", "first, along the floor of the hole"),
    ("top", "upper", "second, under the roof of the hole"),
)
BOTH = "one along the floor of the hole, then one under its roof"
FOR_BOTH = "one for the floor, one for the roof"
"""The same in short."""


def build(tier: Solid) -> Iterable[Piece]:
    """Yield both halves of the lining of a hole, the bottom one first; once, if they are alike.

    Unrolled, the end of a tunnel of radius a through a side is sqrt(R^2 - a^2 sin^2) from the
    middle of a round tier: crossing cylinders. The strips are as long as the wall of the hole.
    The front edge is drawn at the top and the printed face looks into the hole, so what lies to the
    right in the hole is drawn to the left on its floor and to the right under its roof.
    """
    hole = tunnel(tier)
    if hole is None or tier.spec.cover == "none":
        return
    crossing = Crossing(tier.covered.rim, hole)
    halves = [
        replace(_half(tier, crossing, number, name, place), part=part)
        for number, (part, name, place) in enumerate(HALVES)
    ]
    lower, upper = ([stroke.path for stroke in half.drawing.strokes] for half in halves)
    if is_same(edges_of(lower), edges_of(upper), Identity):
        yield _half(tier, crossing, 0, "", BOTH, copies=2)
    else:
        yield from halves


def _half(
    tier: Solid, crossing: Crossing, number: int, half: str, place: str, copies: int = 1
) -> Piece:
    """Return one half, or what both are alike."""
    hole = crossing.tunnel
    trim, long = tier.spec.trim.mm, math.pi * hole.radius
    way = -1 if number == 0 else 1

    def reach(q: float) -> tuple[float, float]:
        return crossing.reach(hole.aside + hole.radius * math.sin(q / hole.radius) * way)

    spans = [front - back for front, back in (reach(long * (k / 48 - 0.5)) for k in range(49))]
    title = f"{tier.name}: lining{f', {half} half' if half else ''}"
    made_of = fondant(tier.spec, tier.spec.paste_lining_mm)
    goes = f"cut 2: {FOR_BOTH}" if copies > 1 else f"{half.upper()}: goes in {place}"
    front = _edge(lambda q: reach(q)[0], long)
    back = _edge(lambda q: reach(q)[1], long)
    longer = [_edge(lambda q: reach(q)[0] + trim, long), _edge(lambda q: reach(q)[1] - trim, long)]
    space = Box(-long / 2 + 4, reach(long / 2)[1] * 0.8, -2, reach(long / 2)[0] * 0.8)
    middle = strokes(Role.CENTRE, ((0.0, reach(0)[1]), (0.0, reach(0)[0])))
    lines = (Stroke(front, Role.TRIM), Stroke(back, Role.TRIM), *middle)
    words = title_lines(title, f"{measure(long)} × {measure(max(spans))}", goes)
    ends = [reach(way * long / 2) for way in (-1, 1)]
    return Piece(
        owner=tier.owner,
        kind="lining",
        title=title,
        surface="bare",
        copies=copies,
        use=f"Cut {'2 ' if copies > 1 else ''}from {made_of}, {place}, this face into the hole,"
        " once the side is on and its hole is cut out; trim flush with the side.",
        outline=closed(longer[0], backwards(longer[1])),
        drawing=Drawing(lines, (*text_block(words, space), *_ends(reach, half))),
        values={
            "lining_length_mm": 2 * long,
            "lining_max_mm": max(spans),
            "lining_min_mm": min(front - back for front, back in ends),
        },
    )


def _ends(reach: Callable[[float], tuple[float, float]], half: str) -> list[Label]:
    """Name the front and the back edge, and what half this is along each."""
    front, back = reach(0.0)
    named = f" · {half.upper()} half" if half else ""
    return [
        Label(f"front edge{named}", (2.0, front - SMALL - 1), SMALL, bold=True),
        Label(f"back edge{named}", (2.0, back + SMALL - 0.3), SMALL, bold=True),
    ]


def _edge(y: Callable[[float], float], long: float) -> Path:
    return bent(line((-long / 2, 0.0), (long / 2, 0.0)), lambda q, _: (q, y(q)))
