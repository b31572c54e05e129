"""Everything that is cut: paste, boards, ribbons and dowels, each with its size and number."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from templates_gen.bench.carving import boards_inside
from templates_gen.bench.flowers import wires
from templates_gen.bench.rolled import Rolled, balls_on, is_round, made_of
from templates_gen.bench.wafer import sheets
from templates_gen.cakefile.cut_from import MODELLING, SHEET, SOLD, WAFER
from templates_gen.cakefile.letter_cakes import name_of
from templates_gen.geometry.outline import Outline
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.guides.flowers import THICK
from templates_gen.guides.strips import Strip
from templates_gen.pieces.boards import ring_opening
from templates_gen.pieces.flowers import flowers
from templates_gen.plan import Plan
from templates_gen.tiers.letter_cakes import BOARD
from templates_gen.tiers.seat import DRUM
from templates_gen.tiers.widths import polygon_sizes, polygon_words
from templates_gen.units import counted, in_both, in_trade

CIRCLE_GUIDE, PLACEMENT_GUIDE = "circle guide", "placement guide"
NO_TEMPLATE = "no template: measure"
THROUGH, WAFER_SHEET = "dowel-through", "wafer-sheet"
BY_SIZE = ("dowel", THROUGH, "pillar", "ribbon")
"""Kinds that are sold by a size: the last of theirs."""


@dataclass(frozen=True, slots=True)
class Cut:
    """Something to cut: what, for which tier, how many, its sizes in mm, from which paper.

    Its ``kind`` is that of its template, or one of what is cut without. The sizes of a regular
    polygon, with so many ``sides``, are those of ``polygon_sizes``.
    """

    kind: str
    what: str
    tier: str
    number: int
    sizes: tuple[float, ...]
    paper: str
    round: bool = False
    sides: int = 0

    @property
    def size(self) -> str:
        """The sizes in both units."""
        if self.sides:
            first, second = self.sizes
            return f"{_polygon(self.sides)}, {polygon_words((first, second), self.sides)}"
        *cut, last = self.sizes
        write = in_trade if self.kind in BY_SIZE else in_both
        text = " × ".join([*map(in_both, cut), write(last)])
        return f"{text} across" if self.round else text


def cut_list(plan: Plan, parts: Iterable[Rolled]) -> tuple[Cut, ...]:
    """Return all that is cut, paste first, from the bottom up; ``parts`` are its rolled paste."""
    stack, parts = plan.stack, tuple(parts)
    pastes = (*_pastes(plan, parts), *_strips(stack), *_balls(stack), *_flowers(stack))
    wafers = _wafer_sheets(plan, parts)
    boards = (*_boards(stack), *_inner_boards(stack), *_separators(stack))
    return (*pastes, *wafers, *boards, *ribbons(stack), *_dowels(stack))


def _pastes(plan: Plan, found: Iterable[Rolled]) -> Iterator[Cut]:
    parts = {each.piece: each for each in found}
    for piece in plan.pieces:
        part = parts.get(piece.id)
        if part is None:
            continue
        size, is_circle = piece.size, is_round(piece)
        sizes = (size.width,) if is_circle else (size.width, size.height)
        paper = piece.title if piece.printed else CIRCLE_GUIDE if is_circle else NO_TEMPLATE
        name = " ".join(piece.kind.rsplit("-", 1))  # a rolling-out circle, a drum ring
        name = name if is_circle else name.replace("out circle", "out sheet")
        what = f"{name}: {made_of(part.kind, part.thickness)}"
        yield Cut(piece.kind, what, piece.tier, piece.copies, sizes, paper, is_circle)
    drum = plan.stack.drum
    if DRUM in parts and drum is not None:
        cover = parts[DRUM]
        is_ring = ring_opening(plan.stack) is not None
        name = "drum ring" if is_ring else "drum cover"
        what = f"{name}: {made_of(cover.kind, cover.thickness)}"
        yield _board("drum-cover", what, DRUM, drum, "drum: ring of fondant" if is_ring else None)


def _balls(stack: DecoratedStack) -> Iterator[Cut]:
    """Yield the pearls that are rolled between the palms or pressed in a mould."""
    for tier in stack.tiers:
        for each in balls_on(tier):
            what = f"pearl: ball of {MODELLING}"
            yield Cut("ball", what, tier.name, each.count, (each.width,), NO_TEMPLATE, round=True)


def _flowers(stack: DecoratedStack) -> Iterator[Cut]:
    """Yield petals, sepals and leaves, and the wires of each."""
    for made in flowers(stack):
        for part in made.parts:
            count, sizes = part.count * made.spec.count, (part.length, part.width)
            what = f"{part.name}: {made_of(made.spec.material, made.spec.thickness.mm)}"
            sheet = "leaves" if part.green else "petals"
            paper = f"{made.name}: {made.spec.kind}, {sheet}"
            yield Cut(sheet, what, made.name, count, sizes, paper)
        for what, count, wire in wires(made):
            name = f"{what}, {wire.gauge} gauge"
            sizes = (wire.length, THICK[wire.gauge])
            yield Cut("wire", name, made.name, count, sizes, NO_TEMPLATE)


def _wafer_sheets(plan: Plan, found: Iterable[Rolled]) -> Iterator[Cut]:
    """Yield the sheets of wafer paper that all pieces of one colour are cut from."""
    for colour, number in sheets(found, plan.stack.estimates):
        what = f"sheet of {WAFER}, {colour}, {SOLD}"
        yield Cut(WAFER_SHEET, what, "pack", number, SHEET, "")


def _strips(stack: DecoratedStack) -> Iterator[Cut]:
    """Yield the strips of ruffles, pleats and the like, as they are cut."""
    for tier in stack.tiers:
        for guide in tier.marked:
            for _, found in groupby(guide.strips, _as_cut):
                yield _alike(guide.name, tier.name, list(found))


def _as_cut(strip: Strip) -> tuple[object, ...]:
    """Return what is the same of rows that are cut alike, to 0.1 mm: all but their numbers."""
    lengths = (round(mm, 1) for mm in (strip.length, strip.width, strip.left))
    return strip.name.rstrip("0123456789"), strip.count, *lengths


def _alike(design: str, tier: str, strips: Sequence[Strip]) -> Cut:
    """Return strips that are cut alike as one line: those of several rows together."""
    first, rows = strips[0], len(strips)
    each = " for each" if rows > 1 else ""
    name = f"{rows} rows, {counted(first.count, 'strip')} each" if rows > 1 else first.name
    left = f", {in_both(first.left)} left over{each}" if first.left else ""
    what = f"{design}: {name or 'strip'}{left}"
    return Cut("strip", what, tier, rows * first.count, (first.length, first.width), NO_TEMPLATE)


def _boards(stack: DecoratedStack) -> Iterator[Cut]:
    for seat in stack.seats:
        paper = f"{seat.name}: {PLACEMENT_GUIDE}" if seat.scored else None
        if seat.on_drum:
            what = f"drum, {in_trade(stack.drum_thickness)} thick"
            yield _swung("drum", what, DRUM, seat.outline, paper)
        if seat.upper.board_thickness:
            what = f"board, {in_trade(seat.upper.board_thickness)} thick"
            yield _swung("board", what, seat.upper.name, seat.upper.board, paper)
    for cake in stack.letter_cakes:
        name = name_of(cake.index + 1)
        what = f"board, {in_trade(BOARD.mm)} thick"
        yield Cut("board", what, name, 1, cake.made.board, f"{name}: board")
    for tier in stack.tiers:
        for height, size in boards_inside(tier, stack.estimates):
            what = f"board inside, {in_both(height)} up"
            yield Cut("board", what, tier.name, 1, size, f"{tier.name}: carving guide")


def _inner_boards(stack: DecoratedStack) -> Iterator[Cut]:
    """Yield the boards inside tiers, each with the dowels below it."""
    for tier, boards in zip(stack.tiers, stack.inner_boards, strict=True):
        for board in boards:
            paper, support = f"{tier.name}: inner board", board.support
            what = f"board inside, {in_trade(board.thickness)} thick"
            yield _board("board", what, tier.name, board.outline, paper)
            sizes = (support.length, support.thickness)
            yield Cut("dowel", "dowel inside", tier.name, support.count, sizes, paper)


def _separators(stack: DecoratedStack) -> Iterator[Cut]:
    """Yield what raised tiers stand on: pillars all alike, or a spacer."""
    for seat in stack.seats:
        found, name = seat.separator, seat.upper.name
        if found is None:
            continue
        if found.spacer is not None:
            box, deep = found.spacer.bounds, in_both(found.height)
            is_round = found.spacer.radius is not None
            sizes = (box.width,) if is_round else (box.width, box.height)
            paper = f"{seat.name}: {PLACEMENT_GUIDE}"
            yield Cut("spacer", f"spacer, {deep} tall", name, 1, sizes, paper, is_round)
        elif seat.support is not None:
            sizes = (found.height, found.thick)
            yield Cut("pillar", "pillar, hollow", name, seat.support.count, sizes, NO_TEMPLATE)


def _swung(kind: str, what: str, tier: str, outline: Outline, paper: str | None) -> Cut:
    """Return a board of which a circle is swung to its size, and needs no sheet."""
    return _board(kind, what, tier, outline, None if outline.radius else paper)


def _board(kind: str, what: str, tier: str, outline: Outline, paper: str | None) -> Cut:
    """Return a board: cut by a sheet, or a circle by the circle guide, or else measured."""
    box = outline.bounds
    if outline.radius is not None:
        sizes = (2 * outline.radius,)
        return Cut(kind, what, tier, 1, sizes, paper or CIRCLE_GUIDE, round=True)
    corners = outline.corner_spans
    # rounded ones are made, not bought
    if outline.across_flats and all(start == end for start, end in corners):
        spans = polygon_sizes(outline)
        return Cut(kind, what, tier, 1, spans, paper or NO_TEMPLATE, sides=len(corners))
    return Cut(kind, what, tier, 1, (box.width, box.height), paper or NO_TEMPLATE)


def _polygon(sides: int) -> str:
    return {5: "pentagon", 6: "hexagon", 8: "octagon"}.get(sides, f"{sides} sides")


def ribbons(stack: DecoratedStack) -> Iterator[Cut]:
    """Yield the ribbons that are wanted: as long as they go round, and an overlap."""
    over = stack.estimates.ribbon_overlap.mm
    ribbon = stack.drum_spec.ribbon
    if stack.drum is not None and ribbon is not None:
        sizes = (stack.drum.girth + over, ribbon.mm)
        yield Cut("ribbon", "ribbon", DRUM, 1, sizes, NO_TEMPLATE)
    for tier in stack.tiers:
        if tier.spec.ribbon is not None:
            sizes = (tier.covered.foot.girth + over, tier.spec.ribbon.mm)
            yield Cut("ribbon", "ribbon", tier.name, 1, sizes, NO_TEMPLATE)


def through_length(stack: DecoratedStack) -> float:
    """Return how long a dowel through all tiers is, mm: to below the top of the highest.

    In a shallow tier it goes half-way through. It enters the drum.
    """
    below = min(stack.estimates.below_top.mm, stack.tiers[-1].covered.depth / 2)
    return stack.height - below + into_drum(stack)


def into_drum(stack: DecoratedStack) -> float:
    """Return how deep a dowel through all tiers enters the drum, mm."""
    return stack.drum_thickness * stack.estimates.into_drum / 100


def _dowels(stack: DecoratedStack) -> Iterator[Cut]:
    for seat in stack.seats:
        if seat.lower is not None and seat.support is not None and seat.support.count:
            support = seat.support
            sizes = (support.length, support.thickness)
            paper = f"{seat.name}: {PLACEMENT_GUIDE}"
            yield Cut("dowel", "dowel", seat.name, support.count, sizes, paper)
    if stack.through is not None:
        thick = max(seat.support.thickness for seat in stack.seats if seat.support)
        sizes = (through_length(stack), thick)
        yield Cut(THROUGH, "dowel through all tiers", DRUM, 1, sizes, NO_TEMPLATE)
