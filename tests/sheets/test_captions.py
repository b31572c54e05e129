"""Captions: where a name of several parts is broken, and the room it takes."""

from __future__ import annotations

import pytest

from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Owner, Piece
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.sheets.captions import beside, least_strip, on_piece, short, strip_width


def disc(tier: str) -> Piece:
    """Return a piece of a tier, with nothing drawn on it."""
    edge = rectangle(Box(0.0, 0.0, 200.0, 200.0))
    return Piece(Owner("t", tier), "disc", f"{tier}: top disc", "", "Cut it out.", edge, Drawing())


@pytest.mark.parametrize("width", range(40, 171, 3))
def test_a_broken_name_has_its_dots_at_the_ends_and_its_numbers_whole(width: float) -> None:
    """However narrow, no line begins with a dot, and how many to cut is on one line."""
    for caption in on_piece(disc("Rowan and oak"), "part 2 of 4", [width], ()):
        names = [line.text for line in caption if line.bold]
        assert not any(text.startswith("·") for text in names)
        assert names[-1].endswith(("cut\u00a01", "part\u00a02\u00a0of\u00a04"))


def test_accents_of_a_name_beside_a_window_reach_no_higher_than_its_strip() -> None:
    """The strip of a caption grows with the accents on its capitals."""
    plain, accented = short(disc("Eclair"), "", 200), short(disc("Éclair"), "", 200)
    (label,) = beside(accented, Box(0.0, 0.0, 200.0, 20.0), upright=False)
    assert label.box.y1 < 20 + strip_width(accented)
    assert strip_width(accented) > strip_width(plain) + 0.8
    assert least_strip(disc("Éclair")) == strip_width(accented)
