"""Swing strip: a pivot and a pencil hole for every circle of the cake, on one strip of paper."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.drawing.lettering import fitted
from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.path import Box, Point, circle, rectangle
from templates_gen.drawing.piece import Drawing, Label, Piece, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.pieces.drape import drape_outline
from templates_gen.pieces.marks import SMALL, TEXT, strokes
from templates_gen.tiers.stack import Stack

LANE = 5.0
"""Height of the row in which a hole and its name stand, mm."""
LEAST_LANES = 5
PIVOT = 9.0
"""From the end of the strip to its pivot, mm."""
HOLE = 1.25
"""Radius of a pencil hole, mm."""
LONGEST_NAME = 70.0
SAME = 0.05
"""Circles whose radius differs by less, mm, share a hole."""


@dataclass(frozen=True, slots=True)
class _Hole:
    """A pencil hole: where it stands as seen from the pivot, its radius and its name."""

    at: Point
    radius: float
    name: str


def circles(stack: Stack) -> list[tuple[str, float]]:
    """Return every circle of the cake: its name and how wide it is, mm."""
    found = [("drum", stack.drum.across)]
    for tier in stack.tiers:
        found += [
            (f"{tier.name} board", tier.asked.board_mm),
            (f"{tier.name} bare", tier.bare.outline.across),
            (f"{tier.name} coated", tier.coated.outline.across),
            (f"{tier.name} covered", tier.covered.outline.across),
        ]
        if tier.asked.cover == "drape":
            found.append((f"{tier.name} drape circle", drape_outline(tier).across))
    return found


def build(stack: Stack) -> Piece:
    """Return the one swing strip of a cake."""
    holes = _placed(_merged(circles(stack)))
    lanes = max(LEAST_LANES, *(round(abs(hole.at[1]) / LANE) * 2 + 1 for hole in holes))
    half = lanes * LANE / 2 + 2
    long = max(hole.at[0] + _room(hole) for hole in holes)
    sheet = rectangle(Box(-PIVOT, -half, max(long, max(h.radius for h in holes) + 6), half))
    drawing = Drawing((Stroke(sheet, Role.CUT),)) + _pivot(half)
    for hole in holes:
        drawing += _hole_drawing(hole)
    return Piece(
        id="pack/swing-strip",
        tier="pack",
        title="Swing strip",
        surface="flat",
        copies=1,
        use="Glue it on card. Pin the pivot, put a pencil through a hole and swing a circle; take"
        " the pin away before anything is eaten.",
        outline=sheet,
        drawing=drawing,
        values={"radii_mm": [hole.radius for hole in holes]},
    ).framed()


def _merged(found: list[tuple[str, float]]) -> list[tuple[str, float]]:
    """Return name and radius of each different circle, the smallest first."""
    merged: list[tuple[str, float]] = []
    for name, across in sorted(found, key=lambda entry: entry[1]):
        if merged and across / 2 - merged[-1][1] < SAME:
            merged[-1] = (f"{merged[-1][0]}, {name}", merged[-1][1])
        else:
            merged.append((name, across / 2))
    return merged


def _placed(radii: list[tuple[str, float]]) -> list[_Hole]:
    """Put each hole in the lane nearest the middle where its name has room."""
    ends: list[float] = [PIVOT]
    holes = []
    for name, radius in radii:
        text = fitted(f"{name}: {in_both(2 * radius)}", LONGEST_NAME, SMALL)
        lane = 0
        while lane < len(ends) and _along(radius, lane) - HOLE - 1 < ends[lane]:
            lane += 1
        if lane == len(ends):
            ends.append(0.0)
        hole = _Hole((_along(radius, lane), _height(lane)), radius, text)
        ends[lane] = hole.at[0] + _room(hole)
        holes.append(hole)
    return holes


def _height(lane: int) -> float:
    """Return how far lane 0, 1, 2, 3 … lies from the middle: 0, up 1, down 1, up 2 … lanes."""
    return (lane + 1) // 2 * LANE * (1 if lane % 2 else -1)


def _along(radius: float, lane: int) -> float:
    """Return how far along the strip a hole of this radius stands in a lane."""
    return math.sqrt(max(radius**2 - _height(lane) ** 2, 0.0))


def _room(hole: _Hole) -> float:
    """Return what a hole and its name take of the lane."""
    return HOLE + 1.5 + Label(hole.name, (0, 0), SMALL).width + 2


def _hole_drawing(hole: _Hole) -> Drawing:
    x, y = hole.at
    name = Label(hole.name, (x + HOLE + 1.5, y - SMALL / 3), SMALL)
    return Drawing((Stroke(circle(hole.at, HOLE), Role.CUT),), (name,))


def _pivot(half: float) -> Drawing:
    arm = 3.5
    cross = strokes(Role.CENTRE, ((-arm, 0), (arm, 0)), ((0, -arm), (0, arm)))
    ring = Stroke(circle((0, 0), 2), Role.GUIDE)
    return Drawing(
        (*cross, ring),
        (
            Label("pin here", (-6.5, -half + 1.5), SMALL),
            Label("Swing strip", (-6.5, half - 3.5), TEXT, bold=True),
        ),
    )
