"""Drips: how many close round the rim, how long each is, and its outline on the side."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from templates_gen.cake.model import Drips
from templates_gen.cake.rhythms import RHYTHMS
from templates_gen.drawing.numbers import decimal, in_both
from templates_gen.drawing.path import Command, Path, Point, arc_cubics
from templates_gen.drawing.piece import Drawing, Stroke, Value
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError, Problem
from templates_gen.pieces.guide import Guide
from templates_gen.pieces.repeats import closing_count, repeat
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
            "positions_mm": self.positions,
            "lengths_mm": self.lengths,
        }


def drip_row(tier: Solid, drips: Drips) -> DripRow:
    """Return the drips that close round the covered rim, nearest to what was asked.

    Raises CakeError when neighbours would touch or a drip cannot be as long as it would be.
    """
    side = tier.covered.side
    rhythm = RHYTHMS[drips.rhythm]
    count = closing_count(side.girth, drips.spacing.mm, rhythm.multiple)
    round_rim = repeat(count, side.girth, at_front=drips.front == "drip")
    shortest, longest = _extremes(side.depth, drips)
    problems = [
        *_touching(tier, drips, round_rim.pitch),
        *_stubby(tier, drips, shortest),
        *_too_long(tier, drips, longest),
        *(
            replace(problem, key=tier.key("drips", *map(str, problem.key)))
            for problem in rhythm.problems(count, drips)
        ),
    ]
    if problems:
        raise CakeError(problems)
    shares = rhythm.share_out(count, drips)
    placed = sorted(
        (round_rim.place(index), shortest + share * (longest - shortest))
        for index, share in enumerate(shares)
    )
    positions, lengths = zip(*placed, strict=True)
    return DripRow(positions, lengths, round_rim.pitch, drips.width.mm)


def _extremes(depth: float, drips: Drips) -> tuple[float, float]:
    """Return the shortest and longest length; what is left out follows the depth of the side."""
    stub = STUBBIEST * drips.width.mm
    longest = drips.longest.mm if drips.longest else None
    shortest = drips.shortest.mm if drips.shortest else max(depth / 4, stub)
    if longest is None:
        return shortest, max(depth / 2, shortest)
    return (shortest if drips.shortest else min(shortest, longest)), longest


def _touching(tier: Solid, drips: Drips, spacing: float) -> Iterator[Problem]:
    """Yield what is wrong when neighbours touch, with a spacing that would do."""
    widest = ROOT_WIDTH * drips.width.mm
    if spacing > widest:
        return
    girth, multiple = tier.covered.side.girth, RHYTHMS[drips.rhythm].multiple
    # the most drips that stand apart, and a spacing to which no larger count comes nearer
    most = (math.ceil(girth / widest / multiple) - 1) * multiple
    advice = f'write spacing = "{math.ceil(girth / most)} mm", or make' if most else "make"
    yield Problem(
        tier.key("drips", "spacing"),
        f"“{drips.spacing}”: drips {drips.width} wide, {decimal(widest, 1)} mm at their roots,"
        f" would stand {decimal(spacing, 1)} mm apart and touch",
        f"more than {decimal(widest, 1)} mm between drips that close round the tier",
        f"{advice} the drips narrower",
    )


def _stubby(tier: Solid, drips: Drips, shortest: float) -> Iterator[Problem]:
    """Yield what is wrong when a drip is shorter than it can be drawn."""
    stub = STUBBIEST * drips.width.mm
    if shortest < stub - 1e-9:
        yield Problem(
            tier.key("drips", "shortest" if drips.shortest else "longest"),
            f"a drip {decimal(shortest, 1)} mm long and {drips.width} wide",
            f"{in_both(stub)} or more, one and a half times its width",
            "make the drips longer or narrower",
        )


def _too_long(tier: Solid, drips: Drips, longest: float) -> Iterator[Problem]:
    """Yield what is wrong when a drip would be longer than the side is deep."""
    depth = tier.covered.side.depth
    if longest > depth:
        yield Problem(
            tier.key("drips", "longest" if drips.longest else "width"),
            f"a drip {decimal(longest, 1)} mm long on a side {decimal(depth, 1)} mm deep",
            f"up to {in_both(depth)}",
            "make the drips shorter or narrower",
        )


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


def drips_drawing(row: DripRow) -> Drawing:
    """Draw the row in side coordinates."""
    return Drawing(
        tuple(
            Stroke(drip_outline(u, row.width, length), Role.GUIDE)
            for u, length in zip(row.positions, row.lengths, strict=True)
        )
    )


def guide(tier: Solid) -> Guide | None:
    """Return the outlines of the drips; those marked on a rim ring only are not on the collar."""
    drips = tier.asked.drips
    if drips is None:
        return None
    row = drip_row(tier, drips)
    return Guide(
        tier.covered,
        drips_drawing(row),
        0.0,
        max(row.lengths),
        row.values,
        on_collar=drips.marks != "rim ring",
    )
