"""Limits in messages: a length that a message allows is accepted when it is typed as it stands."""

from __future__ import annotations

import copy
import re
from collections.abc import Callable, Iterator
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.lengths import parse_length
from templates_gen.cakefile.reading import cake_from, parse_data
from templates_gen.cakefile.source import CakeText
from templates_gen.errors import CakeError, Key, Problem, TemplatesGenError
from templates_gen.plan import make_plan
from templates_gen.units import at_least, at_most
from tests.cli.bad_cakes import BAD_CAKES, Bad
from tests.cli.bad_crafts import BAD_CRAFTS
from tests.cli.bad_designs import BAD_DESIGNS

FIGURE = r"[\d./ ⅛¼⅜½⅝¾⅞]*[\d⅛¼⅜½⅝¾⅞] (?:mm|in)"
LENGTH = re.compile(rf"({FIGURE}) \(({FIGURE})\)|({FIGURE})")
"""A length in one unit or in both."""
MOST = re.compile(rf"(?:up to|up to [a-z ,]+,|[\d⅛¼⅜½⅝¾⅞].* to) (?:{LENGTH.pattern})")
LEAST = re.compile(rf"(?:{LENGTH.pattern}) (?:or more|to .+)")
"""What a message starts with that limits the length at its key."""
BROKEN = [
    bad for bad in (*BAD_CAKES, *BAD_CRAFTS, *BAD_DESIGNS) if re.search(r"\d.* mm", bad.allowed)
]
"""The broken cake files whose message has a length among what is accepted."""


def values(bad: Bad) -> dict[str, Any]:
    """Return the values of a broken cake file, none for what is no TOML."""
    try:
        return parse_data(CakeText("cake.toml", bad.text))
    except TemplatesGenError:
        return {}


def problems(data: object, read: Callable[[Cake], object]) -> tuple[Problem, ...]:
    """Return the problems of a cake, read by ``read``."""
    try:
        read(cake_from(data))  # type: ignore[arg-type]
    except CakeError as error:
        return error.problems
    return ()


def checked_alone(_: Cake) -> None:
    """Do nothing with a cake: its values have been checked."""


def value_at(data: Any, key: Key) -> object:  # noqa: ANN401 (whatever a file holds)
    """Return what stands at a key of a cake file, if anything does."""
    for part in key:
        try:
            data = data[part]
        except (KeyError, IndexError, TypeError):
            return None
    return data


def typed(data: dict[str, Any], key: Key, text: str) -> dict[str, Any]:
    """Return the values of a cake file with another text at a key."""
    found = copy.deepcopy(data)
    table: Any = found
    for part in key[:-1]:
        table = table[part]
    table[key[-1]] = text
    return found


def limits(data: dict[str, Any], problem: Problem) -> Iterator[str]:
    """Yield each figure of the limits to the length at the key of a problem, in either unit."""
    if isinstance(value_at(data, problem.key), str | float | int):
        for pattern in (MOST, LEAST):
            found = pattern.match(problem.allowed)
            yield from (figure.strip() for figure in found.groups() if figure) if found else ()


def said_when_typed(data: dict[str, Any], read: Callable[[Cake], object]) -> Iterator[str]:
    """Yield what is said when each figure of a limit is typed: nothing where it is accepted."""
    for problem in problems(data, read):
        for figure in limits(data, problem):
            again = problems(typed(data, problem.key, figure), read)
            told = [(each.key, each.allowed) for each in again]
            refused = (problem.key, problem.allowed) in told
            yield f"{problem.key}: {figure} of “{problem.allowed}”" if refused else ""


def test_a_limit_of_a_message_is_accepted_as_it_is_written() -> None:
    """Every limit in a message is accepted when it is written at its key, in either unit."""
    said: list[str] = []
    for data in filter(None, map(values, BROKEN)):
        unread = problems(data, checked_alone)
        said += said_when_typed(data, checked_alone if unread else make_plan)
    assert len(said) > 100
    assert not [each for each in said if each]


@given(st.floats(0.1, 3000))
def test_limits_are_written_to_the_safe_side(mm: float) -> None:
    """In both units a most is never written as more, nor a least as less, and neither far off."""
    for written, sign in ((at_most(mm), 1), (at_least(mm), -1)):
        found = LENGTH.fullmatch(written)
        assert found is not None
        figures = [parse_length(figure.strip()).mm for figure in found.groups() if figure]
        for figure, step in zip(figures, (0.1, 25.4 / 16), strict=False):
            assert -1e-6 <= sign * (mm - figure) < step + 1e-6
