"""Panels: how many close round the side, how wide each is, and where their joins stand."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import count, takewhile

from templates_gen.cake.model import Panels
from templates_gen.drawing.numbers import MM_PER_INCH, decimal, in_both
from templates_gen.drawing.path import Point, line
from templates_gen.drawing.piece import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError, Doubt, Problem
from templates_gen.tiers.outline import Round
from templates_gen.tiers.solid import Layer, Solid

LARGEST_GAP = 2.0
"""Left over at a join, mm, up to which panels count as closing: common practice, no source."""
TINS = range(4, 17)
"""Tin sizes in inches on which a mould is tried."""
PASTE_RANGE = (2.0, 6.0)
"""Thickness of paste, mm, worth suggesting."""


@dataclass(frozen=True, slots=True)
class PanelRow:
    """Equal panels round a girth: their number, width and height in mm, and what is left over."""

    count: int
    width: float
    height: float
    courses: int
    girth: float

    @property
    def left_over(self) -> float:
        """The girth that the panels do not cover; negative when they are too long."""
        return self.girth - self.count * self.width

    @property
    def per_join(self) -> float:
        """What is left over at each join."""
        return self.left_over / self.count

    @property
    def pitch(self) -> float:
        """From one panel to the next round the girth."""
        return self.girth / self.count


def panel_layer(tier: Solid, panels: Panels) -> Layer:
    """Return the surface the panels are measured on.

    Panels on the finished side lie with their backs on the covered surface. Panels that are the
    covering are the wrap cut into equal parts, and like it keep their length in mid-paste.
    """
    return tier.wrapped if panels.covering else tier.covered


def panel_row(tier: Solid, panels: Panels) -> PanelRow:
    """Return the panels that close round the tier, nearest to what was asked.

    Raises CakeError when not one panel fits.
    """
    layer = panel_layer(tier, panels)
    girth = layer.side.girth
    height = panels.height.mm if panels.height else layer.depth / panels.courses
    wanted = panels.mould or panels.width
    if wanted is None:
        number = panels.count or max(3, nearest_count(girth, layer.depth / panels.courses))
        return PanelRow(number, girth / number, height, panels.courses, girth)
    number = nearest_count(girth, wanted.mm)
    if number < 1:
        raise CakeError(
            [
                Problem(
                    tier.key("panels", "mould" if panels.mould else "width"),
                    f"{wanted} on a side {in_both(girth)} round",
                    f"up to {in_both(girth)}",
                    "use a shorter panel",
                )
            ]
        )
    width = wanted.mm if panels.mould else girth / number
    return PanelRow(number, width, height, panels.courses, girth)


def nearest_count(girth: float, width: float) -> int:
    """Return the number of panels of ``width`` that comes nearest to the girth; 0 if none fits."""
    if width > girth + LARGEST_GAP:
        return 0
    return max(1, math.floor(girth / width + 0.5))


def closes_on(tier: Solid, panels: Panels, width: float) -> list[int]:
    """Return the tin sizes in inches on which such panels close, with this tier's layers."""
    bare = tier.bare.outline.across
    layers = panel_layer(tier, panels).outline.across - bare
    sizes = []
    for inches in TINS:
        girth = Round(inches * MM_PER_INCH + layers).girth
        number = nearest_count(girth, width)
        if number and abs(girth - number * width) / number <= LARGEST_GAP:
            sizes.append(inches)
    return sizes


def advice(tier: Solid, panels: Panels, row: PanelRow) -> tuple[Doubt, ...]:
    """Say in plain words what to do when the panels do not close."""
    if abs(row.per_join) <= LARGEST_GAP:
        return ()
    gap = in_both(abs(row.per_join))
    opens = row.per_join > 0
    says = (
        f"{row.count} panels leave {gap} open"
        if opens
        else f"{row.count} panels are {gap} too long"
    )
    ways = [
        f"spread them evenly and pipe over the joins (they stand {in_both(row.pitch)} apart)"
        if opens
        else f"cut each down to {in_both(row.pitch)}",
        *_thinner(tier, panels, row),
    ]
    sizes = closes_on(tier, panels, row.width)
    if sizes:
        ways.append(f"use this panel on a tin of {', '.join(map(str, sizes))} in")
    key = tier.key("panels", "mould" if panels.mould else "count")
    return (Doubt(key, f"{tier.name}: {says} at each join: {'; or '.join(ways)}."),)


def _thinner(tier: Solid, panels: Panels, row: PanelRow) -> list[str]:
    """Suggest the thickness of paste with which the panels close, if it is a usual one."""
    layers = 1 if panels.covering else 2
    change = row.left_over / math.pi / layers
    paste = tier.asked.paste_mm - change
    least, most = PASTE_RANGE
    usual = tier.asked.cover != "none" and least <= paste <= most
    return [f"roll the paste {decimal(paste, 1)} mm thick"] if usual else []


def joins_drawing(row: PanelRow, panels: Panels, girth: float, depth: float, end: float) -> Drawing:
    """Draw joins and courses in side coordinates, from u = 0 to ``end``.

    ``girth`` and ``depth`` are those of the surface drawn on; panels keep their share of it.
    """
    pitch = girth / row.count
    gap = row.per_join if row.per_join > LARGEST_GAP / 4 else 0.0
    foot = depth if panels.place == "base" else min(row.height * row.courses, depth)
    drawn: list[tuple[Point, Point]] = []
    for course in range(row.courses):
        low = foot - course * row.height
        high = low - row.height
        shift = pitch / 2 if panels.front == "panel" else 0.0
        shift += pitch / 2 if panels.joins == "staggered" and course % 2 else 0.0
        for edge in (-gap / 2, gap / 2) if gap else (0.0,):
            first = (girth / 2 + shift + edge) % pitch
            places = takewhile(lambda u: u <= end, count(first, pitch))
            drawn += [((u, high), (u, low)) for u in places]
        drawn.append(((0.0, high), (end, high)))
    drawn.append(((0.0, foot), (end, foot)))
    return Drawing(tuple(Stroke(line(a, b), Role.GUIDE) for a, b in drawn))


def band(row: PanelRow, panels: Panels, depth: float) -> tuple[float, float]:
    """Return from which v to which v the rows stand."""
    tall = min(row.height * row.courses, depth)
    return (depth - tall, depth) if panels.place == "base" else (0.0, tall)
