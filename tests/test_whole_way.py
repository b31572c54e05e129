"""Laws over everything a cake file may say."""

from __future__ import annotations

from tests.random_cakes.cakes import cake_data
from tests.random_cakes.chance import Seeded
from tests.random_cakes.keys import every_spot, spots_in


def test_random_cakes_have_every_key_and_every_word() -> None:
    """No key of the models, and no word of a choice, is left out by the random cakes."""
    every = set(every_spot())
    drawn = {spot for seed in range(1500) for spot in spots_in(cake_data(Seeded(seed)), every)}
    assert every - drawn == set()
