"""An independent solid: every tier as points and triangles, from nothing but its cake file.

No class and no formula of the program is used. A layer is what lies within its thickness of the
tier below it: sections of it are unions of discs' sweeps round the sections of the bare tier.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from shapely.affinity import scale, translate
from shapely.geometry import Polygon
from shapely.ops import unary_union

from templates_gen.cakefile.tier import Tier

Vector = tuple[float, float, float]
ROUND = 180
"""Points once round a plan."""
STEPS = 10
"""Levels of the bare tier whose sections make a section of a layer, for leans of up to the most."""


def _ring(at: Callable[[float], tuple[float, float]]) -> Polygon:
    return Polygon([at(math.tau * step / ROUND) for step in range(ROUND)])


def _disc(x: float, y: float, radius: float) -> Polygon:
    return _ring(lambda t: (x + radius * math.cos(t), y + radius * math.sin(t)))


def _one(area: object) -> Polygon:
    assert isinstance(area, Polygon)
    return area


def _flat_sided(ring: Sequence[tuple[float, float]], corner: float) -> Polygon:
    """Return a convex polygon with its corners rounded."""
    sharp = Polygon(ring)
    if not corner:
        return sharp
    return _one(sharp.buffer(-corner, join_style="mitre").buffer(corner, quad_segs=64))


def _petal(size: float, lobes: int) -> Polygon:
    """Return round lobes of 1.2 times the radius at which they would only touch, and the middle."""
    apart = math.sin(math.pi / lobes)
    ring = size / 2 / (1 + 1.2 * apart)
    turns = [math.tau * step / lobes - math.pi / 2 for step in range(lobes)]
    middles = [(ring * math.cos(turn), ring * math.sin(turn)) for turn in turns]
    lobes_there = [_disc(x, y, 1.2 * apart * ring) for x, y in middles]
    return _one(unary_union([Polygon(middles), *lobes_there]))


def _heart(size: float) -> Polygon:
    """Return a square on its corner with half rounds on its upper sides, in the middle of a box."""
    side = size / (1 + math.sqrt(0.5))
    h, r = side * math.sqrt(0.5), side / 2
    square = Polygon([(0, -h), (h, 0), (0, h), (-h, 0)])
    found = unary_union([square, _disc(h / 2, h / 2, r), _disc(-h / 2, h / 2, r)])
    return _one(translate(found, 0, (h - h / 2 - r) / 2))


def plan(tier: Tier) -> Polygon:
    """Return the bare plan of a tier, as its cake file has it."""
    return _plan(tier.shape, tier.size.mm, tuple(tier.plan.items()))


@lru_cache(maxsize=8)
def _plan(shape: str, size: float, keys: tuple[tuple[str, float], ...]) -> Polygon:
    spec = dict(keys)
    corner = float(spec.get("corner", 0.0))
    if shape in ("square", "rectangle"):
        a, b = size / 2, float(spec.get("short", size)) / 2
        return _flat_sided([(a, -b), (a, b), (-a, b), (-a, -b)], corner)
    if shape == "polygon":
        sides = int(spec["sides"])
        far = size / 2 / math.cos(math.pi / sides)
        turns = [math.tau * (step + 0.5) / sides - math.pi / 2 for step in range(sides)]
        return _flat_sided([(far * math.cos(t), far * math.sin(t)) for t in turns], corner)
    if shape == "petal":
        return _petal(size, int(spec["lobes"]))
    if shape == "heart":
        return _heart(size)
    a, b = size / 2, float(spec.get("short", size)) / 2
    return _ring(lambda t: (a * math.cos(t), b * math.sin(t)))


@dataclass(frozen=True)
class Model:
    """A tier with a layer of ``thick`` mm all over it, square to side and top."""

    tier: Tier
    thick: float

    @property
    def _narrowing(self) -> float:
        """By how much of itself the bare tier narrows on each mm upwards."""
        top = self.tier.top_size
        return (1 - top.mm / self.tier.size.mm) / self.tier.depth.mm if top else 0.0

    def section(self, z: float) -> Polygon:
        """Return the section of the layer's side at height z, of a side that has no ends."""
        bare, thick = plan(self.tier), self.thick
        if not self._narrowing:
            return bare.buffer(thick, quad_segs=24) if thick else bare
        found = []
        # a place of the layer is square above one of the bare side, which leans by so much at most
        x0, y0, x1, y1 = bare.bounds
        reach = math.hypot(max(-x0, x1), max(-y0, y1))
        most = math.atan(self._narrowing * reach)
        for step in range(STEPS + 1) if thick else [0]:
            off = -thick * math.sin(most * step / STEPS)
            factor = 1 - self._narrowing * (z + off)
            here = scale(bare, factor, factor, origin=(0, 0))
            found.append(here.buffer(math.sqrt(thick**2 - off**2), quad_segs=24))
        return _one(unary_union(found))

    @property
    def slope(self) -> tuple[float, float]:
        """How many mm the top rises on each mm to the right and to the back."""
        low = self.tier.shallowest_depth
        if low is None:
            return 0.0, 0.0
        x0, y0, x1, y1 = plan(self.tier).bounds
        falls = self.tier.depth.mm - low.mm
        across, along = falls / (x1 - x0), falls / (y1 - y0)
        ways = {"right": (-across, 0.0), "left": (across, 0.0)}
        return (ways | {"back": (0.0, -along), "front": (0.0, along)})[self.tier.slopes_down_to]

    def top(self, x: float, y: float) -> float:
        """Return how high the top of the layer is over a place, square to the bare top."""
        sx, sy = self.slope
        x0, y0, x1, y1 = plan(self.tier).bounds
        highest = max(sx * a + sy * b for a in (x0, x1) for b in (y0, y1))
        bare = self.tier.depth.mm + sx * x + sy * y - (highest if sx or sy else 0.0)
        return bare + self.thick * math.sqrt(1 + sx * sx + sy * sy)

    @property
    def volume(self) -> float:
        """Return what the surface goes round, mm3."""
        if self._narrowing:
            high = self.tier.depth.mm + self.thick
            areas = [self.section(high * share).area for share in (0.0, 0.5, 1.0)]
            return high * (areas[0] + 4 * areas[1] + areas[2]) / 6
        x, y = self.section(0.0).exterior.xy
        ring = list(zip(x, y, strict=True))
        return sum(self._prism(a, b) for a, b in pairwise(ring))

    def _prism(self, a: tuple[float, float], b: tuple[float, float]) -> float:
        """Return the volume under the top over a triangle from the middle of the plan."""
        tall = (self.top(0.0, 0.0) + self.top(*a) + self.top(*b)) / 3
        twice = a[0] * b[1] - a[1] * b[0]
        return (twice if Polygon(self.section(0.0).exterior).exterior.is_ccw else -twice) / 2 * tall


def triangle(a: Vector, b: Vector, c: Vector) -> float:
    """Return the area of a triangle in space."""
    x, y, z = (q - p for p, q in zip(a, b, strict=True))
    u, v, w = (q - p for p, q in zip(a, c, strict=True))
    return math.hypot(y * w - z * v, z * u - x * w, x * v - y * u) / 2


def ball_volume(size: float, depth: float, thick: float) -> float:
    """Return what a ball with a layer all over it goes round, added up from triangles, mm3.

    Its centre and the plane on which it stands stay; only the foot of a whole ball is no plane.
    """
    radius, centre = size / 2 + thick, depth - size / 2
    whole = math.isclose(depth, size)
    low = math.pi if whole else math.acos(max(-1.0, -centre / radius))
    steps = 180
    rings = [(radius * math.sin(t), centre + radius * math.cos(t)) for t in _even(low, steps)]
    total = 0.0
    for (a, high), (b, lower) in pairwise(rings):
        for step in range(steps):
            one, other = (math.tau * k / steps for k in (step, step + 1))
            p, q = (_on(a, turn, high) for turn in (one, other))
            r, s = (_on(b, turn, lower) for turn in (one, other))
            total += _under(p, r, s) + _under(p, s, q)
    return total


def _even(last: float, steps: int) -> list[float]:
    return [last * step / steps for step in range(steps + 1)]


def _on(wide: float, turn: float, high: float) -> Vector:
    return wide * math.cos(turn), wide * math.sin(turn), high


def _under(a: Vector, b: Vector, c: Vector) -> float:
    """Return the volume between a triangle and the plane z = 0; negative where it faces down."""
    flat = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return flat / 2 * (a[2] + b[2] + c[2]) / 3


def side_area(model: Model) -> float:
    """Return the area of a side, mm2: how fast its volume grows with its thickness.

    Between two fixed levels a layer of dt mm takes the area of the side times dt.
    """
    if model.slope != (0.0, 0.0):
        return _sloped_area(model)
    dt = 0.25
    less, more = (_held(Model(model.tier, model.thick + d), model.thick) for d in (-dt, dt))
    return (more - less) / (2 * dt)


def _held(model: Model, above: float) -> float:
    high = model.tier.depth.mm + above
    areas = [model.section(high * share).area for share in (0.0, 0.5, 1.0)]
    return high * (areas[0] + 4 * areas[1] + areas[2]) / 6


def _sloped_area(model: Model) -> float:
    x, y = model.section(0.0).exterior.xy
    ring = list(zip(x, y, strict=True))
    return sum(math.dist(a, b) * (model.top(*a) + model.top(*b)) / 2 for a, b in pairwise(ring))
