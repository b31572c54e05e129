"""Lettering: a text set in its place on a side or a top."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass

from fontTools.misc.transform import Transform

from templates_gen.cakefile.lettering import Lettering
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.letters import STEEPEST, Baseline, TextLine, arched, level
from templates_gen.drawing.piece import Value
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import measure
from templates_gen.errors import CakeError, GeometryError, Problem, all_problems
from templates_gen.geometry.areas.lines import overlap
from templates_gen.geometry.areas.placement import contains_all
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.offset import offset
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path
from templates_gen.guides.drips import DripRow, lowest_between
from templates_gen.guides.guide import Guide, numbered
from templates_gen.guides.openings import Openings
from templates_gen.memo import Memo
from templates_gen.tiers.rigid import PaperLine, frame, rolled
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.units import at_least, at_most, in_both

USUAL_CAPS = 20.0
"""Height of capitals, mm, where none is said and there is no better size."""

ON_TOP = (0.7, 0.2)
"""Of the width of a top, how much letters in its middle fill, and how tall capitals are of the
shorter way across, at most, where no size is said: our choice, no source."""

ON_SIDE = (0.2, 0.2)
"""The same of the way round a side, so that all is seen from the front, and of its depth."""

LEAST_CAPS = 10.0
"""Height of capitals, mm, to which a long text on a side is made smaller: it goes on round the
tier, which one on a top cannot. Our choice, no source."""

FROM_RIM = 6.0
"""From the edge of a top to whatever hangs lowest of letters along it, mm, where none is said."""

_BESIDE = 10.0
"""How far beyond its ends the line of a text is measured, mm."""

FROM_DRIPS = 5.0
"""How far beside a drip letters may stand without being set below it, mm. Our choice, no source."""

_LEAVES = 1e-3
"""What letters may leave a side by from bending alone, mm."""


@dataclass(frozen=True, slots=True)
class Lettered:
    """A text as it is set: its letters, and all outlines in place with y up, mm.

    On a side, the outlines are those on its paper; ``on_side`` has them in (u, v). It stands at a
    ``level``, mm: on a side from the rim down, on a top from its front edge, or its rim, inwards.
    """

    spec: Lettering
    line: TextLine
    outlines: tuple[Path, ...]
    level: float
    on_side: tuple[Path, ...] = ()

    @property
    def box(self) -> Box:
        """The box round the outlines."""
        return union_box(path.bounds for path in self.outlines)

    @property
    def values(self) -> dict[str, Value]:
        """The figures of the text."""
        return {
            "text": self.spec.text,
            "cap_height_mm": self.line.cap_height,
            "text_width_mm": self.line.box.width,
        }


def sized(spec: Lettering) -> TextLine:
    """Return the text in the size given. Raises CakeError, keys within the lettering."""
    from templates_gen.drawing.typesetting import typeset

    text = typeset(spec.text, spec.font)
    if spec.width is not None:
        return text.scaled(spec.width.mm / text.box.width)
    return text.scaled(spec.cap_height.mm if spec.cap_height else USUAL_CAPS)


def _sizes(spec: Lettering, wide: float, high: float, least: float = 0.0) -> Iterator[TextLine]:
    """Yield a text in the sizes to try: where none is said, first as wide or high as it may be."""
    usual = sized(spec)
    if spec.line != "rim" and not (spec.width or spec.cap_height):
        fills = min(wide / usual.box.width, high / usual.cap_height)
        # under a curve that is as high as before there must be as long a text
        yield usual.scaled(max(fills, 1.0 if spec.line == "curve" else least / usual.cap_height))
    yield usual


def _baseline(spec: Lettering, text: TextLine) -> Baseline:
    """Return the line the letters stand on, its middle at (0, 0)."""
    if spec.line != "curve" or spec.curve_height.mm == 0:
        return level
    try:
        return arched(text.box.width, spec.curve_height.mm)
    except GeometryError:
        most = at_most(text.box.width * STEEPEST)
        raise CakeError.at(
            ("curve_height",),
            f"“{spec.curve_height}” under a text {in_both(text.box.width)} wide",
            f"up to {most}, half a circle",
            "make the curve flatter",
        ) from None


def on_side(side: Side, spec: Lettering, drips: DripRow | None = None) -> Lettered:
    """Return a text as its side lies flat: each letter of true size, along the true line.

    One without a level stands in the middle of the side, or of what is free below its ``drips``.
    Raises CakeError, keys within the lettering, where it does not fit there.
    """
    wide, high = ON_SIDE
    *fitting, usual = _sizes(spec, wide * side.girth, high * side.depth, LEAST_CAPS)
    for text in fitting:
        with suppress(CakeError):
            return _on_side(side, spec, text, drips)
    return _on_side(side, spec, usual, drips)


def _on_side(side: Side, spec: Lettering, text: TextLine, drips: DripRow | None) -> Lettered:
    """Return a text of a size on a side. Raises CakeError as ``on_side``."""
    middle = side.girth / 2 + spec.sideways.mm
    shape = _baseline(spec, text)
    box = text.box_along(shape)
    depth = side.foot_at(middle)
    if spec.level:
        foot = spec.level.mm
    else:
        half = box.width / 2 / min(1.0, side.girth_ratio(depth)) + FROM_DRIPS
        free_from = lowest_between(drips, side, middle - half, middle + half) if drips else 0.0
        foot = (free_from + depth + box.y1 + box.y0) / 2
    available = side.girth * side.girth_ratio(min(foot, depth))
    if text.box.width > available:
        raise CakeError([_too_wide(spec, text, available, "a side that goes round")])
    if box.height > depth:
        raise CakeError([_too_tall(spec, text, box, depth)])
    placed = text.along(_on_paper(side, (middle, foot), shape, text.box.width))
    drawn = tuple(rolled(side, path, middle) for path in placed)
    _refuse_beyond(side, spec, foot, drawn)
    upright = frame(side, (middle, foot)).inverse()
    return Lettered(spec, text, tuple(path.transformed(upright) for path in placed), foot, drawn)


def _on_paper(side: Side, at: Point, shape: Baseline, width: float) -> Baseline:
    """Return the line of a text on the paper, its middle at (u, v), as long as the text needs.

    It rises over the level line through its middle as ``shape`` does over a straight line.
    """
    u, v = at
    if side.is_level:
        move = frame(side, at)

        def moved(along: float) -> tuple[Point, float]:
            place, turn = shape(along)
            return move.transformPoint(place), turn

        return moved
    level_line = PaperLine(lambda t: side.flat(u + t, v), width)

    def curve(t: float) -> Point:
        (x, y), _ = shape(t)
        return side.flat(u + level_line.parameter(x), v - y)

    return PaperLine(curve, width / 2 + _BESIDE)


def _refuse_beyond(side: Side, spec: Lettering, foot: float, drawn: Sequence[Path]) -> None:
    """Raise CakeError where letters leave the side, with the levels at which they would not."""
    points = [point for path in drawn for contour, _ in sampled(path) for point in contour]
    above = -min(v for _, v in points)
    below = max(v - side.foot_at(u) for u, v in points)
    if max(above, below) > _LEAVES:
        found = f"“{spec.level}”: the letters" if spec.level else "the letters, left in the middle"
        levels = f"{at_least(max(foot + above, 0.0))} to {at_most(foot - below)}"
        raise CakeError.at(
            ("level",) if spec.level else (_size_key(spec),),
            f"{found} that reach {in_both(max(above, below))} beyond the"
            f" {'rim' if above > below else 'foot'}",
            levels if spec.level else f"a distance from the edge of {levels}",
            "move the lettering, or make it smaller",
        )


def _size_key(spec: Lettering) -> str:
    return "width" if spec.width else "cap_height" if spec.cap_height else "text"


def _too_wide(spec: Lettering, text: TextLine, available: float, where: str) -> Problem:
    return Problem(
        (_size_key(spec),),
        f"a text {in_both(text.box.width)} wide, capitals {in_both(text.cap_height)} tall",
        f"a text up to {at_most(available)} wide on {where}",
        _smaller(spec, text, available / text.box.width),
    )


def _too_tall(spec: Lettering, text: TextLine, box: Box, depth: float) -> Problem:
    return Problem(
        (_size_key(spec),),
        f"a text {in_both(box.height)} tall with all that stands up and hangs down",
        f"a text up to {at_most(depth)} tall, the depth of the side",
        _smaller(spec, text, depth / box.height),
    )


def _smaller(spec: Lettering, text: TextLine, share: float) -> str:
    """Return the advice to make a text ``share`` as large, or shorter where that is too small."""
    key, now = ("width", spec.width.mm) if spec.width else ("cap_height", text.cap_height)
    size = int(now * share)
    return f'write {key} = "{size} mm" or less' if size else "shorten the text"


def on_top(layer: Layer, spec: Lettering) -> Lettered:
    """Return a text in the plan of a top, front down: straight or arched in it, or along its rim.

    Raises CakeError, keys within the lettering, where it does not fit the top.
    """
    rim, (wide, high) = layer.rim, ON_TOP
    for text in _sizes(spec, wide * rim.bounds.width, high * min(rim.bounds.size)):
        inward, placed = _in_plan(rim, spec, text)
        if contains_all(rim.path(), placed):
            return Lettered(spec, text, placed, inward)
    found = f"a text {in_both(text.box.width)} wide that reaches over the edge of the top"
    allowed = f"a text that lies on the top, {in_both(rim.across)} across"
    share = _share_within(rim, placed)
    advice = f"{_smaller(spec, text, share)}, or move it" if share else "move it"
    raise CakeError.at((_size_key(spec),), found, allowed, advice)


def _in_plan(rim: Outline, spec: Lettering, text: TextLine) -> tuple[float, tuple[Path, ...]]:
    """Return how far in from the front edge, or from the rim, a text stands on a top, and it."""
    if spec.line == "rim":
        inward = spec.level.mm if spec.level else FROM_RIM - min(text.box.y0, 0.0)
        inner = _inner(rim, inward)
        if text.box.width > inner.girth:
            raise CakeError([_too_wide(spec, text, inner.girth, "the line along this rim")])
        middle = inner.girth / 2 + spec.sideways.mm

        def along(place: float) -> tuple[Point, float]:
            return inner.at(middle + place), inner.heading_at(middle + place)

        return inward, text.along(along)
    flat = text.along(_baseline(spec, text))
    box = union_box(path.bounds for path in flat)
    inward = spec.level.mm if spec.level else -box.centre[1] - rim.bounds.y0
    return inward, tuple(path.moved(spec.sideways.mm, rim.bounds.y0 + inward) for path in flat)


def _share_within(rim: Outline, placed: Sequence[Path]) -> float:
    """Return how large a text lies within a rim, about its own middle; 0 where none does."""
    x, y = union_box(path.bounds for path in placed).centre
    for twentieths in range(19, 0, -1):
        share = twentieths / 20
        about = Transform(share, 0, 0, share, x - share * x, y - share * y)
        if contains_all(rim.path(), [path.transformed(about) for path in placed]):
            return share
    return 0.0


def _inner(rim: Outline, by: float) -> Outline:
    """Return the line along a rim that the letters stand on, ``by`` mm inside it."""
    try:
        return offset(rim, -by)
    except GeometryError:
        found = f"a line {in_both(by)} inside a top {in_both(rim.across)} across"
        raise CakeError.at(("level",), found, "one that goes round", "move it out") from None


def on_sides(
    tier: Solid, openings: Openings, drips: DripRow | None, memo: Memo
) -> Mapping[int, Lettered]:
    """Return the letterings on the side of a tier by their places in the cake file.

    Raises CakeError with every problem of them.
    """
    holes, side = openings.on(tier.covered), tier.covered.side

    def beside_holes(spec: Lettering, row: DripRow | None) -> Lettered:
        return _beside_holes(memo.of(on_side, side, spec, row), holes, side.girth)

    def set_out(spec: Lettering) -> Lettered:
        if drips and spec.level is None:
            with suppress(CakeError):  # without room below the drips it lies on them
                return beside_holes(spec, drips)
        return beside_holes(spec, None)

    return _each(tier, "side", set_out)


def on_tops(tier: Solid) -> Mapping[int, Lettered]:
    """Return the letterings on the top of a tier, as ``on_sides``."""
    return _each(tier, "top", lambda spec: on_top(tier.covered, spec))


def _each(tier: Solid, on: str, set_out: Callable[[Lettering], Lettered]) -> Mapping[int, Lettered]:
    made: dict[int, Lettered] = {}
    with all_problems() as problems:
        for index, spec in enumerate(tier.spec.lettering):
            with problems.at(*tier.key("lettering"), index):
                if spec.on == on:
                    made[index] = set_out(spec)
    return made


def _beside_holes(lettered: Lettered, holes: Sequence[Path], girth: float) -> Lettered:
    """Return lettering that no opening of the side cuts into. Raises CakeError for other."""
    if holes and overlap(holes, lettered.on_side, (-girth, 0.0, girth)):
        spec = lettered.spec
        found = f"“{spec.text}” runs into the hole through the tier"
        allowed = "letters beside, above or below the hole"
        advice = "move it with sideways or level, or make it smaller"
        key = "sideways" if spec.sideways.mm else "level" if spec.level else "text"
        raise CakeError.at((key,), found, allowed, advice)
    return lettered


def guides(tier: Solid, letterings: Mapping[int, Lettered]) -> Iterator[Guide]:
    """Yield the lettering on the side of a tier."""
    for index, lettered in letterings.items():
        box = union_box(path.bounds for path in lettered.on_side)
        name = tier.spec.lettering_name(index)
        yield Guide(
            tier.covered,
            Drawing(tuple(Stroke(path, Role.PIPE) for path in lettered.on_side)),
            box.y0,
            box.y1,
            numbered(lettered.values, "text", index),
            strip=f"lettering-{index + 1}" if lettered.spec.paper == "strip" else "",
            note=f"{name}: capitals {measure(lettered.line.cap_height)}",
            name=name,
            key=(*tier.key("lettering"), index),
            is_placed=True,
        )
