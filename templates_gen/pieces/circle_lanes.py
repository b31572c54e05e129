"""Where the holes of a circle guide lie: in lanes along a strip, the name of each beside it.

The pivot is (0, 0), x runs along the strip. A hole may lie anywhere at its radius, so each takes
a place in a lane that has room for it and its name: before it or after it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice, product

from templates_gen.geometry.box import Box, Point, Span

PITCH, EDGE = 4.0, 3.0
"""From lane to lane, and from the outer lanes to the edges of the strip, mm."""
LEAST_LANES = 4
"""They make a strip 18 mm wide: a narrower one bends, even on card."""
BEFORE, AFTER = 6.0, 4.0
"""From the end of the strip to the pivot, and from the last hole to the other end, mm."""
MARGIN = 1.5
"""From a name to an end of the strip, mm."""
ARM = 3.0
"""Half the width of the cross at the pivot, mm."""
HOLE = 1.25
"""Radius of a pencil hole, mm."""
LEAST_GAP = 3.6
"""The least distance of two holes, mm."""
POINTER = 1.9
"""From the edge of a hole to its name, mm."""
AIR = 1.75
"""What a hole with its name keeps free at both ends, mm: so another is twice as far from it."""
BESIDE, UPRIGHT = 4.5, (-8.0, -4.2)
"""Where the words at the pivot start beside it, and their lines upright before it, mm."""
WHOLE, ACROSS, OVERLAP = 230.0, 180.0, 10.0
"""A longer strip is in parts on A4 or Letter: what one may show, also of two that lie across the
sheet, and what two of them share, mm."""
CAPTION = 32.0
"""What the caption may take of the first part, at its end, mm."""
ARROWS = 2.0
"""More room above the lanes of a strip in parts, for the arrows that hold them straight, mm."""
JOIN = 7.5
"""What a match line takes of each lane besides the air of what stands there, mm."""
MORE_LANES = 2
"""So many more lanes are worth a match line that meets no name."""
STEP = 2.0
"""Places for a match line are tried so far apart, mm."""
LENGTHS = 24
"""How many lengths beyond the least are tried, to save lanes."""
TRIES = 30
"""How many places are tried in vain to save a lane."""
SEARCH = 60_000
"""How many holes are placed, in all trials together, to find match lines that meet no name: where
holes are so many that they leave no gap, each trial takes as much longer as there are more."""


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole to be placed: its radius about the pivot, and how wide its name is, mm."""

    radius: float
    name: float


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a hole lies and where its name starts, or ends if it stands ``before`` the hole."""

    hole: Point
    name: Point
    before: bool

    @property
    def pointer(self) -> tuple[Point, Point]:
        """The line from the edge of the hole to its name."""
        (x, y), (end_x, end_y) = self.hole, self.name
        share = HOLE / math.dist(self.hole, self.name)
        towards = -0.4 if end_x > x else 0.4
        return (x + share * (end_x - x), y + share * (end_y - y)), (end_x + towards, end_y)


@dataclass(slots=True)
class Lane:
    """A lane ``y`` mm above the pivot, and the parts of it that are taken so far."""

    y: float
    taken: list[Span] = field(default_factory=list)

    def left(self, start: float, end: float) -> float | None:
        """Return how much is left free before a part of the lane; None if that is not free."""
        free_from = -math.inf
        for a, b in self.taken:
            if a < end and start < b:
                return None
            if free_from < b <= start:
                free_from = b
        return start - free_from


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip, the spot of each hole, and where its two words stand, in the middle if upright."""

    box: Box
    spots: tuple[Spot, ...]
    words: tuple[Point, Point]
    upright: bool


def strip(holes: Sequence[Hole], words: tuple[float, float]) -> Strip:
    """Return the strip with least paper for holes of growing radius and two words at the pivot.

    The widths of the words are in mm; they stand before the pivot where a hole is near beside it.
    Small holes for which the lanes within their radius are too few have their names above these.
    """
    upright = holes[0].radius < BESIDE + max(words) + AIR + HOLE
    layouts = (_Layout(holes[n:], words, upright or n > 0) for n in range(len(holes)))
    found = ((n, layout.least()) for n, layout in enumerate(layouts))
    return next(_with_fan(laid, holes[:n]) for n, laid in found if laid is not None)


@dataclass(frozen=True, slots=True)
class _Layout:
    """What is to be laid out on a strip."""

    holes: Sequence[Hole]
    words: tuple[float, float]
    upright: bool

    def least(self) -> Strip | None:
        """Return the strip with least paper, if the holes have room in lanes at all.

        It has a gap wherever it may have to be cut in parts, if a few lanes more give it one.
        """
        shortest = self.holes[-1].radius + AFTER
        ends = (hole.radius + HOLE + POINTER + hole.name + MARGIN for hole in self.holes)
        longer = sorted({end for end in ends if shortest < end <= WHOLE})
        if not self._spots(len(self.holes) + LEAST_LANES, max([shortest, *longer]), tries=0):
            return None
        longer = longer[:: math.ceil(len(longer) / LENGTHS) or 1]
        found = [(self._box(n, end), n) for end in (shortest, *longer) for n in self._counts(end)]
        if not found:
            return None
        box, count = min(found, key=lambda way: way[0].width * way[0].height)
        while count > LEAST_LANES and self._spots(count - 1, box.x1):
            count -= 1
        count, joins = self._joined(count, box.x1)
        spots = self._spots(count, box.x1, joins)
        return Strip(self._box(count, box.x1), tuple(spots), self._words(count), self.upright)

    def _joined(self, count: int, end: float) -> tuple[int, list[float]]:
        """Return how many lanes leave a gap wherever a strip is cut in parts, and where that is.

        Rather where it serves parts that lie either way on a sheet than with few lanes.
        """
        parts, trials = _parts(end + BEFORE, WHOLE), iter(range(SEARCH // len(self.holes)))
        for most, room in product((ACROSS, WHOLE), (CAPTION, 0.0)):
            if _parts(end + BEFORE + room, most) != parts:
                continue
            for more in range(MORE_LANES + 1):
                wanted = _join_places(end, parts, most, room)
                joins = self._joins(count + more, end, wanted, trials)
                if len(joins) == parts - 1:
                    return count + more, joins
        return count, []

    def _counts(self, end: float) -> Iterator[int]:
        """Yield how many lanes a strip up to ``end`` takes, if none has to give way to another."""
        needed = math.ceil(sum(hole.name for hole in self.holes) / (end + BEFORE))
        counts = range(max(LEAST_LANES, needed), len(self.holes) + LEAST_LANES + 1)
        return islice((count for count in counts if self._spots(count, end, tries=0)), 1)

    def _joins(
        self,
        count: int,
        end: float,
        wanted: Iterable[Sequence[float]],
        trials: Iterator[int],
    ) -> list[float]:
        """Return for each match line the first of its places that has a gap, if one has.

        Where a match line leaves a hole nowhere, even alone in the lanes, no trial is needed.
        """
        found: list[float] = []
        lanes = self._lanes(count, end, found)
        alone = [[span for *_, span in _ways(hole, lanes)] for hole in self.holes]
        for places in wanted:
            able = [at for at in places if all(any(_clear(at, s) for s in each) for each in alone)]
            ways = zip(product((0, TRIES), able), trials, strict=False)
            fits = (at for (tries, at), _ in ways if self._spots(count, end, [*found, at], tries))
            for join in islice(fits, 1):
                found.append(join)
                alone = [[span for span in each if _clear(join, span)] for each in alone]
        return found

    def _spots(
        self, count: int, end: float, joins: Sequence[float] = (), tries: int = TRIES
    ) -> list[Spot]:
        """Place each hole in one of so many lanes; none if that finds no place for one.

        The smallest first: its name before it if there is room, where least is left free. After
        so many ``tries`` of other places in vain it is given up.
        """
        lanes = self._lanes(count, end, joins)
        placed: list[tuple[Lane, Spot]] = []
        open_ways = [_ways(self.holes[0], lanes)]
        while open_ways:
            way = next(open_ways[-1], None)
            if way is None:
                open_ways.pop()
                tries -= 1
                if tries < 0:
                    return []
                if placed:
                    placed.pop()[0].taken.pop()
                continue
            lane, spot, span = way
            lane.taken.append(span)
            placed.append((lane, spot))
            if len(placed) == len(self.holes):
                return [spot for _, spot in placed]
            open_ways.append(_ways(self.holes[len(placed)], lanes))
        return []

    def _lanes(self, count: int, end: float, joins: Sequence[float]) -> list[Lane]:
        """Return lanes from the top, with what is taken at their ends, by words and at joins."""
        lanes = [Lane(((count - 1) / 2 - number) * PITCH) for number in range(count)]
        for lane in lanes:
            lane.taken.append((-math.inf, self._start(lane.y)))
            lane.taken.append((end - MARGIN + AIR, math.inf))
            lane.taken.extend((place - JOIN / 2, place + JOIN / 2) for place in joins)
        if not self.upright:
            for lane, width in zip(lanes[count // 2 - 1 :], self.words, strict=False):
                lane.taken.append((self._start(lane.y), BESIDE + width))
        return lanes

    def _start(self, y: float) -> float:
        """Return where a lane starts: clear of the cross, or of the end of the strip."""
        if abs(y) < ARM + PITCH / 2:
            return ARM / 2
        return 0.0 if self.upright else MARGIN - AIR - BEFORE

    def _box(self, count: int, end: float) -> Box:
        half = (count - 1) / 2 * PITCH + EDGE
        top = half + (ARROWS if end + BEFORE > WHOLE else 0.0)
        return Box(UPRIGHT[0] - PITCH if self.upright else -BEFORE, -half, end, top)

    def _words(self, count: int) -> tuple[Point, Point]:
        if self.upright:
            return (UPRIGHT[0], 0.0), (UPRIGHT[1], 0.0)
        y = ((count - 1) / 2 - count // 2) * PITCH
        return (BESIDE, y + PITCH), (BESIDE, y)


def _ways(hole: Hole, lanes: Sequence[Lane]) -> Iterator[tuple[Lane, Spot, Span]]:
    """Yield the places of a hole in lanes, with what it takes of them: the best first."""
    near, far = HOLE + AIR, HOLE + POINTER + hole.name + AIR
    reached = [lane for lane in lanes if abs(lane.y) <= hole.radius]
    xs = [math.sqrt(hole.radius**2 - lane.y**2) for lane in reached]
    for before in (True, False):
        found: list[tuple[float, int, Span]] = []
        for number, (lane, x) in enumerate(zip(reached, xs, strict=True)):
            span = (x - far, x + near) if before else (x - near, x + far)
            left = lane.left(*span)
            if left is not None:
                found.append((left, number, span))
        for _, number, span in sorted(found):
            lane, x = reached[number], xs[number]
            name = (x - HOLE - POINTER if before else x + HOLE + POINTER, lane.y)
            yield lane, Spot((x, lane.y), name, before), span


def _clear(join: float, span: Span) -> bool:
    """Return whether a part of a lane meets no match line at a place."""
    start, end = span
    return end <= join - JOIN / 2 or join + JOIN / 2 <= start


def _join_places(end: float, parts: int, most: float, room: float) -> Iterator[list[float]]:
    """Yield for each match line of a strip in ``parts`` the places it may have: the best first.

    No part is longer than ``most`` mm, and the first has ``room`` for a caption before it.
    """
    step, reach = most - OVERLAP, most - OVERLAP / 2 - room
    for number in range(1, parts):
        last = reach + (number - 1) * step
        least = end + BEFORE - reach - room - (parts - 1 - number) * step
        middle, count = (least + last) / 2 - BEFORE, int((last - least) / 2 / STEP)
        yield [middle + sign * way * STEP for way in range(count + 1) for sign in (1, -1)]


def _parts(length: float, most: float) -> int:
    return max(1, math.ceil((length - OVERLAP) / (most - OVERLAP)))


def _with_fan(strip: Strip, holes: Sequence[Hole]) -> Strip:
    """Return a strip with small holes on the far side of the pivot, named in lanes above it."""
    if not holes:
        return strip
    box, spots = strip.box, list[Spot]()
    for hole in holes:
        top = box.y1 - EDGE + PITCH
        others = [spot.hole for spot in (*spots, *strip.spots)]
        spots.append(Spot(_fan_place(hole.radius, others), (AIR, top), before=False))
        box = Box(box.x0, box.y0, max(box.x1, AIR + hole.name + MARGIN), top + EDGE)
    aside = max(holes[-1].radius - HOLE, 0.0)
    (one, other) = ((x - aside, y) for x, y in strip.words)
    box = Box(box.x0 - aside, box.y0, box.x1, box.y1)
    return Strip(box, (*spots, *strip.spots), (one, other), strip.upright)


def _fan_place(radius: float, others: Sequence[Point]) -> Point:
    """Return the first place at a radius that is clear of other holes, from the top leftwards."""
    steps = range(1, 1 + max(1, int(radius * math.pi / LEAST_GAP)))
    angles = [math.pi / 2 + step * LEAST_GAP / radius for step in steps]
    places = [(radius * math.cos(angle), radius * math.sin(angle)) for angle in angles]
    # where even the far side is full, holes of nearly one radius lie on each other
    return next(
        (p for p in places if all(math.dist(p, o) >= LEAST_GAP - 0.1 for o in others)), places[0]
    )
