"""Designs: how many repeats close round a side or a face, and what they draw in (u, v)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from fontTools.misc.transform import Transform

from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.lengths import Length
from templates_gen.drawing.attached import Attached
from templates_gen.drawing.designs import DESIGNS, design_word
from templates_gen.drawing.designs.motif import Cell, Motif
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Value
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError, all_problems
from templates_gen.geometry.areas.sampling import path_length
from templates_gen.geometry.box import union_box
from templates_gen.geometry.path import Path, line
from templates_gen.guides.guide import Guide, Repeats, numbered
from templates_gen.guides.intervals import Interval, band, intervals, true_width
from templates_gen.guides.strips import strip_values, strips
from templates_gen.tiers.rigid import set_at
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.units import in_both, series

REPEAT_WIDTH = "repeat width"
MOST_LINES = 20_000
"""Lines and curves of one design."""
REACHES_ON = 1.5
"""A repeat that ends farther on than this, over its width, is drawn into the next: our choice."""
ALIKE = 1e-6
"""What figures differ by from rounding alone."""


def motifs(spec: Design, height: float, found: Sequence[Interval], wider: float) -> list[Motif]:
    """Return what one repeat of each interval draws, in (u, v), truly ``wider`` times as wide.

    Raises CakeError, keys within the design.
    """
    design = DESIGNS[spec.kind]
    given = {key: _plain(getattr(spec, key)) for key in design.own}
    own = {key: value for key, value in given.items() if value is not None}
    drawn = [design.draw(Cell(part.pitch * wider, height), **own) for part in found]
    if wider != 1.0 and not design.true_size:
        drawn = [motif.stretched(1 / wider) for motif in drawn]
    _refuse_crowds(found, drawn)
    parts = zip(found, drawn, strict=True)
    if not _are_alike(found) and any(_reaches_on(part, motif) for part, motif in parts):
        raise CakeError.at(
            ("per",),
            f"“face”: {spec.kind} that reach over the corner to repeats of another width",
            "“round” for these",
            "leave per out, or choose another form: it reaches over one repeat",
        )
    return drawn


def _are_alike(found: Sequence[Interval]) -> bool:
    """Tell whether the repeats of all intervals are as wide."""
    pitches = [part.pitch for part in found]
    return max(pitches) - min(pitches) <= ALIKE


def _refuse_crowds(found: Sequence[Interval], drawn: Sequence[Motif]) -> None:
    """Refuse more lines than paper can show. Raises CakeError."""
    lines = sum(
        part.count * sum(len(path.commands) for path in motif.paths)
        for part, motif in zip(found, drawn, strict=True)
    )
    if lines > MOST_LINES:
        raise CakeError.at(
            ("width",),
            f"{lines} lines and curves in all repeats together",
            f"up to {MOST_LINES}",
            "make the repeats wider, or the drawing simpler",
        )


def _reaches_on(part: Interval, motif: Motif) -> bool:
    """Tell whether a repeat goes on past the middle of the next."""
    return any(path.bounds.x1 > REACHES_ON * part.pitch for path in motif.paths)


def _plain(value: object) -> object:
    """Return what a design makes of a value: mm of a length, the content of a file."""
    if isinstance(value, Attached):
        return value.content
    return value.mm if isinstance(value, Length) else value


def design_guide(layer: Layer, spec: Design) -> Guide:
    """Return a design on a side. Raises CakeError, keys within the design."""
    top, foot = band(layer, spec)
    found = intervals(layer, spec)
    drawn = motifs(spec, foot - top, found, true_width(layer.side, spec, (top, foot)))
    paths = [*_repeats(layer.side, found, drawn, top), *_levels(drawn, layer.side.girth, top)]
    if not layer.side.is_level:
        drawn = [
            _measured(layer.side, part, each, top) for part, each in zip(found, drawn, strict=True)
        ]
    cut = strips(layer.side, spec, drawn, [part.count for part in found], top)
    values = _values(spec, found, drawn, layer.side.girth_ratio(top)) | strip_values(cut)
    reach, design = union_box(path.bounds for path in paths), DESIGNS[spec.kind]
    return Guide(
        layer,
        Drawing(tuple(Stroke(path, Role.GUIDE if cut else Role.PIPE) for path in paths)),
        reach.y0,
        reach.y1,
        values,
        note=_note(spec.kind, values, is_tapered=layer.is_tapered),
        sizes=_sizes(values),
        repeats=_alike_round(found, drawn),
        strips=cut,
        # edges all round have papers of their own
        on_collar=not design.edges or design.repeat is not None,
        is_placed=design.edges and design.repeat is not None,
    )


def _alike_round(found: Sequence[Interval], drawn: Sequence[Motif]) -> Repeats | None:
    """Return where repeats begin that are alike all round; of every other one mirrored, pairs.

    None where they differ from face to face. Level lines alone are one repeat, once round.
    """
    if not _are_alike(found):
        return None
    every = 2 if any(motif.turned for motif in drawn) else 1
    places = (place for part in found for place in part.places[::every])
    girth = sum(part.length for part in found)
    return Repeats(tuple(sorted(place % girth for place in places)), every * found[0].pitch)


def _repeats(
    side: Side, found: Sequence[Interval], drawn: Sequence[Motif], top: float
) -> Iterator[Path]:
    for part, motif in zip(found, drawn, strict=True):
        for index, place in enumerate(part.places):
            paths = motif.turned if motif.turned and index % 2 else motif.paths
            if motif.about is None or side.is_level:
                yield from (path.moved(place, top) for path in paths)
            else:
                x, y = motif.about
                at, upright = (place + part.pitch / 2, top + y), Transform(1, 0, 0, -1, -x, y)
                yield from (set_at(side, path.transformed(upright), at) for path in paths)


def _measured(side: Side, part: Interval, motif: Motif, top: float) -> Motif:
    """Return a motif with its lengths as they are on an uneven side, of the longest repeat."""

    def longest(path: Path) -> float:
        return max(path_length(side.unrolled(path.moved(at, top))) for at in part.places)

    found = {name: tuple(map(longest, paths)) for name, paths in motif.lengths.items()}
    values = {name: each[0] if len(each) == 1 else each for name, each in found.items()}
    return replace(motif, values={**motif.values, **values})


def _levels(drawn: Sequence[Motif], girth: float, top: float) -> Iterator[Path]:
    levels = dict.fromkeys(level for motif in drawn for level in motif.levels)
    yield from (line((0.0, top + level), (girth, top + level)) for level in levels)


def _values(
    spec: Design, found: Sequence[Interval], drawn: Sequence[Motif], ratio: float
) -> dict[str, Value]:
    """Return the figures of a design; those that differ from face to face follow each other.

    At the top of the design the girth is ``ratio`` times that of the rim, and so is a repeat.
    """
    values: dict[str, Value] = {"design": spec.kind}
    if DESIGNS[spec.kind].repeat is not None:
        values["repeat_count"] = sum(part.count for part in found)
        values |= _each({"repeat_width_mm": part.pitch * ratio} for part in found)
    return values | _each(motif.values for motif in drawn)


def _note(kind: str, values: Mapping[str, Value], *, is_tapered: bool) -> str:
    """Say on paper how many repeats there are, and each length in both units."""
    where = {REPEAT_WIDTH: " at the top"} if is_tapered else {}
    lengths = (
        f"{name} {' + '.join(map(in_both, each))}{where.get(name, '')}"
        for name, each in _lengths(values)
    )
    return f"{values['repeat_count']} {design_word(kind)}: {', '.join(lengths)}"


def _sizes(values: Mapping[str, Value]) -> str:
    """Say how large what is repeated is, where no strips are cut for it."""
    named = [(name, each) for name, each in _lengths(values) if name != REPEAT_WIDTH]
    if any(name.startswith("strip") for name, _ in named):
        return ""
    return ", ".join(f"{name} {series([in_both(mm) for mm in each])}" for name, each in named)


def _lengths(values: Mapping[str, Value]) -> Iterator[tuple[str, Sequence[float]]]:
    """Yield the lengths among figures, mm, each with its name in words."""
    for name, value in values.items():
        if name.endswith("_mm"):
            each = value if isinstance(value, tuple) else (value,)
            yield name.removesuffix("_mm").replace("_", " "), [float(number) for number in each]


def _each(figures: Iterable[Mapping[str, Value]]) -> dict[str, Value]:
    """Return the figures of several intervals by name, once where they are all alike."""
    every = list(figures)
    return {name: _one(tuple(each[name] for each in every)) for name in every[0]}


def _one(values: tuple[Value, ...]) -> Value:
    first = values[0]
    if all(_alike(first, value) for value in values):
        return first
    flat: list[float] = []
    for value in values:
        flat += value if isinstance(value, tuple) else [float(value)]
    return tuple(flat)


def _alike(one: Value, other: Value) -> bool:
    """Tell whether two figures are alike but for rounding."""
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    mine, its = (v if isinstance(v, tuple) else (v,) for v in (one, other))
    return all(abs(a - b) < ALIKE for a, b in zip(mine, its, strict=True))


def guides(tier: Solid) -> Iterator[Guide]:
    """Yield the designs of a tier. Raises CakeError with every problem of every design."""
    made: dict[int, Guide] = {}
    with all_problems() as problems:
        for index, spec in enumerate(tier.spec.design):
            with problems.at(*tier.key("design"), index):
                made[index] = design_guide(tier.covered, spec)
    for index, guide in made.items():
        spec = tier.spec.design[index]
        values = numbered(guide.values, "design", index)
        strip = str(index + 1) if spec.paper == "strip" else ""
        name = tier.spec.design_name(index)
        key = (*tier.key("design"), index)
        yield replace(guide, values=values, strip=strip, name=name, key=key)
