"""The keys of the cake file: what each takes, read off the annotations of the models.

This is the one reader of annotations; messages, the command line, the page and the reference all
take a ``KeyInfo``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from typing import Any, Literal, get_args, get_origin

from pydantic import AfterValidator, BaseModel, PlainValidator
from pydantic.fields import FieldInfo

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.lettering import FACES, font_of
from templates_gen.cakefile.papers import BOTH, PAPERS, ROLLS
from templates_gen.cakefile.rules import OneOf, PaperName
from templates_gen.drawing.attached import Attached
from templates_gen.errors import Key

Kind = Literal["length", "count", "number", "flag", "words", "text", "date", "file", "table"]
FONT_ENDINGS = (".ttf", ".otf")
ARTWORK_ENDINGS = (".svg",)
_PLAIN: dict[type, Kind] = {
    bool: "flag",
    int: "count",
    float: "number",
    datetime: "date",
    str: "text",
}


@dataclass(frozen=True, slots=True)
class KeyInfo:
    """One key of a table: what it is for and what it takes.

    ``several`` says that it takes a list of its kind. ``words`` are all it takes, of the kind
    words, else suggestions. ``table`` is the model of a table, ``endings`` those of a file.
    """

    name: str
    description: str
    example: str
    kind: Kind
    several: bool = False
    required: bool = False
    default: object = None
    words: tuple[str, ...] = ()
    endings: tuple[str, ...] = ()
    table: type[BaseModel] | None = None


@cache
def keys_of(model: type[BaseModel]) -> dict[str, KeyInfo]:
    """Return the keys of a table by their names, in the order of the reference."""
    return {name: _info(name, field) for name, field in model.model_fields.items()}


def tables(model: type[BaseModel] = Cake, path: str = "") -> Iterator[tuple[str, type[BaseModel]]]:
    """Yield every table within a table as a cake file writes it, such as ``[tier.drips]``."""
    for info in keys_of(model).values():
        if info.table is not None:
            inner = f"{path}.{info.name}".strip(".")
            yield (f"[[{inner}]]" if info.several else f"[{inner}]"), info.table
            yield from tables(info.table, inner)


def table_at(key: Key) -> type[BaseModel]:
    """Return the model that the table at a key is read as: the nearest that is known."""
    model: type[BaseModel] = Cake
    for part in key:
        info = keys_of(model).get(part) if isinstance(part, str) else None
        model = (info and info.table) or model
    return model


def key_at(key: Key) -> KeyInfo | None:
    """Return what is known of the last name in a key."""
    names = [index for index, part in enumerate(key) if isinstance(part, str)]
    return keys_of(table_at(key[: names[-1]])).get(str(key[names[-1]])) if names else None


def changed(
    data: Mapping[str, Any], change: Callable[[KeyInfo, Any], Any], model: type[BaseModel] = Cake
) -> dict[str, Any]:
    """Return the data of a table, which may be wrong, with every known value changed by its key.

    Lists are changed value by value, and tables within the table likewise.
    """

    def each(info: KeyInfo, value: Any) -> Any:  # noqa: ANN401 (any TOML value)
        if isinstance(value, list):
            return [each(info, one) for one in value]
        if info.table is None:
            return change(info, value)
        return changed(value, change, info.table) if isinstance(value, Mapping) else value

    known = keys_of(model)
    return {key: each(known[key], value) if key in known else value for key, value in data.items()}


def _info(name: str, field: FieldInfo) -> KeyInfo:
    parts = [*_parts(field.annotation), *field.metadata]
    several = any(get_origin(part) is tuple for part in parts)
    models = [part for part in parts if isinstance(part, type) and issubclass(part, BaseModel)]
    kind, words, endings = ("table", (), ()) if models else _takes(parts)
    return KeyInfo(
        name,
        field.description or "",
        str((field.examples or [""])[0]),
        kind,
        several,
        field.is_required(),
        field.default,
        words,
        endings,
        models[0] if models else None,
    )


def _takes(parts: list[Any]) -> tuple[Kind, tuple[str, ...], tuple[str, ...]]:
    """Return the kind of what a key takes, its words and endings, by the first rule that fits."""
    if Attached in parts:
        if any(isinstance(part, PlainValidator) and part.func is font_of for part in parts):
            return "file", tuple(FACES), FONT_ENDINGS
        return "file", (), ARTWORK_ENDINGS
    if any(part in get_args(PaperName) for part in parts if isinstance(part, AfterValidator)):
        return "text", (*PAPERS, BOTH, *ROLLS), ()
    if words := tuple(_words(parts)):
        return "words", words, ()
    if Length in parts:
        return "length", (), ()
    return next(kind for known, kind in _PLAIN.items() if known in parts), (), ()


def _words(parts: list[Any]) -> Iterator[str]:
    """Yield the words of a Literal, or of the table that a word must be in."""
    for part in parts:
        if isinstance(part, str):
            yield part
        elif isinstance(part, OneOf):
            yield from part.table


def _parts(annotation: Any) -> Iterator[Any]:  # noqa: ANN401 (any annotation)
    """Yield an annotation and everything it is made of."""
    yield annotation
    for part in get_args(annotation):
        yield from _parts(part)
