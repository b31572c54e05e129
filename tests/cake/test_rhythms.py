"""Rhythms of drips: a share for each, between shortest and longest, that closes round the tier."""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cake.rhythms import RHYTHMS

ROUNDS = st.integers(1, 120)
WAVES = st.integers(1, 60)
SEEDS = st.integers(0, 999_999)


@pytest.mark.parametrize("name", RHYTHMS)
@given(rounds=ROUNDS, waves=WAVES, seed=SEEDS)
def test_shares(name: str, rounds: int, waves: int, seed: int) -> None:
    """Each drip has one share from 0 to 1, and the same asked again gives the same."""
    rhythm = RHYTHMS[name]
    count = rounds * rhythm.multiple
    shares = rhythm.shares(count, waves, seed)
    assert len(shares) == count
    assert all(0 <= share <= 1 for share in shares)
    assert shares == rhythm.shares(count, waves, seed)


@given(ROUNDS, WAVES, SEEDS)
def test_even(count: int, waves: int, seed: int) -> None:
    """Even drips are all the longest."""
    assert set(RHYTHMS["even"].shares(count, waves, seed)) == {1.0}


@given(ROUNDS, WAVES, SEEDS)
def test_alternate(rounds: int, waves: int, seed: int) -> None:
    """Alternate drips differ from both neighbours all the way round, the first the longest."""
    rhythm = RHYTHMS["alternate"]
    assert rhythm.multiple == 2, "an odd number would put two of a kind side by side"
    shares = rhythm.shares(2 * rounds, waves, seed)
    assert shares[0] == 1.0
    # the last drip is the neighbour of the first
    assert all({one, other} == {0, 1} for one, other in pairwise([*shares, shares[0]]))


@given(st.integers(1, 12), st.integers(3, 12), SEEDS)
def test_wave(waves: int, drips_a_wave: int, seed: int) -> None:
    """A wave closes: longest at the front, it repeats once a wave and is alike on both sides."""
    count = waves * drips_a_wave
    shares = RHYTHMS["wave"].shares(count, waves, seed)
    assert shares[0] == 1.0
    assert shares[1:] == pytest.approx(shares[:0:-1])
    assert shares == pytest.approx(shares[drips_a_wave:] + shares[:drips_a_wave])
    around = [shares[-1], *shares, shares[0]]
    crests = sum(
        before < here - 1e-9 and after < here - 1e-9
        for before, here, after in zip(around, around[1:], around[2:], strict=False)
    )
    assert crests == waves


@given(st.integers(3, 120), WAVES, SEEDS)
def test_scatter(count: int, waves: int, seed: int) -> None:
    """A scatter is unequal, does not mind the waves, and another seed gives another."""
    scatter = RHYTHMS["scatter"].shares
    assert len(set(scatter(count, waves, seed))) == count
    assert scatter(count, waves, seed) == scatter(count, waves + 1, seed)
    assert scatter(count, waves, seed) != scatter(count, waves, seed + 1)


@pytest.mark.parametrize("name", ["even", "alternate", "wave"])
@given(rounds=ROUNDS, waves=WAVES, seed=SEEDS)
def test_no_chance(name: str, rounds: int, waves: int, seed: int) -> None:
    """Only a scatter depends on the seed."""
    rhythm = RHYTHMS[name]
    count = rounds * rhythm.multiple
    assert rhythm.shares(count, waves, seed) == rhythm.shares(count, waves, seed + 1)


def test_same_in_every_process() -> None:
    """A scatter is the same in two processes with different hash seeds."""
    program = (
        "from templates_gen.cake.rhythms import RHYTHMS\nprint(RHYTHMS['scatter'].shares(30, 5, 7))"
    )
    printed = {
        subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": hash_seed},
            capture_output=True,
            check=True,
        ).stdout
        for hash_seed in ("1", "2")
    }
    assert printed == {f"{RHYTHMS['scatter'].shares(30, 5, 7)}\n".encode()}
