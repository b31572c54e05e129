"""A part of a pack: the options that choose tiers, kinds or sheets, and what they choose."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace

import click

from templates_gen.cakefile.kinds import KINDS
from templates_gen.cakefile.spelling import hint
from templates_gen.drawing.piece import Piece
from templates_gen.printing.templates import chosen
from templates_gen.sheets.pack import Pack
from templates_gen.units import capital, counted

Sheets = tuple[tuple[int, int], ...]
"""Runs of sheet numbers, first and last."""
_RUN = re.compile(r"\s*([0-9]{1,4})\s*(?:[-–]\s*([0-9]{1,4})\s*)?")


class SheetsType(click.ParamType):  # type: ignore[type-arg]  # generic in late versions only
    """Sheet numbers such as ``7,12-14``."""

    name = "sheets"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> Sheets:
        """Read the numbers, or fail with what is allowed."""
        if isinstance(value, tuple):
            return value  # the default
        runs = []
        for text in str(value).split(","):
            found = _RUN.fullmatch(text)
            first, last = (int(found[1]), int(found[2] or found[1])) if found else (0, 0)
            if not 1 <= first <= last:
                allowed = "sheet numbers from 1 up, such as 7 or 7,12-14, the lower one first"
                self.fail(f"“{text.strip()}” in “{value}”; allowed: {allowed}", param, ctx)
            runs.append((first, last))
        return tuple(runs)


@dataclass(frozen=True, slots=True)
class Choice:
    """What is chosen of a pack: templates by tier and kind, or sheets by number."""

    tiers: tuple[str, ...]
    kinds: tuple[str, ...]
    sheets: Sheets

    def __bool__(self) -> bool:
        return bool(self.tiers or self.kinds or self.sheets)

    def check(self, form: str) -> None:
        """Raise UsageError where options contradict each other."""
        if self.sheets and (self.tiers or self.kinds):
            raise click.UsageError(
                "--sheets counts the sheets of the whole pack: leave out --tier and --kind, or"
                " leave out --sheets."
            )
        if self and form in ("svg", "dxf"):
            raise click.UsageError(
                f"--tier, --kind and --sheets make a PDF: leave out --format {form}, or leave them"
                " out."
            )

    def pieces(self, templates: Sequence[Piece]) -> tuple[Piece, ...]:
        """Return the templates chosen. Raises UsageError for a tier or kind that there is not."""
        _known("--tier", self.tiers, templates, lambda piece: piece.tier)
        _known("--kind", self.kinds, templates, lambda piece: piece.kind, KINDS)
        found = chosen(templates, self.tiers, self.kinds)
        if not found:
            raise click.UsageError(
                "Nothing of that is printed on sheets. Choose another --tier or --kind, or add"
                " --whole to print what the cover gives in numbers."
            )
        return found

    def part_of(self, pack: Pack) -> Pack:
        """Return a pack with only the sheets chosen. Raises UsageError for one that it lacks."""
        last = max(end for _, end in self.sheets)
        if last > len(pack.sheets):
            raise click.UsageError(
                f"--sheets {last}: the pack on {pack.paper.name} has"
                f" {counted(len(pack.sheets), 'sheet')}. Choose from 1 to {len(pack.sheets)}."
            )
        numbers = {number for first, end in self.sheets for number in range(first, end + 1)}
        return replace(pack, sheets=tuple(s for s in pack.sheets if s.number in numbers))


def _known(
    option: str,
    words: Sequence[str],
    pieces: Sequence[Piece],
    of: Callable[[Piece], str],
    all_known: Collection[str] = (),
) -> None:
    """Raise UsageError for a word that no piece has; other cakes may have those ``all_known``."""
    known = list(dict.fromkeys(map(of, pieces)))
    for word in words:
        if word not in known:
            lacks = "needs no such template" if word in all_known else "has none"
            said = f"{option} “{word}”: this cake {lacks}. Choose from {', '.join(known)}."
            raise click.UsageError(f"{said} {capital(hint(word, known))}".strip())


def choice_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the options that choose a part of a pack."""
    for option in (
        click.option(
            "--sheets",
            type=SheetsType(),
            default=(),
            metavar="NUMBERS",
            help="Print only these pages of the pack again, such as 7,12-14.",
        ),
        click.option(
            "--kind",
            "kinds",
            multiple=True,
            help="Print only templates of this kind, such as wrap; may be given several times.",
        ),
        click.option(
            "--tier",
            "tiers",
            multiple=True,
            metavar="NAME",
            help="Print only templates of this tier (or drum, or pack); may be given several"
            " times.",
        ),
    ):
        command = option(command)
    return command
