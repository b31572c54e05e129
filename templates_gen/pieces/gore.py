"""Gores: the equal pieces that cover a ball side by side, and the cap over their points."""

from __future__ import annotations

import math
from collections.abc import Iterable

from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.shapes.round import disc
from templates_gen.drawing.text_block import SMALL, measure, text_block, title_lines
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path, backwards, closed, line
from templates_gen.geometry.warp import bent
from templates_gen.pieces.making import OUT, fondant
from templates_gen.pieces.marks import centre_cross, quadrant, strokes
from templates_gen.tiers.ball import Ball
from templates_gen.tiers.solid import Solid

HIGH, LOW = 0.45, 0.9
"""From where to where words stand, over the way from the top to the widest level."""
CLEAR = 3.0
"""How far words stay from the edge of a gore, mm."""
CAP = 0.35
"""Radius of a cap, along the ball, over the radius of the ball."""


def build(tier: Solid) -> Iterable[Piece]:
    """Yield the gore of a panelled ball, drawn once.

    Its width at a level is the girth there over the number of gores: *Making a Sphere from Flat
    Material*, The Math Doctors.
    """
    ball = tier.gored
    if ball is None or tier.spec.cover != "panelled":
        return
    spec = tier.spec.gores
    count, length = spec.count, ball.meridian
    over = spec.overlap.mm if spec.joins == "overlapping" else 0.0
    title = f"{tier.name}: gore"
    widest = 2 * ball.half_width(min(length, math.pi * ball.radius / 2), count)
    words = title_lines(title, f"cut {count}", f"{measure(length)} × {measure(widest + over)}")
    space = _word_space(ball, count)
    lapped = f"each over its neighbour up to the score line, {measure(over)}"
    joined = lapped if over else "edge to edge"
    yield Piece(
        owner=tier.owner,
        kind="gore",
        title=title,
        surface="mid-paste",
        copies=count,
        use=f"Cut {count} from {fondant(tier.spec, tier.spec.paste_mm)}, {OUT}; lay them on from"
        f" the top down, points up, {joined}.",
        outline=_outline(ball, count, over),
        drawing=_lines(ball, count, over, space) + Drawing(labels=text_block(words, space)),
        values={
            "gore_count": count,
            "gore_length_mm": length,
            "gore_width_mm": widest,
            "overlap_mm": over,
        },
    )


def _word_space(ball: Ball, count: int) -> Box:
    """Return the space for words above the widest level of a gore."""
    level = min(ball.meridian, math.pi * ball.radius / 2)
    high, low = level * HIGH, level * LOW
    half = ball.half_width(high, count) - CLEAR
    return Box(-half, -low, half, -high)


def _flank(ball: Ball, count: int, way: int, over: float) -> Path:
    """Return one edge of a gore from its point at the top, at (0, 0), down to its foot."""
    length = ball.meridian
    return bent(
        line((0.0, 0.0), (0.0, -length)), lambda _, y: (way * ball.half_width(-y, count) + over, y)
    )


def _outline(ball: Ball, count: int, over: float) -> Path:
    return closed(_flank(ball, count, -1, 0.0), backwards(_flank(ball, count, 1, over)))


def _lines(ball: Ball, count: int, over: float, space: Box) -> Drawing:
    """Draw the middle but for the words, the widest level, and where the neighbour comes to lie."""
    length, widest = ball.meridian, math.pi * ball.radius / 2
    middle = (((0.0, 0.0), (0.0, space.y1)), ((0.0, space.y0), (0.0, -length)))
    drawn = strokes(Role.CENTRE, *middle)
    labels: tuple[Label, ...] = ()
    if length > widest:
        half = ball.half_width(widest, count)
        drawn += strokes(Role.GUIDE, ((-half, -widest), (-half * 0.7, -widest)))
        drawn += strokes(Role.GUIDE, ((half * 0.7, -widest), (half, -widest)))
        labels = (Label("widest", (-half * 0.68, -widest - SMALL / 3), SMALL, Anchor.START),)
    if over:
        drawn += (Stroke(_flank(ball, count, 1, 0.0), Role.SCORE),)
    return Drawing(drawn, labels)


def build_cap(tier: Solid) -> Iterable[Piece]:
    """Yield the cap that hides where the points of the gores meet."""
    ball = tier.gored
    if ball is None or tier.spec.cover != "panelled":
        return
    across = 2 * CAP * ball.radius
    outline = disc(across)
    title = f"{tier.name}: cap"
    words = title_lines(title, f"{measure(across)} across")
    yield Piece(
        owner=tier.owner,
        kind="cap",
        title=title,
        surface="covered",
        copies=1 if ball.is_cut else 2,
        use=f"Cut from {fondant(tier.spec, tier.spec.paste_mm)}, {OUT}; lay it over the points of"
        " the gores.",
        outline=circle((0, 0), across / 2),
        drawing=centre_cross(across / 8) + Drawing(labels=text_block(words, quadrant(outline))),
        values={"across_mm": across},
    )
