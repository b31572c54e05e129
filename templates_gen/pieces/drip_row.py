"""Drips: how many close round the rim, how long each is, and its outline on the side."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.cake.model import Drips
from templates_gen.cake.rhythms import RHYTHMS
from templates_gen.drawing.numbers import decimal, in_both
from templates_gen.drawing.path import Command, Path, Point, arc_cubics
from templates_gen.drawing.piece import Drawing, Stroke, Value
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError, Problem
from templates_gen.tiers.solid import Solid

FLARE = 0.25
"""How far the root of a drip spreads on each side, over its width."""
FOOT = 0.575
"""Radius of the rounded foot over the width of the run: a little wider than the run."""
ROOT_WIDTH = 1 + 2 * FLARE
STUBBIEST = 1.5
"""The least length of a drip over its width."""


@dataclass(frozen=True, slots=True)
class DripRow:
    """The drips of a tier in order from the back join: places u and lengths, mm."""

    positions: tuple[float, ...]
    lengths: tuple[float, ...]
    spacing: float
    width: float

    @property
    def values(self) -> dict[str, Value]:
        """The figures of the row."""
        return {
            "drip_count": len(self.positions),
            "spacing_mm": self.spacing,
            "positions_mm": list(self.positions),
            "lengths_mm": list(self.lengths),
        }


def drip_row(tier: Solid, drips: Drips) -> DripRow:
    """Return the drips that close round the covered rim, nearest to what was asked.

    Raises CakeError when neighbours would touch or a drip would be shorter than it can be drawn.
    """
    girth = tier.covered.side.girth
    rhythm = RHYTHMS[drips.rhythm]
    rounds = max(1, math.floor(girth / drips.spacing.mm / rhythm.multiple + 0.5))
    count = rounds * rhythm.multiple
    spacing, width = girth / count, drips.width.mm
    shortest, longest = _extremes(tier, drips)
    _check(tier, drips, spacing, shortest)
    start = girth / 2 + (spacing / 2 if drips.front == "gap" else 0)
    shares = rhythm.shares(count, drips.waves, drips.seed)
    placed = sorted(
        (_on_rim(start + index * spacing, girth), shortest + share * (longest - shortest))
        for index, share in enumerate(shares)
    )
    positions, lengths = zip(*placed, strict=True)
    return DripRow(positions, lengths, spacing, width)


def _extremes(tier: Solid, drips: Drips) -> tuple[float, float]:
    """Return the shortest and longest length; what is left out follows the depth of the tier."""
    depth, stub = tier.covered.depth, STUBBIEST * drips.width.mm
    longest = drips.longest.mm if drips.longest else None
    shortest = drips.shortest.mm if drips.shortest else max(depth / 4, stub)
    if longest is None:
        return shortest, max(depth / 2, shortest)
    return (shortest if drips.shortest else min(shortest, longest)), longest


def _on_rim(u: float, girth: float) -> float:
    """Return u taken back into [0, girth), with what rounding leaves short of a turn as 0."""
    rest = u % girth
    return 0.0 if girth - rest < 1e-9 else rest


def _check(tier: Solid, drips: Drips, spacing: float, shortest: float) -> None:
    problems = []
    widest = ROOT_WIDTH * drips.width.mm
    if spacing <= widest:
        enough = math.ceil(widest + 1)
        problems.append(
            Problem(
                tier.key("drips", "spacing"),
                f"“{drips.spacing}”: drips {drips.width} wide, {decimal(widest, 1)} mm at their"
                " roots, would touch",
                f"more than {decimal(widest, 1)} mm",
                f'write spacing = "{enough} mm", or make the drips narrower',
            )
        )
    stub = STUBBIEST * drips.width.mm
    if shortest < stub - 1e-9:
        problems.append(
            Problem(
                tier.key("drips", "shortest" if drips.shortest else "longest"),
                f"a drip {decimal(shortest, 1)} mm long and {drips.width} wide",
                f"{in_both(stub)} or more, one and a half times its width",
                "make the drips longer or narrower",
            )
        )
    if problems:
        raise CakeError(problems)


def drip_outline(u: float, width: float, length: float) -> Path:
    """Return the outline of a drip at the rim place u: spreading root, run, rounded foot.

    In side coordinates, v down from the rim at 0 to the foot at ``length``.
    """
    half, flare, foot = width / 2, FLARE * width, FOOT * width
    root = min(0.4 * width, 0.3 * length)
    neck = max(length - 2.2 * foot, root)
    middle = length - foot
    left = _descent(u, -1, half, flare, foot, (root, neck, middle))
    right = _descent(u, 1, half, flare, foot, (root, neck, middle))
    return Path(
        (
            ("moveTo", ((u - half - flare, 0.0),)),
            *left,
            *arc_cubics((u, middle), foot, math.pi, -math.pi),
            *_reversed((u + half + flare, 0.0), right),
            ("closePath", ()),
        )
    )


def _descent(
    u: float, way: int, half: float, flare: float, foot: float, heights: tuple[float, float, float]
) -> tuple[Command, ...]:
    """Return one flank of a drip from the rim down to the widest place of its foot."""
    root, neck, middle = heights
    run, wide = u + way * half, u + way * foot
    turn = 0.55 * flare
    bend = (neck + middle) / 2
    return (
        ("curveTo", ((run + way * (flare - turn), 0.0), (run, root * 0.45), (run, root))),
        ("lineTo", ((run, neck),)),
        ("curveTo", ((run, bend), (wide, bend), (wide, middle))),
    )


def _reversed(start: Point, commands: tuple[Command, ...]) -> tuple[Command, ...]:
    """Return the same flank drawn from its end back to ``start``."""
    ends = [start, *(points[-1] for _, points in commands)]
    return tuple(
        (name, (*reversed(points[:-1]), ends[index]))
        for index, (name, points) in reversed(list(enumerate(commands)))
    )


def drips_drawing(row: DripRow, girth: float, beyond: float) -> Drawing:
    """Draw the row in side coordinates from u = 0 to girth + ``beyond``, where it begins anew."""
    reach = ROOT_WIDTH * row.width / 2
    drawn = []
    for u, length in zip(row.positions, row.lengths, strict=True):
        for turn in (-1, 0, 1):
            place = u + turn * girth
            if -reach < place < girth + beyond + reach:
                drawn.append(Stroke(drip_outline(place, row.width, length), Role.GUIDE))
    return Drawing(tuple(drawn))
