"""Prices as people type them: with the sign of the currency, for a pound or a yard."""

import pytest

from templates_gen.cakefile.reading import cake_from
from templates_gen.errors import CakeError, Problem

TIER = {"size": "8 in", "depth": "4 in"}


def price(key: str, typed: object, words: str = "us", **more: str) -> float:
    """Return a price of a cake as it is read."""
    made = cake_from({"words": words, "tier": [TIER], "prices": {key: typed, **more}})
    return float(getattr(made.prices, key))


def refusal(key: str, typed: str, words: str = "us") -> Problem:
    """Return what is said of a price that is refused."""
    with pytest.raises(CakeError) as caught:
        price(key, typed, words)
    (problem,) = caught.value.problems
    assert problem.key == ("prices", key)
    return problem


@pytest.mark.parametrize("typed", [4.5, "4.50", "$4.50", "$ 4.50", "4.50 $", "4,50", "$4.5"])
def test_the_sign_of_the_currency_may_be_typed(typed: object) -> None:
    """A price is the same with its sign, before or after it, and without."""
    assert price("fondant", typed) == 4.5


def test_the_sign_is_that_of_the_cake() -> None:
    """£ in the UK, $ in the US, else the one that the file sets."""
    assert price("hour", "£3", "uk") == price("hour", "$3") == 3.0
    assert price("hour", "kr 1,250.50", currency="kr") == 1250.5
    for typed, words, own, other in (("£3", "us", "$", "£"), ("4 €", "uk", "£", "€")):
        problem = refusal("hour", typed, words)
        assert problem.found == f"“{typed}”"
        assert problem.allowed == f"a price in {own}, with its sign or without"
        assert f'currency = "{other}"' in problem.advice


def test_a_price_may_be_for_a_pound_or_a_yard() -> None:
    """1 lb is 0.45359237 kg and 1 yd is 0.9144 m; a number alone stays for 1 kg and 1 m."""
    assert price("filling", "$2.80 per lb") == pytest.approx(2.80 / 0.45359237)
    assert price("filling", "16/lb") == pytest.approx(price("filling", "$1 an ounce"))
    assert price("filling", "$6.50 per kg") == price("filling", "6.50") == 6.5
    assert price("ribbon", "$0.75 per yd") == pytest.approx(0.75 / 0.9144)
    assert price("ribbon", "75 per ft") == pytest.approx(75 / 0.3048)


@pytest.mark.parametrize(
    ("key", "typed", "allowed"),
    [
        ("filling", "lots", "a number, such as 4.50 or $4.50, or $4.50 per lb"),
        ("filling", "4 per cup", "a number, such as 4.50 or $4.50, or $4.50 per lb"),
        ("board", "4 per lb", "a number, such as 4.50 or $4.50"),
        ("board", "$-4", "a number from 0 to 100000"),
        ("board", "4 5", "a number, such as 4.50 or $4.50"),
    ],
)
def test_what_is_no_price_is_refused(key: str, typed: str, allowed: str) -> None:
    """The message says what is read, and of what is sold by weight that a pound may be named."""
    assert refusal(key, typed).allowed == allowed
