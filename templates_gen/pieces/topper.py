"""Toppers: shapes that stand on a stick, wide enough everywhere to hold together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from templates_gen.cakefile.cut_from import MODELLING
from templates_gen.cakefile.cutting import TEXT, Topper
from templates_gen.cakefile.letter_cakes import name_of
from templates_gen.drawing.cutouts import star
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.fonts import missing_glyphs
from templates_gen.drawing.letters import TextLine, level
from templates_gen.drawing.piece import PACK, Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT, SMALL, measure
from templates_gen.errors import CakeError, PlanWarning, all_problems
from templates_gen.geometry.areas.booleans import centroid, merged_with, region
from templates_gen.geometry.areas.lines import spans_on
from templates_gen.geometry.areas.placement import lowest_span
from templates_gen.geometry.areas.thickness import is_one, narrowest, thin_tips
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path, line, rectangle
from templates_gen.guides.cutting import cutout
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.pieces.making import OUT, rolled
from templates_gen.units import at_least, counted, decimal, hours, in_both, up

LEAST_NECK = 5.0
"""The least width of a topper anywhere, mm: common practice, no source."""
LEAST_IN_CAKE = 60.0
"""The least length of a stick in the cake, mm; or a third of the topper's height.

Common practice, no source.
"""
TAB = (12.0, 25.0)
"""Width and length of a tab, mm."""
INTO = 6.0
"""How far a tab reaches into the shape above where it is as wide as the tab, mm."""
FREE = 14.0
"""How much of a stick is seen under a topper, mm: common practice, no source."""
LARGER, MOST_LARGER = 1.1, 45
"""Each height tried over the one before, and how many, for one whose foot has a place."""
THIN = LEAST_NECK / 2
"""Points that are narrower than the least width over more than this give a warning, mm."""
UP = 2 / 3
"""How far up a topper its stick reaches, over its height."""


def stick_in_cake(height: float) -> float:
    """Return how much of a stick stands in the cake under a topper, mm. Common practice."""
    return max(height / 3, LEAST_IN_CAKE)


@dataclass(frozen=True, slots=True)
class Standing:
    """A topper by its index in the cake file, and the ``tier`` it stands in, so ``deep``, mm.

    It ``dries`` for so many hours.
    """

    index: int
    spec: Topper
    tier: str
    deep: float
    dries: float


def standing(stack: DecoratedStack) -> list[Standing]:
    """Return every topper of a cake."""
    if stack.tiers:
        name, deep = stack.tiers[-1].name, stack.tiers[-1].covered.depth
    else:
        name, deep = name_of(1), stack.letter_cakes[0].made.wall_height
    dries = stack.estimates.waits.topper
    return [Standing(index, spec, name, deep, dries) for index, spec in enumerate(stack.toppers)]


def build(topper: Standing) -> Iterable[Piece]:
    """Yield the pieces of a topper. Raises CakeError."""
    pieces: list[Piece] = []
    with all_problems() as problems, problems.at("topper", topper.index):
        pieces += _pieces(topper)
    return pieces


def _pieces(topper: Standing) -> Iterator[Piece]:
    spec, parts = topper.spec, _outlines(topper.spec)
    for number, (shown, outline) in enumerate(parts, 1):
        name = str(topper.index + 1)
        part = f"{name}-{number}" if len(parts) > 1 else name
        _refuse_necks(spec, outline)
        piece = _piece(part, shown, topper, outline)
        # once for all letters of a text
        yield piece if number > 1 else replace(piece, warnings=_warnings(topper, piece))


def outlines(spec: Topper) -> list[Path]:
    """Return the outlines of a topper as they are cut, tabs and all. Raises CakeError."""
    return [_tabbed(spec, outline) for _, outline in _outlines(spec)]


def stick(spec: Topper, outline: Path) -> tuple[Point, Point]:
    """Return where the stick of a topper of this outline goes in, and how far up it reaches.

    Raises CakeError, keys within the topper.
    """
    x, y = _foot(spec, outline)
    return (x, y), (x, y + outline.bounds.height * UP)


def _tabbed(spec: Topper, outline: Path) -> Path:
    """Return an outline with its tab, if it has one."""
    if spec.stick != "tab":
        return outline
    x, y = _foot(spec, outline)
    low = outline.bounds.y0
    return merged_with(
        outline, rectangle(Box(x - TAB[0] / 2, low - TAB[1], x + TAB[0] / 2, y + INTO))
    )


def _outlines(spec: Topper) -> list[tuple[str, Path]]:
    """Return what each part of a topper that hangs together shows, and its outline.

    Raises CakeError, keys within the topper.
    """
    tall = spec.height.mm
    if spec.shape == TEXT:
        return _lettered(spec)
    is_star = spec.shape == "star"
    path = star(tall, spec.points) if is_star else cutout(spec.shape, spec.file, tall)
    if not is_one(path):
        found, allowed = "artwork of several parts", "one part that hangs together"
        raise CakeError.at(("file",), found, allowed, "join the parts in the drawing")
    # the height may not be its longer side
    return [(spec.shape, path.scaled(tall / path.bounds.height))]


def _lettered(spec: Topper) -> list[tuple[str, Path]]:
    """Return letters that overlap as one outline, others each alone, each with its letters.

    From the lowest of them to the highest is the height.
    """
    from templates_gen.drawing.typesetting import typeset

    if spec.text is None:
        example = 'write for example text = "40"'
        raise CakeError.at(("text",), "a topper of text and none", "letters", example)
    text = typeset(spec.text, spec.font)
    text = text.scaled(spec.height.mm / text.box.height) if text.inked else text
    paths = text.along(level)
    if not paths or not all(is_one(path) for path in paths):
        raise CakeError.at(
            ("text",),
            f"“{spec.text}”, with parts that hang loose, such as a dot",
            "letters of one part",
            "write it in letters without dots and accents",
        )
    return [(_letters_of(text, path), path) for path in paths]


def _letters_of(text: TextLine, path: Path) -> str:
    """Return the letters of a text of which a path is the outline, its middle at x = 0."""
    middle, box = text.box.centre[0], path.bounds
    placed = ((each.text, each.path.bounds.centre[0] + each.x - middle) for each in text.inked)
    return "".join(letter for letter, x in placed if box.x0 < x < box.x1)


def _refuse_necks(spec: Topper, outline: Path) -> None:
    """Raise CakeError where a topper would break, with the height at which it would not."""
    neck = narrowest(outline, LEAST_NECK)
    if neck < LEAST_NECK:
        enough = spec.height.mm * LEAST_NECK / max(neck, 0.1) * 1.02
        raise CakeError.at(
            ("height",),
            f"“{spec.height}”: only {decimal(neck, 1)} mm wide at its thinnest",
            f"a shape {at_least(LEAST_NECK)} wide or more everywhere, so that it holds",
            f'write height = "{up(enough)} mm" or more, or choose a stouter shape',
        )


def _foot(spec: Topper, outline: Path) -> Point:
    """Return where the stick or tab of a topper goes in: x of its middle, and the lowest y.

    Raises CakeError, with the height that has a place for it.
    """
    wide = TAB[0] if spec.stick == "tab" else LEAST_NECK
    place = _place(outline, wide)
    if place is not None:
        return place
    heights = (round(spec.height.mm * LARGER**step) for step in range(1, MOST_LARGER))
    tries = ((tall, outline.scaled(tall / spec.height.mm)) for tall in heights)
    enough = next((tall for tall, path in tries if _place(path, wide)), None)
    larger = f'write height = "{enough} mm" or more' if enough else "choose another shape"
    line_does = spec.stick == "tab" and _place(outline, LEAST_NECK) is not None
    raise CakeError.at(
        ("stick",) if line_does else ("height",),
        f"“{spec.height}”: no place at its foot {decimal(wide, 0)} mm wide for a"
        f" {'tab' if spec.stick == 'tab' else 'stick'}",
        "a place so wide in its lower half, with paste on both sides",
        f'write stick = "line", or {larger}' if line_does else larger,
    )


def _place(outline: Path, wide: float) -> Point | None:
    """Return where something so wide goes in at the foot, under the middle of gravity if it can.

    x of its middle, and the lowest y at which it has paste on both sides.
    """
    box = outline.bounds
    middle = centroid(outline)[0]
    shifts = [step * 2.0 for step in range(int(box.width / 4) + 1)]
    for x in (middle + way * shift for shift in shifts for way in (1, -1)):
        y = lowest_span(outline, x, wide)
        if y is not None and y < box.y0 + box.height / 2:
            return x, y
    return None


def _piece(part: str, shown: str, topper: Standing, outline: Path) -> Piece:
    spec = topper.spec
    tabbed = spec.stick == "tab"
    box = outline.bounds
    drawn: tuple[Stroke, ...] = ()
    words: tuple[Label, ...] = ()
    into = whole = stick_in_cake(box.height)
    if tabbed:
        outline = _tabbed(spec, outline)
    else:
        (x, y), end = stick(spec, outline)
        whole += FREE + end[1] - box.y0
        # no line where there is no paste to lay the stick in
        inside = spans_on(region(outline), (x, box.y0), end)
        drawn = tuple(Stroke(line(*span), Role.CENTRE) for span in inside)
        size = max(LEAST_TEXT, min(SMALL, box.width / 12))
        words = (Label("stick", (x + 1.2, y + 2), size, turn=90),)
    title = _title(part, shown, spec)
    return Piece(
        owner=PACK,
        kind="topper",
        title=title,
        surface="flat",
        copies=spec.count,
        use=_use(topper, into, whole) + _thin_points(outline),
        outline=outline,
        drawing=Drawing(drawn, words),
        values={
            "shape": spec.shape,
            "height_mm": box.height,
            "width_mm": box.width,
            "thickness_mm": spec.thickness.mm,
            **(
                {"tab_mm": TAB[1]}
                if tabbed
                else {"stick_in_cake_mm": into, "stick_length_mm": whole}
            ),
        },
        part=part,
    )


def _title(part: str, shown: str, spec: Topper) -> str:
    """Name a topper by what it shows; a part of a text, by its letters and the text."""
    text = spec.text if spec.shape == TEXT else None
    if not text or missing_glyphs(text):
        return f"Topper {part}: {spec.shape}"
    return f"Topper {part}: {text if '-' not in part else f'“{shown}” of “{text}”'}"


def _use(topper: Standing, into: float, whole: float) -> str:
    spec = topper.spec
    made_of = rolled(spec.colour, MODELLING, spec.thickness.mm)
    dry, says = f"dry flat for {_long(topper.dries)}", "Tell whoever cuts the cake."
    if spec.stick == "tab":
        return f"Cut it from {made_of}, {OUT}; {dry}. Push the tab into the cake. {says}"
    return (
        f"Cut it from {made_of}, {OUT}. While it is soft lay a food-safe stick {measure(whole)}"
        f" long along the line: {measure(into)} for the cake, {measure(FREE)} to show; {dry}."
        f" {says}"
    )


def _long(dries: float) -> str:
    """Say how many hours a topper dries; in days it is turned over each day."""
    days, rest = divmod(dries, 24)
    return (
        hours(dries) if rest or not days else f"{counted(int(days), 'day')}, turned over each day"
    )


def _thin_points(outline: Path) -> str:
    """Say that the points of a topper are thin. A point may be: it is no neck that holds more."""
    if thin_tips(outline, LEAST_NECK) <= THIN:
        return ""
    return f" Its points end narrower than {measure(LEAST_NECK)}: keep them from knocks."


def _warnings(topper: Standing, piece: Piece) -> tuple[PlanWarning, ...]:
    """Say where the stick goes through the tier it stands in."""
    into = piece.values.get("stick_in_cake_mm", TAB[1])
    assert isinstance(into, float)
    if into <= topper.deep:
        return ()
    text = (
        f"topper {topper.index + 1}: its stick goes {in_both(into)} into the cake, through tier"
        f" “{topper.tier}”, {in_both(topper.deep)} deep."
    )
    return (PlanWarning(("topper", topper.index, "height"), text),)
