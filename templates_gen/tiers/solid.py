"""A tier as a solid: its plan outline raised to a depth, offset by coating and paste."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from fontTools.misc.transform import Transform

from templates_gen.cakefile.shape_keys import BALL
from templates_gen.cakefile.slug import tier_slug
from templates_gen.cakefile.tier import CARD, Tier
from templates_gen.drawing.piece import Owner
from templates_gen.drawing.shapes import SHAPES
from templates_gen.drawing.shapes.round import disc
from templates_gen.errors import Key, geometry_at
from templates_gen.geometry import flared
from templates_gen.geometry.box import Point
from templates_gen.geometry.offset import offset
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.svg_path import MOST_EDGES
from templates_gen.tiers.ball import Ball, BallSide, ball
from templates_gen.tiers.cone import side_between
from templates_gen.tiers.side import Fall, Side, UprightSide


@dataclass(frozen=True, eq=False)
class Layer:
    """One surface of a tier: which it is, its outlines at rim and foot, its depth in mm.

    ``fall`` is how the rim of a sloped top falls; of a ``ball`` rim is the widest level, and foot
    the ring it stands in. A layer has its thickness square to the surface, to ``off`` mm.
    """

    surface: str
    rim: Outline
    foot: Outline
    depth: float
    fall: Fall | None = None
    ball: Ball | None = None
    off: float = 0.0

    @cached_property
    def side(self) -> Side:
        """The side of this surface."""
        if self.ball is not None:
            return BallSide(self.ball)
        if self.rim is self.foot:
            return UprightSide(self.rim, self.depth, self.fall)
        return side_between(self.rim, self.foot, self.depth, is_matched=not self.off)

    @property
    def is_tapered(self) -> bool:
        """Whether the side leans, so that rim and foot are of different widths."""
        return self.rim is not self.foot and self.ball is None

    @property
    def on_slope(self) -> Transform:
        """What a plan becomes on the top: longer in the direction of its slope."""
        if self.fall is None:
            return Transform()
        longer = math.hypot(1.0, self.fall.rate)
        sideways = bool(self.fall.towards[0])
        return Transform().scale(longer, 1.0) if sideways else Transform().scale(1.0, longer)

    def height_at(self, point: Point) -> float:
        """Return how high the top lies over a point of the plan, mm."""
        if self.ball is not None:
            return self.ball.height_at(point)
        return self.depth - (self.fall.at(point) if self.fall else 0.0)

    @property
    def top_area(self) -> float:
        """The area of the top as it lies, sloped or level, mm2; a ball has none."""
        if self.ball is not None:
            return 0.0
        return self.rim.area * (math.hypot(1.0, self.fall.rate) if self.fall else 1.0)


OWN_ALLOWED = f"one simple closed curve of up to {MOST_EDGES} lines and curves, as SVG path data"
OWN_ADVICE = (
    "draw it as one closed path that does not cross itself, simplify it, and write its data here"
)
"""What is said of an outline of one's own that cannot be read: only such a plan can fail."""
ALLOWED = "a tier whose surfaces and pieces have edges that do not cross themselves"
ADVICE = "make the tier larger or its side less steep, or its coating and paste thinner"
"""What is said of a tier whose geometry cannot be."""

TOWARDS = {"front": (0.0, -1.0), "back": (0.0, 1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}
"""Directions in plan."""


def _dot(one: Point, other: Point) -> float:
    return one[0] * other[0] + one[1] * other[1]


def _extent(outline: Outline, towards: Point) -> tuple[float, float]:
    """Return from where to where an outline reaches in a direction."""
    along = [_dot(corner, towards) for corner in outline.bounds.corners]
    return min(along), max(along)


@dataclass(frozen=True)
class Solid:
    """A tier as it stands on the cake, with what the cake file says of it."""

    spec: Tier
    index: int
    name: str

    @cached_property
    def _hash(self) -> int:
        return hash((self.spec, self.index, self.name))

    def __hash__(self) -> int:
        """Return a hash that is taken once: a tier is part of most keys of what is kept."""
        return self._hash

    @property
    def slug(self) -> str:
        """The tier's name for ids and files."""
        return tier_slug(self.name, self.index)

    @property
    def owner(self) -> Owner:
        """What pieces of the tier belong to."""
        return Owner(self.slug, self.name)

    def key(self, *names: str) -> Key:
        """Return the key of one of the tier's values in the cake file."""
        return ("tier", self.index, *names)

    @cached_property
    def ball(self) -> Ball | None:
        """The bare ball, of a tier that is one."""
        spec = self.spec
        return ball(spec.size.mm, spec.depth.mm) if spec.shape == BALL else None

    @cached_property
    def gored(self) -> Ball | None:
        """The ball in the middle of its paste, where gores keep their size; of a ball."""
        thick = self.spec.coating_mm + self.spec.paste_mm / 2
        return self.ball.offset(thick) if self.ball else None

    @property
    def lies_flat(self) -> bool:
        """Whether the side lies flat on paper, so that it can be wrapped, panelled and marked."""
        return self.covered.side.lies_flat

    @cached_property
    def bare(self) -> Layer:
        """The cake or dummy itself."""
        return self._layer("bare", 0.0, 0.0)

    @cached_property
    def coated(self) -> Layer:
        """With its coating, on side and top."""
        return self._layer("coated", self.spec.coating_mm, self.spec.coating_mm)

    @cached_property
    def covered(self) -> Layer:
        """With coating and paste, on side and top."""
        spec = self.spec
        side, top = spec.coating_mm + spec.paste_side_mm, spec.coating_mm + spec.paste_top_mm
        return self._layer("covered", side, top)

    @cached_property
    def wrapped(self) -> Layer:
        """The middle of the paste on a panelled side: a bent strip keeps its length there.

        Neutral line: *Sheet and Plate Metal Work*, ch. XXXII. Top first: the side stands up to the
        upper face of the top disc; side first: up to the coated top.
        """
        spec = self.spec
        above = spec.coating_mm + (spec.paste_top_mm if spec.first == "top" else 0.0)
        return self._layer("mid-paste", spec.coating_mm + spec.paste_side_mm / 2, above)

    def _layer(self, surface: str, thick: float, above: float) -> Layer:
        """Return the surface with ``thick`` mm on the side, square to it, and ``above`` on top."""
        spec = self.spec
        if self.ball is not None:
            covered = self.ball.offset(thick)
            rim, foot = disc(covered.across), disc(covered.stand)
            return Layer(surface, rim, foot, covered.depth, ball=covered)
        depth = spec.depth.mm + above
        if spec.top_size is None:
            outline = offset(self._plan, thick)
            fall = self._fall(outline)
            return Layer(surface, outline, outline, self._highest(outline, fall, above), fall)
        higher = 1 - self._narrowing * depth
        if not thick:
            return Layer(surface, self._plan.scaled(higher), self._plan, depth)
        square = flared.layer(self._plan, self._narrowing, thick, (higher, 1.0))
        if square is not None:
            return Layer(surface, square[0], square[1], depth)
        aside = thick / math.cos(self._slant)
        rim, foot = offset(self._plan.scaled(higher), aside), offset(self._plan, aside)
        return Layer(surface, rim, foot, depth, off=self._uneven(thick))

    @cached_property
    def _plan(self) -> Outline:
        with geometry_at(self.key("outline"), OWN_ALLOWED, OWN_ADVICE):
            return SHAPES[self.spec.shape](**self.spec.plan)

    @property
    def _narrowing(self) -> float:
        """By how much of its foot a tapered tier narrows on each mm upwards."""
        spec = self.spec
        top = spec.top_size or spec.size
        return (1 - top.mm / spec.size.mm) / spec.depth.mm

    @cached_property
    def _slant(self) -> float:
        """How far a tapered side leans off the upright in the mean, radians.

        Weighted by length: the mean distance of the plan's sides from its middle is twice its area
        over its girth.
        """
        return math.atan(self._narrowing * 2 * self._plan.area / self._plan.girth)

    def _uneven(self, thick: float) -> float:
        """Return how far a layer at the mean slant is off at most, square to the side, mm."""
        plan, mean = self._plan, 1 / math.cos(self._slant)
        places = (plan.girth * step / 360 for step in range(360))
        leans = [self._narrowing * _dot(plan.at(s), plan.normal(s)) for s in places]
        return max(thick * abs(mean / math.hypot(1.0, lean) - 1) for lean in leans)

    def _fall(self, outline: Outline) -> Fall | None:
        """Return how the rim of a sloped top falls over an outline, if it does."""
        spec = self.spec
        if spec.shallowest_depth is None:
            return None
        towards = TOWARDS[spec.slopes_down_to]
        bare = _extent(self._plan, towards)
        rate = (spec.depth.mm - spec.shallowest_depth.mm) / (bare[1] - bare[0])
        # the slope goes on over the layers: highest where the outline starts
        return Fall(towards, rate, _extent(outline, towards)[0])

    def _highest(self, outline: Outline, fall: Fall | None, above: float) -> float:
        """Return how high the rim of an upright layer reaches, ``above`` mm of it on the top.

        Square to a top of slope s that is above * sqrt(1 + s^2) upright; where the outline reaches
        beyond the bare one the slope goes on.
        """
        depth = self.spec.depth.mm
        if fall is None:
            return depth + above
        beyond = _extent(self._plan, fall.towards)[0] - fall.start
        return depth + above * math.hypot(1.0, fall.rate) + beyond * fall.rate

    @property
    def layers(self) -> tuple[Layer, ...]:
        """Every surface. Raises CakeError where one cannot be."""
        spec = self.spec
        key = "outline" if spec.outline else "top_size" if spec.top_size else ""
        with geometry_at(self.key(*filter(None, [key])), ALLOWED, ADVICE):
            return self.bare, self.coated, self.covered, self.wrapped

    @cached_property
    def top(self) -> Layer:
        """The surface whose rim the top disc of a panelled tier has: at its underside.

        There it meets the paste of the side all round, also on a taper, which goes on to narrow or
        to widen over the thickness of the disc.
        """
        spec = self.spec
        if spec.first == "top":
            return self.coated
        return self._layer("covered", spec.coating_mm + spec.paste_side_mm, spec.coating_mm)

    @property
    def inner_boards(self) -> int:
        """How many boards there are inside the tier; in a dummy none."""
        return 0 if self.spec.dummy else self.spec.inside.inner_boards

    @property
    def part_depth(self) -> float:
        """How deep each of the cakes is that the tier is built of, mm."""
        return self.spec.part_depth_mm

    @property
    def dowelled_from(self) -> float:
        """How high above the foot the dowels stand that carry another tier: on an inner board."""
        number = self.inner_boards
        return number * (self.part_depth + CARD.mm)

    @property
    def board_thickness(self) -> float:
        """How thick the board under the tier is, mm."""
        return self.spec.board_thickness_mm

    @cached_property
    def board(self) -> Outline:
        """The board under the tier: the bare foot, or one like it of another size."""
        return self.like_foot(self.board_size)

    @property
    def board_size(self) -> float:
        """How large the board under the tier is, mm, measured as the tier is."""
        return self.spec.board.mm if self.spec.board else self._foot_size

    @property
    def _foot_size(self) -> float:
        """How large the bare foot is, mm, as tins are measured: a hexagon from side to side."""
        return self.spec.size.mm if self.ball is None else self.bare.foot.across

    def like_foot(self, size: float) -> Outline:
        """Return the bare foot as it is at another size, mm, measured as the tier is."""
        return self.bare.foot.scaled(size / self._foot_size)
