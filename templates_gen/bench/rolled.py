"""The paste of each template as it is rolled out, and what of it lies on the cake.

A circle is rolled whole, a strip with its trims, and what is cut out of a sheet by the sheet.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from templates_gen.cakefile.cut_from import MODELLING, WAFER, CutOut, thick_of
from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.tier import Tier
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.placement import inside
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.guides.guide import Guide
from templates_gen.pieces.boards import ring_opening
from templates_gen.pieces.cascade import counts
from templates_gen.plan import Plan
from templates_gen.tiers.seat import DRUM
from templates_gen.tiers.volume import volume
from templates_gen.units import in_both

FONDANT = "fondant"
Box = tuple[float, float, int]
"""How wide and how tall small pieces are, mm, and how many."""
COVERING: Mapping[str, Callable[[Tier], float]] = {
    "wrap": lambda spec: spec.paste_side_mm,
    "disc": lambda spec: spec.paste_top_mm,
    "lining": lambda spec: spec.paste_lining_mm,
    "gore": lambda spec: spec.paste_mm,
    "cap": lambda spec: spec.paste_mm,
    "rolling-out-circle": lambda spec: spec.paste_mm,
}
"""Kinds of template that cover a tier, and how thick each is rolled."""


@dataclass(frozen=True, slots=True)
class Rolled:
    """The paste of one template, all its copies: what it is for, of which kind and colour.

    ``thickness`` in mm; ``rolled`` and what of it is ``on_cake`` in mm3. Small pieces have their
    ``boxes``, mm, with the gap beside them, and how many there are of each; they may be of wafer
    paper.
    """

    piece: str
    tier: str
    kind: str
    colour: str
    thickness: float
    rolled: float
    on_cake: float
    boxes: tuple[Box, ...] = ()


def made_of(kind: str, thick: float) -> str:
    """Name what is cut from: how thick a paste is rolled, mm, or wafer paper."""
    return kind if kind == WAFER else f"{in_both(thick)} {kind}"


def rolled(plan: Plan) -> tuple[Rolled, ...]:
    """Return the paste of every template of a cake that paste is cut from, and of the drum."""
    stack = plan.stack
    tiers = {tier.name: tier for tier in stack.tiers}
    found = [each for piece in plan.pieces for each in _of_piece(stack, tiers, piece)]
    designs = (
        each
        for tier in stack.tiers
        for each in (*_in_strips(tier, stack.estimates), *_in_balls(tier))
    )
    # a cascade may have room for no piece at all
    return tuple(each for each in (*found, *designs, *_on_drum(stack)) if each.rolled)


@dataclass(frozen=True, slots=True)
class Balls:
    """Balls of paste, such as pearls: of which design, how many, how wide, mm, in which colour."""

    number: int
    count: int
    width: float
    colour: str

    @property
    def volume(self) -> float:
        """What all of them take, mm3."""
        return self.count * math.pi / 6 * self.width**3


def balls_on(tier: DecoratedTier) -> Iterator[Balls]:
    """Yield the pearls on a tier: a ball for each circle of a design of them."""
    for number, spec, guide in designs_of(tier, tier.marked):
        if DESIGNS[spec.kind].balls:
            paths = [stroke.path for stroke in guide.drawing.strokes if stroke.path.area > 0]
            wide = 2 * math.sqrt(max(path.area for path in paths) / math.pi)
            count = len(list(set_on(tier, guide)))
            yield Balls(number, count, wide, tier.spec.colour_of(spec))


def set_on(tier: DecoratedTier, guide: Guide) -> Iterator[Path]:
    """Yield the closed lines of a guide whose middle is on the side: over no hole, above its foot.

    A sloped top leaves no side for some.
    """
    holes = [inside(path) for path in tier.openings.repeated(guide.layer)]
    for path in (stroke.path for stroke in guide.drawing.strokes if stroke.path.area > 0):
        u, v = path.bounds.centre
        if v < guide.layer.side.foot_at(u) and not any(each((u, v)) for each in holes):
            yield path


def _in_balls(tier: DecoratedTier) -> Iterator[Rolled]:
    for each in balls_on(tier):
        name = f"{tier.slug}/balls-{each.number}"
        volumes = (each.volume, each.volume)
        yield Rolled(name, tier.name, MODELLING, each.colour, each.width, *volumes)


def designs_of(tier: DecoratedTier, guides: Sequence[Guide]) -> Iterator[tuple[int, Design, Guide]]:
    """Yield each design on the side of a tier with its number from 1, and what marks it."""
    for guide in guides:
        if len(guide.key) > 1 and guide.key[-2] == "design" and isinstance(guide.key[-1], int):
            yield guide.key[-1] + 1, tier.spec.design[guide.key[-1]], guide


def _in_strips(tier: DecoratedTier, estimates: Estimates) -> Iterator[Rolled]:
    """Yield the paste of ruffles and the like; lace is made in its mats."""
    gap = estimates.cut_gap.mm
    for guide in tier.marked:
        if not guide.strips or not isinstance(guide.key[-1], int):
            continue
        spec = tier.spec.design[guide.key[-1]]
        cut = DESIGNS[spec.kind].strip
        if cut is None or cut.is_mat:
            continue
        lies = sum(each.count * each.length * each.width for each in guide.strips)
        sheet = sum(each.count * each.length * (each.width + gap) for each in guide.strips)
        thick, colour = spec.thickness.mm, tier.spec.colour_of(spec)
        name = f"{tier.slug}/strips-{guide.key[-1] + 1}"
        yield Rolled(name, tier.name, FONDANT, colour, thick, sheet * thick, lies * thick)


def _topper(stack: DecoratedStack, piece: Piece) -> Rolled:
    spec = stack.toppers[_number(piece)]
    return _cut_out(piece, MODELLING, spec.colour, spec.thickness.mm, stack.estimates)


def _on_letter_cake(stack: DecoratedStack, piece: Piece) -> Rolled:
    spec = stack.letter_cakes[_number(piece)].spec
    return _cut_out(piece, FONDANT, spec.colour, spec.fondant.mm, stack.estimates)


def _of_piece(
    stack: DecoratedStack, tiers: Mapping[str, DecoratedTier], piece: Piece
) -> Iterator[Rolled]:
    tier, whole = tiers.get(piece.tier), OF_CAKE.get(piece.kind)
    if whole is not None:
        yield whole(stack, piece)
    elif tier is None:
        return
    elif piece.kind in COVERING:
        yield _covering(tier, piece, stack.estimates)
    elif piece.kind == "panel":
        yield _panel(tier, piece, stack.estimates)
    elif piece.kind == "letter":
        letters = tier.spec.lettering[_number(piece)]
        colour, thick = letters.paste_colour, letters.thickness.mm
        yield _cut_out(piece, MODELLING, colour, thick, stack.estimates)
    elif piece.kind == "scatter":
        yield _scattered(tier, piece, stack.estimates)


def is_round(piece: Piece) -> bool:
    """Tell whether a piece is a circle: as tall as wide, and of a circle's area."""
    size = piece.size
    area = math.pi / 4 * size.width * size.height
    return math.isclose(size.width, size.height, rel_tol=1e-6) and math.isclose(
        region(piece.outline).area, area, rel_tol=1e-3
    )


def _number(piece: Piece) -> int:
    """Return the place in the cake file of what a template belongs to."""
    return int(piece.part.split("-")[0]) - 1


def _covering(tier: DecoratedTier, piece: Piece, estimates: Estimates) -> Rolled:
    """Return the paste that covers a tier: what lies on it is without trims."""
    spec, thick = tier.spec, COVERING[piece.kind](tier.spec)
    area = piece.area.area
    box = piece.size.width * piece.size.height
    whole = area if is_round(piece) else min(box, (1 + estimates.rough / 100) * area)
    wrap = tier.wrapped.side.area - tier.openings.taken(tier.wrapped)
    on_cake = {"wrap": wrap * thick}.get(piece.kind, area * thick)
    if piece.kind == "rolling-out-circle":
        on_cake = volume(tier, tier.covered) - volume(tier, tier.coated)
    copies = piece.copies
    # a draped side of a wide plan folds over no more than is rolled
    lies = min(on_cake * copies, whole * thick * copies)
    return Rolled(
        piece.id, tier.name, FONDANT, spec.paste_colour, thick, whole * thick * copies, lies
    )


def _panel(tier: DecoratedTier, piece: Piece, estimates: Estimates) -> Rolled:
    panels, spec, rows = tier.spec.panels, tier.spec, tier.panel_rows
    assert panels is not None
    assert rows is not None
    if panels.replace_wrap:
        made = _cut_out(piece, FONDANT, spec.paste_colour, spec.paste_side_mm, estimates)
    else:
        colour, thick = spec.colour_of(panels), panels.thickness.mm
        made = _cut_out(piece, panels.material, colour, thick, estimates)
    # they are cut whole, and the hole through the tier is cut out of them
    return replace(made, on_cake=made.on_cake * tier.panels_area / rows.area)


def _scattered(tier: DecoratedTier, piece: Piece, estimates: Estimates) -> Rolled:
    made = tier.scatters[_number(piece)]
    some = [(made.outline, int(str(piece.values["pieces"])))]
    return side_by_side(piece.id, tier.name, made.spec, made.spec.colour, some, estimates)


def _in_cascade(stack: DecoratedStack, piece: Piece) -> Rolled:
    line = stack.cascades[_number(piece)]
    outlines = (shape.outline for shape in line.shapes)
    some = list(zip(outlines, counts(stack, line), strict=True))
    return side_by_side(piece.id, piece.tier, line.spec, line.spec.colour, some, stack.estimates)


def side_by_side(
    name: str,
    tier: str,
    spec: CutOut,
    colour: str,
    shapes: Sequence[tuple[Path, int]],
    estimates: Estimates,
) -> Rolled:
    """Return what small pieces are cut from, by their outlines and how many there are of each."""
    gap, thick = estimates.cut_gap.mm, thick_of(spec)
    sizes = ((outline.bounds, count) for outline, count in shapes)
    boxes = tuple((box.width + gap, box.height + gap, count) for box, count in sizes)
    sheet = sum(wide * high * count for wide, high, count in boxes)
    lies = sum(region(outline).area * count for outline, count in shapes)
    return Rolled(name, tier, spec.material, colour, thick, sheet * thick, lies * thick, boxes)


OF_CAKE: Mapping[str, Callable[[DecoratedStack, Piece], Rolled]] = {
    "topper": _topper,
    "letter-top": _on_letter_cake,
    "letter-wall": _on_letter_cake,
    "cascade": _in_cascade,
}
"""Kinds of template that belong to no tier, and the paste of each."""


def _cut_out(piece: Piece, kind: str, colour: str, thick: float, estimates: Estimates) -> Rolled:
    """Return the paste of shapes cut out of a sheet, side by side."""
    gap = estimates.cut_gap.mm
    sheet = (piece.size.width + gap) * (piece.size.height + gap)
    lies = piece.paper.area * piece.copies * thick
    rolled = sheet * piece.copies * thick
    return Rolled(piece.id, piece.tier, kind, colour, thick, rolled, lies)


def _on_drum(stack: DecoratedStack) -> Iterator[Rolled]:
    drum = stack.drum
    spec = stack.drum_spec
    if spec.fondant is not None and drum is not None:
        thick = spec.fondant.mm
        ring = ring_opening(stack)
        lies = drum.area - (ring.area if ring else 0.0)
        # a ring is cut from one sheet
        yield Rolled(DRUM, DRUM, FONDANT, spec.colour, thick, drum.area * thick, lies * thick)
