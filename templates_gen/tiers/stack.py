"""The tiers one upon the other, on the drum."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import accumulate, combinations, pairwise
from typing import Generic, TypeVar

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.cutting import Topper
from templates_gen.cakefile.drum import Drum
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.portions import Portions
from templates_gen.cakefile.supports import Dowels
from templates_gen.cakefile.tier import Tier
from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import Problem, all_problems
from templates_gen.geometry.areas.placement import clearance, free_travel
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.tiers.dowels import (
    LEAST,
    Bearing,
    Support,
    support,
    through_place,
    too_few,
)
from templates_gen.tiers.inner_boards import InnerBoard, inner_boards
from templates_gen.tiers.pose import Place
from templates_gen.tiers.separators import Separator, separator_of, separator_problems
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.tunnel import footprints
from templates_gen.units import MM_PER_INCH, counted, in_both

DRUM = "drum"
DRUM_BEYOND_TIER = 4 * MM_PER_INCH
"""How much larger than the bottom tier a drum is: common practice, no source."""
SQUARE = ("square", "rectangle")
"""Shapes of a bottom tier that has a square drum unless another is asked for."""
TOUCHING = 1e-3
"""Clearance in mm that still counts as none."""
BACK = (0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Seat:
    """A surface a tier is set on: the drum, or the top of the tier below.

    Its frame has its origin in the middle of the surface and its axes along those of the cake: x
    to the right, y to the back. ``edge`` is the surface as it ``lies`` there, ``place`` where the
    upper tier stands. ``clearance`` is the least distance from the upper tier's covered outline to
    the edge, mm; ``support`` are the dowels in the tier below; ``separator`` is what a raised tier
    stands on; ``scored`` is False where no score sheet is wanted.
    """

    name: str
    slug: str
    outline: Outline
    edge: Path
    upper: Solid
    place: Place
    clearance: float
    lies: Place
    lower: Solid | None = None
    support: Support | None = None
    separator: Separator | None = None
    scored: bool = True

    def __hash__(self) -> int:
        """Return a hash of what the rest of a seat follows from."""
        return hash((self.slug, self.lower, self.upper, self.lies, self.scored, self.support))

    @property
    def on_drum(self) -> bool:
        """Whether the surface is the drum."""
        return self.slug == DRUM

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
    def borne(self) -> Path:
        """What the dowels bear: the board of the upper tier, or the spacer under it."""
        spacer = self.separator.spacer if self.separator else None
        return self.place.of(spacer) if spacer else self.board

    @property
    def stands(self) -> Path:
        """What stands on the surface: the covered upper tier, or the spacer under it."""
        spacer = self.separator.spacer if self.separator else None
        return self.place.of(spacer) if spacer else self.covered


TierT = TypeVar("TierT", bound=Solid, covariant=True)


@dataclass(frozen=True, slots=True)
class Stack(Generic[TierT]):
    """A whole cake as solids, from the bottom up; ``seats`` has one for each tier.

    ``places`` says where each tier stands on the drum, ``feet`` how high above it, mm. Where it
    ``travels``, one dowel goes ``through`` all tiers at a place of the drum, if there is one.
    ``toppers`` are what is asked to stand on it, ``portions`` how it is cut, ``drum_ribbon`` how
    wide the ribbon of the drum is, ``drum_thickness`` how thick the drum, mm, and ``drum_colour``
    the colour of its fondant; ``estimates`` say of how many layers a tier is.
    """

    drum: Outline
    tiers: tuple[TierT, ...]
    seats: tuple[Seat, ...]
    places: tuple[Place, ...]
    toppers: tuple[Topper, ...] = ()
    portions: Portions | None = None
    travels: bool = False
    through: Point | None = None
    drum_ribbon: float | None = None
    drum_colour: str | None = None
    drum_thickness: float = 12.0
    estimates: Estimates = field(default_factory=Estimates)

    @property
    def feet(self) -> tuple[float, ...]:
        """How high the foot of each tier stands above the drum, mm: on its own board."""
        boards = [tier.board_thickness for tier in self.tiers]
        steps = (
            lower.covered.depth + seat.raised + board
            for lower, seat, board in zip(self.tiers, self.seats[1:], boards[1:], strict=False)
        )
        return tuple(accumulate(steps, initial=boards[0]))

    def through_in(self, index: int) -> Point | None:
        """Return where the dowel through all tiers stands in the frame of one of them."""
        if self.through is None:
            return None
        x, y = self.places[index].transform.inverse().transformPoint(self.through)
        return x, y

    @property
    def inner_boards(self) -> tuple[tuple[InnerBoard, ...], ...]:
        """The boards inside each tier, from the bottom up."""
        return tuple(
            inner_boards(tier, self.through_in(index)) for index, tier in enumerate(self.tiers)
        )

    @property
    def height(self) -> float:
        """How high the cake stands above the drum, mm."""
        return self.feet[-1] + self.tiers[-1].covered.depth


MadeT = TypeVar("MadeT", bound=Solid)


def stack_of(
    cake: Cake, make: Callable[[Tier, int, str], MadeT], memo: Memo = NOTHING_KEPT
) -> Stack[MadeT]:
    """Return the cake as solids, each as ``make`` makes it, whether it can stand or not.

    See ``stack_problems`` for that. Raises CakeError for every tier with a surface that cannot be.
    """
    tiers = tuple(
        make(tier, index, name)
        for index, (tier, name) in enumerate(zip(cake.tier, cake.names, strict=True))
    )
    _refuse_unsound(tiers)
    seats = [memo.get((_drum_seat, cake.drum, tiers[0]), partial(_drum_seat, cake.drum, tiers[0]))]
    places = [seats[0].place]
    for pair in pairwise(tiers):
        on = places[-1]
        of = (*pair, on.turned)
        seats.append(memo.get((_seat_above, *of), partial(_seat_above, *of)))
        places.append(seats[-1].place.then(on.right, on.back))
    through = None
    travels = cake.through_dowel and len(tiers) > 1
    if travels:
        standing = (tiers, tuple(places))
        through = memo.get((_through, *standing), partial(_through, *standing))
    if through is not None:
        drilled = Support(0, (), 0.0, 0.0, _thickest(tiers), through)
        seats[0] = replace(seats[0], support=drilled)
    for index, (seat, on) in enumerate(zip(seats[1:], places, strict=False), 1):
        local = None if through is None else (through[0] - on.right, through[1] - on.back)
        seats[index] = memo.get((_supported, seat, local), partial(_supported, seat, local))
    return Stack(
        drum=seats[0].outline,
        tiers=tiers,
        seats=tuple(seats),
        places=tuple(places),
        toppers=cake.topper,
        portions=cake.portions,
        travels=travels,
        through=through,
        drum_ribbon=cake.drum.ribbon.mm if cake.drum.ribbon else None,
        drum_colour=cake.drum.colour if cake.drum.fondant else None,
        drum_thickness=cake.drum.thickness.mm,
        estimates=cake.estimates,
    )


def _refuse_unsound(tiers: Iterable[Solid]) -> None:
    """Raise CakeError where surfaces of tiers cannot be."""
    with all_problems() as problems:
        for tier in tiers:
            with problems.at():
                _ = tier.layers


def _drum(spec: Drum, bottom: Solid) -> Outline:
    """Return the drum: as asked, or round or square and larger than the bottom tier all round."""
    foot = bottom.bare.foot
    shape = spec.shape or ("square" if bottom.spec.shape in SQUARE else "round")
    reach = foot.across if shape == "square" else 2 * foot.reach
    return SHAPES[shape](spec.size.mm if spec.size else reach + DRUM_BEYOND_TIER)


def _drum_seat(spec: Drum, bottom: Solid) -> Seat:
    """Return the seat of the bottom tier."""
    seat = _seat(DRUM, DRUM, _drum(spec, bottom), Place(), bottom)
    return replace(seat, scored=spec.guide)


def _seat_above(lower: Solid, upper: Solid, lies: Place) -> Seat:
    """Return the seat of a tier on another, without dowels."""
    seat = _seat(lower.name, lower.slug, lower.covered.rim, lies, upper)
    return replace(seat, lower=lower, separator=separator_of(upper))


def _through(tiers: Sequence[Solid], places: Sequence[Place]) -> Point | None:
    """Return where one dowel goes through all tiers, on the drum."""
    boards = [place.of(tier.board) for tier, place in zip(tiers, places, strict=True)]
    holes = [
        path.transformed(place.transform)
        for tier, place in zip(tiers, places, strict=True)
        for path in footprints(tier)
    ]
    return through_place(boards, holes, _thickest(tiers))


def _thickest(tiers: Sequence[Solid]) -> float:
    """Return the thickness of the thickest dowels in tiers that carry others, mm."""
    return max((tier.spec.dowels or Dowels()).thickness.mm for tier in tiers[:-1])


def _supported(seat: Seat, through: Point | None) -> Seat:
    """Return a seat with the dowels below it, one of them ``through`` all tiers."""
    lower, lies = seat.lower, seat.lies
    if lower is None:
        return seat
    holes = tuple(path.transformed(lies.transform) for path in footprints(lower))
    bearing = Bearing(seat.borne, seat.edge, lies.of(lower.covered.foot), holes, seat.separator)
    return replace(seat, support=support(lower, seat.upper, bearing, through))


def _seat(name: str, slug: str, outline: Outline, lies: Place, upper: Solid) -> Seat:
    edge = lies.of(outline)
    place = _place(upper, outline, edge)
    clear = _clearance(upper.covered.foot, place, outline, edge)
    return Seat(name, slug, outline, edge, upper, place, clear, lies)


def _place(upper: Solid, outline: Outline, edge: Path) -> Place:
    """Return where a tier stands on a surface, as it was asked for."""
    spec, foot = upper.spec.position, upper.covered.foot
    place = Place(spec.right.mm, 0.0, spec.turn)
    if spec.place == "back":
        place = place.then(0.0, _room_behind(foot, place, outline, edge))
    return place.then(0.0, spec.back.mm)


def _room_behind(foot: Outline, place: Place, outline: Outline, edge: Path) -> float:
    """Return how far a tier can be pushed back; of circles it is exact."""
    if foot.radius is not None and outline.radius is not None:
        spare = (outline.radius - foot.radius) ** 2 - place.right**2
        return math.sqrt(spare) if spare > 0 and outline.radius > foot.radius else 0.0
    return free_travel(place.of(foot), edge, BACK, edge.bounds.height)


def _clearance(inner: Outline, place: Place, outer: Outline, edge: Path) -> float:
    """Return the least distance between two outlines one in the other; of circles it is exact."""
    if inner.radius is not None and outer.radius is not None:
        return outer.radius - inner.radius - place.distance
    return clearance(place.of(inner), edge)


def stack_problems(stack: Stack[Solid]) -> list[Problem]:
    """Return what is wrong with how tiers stand: what reaches over too far, dowels without room."""
    problems = [problem for seat in stack.seats for problem in _overhang(seat)]
    for lower, upper in pairwise(stack.tiers):
        problems += _no_place(lower, upper)
        problems += separator_problems(lower, upper)
    for seat in stack.seats:
        if seat.lower is not None and seat.support is not None:
            problems += filter(None, [too_few(seat.lower, seat.support)])
        problems += _too_few_pillars(seat)
    if stack.travels and stack.through is None:
        problems.append(_no_way_through())
    return problems


def _no_place(lower: Solid, upper: Solid) -> Iterator[Problem]:
    """Yield why no tier can stand on a ball or on a sloped top."""
    fall = lower.bare.fall
    what = "a ball" if lower.ball else "a sloped top" if fall and fall.rate else ""
    if what:
        yield Problem(
            upper.key("size"),
            f"“{upper.name}” on “{lower.name}”, which has {what}",
            "a tier on a level top",
            "put it on another tier, or make that one level",
        )


def _too_few_pillars(seat: Seat) -> Iterator[Problem]:
    """Yield why a tier cannot stand on its pillars; of dowels alone there is a warning."""
    on_pillars = seat.separator is not None and seat.separator.on_pillars
    if on_pillars and seat.support is not None and seat.support.count < LEAST:
        yield Problem(
            seat.upper.key("raised"),
            f"room for {counted(seat.support.count, 'pillar')} under “{seat.upper.name}”",
            f"{LEAST} pillars or more",
            "use thinner pillars, a larger board, or a spacer: [tier.separator] kind = “spacer”",
        )


def _no_way_through() -> Problem:
    return Problem(
        ("through_dowel",),
        "tiers that no upright dowel can go through",
        "a place that lies inside every board",
        "move the tiers nearer to one line, or leave through_dowel out",
    )


def _overhang(seat: Seat) -> Iterator[Problem]:
    upper, wide = seat.upper, seat.outline.across
    allowed = upper.spec.position.overhang.mm
    below = f"on {'the drum' if seat.on_drum else f'“{seat.name}”'}, {in_both(wide)} across"
    over = -seat.clearance
    if over > allowed + TOUCHING:
        yield _too_far(seat, over, f"covered {_wide(upper.covered.foot)}, {below}")
    if upper.spec.board is None:
        return
    over = -_clearance(upper.board, seat.place, seat.outline, seat.edge)
    if over > allowed + TOUCHING:
        yield Problem(
            upper.key("board"),
            f"the board of “{upper.name}”, {in_both(upper.board.across)} across, {below}",
            "a board that lies inside what it stands on",
            "use a smaller board, or leave it out",
        )


def _wide(outline: Outline) -> str:
    """Say how wide an outline is, and from corner to corner where that is more."""
    across = f"{in_both(outline.across)} across"
    corners = [outline.at(s) for s in outline.corners]
    diagonal = max((math.dist(*pair) for pair in combinations(corners, 2)), default=0.0)
    if diagonal <= outline.across + TOUCHING:
        return across
    return f"{across} and {in_both(diagonal)} from corner to corner"


def _too_far(seat: Seat, over: float, what: str) -> Problem:
    """Say that a tier reaches over what it stands on, by its size or by its position."""
    upper, spec = seat.upper, seat.upper.spec.position
    found = f"“{upper.name}”, {what}"
    if not spec.is_usual or spec.overhang.mm:
        return Problem(
            upper.key("position"),
            f"{found}, reaches {in_both(over)} over",
            f"up to {in_both(spec.overhang.mm)} over"
            if spec.overhang.mm
            else "a tier that lies inside what it stands on",
            f'move it back, or allow it: overhang = "{math.ceil(over)} mm"',
        )
    return Problem(
        upper.key("size"),
        found,
        "a tier that lies inside what it stands on",
        "use a larger drum: [drum] size"
        if seat.on_drum
        else "check the sizes; in a cake file tiers are listed from the bottom up",
    )
