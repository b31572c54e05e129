"""Reference drawings: what the program draws, kept as text so that any change of it can be read.

``python -m tests.drawings`` rewrites those that have changed; a test fails while one differs, and
``--check`` shows the first that does. Each is an SVG to look at, with one command of a long path to
a line, lengths in mm to a hundredth, y up within a piece. ``refusals.txt`` has what is said of
broken cake files, ``-order-of-work.txt`` the order of work of samples. After a conflict of two
changes run the command on what both gave.
"""

from __future__ import annotations

import difflib
import math
import re
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import datetime
from functools import partial
from html import escape
from itertools import zip_longest
from pathlib import Path

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import sections
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.reading import parse_cake
from templates_gen.cakefile.source import CakeText
from templates_gen.cover.pack import make_packs
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError, key_text
from templates_gen.geometry.box import Box, union_box
from templates_gen.geometry.path import Path as Lines
from templates_gen.geometry.path import rectangle
from templates_gen.plan import make_plan
from templates_gen.sheets.pack import Sheet
from templates_gen.views.picture import picture
from tests.cakes import pieces_of, sample
from tests.cli.bad_cakes import BAD_CAKES, Bad
from tests.cli.bad_crafts import BAD_CRAFTS
from tests.cli.bad_designs import BAD_DESIGNS
from tests.drawn_cakes import ON_SHEETS, WHOLE, drawn_cakes

FOLDER = Path(__file__).resolve().parent / "reference_drawings"
COMMAND = "python -m tests.drawings"
TOLERANCE = 0.0101
"""How far two numbers may differ that are the same: each is rounded to a hundredth."""
GAP = 8.0
SHOWN_LINES = 40
SHORT = 3
"""Commands of a path that stand on one line."""
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
STYLE = "".join(
    f".{role.word}{{stroke-dasharray:{' '.join(f'{dash:.3g}' for dash in role.dashes) or 'none'}"
    f";stroke-width:{role.weight}}}"
    for role in Role
)
OPENED = {"moveTo": "M", "lineTo": "L", "curveTo": "C", "closePath": "Z", "endPath": ""}
Part = tuple[str, str, Drawing]
"""A name, words about it, and what is drawn."""


def drawings() -> Mapping[str, Callable[[], str]]:
    """Return what makes each drawing, by its name."""
    cakes = drawn_cakes()
    ways: tuple[tuple[str, Iterable[str], Callable[[Cake], Iterable[Part]]], ...] = (
        ("-sheets", ON_SHEETS, _sheets),
        ("-picture", WHOLE, _picture),
        ("", cakes, _pieces),
    )
    drawn = {
        f"{name}{ending}.svg": partial(_drawn, way, cakes[name])
        for ending, names, way in ways
        for name in names
    }
    drawn |= {f"{name}-bench.txt": partial(_bench, cakes[name]) for name in WHOLE}
    drawn |= {f"{name}-order-of-work.txt": partial(_order, name) for name in ORDERED}
    return drawn | {"refusals.txt": partial(_refusals, (*BAD_CAKES, *BAD_DESIGNS, *BAD_CRAFTS))}


ORDERED = ("harbour-wedding", "naming-day", "paper-garden")
"""Samples whose order of work is kept, in the words of the bench list."""


def _order(name: str) -> str:
    """Return the order of work of a sample, ready on a Saturday at two."""
    made = sample(name)
    work = made.work.model_copy(update={"ready": datetime(2027, 6, 19, 14)})
    found = bench(make_plan(made.model_copy(update={"work": work})))
    order = next(part for part in sections(found) if part.title == "Order of work")
    lines = [*(" | ".join(row) for row in order.rows), *order.notes, *order.assumptions]
    return "\n".join([*lines, ""])


def _bench(cake: Cake) -> str:
    """Return the bench list of a cake as data, a figure to a line."""
    return "\n".join([*_lines("", bench(make_plan(cake))), ""])


def _lines(name: str, value: object) -> Iterator[str]:
    if isinstance(value, Mapping):
        for key, each in value.items():
            yield from _lines(f"{name}.{key}".strip("."), each)
    elif isinstance(value, list | tuple):
        for index, each in enumerate(value, 1):
            yield from _lines(f"{name}.{index}", each)
    else:
        yield f"{name}: {_value(value)}"


def _refusals(bad: Iterable[Bad]) -> str:
    """Return what is said of the values of cake files that are refused, in full."""
    return "\n".join(text for each in bad if (text := _refusal(each)))


def _refusal(bad: Bad) -> str:
    try:
        pieces_of(parse_cake(CakeText("cake.toml", bad.text)))
    except CakeError as error:
        # what is no TOML is said in the words of the Python at hand
        told = [(key_text(p.key), p.found, p.allowed, p.advice) for p in error.problems if p.key]
        lines = [_printable(line) for problem in told for line in problem]
        return "\n".join([bad.name, *lines, ""]) if lines else ""
    return f"{bad.name}\nis made\n"


def _printable(text: str) -> str:
    return "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in text)


def _drawn(way: Callable[[Cake], Iterable[Part]], cake: Cake) -> str:
    return _file(way(cake))


def _pieces(cake: Cake) -> Iterator[Part]:
    for piece in pieces_of(cake):
        yield piece.id, _words(piece), piece.drawing


def _words(piece: Piece) -> str:
    """Return what is said of a piece and its figures, one to a line."""
    said = [piece.title, f"{piece.copies} × {piece.surface}", piece.use, piece.instead]
    said += [warning.text for warning in piece.warnings]
    figures = [f"{name}: {_value(value)}" for name, value in piece.values.items()]
    return "\n".join([*filter(None, said), *figures])


def _value(value: object) -> str:
    if isinstance(value, tuple):
        return ", ".join(map(_value, value))
    return _number(value) if isinstance(value, float) else str(value)


def _picture(cake: Cake) -> Iterator[Part]:
    yield "picture", "", picture(make_plan(cake), 180.0, 240.0).drawing


def _sheets(cake: Cake) -> Iterator[Part]:
    """Yield the sheets of a pack: marks and words, and where which window lies."""
    plan = make_plan(cake)
    _, pack = make_packs(plan, ["both"], plan.pieces)
    for sheet in pack.sheets:
        yield f"sheet {sheet.number}", "\n".join(_windows(sheet)), _framed(sheet)


def _windows(sheet: Sheet) -> Iterator[str]:
    for window in sheet.windows:
        marks = [*(each for mark in window.marks for each in mark.on_piece)]
        numbers = " ".join(map(_number, [*window.box, *window.to_sheet, *marks]))
        yield f"{window.piece.id} {window.code}: {numbers}"


def _framed(sheet: Sheet) -> Drawing:
    frames = [
        Stroke(rectangle(window.box).transformed(window.to_sheet), Role.NOTE)
        for window in sheet.windows
    ]
    return Drawing(tuple(frames)) + sheet.drawing


def _file(parts: Iterable[Part]) -> str:
    """Return parts one below another as an SVG of true size."""
    groups: list[str] = []
    right, y = 0.0, GAP
    for name, words, drawing in parts:
        box = _box(drawing)
        y += box.y1
        groups.append(_group(name, words, drawing, (GAP - box.x0, y)))
        right, y = max(right, box.width), y - box.y0 + GAP
    size = f"{math.ceil(right + 2 * GAP)} {math.ceil(y)}"
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size}">',
            f"<style>path{{fill:none;stroke:#000}}{STYLE}</style>",
            *groups,
            "</svg>\n",
        ]
    )


def _box(drawing: Drawing) -> Box:
    boxes = [stroke.path.bounds for stroke in drawing.strokes]
    return union_box([*boxes, *(label.box for label in drawing.labels)])


def _group(name: str, words: str, drawing: Drawing, at: tuple[float, float]) -> str:
    x, y = map(_number, at)
    lines = [f'<g id="{escape(name)}" transform="translate({x} {y}) scale(1 -1)">']
    lines += [f"<desc>{escape(words, quote=False)}</desc>"] if words else []
    lines += [_path(stroke) for stroke in drawing.strokes]
    lines += [_text(label) for label in drawing.labels]
    return "\n".join([*lines, "</g>"])


def _path(stroke: Stroke) -> str:
    return f'<path class="{stroke.role.word}" d="{_data(stroke.path)}"/>'


def _data(path: Lines) -> str:
    commands = (
        OPENED[name] + " ".join(_number(each) for point in points for each in point)
        for name, points in path.commands
    )
    written = list(filter(None, commands))
    return (" " if len(written) <= SHORT else "\n").join(written)


def _text(label: Label) -> str:
    x, y, size = map(_number, (*label.at, label.size))
    turn = f" rotate({_number(label.turn)})" if label.turn else ""
    more = f' text-anchor="{label.anchor.name.lower()}"' + ' font-weight="bold"' * label.bold
    place, words = f"translate({x} {y}){turn} scale(1 -1)", escape(label.text, quote=False)
    return f'<text transform="{place}" font-size="{size}"{more}>{words}</text>'


def _number(value: float) -> str:
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def kept(name: str) -> str:
    """Return the reference drawing of a name; nothing where there is none."""
    path = FOLDER / name
    return path.read_text(encoding="utf-8") if path.exists() else ""


def changes(name: str, before: str, now: str) -> list[str]:
    """Return how a drawing differs, as a readable diff; nothing where it is the same."""
    old, new = before.splitlines(), now.splitlines()
    if all(same(*pair) for pair in zip_longest(old, new, fillvalue="")):
        return []
    return list(difflib.unified_diff(old, new, f"{name}, kept", f"{name}, now", "", "", 2, ""))


def same(old: str, new: str) -> bool:
    """Tell whether two lines are the same but for the rounding of numbers."""
    if old == new:
        return True
    if NUMBER.sub("#", old) != NUMBER.sub("#", new):
        return False
    pairs = zip(NUMBER.findall(old), NUMBER.findall(new), strict=True)
    return all(abs(float(a) - float(b)) <= TOLERANCE for a, b in pairs)


def left_over(names: Iterable[str]) -> list[Path]:
    """Return files of drawings that are no longer made."""
    known = set(names)
    return sorted(path for path in FOLDER.glob("*.*") if path.name not in known)


def renew(makers: Mapping[str, Callable[[], str]]) -> Iterator[str]:
    """Write each drawing that has changed, remove what is no longer made, and yield the names."""
    for name, make in makers.items():
        now = make()
        if changes(name, kept(name), now):
            (FOLDER / name).write_text(now, encoding="utf-8")
            yield name
    for path in left_over(makers):
        path.unlink()
        yield f"{path.name} (removed)"


def first_change(makers: Mapping[str, Callable[[], str]]) -> list[str]:
    """Return how the first drawing that is not as it was kept differs; nothing if all are."""
    return next(
        (found for name in makers if (found := changes(name, kept(name), makers[name]()))), []
    )


if __name__ == "__main__":
    if sys.argv[1:] == ["--check"]:
        sys.exit("\n".join(first_change(drawings())) or None)
    for changed in renew(drawings()):
        print(changed)
