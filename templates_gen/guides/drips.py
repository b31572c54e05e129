"""Drips: how many close round the rim, how long each is, and its outline on the side."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from templates_gen.cakefile.drips import Drips
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.patterns import PATTERNS
from templates_gen.drawing.piece import Value
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError, Key, PlanWarning, Problem
from templates_gen.geometry.areas.booleans import clipped_box
from templates_gen.geometry.box import Box, Point, nearest_count
from templates_gen.geometry.path import Path
from templates_gen.guides.drip_outline import FOOT, ROOT_WIDTH, drip_outline
from templates_gen.guides.faces import faces, places_on
from templates_gen.guides.guide import Guide
from templates_gen.guides.openings import Openings
from templates_gen.guides.repeats import repeat
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Solid
from templates_gen.units import at_least, at_most, decimal, inch_fraction

FROM_OPENING = 5.0
"""The least distance of a drip from an opening, mm."""
STUBBIEST = 1.5
"""The least length of a drip over its width."""


@dataclass(frozen=True, slots=True)
class DripRow:
    """The drips of a tier in order from the back join: places u and lengths, mm.

    ``shortened`` and ``dropped`` are how many would have run into an opening.
    """

    positions: tuple[float, ...]
    lengths: tuple[float, ...]
    spacing: float
    width: float
    shortened: int = 0
    dropped: int = 0

    @property
    def words(self) -> tuple[str, ...]:
        """Its lengths in both units, to the nearest mm."""
        return tuple(f"{decimal(mm, 0)} mm ({inch_fraction(mm)} in)" for mm in self.lengths)

    def numbers(self, *, inches: bool) -> tuple[str, ...]:
        """Its lengths as numbers alone, for where there is no room for their unit."""
        return tuple(inch_fraction(mm) if inches else decimal(mm, 0) for mm in self.lengths)

    @property
    def is_even(self) -> bool:
        """Whether all drips are of one length, as it is written."""
        return len(set(self.words)) == 1

    @property
    def values(self) -> dict[str, Value]:
        """The figures of the row."""
        return {
            "drip_count": len(self.positions),
            "spacing_mm": self.spacing,
            "positions_mm": self.positions,
            "lengths_mm": self.lengths,
        }


def drip_row(tier: Solid, drips: Drips, openings: Openings) -> DripRow:
    """Return the drips that close round the covered rim, nearest to the spacing given.

    Raises CakeError when neighbours would touch or a drip cannot be as long as it would be.
    """
    side = tier.covered.side
    pattern = PATTERNS[drips.pattern]
    places = _places(tier, drips)
    count = len(places)
    shortest, longest = _extremes(side.shortest, drips)
    problems = [
        *_touching(tier, drips, _closest(places, side.girth)),
        *_stubby(tier, drips, shortest),
        *_too_long(tier, drips, longest),
        *(problem.within(tier.key("drips")) for problem in pattern.problems(count, drips)),
    ]
    if problems:
        raise CakeError(problems)
    lengths = (shortest + share * (longest - shortest) for share in pattern.share_out(count, drips))
    positions, ordered = zip(*sorted(zip(places, lengths, strict=True)), strict=True)
    row = DripRow(positions, ordered, side.girth / count, drips.width.mm)
    return _clear_of_openings(tier, drips, row, openings)


def _clear_of_openings(tier: Solid, drips: Drips, row: DripRow, openings: Openings) -> DripRow:
    """Return a row whose drips end above the openings of the tier, or are left out there.

    Raises CakeError when none is left.
    """
    area, spec = openings.area(tier.covered), tier.spec.opening
    if area is None or spec is None:
        return row
    kept: list[tuple[float, float]] = []
    half = FOOT * drips.width.mm + FROM_OPENING
    shortened = 0
    for u, length in zip(row.positions, row.lengths, strict=True):
        met = clipped_box(area, Box(u - half, 0.0, u + half, length + FROM_OPENING))
        available = length if met is None else met.y0 - FROM_OPENING
        if available < length and (
            spec.drips == "leave out" or available < STUBBIEST * drips.width.mm
        ):
            continue
        shortened += available < length
        kept.append((u, min(available, length)))
    if not kept:
        raise CakeError.at(
            tier.key("opening", "drips"),
            f"a hole that leaves no room for any of the drips of the tier, {len(row.positions)}"
            " in all",
            "a hole that at least one drip ends above or beside",
            "place the drips closer, make the hole smaller or lower, or leave the drips out",
        )
    positions, lengths = (tuple(each) for each in zip(*kept, strict=True))
    dropped = len(row.positions) - len(kept)
    return replace(row, positions=positions, lengths=lengths, shortened=shortened, dropped=dropped)


def _places(tier: Solid, drips: Drips) -> tuple[float, ...]:
    """Return the places of the drips in the order of their pattern.

    Raises CakeError where they are to stand at corners that a tier does not have.
    """
    rim, multiple = tier.covered.rim, PATTERNS[drips.pattern].multiple(drips)
    if not drips.corners:
        count = nearest_count(rim.girth, drips.spacing.mm, multiple)
        round_rim = repeat(count, rim.girth, at_front=drips.front == "drip")
        return tuple(round_rim.place(index) for index in range(count))
    found = faces(rim)
    if not found:
        raise CakeError.at(
            tier.key("drips", "corners"),
            f"drips at the corners of a tier of shape “{tier.spec.shape}”, which has none",
            "corners on a tier with corners",
            "leave it out",
        )
    return places_on(
        found,
        rim.girth,
        lambda face: nearest_count(face.length, drips.spacing.mm, multiple),
        at_corner=True,
    )


def _closest(places: Sequence[float], girth: float) -> float:
    """Return the least distance of neighbours round the rim."""
    ordered = sorted(places)
    return min(b - a for a, b in pairwise((*ordered, ordered[0] + girth)))


def _extremes(depth: float, drips: Drips) -> tuple[float, float]:
    """Return the shortest and longest length; what is left out follows the depth of the side."""
    said = PATTERNS[drips.pattern].extremes(drips)
    if said is not None:
        return said
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
    girth, multiple = tier.covered.side.girth, PATTERNS[drips.pattern].multiple(drips)
    # the most drips that stand apart, and a spacing to which no larger count comes nearer
    most = (math.ceil(girth / widest / multiple) - 1) * multiple
    advice = f'write spacing = "{math.ceil(girth / most)} mm", or make' if most else "make"
    yield Problem(
        tier.key("drips", "spacing"),
        f"“{drips.spacing}”: drips {drips.width} wide, {decimal(widest, 1)} mm at their roots,"
        f" would stand {decimal(spacing, 1)} mm apart and touch",
        f"more than {at_least(widest)} between drips that close round the tier",
        f"{advice} the drips narrower",
    )


def _key(tier: Solid, drips: Drips, name: str) -> Key:
    """Return the key that says how long drips are, ``name`` unless the pattern lists them."""
    listed = PATTERNS[drips.pattern].extremes(drips) is not None
    return tier.key("drips", "lengths" if listed else name)


def _stubby(tier: Solid, drips: Drips, shortest: float) -> Iterator[Problem]:
    """Yield what is wrong when a drip is shorter than it can be drawn."""
    stub = STUBBIEST * drips.width.mm
    if shortest < stub - 1e-9:
        yield Problem(
            _key(tier, drips, "shortest" if drips.shortest else "longest"),
            f"a drip {decimal(shortest, 1)} mm long and {drips.width} wide",
            f"{at_least(stub)} or more, one and a half times its width",
            "make the drips longer or narrower",
        )


def _too_long(tier: Solid, drips: Drips, longest: float) -> Iterator[Problem]:
    """Yield what is wrong when a drip would be longer than the side is deep."""
    depth = tier.covered.side.shortest
    if longest > depth + 1e-9:
        yield Problem(
            _key(tier, drips, "longest" if drips.longest else "width"),
            f"a drip {decimal(longest, 1)} mm long on a side {decimal(depth, 1)} mm deep",
            f"up to {at_most(depth)}",
            "make the drips shorter or narrower",
        )


def lowest_between(row: DripRow, side: Side, start: float, end: float) -> float:
    """Return the v to which the drips between two u reach, 0 where there are none."""
    half = FOOT * row.width
    return max(
        (
            side.down(u, length)
            for u, length in zip(row.positions, row.lengths, strict=True)
            for turn in (-side.girth, 0.0, side.girth)
            if start - half < u + turn < end + half
        ),
        default=0.0,
    )


def drips_drawing(row: DripRow, side: Side) -> Drawing:
    """Draw the row in side coordinates."""
    return Drawing(
        tuple(
            Stroke(_in_true_size(drip_outline(u, row.width, length), u, side), Role.PIPE)
            for u, length in zip(row.positions, row.lengths, strict=True)
        )
    )


def _in_true_size(path: Path, u: float, side: Side) -> Path:
    """Return the outline of a drip at u as long and as wide on the side as it was drawn."""

    def place(x: float, length: float) -> Point:
        v = side.down(u, length)
        return u + (x - u) / side.girth_ratio(v), v

    return Path(tuple((name, tuple(place(*each) for each in at)) for name, at in path.commands))


def guides(tier: Solid, row: DripRow | None) -> Iterator[Guide]:
    """Yield the outlines of the drips; one marked only on the top-edge guide is left out."""
    drips = tier.spec.drips
    if row is None or drips is None:
        return
    side = tier.covered.side
    lowest = max(map(side.down, row.positions, row.lengths))
    yield Guide(
        tier.covered,
        drips_drawing(row, side),
        0.0,
        lowest,
        row.values,
        _warnings(tier, row),
        on_collar=drips.guide != "top edge",
        name="the drips",
        key=tier.key("drips"),
        covers=True,
    )


def _warnings(tier: Solid, row: DripRow) -> tuple[PlanWarning, ...]:
    """Say what became of drips that would have run into an opening."""
    done = {"shortened": row.shortened, "left out": row.dropped}
    words = ", ".join(f"{count} {what}" for what, count in done.items() if count)
    if not words:
        return ()
    text = f"{tier.name}: drips above the opening: {words}."
    return (PlanWarning(tier.key("opening", "drips"), text),)
