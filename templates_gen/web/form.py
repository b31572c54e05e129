"""The form of the page, described by the model of the cake: a new key appears by itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from datetime import datetime
from functools import cache
from typing import Any, get_args, get_origin

from pydantic import AfterValidator, BaseModel, PlainValidator
from pydantic.fields import FieldInfo

from templates_gen.cakefile.attached import Attached
from templates_gen.cakefile.cutting import ONLY_FOR, OWN, TEXT, Scatter, Topper
from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.lettering import FACES, font_of
from templates_gen.cakefile.model import Cake, Drips, Tier
from templates_gen.cakefile.papers import BOTH, PAPERS
from templates_gen.cakefile.plans import BALL, keys_of
from templates_gen.cakefile.rhythms import RHYTHMS
from templates_gen.cakefile.rules import OneOf, PaperName
from templates_gen.drawing.cutouts import CUTOUTS
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.shapes import SHAPES

RELEVANCE: dict[type[BaseModel], tuple[str, dict[str, tuple[str, ...]]]] = {
    Tier: (
        "shape",
        {**{shape: tuple(keys_of(shape)) for shape in SHAPES}, BALL: ("size", "gores")},
    ),
    Design: ("kind", {kind: design.keys for kind, design in DESIGNS.items()}),
    Drips: ("rhythm", {word: rhythm.heeds for word, rhythm in RHYTHMS.items()}),
    **{
        model: (
            "shape",
            {
                word: tuple(key for key, shape in ONLY_FOR.items() if shape == word)
                for word in (*CUTOUTS, TEXT, OWN)
            },
        )
        for model in (Scatter, Topper)
    },
}
"""Of some tables: the key that says what it is, and by its words which other keys it heeds."""
FONT_ENDINGS = (".ttf", ".otf")
ARTWORK_ENDINGS = (".svg",)


@dataclass(frozen=True, slots=True)
class Field:
    """One control: what it is for and what it takes.

    ``kind`` is how its text is read: length, lengths, count, number, yes, words, text, file, table
    or tables. ``usual`` is what holds when it is left out, as a text. ``choices`` are all words of
    a field of words, and suggestions for a text. ``endings`` are those of a file that may be
    chosen. ``fields`` are those of a table. A field with an ``only_by`` matters only where the
    field of that key beside it has one of the words ``only``.
    """

    key: str
    label: str
    help: str
    example: str
    kind: str
    needed: bool = False
    usual: str = ""
    choices: tuple[str, ...] = ()
    endings: tuple[str, ...] = ()
    fields: tuple[Field, ...] = ()
    only_by: str = ""
    only: tuple[str, ...] = ()


@cache
def form() -> tuple[Field, ...]:
    """Return the fields of a cake file, in the order of the reference."""
    return fields_of(Cake)


def as_data(fields: tuple[Field, ...]) -> list[dict[str, Any]]:
    """Return fields ready for JSON."""
    return [asdict(each) for each in fields]


@cache
def fields_of(model: type[BaseModel]) -> tuple[Field, ...]:
    """Return the fields of a table of the cake file."""
    return tuple(_field(model, key, info) for key, info in model.model_fields.items())


def _field(model: type[BaseModel], key: str, info: FieldInfo) -> Field:
    parts = [*_parts(info.annotation), *info.metadata]
    kind, more = _kind(parts)
    example = str((info.examples or [""])[0])
    return Field(
        key=key,
        label=key.replace("_", " ").capitalize(),
        help=info.description or "",
        example=example.strip('"'),
        kind=kind,
        needed=info.is_required(),
        usual=_usual(info.default),
        **more,
        **_relevance(model, key),
    )


def _relevance(model: type[BaseModel], key: str) -> dict[str, Any]:
    """Return with which words of another field a key matters, if not with all of them."""
    by, heeds = RELEVANCE.get(model, ("", {}))
    if key == by or not any(key in keys for keys in heeds.values()):
        return {}
    only = tuple(word for word, keys in heeds.items() if key in keys)
    return {} if len(only) == len(heeds) else {"only_by": by, "only": only}


def _kind(parts: list[Any]) -> tuple[str, dict[str, Any]]:
    """Return what a field takes, by the first rule that fits, and what goes with it."""
    models = [part for part in parts if isinstance(part, type) and issubclass(part, BaseModel)]
    several = any(get_origin(part) is tuple for part in parts)
    if models:
        return "tables" if several else "table", {"fields": fields_of(models[0])}
    if Attached in parts:
        return _file_kind(parts)
    if any(part in get_args(PaperName) for part in parts if isinstance(part, AfterValidator)):
        return "text", {"choices": (*PAPERS, BOTH)}
    if words := tuple(_words(parts)):
        return "words", {"choices": words}
    if Length in parts:
        return "lengths" if several else "length", {}
    plain = {bool: "yes", int: "count", float: "number", datetime: "text", str: "text"}
    return next(kind for known, kind in plain.items() if known in parts), {}


def _file_kind(parts: list[Any]) -> tuple[str, dict[str, Any]]:
    if any(isinstance(part, PlainValidator) and part.func is font_of for part in parts):
        return "file", {"choices": tuple(FACES), "endings": FONT_ENDINGS}
    return "file", {"endings": ARTWORK_ENDINGS}


def _words(parts: list[Any]) -> Iterator[str]:
    """Yield the words of a Literal, or of a table that the word must be in."""
    for part in parts:
        if isinstance(part, str):
            yield part
        elif isinstance(part, AfterValidator) and isinstance(part.func, OneOf):
            yield from part.func.table


def _usual(default: object) -> str:
    if isinstance(default, bool):
        return "yes" if default else "no"
    plain = isinstance(default, str | int | float | Length | Attached)
    return str(default) if plain else ""


def _parts(annotation: Any) -> Iterator[Any]:  # noqa: ANN401 (any annotation)
    """Yield an annotation and everything it is made of."""
    yield annotation
    for part in get_args(annotation):
        yield from _parts(part)
