"""The benchmark measures what it says; nothing here is timed."""

from __future__ import annotations

import pickle
import subprocess
import sys
from pathlib import Path

import pytest

from tests import benchmark
from tests.benchmark import Measure
from tests.cakes import cake, pieces_of

TINY = "[[tier]]\nsize = '4 in'\ndepth = '2 in'\n"


@pytest.fixture(scope="module")
def tiny(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write a cake file of one small tier, in a folder of its own."""
    file = tmp_path_factory.mktemp("tiny") / "tiny.toml"
    file.write_text(TINY)
    return file


def test_floor_draws_the_same_pdf(tiny: Path) -> None:
    """The floor replays the whole drawing: every page is as the pack's; one path less differs."""
    command = benchmark.floor(tiny, tiny.parent)
    benchmark.seconds(benchmark.ours(*benchmark.pack(tiny, tiny.parent)))
    benchmark.seconds(command)
    (made,) = set(tiny.parent.glob("*.pdf")) - {Path(command[-1])}
    floor = Path(command[-1])
    assert benchmark.pages(floor) == benchmark.pages(made)
    _leave_one_out(Path(command[-2]))
    benchmark.seconds(command)
    assert benchmark.pages(floor) != benchmark.pages(made)


def _leave_one_out(recording: Path) -> None:
    """Take the last path that was drawn out of a recording."""
    modules, fonts, calls = pickle.loads(recording.read_bytes())
    index = max(index for index, call in enumerate(calls) if call[1] == "drawPath")
    # another call in its index, as later calls go by their number
    calls[index] = (*calls[index][:1], "saveState", None, (), {})
    recording.write_bytes(pickle.dumps((modules, fonts, calls)))


def test_floor_imports_the_libraries_of_the_pack_and_nothing_of_ours(tiny: Path) -> None:
    """The floor starts from third-party modules alone, and from all that a pack needs."""
    found = {name.partition(".")[0] for name in benchmark.modules(tiny, tiny.parent)}
    assert {"click", "fontTools", "numpy", "pydantic", "reportlab", "shapely", "svgwrite"} <= found
    assert not found & {"templates_gen", "tests", *sys.stdlib_module_names}


def test_empty_program_starts(tmp_path: Path) -> None:
    """The program that ``--help`` is held against starts, and has one command."""
    command = [*benchmark.empty_program(tmp_path), "--help"]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    assert "nothing" in done.stdout
    assert "templates" not in done.stdout


@pytest.mark.parametrize("tiers", [1, 4, 9])
def test_tower_is_a_cake(tiers: int) -> None:
    """A tower has the tiers asked for, and each gives pieces."""
    made = cake(benchmark.tower(tiers))
    names = {piece.tier for piece in pieces_of(made) if piece.tier not in ("drum", "pack")}
    assert len(made.tier) == len(names) == tiers


def test_sheets_are_at_least_what_the_area_takes(tiny: Path) -> None:
    """No pack takes fewer sheets than the area of its pieces, nor than that of its windows."""
    measures = list(benchmark.sheet_measures([tiny]))
    assert all(measure.value >= 1 for measure in measures)
    named = [measure.name.split(":")[0] for measure in measures]
    assert named == ["tiny, a4", "tiny, a4", "tiny, letter", "tiny, letter"]


def test_peak_memory_is_that_of_the_process() -> None:
    """A process that holds 100 MB more is measured as larger by that, not by its parent's size."""
    held = [
        benchmark.peak([sys.executable, "-c", f"x = bytearray(b'x') * {size}"])
        for size in (1, 100_000_000)
    ]
    assert held[1] - held[0] == pytest.approx(1e8, rel=0.05)


@pytest.mark.parametrize(
    ("value", "target", "verdict"), [(1.5, 1.5, "ok"), (1.51, 1.5, "MISSED"), (9.0, None, "target")]
)
def test_line_tells_whether_a_target_is_met(
    value: float, target: float | None, verdict: str
) -> None:
    """A line ends with ok up to its target and with MISSED beyond it."""
    line = str(Measure("the name", value, target))
    assert line.startswith("the name")
    assert line.endswith(verdict)


def test_times_are_compared_by_minimum_and_median() -> None:
    """One slow run changes neither figure."""
    smallest, middle = benchmark.ratios("one", "other", [3.0, 2.0, 99.0], [1.0, 1.0, 4.0])
    assert (smallest.value, middle.value) == (2.0, 3.0)
