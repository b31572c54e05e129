"""Windows arranged on sheets: few sheets, no slivers, what belongs together side by side.

Ways to split pieces and orders to lay windows in are tried, and the best kept: first by the number
of sheets, then by corners on sheets of their own, by slivers, by the number of windows, and by how
many sheets each piece, and each tier, is spread over.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import groupby, product

import numpy as np
import numpy.typing as npt

from templates_gen.geometry.box import Box
from templates_gen.sheets.lattice import GAP, Cell, Lattice
from templates_gen.sheets.packing import Packer, Size, Spot

BATCH = 120
"""Windows laid together, so that the work grows with their number and not with its square."""
WORK = 1200
"""Windows laid in all tries for one batch."""
FEWEST = 6
"""Tries that are made however many windows there are."""
WEIGHTY = 5
"""So many leading figures of a score weigh more than that a piece's sheets follow each other."""
RETRIED = 3
"""Pieces for which all is arranged anew at the most, to have room for what to do with them."""
CORNER = 0.1
"""Less of a piece than this is a corner."""
CHUNK = 24
"""Sheets put in order together."""
MANY = 1_000_000
"""More gaps than there can be: fewer in what weighs more outweigh all others."""

Score = tuple[float, ...]
Order = Callable[[Size], Score]
ORDERS: tuple[Order, ...] = (
    lambda size: (-max(size), -min(size)),
    lambda size: (-size[0] * size[1],),
    lambda size: (-size[0] - size[1],),
)
"""Which window is laid first: by the longest side, by the largest area, by the largest girth."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Pieces in windows, and for each window, in their order, where it lies."""

    lattices: tuple[Lattice, ...]
    spots: tuple[Spot, ...]

    @property
    def sheets(self) -> int:
        """How many sheets it takes."""
        return 1 + max((spot.sheet for spot in self.spots), default=-1)

    @property
    def windows(self) -> Iterator[tuple[Lattice, Cell]]:
        """Every window with its piece, as the spots are."""
        return ((lattice, cell) for lattice in self.lattices for cell in lattice.cells)

    def spread(self, of: Callable[[Lattice], Hashable]) -> dict[Hashable, set[int]]:
        """Return the sheets of each piece, or of whatever a piece belongs to."""
        found: dict[Hashable, set[int]] = defaultdict(set)
        for (lattice, _), spot in zip(self.windows, self.spots, strict=True):
            found[of(lattice)].add(spot.sheet)
        return found

    @property
    def emptiest(self) -> float:
        """How much the windows of the emptiest sheet take, mm2: at none it is saved."""
        taken: dict[int, float] = defaultdict(float)
        for (_, cell), spot in zip(self.windows, self.spots, strict=True):
            taken[spot.sheet] += cell.size[0] * cell.size[1]
        return min(taken.values(), default=0.0)

    @property
    def corner_sheets(self) -> int:
        """How many sheets hold only a corner of a piece."""
        shares: dict[int, float] = defaultdict(float)
        for (lattice, cell), spot in zip(self.windows, self.spots, strict=True):
            box, size = cell.box, lattice.piece.size
            share = box.width * box.height / (size.width * size.height)
            shares[spot.sheet] = max(shares[spot.sheet], share)
        return sum(share < CORNER for share in shares.values())

    @property
    def paper(self) -> Score:
        """How many sheets it takes, and how far it is from taking one less."""
        return self.sheets, self.emptiest

    @property
    def score(self) -> Score:
        """Figures to keep as low as possible, the weightiest first."""
        pieces, tiers = self.spread(_piece), self.spread(_tier)
        return (
            self.sheets,
            self.corner_sheets,
            sum(lattice.slivers for lattice in self.lattices),
            sum(lattice.is_silent for lattice in self.lattices),
            sum(lattice.small_names for lattice in self.lattices),
            len(self.spots),
            sum(map(len, pieces.values())),
            sum(map(len, tiers.values())),
        )

    @property
    def gaps(self) -> int:
        """How many sheets lie between those of one piece, of all pieces, in the best order."""
        pieces = self.spread(_piece)
        return _gaps(self._ordered([pieces]), [list(pieces.values())])[0]

    @property
    def apart(self) -> set[str]:
        """The pieces whose sheets do not follow each other, in the best order."""
        pieces = self.spread(_piece)
        order = self._ordered([pieces])
        return {str(each) for each, sheets in pieces.items() if _gaps(order, [[sheets]])[0]}

    @property
    def in_order(self) -> Arrangement:
        """The arrangement with its sheets numbered so that a piece's, then a tier's, adjoin."""
        order = self._ordered([self.spread(_piece), self.spread(_tier)])
        number = {sheet: position for position, sheet in enumerate(order)}
        spots = (replace(spot, sheet=number[spot.sheet]) for spot in self.spots)
        return replace(self, spots=tuple(spots))

    def _ordered(self, belong: Sequence[Mapping[Hashable, set[int]]]) -> list[int]:
        """Return the sheets in the order of what they hold, with few gaps in what belongs together.

        What weighs most comes first.
        """
        first: dict[int, int] = {}
        for item, spot in enumerate(self.spots):
            first.setdefault(spot.sheet, item)
        order = sorted(first, key=first.__getitem__)
        for start in range(0, len(order), CHUNK):
            order[start : start + CHUNK] = _moved(order[start : start + CHUNK], belong)
        return order


def _piece(lattice: Lattice) -> Hashable:
    return lattice.piece.id


def _tier(lattice: Lattice) -> Hashable:
    return lattice.piece.tier


def arrange(ways: Sequence[Sequence[Lattice]], field: Box, *, by_tier: bool) -> Arrangement:
    """Arrange pieces, each split in one of its ways, on sheets with a field of that size, in order.

    ``by_tier`` starts each tier on a new sheet.
    """
    groups = [list(each) for _, each in groupby(ways, lambda way: _tier(way[0]))]
    # half the gap lies outside the field on every side
    packer = Packer(field.width + GAP, field.height + GAP)
    parts = [_best(group, packer) for group in (groups if by_tier else [ways])]
    found = Arrangement((), ())
    for part in parts:
        after = (replace(spot, sheet=spot.sheet + found.sheets) for spot in part.spots)
        found = Arrangement(found.lattices + part.lattices, (*found.spots, *after))
    return found


@dataclass(frozen=True)
class _Try:
    """A way to lay windows on sheets: how pieces are split, which are laid first, the order."""

    lattices: tuple[Lattice, ...]
    order: Order
    first: tuple[str, ...] = ()

    def laid(self, packer: Packer) -> Arrangement:
        """Lay the windows, batch by batch."""
        rank = {piece: position for position, piece in enumerate(self.first)}
        early = [
            rank.get(lattice.piece.id, len(rank))
            for lattice in self.lattices
            for _ in lattice.cells
        ]
        sizes = [cell.size for lattice in self.lattices for cell in lattice.cells]
        spots: list[Spot] = []
        sheets = 0
        for start in range(0, len(sizes), BATCH):
            batch = sizes[start : start + BATCH]
            order = [(early[start + item], self.order(size)) for item, size in enumerate(batch)]
            ordered = sorted(range(len(batch)), key=order.__getitem__)
            found = packer.laid(batch, ordered)
            spots += [replace(spot, sheet=spot.sheet + sheets) for spot in found]
            sheets = 1 + max(spot.sheet for spot in spots)
        return Arrangement(self.lattices, tuple(spots))


def _best(ways: Sequence[Sequence[Lattice]], packer: Packer) -> Arrangement:
    """Return the best arrangement found of pieces that share sheets.

    With slivers or without, and with each piece whose sheets do not say what to do split so that
    they do: few steps lead from one to the other.
    """
    clear = [[each for each in way if not each.slivers] or way for way in ways]
    found = _tried(clear, packer)
    if clear != [list(way) for way in ways]:
        found = min(found, _tried(ways, packer), key=lambda each: each.score)
    silent = [number for number, each in enumerate(found.lattices) if each.is_silent]
    for number in silent[:RETRIED]:
        said = [each for each in ways[number] if not each.is_silent]
        if said:
            other = _tried([*ways[:number], said, *ways[number + 1 :]], packer)
            found = min(found, other, key=lambda each: each.score)
    return found


def _tried(ways: Sequence[Sequence[Lattice]], packer: Packer) -> Arrangement:
    """Return the best arrangement found of pieces that share sheets, its sheets in order."""
    most = max(map(len, ways), default=1)
    choices = [tuple(way[min(choice, len(way) - 1)] for way in ways) for choice in range(most)]
    tries = [_Try(each, order) for each in choices for order in ORDERS]
    best, made = min(((each, each.laid(packer)) for each in tries), key=lambda pair: pair[1].score)
    count = len(made.spots)
    if count <= BATCH:
        left = max(WORK // max(count, 1), FEWEST)
        fewer, saved = best, made
        if made.sheets > _least(made, packer):
            fewer, saved = _better(best, ways, packer, left, lambda found: found.paper)
        if saved.sheets < made.sheets:
            best = fewer
        best, made = _better(best, ways, packer, left, lambda found: found.score)
        if made.gaps:
            made = _in_a_row(best, made, ways, packer, left)
    return made.in_order


def _in_a_row(
    best: _Try, made: Arrangement, ways: Sequence[Sequence[Lattice]], packer: Packer, tries: int
) -> Arrangement:
    """Return an arrangement as good, in which fewer sheets lie between those of a piece."""
    score, gaps = made.score[:WEIGHTY], made.gaps
    for piece in sorted(made.apart):
        index = next(n for n, lattice in enumerate(best.lattices) if lattice.piece.id == piece)
        for other, order in product(ways[index], ORDERS):
            split = (*best.lattices[:index], other, *best.lattices[index + 1 :])
            for first in ((piece,), *(each.first for each in _laid_first(piece, best))):
                if not tries:
                    return made
                tries -= 1
                tried = _Try(split, order, first)
                found = tried.laid(packer)
                if found.score[:WEIGHTY] <= score and found.gaps < gaps:
                    best, made, score, gaps = tried, found, found.score[:WEIGHTY], found.gaps
    return made


def _least(found: Arrangement, packer: Packer) -> int:
    """Return the fewest sheets whose fields have the area of all windows."""
    area = sum(cell.size[0] * cell.size[1] for _, cell in found.windows)
    return math.ceil(area / (packer.width * packer.height) - 1e-9)


def _better(
    best: _Try,
    ways: Sequence[Sequence[Lattice]],
    packer: Packer,
    tries: int,
    score: Callable[[Arrangement], Score],
) -> tuple[_Try, Arrangement]:
    """Return a way to lay windows improved step by step, in some ``tries``, and what it gives."""
    made = best.laid(packer)
    least = score(made)
    for change in _changes(made, ways):
        for other in change(best):
            if not tries:
                return best, made
            tries -= 1
            found = other.laid(packer)
            scored = score(found)
            if scored < least:
                best, made, least = other, found, scored
    return best, made


def _changes(
    found: Arrangement, ways: Sequence[Sequence[Lattice]]
) -> Iterator[Callable[[_Try], list[_Try]]]:
    """Yield what may be better: a piece laid first, split in another way, another order."""
    spread = found.spread(_piece)
    split = [each.piece.id for each in found.lattices if len(spread[each.piece.id]) > 1]
    for piece in (*sorted(split, key=lambda each: -len(spread[each])), *split):
        yield partial(_laid_first, piece)
    for index, way in enumerate(ways):
        for other in way:
            yield partial(_split_so, index, other)
    yield lambda now: [replace(now, order=order) for order in ORDERS]


def _laid_first(piece: str, now: _Try) -> list[_Try]:
    others = tuple(each for each in now.first if each != piece)
    return [replace(now, first=(piece, *others)), replace(now, first=(*others, piece))]


def _split_so(index: int, other: Lattice, now: _Try) -> list[_Try]:
    if now.lattices[index] is other:
        return []
    changed = replace(now, lattices=(*now.lattices[:index], other, *now.lattices[index + 1 :]))
    return [changed, *_laid_first(other.piece.id, changed)[:1]]


def _moved(order: list[int], belong: Sequence[Mapping[Hashable, set[int]]]) -> list[int]:
    """Return sheets with fewer gaps in what belongs together: single ones, and runs, are moved."""
    groups = [[each & set(order) for each in some.values()] for some in belong]
    groups = [[each for each in some if len(each) > 1] for some in groups]
    gaps = _gaps(order, groups)
    moves = np.array(list(_moves(range(len(order)))) if any(gaps) else [], dtype=np.intp)
    weights = MANY ** np.arange(len(groups))[::-1]
    # for each move, where each sheet comes to lie
    places = np.argsort(moves, axis=-1)
    while any(gaps):
        found = np.stack([_gaps_after(places, order, some) for some in groups], axis=1)
        fewer = np.flatnonzero(found @ weights < np.dot(gaps, weights))
        if not fewer.size:
            break
        order = [order[index] for index in moves[fewer[0]].tolist()]
        gaps = found[fewer[0]].tolist()
    return order


def _gaps_after(
    places: npt.NDArray[np.intp], order: list[int], groups: Iterable[set[int]]
) -> npt.NDArray[np.intp]:
    """Return for each move, a row of places, how many sheets lie between those of one group."""
    gaps = np.zeros(len(places), dtype=np.intp)
    for group in groups:
        mine = places[:, [index for index, sheet in enumerate(order) if sheet in group]]
        gaps += mine.max(axis=1) - mine.min(axis=1) + 1 - len(group)
    return gaps


def _moves(order: Sequence[int]) -> Iterator[list[int]]:
    """Yield orders in which one sheet, or two or three that follow each other, lie elsewhere."""
    for long in (1, 2, 3):
        for start in range(len(order) - long + 1):
            run, rest = order[start : start + long], [*order[:start], *order[start + long :]]
            for index in range(len(rest) + 1):
                if index != start:
                    yield [*rest[:index], *run, *rest[index:]]


def _gaps(order: Sequence[int], groups: Sequence[Iterable[set[int]]]) -> list[int]:
    """Return how many sheets lie between those of one piece, of all pieces, then so for tiers."""
    position = {sheet: index for index, sheet in enumerate(order)}
    gaps = []
    for some in groups:
        places = [[position[sheet] for sheet in each] for each in some]
        gaps.append(sum(max(each) - min(each) + 1 - len(each) for each in places))
    return gaps
