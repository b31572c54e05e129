"""The same design on other tins."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.editing import plain, saved
from templates_gen.cakefile.keys import keys_of
from templates_gen.cakefile.lengths import parse_length
from templates_gen.cakefile.reading import cake_from
from templates_gen.cakefile.resizing import COUNTS, LENGTHS, Tin, resized, tins_of
from templates_gen.cakefile.tier import Tier
from templates_gen.plan import make_plan
from tests.cakes import SAMPLES

CAKE = """
unit = "in"
[drum]
size = 14
[[tier]]
size = 10          # the large tin
depth = 5
cover = "panelled"
board = "11 in"
[tier.panels]
mould = "138 mm"
height = "40 mm"
[[tier.design]]
kind = "swags"
count = 10
top = "20 mm"
drop = 1
[[tier]]
size = "20 cm"
depth = 5
[tier.drips]
spacing = "26 mm"
shortest = "2,5 cm"
longest = "70 mm"
[[tier.lettering]]
text = "Ada"
cap_height = "30 mm"
on = "top"
level = "60 mm"
"""


def tin(text: str) -> Tin:
    """Return a tin of a size and a depth in inches."""
    return Tin(*(parse_length(part, "in") for part in text.split("x")))


def in_tins(*texts: str) -> dict[str, Any]:
    """Return the data of the cake in these tins."""
    return resized(tomllib.loads(CAKE), [tin(text) for text in texts])


@pytest.mark.parametrize("file", SAMPLES, ids=lambda path: path.stem)
def test_the_same_tins_change_nothing(file: Path) -> None:
    """Not a character of any sample."""
    text = file.read_text(encoding="utf-8")
    data = tomllib.loads(text)
    cake = cake_from(data, folder=file.parent)
    tins = [Tin(tier.size, tier.depth) for tier in cake.tier]
    assert resized(data, tins) == data
    assert saved(plain(resized(data, tins)), text) == text


def test_what_belongs_to_a_tier_keeps_its_share() -> None:
    """Twice as deep, half as wide again: levels follow the depth, counts the girth."""
    bottom, upper = in_tins("15x10", "12x10")["tier"]
    (swags,) = bottom["design"]
    assert (bottom["size"], bottom["depth"]) == (15, 10)
    assert (swags["count"], swags["top"], swags["drop"]) == (15, "40 mm", 2)
    drips = upper["drips"]
    assert (drips["shortest"], drips["longest"]) == ("5 cm", "140 mm")


def test_what_has_a_true_size_stays() -> None:
    """A mould, the spacing of drips, and what the drum and boards are wider by."""
    made = in_tins("12x6", "9x6")
    assert made["drum"]["size"] == 16
    assert made["tier"][0]["board"] == "13 in"
    assert made["tier"][0]["panels"] == {"mould": "138 mm", "height": "40 mm"}
    assert made["tier"][1]["drips"]["spacing"] == "26 mm"


def test_letters_still_fit() -> None:
    """They grow as much as the lesser of both directions, and their level on a top with it."""
    wide = 12 * 25.4 / 200
    (letters,) = in_tins("10", "12")["tier"][1]["lettering"]
    assert letters["cap_height"] == "30 mm"
    assert letters["level"] == f"{round(60 * wide, 1)} mm"
    (letters,) = in_tins("10", "5x2.5")["tier"][1]["lettering"]
    assert letters["cap_height"] == "15 mm"


def test_a_new_size_is_written_as_it_was_typed() -> None:
    """With the unit it has; in the unit of the old one as that was, a text or a bare number."""
    cake = cake_from(tomllib.loads(CAKE))
    for line, sizes in {
        "12, 25 cm": [12, "25 cm"],
        "12 in, 9 in": [12, "9 in"],
        "30 cm, 9": ["30 cm", "9 in"],
        "12½, 8 1/2 in": [12.5, "8 1/2 in"],
    }.items():
        made = resized(tomllib.loads(CAKE), tins_of(line, cake))
        assert [tier["size"] for tier in made["tier"]] == sizes
        assert [tier["depth"] for tier in made["tier"]] == [5, 5]


@pytest.mark.parametrize(
    ("drop", "size", "written"),
    [
        ("1 in", "9", "1 1/8 in"),
        ("3/8 in", "12", "9/16 in"),
        ("1/4 in", "11", "11/32 in"),
        ("1 in", "13.5", "1 11/16 in"),
        ("1 in", "7", "7/8 in"),
        ("1 1/2 in", "16", "3 in"),
        ("1 in", "8.3", "1.038 in"),
        (1.5, "9", 1.6875),
        (1, "8.3", 1.038),
        (2, "12", 3),
    ],
)
def test_inches_are_written_as_on_a_ruler(drop: object, size: str, written: object) -> None:
    """In fractions where they are exact, else in decimals that are within 0.1 mm."""
    tier = {"size": "8 in", "depth": "8 in", "design": [{"kind": "swags", "drop": drop}]}
    made = resized({"unit": "in", "tier": [tier]}, [tin(f"{size}x{size}")])
    found = made["tier"][0]["design"][0]["drop"]
    assert found == written
    true = parse_length(str(drop), "in").mm * float(size) / 8
    assert abs(parse_length(str(found), "in").mm - true) < 0.1


@pytest.mark.parametrize("zero", [0, "0", "0 mm"])
def test_nothing_stays_nothing(zero: object) -> None:
    """A length of 0 needs no unit in a cake file, and is written as it was."""
    lettering = {"text": "Ada", "sideways": zero, "cap_height": "20 mm"}
    data = {"tier": [{"size": "8 in", "depth": "4 in", "lettering": [lettering]}]}
    made = resized(data, [tin("10x5")])
    assert made["tier"][0]["lettering"][0]["sideways"] == zero


def test_comments_stay() -> None:
    """The file is the decorator's own."""
    text = saved(plain(in_tins("12x6", "9x6")), CAKE)
    assert "size = 12          # the large tin" in text


@given(st.sampled_from([5, 6, 7, 9, 12]), st.sampled_from([3, 4, 6]))
def test_repeats_close_on_every_tin(size: int, depth: int) -> None:
    """The plan can be made, and spacing times count is the girth."""
    made = in_tins(f"{size + 2}x{depth}", f"{size}x{depth}")
    made["tier"][1].pop("lettering")
    plan = make_plan(cake_from(made))
    row = plan.stack.tiers[1].drip_row
    assert row is not None
    spacing = plan.stack.tiers[1].covered.rim.girth / len(row.lengths)
    assert 26 * 0.9 < spacing < 26 * 1.1


def test_every_rule_is_for_a_key_there_is() -> None:
    """A key that is renamed takes its rule along."""
    tables = {"": Tier} | {
        info.name: info.table for info in keys_of(Tier).values() if info.table is not None
    }
    for rules in (LENGTHS, COUNTS):
        for table, keys in rules.items():
            assert set(keys) <= set(keys_of(tables[table])), table
