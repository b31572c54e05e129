"""Parameter types and options of the command line, made from the fields of the cake."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, get_args

import click
from pydantic import AfterValidator, BaseModel
from pydantic.fields import FieldInfo

from templates_gen.cake.lengths import UNITS, Length, LengthError, parse_length
from templates_gen.cake.papers import parse_papers
from templates_gen.cake.rules import OneOf


class LengthType(click.ParamType):  # type: ignore[type-arg]  # generic in late versions only
    """A length with its unit, such as ``8 in``; bare numbers are in the unit of ``--unit``."""

    name = "length"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> Length:
        """Read a length, or fail with what is allowed."""
        if isinstance(value, Length):
            return value
        unit = ctx.params.get("unit") if ctx else None
        try:
            return parse_length(str(value), unit if unit in UNITS else None)
        except LengthError as error:
            self.fail(f"{error.found}; allowed: {error.allowed}", param, ctx)


class PaperType(click.ParamType):  # type: ignore[type-arg]  # as above
    """The name of a paper, ``both``, or a size such as ``210 mm x 297 mm``."""

    name = "paper"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> str:
        """Check that the text names a paper, or fail with what is allowed."""
        try:
            parse_papers([str(value)])
        except LengthError as error:
            self.fail(f"{error.found}; allowed: {error.allowed}", param, ctx)
        return str(value)


UNIT = click.Option(
    ["--unit"],
    type=click.Choice(list(UNITS)),
    is_eager=True,
    help="What a bare number means.",
)


def options_for(model: type[BaseModel], names: Sequence[str]) -> Iterator[click.Option]:
    """Yield an option for each named field of a model of the cake."""
    for name in names:
        info = model.model_fields[name]
        yield click.Option(
            [f"--{name.replace('_', '-')}", name],
            help=_help(info),
            required=info.is_required(),
            **_kind(info),
        )


def _help(info: FieldInfo) -> str:
    """Return the description of a field as a sentence, with the example if it is a length."""
    text = info.description or ""
    example = str((info.examples or [""])[0]).strip('"')
    such = f" Such as {example}." if Length in _parts(info.annotation) else ""
    return f"{text[:1].upper()}{text[1:]}.{such}"


def _kind(info: FieldInfo) -> dict[str, Any]:
    """Return how click reads a field: as a flag, a choice, a number, a length or a text."""
    parts = list(_parts(info.annotation)) + list(info.metadata)
    if bool in parts:
        return {"is_flag": True, "default": None}
    words = [part for part in parts if isinstance(part, str)]
    for part in parts:
        if isinstance(part, AfterValidator) and isinstance(part.func, OneOf):
            words = list(part.func.table)
    if words:
        return {"type": click.Choice(words)}
    if Length in parts:
        return {"type": LengthType()}
    return {"type": int if int in parts else str}


def _parts(annotation: Any) -> Iterator[Any]:  # noqa: ANN401 (any annotation)
    """Yield an annotation and everything it is made of."""
    yield annotation
    for part in get_args(annotation):
        yield from _parts(part)
