"""Values set beside a cake file."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel

from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.overrides import Override, overridden, parse_override, tier_names
from templates_gen.cakefile.reading import cake_from
from templates_gen.errors import CakeError, Key
from tests.cakes import SAMPLES

TEXT = """
title = "Regatta"
unit = "in"
[drum]
size = 14
[[tier]]
name = "bottom"
size = 10
depth = 5
[[tier.design]]
kind = "pearls"
[[tier.design]]
kind = "swags"
[[tier]]
size = 8
depth = 5
[[tier]]
name = "top.left"
size = 6
depth = 4
"""


def made(*texts: str) -> dict[str, Any]:
    """Return the data of the file with values set."""
    return overridden(tomllib.loads(TEXT), [parse_override(text) for text in texts])[0]


@pytest.mark.parametrize(
    ("text", "key", "value"),
    [
        ("bottom.size=9 in", ("tier", 0, "size"), "9 in"),
        ('bottom.size="9 in"', ("tier", 0, "size"), "9 in"),
        ("Bottom.size = 9", ("tier", 0, "size"), 9),
        ("tier.1.size=9.5", ("tier", 0, "size"), 9.5),
        ("1.size=9", ("tier", 0, "size"), 9),
        ("tier 2.size=9", ("tier", 1, "size"), 9),
        ("2.size=9", ("tier", 1, "size"), 9),
        ('"tier 2".size=9', ("tier", 1, "size"), 9),
        ("Tier 1.size=9", ("tier", 0, "size"), 9),
        ("'bottom'.size=9", ("tier", 0, "size"), 9),
        ('"top.left".size=5 in', ("tier", 2, "size"), "5 in"),
        ("top.left.size=5 in", ("tier", 2, "size"), "5 in"),
        ("bottom.design.2.kind=waves", ("tier", 0, "design", 1, "kind"), "waves"),
        ("top.left.drips.spacing=30 mm", ("tier", 2, "drips", "spacing"), "30 mm"),
        ("bottom.dummy=true", ("tier", 0, "dummy"), True),
        ("drum.size=16", ("drum", "size"), 16),
        ("title=Anna = Ben", ("title",), "Anna = Ben"),
        ("title=2026", ("title",), "2026"),
        ("title=1.50", ("title",), "1.50"),
        ("estimates.waste=15", ("estimates", "waste"), 15),
    ],
)
def test_a_name_stands_for_a_key(text: str, key: Key, value: object) -> None:
    """A tier is known by its name or number, entries of a list by their number."""
    data, keys = overridden(tomllib.loads(TEXT), [parse_override(text)])
    assert keys == [key]
    found: Any = data
    for part in key:
        found = found[part]
    assert found == value
    assert type(found) is type(value)


def test_an_empty_value_takes_the_key_away() -> None:
    """What the file says is then as if it were not written, and an absent key stays absent."""
    assert "size" not in made("bottom.size=", "drum.ribbon=")["tier"][0]
    assert "size" not in made('"tier 1".size=')["tier"][0]


def test_the_later_of_two_values_holds() -> None:
    """Options count in their order."""
    assert made("bottom.size=9", "bottom.size=7")["tier"][0]["size"] == 7


def test_another_unit_changes_no_length_of_the_file() -> None:
    """Bare numbers stay what they were; those set after the unit are in it."""
    cake = cake_from(made("unit=cm", "bottom.size=25"))
    assert cake.unit == "cm"
    assert [tier.size.mm for tier in cake.tier] == [250, 203.2, 152.4]
    assert cake.tier[0].depth.mm == 127


def _millimetres(value: object) -> object:
    """Return values of a cake with each length as a number."""
    if isinstance(value, BaseModel):
        return {name: _millimetres(each) for name, each in value if name != "unit"}
    if isinstance(value, tuple):
        return [_millimetres(each) for each in value]
    return value.mm if isinstance(value, Length) else value


@pytest.mark.parametrize("file", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
def test_the_samples_are_the_same_in_every_unit(file: Path, unit: str) -> None:
    """Each number of a file that is a length is known as one, in lists and tables too."""
    data = tomllib.loads(file.read_text(encoding="utf-8"))
    other = overridden(data, [Override("unit", unit)])[0]
    assert _millimetres(cake_from(other, folder=file.parent)) == _millimetres(
        cake_from(data, folder=file.parent)
    )


def test_the_data_of_the_file_stays() -> None:
    """A file that is read once serves many sets of values."""
    data = tomllib.loads(TEXT)
    overridden(data, [Override("bottom.size", "7"), Override("bottom.drips.spacing", "3 cm")])
    assert data == tomllib.loads(TEXT)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("botom.size=9", "did you mean “bottom”"),
        ("bottom size=9", "did you mean “bottom.size”"),
        ("Top.Left_max size=9", "did you mean “top.left.max_size”"),
        ("tier 4.size=9", "“tier 4” is neither a tier nor a key"),
        ('"tier 4".size=9', "“tier 4” is neither a tier nor a key"),
        ("papr=a4", "did you mean “paper”"),
        ("tier.4.size=9", "1 to 3"),
        ("9.size=9", "neither a tier nor a key"),
        ("bottom.design.3.kind=waves", "1 to 2"),
        ("bottom.drips.2.width=9", "number 3|no table|“drips”"),
        ("title.size=9", "no table"),
        ("bottom=9", "write for example bottom.size"),
        ("bottom.design.kind=waves", "write for example bottom.design.1.kind"),
        ("bottom.size.more=9", "no table"),
    ],
)
def test_a_name_that_the_cake_lacks_is_refused(text: str, word: str) -> None:
    """The message says which, and what there is."""
    with pytest.raises(CakeError, match=word) as caught:
        made(text)
    assert caught.value.problems[0].key == (text.partition("=")[0],)


def test_a_number_is_left_out_where_there_is_one() -> None:
    """Of one lettering, and of one tier too; of several tiers the example is one to write."""
    named = "[[tier]]\nsize = '6 in'\ndepth = '4 in'\n[[tier.lettering]]\ntext = 'Ada'\n"
    data = tomllib.loads(named)
    for name in ("tier 1.lettering.1.text", "tier 1.lettering.text", "lettering.text"):
        found, keys = overridden(data, [Override(name, "Zoe")])
        assert keys == [("tier", 0, "lettering", 0, "text")]
        assert found["tier"][0]["lettering"] == [{"text": "Zoe"}]
    two = tomllib.loads(named * 2)
    with pytest.raises(CakeError) as caught:
        overridden(two, [Override("lettering.text", "Zoe")])
    name = caught.value.problems[0].advice.removeprefix("of which tier? Write for example ")
    assert overridden(two, [Override(name, "Zoe")])[0]["tier"][0]["lettering"][0]["text"] == "Zoe"


def test_a_cake_of_letters_alone_has_advice_of_its_own() -> None:
    """No tier is spoken of where there is none, and what the message says to write is a key."""
    letters = tomllib.loads("[[letter_cake]]\ntext = '1'\n")
    with pytest.raises(CakeError) as caught:
        overridden(letters, [Override("1.size", "9 in")])
    (problem,) = caught.value.problems
    assert "()" not in problem.allowed
    name = problem.advice.removeprefix("write for example ")
    overridden(letters, [Override(name, "9 in")])


@pytest.mark.parametrize("text", ["", "bottom.size", "=9", "  =9"])
def test_a_text_without_name_or_sign_is_refused(text: str) -> None:
    """NAME=VALUE is needed."""
    with pytest.raises(ValueError, match="NAME=VALUE"):
        parse_override(text)


@given(st.text(max_size=30), st.text(max_size=30))
def test_any_text_is_set_or_refused(name: str, value: str) -> None:
    """Nothing typed ends in an error of another kind."""
    found: list[Key] = []
    try:
        found += overridden(tomllib.loads(TEXT), [Override(name, value)])[1]
    except CakeError as error:
        found += [problem.key for problem in error.problems]
    assert len(found) == 1


def test_tiers_without_a_name_have_their_number() -> None:
    """Data that is wrong has names too, as far as it goes."""
    assert tier_names(tomllib.loads(TEXT)) == ["bottom", "tier 2", "top.left"]
    assert tier_names({"tier": [{"name": 7}, 3]}) == ["tier 1", "tier 2"]
    assert tier_names({"tier": "none"}) == []
