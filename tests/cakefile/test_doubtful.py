"""Values that can be made and are seldom meant: each has a warning, and what is usual has none."""

from __future__ import annotations

import pytest

from templates_gen.cakefile.doubtful import doubtful
from templates_gen.cakefile.reading import cake_from
from templates_gen.drawing.colour_words import WORDS
from templates_gen.plan import make_plan
from tests.cakes import one_tier

USUAL = {"name": "bottom", "size": "8 in", "depth": "4 in"}


@pytest.mark.parametrize(
    ("given", "key", "says"),
    [
        ({"depth": "50 in"}, "depth", "depth “50 in” is deeper than is usual, up to 304.8 mm"),
        ({"size": "3 in", "depth": "10 in"}, "depth", "over 3 times the width, 76.2 mm (3 in)"),
        (
            {"shape": "oval", "short": "2 in", "depth": "7 in"},
            "depth",
            "over 3 times the width, 50.8 mm (2 in)",
        ),
        ({"depth": "12 mm"}, "depth", "shallower than is usual, 25 mm"),
        ({"coating": "30 mm"}, "coating", "thicker than is usual, up to 25 mm"),
        ({"fondant": "1 in"}, "fondant", "thicker than is usual, up to 12.7 mm"),
        ({"colour": "mavue"}, "colour", "“mavue” and use another; the lists keep your"),
        ({"colour": "mavue"}, "colour", "Did you mean “mauve”?"),
        ({"drips": {"colour": "goldd"}}, "drips.colour", "Did you mean “gold”?"),
        ({"design": [{"kind": "swags", "colour": "xx"}]}, "design.0.colour", "colour “xx” and"),
    ],
)
def test_an_odd_value_has_a_warning_at_its_key(given: dict[str, str], key: str, says: str) -> None:
    """With the tier, what is usual, and a colour of nearly that spelling."""
    found = doubtful(cake_from({"tier": [USUAL | given]}))
    assert [".".join(map(str, each.key)) for each in found] == [f"tier.0.{key}"]
    assert found[0].text.startswith("bottom: ")
    assert says in found[0].text


@pytest.mark.parametrize(
    "given",
    [
        {"size": "12 in", "depth": "12 in"},
        {"size": "4 in", "depth": "12 in"},
        {"depth": "1 in"},
        {"coating": "25 mm", "fondant": "10 mm"},
        {"colour": "pale Duck Egg", "drips": {"colour": "#c8e2de"}},
    ],
)
def test_what_is_usual_has_no_warning(given: dict[str, str]) -> None:
    """Up to the bounds themselves."""
    assert doubtful(cake_from({"tier": [USUAL | given]})) == ()


def test_every_word_for_a_colour_is_known() -> None:
    """Beside the tiers as well, where another word has a warning."""
    for word in (*WORDS, "dusty rose"):
        assert not doubtful(cake_from({"tier": [USUAL], "topper": [{"colour": word}]}))
    (found,) = doubtful(cake_from({"tier": [USUAL], "topper": [{"colour": "periwinkel"}]}))
    assert found.key == ("topper", 0, "colour")
    assert found.text.startswith("topper: ")


def test_warnings_are_in_the_words_of_the_cake() -> None:
    """Inches first in a cake in inches, and the spelling of its place."""
    cake = cake_from({"words": "us", "tier": [USUAL | {"depth": "50 in", "colour": "mavue"}]})
    deep, colour = (each.text for each in make_plan(cake).warnings())
    assert "up to 12 in (304.8 mm)" in deep
    assert "the color “mavue”" in colour


@pytest.mark.parametrize("kind", ["ruffles", "fringe", "lace"])
def test_a_stencil_of_strips_has_no_pattern(kind: str) -> None:
    """What is laid on in strips or mats is drawn as level lines: all that a stencil could have."""
    text = f"[[tier.design]]\nkind = '{kind}'\n"
    assert not doubtful(one_tier(text))
    (warning,) = doubtful(one_tier(f"{text}stencil = {{}}\n"))
    assert warning.key == ("tier", 0, "design", 0, "stencil")
    assert f"a stencil of {kind} has only the lines of its rows" in warning.text
    assert not doubtful(one_tier(text.replace(kind, "diamonds") + "stencil = {}\n"))
