"""From a cake back to its file: what is written reads back as the same cake."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.reading import cake_from, read_cake
from templates_gen.cakefile.writing import cake_text
from templates_gen.drawing.fonts import missing_glyphs
from tests.cakes import SAMPLES, cake
from tests.strategies import any_cakes

PRINTED = st.characters().filter(lambda char: char.isprintable() and not missing_glyphs(char))
WORDS = st.text(PRINTED, min_size=1, max_size=60).filter(lambda text: text.strip() != "")


def assert_same(found: Cake, spec: Cake) -> None:
    """Check that two cakes are equal, down to the text of each length and to what was left out."""
    assert found == spec
    assert found.model_fields_set == spec.model_fields_set
    for one, other in zip(found.tier, spec.tier, strict=True):
        assert one.model_fields_set == other.model_fields_set
        assert one.size.text == other.size.text


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: str(path.stem))
def test_sample(path: Path) -> None:
    """Every sample, read, written and read again, is the same cake."""
    spec = read_cake(path)
    assert_same(cake(cake_text(spec)), spec)


@given(WORDS, WORDS)
def test_words(title: str, note: str) -> None:
    """Any title and note that can be printed survive, quotes and backslashes too."""
    spec = cake_from({"title": title, "note": note, "tier": [{"size": "8 in", "depth": "4 in"}]})
    assert spec.title == title.strip()
    assert_same(cake(cake_text(spec)), spec)


@given(any_cakes())
def test_no_more_than_asked(spec: Cake) -> None:
    """A cake file holds the keys that were given, and no defaults."""
    written = tomllib.loads(cake_text(spec))
    assert written.keys() == spec.model_fields_set
    for table, tier in zip(written.get("tier", ()), spec.tier, strict=True):
        assert table.keys() == tier.model_fields_set


def test_bare_numbers() -> None:
    """Numbers in the unit of the file are written with that unit, and mean the same."""
    spec = cake("unit = 'in'\n[[tier]]\nsize = 8\ndepth = '4 1/2'\n")
    assert 'size = "8 in"' in cake_text(spec)
    assert_same(cake(cake_text(spec)), spec)
