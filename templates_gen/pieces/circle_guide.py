"""Circle guide: a pivot and a pencil hole for every circle of the cake, on one strip of paper."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.fonts import fitted
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, TEXT
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import line, rectangle
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.pieces.boards import ring_opening
from templates_gen.pieces.carving import levels
from templates_gen.pieces.marks import strokes
from templates_gen.units import in_both

PIVOT = 8.5
"""From the end of the strip, and from its lower edge, to the pivot, mm."""
HOLE = 1.25
"""Radius of a pencil hole, mm."""
LEAST_GAP = 3.6
"""The least distance of holes and of names, mm."""
NAME = 62.0
"""The most room for a name, which stands upright above its hole, mm."""
BEYOND = 1.5
"""Paper above the longest name, mm."""
FANNED = 8
"""How many holes of nearly one radius are turned away from each other."""
SAME = 0.05
"""Circles whose radius differs by less, mm, share a hole."""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle of the cake: whose it is, what it is, its radius in mm."""

    owner: str
    what: str
    radius: float


@dataclass(frozen=True, slots=True)
class _Hole:
    """A pencil hole as seen from the pivot, its radius, its name and where that starts along x."""

    at: Point
    radius: float
    name: str
    name_x: float


def circles(stack: DecoratedStack) -> list[Circle]:
    """Return every circle of the cake."""
    outlines = [] if stack.drum is None else [("drum", "", stack.drum)]
    for tier in stack.tiers:
        outlines += [
            (tier.name, "board", tier.board),
            (tier.name, "bare", tier.bare.rim),
            (tier.name, "coated", tier.coated.rim),
            (tier.name, "covered", tier.covered.rim),
        ]
        if tier.spec.cover == "drape":
            outlines.append((tier.name, "rolled out", tier.drape))
    found = [
        Circle(owner, what, outline.radius) for owner, what, outline in outlines if outline.radius
    ]
    ring = ring_opening(stack)
    if ring is not None and ring.radius:
        found.append(Circle("drum", "ring, inside", ring.radius))
    return found + [
        Circle(tier.name, f"layer {level.name}", level.radius)
        for tier in stack.tiers
        for level in levels(tier, stack.estimates)
        if level.radius
    ]


def build(stack: DecoratedStack) -> Iterable[Piece]:
    """Yield the one circle guide of a cake that has circles."""
    found = circles(stack)
    if not found:
        return
    holes = _placed(_shared(found))
    words = max(hole.at[1] for hole in holes) + LEAST_GAP
    end = max(max(hole.radius, hole.name_x) for hole in holes) + 6
    drawing = _pivot(words)
    for hole in holes:
        drawing += _hole_drawing(hole, words)
    top = max(label.box.y1 for label in drawing.labels) + BEYOND
    sheet = rectangle(Box(-PIVOT, -PIVOT, end, top))
    yield Piece(
        owner="pack",
        kind="circle-guide",
        tier="pack",
        title="Circle guide",
        surface="flat",
        copies=1,
        use="Glue it on card. Pin the pivot, put a pencil through a hole and swing a circle; take"
        " the pin away before anything is eaten.",
        outline=sheet,
        drawing=drawing,
        values={"radii_mm": tuple(hole.radius for hole in holes)},
    )


def _shared(found: Iterable[Circle]) -> list[list[Circle]]:
    """Gather circles of the same radius, the smallest first."""
    shared: list[list[Circle]] = []
    for each in sorted(found, key=lambda circle: circle.radius):
        if shared and each.radius - shared[-1][0].radius < SAME:
            shared[-1].append(each)
        else:
            shared.append([each])
    return shared


def _name(same: Iterable[Circle]) -> str:
    """Name circles of one radius by their width and what they are."""
    by_owner: dict[str, list[str]] = {}
    for each in same:
        by_owner.setdefault(each.owner, []).append(each.what)
        across = in_both(2 * each.radius)
    names = (f"{owner} {', '.join(whats)}".strip() for owner, whats in by_owner.items())
    return fitted(f"{across}: {'; '.join(names)}", NAME, SMALL)


def _placed(shared: Iterable[list[Circle]]) -> list[_Hole]:
    """Put each hole at its radius, turned about the pivot clear of the last, its name above it."""
    holes: list[_Hole] = []
    name_x = 0.0
    for same in shared:
        radius = same[0].radius
        last = holes[-FANNED:]
        places = list(_fan(radius))
        # where even the fan is full, holes of nearly one radius lie on each other
        at = next((place for place in places if _is_clear(place, last)), places[0])
        name_x = max(name_x + LEAST_GAP, at[0])
        holes.append(_Hole(at, radius, _name(same), name_x))
    return holes


def _fan(radius: float) -> Iterator[Point]:
    """Yield places at a radius from the pivot, from the line of holes upwards."""
    for step in range(max(1, min(FANNED, int(radius * math.pi / 2 / LEAST_GAP)))):
        angle = step * LEAST_GAP / radius
        yield radius * math.cos(angle), radius * math.sin(angle)


def _is_clear(place: Point, others: Iterable[_Hole]) -> bool:
    return all(math.dist(place, other.at) >= LEAST_GAP - 0.1 for other in others)


def _hole_drawing(hole: _Hole, words: float) -> Drawing:
    """Draw a hole, and a line to its name where the name does not stand straight above."""
    x, y = hole.at
    drawn = [Stroke(circle(hole.at, HOLE), Role.CUT)]
    if hole.name_x - x > 0.5:
        drawn.append(Stroke(line((x, y + HOLE), (hole.name_x, words - 0.5)), Role.NOTE))
    name = Label(hole.name, (hole.name_x + SMALL / 3, words + 0.5), SMALL, turn=90)
    return Drawing(tuple(drawn), (name,))


def _pivot(words: float) -> Drawing:
    arm = 3.5
    cross = strokes(Role.CENTRE, ((-arm, 0), (arm, 0)), ((0, -arm), (0, arm)))
    ring = Stroke(circle((0, 0), 2), Role.GUIDE)
    return Drawing(
        (*cross, ring),
        (
            Label("pin here", (-6.5, -PIVOT + 1.5), SMALL),
            Label("Circle guide", (-4.5, words), TEXT, turn=90, bold=True),
        ),
    )
