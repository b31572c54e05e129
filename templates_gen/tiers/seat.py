"""The seat of a tier: the surface it stands on, its place there, and the dowels below it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

from templates_gen.cakefile.drum import DRUMS, RECTANGLE, Drum
from templates_gen.cakefile.lengths import mostly_inches
from templates_gen.drawing.piece import Owner
from templates_gen.geometry.areas.placement import clearance, free_travel
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path
from templates_gen.tiers.dowels import Bearing, Support, support
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.separators import Separator, separator_of
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.tunnel import footprints
from templates_gen.units import MM_PER_INCH

DRUM = "drum"
OF_DRUM = Owner(DRUM, DRUM)
DRUM_BEYOND_TIER = 4 * MM_PER_INCH
"""How much larger than a bottom tier in inches a drum is: common practice, no source."""
METRIC_BEYOND_TIER, METRIC_STEP = 100.0, 50.0
"""The same of a tier in cm or mm, and the step of the sizes that drums are sold in there, mm: to
the nearest of them. Common practice, no source."""
ALIKE = ("square", RECTANGLE)
"""Shapes of a bottom tier whose drum is of its shape unless the file says otherwise."""
TOUCHING = 1e-3
"""Clearance in mm that still counts as none."""
BACK = (0.0, 1.0)


@dataclass(frozen=True)
class Seat:
    """A surface a tier is set on: the drum, or the top of the tier below.

    Its frame has its origin in the middle of the surface and its axes along those of the cake: x
    to the right, y to the back. ``edge`` is the surface as it ``lies`` there, ``place`` where the
    upper tier stands. ``clearance`` is the least distance from the upper tier's covered outline to
    the edge, mm; ``separator`` is what a raised tier stands on; a dowel ``through`` all tiers, so
    thick in mm, goes through it there; ``scored`` is False where no placement guide is wanted.
    """

    outline: Outline
    edge: Path
    upper: Solid
    place: Pose
    clearance: float
    lies: Pose
    lower: Solid | None = None
    separator: Separator | None = None
    through: Point | None = None
    through_thick: float = 0.0
    scored: bool = True

    def __hash__(self) -> int:
        """Return a hash of what the rest of a seat follows from."""
        return hash((self.lower, self.upper, self.lies, self.scored, self.through))

    @property
    def on_drum(self) -> bool:
        """Whether the surface is the drum."""
        return self.lower is None

    @property
    def owner(self) -> Owner:
        """What pieces of the surface belong to: the drum, or the tier below."""
        return self.lower.owner if self.lower else OF_DRUM

    @property
    def name(self) -> str:
        """The name of what has the surface."""
        return self.owner.name

    @cached_property
    def support(self) -> Support | None:
        """The dowels in the tier below; of the drum what is drilled into it, if anything is."""
        lower, through = self.lower, self.through
        if lower is None:
            return through and Support(0, (), 0.0, 0.0, self.through_thick, through)
        holes = tuple(path.transformed(self.lies.transform) for path in footprints(lower))
        foot = self.lies.of(lower.covered.foot)
        bearing = Bearing(self.borne, self.edge, foot, holes, self.separator, self.place)
        return support(lower, self.upper, bearing, through)

    @property
    def covered(self) -> Path:
        """The foot of the upper tier, covered, where it stands."""
        return self.place.of(self.upper.covered.foot)

    @property
    def board(self) -> Path:
        """The board of the upper tier where it lies."""
        return self.place.of(self.upper.board)

    @property
    def raised(self) -> float:
        """How high the board of the upper tier lies above the surface, mm."""
        return self.separator.height if self.separator else 0.0

    @property
    def _spacer(self) -> Path | None:
        spacer = self.separator.spacer if self.separator else None
        return self.place.of(spacer) if spacer else None

    @property
    def borne(self) -> Path:
        """What the dowels bear: the board of the upper tier, or the spacer under it."""
        return self._spacer or self.board

    @property
    def stands(self) -> Path:
        """What stands on the surface: the covered upper tier, or the spacer under it."""
        return self._spacer or self.covered


def _drum(spec: Drum, bottom: Solid) -> Outline:
    """Return the drum: of the shape and size that were given, or larger than the bottom tier."""
    foot, size = bottom.bare.foot, spec.size.mm if spec.size else None
    shape = spec.shape or (bottom.spec.shape if bottom.spec.shape in ALIKE else "round")
    if shape == RECTANGLE:
        return _rectangle(size, bottom)
    reach = foot.across if shape == "square" else 2 * foot.reach
    if shape == "hexagon" and _is_hexagon(bottom):
        reach = bottom.spec.size.mm  # from side to side, which lie along those of the drum
    return DRUMS[shape](size or _usual(reach, bottom, _narrowest(shape)))


def _usual(reach: float, bottom: Solid, narrowest: float = 1.0) -> float:
    """Return the usual size of a drum under a tier that reaches so far, in sizes that are sold."""
    if mostly_inches([bottom.spec.size.text]):
        return (reach + DRUM_BEYOND_TIER) / narrowest
    steps = (reach + METRIC_BEYOND_TIER) / narrowest / METRIC_STEP
    return math.floor(steps + 0.5 + 1e-9) * METRIC_STEP


def _rectangle(size: float | None, bottom: Solid) -> Outline:
    """Return the usual drum, or one with one margin all round; a smaller one is as its tier."""
    wide, deep = Pose(turn=bottom.spec.position.turn).of(bottom.bare.foot).bounds.size
    if size is None:
        return DRUMS[RECTANGLE](_usual(wide, bottom), _usual(deep, bottom))
    return DRUMS[RECTANGLE](size, deep + size - wide if size >= wide else deep * size / wide)


def _narrowest(shape: str) -> float:
    """Return how wide a drum is between its notches, if it has any, over its size."""
    widths = (2 * math.hypot(*at) for at, _ in DRUMS[shape](1.0).starts)
    return min(1.0, round(min(widths), 9))


def _is_hexagon(tier: Solid) -> bool:
    """Tell whether a tier has six sides that lie along those of a hexagon."""
    spec = tier.spec
    return (spec.shape, spec.sides) == ("polygon", 6) and spec.position.turn % 60 == 0


def drum_seat(spec: Drum, bottom: Solid) -> Seat:
    """Return the seat of the bottom tier."""
    seat = _seat(_drum(spec, bottom), Pose(), bottom)
    return replace(seat, scored=spec.guide)


def seat_above(lower: Solid, upper: Solid, lies: Pose) -> Seat:
    """Return the seat of a tier on another."""
    seat = _seat(lower.covered.rim, lies, upper)
    return replace(seat, lower=lower, separator=separator_of(upper))


def _seat(outline: Outline, lies: Pose, upper: Solid) -> Seat:
    edge = lies.of(outline)
    place = _place(upper, outline, edge)
    clear = clearance_in(upper.covered.foot, place, outline, edge)
    return Seat(outline, edge, upper, place, clear, lies)


def _place(upper: Solid, outline: Outline, edge: Path) -> Pose:
    """Return where a tier stands on a surface, by its position."""
    spec, foot = upper.spec.position, upper.covered.foot
    place = Pose(spec.right.mm, 0.0, spec.turn)
    if spec.place == "back":
        place = place.then(0.0, _space_behind(foot, place, outline, edge))
    return place.then(0.0, spec.back.mm)


def _space_behind(foot: Outline, place: Pose, outline: Outline, edge: Path) -> float:
    """Return how far a tier can be pushed back; of circles it is exact."""
    if foot.radius is not None and outline.radius is not None:
        spare = (outline.radius - foot.radius) ** 2 - place.right**2
        return math.sqrt(spare) if spare > 0 and outline.radius > foot.radius else 0.0
    return free_travel(place.of(foot), edge, BACK, edge.bounds.height)


def clearance_in(inner: Outline, place: Pose, outer: Outline, edge: Path) -> float:
    """Return the least distance between two outlines one in the other; of circles it is exact."""
    if inner.radius is not None and outer.radius is not None:
        return outer.radius - inner.radius - place.distance
    return clearance(place.of(inner), edge)
