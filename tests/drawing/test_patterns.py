"""Patterns of drips: a share for each, between shortest and longest, that closes round the tier."""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import pairwise
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.drips import Drips
from templates_gen.cakefile.lengths import length_of
from templates_gen.drawing.patterns import PATTERNS

ROUNDS = st.integers(1, 120)
SPECS = st.builds(
    Drips,
    waves=st.none() | st.integers(1, 60),
    shuffle=st.integers(0, 999_999),
    lengths=st.lists(st.integers(10, 60).map(length_of), min_size=2, max_size=9, unique=True).map(
        tuple
    ),
    line=st.sampled_from(["M0 0 L10 5 L30 2", "M0 0 C 30 40 70 40 100 0", "M9 9 Q 4 -9 0 0"]),
    front=st.sampled_from(["drip", "gap"]),
)


@pytest.mark.parametrize("name", PATTERNS)
@given(rounds=ROUNDS, spec=SPECS)
def test_shares(name: str, rounds: int, spec: Drips) -> None:
    """Each drip has one share from 0 to 1, and the same asked again gives the same."""
    pattern = PATTERNS[name]
    count = rounds * pattern.multiple(spec)
    shares = pattern.share_out(count, spec)
    assert len(shares) == count
    assert all(0 <= share <= 1 for share in shares)
    assert shares == pattern.share_out(count, spec)


@given(ROUNDS, SPECS)
def test_even(count: int, spec: Drips) -> None:
    """Even drips are all the longest."""
    assert set(PATTERNS["even"].share_out(count, spec)) == {1.0}


@given(ROUNDS, SPECS)
def test_alternate(rounds: int, spec: Drips) -> None:
    """Alternate drips differ from both neighbours all the way round, the first the longest."""
    pattern = PATTERNS["alternate"]
    assert pattern.multiple(spec) == 2, "an odd number would put two of a kind side by side"
    shares = pattern.share_out(2 * rounds, spec)
    assert shares[0] == 1.0
    # the last drip is the neighbour of the first
    assert all({one, other} == {0, 1} for one, other in pairwise([*shares, shares[0]]))


def crests(shares: list[float]) -> int:
    """Count the drips, or rows of equal drips, longer than the ones on both sides."""
    firsts = [
        share for before, share in pairwise([shares[-1], *shares]) if abs(share - before) > 1e-9
    ]
    around = [*firsts[-1:], *firsts, *firsts[:1]]
    return sum(a < b > c for a, b, c in zip(around, around[1:], around[2:], strict=False))


@given(st.integers(1, 12), st.integers(2, 12))
def test_wave(waves: int, drips_a_wave: int) -> None:
    """A wave closes: longest at the front, it repeats once a wave and is alike on both sides."""
    count = waves * drips_a_wave
    shares = PATTERNS["wave"].share_out(count, Drips(waves=waves))
    assert shares[0] == 1.0
    assert shares[1:] == pytest.approx(shares[:0:-1])
    assert shares == pytest.approx(shares[drips_a_wave:] + shares[:drips_a_wave])
    assert crests(shares) == waves


@given(st.integers(2, 120), st.integers(1, 60))
def test_as_many_waves_as_asked(count: int, waves: int) -> None:
    """The drips show as many waves as were asked for, or it is a problem that says how many do."""
    spec = Drips(waves=waves)
    pattern = PATTERNS["wave"]
    problems = list(pattern.problems(count, spec))
    shown = crests(pattern.share_out(count, spec))
    if problems:
        (problem,) = problems
        assert shown < waves
        assert problem.key == ("waves",)
        assert problem.found == f"{waves} waves on {count} drips"
        most = int(problem.allowed.partition(":")[0].removeprefix("1 to "))
        assert crests(pattern.share_out(count, Drips(waves=most))) == most
    else:
        assert shown == waves


@given(ROUNDS)
def test_waves_left_out(count: int) -> None:
    """Where nothing is said there are five waves, or as many as the drips can show."""
    pattern = PATTERNS["wave"]
    assert list(pattern.problems(count, Drips())) == []
    if count > 1:
        assert crests(pattern.share_out(count, Drips())) == min(5, count // 2)


@given(st.integers(3, 120), SPECS)
def test_scatter(count: int, spec: Drips) -> None:
    """A scatter is unequal, and another seed gives another."""
    other = Drips(waves=spec.waves, shuffle=spec.shuffle + 1 if spec.shuffle < 999_999 else 0)
    shares = PATTERNS["random"].share_out(count, spec)
    assert len(set(shares)) == count
    assert shares != PATTERNS["random"].share_out(count, other)


@given(ROUNDS, SPECS)
def test_front(count: int, spec: Drips) -> None:
    """Longest at the front, evenly shorter to both sides, shortest at the back, alike on both."""
    shares = PATTERNS["front"].share_out(count, spec)
    half = 0.5 if spec.front == "gap" else 0.0
    away = [min(index + half, count - index - half) for index in range(count)]
    assert shares == pytest.approx([1 - 2 * distance / count for distance in away])


@given(ROUNDS, SPECS)
def test_listed(rounds: int, spec: Drips) -> None:
    """The lengths typed in, in their order, again and again."""
    pattern = PATTERNS["listed"]
    assert spec.lengths is not None
    extremes = pattern.extremes(spec)
    assert extremes is not None
    shortest, longest = extremes
    shares = pattern.share_out(rounds * len(spec.lengths), spec)
    lengths = [shortest + share * (longest - shortest) for share in shares]
    assert lengths == pytest.approx([length.mm for length in spec.lengths] * rounds)


@given(st.integers(1, 200), st.sampled_from(["drip", "gap"]))
def test_drawn(count: int, front: Literal["drip", "gap"]) -> None:
    """A line laid round from the back join: a V down to the right quarter is known everywhere."""
    spec = Drips(line="M0 0 L75 60 L100 0", front=front)
    shares = PATTERNS["drawn"].share_out(count, spec)
    half = 0.5 if front == "gap" else 0.0
    for index, share in enumerate(shares):
        turn = (0.5 + (index + half) / count) % 1
        at = turn / 0.75 if turn <= 0.75 else (1 - turn) / 0.25
        if 0 < turn < 1 - 1e-9:
            assert share == pytest.approx(at, abs=1e-9)


@pytest.mark.parametrize("name", PATTERNS)
@pytest.mark.parametrize("key", ["waves", "shuffle"])
@given(rounds=st.integers(4, 60), spec=SPECS)
def test_a_pattern_uses_the_keys_it_names(name: str, key: str, rounds: int, spec: Drips) -> None:
    """A pattern depends on the keys that it names, and on no other."""
    pattern = PATTERNS[name]
    count = rounds * pattern.multiple(spec)
    one, other = (spec.model_copy(update={key: value}) for value in (1, 2))
    same = pattern.share_out(count, one) == pattern.share_out(count, other)
    assert same == (key not in pattern.keys)


@pytest.mark.parametrize("name", PATTERNS)
@given(rounds=st.integers(4, 60), spec=SPECS)
def test_a_pattern_uses_the_shortest_if_it_says_so(name: str, rounds: int, spec: Drips) -> None:
    """A pattern whose drips are all the longest has no use for the shortest, and says so.

    Nor has one that is told every length.
    """
    pattern = PATTERNS[name]
    if pattern.extremes(spec) is not None:
        assert "shortest" not in pattern.keys
        return
    waving = spec.model_copy(update={"waves": 2})
    shares = pattern.share_out(rounds * pattern.multiple(spec), waving)
    assert (min(shares) < 1) == ("shortest" in pattern.keys)


def test_same_in_every_process() -> None:
    """A scatter is the same in two processes with different hash seeds."""
    program = (
        "from templates_gen.cakefile.drips import Drips\n"
        "from templates_gen.drawing.patterns import PATTERNS\n"
        "print(PATTERNS['random'].share_out(30, Drips(shuffle=7)))"
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
    assert printed == {f"{PATTERNS['random'].share_out(30, Drips(shuffle=7))}\n".encode()}
