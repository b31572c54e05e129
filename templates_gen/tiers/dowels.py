"""Dowels: how many stand in a tier that carries another, where, and how long they are.

They stand in an even ring on an inset of what bears the board above: the part of it that lies on
the tier. From five on, one of them stands in the middle. Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations

from templates_gen.cakefile.supports import INSET, Dowels
from templates_gen.errors import PlanWarning, Problem
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import Area, buffered, difference, intersection, region
from templates_gen.geometry.areas.placement import Edges, contains, deepest
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.separators import BESIDE, Separator, spacer_size
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.tunnel import WALL
from templates_gen.units import MM_PER_INCH, at_least, counted, in_both

LEAST_SPACING = 25.0
"""The least distance of two dowels, mm."""
LEAST = 3
WITH_MIDDLE = 5
"""From so many on, one stands in the middle."""
SHARE = 0.4
"""The most that an inset takes of the way from the edge to the middle, if none is given."""
SMALLER_INSETS = (15.0, 10.0, 5.0)
"""Insets that are tried where the usual one leaves no room, mm."""
MOST_LARGER = 60
"""By how much the board above is tried larger all round, mm."""
PHASES = 24
"""Ways to turn a ring that are tried."""


@dataclass(frozen=True, slots=True)
class Bearing:
    """What the dowels of a tier bear, in the frame of its seat.

    ``board`` of the tier above, or the spacer under it, rim and foot of this one as they lie, what
    to keep clear of, what a raised tier above stands on, and the ``place`` of the tier above.
    """

    board: Path
    rim: Path
    foot: Path
    clear_of: tuple[Path, ...] = ()
    separator: Separator | None = None
    place: Pose = field(default_factory=Pose)

    @property
    def pillar(self) -> float:
        """The thickness of the pillars over the dowels, mm; 0 for none."""
        return self.separator.thick if self.separator else 0.0

    @property
    def raised(self) -> float:
        """How far above the tier the dowels end, mm: pillars are hollow."""
        return self.separator.height if self.separator and self.separator.on_pillars else 0.0

    @property
    def least_inset(self) -> float:
        """How far in the dowels stand at the least, mm: all of a pillar is under the board."""
        return self.pillar / 2 + BESIDE if self.pillar else 0.0

    @property
    def apart(self) -> float:
        """The least distance of two dowels, mm."""
        return max(LEAST_SPACING, self.pillar + BESIDE) if self.pillar else LEAST_SPACING


@dataclass(frozen=True, slots=True)
class Support:
    """The dowels of a tier: places in the frame of its seat, the inset, length and thickness, mm.

    ``wanted`` is how many there should be; ``through`` is where the dowel through all tiers stands;
    ``choices`` say what would make room where too few have it; they stand ``apart`` at the least.
    """

    wanted: int
    places: tuple[Point, ...]
    inset: float
    length: float
    thickness: float
    through: Point | None = None
    choices: tuple[str, ...] = ()
    apart: float = LEAST_SPACING

    @property
    def count(self) -> int:
        """How many dowels stand in the tier, without the one through all."""
        return len(self.places)


def support(lower: Solid, upper: Solid, bearing: Bearing, through: Point | None = None) -> Support:
    """Return the dowels in a tier that carries another: as many as wanted or fewer."""
    length = lower.covered.depth - lower.dowelled_from + bearing.raised
    across = upper.bare.foot.across
    own = lower.spec.dowels or Dowels()
    found = spread(own, across, bearing, length, through)
    if own.count or own.inset or found.count >= min(found.wanted, LEAST):
        return found
    choices = _choices(bearing, _closed_to(bearing, own, through), found.wanted, upper)
    return replace(found, choices=tuple(choices))


def spread(
    spec: Dowels, across: float, bearing: Bearing, length: float, through: Point | None = None
) -> Support:
    """Return the dowels ``length`` mm long that bear something so wide, as many as fit."""
    wanted = spec.count or rule(across)
    none = Support(wanted, (), 0.0, length, spec.thickness.mm, through, apart=bearing.apart)
    area = intersection([region(path) for path in (bearing.board, bearing.rim, bearing.foot)])
    if area is None:
        return none
    usual = max(min(INSET, SHARE * deepest(area)[1]), bearing.least_inset)
    inset = spec.inset.mm if spec.inset else usual
    inner = buffered(area, -inset)
    if inner is None:
        return replace(none, inset=inset)
    places = _placed(inner, _closed_to(bearing, spec, through), wanted, bearing)
    return replace(none, places=places, inset=inset)


def _closed_to(bearing: Bearing, spec: Dowels, through: Point | None) -> list[Area]:
    """Return where no dowel stands: beside a hole, and near the one through all tiers."""
    closed = _closed(bearing.clear_of, spec.thickness.mm)
    if through is not None:
        closed.append(region(circle(through, bearing.apart)))
    return closed


def _choices(bearing: Bearing, closed: Sequence[Area], wanted: int, upper: Solid) -> Iterator[str]:
    """Yield what makes room for enough dowels: a smaller inset, a larger board or spacer."""
    for inset in SMALLER_INSETS:
        found = _fitting(bearing, closed, wanted, inset)
        if found >= LEAST and inset >= bearing.least_inset:
            yield (
                f"make the inset of the dowels {in_both(inset)} and their number {found}: they"
                " stand close to the edge, so the board above must be stiff"
            )
            break
    spacer = bearing.separator.spacer if bearing.separator else None
    size = spacer_size(upper) if spacer else upper.board_size
    for more in range(5, MOST_LARGER, 5):
        wide = size + 2 * more
        if spacer is not None and wide > upper.board_size:
            return
        board = bearing.place.of(upper.like_foot(wide))
        found = _fitting(replace(bearing, board=board), closed, wanted, INSET)
        if found >= LEAST:
            yield _larger(upper, wide, found, is_spacer=spacer is not None)
            return


def _larger(upper: Solid, wide: float, found: int, *, is_spacer: bool) -> str:
    """Say which larger board or spacer makes room, and how far it shows."""
    size = f"{at_least(wide)} wide, with room for {counted(found, 'dowel')}"
    if is_spacer:
        return f"make the spacer under “{upper.name}” {size}"
    shows = (upper.like_foot(wide).across - upper.covered.foot.across) / 2
    seen = f": it shows {in_both(shows)} all round" if shows > 0 else ""
    return f"make the board of “{upper.name}” {size}{seen}"


def _fitting(bearing: Bearing, closed: Sequence[Area], wanted: int, inset: float) -> int:
    """Return how many dowels have room at an inset, up to those wanted."""
    area = intersection([region(path) for path in (bearing.board, bearing.rim, bearing.foot)])
    inner = None if area is None else buffered(area, -max(inset, bearing.least_inset))
    return 0 if inner is None else len(_placed(inner, closed, wanted, bearing))


def _closed(hollows: Sequence[Path], thick: float) -> list[Area]:
    """Return where no dowel has its middle: it leaves as much wall beside a hole as all else."""
    return list(filter(None, (buffered(region(path), WALL + thick / 2) for path in hollows)))


def rule(across: float) -> int:
    """Return how many dowels bear a tier so many mm across: one for each 2 in, three at least.

    From memory, no source.
    """
    return max(LEAST, math.floor(across / (2 * MM_PER_INCH) + 0.5))


def _placed(
    inner: Area, closed: Sequence[Area], wanted: int, bearing: Bearing
) -> tuple[Point, ...]:
    """Return places for as many dowels as have room, up to those wanted."""
    open_area = difference(inner, closed)
    if open_area is None:
        return ()
    middle, whole, free = deepest(inner)[0], Edges(inner, inner), Edges(inner, open_area)
    for count in range(wanted, 0, -1):
        # pillars stand in a ring: one in the middle would be seen through them
        with_middle = count >= WITH_MIDDLE and not bearing.pillar
        for places in _ways(middle, whole, free, count, with_middle=with_middle):
            fit = all(contains(open_area, place) for place in places)
            if _are_apart(places, bearing.apart) and fit:
                return tuple(places)
    return ()


def _ways(
    middle: Point, whole: Edges, free: Edges, count: int, *, with_middle: bool
) -> Iterator[list[Point]]:
    """Yield ways to set dowels: with one in the middle, all in a ring, on what is open of it."""
    if count == 1:
        yield [middle]
    for in_the_middle in (True, False) if with_middle else (False,):
        ring, centre = (count - 1, [middle]) if in_the_middle else (count, [])
        for phase in range(PHASES):
            yield centre + whole.spread(ring, phase / PHASES)
        yield centre + free.spread(ring, 0.5)


def _are_apart(places: Sequence[Point], least: float) -> bool:
    return all(math.dist(a, b) >= least - 1e-9 for a, b in combinations(places, 2))


def through_place(boards: Sequence[Path], clear_of: Sequence[Path], thick: float) -> Point | None:
    """Return where one dowel, ``thick`` mm, can go through every tier: in the middle if free."""
    area = intersection([region(path) for path in boards])
    inner = None if area is None else buffered(area, -min(INSET, SHARE * deepest(area)[1]))
    free = None if inner is None else difference(inner, _closed(clear_of, thick))
    if free is None:
        return None
    return (0.0, 0.0) if contains(free, (0.0, 0.0)) else deepest(free)[0]


def too_few(lower: Solid, found: Support) -> Problem | None:
    """Return the problem if there is no room for the dowels."""
    spec = lower.spec.dowels
    if spec is None or found.count >= found.wanted or not (spec.count or spec.inset):
        return None
    name = "count" if spec.count else "inset"
    return Problem(
        lower.key("dowels", name),
        f"{counted(found.wanted, 'dowel')} {in_both(found.inset)} in from the edge of the board"
        " above",
        f"dowels {in_both(found.apart)} apart: up to {found.count} have room there",
        "use fewer dowels or a smaller inset",
    )


def warnings(lower: Solid, found: Support) -> tuple[PlanWarning, ...]:
    """Return a warning where the rule of thumb wants more dowels than have room."""
    if found.count >= found.wanted:
        return ()
    wanted = counted(found.wanted, "dowel")
    number = f"room for only {found.count} of {wanted}" if found.count else "no room for a dowel"
    ways = "; or ".join(found.choices) or "choose another support, or a smaller tier above"
    text = f"{lower.name}: {number} under the board above. To hold it up: {ways}."
    return (PlanWarning(lower.key("size"), text),)
