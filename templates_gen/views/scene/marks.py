"""What is on the side and on the top of a tier: panels, drips, designs, letters, small pieces."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from fontTools.misc.transform import Identity, Transform

from templates_gen.cakefile.cut_from import thick_of
from templates_gen.cakefile.drips import Drips
from templates_gen.drawing.designs import design_word
from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.offset import offset
from templates_gen.geometry.path import Path
from templates_gen.geometry.path_pen import FLIP
from templates_gen.guides.cascade import Laid, size_words
from templates_gen.guides.cascade_line import Run
from templates_gen.guides.decorated import DecoratedTier, Ledge
from templates_gen.guides.guide import Guide
from templates_gen.guides.lettering import Lettered
from templates_gen.guides.panels import panel_boxes
from templates_gen.memo import Memo
from templates_gen.units import counted, decimal, in_both
from templates_gen.views.colours import DRIPS, LETTERS, LUSTRE, colour_of, deeper, to_hex
from templates_gen.views.scene.bodies import part_of, ribbon_mark, ring_of, tier_colour
from templates_gen.views.scene.parts import Look, Mark, Move, Repeated, Shape, Vector, Way
from templates_gen.views.scene.sloped import above_foot, along_foot

FINE = (0.2, 1.0, 4.0)
"""How far curves may leave the true ones, mm; the coarser where a tier has too much on it."""
MOST_POINTS = 6000
"""Points of all that is on a tier."""
DEEPER = 2.6
"""How much fuller than that of its tier the colour of a design is, as a power."""


@dataclass(frozen=True, slots=True)
class Style:
    """How a design looks: whether its closed lines are filled, and how wide its lines are, mm.

    A fuller colour sets it off from its tier, by a power; it stands ``raised`` mm out. What is
    ``between`` its two lines is filled.
    """

    is_filled: bool = True
    width: float = 0.8
    power: float = DEEPER
    raised: float = 1.0
    between: bool = False


STYLES: Mapping[str, Style] = {
    "fault": Style(raised=0.0, between=True),
    "geode": Style(raised=0.0),
    "bands": Style(False, 0.8, 3.0, 0.0),
    "ruffles": Style(False, 2.4, 1.8, 1.5),
    "pleats": Style(False, 1.2, 1.8, 1.0),
    "fringe": Style(False, 2.0, 1.8, 1.5),
    "lace": Style(False, 1.6, 0.5, 0.5),
    "bows": Style(True, 0.8, DEEPER, 3.0),
    "diamonds": Style(False, 0.8, 3.0, 0.0),
    "swags": Style(False, 3.0, DEEPER, 2.0),
    "waves": Style(False, 2.4),
    "chevrons": Style(False, 2.4),
    "pearls": Style(True, 0.8, 0.5, 2.0),
    "shells": Style(True, 0.8, 1.4, 4.0),
}
"""Designs that do not look as usual: our choice."""


def on_side(tier: DecoratedTier) -> tuple[tuple[Mark, ...], bool]:
    """Return what is on the side of a tier, and whether it has been simplified."""
    for fine in FINE:
        marks = tuple(_marks(tier, fine))
        if sum(map(points_of, marks)) <= MOST_POINTS:
            return _on_solid(tier, marks), fine != FINE[0]
    return _on_solid(tier, _bounded(tier, marks)), True


def _on_solid(tier: DecoratedTier, marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Return marks without what would lie below the side of a tier with a sloped top."""
    layer = tier.covered
    return marks if layer.fall is None else tuple(above_foot(layer, mark) for mark in marks)


def _marks(tier: DecoratedTier, fine: float) -> Iterator[Mark]:
    if tier.spec.ribbon and tier.lies_flat:
        part, layer, wide = part_of(tier.key("ribbon")), tier.covered, tier.spec.ribbon.mm
        plain = ribbon_mark(part, layer.side, wide)
        yield plain if layer.fall is None else along_foot(layer, plain, wide)
    for guide in tier.own_marks:
        yield MARKS[str(guide.key[2])](tier, guide, fine)
    for run in tier.runs:
        if run.index in tier.cascades:
            yield _cascade(tier, run, fine)


def points_of(mark: Mark) -> int:
    """Return how many points a mark has."""
    rings = sum(len(ring) for shape in mark.shapes for ring in shape)
    rings += sum(len(ring) * len(each.places) for each in mark.repeated for ring in each.shape)
    return rings + sum(map(len, mark.lines)) + 2 * len(mark.bands)


def _bounded(tier: DecoratedTier, marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Return marks, the richest of them as no more than the band they fill, until few are left."""
    found = list(marks)
    for index in sorted(range(len(found)), key=lambda index: -points_of(found[index])):
        if sum(map(points_of, found)) <= MOST_POINTS:
            break
        mark = found[index]
        rings = [ring for shape in mark.every_shape for ring in shape]
        levels = [v for points in (*rings, *mark.lines) for _, v in points]
        band = Box(0.0, min(levels), tier.covered.side.girth, max(levels))
        found[index] = Mark(mark.look, bands=(band,))
    return tuple(found)


def on_top(tier: DecoratedTier) -> tuple[Mark, ...]:
    """Return what is on the top of a tier, in its plan: where drips come from, and letters."""
    return (*_poured(tier), *_run_out(tier), *_letters_on_top(tier))


def on_ledge(ledge: Ledge) -> tuple[Mark, ...]:
    """Return what lies round the foot of a tier, in the frame of what it stands on."""
    return tuple(_cascade_on_ledge(ledge, run) for run in ledge.runs if run.index in ledge.cascades)


def _cascade_on_ledge(ledge: Ledge, run: Run) -> Mark:
    lies, laid = ledge.seat.lies, ledge.cascades[run.index]
    onto = lies.transform.inverse()
    places = [(*onto.transformPoint(each.at), math.degrees(each.turn) - lies.turn) for each in laid]
    found = _repeated(laid, places, Identity, FINE[0], ledge.memo)
    return _cascade_mark(run, laid, repeated=found)


def _poured(tier: DecoratedTier) -> Iterator[Mark]:
    """Yield the icing along the rim that the drips run from, as wide as a drip."""
    drips = tier.spec.drips
    if drips is None or tier.drip_row is None:
        return
    rim = tier.covered.rim
    edge = ring_of(rim)
    try:
        inner = ring_of(offset(rim, -drips.width.mm))
    except GeometryError:
        inner = ()
    shape = (edge, tuple(reversed(inner))) if inner else (edge,)
    yield Mark(_drip_look(tier, drips), shapes=(shape,))


def _run_out(tier: DecoratedTier) -> Iterator[Mark]:
    """Yield the collar of royal icing on the rim, as far out as it reaches."""
    spec = tier.spec.run_out
    if spec is None:
        return
    rim = tier.covered.rim
    try:
        outer, inner = ring_of(offset(rim, spec.width.mm)), ring_of(offset(rim, -spec.overlap.mm))
    except GeometryError:
        return
    says = f"{in_both(spec.width.mm)} beyond the rim"
    colour = colour_of(spec.colour, "ffffff")
    look = Look(part_of(tier.key("run_out")), "Run-out collar", says, colour)
    yield Mark(look, shapes=((outer, tuple(reversed(inner))),), raised=spec.thickness.mm)


def _letters_on_top(tier: DecoratedTier) -> Iterator[Mark]:
    for index, lettered in tier.letterings_on_top.items():
        shapes, lines = _outlines(lettered.outlines, FINE[0])
        part = part_of((*tier.key("lettering"), index))
        yield Mark(_letter_look(part, lettered, _on_top(lettered)), shapes, lines, raised=1.0)


def _letter_look(part: str, lettered: Lettered, moves: tuple[Move, ...]) -> Look:
    says = f"capitals {in_both(lettered.line.cap_height)} tall"
    spec = lettered.spec
    colour = colour_of(spec.paste_colour if spec.cut else spec.colour, LETTERS)
    return Look(part, f"“{spec.text}”", says, colour, moves)


def _on_top(lettered: Lettered) -> tuple[Move, ...]:
    """Return how letters on a top move; those along its rim have a line of their own."""
    if lettered.spec.line == "rim":
        return ()
    return _sideways(lettered, "right"), Move(("level",), "back", lettered.level)


def _sideways(lettered: Lettered, way: Way) -> Move:
    return Move(("sideways",), way, lettered.spec.sideways.mm)


def _on_side(lettered: Lettered) -> tuple[Move, ...]:
    """Return how letters on a side move."""
    return _sideways(lettered, "along"), Move(("level",), "down", lettered.level)


def _outlines(
    paths: Iterable[Path], fine: float, *, is_filled: bool = True
) -> tuple[tuple[Shape, ...], tuple[tuple[Point, ...], ...]]:
    """Return the closed contours of paths as shapes, one for each path, and the open ones."""
    shapes: list[Shape] = []
    lines: list[tuple[Point, ...]] = []
    for path in paths:
        rings = []
        for points, closed in sampled(path, fine):
            if closed and is_filled:
                rings.append(tuple(points[:-1]))
            else:
                lines.append(tuple(points))
        if rings:
            shapes.append(tuple(rings))
    return tuple(shapes), tuple(lines)


def _paths(guide: Guide) -> list[Path]:
    return [stroke.path for stroke in guide.drawing.strokes]


def _panels(tier: DecoratedTier, guide: Guide, fine: float) -> Mark:
    """Return panels; those that are the covering have the colour of the tier and their joins."""
    spec, rows = tier.spec.panels, tier.panel_rows
    assert spec is not None
    assert rows is not None
    boxes = panel_boxes(rows, spec, tier.covered)
    own = tier_colour(tier)
    colour = own if spec.replace_wrap else colour_of(spec.colour, to_hex(deeper(own, 1.5))[1:])
    wide = " to ".join(dict.fromkeys(in_both(find(rows.widths)) for find in (min, max)))
    says = f"{counted(rows.count, 'panel')}, {wide} by {in_both(rows.height)}"
    look = Look(part_of(guide.key), "Panels", says, colour)
    return Mark(look, bands=boxes, raised=0.0 if spec.replace_wrap else spec.thickness.mm)


def _drip_look(tier: DecoratedTier, drips: Drips) -> Look:
    row = tier.drip_row
    assert row is not None
    lengths = sorted({decimal(min(row.lengths), 0), decimal(max(row.lengths), 0)}, key=float)
    says = f"{counted(len(row.positions), 'drip')}, {' to '.join(lengths)} mm long"
    paint = tier.spec.paint
    painted = paint is not None and paint.on == "drips"
    colour = colour_of(drips.colour, LUSTRE if painted else DRIPS)
    return Look(part_of(tier.key("drips")), "Drips", says, colour)


def _drips(tier: DecoratedTier, guide: Guide, fine: float) -> Mark:
    drips = tier.spec.drips
    assert drips is not None
    shapes, lines = _outlines(_paths(guide), fine)
    return Mark(_drip_look(tier, drips), shapes, lines, raised=3.0)


def _design(tier: DecoratedTier, guide: Guide, fine: float) -> Mark:
    spec = tier.spec.design[int(guide.key[3])]
    style = STYLES.get(spec.kind, Style())
    shapes, lines = _outlines(_paths(guide), fine, is_filled=style.is_filled)
    if style.between and len(lines) == 2:
        shapes, lines = (((*lines[0], *reversed(lines[1])),),), ()
    says = guide.note.split(": ")[0]
    colour = colour_of(spec.colour, to_hex(deeper(tier_colour(tier), style.power))[1:])
    look = Look(part_of(guide.key), design_word(spec.kind).capitalize(), says, colour)
    return Mark(look, shapes, lines, width=style.width, raised=style.raised)


def _comb(tier: DecoratedTier, guide: Guide, fine: float) -> Mark:
    shapes, lines = _outlines(_paths(guide), fine)
    colour = deeper(tier_colour(tier), 1.5)
    return Mark(Look(part_of(guide.key), "Comb", guide.note, colour), shapes, lines, width=1.6)


def _lettering(tier: DecoratedTier, guide: Guide, fine: float) -> Mark:
    lettered = tier.letterings_on_side[int(guide.key[3])]
    shapes, lines = _outlines(_paths(guide), fine)
    look = _letter_look(part_of(guide.key), lettered, _on_side(lettered))
    return Mark(look, shapes, lines, raised=1.0)


def _scatter(tier: DecoratedTier, guide: Guide, fine: float) -> Mark:
    spec = tier.scatters[int(guide.key[3])].spec
    shapes, lines = _outlines(_paths(guide), fine)
    says = f"{len(shapes)} of shape {spec.shape}, {in_both(spec.size.mm)}"
    ends = (("top", spec.top), ("bottom", spec.bottom))
    moves = tuple(Move((key,), "down", length.mm) for key, length in ends if length is not None)
    colour = colour_of(spec.colour, "ffffff")
    look = Look(part_of(guide.key), "Small pieces", says, colour, moves)
    return Mark(look, shapes, lines, raised=thick_of(spec))


def _cascade(tier: DecoratedTier, run: Run, fine: float) -> Mark:
    """Return the pieces of a cascade on a side: one shape at many places where it is not bent."""
    laid = tier.cascades[run.index]
    if not tier.covered.side.is_level:
        shapes, _ = _outlines([each.outline for each in laid], fine)
        return _cascade_mark(run, laid, shapes=shapes)
    places = [(*each.at, -math.degrees(each.turn)) for each in laid]
    return _cascade_mark(run, laid, repeated=_repeated(laid, places, FLIP, fine, tier.memo))


def _cascade_mark(
    run: Run,
    laid: Sequence[Laid],
    shapes: tuple[Shape, ...] = (),
    repeated: tuple[Repeated, ...] = (),
) -> Mark:
    spec = run.spec
    says = f"{counted(len(laid), 'piece')} here, {size_words(spec)}"
    look = Look(part_of(("cascade", run.index)), "Cascade", says, colour_of(spec.colour, "ffffff"))
    return Mark(look, shapes, raised=4.0, repeated=repeated)


def _repeated(
    laid: Sequence[Laid], places: Sequence[Vector], onto: Transform, fine: float, memo: Memo
) -> tuple[Repeated, ...]:
    """Return pieces as one shape of each size with their places; ``onto`` maps the shape."""
    found: dict[int, list[Vector]] = {}
    shapes: dict[int, Path] = {}
    for each, place in zip(laid, places, strict=True):
        shapes[each.size] = each.shape
        found.setdefault(each.size, []).append(place)
    made_from = {size: (shapes[size], onto, fine) for size in found}
    return tuple(
        Repeated(memo.get((_shape, *made_from[size]), partial(_shape, *made_from[size])), tuple(at))
        for size, at in found.items()
    )


def _shape(path: Path, onto: Transform, fine: float) -> Shape:
    """Return a closed outline as a shape, as ``onto`` maps it."""
    return _outlines([path.transformed(onto)], fine)[0][0]


MARKS: Mapping[str, Callable[[DecoratedTier, Guide, float], Mark]] = {
    "panels": _panels,
    "drips": _drips,
    "comb": _comb,
    "design": _design,
    "lettering": _lettering,
    "scatter": _scatter,
}
"""What shows a guide, by the table that it comes from."""
