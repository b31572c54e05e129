"""The words of split pieces on their windows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.papers import PAPERS
from templates_gen.cover.pack import make_pack
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import Owner, Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line, rectangle
from templates_gen.plan import make_plan
from templates_gen.sheets.labels import readable
from templates_gen.sheets.pack import Pack
from templates_gen.sheets.spans import BESIDE, axes
from tests import legibility
from tests.cakes import one_tier
from tests.laws import OF_PACKS

LONG = "15 diamonds: repeat width 35.4\xa0mm, diamond width 35.4\xa0mm, diamond height 23.7\xa0mm"
SHORT = "left"


def printed(piece: Piece) -> Pack:
    """Return the pack of one piece, which keeps every law."""
    pack = make_pack(make_plan(one_tier()), PAPERS["a4"], pieces=[piece.finished()])
    for law in (*OF_PACKS, *legibility.OF_PACKS):
        law(pack)
    return pack


def words_of(pack: Pack) -> list[str]:
    """Return the words of the sheets of pieces."""
    return [label.text for sheet in pack.sheets if sheet.windows for label in sheet.drawing.labels]


def strip(*labels: Label) -> Piece:
    """Return a long strip so full of lines that words have room in a lane above them alone."""
    edge = rectangle(Box(0.0, 0.0, 520.0, 40.0))
    lines = tuple(
        Stroke(line((4.0, y), (516.0, y)), Role.GUIDE) for y in (2.0 + 2.0 * n for n in range(17))
    )
    return Piece(Owner("tier", "tier"), "any", "Any", "", "", edge, Drawing(lines, labels))


def test_a_line_without_room_is_parted_at_its_commas() -> None:
    """Across a match line, between other words, it is printed phrase by phrase."""
    beside = [Label(SHORT, (x, 36.0), 3.0) for x in (40, 105, 150, 215, 330, 400, 480)]
    found = words_of(printed(strip(Label(LONG, (220.0, 36.0), 3.0), *beside)))
    assert found.count(SHORT) == len(beside)
    assert LONG not in found
    assert all(any(phrase in each for each in found) for phrase in LONG.split(", "))


@given(st.floats(60, 400))
def test_words_are_beside_the_arrows_of_a_long_strip(x: float) -> None:
    """No arrow to the upper edge of a strip stands on a word."""
    edge = rectangle(Box(0.0, 0.0, 520.0, 22.0))
    label = Label("mark through it", (x, 18.9), 3.0)
    printed(Piece(Owner("tier", "tier"), "any", "Any", "", "", edge, Drawing((), (label,))))


@given(st.floats(20, 80), st.floats(BESIDE - 1, BESIDE, exclude_max=True), st.sampled_from((-1, 1)))
def test_a_cut_beside_a_line_counts_as_near(at: float, beside: float, way: int) -> None:
    """Wherever the line lies between whole millimetres, and no cut 1 mm farther does."""
    box = Box(0.0, 0.0, 100.0, 100.0)
    drawing = Drawing((Stroke(line((at, 10.0), (at, 90.0)), Role.GUIDE),))
    piece = Piece(Owner("tier", "tier"), "any", "Any", "", "", rectangle(box), drawing)
    axis = axes(piece, box)[0]
    assert axis.is_near_line(at + way * beside)
    assert not axis.is_near_line(at + way * (BESIDE + 1.01))


@pytest.mark.parametrize(("turn", "text"), [(0, "↑ rim"), (90, "↑ rim"), (120, "↓ rim")])
def test_an_arrow_points_where_it_did_when_its_words_are_turned_round(turn: int, text: str) -> None:
    """Words that would be upside down are turned round, and their arrow back."""
    (label,) = readable(Drawing(labels=(Label("↑ rim", (50.0, 50.0), turn=turn),))).labels
    assert label.text == text


@pytest.mark.parametrize(
    ("window", "turn", "turned"),
    [(0, 95, 275), (90, 95, 95), (90, 180, 0), (-90, 275, 275), (-90, 265, 265), (-90, 180, 0)],
)
def test_words_of_a_turned_window_read_as_it_does(window: int, turn: int, turned: int) -> None:
    """A word nearly along the letters of a window is not upside down beside them."""
    drawing = Drawing(labels=(Label("PIPE", (50.0, 50.0), turn=turn),))
    (label,) = readable(drawing, turned=window).labels
    assert label.turn % 360 == pytest.approx(turned)
