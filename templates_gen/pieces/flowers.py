"""Cutting sheets of flowers: petals on one, sepals and leaves on another, head to tail."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from templates_gen.cakefile.cut_from import WAFER
from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.piece import PACK, Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import (
    LEAST_TEXT,
    LOOSE,
    TEXT,
    TITLE,
    Line,
    broken,
    height,
    measure,
    text_block,
)
from templates_gen.geometry.areas.nesting import head_to_tail, pitch
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line, rectangle
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.guides.flowers import Flowers, Part
from templates_gen.pieces.making import cut_from
from templates_gen.units import counted

PAGE = (180.0, 225.0)
"""The largest sheet, mm: it goes on one page of A4 or Letter."""
LEAST_WIDE = 100.0
"""The least width of a sheet, for its words, mm."""
BETWEEN = 3.0
"""Paste between two parts, mm."""
KINDS = {"petals": False, "leaves": True}
"""Kinds of sheet, and whether their parts are green."""
WIRED = 0.45
"""How far up a part its wire is drawn, over its length."""
NUMBERED = 6.0
"""A part at least so wide has its number in it, mm."""
CROSS = 3.0
"""How long the lines of the cross in the middle of a ring are, mm."""


@dataclass(frozen=True, slots=True)
class _Placed:
    """A part in its place on a sheet, y down from the top of all; ``number`` is that of its kind.

    One that is ``turned`` has its tip down.
    """

    part: Part
    number: int
    x: float
    turned: bool


@dataclass(frozen=True, slots=True)
class _Row:
    """Parts side by side: how tall, how wide, and they."""

    height: float
    width: float
    placed: tuple[_Placed, ...]


def flowers(stack: DecoratedStack) -> list[Flowers]:
    """Return the flowers of a cake."""
    return [Flowers(index, spec) for index, spec in enumerate(stack.flowers)]


def build_petals(made: Flowers) -> Iterable[Piece]:
    """Yield sheets with all petals of one flower. Raises CakeError where a part is too thin."""
    made.refuse_thin()
    yield from _sheets(made, "petals", _of_kind(made, "petals"))


def build_leaves(made: Flowers) -> Iterable[Piece]:
    """Yield sheets with all sepals and leaves of one flower."""
    yield from _sheets(made, "leaves", _of_kind(made, "leaves"))


def _of_kind(made: Flowers, kind: str) -> list[Part]:
    return [each for each in made.parts if each.green == KINDS[kind]]


def once(made: Flowers, kind: str) -> Iterable[Piece]:
    """Yield sheets of one kind with each part once: a template to cut round again and again."""
    return _sheets(made, kind, _of_kind(made, kind), only_once=True)


def _sheets(
    made: Flowers, kind: str, parts: Sequence[Part], *, only_once: bool = False
) -> Iterator[Piece]:
    found = _on_sheets(list(_rows(parts, only_once=only_once)), len(parts))
    for number, rows in enumerate(found, 1):
        part = f"{made.index + 1}-{number}" if len(found) > 1 else f"{made.index + 1}"
        yield _sheet(made, kind, part, parts, rows, only_once=only_once)


def _rows(parts: Sequence[Part], *, only_once: bool) -> Iterator[_Row]:
    """Yield rows of parts, as many as have room side by side, the longest first."""
    placed: list[_Placed] = []
    x = height = 0.0
    for number, part in sorted(enumerate(parts, 1), key=lambda each: -each[1].length):
        step = pitch(part.outline, BETWEEN)
        first = True
        for _ in range(1 if only_once else part.count):
            at = x if first else placed[-1].x + step - part.width / 2
            if placed and at + part.width > PAGE[0] - 2 * BETWEEN:
                yield _Row(height, x - BETWEEN, tuple(placed))
                placed, at, height = [], 0.0, 0.0
                first = True
            turned = not first and not placed[-1].turned
            placed.append(_Placed(part, number, at + part.width / 2, turned))
            x, height, first = at + part.width + BETWEEN, max(height, part.length), False
    if placed:
        yield _Row(height, x - BETWEEN, tuple(placed))


def _on_sheets(rows: Sequence[_Row], lines: int) -> list[list[_Row]]:
    """Share rows out to sheets, each with room for its words."""
    available = PAGE[1] - 2 * BETWEEN - _most_words(lines)
    sheets: list[list[_Row]] = []
    left = 0.0
    for row in rows:
        if row.height > left or not sheets:
            sheets.append([])
            left = available
        sheets[-1].append(row)
        left -= row.height + BETWEEN
    return sheets


def _most_words(lines: int) -> float:
    """Return the height of a title of two rows and of two rows for each of so many lines, mm."""
    return LOOSE * (2 * TITLE + 2 * TEXT * lines) + 2 * BETWEEN


def _words(
    made: Flowers, kind: str, parts: Sequence[Part], placed: Counter[int], *, only_once: bool
) -> list[Line]:
    """Return the title of a sheet and a line for each part that is on it."""
    title = f"{made.name}: {made.spec.kind}, {kind}"
    lines = [Line(title, TEXT + 1, bold=True)]
    for number, part in enumerate(parts, 1):
        if placed[number]:
            form = f"dry on a ball {measure(part.form)} wide"
            if part.glued:
                form = "glue round the middle while soft"
            cut = f"cut {part.count * made.spec.count}"
            if not only_once and placed[number] < part.count:
                # the rest is on another sheet
                cut = f"cut {placed[number] * made.spec.count} of {part.count * made.spec.count}"
            lines.append(Line(f"{number} {part.name}: {cut}, {form}{_wire(part)}"))
    return lines


def _wire(part: Part) -> str:
    return f", wire {part.wire.gauge} gauge" if part.wire else ""


def _sheet(
    made: Flowers,
    kind: str,
    name: str,
    parts: Sequence[Part],
    rows: Sequence[_Row],
    *,
    only_once: bool,
) -> Piece:
    wide = max(LEAST_WIDE, *(row.width for row in rows)) + 2 * BETWEEN
    numbers = Counter(each.number for row in rows for each in row.placed)
    lines = _words(made, kind, parts, numbers, only_once=only_once)
    low = height(broken(lines, wide - 2 * BETWEEN), LOOSE) + BETWEEN
    tall = low + BETWEEN + sum(row.height + BETWEEN for row in rows)
    drawn = _drawn(rows, tall)
    words = text_block(lines, Box(BETWEEN, 0.5, wide - BETWEEN, low))
    colour = made.spec.leaf_colour if KINDS[kind] else made.spec.colour
    made_of = cut_from(made.spec, colour)
    is_wafer = made.spec.material == WAFER
    shaped = "mist them lightly" if is_wafer else "thin the edges, vein them,"
    under = ", under strips of it" if is_wafer else ""
    wires = f", wires along the lines{under}" if any(part.wire for part in parts) else ""
    placed = [(part, numbers[number]) for number, part in enumerate(parts, 1) if numbers[number]]
    often = "each as often as it says" if only_once else "as one flower has them"
    return Piece(
        owner=PACK,
        kind=kind,
        title=lines[0].text,
        surface="flat",
        copies=1 if only_once else made.spec.count,
        use=f"Cut them from {made_of}, {often}; {shaped} and dry them on their forms{wires}.",
        outline=rectangle(Box(0, 0, wide, tall)),
        drawing=Drawing(drawn.strokes, (*drawn.labels, *words)),
        values={
            "flower_width_mm": made.spec.width.mm,
            "number_of_each": tuple(part.count if only_once else here for part, here in placed),
            "lengths_mm": tuple(part.length for part, _ in placed),
            "widths_mm": tuple(part.width for part, _ in placed),
            "forms_mm": tuple(part.form for part, _ in placed),
        },
        part=name,
    )


def _drawn(rows: Iterable[_Row], top: float) -> Drawing:
    """Return petals in rows, one below another from y = ``top``, each with its words."""
    strokes: list[Stroke] = []
    labels: list[Label] = []
    y = top - BETWEEN
    for row in rows:
        y -= row.height
        for each in row.placed:
            strokes += _strokes(each, BETWEEN + each.x, y)
            labels += _label(each, BETWEEN + each.x, y)
        y -= BETWEEN
    return Drawing(tuple(strokes), tuple(labels))


def _strokes(each: _Placed, x: float, y: float) -> Iterator[Stroke]:
    """Yield the outline of a part, the line of its wire up from its base, the middle of a ring."""
    outline, long = each.part.outline, each.part.length
    yield Stroke((head_to_tail(outline) if each.turned else outline).moved(x, y), Role.CUT)
    if each.part.wire is not None:
        start, end = (long - WIRED * long, long) if each.turned else (0.0, WIRED * long)
        yield Stroke(line((x, y + start), (x, y + end)), Role.CENTRE)
    if each.part.middle is not None:
        up = y + _up(each, each.part.middle)
        yield Stroke(line((x - CROSS / 2, up), (x + CROSS / 2, up)), Role.CENTRE)
        yield Stroke(line((x, up - CROSS / 2), (x, up + CROSS / 2)), Role.CENTRE)


def _up(each: _Placed, along: float) -> float:
    """Return how high on the paper a place is that lies so far ``along`` a part."""
    return each.part.length - along if each.turned else along


def _label(each: _Placed, x: float, y: float) -> Iterator[Label]:
    """Yield the number of a part: above its wire, in a ring above the cross in its middle."""
    part = each.part
    if part.width < NUMBERED:
        return
    up = _up(each, (WIRED / 2 + 0.5) * part.length)
    size = max(LEAST_TEXT, min(TEXT, part.width / 4))
    if part.middle is not None:
        up = _up(each, part.middle) + CROSS / 2 + size * fonts.CAP_HEIGHT
    at = (x, y + up - size * fonts.CAP_HEIGHT / 2)
    yield Label(str(each.number), at, size, Anchor.MIDDLE)


def summary(made: Flowers) -> str:
    """Say how many parts are cut: ``15 × petal, 5 × sepal``."""
    count = made.spec.count
    parts = ", ".join(f"{part.count * count} × {part.name}" for part in made.parts)
    return f"{counted(count, made.spec.kind)}: {parts}"
