"""One shopping list for all: the sum of everyone's."""

from __future__ import annotations

import csv
import io
import json
import math
from itertools import groupby
from pathlib import Path

from templates_gen.terms import inches_first
from templates_gen.units import hours as in_hours
from tests.cli.command import ask

CAKE = """
title = "Regatta"
unit = "in"
[prices]
fondant = 9
[[tier]]
name = "bottom"
size = 8
depth = 4
colour = "blue"
[tier.drips]
spacing = "30 mm"
"""
SIZES = {"Ada": "6", "Ben": "8", "Cid": "10", "Dora": "8"}


def test_the_list_is_the_sum(tmp_path: Path) -> None:
    """Every amount is that of all cakes, in their unit, kinds together; packs are of the class."""
    cake, people = tmp_path / "regatta.toml", tmp_path / "class.csv"
    cake.write_text(CAKE, encoding="utf-8")
    rows = "".join(f"{name},{size}\n" for name, size in SIZES.items())
    people.write_text(f"name,bottom.size\n{rows}", encoding="utf-8")
    said = ask("class", cake, people, "--out", tmp_path / "out")
    amounts: dict[tuple[str, str], float] = {}
    hours = 0.0
    for size in SIZES.values():
        found = json.loads(ask("bench", cake, "--set", f"bottom.size={size}", "--json"))
        hours += found["hours_of_work"]
        for row in found["shopping"]:
            key = (inches_first(row["what"]), row["unit"])
            amounts[key] = amounts.get(key, 0.0) + row["quantity"]
    text = (tmp_path / "out/shopping.csv").read_text(encoding="utf-8-sig")
    listed = {(row["what"], row["unit"]): row for row in csv.DictReader(io.StringIO(text))}
    assert set(listed) == set(amounts)
    steps = {"g": 10.0, "tsp": 0.25}
    for key, amount in amounts.items():
        # rounded up to what a kitchen measures
        more = float(listed[key]["quantity"]) - amount
        assert -0.006 <= more <= steps.get(key[1], 0.006)
    kinds = [what.partition(",")[0] for what, _ in listed]
    assert [kind for kind, _ in groupby(kinds)] == list(dict.fromkeys(kinds))
    assert kinds.count("board") == kinds.count("drum") == len(set(SIZES.values()))
    fondant = listed["fondant, blue", "g"]
    least = amounts["fondant, blue", "g"] * (1 - 0.15 / 1.15 / 3)  # a third of the waste less
    packs = -(-least // 1000)
    assert fondant["packs"] == f"{packs:.0f} packs of 1 kg"
    assert float(fondant["cost"]) == 9 * packs
    assert f"{in_hours(hours)} of work together" in said


def test_a_class_shares_its_packs(tmp_path: Path) -> None:
    """Without a price they are of the sizes of the place, and few for the whole class."""
    cake, people = tmp_path / "regatta.toml", tmp_path / "class.csv"
    text = CAKE.replace("[prices]\nfondant = 9\n", "").replace("unit =", "words = 'us'\nunit =")
    cake.write_text(text, encoding="utf-8")
    people.write_text("name,bottom.size\nAda,4\nBen,4\nCid,4\n", encoding="utf-8")
    ask("class", cake, people, "--out", tmp_path / "out")
    text = (tmp_path / "out/shopping.csv").read_text(encoding="utf-8-sig")
    (fondant,) = (row for row in csv.DictReader(io.StringIO(text)) if "fondant" in row["what"])
    (alone,) = json.loads(ask("bench", cake, "--set", "bottom.size=4", "--json"))["paste_by_colour"]
    assert float(fondant["quantity"]) == math.ceil(3 * alone["mass_g"] / 10) * 10
    assert fondant["packs"] == "2 packs of 2 lb"
