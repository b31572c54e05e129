"""The form of the page, described by the model of the cake: a new key appears by itself."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from functools import cache
from typing import Any

from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.cascades import Cascade
from templates_gen.cakefile.comb import Comb
from templates_gen.cakefile.cutting import ONLY_FOR, OWN, TEXT, Scatter, Topper
from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.drips import Drips
from templates_gen.cakefile.drum import Drum
from templates_gen.cakefile.flowers import Flower
from templates_gen.cakefile.gores import Gores
from templates_gen.cakefile.keys import KeyInfo, keys_of
from templates_gen.cakefile.lengths import UNITS, Length
from templates_gen.cakefile.letter_cakes import LetterCake
from templates_gen.cakefile.lettering import Lettering
from templates_gen.cakefile.opening import Opening
from templates_gen.cakefile.paint import Paint
from templates_gen.cakefile.panels import Panels
from templates_gen.cakefile.portions import Portions
from templates_gen.cakefile.position import Position
from templates_gen.cakefile.shape_keys import BALL, shape_keys
from templates_gen.cakefile.supports import Dowels
from templates_gen.cakefile.tier import Tier
from templates_gen.cakefile.work import Work
from templates_gen.drawing.attached import Attached
from templates_gen.drawing.combs import COMBS
from templates_gen.drawing.cutouts import CUTOUTS
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.patterns import PATTERNS
from templates_gen.drawing.shapes import SHAPES
from templates_gen.units import decimal
from templates_gen.web.examples import in_both_units, near
from templates_gen.web.labels import label, name_of_word, worded_in

RELEVANCE: dict[type[BaseModel], tuple[str, dict[str, tuple[str, ...]]]] = {
    Tier: (
        "shape",
        {**{shape: tuple(shape_keys(shape)) for shape in SHAPES}, BALL: ("size", "gores")},
    ),
    Design: ("kind", {kind: design.keys for kind, design in DESIGNS.items()}),
    Comb: ("profile", {word: ("line",) if word == "contour" else () for word in COMBS}),
    Drips: ("pattern", {word: pattern.keys for word, pattern in PATTERNS.items()}),
    Lettering: ("line", {"level": (), "curve": ("curve_height",), "rim": ()}),
    **{
        model: (
            "shape",
            {
                word: tuple(key for key, shape in ONLY_FOR.items() if shape == word)
                for word in (*CUTOUTS, TEXT, OWN)
            },
        )
        for model in (Scatter, Topper, Cascade)
    },
}
"""Of some tables: the key that says what it is, and by its words which other keys it takes."""


@dataclass(frozen=True, slots=True)
class Field:
    """One control: what it is for and what it takes.

    ``kind`` is how its text is read: length, lengths, count, number, yes, words, text, date, file,
    table or tables. ``usual`` is what holds when it is left out, as a text. ``choices`` are all
    words of a field of words, and suggestions for a text; ``names`` is what the page calls them. A
    table that is ``optional`` is there or not. What is ``automatic`` has an effect when left out.
    ``endings`` are those of a file that may be chosen. ``fields`` are those of a table. Those with
    a ``rank`` are in sight, in its order; one of rank 0 is under “More”. ``tab`` is the part of
    the panel of a tier that it is in. One with an ``only_by`` matters only where the field of that
    key beside it has one of the words ``only``.
    """

    key: str
    label: str
    help: str
    example: str
    kind: str
    needed: bool = False
    rank: int = 0
    tab: str = ""
    usual: str = ""
    choices: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    endings: tuple[str, ...] = ()
    fields: tuple[Field, ...] = ()
    optional: bool = False
    automatic: bool = False
    only_by: str = ""
    only: tuple[str, ...] = ()


@cache
def form() -> tuple[Field, ...]:
    """Return the fields of a cake file, in the order of the reference."""
    return fields_of(Cake)


def as_data(fields: tuple[Field, ...]) -> list[dict[str, Any]]:
    """Return fields ready for JSON."""
    return [_with_examples(asdict(each)) for each in fields]


def _with_examples(field: dict[str, Any]) -> dict[str, Any]:
    """Return a field with its example, and what is usual, in the unit of each cake."""
    text, usual = field["example"], field["usual"]
    is_length = field["kind"] == "length"
    field["example"] = {unit: _example(field["kind"], text, unit) for unit in UNITS}
    field["usual_in"] = {unit: in_both_units(usual, unit) if is_length else usual for unit in UNITS}
    field["fields"] = [_with_examples(each) for each in field["fields"]]
    return field


def _example(kind: str, text: str, unit: str) -> str:
    """Return an example as it is typed into a field, lengths in a unit."""
    if kind == "lengths":
        return "; ".join(near(each, unit) for each in json.loads(text))
    return near(text, unit) if kind == "length" else text


@cache
def fields_of(model: type[BaseModel]) -> tuple[Field, ...]:
    """Return the fields of a table of the cake file."""
    return tuple(_field(model, info) for info in keys_of(model).values())


FIRST: dict[type[BaseModel], tuple[str, ...]] = {
    Cake: ("title", "guests"),
    Tier: (
        *("size", "depth", "shape", "cover", "colour", "name", "dummy"),
        *("raised", "board", "ribbon"),
    ),
    Drum: ("size", "shape", "ribbon"),
    Panels: ("height", "rows", "width", "colour"),
    Drips: ("pattern", "lengths", "line", "longest", "shortest", "spacing", "colour"),
    Opening: ("radius", "height", "turn"),
    Design: ("kind", "file", "width", "top", "drop", "height", "breadth", "colour"),
    Lettering: ("text", "on", "cap_height", "font", "colour"),
    Scatter: ("shape", "file", "size", "density", "colour", "material"),
    Topper: ("shape", "text", "file", "height"),
    LetterCake: ("text", "cap_height", "depth", "font", "colour"),
    Cascade: ("shape", "file", "sizes", "start_turn", "end_turn", "colour", "material"),
    Flower: ("kind", "width", "count", "colour", "material", "leaves"),
    Paint: ("on", "coats"),
    Dowels: ("count", "thickness"),
    Position: ("place", "turn", "right", "back"),
    Gores: ("count", "joins"),
    Portions: ("width", "length", "cuts"),
    Work: ("ready", "day_starts", "day_ends"),
}
"""Of each table: the keys that matter first, in the order in which they are shown."""
DECORATE = (
    "drips",
    "panels",
    "comb",
    "run_out",
    "design",
    "lettering",
    "scatter",
    "opening",
    "paint",
)
SUPPORT = (
    *("raised", "separator", "board", "board_thickness", "board_template"),
    *("dowels", "position", "ribbon"),
)
"""Keys of a tier that are shown in a part of their own."""
AUTOMATIC = {(Tier, "dowels")}
"""Tables without which a cake has what they are about all the same."""
WITHOUT_EFFECT = {(Cake, "prices")}
"""Tables that may be empty, and then say nothing."""
CONTROLS = {"flag": "yes"}
"""The kind of control for a kind of key, where it has another name."""


def _field(model: type[BaseModel], info: KeyInfo) -> Field:
    kind = CONTROLS.get(info.kind, info.kind)
    return Field(
        key=info.name,
        label=label(model, info.name),
        help=worded_in(info.description, model),
        example=info.example.strip('"'),
        kind=f"{kind}s" if info.several else kind,
        needed=info.required,
        rank=_rank(model, info.name),
        tab=_tab(info.name) if model is Tier else "",
        usual=_usual(info.default),
        choices=info.words,
        names=tuple(name_of_word(model, info.name, word) for word in info.words),
        endings=info.endings,
        fields=fields_of(info.table) if info.table else (),
        optional=info.table is not None and not info.several and info.default is None,
        automatic=_is_automatic(model, info),
        **_relevance(model, info.name),
    )


def _is_automatic(model: type[BaseModel], info: KeyInfo) -> bool:
    """Tell whether something holds where a key is left out, be it a value or one worked out."""
    if info.table is None:
        return bool(_usual(info.default)) or "default:" in info.description
    if info.default is None and not info.several:
        return (model, info.name) in AUTOMATIC
    return (model, info.name) not in WITHOUT_EFFECT


def _rank(model: type[BaseModel], key: str) -> int:
    first = FIRST.get(model, ())
    if model is Tier and key in DECORATE:
        return DECORATE.index(key) + 1
    if key in first:
        return first.index(key) + 1
    # what a shape takes belongs right beside it
    return first.index("shape") + 1 if model is Tier and _relevance(model, key) else 0


def _tab(key: str) -> str:
    return "decorate" if key in DECORATE else "support" if key in SUPPORT else "size"


def _relevance(model: type[BaseModel], key: str) -> dict[str, Any]:
    """Return with which words of another field a key matters, if not with all of them."""
    by, keys = RELEVANCE.get(model, ("", {}))
    if key == by or not any(key in keys for keys in keys.values()):
        return {}
    only = tuple(word for word, keys in keys.items() if key in keys)
    return {} if len(only) == len(keys) else {"only_by": by, "only": only}


def _usual(default: object) -> str:
    if isinstance(default, bool):
        return "yes" if default else "no"
    if isinstance(default, float):
        return decimal(default, 6)
    plain = isinstance(default, str | int | Length | Attached)
    return str(default) if plain else ""
