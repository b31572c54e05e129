"""The commands that make one template without a cake file, by the same way as a whole pack."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

from templates_gen.bench.figures import value_lines
from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.drips import Drips
from templates_gen.cakefile.panels import Panels
from templates_gen.cakefile.papers import parse_papers
from templates_gen.cakefile.printer_store import printer_named
from templates_gen.cakefile.reading import cake_from
from templates_gen.cakefile.shape_keys import PLAN_KEYS
from templates_gen.cakefile.slug import slug
from templates_gen.cakefile.tier import Tier
from templates_gen.cli import COMMANDS as COMMAND_HELP
from templates_gen.cli import plain
from templates_gen.cli.output import write_and_say
from templates_gen.cli.params import (
    UNIT,
    LengthCommand,
    LengthType,
    PaperType,
    WordType,
    one_of,
    options_for,
)
from templates_gen.cli.reading import OptionSource, as_options, echo_table, echo_warnings, spare
from templates_gen.cli.vector import ENDINGS, Style, piece_file, style_params
from templates_gen.cover.pack import make_packs
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import CakeError, Key, Problem
from templates_gen.pieces.check_square import check_square
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.templates import few
from templates_gen.sheets.pack_mark import pack_mark
from templates_gen.sheets.print_check import REMINDER
from templates_gen.tiers.solid import Solid
from templates_gen.units import decimal, in_both

Data = dict[str, Any]
ROUNDING = 0.05
"""Less than this is no difference on paper, mm."""
ANY_DEPTH = "300 mm"
"""The depth of a tier whose template does not depend on it."""


def _panels_cake(tier: Data, spec: Data) -> Data:
    """Return the tier, panelled where the panels are its covering and nothing else was said."""
    return {"tier": [{"cover": "panelled"} | tier if spec.get("replace_wrap") else tier]}


def _design_cake(tier: Data, spec: Data) -> Data:
    """Return the tier with the one design, of which a tier may have several."""
    return {"tier": [tier | {"design": [tier["design"]]}]}


def _placement_cake(tier: Data, spec: Data) -> Data:
    """Return the lower tier, or the drum, and a tier of the same layers above."""
    above = tier | {"size": spec["above"], "name": f"upper {spec['above'].tidy}"}
    if above["size"].mm > tier["size"].mm:
        problem = Problem(
            ("above",),
            f"“{above['size']}” on “{tier['size']}”",
            f"up to “{tier['size']}”",
            "give the size below to --size and the one above to --above",
        )
        raise CakeError([problem], OptionSource({}))
    above["depth"] = ANY_DEPTH
    if spec["drum"]:
        return {"drum": {"size": tier["size"]}, "tier": [above]}
    if "depth" not in spec:
        problem = Problem(
            ("depth",),
            "no depth for the tier below",
            "a depth, such as 4in: the dowels are as long as the covered tier is deep",
            "give it to --depth, or write --drum for a sheet on the drum",
        )
        raise CakeError([problem], OptionSource({}))
    return {"tier": [tier | {"depth": spec["depth"]}, above]}


@dataclass(frozen=True, slots=True)
class OneOff:
    """A command: the kinds it makes, the fields of the cake it takes, the cake they make.

    Of its kinds it makes those pieces that have the ``figure``, if one is named.
    """

    kinds: tuple[str, ...]
    tier: tuple[str, ...]
    part: tuple[str, type[Panels] | type[Drips] | type[Design]] | None = None
    fixed: tuple[tuple[str, str], ...] = ()
    more: tuple[click.Option, ...] = ()
    cake: Callable[[Data, Data], Data] = lambda tier, spec: {"tier": [tier]}
    figure: str = ""

    @property
    def part_keys(self) -> tuple[str, ...]:
        """The keys of the part of the tier that the command is for; paper is the printer's."""
        return (
            tuple(key for key in self.part[1].model_fields if key != "paper") if self.part else ()
        )


SHAPE = click.Option(
    ["--shape"],
    type=WordType(list(SHAPES), "Shape seen from above"),
    help="Shape of the tier seen from above.",
)
"""A ball has none of these templates."""
PLAN = ("shape", *(key for key in PLAN_KEYS if key != "size"))
SOLID = (*PLAN, "top_size")
"""Keys of a tier that say of what shape it is."""
WHOLE = ("size", "depth", *SOLID, "coating", "fondant", "cover", "dummy")
"""Keys that say how large its finished side is."""
ONE_OFFS = {
    "wrap": OneOff(
        ("wrap",),
        (
            "size",
            "depth",
            *SOLID,
            "coating",
            "fondant",
            "fondant_top",
            "fondant_side",
            "first",
            "trim",
            "strip",
            "dummy",
        ),
        fixed=(("cover", "panelled"),),
    ),
    "disc": OneOff(
        ("disc",),
        ("size", *PLAN, "coating", "fondant", "first", "dummy"),
        fixed=(("cover", "panelled"), ("depth", ANY_DEPTH)),
    ),
    "panels": OneOff(
        ("panel", "collar", "marking-band"), WHOLE, part=("panels", Panels), cake=_panels_cake
    ),
    "drips": OneOff(
        ("collar", "top-edge-guide"), WHOLE, part=("drips", Drips), figure="drip_count"
    ),
    "design": OneOff(("collar",), WHOLE, part=("design", Design), cake=_design_cake),
    "placement": OneOff(
        ("placement-guide",),
        ("size", "coating", "fondant", "cover", "dummy"),
        more=(
            click.Option(
                ["--above"],
                type=LengthType(),
                required=True,
                help="Width of the bare tier above. Example: 6in.",
            ),
            click.Option(
                ["--depth"],
                type=LengthType(),
                help="Depth of the bare tier below; required unless it is a drum. Example: 4in.",
            ),
            click.Option(["--drum"], is_flag=True, help="The lower size is a drum, not a tier."),
        ),
        cake=_placement_cake,
    ),
}


def _command(name: str, one: OneOff) -> click.Command:
    """Make the command of a row of the table."""
    options = [*options_for(Tier, one.tier), *one.more]
    options = [SHAPE if option.name == "shape" else option for option in options]
    if one.part:
        options += options_for(one.part[1], one.part_keys)

    def run(**given: Any) -> None:  # noqa: ANN401 (whatever the options hold)
        spec = {key: value for key, value in given.items() if value is not None}
        sizes = [spec[key].tidy for key in ("size", "above") if key in spec]
        data = {"title": f"{sizes[0]} {name}", "paper": spec["paper"], **_cake(one, spec)}
        if given["printer"]:
            data["printer"] = given["printer"]
        output = given["output"] or Path(slug(" ".join([name, *sizes])) + ".pdf")
        if given["few"] and output.suffix.lower() in ENDINGS:
            raise click.UsageError(
                f"--few lays parts of a template out on sheets, and a file that ends in"
                f" {output.suffix} has the template whole: leave out --few, or write a .pdf."
            )
        _make(one, data, output, Style.of(given["solid"], given["words"]), few_sheets=given["few"])

    return LengthCommand(
        name,
        callback=run,
        params=[UNIT, *options, *_file_options(name), *style_params()],
        help=COMMAND_HELP[name][1],
        context_settings={"help_option_names": ["-h", "--help"]},
    )


def _cake(one: OneOff, spec: Data) -> Data:
    """Return the values of a cake file from the options."""
    tier = {key: spec[key] for key in one.tier if key in spec} | dict(one.fixed)
    tier["name"] = spec["size"].tidy
    if one.part:
        tier[one.part[0]] = {key: spec[key] for key in one.part_keys if key in spec}
    return one.cake(tier, spec)


def _file_options(name: str) -> list[click.Option]:
    return [
        click.Option(
            ["--paper"],
            type=PaperType(),
            default="a4",
            show_default=True,
            help="Paper in the printer, for a PDF.",
        ),
        click.Option(
            ["--few"],
            is_flag=True,
            help="Take few sheets, as a pack does: parts to lay on folded parchment, tapes.",
        ),
        click.Option(
            ["--printer"],
            metavar="NAME",
            help="Make a PDF true to size on this measured printer (see templates-gen printer).",
        ),
        click.Option(
            ["-o", "--output"],
            type=click.Path(path_type=Path, dir_okay=False),
            callback=one_of((".pdf", *ENDINGS)),
            help="File to write: .pdf, .svg or .dxf. Default: a PDF named after command and size,"
            f" such as {name}-8-in.pdf.",
        ),
    ]


def _named(output: Path, piece: Piece) -> Path:
    return output.with_stem(f"{output.stem}-{piece.kind}")


def _make(one: OneOff, data: Data, output: Path, style: Style, *, few_sheets: bool) -> None:
    """Build the cake, keep the pieces of the command, write and report them."""
    with as_options(OptionSource(_option_names(data))) as source:
        cake = cake_from(data, source, Path())
        spare(cake, Path())
        plan = make_plan(cake)
        pieces = _wanted(one, plan.pieces)
        if few_sheets:
            pieces = [template for piece in pieces for template in few(piece, plan)]
        files = _files(plan, pieces, output, style)
    write_and_say(files)
    for tier in plan.stack.tiers:
        click.echo(plan.terms.text(_sum(tier)))
    for piece in pieces:
        click.echo(f"{piece.title}: {piece.use}")
        for label, text in value_lines(piece.values):
            echo_table(f"  {label:18} {plan.terms.text(text)}")
    echo_warnings(plan.warnings(pieces), source)
    click.echo(plain(REMINDER))


def _sum(tier: Solid) -> str:
    """Say what a tier is taken to be across, with the layers that were given or assumed."""
    layers = {"coating": tier.spec.coating_mm, "fondant": tier.spec.paste_side_mm}
    terms = [f"2 × {decimal(mm)} mm {layer}" for layer, mm in layers.items() if mm]
    across = in_both(tier.covered.foot.across)
    if abs(tier.bare.foot.across - tier.spec.size.mm) > ROUNDING:
        # a polygon is measured from flat to flat, but lies from corner to corner
        return f"{', '.join([tier.spec.size.tidy, *terms])}: covered {across} across"
    return f"{' + '.join([tier.spec.size.tidy, *terms])} = {across} across"


def _option_names(data: Data) -> dict[Key, str]:
    """Name the options behind the keys of a placement guide: its sizes are those of two things."""
    upper = len(data["tier"]) - 1
    if upper or "drum" in data:
        return {("tier", upper, "size"): "above", ("drum", "size"): "size"}
    return {}


def _wanted(one: OneOff, built: Sequence[Piece]) -> list[Piece]:
    """Return the pieces that a command is for; of several placement guides the uppermost."""
    found = {
        piece.kind: piece
        for piece in built
        if piece.kind in one.kinds and (not one.figure or one.figure in piece.values)
    }
    return list(found.values())


def _files(plan: Plan, pieces: Sequence[Piece], output: Path, style: Style) -> dict[Path, bytes]:
    """Return the one PDF with all pieces, or a file for each and for the check square."""
    ending = output.suffix.lower()
    if ending in ENDINGS:
        mark = pack_mark(plan.digest, pieces, parse_papers([plan.paper]))
        names = [output] if len(pieces) == 1 else [_named(output, piece) for piece in pieces]
        square = check_square()
        files = zip((*names, _named(output, square)), (*pieces, square), strict=True)
        return {name: piece_file(piece, mark, ending, style) for name, piece in files}
    from templates_gen.writers.pdf import write_pdf

    packs = make_packs(plan, [plan.paper], pieces, printer_named(plan.printer))
    if len(packs) == 1:
        return {output: write_pdf(packs[0])}
    return {output.with_stem(f"{output.stem}-{made.paper.name}"): write_pdf(made) for made in packs}


COMMANDS = {name: _command(name, one) for name, one in ONE_OFFS.items()}
