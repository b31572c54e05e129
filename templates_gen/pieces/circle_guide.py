"""Circle guide: a pivot and a pencil hole for every circle of the cake, on one strip of paper."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke, joined
from templates_gen.drawing.fonts import CAP_HEIGHT, fitted, text_width
from templates_gen.drawing.piece import PACK, Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, Line
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.path import line, rectangle
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.pieces.boards import ring_opening
from templates_gen.pieces.carving import levels
from templates_gen.pieces.circle_lanes import ARM, HOLE, Hole, Spot, Strip, strip
from templates_gen.pieces.marks import strokes
from templates_gen.units import in_both

USE = "Glue it on card. Pin the pivot, put a pencil in a hole and swing a circle; take the pin out."
WORDS = (Line("Circle guide", SMALL, bold=True), Line("pin here", SMALL))
"""What stands at the pivot."""
MIDDLE = CAP_HEIGHT / 2 * SMALL
"""From the baseline of words to the middle of their capitals, mm."""
NAME = 100.0
"""The most room for a name, mm."""
SAME = 0.05
"""Circles whose radius differs by less, mm, share a hole."""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle of the cake: whose it is, what it is, its radius in mm."""

    owner: str
    what: str
    radius: float


def circles(stack: DecoratedStack) -> list[Circle]:
    """Return every circle of the cake."""
    outlines = [] if stack.drum is None else [("drum", "", stack.drum)]
    for tier in stack.tiers:
        if tier.board_thickness:
            outlines.append((tier.name, "board", tier.board))
        outlines += [
            (tier.name, "bare", tier.bare.rim),
            (tier.name, "coated", tier.coated.rim),
            (tier.name, "covered", tier.covered.rim),
        ]
        if tier.top.is_tapered and tier.spec.cover == "panelled" and tier.spec.first == "side":
            outlines.append((tier.name, "top disc", tier.top.rim))
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


def guides(stack: DecoratedStack) -> list[tuple[Circle, ...]]:
    """Return what each circle guide shows: there is one if the cake has circles."""
    found = circles(stack)
    return [tuple(found)] if found else []


def build(found: tuple[Circle, ...]) -> Iterable[Piece]:
    """Yield the circle guide of some circles."""
    shared = _shared(found)
    names = [_name(same) for same in shared]
    widths = [text_width(name, SMALL) for name in names]
    holes = [Hole(same[0].radius, width) for same, width in zip(shared, widths, strict=True)]
    laid = strip(holes, (WORDS[0].width, WORDS[1].width))
    spots = zip(laid.spots, names, strict=True)
    yield Piece(
        owner=PACK,
        kind="circle-guide",
        title="Circle guide",
        surface="flat",
        use=USE,
        outline=rectangle(laid.box),
        drawing=joined((_pivot(laid), *(_hole_drawing(*each) for each in spots))),
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


def _hole_drawing(spot: Spot, name: str) -> Drawing:
    """Draw a hole with its name, and the pointer from one to the other."""
    x, y = spot.name
    anchor = Anchor.END if spot.before else Anchor.START
    return Drawing(
        (Stroke(circle(spot.hole, HOLE), Role.CUT), Stroke(line(*spot.pointer), Role.NOTE)),
        (Label(name, (x, y - MIDDLE), SMALL, anchor, stays=True),),
    )


def _pivot(laid: Strip) -> Drawing:
    """Draw the cross to pin, with the words at it."""
    cross = strokes(Role.CENTRE, ((-ARM, 0), (ARM, 0)), ((0, -ARM), (0, ARM)))
    ring = Stroke(circle((0, 0), 2), Role.GUIDE)
    turn, anchor = (90, Anchor.MIDDLE) if laid.upright else (0, Anchor.START)
    down = 0.0 if laid.upright else MIDDLE
    words = (
        Label(line.text, (x, y - down), line.size, anchor, turn, line.bold)
        for line, (x, y) in zip(WORDS, laid.words, strict=True)
    )
    return Drawing((*cross, ring), tuple(words))
