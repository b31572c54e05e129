"""The whole way of a cake: its file, its pieces, its lists, its picture, its sheets, its bytes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from time import process_time

from templates_gen.bench.bench_list import bench
from templates_gen.bench.figures import figures, figures_table
from templates_gen.bench.report import bench_table
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.printers import Printer
from templates_gen.cakefile.reading import cake_from, parse_cake
from templates_gen.cakefile.source import CakeText
from templates_gen.cakefile.writing import cake_text
from templates_gen.cli.picture import HEIGHT, WIDTH
from templates_gen.cover.pack import make_packs
from templates_gen.drawing.piece import Piece
from templates_gen.errors import CakeError
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.templates import templates
from templates_gen.sheets.pack import Pack
from templates_gen.views.picture import picture
from templates_gen.writers.manifest import write_manifest
from templates_gen.writers.pdf import write_pdf
from templates_gen.writers.picture import picture_svg
from templates_gen.writers.svg import write_svg
from templates_gen.writers.svg_sheet import write_sheet_svg
from tests import laws, plan_laws
from tests.random_cakes.cakes import PRINTERS
from tests.random_cakes.chance import Table
from tests.random_cakes.files import at_hand


@dataclass
class Times:
    """How long the processor took for each stage in all, s."""

    seconds: dict[str, float] = field(default_factory=lambda: defaultdict(float))

    @contextmanager
    def of(self, stage: str) -> Iterator[None]:
        """Add the time that the block takes to a stage."""
        start = process_time()
        try:
            yield
        finally:
            self.seconds[stage] += process_time() - start


@dataclass(frozen=True)
class Result:
    """What came of a cake: packs with their sheets, or the refusal."""

    packs: tuple[Pack, ...] = ()
    refusal: CakeError | None = None


def go(data: Table, times: Times | None = None) -> Result:
    """Go the whole way with the values of a cake file, and check every law on it.

    A refusal is a result; whatever else is raised is a fault.
    """
    times = times or Times()
    try:
        with times.of("file"):
            cake = read_back(data)
        with times.of("plan"):
            plan = make_plan(cake)
        with times.of("sheets"):
            packs = make_packs(plan, [plan.paper], printer=printer_of(plan))
    except CakeError as error:
        laws.says_what_to_do(error)
        return Result(refusal=error)
    with times.of("lists"):
        _lists(plan)
    with times.of("laws"):
        for plan_law in plan_laws.OF_PLANS:
            plan_law(plan)
        printed = [each for each in templates(plan) if each.printed]
        for law in laws.OF_PIECES:
            law(plan.pieces)
            law(printed)
        for pack_law in laws.OF_PACKS:
            pack_law(packs[0])
    with times.of("bytes"):
        first = _bytes(plan.pieces, packs)
        assert first == _bytes(plan.pieces, packs)
    return Result(tuple(packs))


def printer_of(plan: Plan) -> Printer | None:
    """Return what is known of the printer that a random cake names."""
    return next((each for each in PRINTERS if each.name == plan.printer), None)


def read_back(data: Table) -> Cake:
    """Return the cake of the values, written as a cake file and read back as an equal one."""
    cake = cake_from(data, folder=at_hand())
    text = cake_text(cake)
    again = parse_cake(CakeText("random.toml", text, at_hand()))
    assert again == cake
    assert cake_text(again) == text
    return again


def _lists(plan: Plan) -> None:
    """Make what the other commands show of a cake that can be made."""
    found, listed = figures(plan), bench(plan)
    laws.figures_are_finite(found)
    laws.figures_are_finite(listed)
    assert figures_table(found, plan.terms)
    assert bench_table(listed)
    for warning in plan.warnings():
        assert warning.text.strip(), warning
    block = picture(plan, WIDTH, HEIGHT)
    assert block.height <= HEIGHT + 1e-6
    assert picture_svg(plan.title, block.drawing)


def _bytes(pieces: tuple[Piece, ...], packs: list[Pack]) -> list[bytes]:
    """Return every file of a pack, and its second sheet as SVG."""
    return [
        *(write_pdf(pack) for pack in packs),
        *(write_manifest(pack) for pack in packs),
        *(write_svg(piece) for piece in pieces if piece.printed),
        *(write_sheet_svg(packs[0], sheet) for sheet in packs[0].sheets[1:2]),
    ]
