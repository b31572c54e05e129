"""The line of a garland or cascade: down the sides of tiers, over the ledges, on to the drum.

It goes round the middle of the drum by so many degrees for each mm that it falls, so on an upright
round tier it is a helix, and with no turn it goes straight down. Over a ledge it goes straight out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import accumulate, pairwise

from templates_gen.cakefile.cascades import Cascade, ends_of
from templates_gen.cakefile.lengths import Length
from templates_gen.errors import CakeError, all_problems
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.lines import spans_on
from templates_gen.geometry.areas.placement import contains
from templates_gen.geometry.box import Point
from templates_gen.geometry.roots import zero_between
from templates_gen.geometry.tolerances import ROUNDING
from templates_gen.guides.cascade_shapes import Shape, shapes_of
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.seat import Seat
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.stack import Stack
from templates_gen.units import at_most, counted

STEP, TURN = 2.0, 1.0
"""The longest step of a line down a side, mm and degrees."""
LOOKED_AT = 72
"""Places round a tier at which its line is looked for."""
MOST = 400
"""Pieces of one cascade."""
FRONT = -math.pi / 2

Spot = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Run:
    """The part of a cascade on the side of a tier, in (u, v), or ``on_ledge`` round its foot.

    It is cascade number ``index`` of the cake file. The line is ``points``; on a side its u
    goes on over the join, on a ledge they are in the frame of the seat. ``widths`` are those at its
    ends, ``share`` is from which share of the area of the whole cascade to which it goes.
    ``wanted`` are the pieces of the whole cascade, by size, and ``shapes`` what they look like.
    """

    index: int
    spec: Cascade
    tier: int
    on_ledge: bool
    points: tuple[Point, ...]
    widths: tuple[float, float]
    share: tuple[float, float]
    wanted: tuple[int, ...]
    shapes: tuple[Shape, ...] = field(compare=False)  # the spec says them

    def __hash__(self) -> int:
        """Return a hash of what tells the parts of a cake's cascades apart: the rest is much."""
        return hash((self.index, self.tier, self.on_ledge, self.share, self.wanted))

    @property
    def counts(self) -> tuple[int, ...]:
        """How many pieces of each size belong here, so that all runs have all of them."""
        before, after = self.share
        return tuple(round(many * after) - round(many * before) for many in self.wanted)


@dataclass(frozen=True, slots=True)
class CascadeLine:
    """A cascade as it lies on a cake: its parts from the top down, its length in space, mm.

    ``shapes`` are its pieces, one of each size.
    """

    index: int
    spec: Cascade
    runs: tuple[Run, ...]
    length: float
    shapes: tuple[Shape, ...] = field(compare=False)  # the spec says them


@dataclass(frozen=True, slots=True)
class _Course:
    """From which tier to which a line goes, how it turns, degrees, and how far over the drum."""

    first: int
    last: int
    start_turn: float
    end_turn: float | None
    on_drum: Length | None


@dataclass(frozen=True, slots=True)
class _Section:
    """A part of a line: on the side of a tier, or on the ledge round its foot, with its length."""

    tier: int
    on_ledge: bool
    points: tuple[Point, ...]
    space: tuple[Spot, ...]

    @property
    def length(self) -> float:
        return sum(math.dist(a, b) for a, b in pairwise(self.space))


def cascade_lines(
    stack: Stack[Solid], specs: Sequence[Cascade], memo: Memo = NOTHING_KEPT
) -> tuple[CascadeLine, ...]:
    """Return the line of each cascade. Raises CakeError with every one that cannot be.

    What lies on one line, such as leaves beside blossoms, has it made once.
    """
    found = []

    @cache
    def sections_of(course: _Course) -> tuple[_Section, ...]:
        _refuse_a_gap(stack, range(course.last, course.first + 1), memo)
        return tuple(_sections(stack, course, memo))

    with all_problems() as problems:
        for index, spec in enumerate(specs):
            with problems.at("cascade", index):
                shapes = memo.of(shapes_of, spec)
                ends = ends_of(spec, [tier.name for tier in stack.tiers])
                course = _Course(*ends, spec.start_turn, spec.end_turn, spec.on_drum)
                found.append(_line(spec, index, shapes, sections_of(course)))
    return tuple(found)


def _line(
    spec: Cascade, index: int, shapes: tuple[Shape, ...], sections: Sequence[_Section]
) -> CascadeLine:
    lengths = [each.length for each in sections]
    starts = [0.0, *accumulate(lengths)]
    at = [_width(spec, start / starts[-1]) for start in starts]
    areas = [long * (a + b) / 2 for long, (a, b) in zip(lengths, pairwise(at), strict=True)]
    shares = [done / sum(areas) for done in accumulate(areas, initial=0.0)]
    wanted = _wanted(spec, sum(areas))
    runs = tuple(
        Run(index, spec, each.tier, each.on_ledge, each.points, widths, share, wanted, shapes)
        for each, widths, share in zip(sections, pairwise(at), pairwise(shares), strict=True)
    )
    return CascadeLine(index, spec, runs, sum(lengths), shapes)


def _width(spec: Cascade, share: float) -> float:
    start, end = spec.widths_mm
    return start + (end - start) * share


def _wanted(spec: Cascade, area: float) -> tuple[int, ...]:
    """Return how many pieces of each size cover an area by the percent of the file."""
    each = area * spec.density / 100 / len(spec.sizes)
    wanted = tuple(max(1, round(each / (math.pi / 4 * size.mm**2))) for size in spec.sizes)
    if sum(wanted) > MOST:
        raise CakeError.at(
            ("density",),
            counted(sum(wanted), "piece"),
            f"up to {MOST}",
            "make the line narrower, the pieces larger, or density less",
        )
    return wanted


def _refuse_a_gap(stack: Stack[Solid], over: range, memo: Memo) -> None:
    """Raise CakeError where a line cannot lie on tiers: over a ball, or from a raised tier."""
    for index in reversed(over):
        tier, seat = stack.tiers[index], stack.seats[index]
        if not tier.lies_flat:
            found, key = f"a line over “{tier.name}”, which is a ball", "start"
            raise CakeError.at((key,), found, "tiers with a side", _BELOW)
        if seat.separator is not None and index > over.start:
            found = f"a line from “{tier.name}”, which is raised, to the tier below it"
            advice = f"end it there, end = “{tier.name}”, and start another on the tier below"
            raise CakeError.at(("end",), found, "tiers that stand on each other", advice)
        if not memo.of(_goes_round, tier, stack.places[index]):
            found = f"a line over “{tier.name}”, which stands beside the middle of the drum"
            raise CakeError.at(("start",), found, _ROUND, _BELOW)


def _goes_round(tier: Solid, place: Pose) -> bool:
    """Tell whether a tier stands over the middle of the drum, with rim and foot."""
    ends = (tier.covered.rim, tier.covered.foot)
    return all(contains(region(place.of(each)), (0.0, 0.0), 0.0) for each in ends)


_BELOW = "start it on a tier below that, or end it above"
_ROUND = "tiers that stand over the middle of the drum, round which a cascade goes"


def _sections(stack: Stack[Solid], course: _Course, memo: Memo) -> Iterator[_Section]:
    """Yield the parts of a line from the top down, from the first tier to the last."""
    first, last = course.first, course.last
    deep = [stack.tiers[index].covered.side.depth for index in range(first, last - 1, -1)]
    turned = course.start_turn if course.end_turn is None else course.end_turn
    ends = [course.start_turn, *accumulate(deep, initial=0.0)][1:]
    turns = [course.start_turn + (turned - course.start_turn) * far / sum(deep) for far in ends]
    for index, (start, end) in zip(range(first, last - 1, -1), pairwise(turns), strict=True):
        side = stack.tiers[index].covered.side
        section = memo.of(_down_side, index, side, stack.places[index], start, end)
        yield section
        if index > last or index == 0:
            right, back, height = section.space[-1]
            foot = (right, back, stack.feet[index] + height)
            yield from _over_ledge(stack, course.on_drum, index, foot)


def _down_side(index: int, side: Side, on: Pose, start: float, end: float) -> _Section:
    """Return the part of a line down the side of a tier, with its foot at the height 0."""
    points = _down(side, on, start, end)
    return _Section(index, False, points, tuple(_spot(side, on, each) for each in points))


def _down(side: Side, on: Pose, start: float, end: float) -> tuple[Point, ...]:
    """Return the line down the side of a tier between two turns, degrees, in (u, v)."""
    count = max(2, math.ceil(side.depth / STEP), math.ceil(abs(end - start) / TURN))
    points: list[Point] = []
    before = u = _first(side, on, FRONT + math.radians(start))
    for step in range(count + 1):
        share = step / count
        direction = FRONT + math.radians(start + (end - start) * share)
        v = share * side.foot_at(u)
        # it goes on as it came, which round an upright tier is where it is
        before, u = u, _u_at(side, on, v, direction, 2 * u - before)
        points.append((u, share * side.foot_at(u)))
    return tuple(points)


def _spot(side: Side, on: Pose, point: Point) -> Spot:
    x, y, z = side.in_space(*point)
    return (*on.at((x, y)), z)


def _off(side: Side, on: Pose, u: float, v: float, direction: float) -> float:
    """Return how far a place of a side is round from a direction, radians, from -pi to pi."""
    x, y, _ = side.in_space(u, v)
    right, back = on.at((x, y))
    return math.remainder(math.atan2(back, right) - direction, math.tau)


def _first(side: Side, on: Pose, direction: float) -> float:
    """Return about where on the rim a direction from the middle of the drum comes out."""
    us = [side.girth * step / LOOKED_AT for step in range(LOOKED_AT)]
    return min(us, key=lambda u: abs(_off(side, on, u, 0.0, direction)))


def _u_at(side: Side, on: Pose, v: float, direction: float, near: float) -> float:
    """Return the u near another at which a side is seen in a direction."""

    def off(u: float) -> float:
        return _off(side, on, u, v, direction)

    before = here = near, off(near)
    if abs(here[1]) < ROUNDING:
        return near
    step = math.copysign(side.girth / LOOKED_AT, -here[1])
    for _ in range(LOOKED_AT):
        u = here[0] + step
        before, here = here, (u, off(u))
        if here[1] * before[1] <= 0:
            break
    return zero_between(off, before, here, ROUNDING)


def _over_ledge(
    stack: Stack[Solid], on_drum: Length | None, index: int, foot: Spot
) -> Iterator[_Section]:
    """Yield the line on a ledge, straight out from the foot of a tier, in the frame of its seat."""
    seat = stack.seats[index]
    x, y, _ = foot
    below = stack.feet[index] - stack.tiers[index].board_thickness
    out = math.hypot(x, y)
    edge = _edge(stack, seat, index, (x / out, y / out))
    reach = edge
    if index == 0:
        reach = (edge + out) / 2 if on_drum is None else out + on_drum.mm
        if reach > edge + 1e-9:
            found = f"“{on_drum}” out over the drum"
            allowed = f"up to {at_most(max(edge - out, 0.0))}, where its edge is"
            raise CakeError.at(("on_drum",), found, allowed, "let it run out less far")
    end = x / out * reach, y / out * reach
    moved = (0.0, 0.0) if index == 0 else _middle(stack, index)
    space = ((x, y, below), (*end, below))
    points = tuple((px - moved[0], py - moved[1]) for px, py in ((x, y), end))
    yield _Section(index, True, points, (foot, *space))


def _middle(stack: Stack[Solid], index: int) -> Point:
    """Return where the middle of the surface that a tier stands on is, on the drum."""
    under = stack.places[index - 1]
    return under.right, under.back


def _edge(stack: Stack[Solid], seat: Seat, index: int, way: Point) -> float:
    """Return how far out from the middle of the drum the edge of a surface is in a direction.

    Of a circle it is exact.
    """
    right, back = (0.0, 0.0) if index == 0 else _middle(stack, index)
    if seat.outline.radius is not None:
        ahead, aside = right * way[0] + back * way[1], right * way[1] - back * way[0]
        return ahead + math.sqrt(seat.outline.radius**2 - aside**2)
    area = region(seat.edge.moved(right, back))
    far = seat.outline.reach + math.hypot(right, back) + 1.0
    spans = spans_on(area, (0.0, 0.0), (way[0] * far, way[1] * far))
    return max(math.hypot(*end) for span in spans for end in span)
