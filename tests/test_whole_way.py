"""Laws over everything a cake file may say, from its text to the bytes of the pack."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings

from tests.random_cakes.cakes import cake_data
from tests.random_cakes.chance import Seeded, Table
from tests.random_cakes.keys import Spot, every_spot, spots_in
from tests.strategies import values
from tests.whole_way import go

PARTS, CAKES = 4, 24
"""Workers can share the seeds in as many parts, each of as many cakes."""


@settings(max_examples=25)
@given(values())
def test_every_cake_is_made_or_refused_in_plain_words(data: Table) -> None:
    """Whatever the file says: pieces, lists, picture and sheets that keep all laws, or advice."""
    go(data)


@pytest.mark.parametrize("part", range(PARTS))
def test_most_random_cakes_are_made(part: int) -> None:
    """Of random cakes half or more can be made, of many about three in four; they keep all laws."""
    results = [go(cake_data(Seeded(part * CAKES + place))) for place in range(CAKES)]
    assert sum(result.refusal is None for result in results) >= CAKES / 2


@cache
def drawn() -> tuple[Table, ...]:
    """Return many random cakes."""
    return tuple(cake_data(Seeded(seed)) for seed in range(1500))


def missing(cakes: Iterable[Table]) -> set[Spot]:
    """Return every key, and every word of a choice, that none of some cakes has."""
    every = set(every_spot())
    return every - {spot for cake in cakes for spot in spots_in(cake, every)}


def without(value: Any, spot: Spot) -> Any:  # noqa: ANN401 (any value of a cake file)
    """Return the values of a cake file without a key, or without a word at it."""
    if isinstance(value, list):
        return [without(each, spot) for each in value]
    if not isinstance(value, dict) or spot[0] not in value:
        return value
    kept = {name: each for name, each in value.items() if name != spot[0]}
    if len(spot) == 1 or spot[1:] == (value[spot[0]],):
        return kept
    return {**kept, spot[0]: without(value[spot[0]], spot[1:])}


def test_random_cakes_have_every_key_and_every_word() -> None:
    """No key of the models, and no word of a choice, is left out by the random cakes."""
    assert missing(drawn()) == set()


@pytest.mark.parametrize(
    "spot",
    [("note",), ("drum", "ribbon"), ("tier", "scatter", "apart"), ("tier", "cover", "none")],
    ids=".".join,
)
def test_a_key_that_is_never_drawn_is_missed(spot: Spot) -> None:
    """Were one key, or one word of a choice, never drawn, the test above would name it alone."""
    assert missing(without(cake, spot) for cake in drawn()) == {spot}
