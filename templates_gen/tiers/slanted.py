"""A slanted side: straight rulings from rim to foot, which lies flat without stretching.

Rulings join places of rim and foot that face the same way, so the side is developable. Laid flat,
the rim bends by sin(alpha) of its turn in plan, alpha being the slant off the upright there: the
geodesic curvature of a level curve (for a cone the unrolled angle is 2 pi sin(alpha)).
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from fontTools.misc.transform import Transform

from templates_gen.drawing.drawing import Drawing
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Bend, Outline
from templates_gen.tiers.side import Side, laid

FINE = math.radians(1)
"""The most that a segment of the rim turns over which its slant is taken as one."""
_CLOSE = 1e-9
"""How far a point may be from the line it is found to lie on, mm."""
_MOST_STEPS = 60

Vector = tuple[float, float, float]


@dataclass(frozen=True)
class SlantedSide(Side):
    """The side between a rim at ``height`` and a foot on z = 0, mm.

    Where it ``is_matched``, rulings go from each segment of the rim to the same one of the foot;
    else they share out the foot evenly.
    """

    rim: Outline
    foot: Outline
    height: float
    is_matched: bool = True

    @property
    def girth(self) -> float:
        """The length of the rim."""
        return self.rim.girth

    @cached_property
    def depth(self) -> float:
        """From rim to foot along the side at the front, square to the rim."""
        return self._ruling(self.girth / 2)[1]

    @cached_property
    def area(self) -> float:
        """The area of the side, mm2: mean girth times slant, segment by segment."""
        ends = [0.0, *self._ends]
        feet = [self._foot_of(end) for end in ends[:-1]] + [self.foot.girth]
        return sum(
            (b - a + g - f) / 2 * self._ruling((a + b) / 2)[1]
            for (a, b), (f, g) in zip(pairwise(ends), pairwise(feet), strict=True)
        )

    def down(self, u: float, length: float) -> float:
        """Return v at a length down the ruling at ``u``."""
        return length * self.depth / math.hypot(*self._ruling(u))

    @cached_property
    def shortest(self) -> float:
        """The shortest ruling, mm."""
        return min(self._rulings)

    @cached_property
    def longest(self) -> float:
        """The longest ruling, mm."""
        return max(self._rulings)

    @cached_property
    def _rulings(self) -> list[float]:
        """The lengths of the rulings at the ends of all segments and in their middles."""
        ends = [0.0, *self._ends]
        places = [*ends, *((a + b) / 2 for a, b in pairwise(ends))]
        return [math.hypot(*self._ruling(place)) for place in places]

    def girth_ratio(self, v: float) -> float:
        """Return how much longer than the rim the side is round at ``v``."""
        return 1 + (self.foot.girth / self.rim.girth - 1) * v / self.depth

    def in_space(self, u: float, v: float) -> Vector:
        """Return the point at ``v`` along the ruling at ``u``."""
        (x, y), (fx, fy) = self.rim.at(u), self.foot.at(self._foot_of(u))
        share = v / self.depth
        return x + share * (fx - x), y + share * (fy - y), self.height * (1 - share)

    def flat(self, u: float, v: float) -> Point:
        """Return where (u, v) lies on the paper, the front at the foot of an upright axis."""
        (x, y), (dx, dy) = self.ruling(u)
        return x + v * dx, y + v * dy

    def ruling(self, u: float) -> tuple[Point, Point]:
        """Return the rim on the paper at u, and the step along its ruling for one mm of v."""
        turns, rest = divmod(u, self.girth)
        along, down = self._ruling(rest)
        at, heading = self._laid(rest)
        cos, sin = math.cos(heading), math.sin(heading)
        step = (along * cos + down * sin) / self.depth, (along * sin - down * cos) / self.depth
        for _ in range(abs(int(turns))):
            move = self._once_round if turns > 0 else self._once_back
            at, step = move.transformPoint(at), move.transformVector(step)
        return at, step

    def place_at(self, point: Point, near: float) -> Point:
        """Return the (u, v) that lies at a point of the paper, looked for from u = ``near`` on.

        At one u the side lies on the paper as a straight line from rim to foot, so u is that of the
        ruling through the point. It is found by the secant method.
        """

        def beside(u: float) -> tuple[float, float]:
            """How far right of the ruling at u the point lies, and how far down it, mm."""
            (x, y), (dx, dy) = self.ruling(u)
            px, py = point[0] - x, point[1] - y
            size = math.hypot(dx, dy)
            return (py * dx - px * dy) / size, (px * dx + py * dy) / size**2

        a, (from_a, v) = near, beside(near)
        b = a + from_a
        for _ in range(_MOST_STEPS):
            if abs(from_a) < _CLOSE:
                break
            from_b, below = beside(b)
            if from_a == from_b:
                break
            a, b, from_a, v = b, b - from_b * (b - a) / (from_b - from_a), from_b, below
        return a, v

    def direction(self, u: float, v: float) -> float:
        """Return the direction of the level line: on matched rulings that of the rim."""
        rim = self.rim.direction(u)
        if self.is_matched:
            return rim
        foot, share = self.foot.direction(self._foot_of(u)), v / self.depth
        return rim + math.remainder(foot - rim, math.tau) * share

    def heading(self, u: float) -> float:
        """Return the direction of the rim on the paper at ``u``, radians."""
        turns, rest = divmod(u, self.girth)
        return self._laid(rest)[1] + turns * self._turn

    def unroll(self, drawing: Drawing) -> Drawing:
        """Return a drawing made in (u, v) as it lies on the paper."""
        rulings: dict[float, tuple[Point, Point]] = {}

        def flat(u: float, v: float) -> Point:
            # upright lines are on one ruling
            if u not in rulings:
                rulings[u] = self.ruling(u)
            (x, y), (dx, dy) = rulings[u]
            return x + v * dx, y + v * dy

        return laid(drawing, flat, lambda u: math.degrees(self.heading(u)))

    @cached_property
    def _fine(self) -> tuple[Bend, ...]:
        """The rim in segments that turn little."""
        return tuple(part for bend in self.rim.bends for part in bend.parts(FINE))

    @cached_property
    def _ends(self) -> list[float]:
        """Where the fine segments end; at a corner of the rim exactly where its own segments do.

        Else a place on the corner could lie before it by one sum and beyond it by the other.
        """
        ends: list[float] = []
        for bend, end in zip(self.rim.bends, self.rim.ends, strict=True):
            count = len(list(bend.parts(FINE)))
            ends += [end - bend.length * (1 - index / count) for index in range(1, count)]
            ends.append(end)
        return ends

    @cached_property
    def _flat_bends(self) -> list[Bend]:
        """The rim as it lies flat, segment by segment."""
        s, flat = 0.0, list[Bend]()
        ends = (0, len(self._fine) - 1)
        # a sharp corner at the back is in two halves, one at either end
        halved = all(not self._fine[end].length for end in ends)
        for index, bend in enumerate(self._fine):
            if bend.length:
                middle = s + bend.length / 2
                flat.append(Bend(bend.length, bend.turn * self._sine(middle)))
            else:
                flat.append(Bend(0.0, self._kink(s) / (2 if halved and index in ends else 1)))
            s += bend.length
        return flat

    @cached_property
    def _turn(self) -> float:
        """How far the rim turns on the paper, once round."""
        return sum(bend.turn for bend in self._flat_bends)

    @cached_property
    def _states(self) -> list[tuple[Point, float]]:
        """Point and heading on the paper at the start of each segment, and at the end."""
        states = [((0.0, 0.0), -self._turn / 2)]
        for bend in self._flat_bends:
            states.append(bend.after(*states[-1]))
        return states

    def _laid(self, u: float) -> tuple[Point, float]:
        index = min(bisect_right(self._ends, u), len(self._fine) - 1)
        bend = self._flat_bends[index]
        share = (u - self._ends[index] + bend.length) / bend.length if bend.length else 0.0
        return bend.after(*self._states[index], share)

    @cached_property
    def _once_round(self) -> Transform:
        """The move of the paper that takes the start of the rim to its end."""
        (x0, y0), heading = self._states[0]
        (x1, y1), arriving = self._states[-1]
        return Transform().translate(x1, y1).rotate(arriving - heading).translate(-x0, -y0)

    @cached_property
    def _once_back(self) -> Transform:
        return self._once_round.inverse()

    def _foot_of(self, u: float) -> float:
        """Return the place on the foot that the ruling from ``u`` on the rim comes to."""
        if not self.is_matched:
            return u * self.foot.girth / self.rim.girth
        turns, rest = divmod(u, self.girth)
        index = min(bisect_right(self.rim.ends, rest), len(self.rim.bends) - 1)
        rim, foot = self.rim.bends[index], self.foot.bends[index]
        start = self.foot.ends[index] - foot.length
        share = (rest - self.rim.ends[index] + rim.length) / rim.length if rim.length else 0.0
        return turns * self.foot.girth + start + share * foot.length

    def _ruling_vector(self, u: float) -> tuple[Vector, float]:
        """Return the way from rim to foot at ``u``, and the direction of the rim there."""
        (x, y), heading = self.rim.state(u)
        fx, fy = self.foot.at(self._foot_of(u))
        return (fx - x, fy - y, -self.height), heading

    def _ruling(self, u: float, aside: float = 0.0) -> tuple[float, float]:
        """Return the length of the ruling at ``u`` along the rim, and square to it down the side.

        At a corner the rim's direction is that beyond it, or ``aside`` away.
        """
        (x, y, z), heading = self._ruling_vector(u)
        if aside:
            heading = self.rim.direction(u + aside)
        along = x * math.cos(heading) + y * math.sin(heading)
        return along, math.sqrt(max(x * x + y * y + z * z - along * along, 0.0))

    def _sine(self, u: float) -> float:
        """Return the sine of the slant off the upright at ``u``, positive when the foot is out."""
        (x, y, _), heading = self._ruling_vector(u)
        return (x * math.sin(heading) - y * math.cos(heading)) / self._ruling(u)[1]

    def _kink(self, u: float) -> float:
        """Return by how much the flat rim turns at a sharp corner.

        On the face before the corner and on the one after it the ruling keeps its angle with the
        rim; the flat rim turns by the difference.
        """
        before, down_before = self._ruling(u, -1e-7)
        after, down_after = self._ruling(u, 1e-7)
        return math.atan2(down_after, after) - math.atan2(down_before, before)
