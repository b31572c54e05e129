"""What lies on what on a side is said; what can keep clear does."""

from __future__ import annotations

import pytest

from templates_gen.errors import CakeError
from tests.cakes import one_tier, pieces_of

NAME = "[[tier.lettering]]\ntext = 'Ada'\n"


def warnings(lines: str, size: str = "8 in") -> list[str]:
    """Return the warnings of a tier, without its name."""
    made = pieces_of(one_tier(lines, size, "5 in"))
    return [each.text.split(": ", 1)[1] for piece in made for each in piece.warnings]


@pytest.mark.parametrize(
    ("lines", "names"),
    [
        (f"{NAME}level = '30 mm'\n[tier.drips]\n", ("lettering", "the drips")),
        (NAME + "[[tier.design]]\nkind = 'diamonds'\n", ("lettering", "diamonds")),
        (NAME + NAME, ("lettering 2", "lettering 1")),
        (
            "[[tier.scatter]]\ncount = 9\n[[tier.design]]\nkind = 'diamonds'\n",
            ("small pieces", "diamonds"),
        ),
    ],
)
def test_two_things_in_one_place_are_both_named(lines: str, names: tuple[str, str]) -> None:
    """Once, with what to do, and with a number only where there are several."""
    assert warnings(lines) == ["{} and {} overlap; move one of them if you can.".format(*names)]


def test_lettering_over_a_corner_is_told() -> None:
    """On the front face of a square there is none; run round to the side it says so."""
    square = "shape = 'square'\n" + NAME
    assert warnings(square) == []
    assert warnings(f"{square}sideways = '4 in'") == [
        "lettering runs over a corner, where letters bend."
    ]


def test_what_is_clear_gives_no_warning() -> None:
    """Drips, lettering below them, and pieces scattered twice find their own room."""
    scatter = "[[tier.scatter]]\ncount = 8\nsize = '12 mm'\n"
    lines = f"[tier.drips]\nlongest = '1 in'\n{NAME}level = '80 mm'\n{scatter}{scatter}"
    assert warnings(lines) == []


@pytest.mark.parametrize("longest", ["1 in", "2.5 in", "3 in"])
def test_a_name_without_a_level_stands_below_the_drips(longest: str) -> None:
    """In the middle of what they leave free, with nothing to warn of."""
    lines = f"[tier.drips]\nlongest = '{longest}'\nfront = 'drip'\npattern = 'even'\n{NAME}"
    assert warnings(lines) == []


def test_a_name_with_no_room_below_the_drips_lies_on_them() -> None:
    """It stays in the middle of the side, with the warning."""
    lines = f"[tier.drips]\nlongest = '4.5 in'\n{NAME}cap_height = '1 in'\n"
    assert warnings(lines) == ["lettering and the drips overlap; move one of them if you can."]


def test_a_name_above_a_hole_is_not_moved_into_it() -> None:
    """Where the room below the drips is that of a hole it stays in the middle, with the warning."""
    hole = "dummy = true\n[tier.opening]\nradius = '15 mm'\nheight = '35 mm'\n"
    lines = f"{hole}[tier.drips]\nshortest = '2.5 in'\nlongest = '2.5 in'\n"
    lines += "[[tier.lettering]]\ntext = 'ADA AND JOE'\nfont = 'bold'\ncap_height = '12 mm'\n"
    assert warnings(lines) == ["lettering and the drips overlap; move one of them if you can."]


def test_lettering_into_a_hole_is_refused() -> None:
    """Nothing is cut off it; moved below the hole as the message says it can be made."""
    hole = "dummy = true\n[tier.opening]\nradius = '1 in'\nheight = '3 in'\n[[tier.lettering]]\n"
    text = "text = 'HELLO WORLD'\ncap_height = '12 mm'\n"
    with pytest.raises(CakeError, match="runs into the hole") as caught:
        pieces_of(one_tier(hole + text, "10 in", "6 in"))
    (problem,) = caught.value.problems
    assert problem.key == ("tier", 0, "lettering", 0, "text")
    assert "move it with sideways or level" in problem.advice
    assert pieces_of(one_tier(f"{hole}{text}level = '140 mm'", "10 in", "6 in"))
