"""The benchmark: ``python -m tests.benchmark`` prints what a pack costs, and never fails on time.

Whole processes are timed, in turn with the process they are held against, after one run of each
that is not counted. What the floor of a pack does is described in ``benchmark_floor.py``.
"""

from __future__ import annotations

import json
import math
import os
import pickle
import re
import subprocess
import sys
import sysconfig
import time
from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager, nullcontext, redirect_stdout
from dataclasses import dataclass
from io import StringIO
from itertools import pairwise
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any
from unittest.mock import patch

import pypdfium2

from templates_gen.cover.pack import make_pack
from templates_gen.plan import make_plan
from tests.benchmark_floor import FIRST, Call

RUNS = 7
TOWERS, TOWER_RUNS = (3, 10, 30), 3
SLOWEST = 1.5
"""How many times its floor a pack may take, and how many times an empty program ``--help``."""
MIXED_RUNS, MIXED_SLOWEST = 3, 2.0
"""How many times as long a sheet of many shapes may take as one of round tiers."""
NOISE = 1.1
"""How much the same work may differ between two measures on a busy machine."""
PEOPLE, CLASS_RUNS, MOST_FOR_ALL = 30, 2, 10.0
"""A class, and how many times as long as one pack all of its packs may take on two cores."""
MOST_MEMORY, MOST_PDF = 90e6, 400e3
"""Bytes."""

ROOT = Path(__file__).parent.parent
WEDDING = ROOT / "samples" / "harbour-wedding.toml"
MIXED = ROOT / "samples" / "midsummer-tower.toml"
DESIGN = ROOT / "samples" / "starter.toml"
FLOOR = ROOT / "tests" / "benchmark_floor.py"
SCRIPT = Path(sysconfig.get_path("scripts")) / "templates-gen"

MODULES = """
import sys
at_start = set(sys.modules)
from templates_gen.cli import main
main(sys.argv[1:], standalone_mode=False)
own = {"templates_gen", *sys.stdlib_module_names}
found = [name for name in sys.modules if name not in at_start and name.split(".")[0] not in own]
print(*[name for name in found if sys.modules[name].__spec__])
"""
"""Run our command; print, on the last line, the third-party modules it imported, in order."""

PEAK = """
import resource, subprocess, sys
subprocess.run(sys.argv[1:], check=True, stdout=subprocess.DEVNULL)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
"""
"""Run a command; print its peak memory. In a small process: that of its parent counts as well."""

EMPTY = '''
import click

@click.group()
def main():
    """Do nothing."""

@main.command()
def nothing():
    """Do nothing."""

run = main
'''
"""The program that ``--help`` is held against."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One line of the benchmark. Without a target it is only printed."""

    name: str
    value: float
    target: float | None = None
    unit: str = ""

    def __str__(self) -> str:
        if self.target is None:
            most, verdict = "no target", ""
        else:
            most = f"at most {self.target:g}{self.unit}"
            verdict = "ok" if self.value <= self.target else "MISSED"
        return f"{self.name:70} {self.value:8.2f}{self.unit:3}  {most:14} {verdict}".rstrip()


def measures(folder: Path) -> Iterator[Measure]:
    """Yield every measure, made in ``folder``."""
    yield from pack_measures(WEDDING, folder)
    yield from mixed_measures(folder)
    yield from help_measures(folder)
    yield from growth_measures(folder)
    yield from class_measures(folder)
    yield from sheet_measures(sorted(WEDDING.parent.glob("*.toml")))


def pages(file: Path) -> list[bytes]:
    """Return every page of a PDF as pixels of a third of a millimetre."""
    return [page.render(scale=1).to_numpy().tobytes() for page in pypdfium2.PdfDocument(file)]


def pack_measures(cake: Path, folder: Path) -> Iterator[Measure]:
    """Hold the pack of a cake against its floor in time, and against bounds in memory and size."""
    replayed, command = floor(cake, folder), ours(*pack(cake, folder))
    yield from ratios("pack", "floor", *in_turn(RUNS, command, replayed))
    (made,) = set(folder.glob("*.pdf")) - {Path(replayed[-1])}
    differs = pages(made) != pages(Path(replayed[-1]))
    yield Measure("PDF of the floor differs from that of the pack (0 no, 1 yes)", differs, 0)
    yield Measure("pack: peak memory", peak(command) / 1e6, MOST_MEMORY / 1e6, " MB")
    yield Measure("pack: size of the PDF", made.stat().st_size / 1e3, MOST_PDF / 1e3, " kB")


def mixed_measures(folder: Path) -> Iterator[Measure]:
    """Hold the time a sheet takes for a cake of many shapes against that for round tiers."""
    commands, sheets = [], []
    for cake in (MIXED, WEDDING):
        place = folder / cake.stem
        place.mkdir()
        commands.append(ours(*pack(cake, place)))
        seconds(commands[-1])
        sheets.append(sheet_count(place))
    times = [min(runs) for runs in in_turn(MIXED_RUNS, *commands)]
    mixed, even = (1000 * taken / count for taken, count in zip(times, sheets, strict=True))
    shown = f"a sheet of {MIXED.stem} {mixed:.0f} ms over one of {WEDDING.stem} {even:.0f} ms"
    yield Measure(shown, mixed / even, MIXED_SLOWEST, " x")


def class_measures(folder: Path) -> Iterator[Measure]:
    """Hold the packs of a class, no two of one size, against one pack of the same design."""
    people = folder / "class.csv"
    rows = [f"P{number},{8 + number / 10:g} in" for number in range(PEOPLE)]
    people.write_text("\n".join(["name,bottom.size", *rows]))
    whole = ours("class", str(DESIGN), str(people), "--out", str(folder / "class"))
    one = ours(*pack(DESIGN, folder / "one"))
    many, single = (min(runs) for runs in in_turn(CLASS_RUNS, whole, one))
    shown = f"{PEOPLE} people {many:.1f} s over one pack {single:.2f} s, {os.cpu_count()} cores"
    yield Measure(shown, many / single, MOST_FOR_ALL, " x")


def help_measures(folder: Path) -> Iterator[Measure]:
    """Hold the start of the program against that of an empty one."""
    times = in_turn(RUNS, ours("--help"), [*empty_program(folder), "--help"])
    yield from ratios("--help", "empty program", *times)


def growth_measures(folder: Path) -> Iterator[Measure]:
    """Hold the growth of time against the growth of sheets, from few tiers to many.

    The start of the process hides growth, so the time of each further sheet is compared as well.
    """
    commands = []
    for tiers in TOWERS:
        cake = folder / f"{tiers}.toml"
        cake.write_text(tower(tiers))
        commands.append(ours(*pack(cake, folder / str(tiers))))
    times = [min(runs) for runs in in_turn(TOWER_RUNS, *commands)]
    sheets = [sheet_count(folder / str(tiers)) for tiers in TOWERS]
    for tiers, taken, count in zip(TOWERS, times, sheets, strict=True):
        shown = f"{tiers} tiers: {taken:.2f} s, {count} sheets, so a sheet takes"
        yield Measure(shown, 1000 * taken / count, unit=" ms")
    steps = list(zip(pairwise(TOWERS), pairwise(times), pairwise(sheets), strict=True))
    for (few, many), (short, long), (thin, thick) in steps:
        time_grown, sheets_grown = long / short, thick / thin
        shown = (
            f"{few} to {many} tiers: growth of time {time_grown:.2f} over sheets {sheets_grown:.2f}"
        )
        yield Measure(shown, time_grown / sheets_grown, 1.0, " x")
    early, *_, late = [(long - short) / (thick - thin) for _, (short, long), (thin, thick) in steps]
    shown = f"a further sheet: late {1000 * late:.1f} ms over early {1000 * early:.1f} ms"
    yield Measure(shown, late / early, NOISE, " x")


def sheet_measures(cakes: Sequence[Path]) -> Iterator[Measure]:
    """Hold the sheets of each cake, on both papers, against two bounds; covers are apart.

    One is the area of what is printed of its pieces over the field of a sheet. No packing comes
    near it: pieces that are not rectangles, what is shown twice where parts overlap, and captions
    take paper too. The other is the whole sheets that the rectangles of all windows fill, each with
    its caption and the gap round it, packed without a loss.
    """
    from templates_gen import PAPERS, read_cake
    from templates_gen.geometry.areas.booleans import region
    from templates_gen.printing.templates import templates
    from templates_gen.sheets.frame import frame_for
    from templates_gen.sheets.lattice import GAP
    from templates_gen.sheets.layout import arranged

    for file in cakes:
        plan = make_plan(read_cake(file))
        printed = [piece for piece in templates(plan) if piece.printed]
        area = sum(region(piece.outline).area for piece in printed)
        for name in ("a4", "letter"):
            field = frame_for(PAPERS[name], (), plan.margins).field
            sheets = make_pack(plan, PAPERS[name]).sheets
            used = sum(bool(sheet.windows) for sheet in sheets)
            bound = area / (field.width * field.height)
            shown = (
                f"{file.stem}, {name}: {used} sheets of pieces and {len(sheets) - used} of cover"
                f" over {bound:.2f} of area"
            )
            yield Measure(shown, used / bound, unit=" x")
            windows = (cell.size for _, cell in arranged(printed, field).windows)
            room = (field.width + GAP) * (field.height + GAP)
            full = sum(width * height for width, height in windows) / room
            shown = f"{file.stem}, {name}: {used} sheets over {full:.2f} of windows with captions"
            yield Measure(shown, used / math.ceil(full - 1e-9), unit=" x")


def ours(*arguments: str) -> list[str]:
    """Return the command that runs the installed console script."""
    return [sys.executable, str(SCRIPT), *arguments]


def pack(cake: Path, folder: Path) -> list[str]:
    """Return the arguments that make the pack of a cake file, in its default format."""
    return ["pack", str(cake), "--out", str(folder)]


def floor(cake: Path, folder: Path) -> list[str]:
    """Return the command that draws the pack of a cake file again, into its last argument."""
    recording = folder / "recording"
    recording.write_bytes(pickle.dumps((modules(cake, folder), *record(cake, folder))))
    return [sys.executable, str(FLOOR), str(recording), str(folder / "floor.pdf")]


def modules(cake: Path, folder: Path) -> list[str]:
    """Return the third-party modules that the pack process imports, in order."""
    command = [sys.executable, "-c", MODULES, *pack(cake, folder)]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    return done.stdout.splitlines()[-1].split()


class Recorder:
    """Stands before an object of reportlab: passes each call on, and writes it down."""

    def __init__(self, real: Any, number: int, calls: list[Call]) -> None:  # noqa: ANN401 (any)
        self._real, self._number, self._calls = real, number, calls

    def __getattr__(self, name: str) -> Any:  # noqa: ANN401 (whatever reportlab has)
        value = getattr(self._real, name)
        if not callable(value):
            return value

        def call(*args: Any, **named: Any) -> Any:  # noqa: ANN401
            given, real = None, args
            # a path or a text to draw is always the first argument
            if args and isinstance(args[0], Recorder):
                given, args = args[0]._number, args[1:]
                real = (real[0]._real, *args)
            number = FIRST + len(self._calls)
            self._calls.append((self._number, name, given, args, named))
            result = value(*real, **named)
            drawn = type(result).__module__.startswith("reportlab.")
            return Recorder(result, number, self._calls) if drawn else result

        return call


class NoLayers:
    """Stands in for the layers of a PDF, which reach into reportlab: the floor draws on none."""

    def __init__(self, canvas: Any, names: list[str]) -> None:  # noqa: ANN401 (a Recorder)
        self._canvas = canvas

    def on(self, name: str) -> AbstractContextManager[None]:
        """Draw on."""
        return nullcontext()

    def resources(self, forms: object = None) -> None:
        """Leave it to reportlab what a form draws with."""

    def show_page(self) -> None:
        """End a page."""
        self._canvas.showPage()


def record(cake: Path, folder: Path) -> tuple[dict[str, str], list[Call]]:
    """Make a pack in ``folder``; return the files of its fonts by face, and its calls.

    Layers and metadata are not among them: they are no part of the floor.
    """
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen import canvas

    from templates_gen.cli import main
    from templates_gen.writers import pdf

    calls: list[Call] = []

    def recorded(file: Any, *args: Any, **named: Any) -> Any:  # noqa: ANN401 (as Canvas itself)
        return Recorder(canvas, 0, calls).Canvas(Recorder(file, 1, calls), *args, **named)

    with (
        redirect_stdout(StringIO()),
        patch.object(pdf, "Canvas", recorded),
        patch.object(pdf, "Layers", NoLayers),
        patch.object(pdf, "add_metadata", lambda *_, **__: None),
    ):
        main(pack(cake, folder), standalone_mode=False)
    fonts = map(pdfmetrics.getFont, pdfmetrics.getRegisteredFontNames())
    return {font.fontName: font.face.filename for font in fonts if isinstance(font, TTFont)}, calls


def empty_program(folder: Path) -> list[str]:
    """Return the command that starts an empty program as the console script starts ours."""
    (folder / "empty_program.py").write_text(EMPTY)
    script = folder / "empty"
    script.write_text(re.sub(r"templates_gen\.\w+", "empty_program", SCRIPT.read_text()))
    return [sys.executable, str(script)]


def tower(tiers: int) -> str:
    """Return the cake file of thin tiers of one size, of four makes in turn."""
    makes = (
        "cover = 'panelled'",
        "cover = 'drape'\n[tier.drips]\nshortest = 15\nlongest = 20",
        "cover = 'panelled'\nfirst = 'side'\n[tier.panels]\ncount = 6",
        "cover = 'drape'",
    )
    one = "[[tier]]\nsize = 150\ndepth = 25\nfondant = 4\n"
    stack = [f"{one}{makes[place % len(makes)]}\n" for place in range(tiers)]
    return "title = 'Tower'\nunit = 'mm'\n" + "".join(stack)


def sheet_count(folder: Path) -> int:
    """Return how many sheets the manifest in ``folder`` lists."""
    (manifest,) = folder.glob("*.json")
    return len(json.loads(manifest.read_bytes())["sheets"])


def in_turn(runs: int, *commands: Sequence[str]) -> list[list[float]]:
    """Return the seconds of several runs of each command, taken in turn."""
    rounds = [[seconds(command) for command in commands] for _ in range(runs + 1)]
    return [list(times) for times in zip(*rounds[1:], strict=True)]


def seconds(command: Sequence[str]) -> float:
    """Return how long a process takes."""
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def ratios(name: str, base: str, times: list[float], least: list[float]) -> Iterator[Measure]:
    """Compare two commands by the fastest and by the middle one of their runs."""
    for word, pick in (("minimum", min), ("median", median)):
        mine, theirs = pick(times), pick(least)
        shown = f"{name} {mine:.3f} s over {base} {theirs:.3f} s, {word} of {len(times)}"
        yield Measure(shown, mine / theirs, SLOWEST, " x")


def peak(command: Sequence[str]) -> float:
    """Return the most memory a process held, in bytes."""
    done = subprocess.run([sys.executable, "-c", PEAK, *command], check=True, capture_output=True)
    return int(done.stdout) * (1 if sys.platform == "darwin" else 1024)


def main() -> None:
    """Print every measure as it is made."""
    with TemporaryDirectory() as folder:
        # processes find their modules compiled, as an installed program does
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        os.environ["PYTHONPYCACHEPREFIX"] = str(Path(folder) / "compiled")
        for measure in measures(Path(folder)):
            print(measure, flush=True)


if __name__ == "__main__":
    main()
