"""The command figures: every dimension, as JSON of a fixed shape and as a table in both units."""

from __future__ import annotations

import json
import math
import re
import sys
from io import StringIO
from typing import Any

import pytest

from templates_gen.bench.figures import figures
from templates_gen.cakefile.shape_keys import BALL
from templates_gen.cli.reading import echo_table
from templates_gen.drawing.shapes import SHAPES
from templates_gen.resources import folder
from tests.cakes import SAMPLES, sample_plan
from tests.cli.command import TIER, ask
from tests.lengths import in_both_units

LETTERS = ("letter-", "cake-sheet")
"""What the kinds of piece of letter cakes begin with."""
NAMES = [path.stem for path in SAMPLES]
LAYER = {"across_mm", "girth_mm", "depth_mm"}
FOOT = {"foot_across_mm", "foot_girth_mm"}
"""What a tapered tier has besides."""
PIECE = {"id", "tier", "kind", "surface", "width_mm", "height_mm", "copies", "values"}
DRIPS = {"drip_count", "spacing_mm", "lengths_mm", "positions_mm"}
LETTERED = {"text", "cap_height_mm", "text_width_mm"}
VALUES = {
    "wrap": {"finished_length_mm", "depth_mm", "trim_mm"},
    "disc": {"across_mm"},
    "lining": {"lining_length_mm"},
    "gore": {"gore_count", "gore_length_mm", "gore_width_mm"},
    "cap": {"across_mm"},
    "rolling-out-circle": {"across_mm"},
    "panel": {"count", "width_mm", "left_over_mm", "per_join_mm", "closes_on_in"},
    "collar": set(),
    "marking-band": set(),
    "top-edge-guide": DRIPS,
    "design-strip": {"length_mm"},
    "top-lettering": LETTERED,
    "lettering-mirror": LETTERED,
    "letter": {"letter", "width_mm", "height_mm"},
    "scatter": {"pieces", "size_mm"},
    "letter-cake": {"letter", "count", "width_mm", "height_mm", "area_mm2", "girths_mm"},
    "letter-top": {"width_mm", "height_mm"},
    "letter-wall": {"length_mm", "height_mm", "folds_mm", "bare_girth_mm"},
    "cake-sheet": {"parts", "layers", "used_percent"},
    "letter-board": {"width_mm", "length_mm"},
    "cascade": {"pieces", "pieces_by_size", "sizes_mm", "line_length_mm"},
    "topper": {"height_mm", "width_mm", "thickness_mm"},
    "placement-guide": {"outline_across_mm", "clearance_mm"},
    "piping-sheet": {"copies_on_sheet", "rows", "motif_width_mm", "motif_height_mm"},
    "topper-sheet": {"copies_on_sheet", "rows", "motif_width_mm", "motif_height_mm"},
    "edge-paper": {"length_mm", "places"},
    "run-out": {"beyond_rim_mm", "on_top_mm", "ring_area_mm2", "sections"},
    "petals": {"flower_width_mm", "number_of_each", "lengths_mm", "widths_mm", "forms_mm"},
    "leaves": {"flower_width_mm", "number_of_each", "lengths_mm", "widths_mm", "forms_mm"},
    "board": {"across_mm", "thickness_mm"},
    "drum-ring": {"across_mm", "ring_area_mm2"},
    "scraper": {"grooves", "pitch_mm", "groove_depth_mm", "base_allowance_mm"},
    "carving-guide": {"outline_count", "across_mm"},
    "portions": {"portion_count", "edge_pieces"},
    "circle-guide": set(),
}
"""The figures that each kind of piece always has."""


def as_json(name: str) -> Any:  # noqa: ANN401 (as json has it)
    """Return what the command prints for a sample."""
    return json.loads(ask("figures", folder("samples") / f"{name}.toml", "--json"))


@pytest.mark.parametrize("name", NAMES)
def test_shape(name: str) -> None:
    """The JSON has title, tiers with three layers, and pieces with the figures of their kind."""
    found = as_json(name)
    assert found.keys() == {"title", "tiers", "pieces"}
    for tier in found["tiers"]:
        assert tier.keys() == {"name", "shape", "bare", "coated", "covered"}
        assert tier["shape"] in (*SHAPES, BALL)
        sizes = [tier[layer].keys() for layer in ("bare", "coated", "covered")]
        assert all(keys in (LAYER, LAYER | FOOT) for keys in sizes)
    tiers = {tier["name"] for tier in found["tiers"]}
    for piece in found["pieces"]:
        assert piece.keys() == PIECE
        assert piece["tier"] in tiers | {"drum", "pack"} or piece["kind"].startswith(LETTERS)
        if piece["kind"].startswith(LETTERS):
            assert piece["tier"] == f"letter cake {piece['id'].rpartition('/')[2].split('-')[2]}"
        _, _, name = piece["id"].partition("/")
        assert name == piece["kind"] or name.startswith(f"{piece['kind']}-")
        assert piece["values"].keys() >= VALUES[piece["kind"]]
    ids = [piece["id"] for piece in found["pieces"]]
    assert len(ids) == len(set(ids))


def test_every_kind() -> None:
    """The samples have every kind of piece between them."""
    kinds = {piece["kind"] for name in NAMES for piece in as_json(name)["pieces"]}
    assert kinds == VALUES.keys()


def test_drips_on_the_collar() -> None:
    """A collar with drips carries the same figures as the top-edge guide of the same drips."""
    pieces = {piece["id"]: piece["values"] for piece in as_json("harbour-wedding")["pieces"]}
    for key in DRIPS:
        assert pieces["top/collar"][key] == pieces["top/top-edge-guide"][key]
    row = pieces["top/collar"]
    assert row["drip_count"] == len(row["lengths_mm"]) == len(row["positions_mm"])
    assert row["positions_mm"] == sorted(row["positions_mm"])


@pytest.mark.parametrize("name", NAMES)
def test_same_as_the_library(name: str) -> None:
    """The command prints what the library returns, down to the last figure."""
    assert as_json(name) == json.loads(json.dumps(figures(sample_plan(name))))


class Screen(StringIO):
    """A terminal to print to."""

    def isatty(self) -> bool:
        """Say that this is a terminal."""
        return True


@pytest.mark.parametrize("width", [60, 72, 100])
def test_no_wider_than_the_screen(width: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """On a screen long lists go on in the next line, and no measure is broken in two."""
    values = [f"{number + 1 / 3} mm ({number} {number}/16 in)" for number in range(1, 16, 2)]
    table = f"a cake\n\n  positions          {', '.join(values)}\n  bare  a b     c d"
    screen = Screen()
    monkeypatch.setattr(sys, "stdout", screen)
    monkeypatch.setenv("COLUMNS", str(width))
    echo_table(table)
    lines = screen.getvalue().splitlines()
    assert len(lines) > 4
    assert max(map(len, lines)) <= width
    assert all(any(value in line for line in lines) for value in values)
    assert all(line.startswith(" " * 21) for line in lines[3:-1])
    words = table.split()
    assert screen.getvalue().split() == words


def test_wide_where_no_one_looks() -> None:
    """What goes into a file or another program keeps one line a figure."""
    table = ask("figures", folder("samples") / "lantern-birthday.toml")
    positions, *_ = [line for line in table.splitlines() if line.startswith("  positions ")]
    assert len(positions) > 200


def test_layers_in_the_table() -> None:
    """Of an 8 in tier under 5 mm of paste, girths are 638.4 and 669.8 mm, mid-paste 654.1 mm."""
    lines = "coating = '0 mm'\ncover = 'panelled'\nfondant = '5 mm'\n"
    table = ask("figures", "-", stdin=TIER + lines)
    # pi * 203.2, pi * 213.2, pi * 208.2: the sum of each mm growing the girth by 2 pi
    assert re.search(r"bare +across 8 in \(203.2 mm\) +girth \S+ in \(638.4 mm\)", table)
    assert re.search(r"covered +across .*\(213.2 mm\) +girth .*\(669.8 mm\)", table)
    assert re.search(r"finished length +25¾ in \(654.1 mm\)", table)


@pytest.mark.parametrize("name", NAMES)
def test_both_units(name: str) -> None:
    """Every length of the table is given in mm and inches, which say the same."""
    table = ask("figures", folder("samples") / f"{name}.toml")
    found = in_both_units(table)
    assert len(found) > 20
    for mm, inches in found:
        # to the nearest sixteenth of an inch, and a twentieth of a millimetre
        assert math.isclose(inches * 25.4, mm, abs_tol=25.4 / 32 + 0.05)


@pytest.mark.parametrize("name", NAMES)
def test_everything_in_the_table(name: str) -> None:
    """The table has a line for every layer, every piece and every figure of a piece."""
    table = ask("figures", folder("samples") / f"{name}.toml")
    found = as_json(name)
    count = sum(2 + len(piece["values"]) for piece in found["pieces"])
    # a tapered tier has a line for the foot of each surface too
    tapers = sum(tier["bare"].keys() >= FOOT for tier in found["tiers"])
    assert len(table.splitlines()) == 2 + 4 * len(found["tiers"]) + 3 * tapers + count
    for piece in found["pieces"]:
        assert f"\n{piece['id']}: cut {piece['copies']}, {piece['surface']}, " in table
