"""Parameter types and options of the command line, made from the fields of the cake."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

import click
from pydantic import BaseModel

from templates_gen.cakefile.keys import KeyInfo, keys_of
from templates_gen.cakefile.lengths import UNIT_OF, UNITS, Length, LengthError, parse_length
from templates_gen.cakefile.papers import parse_papers
from templates_gen.cakefile.spelling import hint
from templates_gen.units import capital


class LengthType(click.ParamType):  # type: ignore[type-arg]  # generic in late versions only
    """A length with its unit, such as ``8in``; bare numbers are in the unit of ``--unit``."""

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
            way = f" {_one_word(error.bare)}" if error.bare else ""
            self.fail(f"{error.found}; allowed: {error.allowed}.{way}", param, ctx)


class LengthCommand(click.Command):
    """A command with lengths, which says what to do about one that came as several words."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the command line, or fail at a unit that stands alone after a number."""
        words = _split_length(args)
        if words:
            *number, unit = words
            came = f"“{' '.join(words)}” came as {len(words)} words."
            raise click.UsageError(f"{came} {_one_word(' '.join(number), unit)}", ctx)
        return super().parse_args(ctx, args)


def _split_length(args: Iterable[str]) -> list[str]:
    """Return the words of the first length that lacks its quotes: ``8``, ``1/2``, ``in``."""
    words: list[str] = []
    for word in args:
        if word.startswith("-"):
            value = word.partition("=")[2]
            words = [value] if value else []
        elif words and words[0][:1].isnumeric() and word.lower() in UNIT_OF:
            return [*words, word]
        else:
            words.append(word)
    return []


def _one_word(number: str, unit: str = "in") -> str:
    """Say how a length is written so that the shell hands it on whole."""
    word = f"{'-'.join(number.split())}{unit}"
    return (
        f'Write {word}, or "{number} {unit}" in quotes; --unit {UNIT_OF[unit.lower()]} says once'
        " what bare numbers mean."
    )


class WordType(click.Choice):  # type: ignore[type-arg]  # as above
    """One of a few words; for another, the message names the one that may have been meant."""

    def __init__(self, words: Sequence[str], about: str = "") -> None:
        super().__init__(words)
        self._about = about

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> str:
        """Return the word, or fail with all words."""
        try:
            return str(super().convert(value, param, ctx))
        except click.BadParameter as error:
            spec = hint(str(value), [str(word) for word in self.choices], self._about)
            said = f"{error.message} {capital(spec)}".strip()
            raise click.BadParameter(said, ctx, param) from None


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


PAPERS = click.option(
    "--paper",
    "papers",
    type=PaperType(),
    multiple=True,
    help="Paper in the printer: a4, letter, legal, tabloid, a0 to a3, ansi-c to ansi-e, arch-a to"
    " arch-e, both (one layout for a4 and letter), a size, or a roll such as roll-610; may be given"
    " several times. Default: the paper in the cake file.",
)
"""The option of a command that lays a cake file out on sheets."""
PRINTER = click.option(
    "--printer",
    metavar="NAME",
    help="Make it true to size on this measured printer (see templates-gen printer). Default: the"
    " printer in the cake file, if there is one; otherwise nothing is scaled.",
)
"""The option of a command that makes sheets for one printer."""
UNIT = click.Option(
    ["--unit"],
    type=click.Choice(list(UNITS)),
    is_eager=True,
    help="Unit of numbers without a unit.",
)


def options_for(model: type[BaseModel], names: Sequence[str]) -> Iterator[click.Option]:
    """Yield an option for each named key of a table of the cake."""
    for name in names:
        info = keys_of(model)[name]
        yield click.Option(
            [f"--{name.replace('_', '-')}", name],
            help=_help(info),
            required=info.required,
            **_type(info),
        )


def _help(info: KeyInfo) -> str:
    """Return the description of a key as a sentence, with the example if it is a length.

    The example has no blank, so that it needs no quotes.
    """
    example = info.example.strip('"').replace(" ", "")
    such = f" Example: {example}." if info.kind == "length" else ""
    return f"{capital(info.description)}.{such}"


def _type(info: KeyInfo) -> dict[str, Any]:
    """Return how click reads a key: as a flag, a choice, a number, a length or a text."""
    if info.kind == "flag":
        return {"is_flag": True, "default": None}
    if info.kind == "words":
        return {"type": WordType(info.words, info.description)}
    if info.kind == "length":
        return {"type": LengthType(), "multiple": info.several, "callback": _none_given}
    return {"type": int if info.kind == "count" else str}


def _none_given(ctx: click.Context, param: click.Parameter, value: object) -> object:
    """Return what was given; no value of several is None, as with other options."""
    return None if value == () else value


WRITTEN = (".pdf", ".svg", ".dxf", ".json", ".zip")
"""What files of a pack end in, and what others may send it as."""
Checked = Callable[[click.Context, click.Parameter, Path | None], Path | None]
"""Looks at the name of a file, and returns it."""


def output_option(help: str, **settings: Any) -> Callable[..., Any]:  # noqa: A002, ANN401 (click)
    """Return the option of the one file that a command writes."""
    place = click.Path(path_type=Path, dir_okay=False)
    return click.option("-o", "--output", type=place, help=help, **settings)


def folder_option(named_after: str) -> Callable[..., Any]:
    """Return the option of the folder that a command writes into."""
    said = f"Folder for the files. Default: one named after the {named_after}."
    place = click.Path(path_type=Path)
    return click.option("-o", "--out", metavar="DIR", type=place, help=said, callback=_new_folder)


def _new_folder(ctx: click.Context, param: click.Parameter, value: Path | None) -> Path | None:
    """Return the name of a folder; that of one file is refused where there is no such folder."""
    if value is not None and value.suffix.lower() in WRITTEN and not value.is_dir():
        said = f"“{value}” is the name of a file; allowed: a folder, for all files of the pack"
        raise click.BadParameter(f"{said}. Write for example {value.with_suffix('')}", ctx, param)
    return value


def one_of(endings: Sequence[str]) -> Checked:
    """Return the check that a file to write ends in one of these."""

    def check(ctx: click.Context, param: click.Parameter, value: Path | None) -> Path | None:
        if value is not None and value.suffix.lower() not in endings:
            raise click.BadParameter(f"“{value}” ends in none of {', '.join(endings)}", ctx, param)
        return value

    return check
