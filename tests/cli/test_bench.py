"""The command bench: the bench list as JSON of a fixed shape and as a table, and the calendar."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest
import vobject

from templates_gen.bench.amounts import to_weigh
from templates_gen.bench.bench_list import bench
from templates_gen.plan import make_plan
from templates_gen.resources import folder
from templates_gen.terms import inches_first
from tests.cakes import SAMPLES, cake, sample_plan
from tests.cli.command import TIER, ask, call
from tests.lengths import in_both_units

NAMES = [path.stem for path in SAMPLES]


def as_json(name: str) -> Any:  # noqa: ANN401 (as json has it)
    """Return what the command prints for a sample."""
    return json.loads(ask("bench", folder("samples") / f"{name}.toml", "--json"))


@pytest.mark.parametrize("name", NAMES)
def test_shape(name: str) -> None:
    """The JSON has what is promised of it."""
    found = as_json(name)
    assert found.keys() >= {"pieces", "paste", "dowels", "ribbons", "times"}
    for each in found["paste"]:
        assert each.keys() >= {"tier", "colour", "mass_g", "offcuts_g"}
    for each in found["dowels"]:
        assert each.keys() >= {"tier", "count", "length_mm", "positions_mm"}
        assert each["count"] == len(each["positions_mm"])
    for each in found["pieces"] + found["ribbons"]:
        assert each.keys() == {"kind", "what", "tier", "number", "sizes_mm", "size", "from"}
    assert found == json.loads(json.dumps(bench(sample_plan(name))))


@pytest.mark.parametrize("name", NAMES)
def test_sizes_in_both_units(name: str) -> None:
    """What is cut has its size in mm and in inches to a ruler's mark, which say the same.

    Of what is sold by its thickness or width the inches are to the nearest eighth.
    """
    for each in as_json(name)["pieces"]:
        found = in_both_units(each["size"])
        is_sold = each["what"].startswith(("dowel", "ribbon", "pillar"))
        near = 25.4 / (16 if is_sold else 32) + 0.001
        assert len(found) == len(each["sizes_mm"])
        for (mm, inches), size in zip(found, each["sizes_mm"], strict=True):
            assert math.isclose(mm, size, abs_tol=0.051)
            assert math.isclose(inches * 25.4, size, abs_tol=near)


def test_boards_ribbons_and_dowels() -> None:
    """Boards have the bare size, a ribbon goes round and 15 mm on, dowels come by the tier.

    Common practice, no source: pi x 14 in + 15 mm = 1132.1 mm.
    """
    text = (
        "through_dowel = true\n[drum]\nsize = '14 in'\nribbon = '15 mm'\n[[tier]]\nname = 'a'\n"
        "size = '10 in'\ndepth = '4 in'\ncover='none'\ncoating='0 mm'\nribbon = '10 mm'\n"
        "[[tier]]\nsize = '6 in'\ndepth = '4 in'\ncover='none'\ncoating='0 mm'\n"
    )
    found = bench(make_plan(cake(text)))
    drum, tier = found["ribbons"]
    assert drum["sizes_mm"] == pytest.approx([1132.15, 15], abs=0.01)
    assert tier["sizes_mm"] == pytest.approx([math.pi * 254 + 15, 10])
    cut = {(each["what"], each["tier"]): each for each in found["pieces"]}
    assert cut["board, 3 mm (⅛ in) thick", "a"]["sizes_mm"] == pytest.approx([254])
    assert cut["dowel", "a"]["number"] == 3
    assert cut["dowel", "a"]["sizes_mm"] == pytest.approx([101.6, 12])
    # through both tiers and their boards, 8 mm into the drum, and 20 mm short of the top
    assert cut["dowel through all tiers", "drum"]["sizes_mm"][0] == pytest.approx(197.2, abs=0.01)


def is_said(text: str, table: str) -> bool:
    """Tell whether a table has a text, with its lengths in either unit first."""
    return text in table or inches_first(text) in table


@pytest.mark.parametrize("name", NAMES)
def test_table(name: str) -> None:
    """The table says all that is cut, weighed and done, in words."""
    table = ask("bench", folder("samples") / f"{name}.toml")
    found = as_json(name)
    for each in found["pieces"]:
        assert is_said(each["size"], table)
    for each in found["paste"]:
        assert to_weigh(each["mass_g"]) in table
    for each in found["times"]:
        assert is_said(each["what"], table)
    assert ("structural advice" in table) == bool(found["dowels"])


def test_calendar(tmp_path: Path) -> None:
    """With a day the order of work is written as a calendar too."""
    file = tmp_path / "work.ics"
    text = f"{TIER}[work]\nready = 2027-06-19 14:00:00\n"
    ask("bench", "-", "--calendar", file, stdin=text)
    read = vobject.readOne(file.read_text(encoding="utf-8"))
    assert len(read.contents["vevent"]) > 3


def test_calendar_without_a_day(tmp_path: Path) -> None:
    """Without a day there is no calendar; the message says what to write."""
    file = tmp_path / "work.ics"
    done = call("bench", "-", "--calendar", file, stdin=TIER)
    assert done.exit_code == 1
    assert "ready = 2027-06-19" in done.stderr
    assert not file.exists()
