"""Cautions: each where it applies and nowhere else, with the source that was read."""

from __future__ import annotations

import pytest

from templates_gen.guides.decorated import build_stack
from templates_gen.pieces.cautions import CAUTIONS, cautions
from tests.cakes import cake, one_tier

DUMMY = "dummy = true\ncover = 'none'\n"
TWO = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n[[tier]]\nsize = '6 in'\ndepth = '4 in'\n"
PAINTED = "[tier.paint]\non = 'side'"


def said(lines: str) -> str:
    """Return all cautions of a cake of one tier."""
    return "\n".join(cautions(build_stack(one_tier(lines))))


@pytest.mark.parametrize(
    ("word", "with_it", "without"),
    [
        ("two hours", "", DUMMY),
        ("allergens", "", DUMMY),
        ("non-toxic", PAINTED, ""),
        ("alcohol", PAINTED, ""),
        ("Blades", "", DUMMY),
        ("hole right through", "[tier.opening]\nradius = '20 mm'", ""),
    ],
)
def test_only_where_it_applies(word: str, with_it: str, without: str) -> None:
    """A caution stands on the paper of a cake that calls for it, and of no other."""
    dummy = "dummy = true\n" if "opening" in with_it else ""
    assert word in said(dummy + with_it)
    assert word not in said(without)


def test_no_dowels_no_caution_of_dowels() -> None:
    """A cake of one tier says nothing of dowels; one of two does."""
    assert "dowel" not in said("")
    assert "dowel" in "\n".join(cautions(build_stack(cake(TWO))))


def test_sources_are_named() -> None:
    """What follows a published source names it.

    21 CFR 176.170 and Regulation (EC) 1935/2004 by title; FDA, UK FSA and CDC MMWR 70(43);
    NIOSH Pocket Guide: flash point 55 °F, lower limit 3.3 %; NIH: two hours, 40 °F (5 °C).
    """
    everything = "\n".join(caution.text for caution in CAUTIONS)
    for source in ("21 CFR 176.170", "1935/2004", "MMWR 70(43)", "NIOSH", "55 °F", "3.3 %", "NIH"):
        assert source in everything
    assert all("local" in c.text or c.source for c in CAUTIONS if "two hours" in c.text)
