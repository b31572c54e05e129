"""Laws over everything a cake file may say, from its text to the bytes of the pack."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from tests.random_cakes.cakes import cake_data
from tests.random_cakes.chance import Seeded, Table
from tests.random_cakes.keys import every_spot, spots_in
from tests.strategies import values
from tests.whole_way import go

PARTS, CAKES = 4, 12
"""Workers can share the seeds in as many parts, each of as many cakes."""


@settings(max_examples=25)
@given(values())
def test_every_cake_is_made_or_refused_in_plain_words(data: Table) -> None:
    """Whatever the file says: pieces, lists, picture and sheets that keep all laws, or advice."""
    go(data)


@pytest.mark.parametrize("part", range(PARTS))
def test_most_random_cakes_are_made(part: int) -> None:
    """Of random cakes three in five or more can be made, and they keep all laws."""
    results = [go(cake_data(Seeded(part * CAKES + place))) for place in range(CAKES)]
    assert sum(result.refusal is None for result in results) >= 0.6 * CAKES


def test_random_cakes_have_every_key_and_every_word() -> None:
    """No key of the models, and no word of a choice, is left out by the random cakes."""
    every = set(every_spot())
    drawn = {spot for seed in range(1500) for spot in spots_in(cake_data(Seeded(seed)), every)}
    assert every - drawn == set()
