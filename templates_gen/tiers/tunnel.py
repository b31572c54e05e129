"""The hole right through a tier: a level round tunnel, and where it meets the side.

In plan the tunnel has its own axes: to the right and to the front as seen by someone who looks
through it from its front end.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
import numpy.typing as npt
from fontTools.misc.transform import Transform

from templates_gen.cakefile.opening import LEAST_RADIUS, Opening
from templates_gen.errors import CakeError, Problem
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path, rectangle
from templates_gen.geometry.roots import zero_between
from templates_gen.geometry.tolerances import ROUNDING
from templates_gen.geometry.warp import bent
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.units import at_least, at_most, decimal, in_both

WALL = 20.0
"""The least that is left above, below and beside a hole, mm: common practice, no source."""
ONE = 0.1
"""Heights that differ by less are written as one, mm."""
_STEP = math.radians(3)
_CLOSE = 1e-10
STRIPS = 48
"""Parts of a hole in which its volume is added up, to a few parts in ten thousand."""


@dataclass(frozen=True)
class Tunnel:
    """A hole of ``radius``, its axis ``height`` above the foot and ``aside`` of the middle, mm.

    ``turn`` is by how much its front end is turned to the right, radians.
    """

    radius: float
    height: float
    aside: float
    turn: float

    @property
    def right(self) -> Point:
        """The direction to the right in plan."""
        return math.cos(self.turn), math.sin(self.turn)

    @property
    def front(self) -> Point:
        """The direction to the front end in plan."""
        return math.sin(self.turn), -math.cos(self.turn)


def specified_tunnel(tier: Solid) -> Tunnel | None:
    """Return the hole through a tier, if there is one."""
    spec = tier.spec.opening
    if spec is None:
        return None
    aside = spec.sideways.mm * (1 if spec.to == "right" else -1)
    height = spec.height.mm if spec.height else tier.bare.depth / 2
    return Tunnel(spec.radius.mm, height, aside, math.radians(spec.turn))


def tunnel(tier: Solid) -> Tunnel | None:
    """Return the hole through a tier, if there is one.

    Raises CakeError when it leaves too little of the tier.
    """
    spec, found = tier.spec.opening, specified_tunnel(tier)
    if spec is None or found is None:
        return None
    across = Crossing(tier.bare.rim, found)
    problem = _thin_wall(tier, spec, found, across)
    if problem is not None:
        raise CakeError([problem])
    if across.turns_back(found.aside - found.radius, found.aside + found.radius):
        raise CakeError.at(
            tier.key("opening", "turn"),
            f"a hole turned by {decimal(spec.turn)} degrees that breaks through a hollow of the"
            " side",
            "a hole that comes through the side once in front and once behind",
            "turn it another way, move it sideways, or make it smaller",
        )
    return found


def _thin_wall(tier: Solid, spec: Opening, hole: Tunnel, across: Crossing) -> Problem | None:
    """Return the problem of a hole with too little round it, at the key that brought it there."""
    depth, enough = tier.bare.depth, hole.radius + WALL - ROUNDING
    left, right = -across.least, across.most
    beside = (left + right) / 2 if hole.aside else min(left, right)
    if enough > min(depth / 2, beside):
        return _too_large(tier, spec, min(depth / 2, beside) - WALL)
    if not enough <= hole.height <= depth - enough:
        highest = depth - enough
        allowed = f"a height from {at_least(enough)} to {at_most(highest)}"
        return Problem(
            tier.key("opening", "height"),
            f"a hole “{spec.height}” above the base that leaves less than {in_both(WALL)} of the"
            " tier",
            allowed if highest - enough > ONE else f"a height of {in_both(enough)}",
            "set it nearer to half the depth, or give it a smaller radius",
        )
    if not enough - left <= hole.aside <= right - enough:
        most = (right if spec.to == "right" else left) - enough
        return Problem(
            tier.key("opening", "sideways"),
            f"a hole moved “{spec.sideways}” sideways that leaves less than {in_both(WALL)} of the"
            " tier",
            f"up to {at_most(most)} to the {spec.to}",
            "move it less, or give it a smaller radius",
        )
    return None


def _too_large(tier: Solid, spec: Opening, most: float) -> Problem:
    """Return the problem of a hole that has no room anywhere in a tier."""
    return Problem(
        tier.key("opening", "radius"),
        f"a hole of radius “{spec.radius}” that leaves less than {in_both(WALL)} of the tier",
        f"a radius up to {at_most(most)}" if most >= LEAST_RADIUS else "a larger tier",
        f"above, below and beside the hole {in_both(WALL)} must be left",
    )


def footprints(tier: Solid) -> tuple[Path, ...]:
    """Return what a hole takes of a tier in plan: a strip right across it; nothing without one."""
    hole = specified_tunnel(tier)
    if hole is None:
        return ()
    reach = tier.covered.foot.reach + 1
    box = Box(hole.aside - hole.radius, -reach, hole.aside + hole.radius, reach)
    return (rectangle(box).transformed(Transform().rotate(hole.turn)),)


@dataclass(frozen=True)
class Crossing:
    """Where level lines along a tunnel come through an outline."""

    outline: Outline
    tunnel: Tunnel

    @cached_property
    def _places(self) -> list[tuple[float, float]]:
        """Arc lengths so close that the outline crosses a line at most once between two of them."""
        ends = [0.0]
        for bend in self.outline.bends:
            count = max(1, math.ceil(abs(bend.turn) / _STEP))
            if bend.length:
                ends += [ends[-1] + bend.length / count * (step + 1) for step in range(count)]
        return [(s, self._across(s)) for s in ends]

    def _across(self, s: float) -> float:
        (x, y), (rx, ry) = self.outline.at(s), self.tunnel.right
        return x * rx + y * ry

    def _along(self, s: float) -> float:
        (x, y), (fx, fy) = self.outline.at(s), self.tunnel.front
        return x * fx + y * fy

    def turns_back(self, least: float, most: float) -> bool:
        """Tell whether a level line between two places to the right meets more than two walls."""
        across = [w for _, w in self._places]
        steps = [(w, b - w) for w, b in pairwise(across) if abs(b - w) > _CLOSE]
        return any(
            (step > 0) != (before > 0) and least < w < most
            for (_, before), (w, step) in zip([steps[-1], *steps[:-1]], steps, strict=True)
        )

    @property
    def least(self) -> float:
        """How far the outline reaches to the left, as a place to the right."""
        return min(across for _, across in self._places)

    @property
    def most(self) -> float:
        """How far it reaches to the right."""
        return max(across for _, across in self._places)

    def ends(self, w: float) -> tuple[float, float]:
        """Return the arc lengths at which the line at ``w`` leaves, in front and behind."""
        if w not in self._ends:
            self._ends[w] = self._found(w)
        return self._ends[w]

    @cached_property
    def _ends(self) -> dict[float, tuple[float, float]]:
        return {}

    def _found(self, w: float) -> tuple[float, float]:
        places, across = self._places, self._sides
        before, after = across[:-1], across[1:]
        meets = (np.minimum(before, after) <= w) & (w <= np.maximum(before, after))
        found = []
        for index in np.flatnonzero(meets & (before != after)).tolist():
            (a, one), (b, other) = places[index : index + 2]
            ends = (a, one - w), (b, other - w)
            found.append(zero_between(lambda s: self._across(s) - w, *ends, _CLOSE))
        return max(found, key=self._along), min(found, key=self._along)

    @cached_property
    def _sides(self) -> npt.NDArray[np.float64]:
        return np.array([across for _, across in self._places])

    def reach(self, w: float) -> tuple[float, float]:
        """Return how far to the front the line at ``w`` leaves, in front and behind."""
        front, back = self.ends(w)
        return self._along(front), self._along(back)


def hollow(tier: Solid, layer: Layer) -> float:
    """Return what the hole takes of what a surface goes round, mm3; nothing without one."""
    # from floor to roof
    return sum(long * wide * 2 * half for long, wide, half, _ in _strips(tier, layer))


def wall_area(tier: Solid) -> float:
    """Return the area of the wall of the hole through the covered tier, mm2; 0 without one."""
    # along the floor and along the roof
    return sum(long * 2 * arc for long, _, _, arc in _strips(tier, tier.covered))


def _strips(tier: Solid, layer: Layer) -> Iterator[tuple[float, float, float, float]]:
    """Yield strips of a hole in plan: length, width, half the height there, way along the wall."""
    hole = specified_tunnel(tier)
    if hole is None:
        return
    crossing, step = Crossing(layer.rim, hole), math.pi / STRIPS
    for number in range(STRIPS):
        turn = (number + 0.5) * step - math.pi / 2
        front, back = crossing.reach(hole.aside + hole.radius * math.sin(turn))
        half, arc = hole.radius * math.cos(turn), hole.radius * step
        yield front - back, arc * math.cos(turn), half, arc


def openings(hole: Tunnel, layer: Layer) -> tuple[Path, Path]:
    """Return the hole as it comes through a surface in front and behind, in side coordinates.

    What reaches over the back join goes on before u = 0 or beyond the girth.
    """
    crossing = Crossing(layer.rim, hole)
    girth = layer.rim.girth

    def through(end: int) -> Path:
        start = crossing.ends(hole.aside)[end]

        def lie(w: float, h: float) -> Point:
            u = crossing.ends(w)[end]
            # go on over the back join
            return u + girth * round((start - u) / girth), layer.depth - h

        return bent(circle((hole.aside, hole.height), hole.radius), lie)

    return through(0), through(1)
