"""What can be put on a cake with one click: small examples, with pictures drawn by the program.

Each example is a table of a cake file with a few values; its picture is drawn from the same values.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache, partial
from typing import Any

from fontTools.misc.transform import Transform

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.reading import cake_from
from templates_gen.cakefile.shape_keys import BALL
from templates_gen.drawing.cutouts import CUTOUTS, leaf
from templates_gen.drawing.designs import DESIGNS, design_word
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.flowers import FLOWERS
from templates_gen.drawing.patterns import PATTERNS
from templates_gen.drawing.roles import Role
from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import CakeError
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path, polyline
from templates_gen.guides.decorated import build_stack
from templates_gen.guides.flowers import Flowers
from templates_gen.pieces.topper import outlines
from templates_gen.plan import make_plan
from templates_gen.views.elevation import elevation, from_above
from templates_gen.web.examples import near
from templates_gen.web.typed import BEAN, UNIT
from templates_gen.web.view_data import drawing_data

Data = dict[str, Any]
ON_TIER: Data = {"size": "6 in", "depth": "4 in"}
"""What a picture shows an example on."""
DRIPS_OF: Mapping[str, Data] = {
    "listed": {"lengths": ["20 mm", "45 mm", "30 mm", "55 mm"]},
    "drawn": {"line": "M0 0 C 15 60 35 60 50 0 C 65 60 85 60 100 0"},
}
"""What a pattern has to have beside its word, to begin with."""
FINE = 1.0
"""How far pictures so small may stray from curves, mm of the cake."""
FLOWERS_IN_A_LINE = "flowers"
"""What a cascade of blossoms is called, as fresh or bought flowers are laid along it too."""
BETWEEN_FIGURES = 6.0
"""Between figures side by side, mm."""
OWN_FILE = "artwork"
"""What has a file of the decorator's own, wherever it is a word: there is no example of it."""
SHEET = (70.0, 90.0, 22.0)
"""The picture of a file: a sheet of paper, its width, height and turned-down corner, mm."""


@dataclass(frozen=True, slots=True)
class Choice:
    """An example: of which table, what it is called, its values, and what else its tier needs.

    ``lengths`` are further values; they are put on a cake in its own unit.
    """

    table: str
    name: str
    values: Data
    beside: Data = field(default_factory=dict)
    lengths: Mapping[str, str] = field(default_factory=dict)

    def values_in(self, unit: str) -> Data:
        """Return all values, with lengths as one writes them in a unit."""
        return self.values | {key: near(text, unit) for key, text in self.lengths.items()}


def _listed() -> Iterator[Choice]:
    for word in PATTERNS:
        yield Choice("drips", word, {"pattern": word} | DRIPS_OF.get(word, {}))
    yield Choice("panels", "one row at the base", {}, lengths={"height": "1 1/2 in"})
    yield Choice("panels", "whole side", {})
    yield Choice("panels", "two rows, staggered", {"rows": 2, "joins": "staggered"})
    at_the_top = {"place": "rim"}
    yield Choice("panels", "one row at the top edge", at_the_top, lengths={"height": "1 1/2 in"})
    for word in DESIGNS:
        if word != OWN_FILE:
            yield Choice("design", design_word(word), {"kind": word})
    yield Choice("lettering", "name on the side", {"text": "Name"})
    yield Choice("lettering", "name on the top", {"text": "Name", "on": "top"})
    for word in CUTOUTS:
        yield Choice("scatter", word, {"shape": word})
    yield Choice("opening", "hole", {}, {"dummy": True}, {"radius": "1 in"})
    yield from _of_the_whole()


def _of_the_whole() -> Iterator[Choice]:
    """Yield what belongs to no tier."""
    for word in CUTOUTS:
        yield Choice("topper", word, {"shape": word})
    yield Choice("topper", "number or letters", {"shape": "text", "text": "30"})
    yield Choice("cascade", FLOWERS_IN_A_LINE, {"shape": "blossom"})
    for word in CUTOUTS:
        if word != "blossom":
            yield Choice("cascade", word, {"shape": word})
    for word in FLOWERS:
        yield Choice("flower", word, {"kind": word})
    for text in ("40", "L"):
        yield Choice("letter_cake", text, {"text": text}, lengths={"cap_height": "8 in"})


@cache
def choices() -> tuple[Choice, ...]:
    """Return all examples, in the order in which they are shown."""
    return tuple(_listed())


@cache
def pictures() -> Mapping[str, Data]:
    """Return the pictures by what they show: ``drips/wave``, ``shape/heart``, ``cover/drape``."""
    found = {OWN_FILE: drawing_data(_file())}
    for shape in (*SHAPES, BALL):
        found[f"shape/{shape}"] = _drawn(partial(_plan_of, shape))
    for choice in choices():
        found[f"{choice.table}/{choice.name}"] = _drawn(partial(_of, choice))
    return {name: picture for name, picture in found.items() if picture}


def _drawn(draw: Callable[[], Drawing]) -> Data:
    """Return a picture as data, or nothing where the example cannot be drawn so small."""
    try:
        return drawing_data(draw())
    except CakeError:
        return {}


def _plan_of(shape: str) -> Drawing:
    """Draw a shape as seen from above; a ball from the front."""
    extra: Mapping[str, Data] = {
        "oval": {"short": "4 in"},
        "rectangle": {"short": "4 in"},
        "polygon": {"sides": 6},
        "petal": {"lobes": 6},
        "custom": {"outline": BEAN},
        BALL: {"depth": "6 in"},
    }
    cake = cake_from({"tier": [ON_TIER | {"shape": shape} | extra.get(shape, {})]})
    return _front(cake) if shape == BALL else _above(cake)


def _of(choice: Choice) -> Drawing:
    if choice.table == "topper":
        cake = cake_from({"tier": [ON_TIER], "topper": [choice.values_in(UNIT)]})
        return _cut(outlines(cake.topper[0]))
    if choice.table == "letter_cake":
        data = {"tier": [ON_TIER], "letter_cake": [choice.values_in(UNIT)]}
        made = build_stack(cake_from(data)).letter_cakes[0].made
        return _cut([part.outline for part in made.parts])
    if choice.table == "cascade":
        slanted = {**choice.values, "start_turn": -50, "end_turn": 50}
        return _front(cake_from({"tier": [ON_TIER], "cascade": [slanted]}))
    if choice.table == "flower":
        cake = cake_from({"tier": [ON_TIER], "flower": [choice.values_in(UNIT)]})
        return _cut([part.outline for part in Flowers(0, cake.flower[0]).parts])
    several = choice.table in ("design", "lettering", "scatter")
    found = choice.values_in(UNIT)
    values = [found] if several else found
    cake = cake_from({"tier": [ON_TIER | choice.beside | {choice.table: values}]})
    return _top(cake) if choice.values.get("on") == "top" else _front(cake)


def _front(cake: Cake) -> Drawing:
    drawing = elevation(build_stack(cake), FINE)
    return Drawing(drawing.strokes[1:])  # without its drum


def _above(cake: Cake) -> Drawing:
    return Drawing(from_above(build_stack(cake)).strokes[1:])


def _top(cake: Cake) -> Drawing:
    """Draw the words on a top: the paper that they are traced from."""
    pieces = make_plan(cake).pieces
    found = next(piece for piece in pieces if piece.kind == "top-lettering")
    return Drawing(found.drawing.strokes)


def _file() -> Drawing:
    """Draw a sheet with a turned-down corner, a leaf drawn on it."""
    width, height, corner = SHEET
    inner = (width - corner, height - corner)
    edge: list[Point] = [(0, 0), (width, 0), (width, inner[1]), (inner[0], height), (0, height)]
    turned: list[Point] = [edge[3], inner, edge[2]]
    drawn = leaf(height / 2).transformed(Transform(1, 0, 0, 1, width / 2, height * 0.42))
    return Drawing(
        (
            Stroke(polyline(edge, closed=True), Role.GUIDE),
            Stroke(polyline(turned), Role.GUIDE),
            Stroke(drawn, Role.CUT),
        )
    )


def _cut(paths: list[Path]) -> Drawing:
    """Draw outlines side by side."""
    strokes, x = [], 0.0
    for path in paths:
        box = path.bounds
        strokes.append(Stroke(path.transformed(Transform(1, 0, 0, 1, x - box.x0, 0)), Role.CUT))
        x += box.width + BETWEEN_FIGURES
    return Drawing(tuple(strokes))
