"""The command ``resize``: the same design on other tins, as a cake file of its own."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import click

from templates_gen.bench.figures import value_lines
from templates_gen.cakefile.editing import plain, saved
from templates_gen.cakefile.lengths import LengthError, parse_length
from templates_gen.cakefile.reading import checked, decoded, parse_data, read_text
from templates_gen.cakefile.resizing import Tin, resized
from templates_gen.cli.output import write_all
from templates_gen.cli.reading import echo_warnings, located
from templates_gen.plan import Plan, make_plan
from templates_gen.units import counted

_TIMES = re.compile(r"\s*(?:x|×|\*|\bby\b)\s*", re.IGNORECASE)
EXAMPLE = '--to "12x5, 9x6, 6x4"'


def _tins(text: str, unit: str | None) -> list[Tin]:
    """Read sizes, each with its depth or without. Raises UsageError."""
    tins = []
    for each in text.split(","):
        size, *depth = _TIMES.split(each.strip())
        try:
            lengths = [parse_length(part, unit) for part in (size, *depth)]
        except LengthError as error:
            raise click.UsageError(f"--to: {error}. Write for example {EXAMPLE}") from None
        if len(lengths) > 2:
            raise click.UsageError(f"--to “{each.strip()}”: a size and a depth, such as {EXAMPLE}")
        tins.append(Tin(*lengths))
    return tins


@click.command()
@click.argument("cake_file", metavar="CAKE.toml", type=click.Path(allow_dash=True))
@click.option(
    "--to",
    "sizes",
    metavar="SIZES",
    required=True,
    help='The tins from the bottom up, such as "12x5, 9x6, 6x4"; a depth may be left out.',
)
@click.option(
    "-o",
    "--output",
    metavar="NEW.toml",
    required=True,
    type=click.Path(path_type=Path, dir_okay=False),
    help="The cake file to write.",
)
def resize(cake_file: str, sizes: str, output: Path) -> None:
    """Write the same design for other tins as a new cake file.

    Panels and repeats close again, what hangs keeps its share of the depth, and what has a true
    size, such as a mould, stays. Comments are kept, and what has changed is shown.
    """
    text = read_text(cake_file)
    data = parse_data(text)
    cake = checked(data, text)
    tins = _tins(sizes, cake.unit)
    if len(tins) != len(cake.tier):
        tiers = counted(len(cake.tier), "tier")
        raise click.UsageError(
            f"--to gives {counted(len(tins), 'size')} and the cake has {tiers}: one for each,"
            " from the bottom up"
        )
    with located(text):
        before = make_plan(cake)
    new = decoded(saved(plain(resized(data, tins)), text.text).encode(), output.name, text.folder)
    with located(new):
        after = make_plan(checked(parse_data(new), new))
    write_all({output: new.text.encode()})
    click.echo(f"Written: {output}")
    for line in changes(before, after):
        click.echo(f"  {line}")
    echo_warnings(after.warnings(), new)


COUNTED = ("count", "spacing", "width", "per join", "closes on", "portion", "meeting length")
"""The figures worth seeing when a cake is resized, by what their names have in them."""


def changes(before: Plan, after: Plan) -> Iterator[str]:
    """Yield for each piece what of its counts, spacings and lengths has changed."""
    old = {piece.id: dict(value_lines(piece.values)) for piece in before.pieces}
    for piece in after.pieces:
        was = old.get(piece.id, {})
        found = [
            f"{label} {was[label]} → {text}"
            for label, text in value_lines(piece.values)
            if label in was and was[label] != text and any(word in label for word in COUNTED)
        ]
        if found:
            yield f"{piece.title}: {'; '.join(found)}"


COMMANDS = {"resize": resize}
