"""Run-out collars: sheets to lie under acetate, one for each section of the ring."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from itertools import zip_longest

from fontTools.misc.transform import Transform

from templates_gen.cakefile.run_out import RunOut
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import Line, text_block
from templates_gen.errors import CakeError, Problem, geometry_at
from templates_gen.geometry.areas.booleans import Area, difference, edge_of, intersection, region
from templates_gen.geometry.areas.lines import within
from templates_gen.geometry.areas.thickness import is_one
from templates_gen.geometry.box import Box
from templates_gen.geometry.offset import offset
from templates_gen.geometry.path import Path, polyline, rectangle
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.tiers.seat import TOUCHING
from templates_gen.units import at_most, in_both

FREE = 2.0
"""What a collar stays off the tier above, mm: our choice."""
MARGIN, WORDS = 6.0, 20.0
"""Paper round a section, and below it for words, mm."""
SAME = 1.0
"""Sections that differ by less are alike, mm²: the width of a pencil line along them is more."""
NAMES = {1: ("whole",), 2: ("back", "front"), 4: ("back", "left", "front", "right")}
"""What sections are called, from the first join counter-clockwise as seen from above."""
FIRST_JOIN = {1: 0.0, 2: 0.0, 4: math.pi / 4}
"""Where the first join is, from the right counter-clockwise: none is at the front."""


@dataclass(frozen=True)
class Rim:
    """A tier with a collar, and how much of its top is free round the tier above it, mm."""

    tier: DecoratedTier
    spec: RunOut
    free: float | None

    @cached_property
    def outer(self) -> Path:
        """The edge beyond the rim. Raises CakeError."""
        with geometry_at(self.tier.key("run_out", "width"), "a width that leaves one ring", _LESS):
            return offset(self.tier.covered.rim, self.spec.width.mm).path()

    @cached_property
    def ring(self) -> Area:
        """All of it, about the middle of the tier. Raises CakeError."""
        with geometry_at(self.tier.key("run_out", "overlap"), "an overlap that leaves it", _LESS):
            inner = offset(self.tier.covered.rim, -self.spec.overlap.mm).path()
        found = difference(region(self.outer), [region(inner)])
        assert found is not None  # the outer edge is larger than the inner one
        return found


_LESS = "make it less"


def rims(stack: DecoratedStack) -> list[Rim]:
    """Return the tiers that have a collar."""
    return [
        Rim(tier, tier.spec.run_out, None if seat is None or seat.raised else seat.clearance)
        for tier, seat in zip_longest(stack.tiers, stack.seats[1:])
        if tier.spec.run_out is not None
    ]


def build(rim: Rim) -> Iterable[Piece]:
    """Yield a sheet for each section that is unlike the others. Raises CakeError."""
    if rim.free is not None and rim.spec.overlap.mm > rim.free - FREE + TOUCHING:
        raise CakeError([_in_the_way(rim, rim.free - FREE)])
    names = NAMES[rim.spec.sections]
    alike = _are_alike(rim)
    for number, name in enumerate(names):
        section = edge_of(_section(rim, number))
        if len(names) > 1 and not is_one(section):
            raise CakeError([_in_bits(rim)])
        yield _sheet(rim, section, "section" if alike and len(names) > 1 else name, alike=alike)
        if alike:
            return


def _are_alike(rim: Rim) -> bool:
    """Tell whether each section of a ring, turned to the place of the first one, is as that."""
    if rim.tier.covered.rim.radius is not None:
        return True
    first, count = _section(rim, 0), rim.spec.sections
    for number in range(1, count):
        back = Transform().rotate(-math.tau * number / count)
        turned = region(edge_of(_section(rim, number)).transformed(back))
        if abs(turned.area - first.area) > SAME or _beyond(turned, first) > SAME:
            return False
    return count > 1


def _beyond(area: Area, other: Area) -> float:
    """Return what of an area lies beyond another, mm²."""
    left = difference(area, [other])
    return 0.0 if left is None else left.area


def _in_the_way(rim: Rim, most: float) -> Problem:
    return Problem(
        rim.tier.key("run_out", "overlap"),
        f"“{rim.spec.overlap}” with the tier above {in_both(most + FREE)} from the rim",
        f"up to {at_most(max(most, 0.0))}",
        "make it less, or the tier above smaller",
    )


def _in_bits(rim: Rim) -> Problem:
    return Problem(
        rim.tier.key("run_out", "sections"),
        f"{rim.spec.sections} sections, one of which would be in several parts",
        "sections of one part",
        "write sections = 1",
    )


def _section(rim: Rim, number: int) -> Area:
    """Return a section: what of the ring lies between two joins."""
    count = rim.spec.sections
    if count == 1:
        return rim.ring
    start, turn = FIRST_JOIN[count] + math.tau * number / count, math.tau / count
    far = 2 * max(rim.outer.bounds.size)
    angles = [start + turn * share for share in (0.0, 0.25, 0.5, 0.75, 1.0)]
    wedge = [(0.0, 0.0), *((far * math.cos(a), far * math.sin(a)) for a in angles)]
    found = intersection([rim.ring, region(polyline(wedge, closed=True))])
    if found is None:
        raise CakeError([_in_bits(rim)])
    return found


def _sheet(rim: Rim, section: Path, name: str, *, alike: bool) -> Piece:
    tier, spec, box = rim.tier, rim.spec, section.bounds
    count = spec.sections if alike else 1
    edge = within(tier.covered.rim.path(), region(section))
    checked = [Stroke(edge, Role.CHECK)] if edge.commands else []
    paper = Box(box.x0, box.y0 - WORDS, box.x1, box.y1).expanded(MARGIN)
    title = f"{tier.name}: run-out collar, {name}"
    words = (
        Line(title, bold=True),
        Line(f"run {count} in royal icing; the dashed line is the finished rim"),
    )
    space = Box(paper.x0 + 1, paper.y0 + 1, paper.x1 - 1, box.y0 - 3)
    return Piece(
        owner=tier.owner,
        kind="run-out",
        title=title,
        surface="flat",
        copies=count,
        use=f"Lay it under acetate, outline it in {spec.colour} royal icing, flood it"
        f" {in_both(spec.thickness.mm)} thick, dry it flat, set it on the rim with icing.",
        outline=rectangle(paper),
        drawing=Drawing((Stroke(section, Role.PIPE), *checked), text_block(words, space)),
        values={
            "beyond_rim_mm": spec.width.mm,
            "on_top_mm": spec.overlap.mm,
            "outer_across_mm": max(rim.outer.bounds.size),
            "ring_area_mm2": rim.ring.area,
            "sections": spec.sections,
        },
        part="" if alike else name,
    )
