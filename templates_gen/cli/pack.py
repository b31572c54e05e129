"""The command ``pack``: from a cake file to the files to print and cut from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import click

from templates_gen.bench.doubts import warnings
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.printer_store import printer_named
from templates_gen.cakefile.printers import Printer
from templates_gen.cakefile.printing import printed_whole
from templates_gen.cakefile.slug import file_name, slug
from templates_gen.cli import plain
from templates_gen.cli.choosing import Choice, Sheets, choice_options
from templates_gen.cli.output import write_and_say
from templates_gen.cli.pack_folder import put_pack, settled
from templates_gen.cli.params import PAPERS, PRINTER, folder_option
from templates_gen.cli.progress import Progress
from templates_gen.cli.reading import (
    Overrides,
    echo_warnings,
    located,
    read,
    with_cake_file,
    with_options,
)
from templates_gen.cli.vector import Style, piece_file, style_options
from templates_gen.cover.pack import make_packs
from templates_gen.errors import PlanWarning
from templates_gen.pieces.check_square import check_square
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.templates import templates
from templates_gen.sheets.pack import Pack
from templates_gen.sheets.print_check import REMINDER
from templates_gen.units import counted
from templates_gen.writers.manifest import write_manifest

FORMATS = {
    "pdf": ("", ".pdf"),
    "svg": (".svg", ".svg"),
    "both": (".svg", ".pdf"),
    "dxf": (".dxf", ""),
}
"""What each format makes of single pieces and of sheets; nothing where there is no ending."""


@click.command()
@with_cake_file
@folder_option("cake")
@PAPERS
@PRINTER
@click.option(
    "--format",
    "form",
    type=click.Choice(list(FORMATS)),
    default="both",
    show_default=True,
    help="pdf: the pages. svg: each piece and each page as SVG. both: the pages as PDF and"
    " each piece as SVG. dxf: each piece as DXF, for cutting machines.",
)
@style_options
@click.option(
    "--whole",
    is_flag=True,
    help="Print every template in full, whatever print says in the cake file.",
)
@click.option(
    "--by-tier",
    is_flag=True,
    help="Start each tier on a new sheet, so that its sheets can be kept together.",
)
@choice_options
def pack(
    cake_file: str,
    overrides: Overrides,
    out: Path | None,
    papers: tuple[str, ...],
    printer: str | None,
    form: str,
    *,
    solid: bool,
    words: str,
    whole: bool,
    by_tier: bool,
    tiers: tuple[str, ...],
    kinds: tuple[str, ...],
    sheets: Sheets,
) -> None:
    """Make the templates of a cake: pages to print as PDF, each piece as SVG.

    CAKE.toml is the cake file; - reads it from standard input.
    """
    choice = Choice(tiers, kinds, sheets)
    choice.check(form)
    cake, source = read(cake_file, overrides)
    options = with_options(source, paper=papers, printer=printer)
    folder = out or Path(file_name(slug(cake.title)))
    if choice:
        with located(options):
            plan = _plan(cake, whole=whole, by_tier=by_tier)
            found = printer_named(printer or plan.printer)
            part = _part(plan, papers or [plan.paper], found, choice, folder)
        write_and_say(part)
        click.echo(plain(REMINDER))
        return
    before = settled(folder)
    style, (of_pieces, of_sheets) = Style.of(solid, words), FORMATS[form]
    with located(options), Progress() as progress:
        drawn = _drawn(
            _plan(cake, whole=whole, by_tier=by_tier), papers, printer, of_pieces, style, progress
        )
        files = _files(drawn, of_sheets, progress)
    removed = put_pack(folder, cake.title, files, before)
    _report(drawn.packs, [folder / name for name in files])
    for name in removed:
        click.echo(f"  Removed: {folder / name} (no longer part of this cake)")
    echo_warnings(drawn.warnings, source)
    click.echo(plain(REMINDER))


def _plan(cake: Cake, *, whole: bool, by_tier: bool) -> Plan:
    """Return the plan of a cake, printed as the options say."""
    plan = make_plan(printed_whole(cake) if whole else cake)
    return plan.each_tier_apart() if by_tier else plan


def _part(
    plan: Plan, papers: Sequence[str], printer: Printer | None, choice: Choice, folder: Path
) -> dict[Path, bytes]:
    """Return a PDF of the part of a pack that was chosen, for each paper; the pack stays."""
    from templates_gen.writers.pdf import write_pdf

    pieces = None if choice.sheets else choice.pieces(templates(plan))
    packs = make_packs(plan, papers, pieces, printer)
    chosen = [choice.part_of(made) for made in packs] if choice.sheets else packs
    name = "sheets" if choice.sheets else "part"
    return {folder / f"{file_name(made.name)}-{name}.pdf": write_pdf(made) for made in chosen}


@dataclass(frozen=True, slots=True)
class _Drawn:
    """What is kept of a plan once its sheets are laid out: the rest makes room for the writers."""

    packs: list[Pack]
    pieces: dict[str, bytes]
    warnings: tuple[PlanWarning, ...]


def _drawn(
    plan: Plan,
    papers: Sequence[str],
    printer: str | None,
    ending: str,
    style: Style,
    progress: Progress,
) -> _Drawn:
    """Return the packs of a plan, and the file of each single piece by its name in the folder."""
    printed = [piece for piece in (*plan.pieces, check_square()) if piece.printed and ending]
    found = printer_named(printer or plan.printer)
    packs = make_packs(plan, papers or [plan.paper], printer=found)
    progress.steps = 1 + len(printed) + len(packs)
    progress.step()
    files: dict[str, bytes] = {}
    for piece in printed:
        name = file_name(piece.id.replace("/", "-"))
        files[f"pieces/{name}{ending}"] = piece_file(piece, packs[0].pack_mark, ending, style)
        progress.step()
    return _Drawn(packs, files, warnings(plan))


def _files(drawn: _Drawn, ending: str, progress: Progress) -> dict[str, bytes]:
    """Return the content of every file of the pack by its name in the folder, manifests last."""
    files = dict(drawn.pieces)
    manifests: dict[str, bytes] = {}
    for made in drawn.packs:
        sheets = _sheets(made, ending)
        files |= sheets
        manifests[f"{file_name(made.name)}.json"] = write_manifest(made, sheets | drawn.pieces)
        progress.step()
    return files | manifests


def _sheets(made: Pack, ending: str) -> dict[str, bytes]:
    stem = file_name(made.name)
    if not ending:
        return {}
    if ending == ".svg":
        from templates_gen.writers.svg_sheet import write_sheet_svg

        return {
            f"sheets/{stem}-{sheet.number:02}.svg": write_sheet_svg(made, sheet)
            for sheet in made.sheets
        }
    from templates_gen.writers.pdf import write_pdf

    return {f"{stem}.pdf": write_pdf(made)}


def _report(packs: Sequence[Pack], files: Sequence[Path]) -> None:
    """Say how many sheets and pieces there are, and where the files are."""
    pages = any(path.suffix == ".pdf" or path.parent.name == "sheets" for path in files)
    for made in packs if pages else ():
        click.echo(f"{made.title}: {made.extent}")
    single = [path for path in files if path.parent.name not in ("pieces", "sheets")]
    for path in single:
        click.echo(f"  {path}")
    folders = dict.fromkeys(path.parent for path in files if path not in single)
    for folder in folders:
        endings = [path.suffix for path in files if path.parent == folder]
        kind = endings[0].removeprefix(".").upper()
        click.echo(f"  {folder} ({counted(len(endings), f'{kind} file')})")
