"""Words of a piece that would lie on each other."""

from __future__ import annotations

import math
from itertools import combinations, pairwise

import pytest

from templates_gen.drawing.apart import Text, words_apart
from templates_gen.drawing.drawing import Anchor, Drawing, Label
from templates_gen.drawing.piece import Owner, Piece
from templates_gen.drawing.text_block import LEAST_TEXT, measure
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import covers, region
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle


def piece(*labels: Label, round_: bool = False) -> Piece:
    """Return a piece with words, a strip or a disc."""
    edge = circle((50, 50), 50) if round_ else rectangle(Box(0, 0, 100, 20))
    drawing = Drawing(labels=labels)
    return Piece(Owner("test", "test"), "any", "Any", "", "", edge, drawing).finished()


def test_of_two_words_the_longer_moves() -> None:
    """The name of a mark stays at the mark; the title, lines and all, goes beside it."""
    mark = Label("13", (50, 10))
    title = (Label("tier 1: collar", (40, 12)), Label("100 mm", (40, 8), continues=True))
    first, second, kept = words_apart(piece(*title, mark)).drawing.labels
    assert kept == mark
    assert first.at[0] - title[0].at[0] == second.at[0] - title[1].at[0] != 0
    assert not any(label.box.intersection(mark.box) for label in (first, second))


def test_moved_words_stay_inside_the_piece() -> None:
    """On a disc no corner of a moved text is cut off; all texts are apart."""
    words = [Label(text, (50, 92), anchor=Anchor.MIDDLE) for text in ("back", "a title", "or two")]
    made = words_apart(piece(*words, round_=True))
    area = region(made.outline)
    assert all(covers(area, label.box) for label in made.drawing.labels)
    for one, other in combinations(made.drawing.labels, 2):
        assert not one.box.intersection(other.box)


def test_words_that_stand_apart_stay() -> None:
    """Nothing moves where no word is on another, not even turned words in each other's boxes."""
    words = (Label("a long word that is turned", (10, 2), turn=20), Label("x", (30, 2)))
    assert words[0].box.intersection(words[1].box)
    made = piece(*words)
    assert words_apart(made) is made


def test_a_word_over_the_edge_moves_in() -> None:
    """What would be cut off with the rest of the paper is moved onto the piece."""
    (label,) = words_apart(piece(Label("top edge", (90, 9)))).drawing.labels
    assert label.box.x1 <= 100
    assert label.at[1] == 9


def test_a_word_without_a_place_is_made_smaller_or_left_out() -> None:
    """On a small piece a name is set in the least size, and no word is on another or cut off."""
    edge = rectangle(Box(0, 0, 14, 9))
    words = (Label("4", (2, 2)), Label("front panel", (3, 2), 5), Label("a longer name", (5, 2)))
    small = Piece(
        Owner("test", "test"), "any", "Any", "", "", edge, Drawing(labels=words)
    ).finished()
    labels = words_apart(small).drawing.labels
    assert labels[0] == words[0]
    assert [(each.text, each.size) for each in labels[1:]] == [
        ("front", LEAST_TEXT),
        ("panel", LEAST_TEXT),
    ]
    assert all(Box(0, 0, 14, 9).contains(label.box) for label in labels)


@pytest.mark.parametrize("turn", [0, 90, 200])
def test_lines_of_a_broken_text_stand_as_it_is_turned(turn: float) -> None:
    """Each line is below the one before it, square to the way the text runs."""
    _, broken, *_ = Text.of([Label("a front panel", (0, 0), 5, turn=turn)]).narrower
    for one, other in pairwise(broken.lines):
        along, up = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        dx, dy = other.at[0] - one.at[0], other.at[1] - one.at[1]
        assert dx * along + dy * up == pytest.approx(0.0)
        assert dy * along - dx * up < -5


def test_a_broken_text_keeps_its_words_whole() -> None:
    """However narrow, no word is cut; a length in two units ends a line between them."""
    said = f"lettering: capitals {measure(36.6)}"
    found = [[line.text for line in text.lines] for text in Text.of([Label(said, (0, 0))]).narrower]
    assert found[0] == [said]
    assert found[-1] == ["lettering:", "capitals", "36.6\u00a0mm", "(1\u00a07/16\u00a0in)"]
    assert {" ".join(lines).replace("\u00a0", " ") for lines in found} == {
        said.replace("\u00a0", " ")
    }
