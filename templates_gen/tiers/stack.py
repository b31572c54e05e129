"""The tiers one upon the other, on the drum."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from itertools import accumulate, pairwise
from typing import Generic, TypeVar

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.cutting import Topper
from templates_gen.cakefile.drum import Drum
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.flowers import Flower
from templates_gen.cakefile.portions import Portions
from templates_gen.cakefile.supports import Dowels
from templates_gen.cakefile.tier import Tier
from templates_gen.errors import all_problems
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Outline
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.tiers.dowels import through_place
from templates_gen.tiers.inner_boards import InnerBoard, inner_boards
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.seat import Seat, drum_seat, seat_above
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.tunnel import footprints

TierT = TypeVar("TierT", bound=Solid, covariant=True)


@dataclass(frozen=True, slots=True)
class Stack(Generic[TierT]):
    """A whole cake as solids, from the bottom up; ``seats`` has one for each tier.

    Without tiers, of letter cakes alone, it has no drum.

    ``places`` says where each tier stands on the drum, ``feet`` how high above it, mm. Where it
    ``travels``, one dowel goes ``through`` all tiers at a place of the drum, if there is one.
    ``toppers`` are what stands on it, ``flowers`` what is cut petal by petal for it,
    ``portions`` how it is cut, ``drum_spec`` what the cake file says of the drum; ``estimates`` say
    of how many layers a tier is.
    """

    drum: Outline | None
    tiers: tuple[TierT, ...]
    seats: tuple[Seat, ...]
    places: tuple[Pose, ...]
    toppers: tuple[Topper, ...] = ()
    flowers: tuple[Flower, ...] = ()
    portions: Portions | None = None
    travels: bool = False
    through: Point | None = None
    drum_spec: Drum = field(default_factory=Drum)
    estimates: Estimates = field(default_factory=Estimates)

    @property
    def drum_thickness(self) -> float:
        """How thick the drum is, mm."""
        return self.drum_spec.thickness.mm

    @property
    def feet(self) -> tuple[float, ...]:
        """How high the foot of each tier stands above the drum, mm: on its own board."""
        if not self.tiers:
            return ()
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
        return self.feet[-1] + self.tiers[-1].covered.depth if self.tiers else 0.0


MadeT = TypeVar("MadeT", bound=Solid)


def stack_of(
    cake: Cake, make: Callable[[Tier, Solid], MadeT], memo: Memo = NOTHING_KEPT
) -> Stack[MadeT]:
    """Return the cake as solids, each as ``make`` makes it, whether it can stand or not.

    What it makes it of is the tier as the cake file has it, and that tier without its decoration:
    how tiers stand on each other follows from this alone.

    See ``stack_problems`` for that. Raises CakeError for every tier with a surface that cannot be.
    """
    specs = [tier.on(lower) for lower, tier in zip((None, *cake.tier), cake.tier, strict=False)]
    solids = [
        memo.of(Solid, spec.undecorated, index, name)
        for index, (spec, name) in enumerate(zip(specs, cake.names, strict=True))
    ]
    with all_problems() as problems:
        for each in solids:
            with problems.at():
                _ = each.layers
    drum = cake.board
    seats, places = _seats(drum, solids, memo)
    through = None
    travels = cake.through_dowel and len(solids) > 1
    if travels:
        through = memo.of(_through, tuple(solids), tuple(places))
    if through is not None:
        seats = _drilled(seats, places, through, _thickest(solids), memo)
    return Stack(
        drum=seats[0].outline if seats else None,
        tiers=tuple(map(make, specs, solids)),
        seats=tuple(seats),
        places=tuple(places),
        toppers=cake.topper,
        flowers=cake.flower,
        portions=cake.portions,
        travels=travels,
        through=through,
        drum_spec=drum,
        estimates=cake.estimates,
    )


def _seats(drum: Drum, tiers: Sequence[Solid], memo: Memo) -> tuple[list[Seat], list[Pose]]:
    """Return the seat of each tier from the bottom up, and where each stands."""
    seats = [memo.of(drum_seat, drum, tier) for tier in tiers[:1]]
    places = [seat.place for seat in seats]
    for lower, upper in pairwise(tiers):
        on = places[-1]
        seats.append(memo.of(seat_above, lower, upper, on.turned))
        places.append(seats[-1].place.then(on.right, on.back))
    return seats, places


def _drilled(
    seats: Sequence[Seat], places: Sequence[Pose], through: Point, thick: float, memo: Memo
) -> list[Seat]:
    """Return seats with a dowel ``thick`` mm that goes through all tiers at a place of the drum."""
    found = []
    for seat, on in zip(seats, (Pose(), *places), strict=False):
        at = (through[0] - on.right, through[1] - on.back)
        found.append(memo.of(replace, seat, through=at, through_thick=thick))
    return found


def _through(tiers: Sequence[Solid], places: Sequence[Pose]) -> Point | None:
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
