"""Captions on the piece: where there is room they stand on it, free, whole, and once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
import shapely

from templates_gen.cakefile.papers import PAPERS
from templates_gen.drawing.apart import frame
from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.drawing.piece import Owner, Piece
from templates_gen.drawing.text_block import text_block, title_lines
from templates_gen.geometry.areas.lines import sampled_lines
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import polyline, rectangle
from templates_gen.printing.templates import templates
from templates_gen.sheets.frame import frame_for
from templates_gen.sheets.lattice import Cell, Lattice
from templates_gen.sheets.layout import arranged
from templates_gen.sheets.tiling import splits
from tests.cakes import SAMPLES, sample_plan

USE = "Cut it from fondant rolled 4 mm thick, this face up; lay it on the top before the side."
FACTS = ("finished length 613.5 mm, measured mid-thickness, before the trim at its end", "as wide")


def lattices(name: str) -> Iterator[Lattice]:
    """Yield how each printed piece of a sample is split, on A4."""
    plan = sample_plan(name)
    field = frame_for(PAPERS["a4"], (), plan.margins).field
    yield from arranged(templates(plan), field).lattices


def panel(width: float, height: float, *lines: str) -> Piece:
    """Return a rectangle with its title and these lines in its middle."""
    edge = Box(0.0, 0.0, width, height)
    words = text_block(title_lines("top: panel", *lines), edge.expanded(-5.0))
    drawing = Drawing(labels=words)
    piece = Piece(Owner("top", "top"), "panel", "top: panel", "", USE, rectangle(edge), drawing, 3)
    return piece.finished()


def first(piece: Piece) -> tuple[Lattice, Cell]:
    """Return the handiest way to split a piece for an A4 sheet, and its first window."""
    lattice = splits(piece, 190.0, 260.0)[0]
    return lattice, lattice.cells[0]


def text(labels: tuple[Label, ...]) -> str:
    """Return labels as one text."""
    return " ".join(label.text for label in labels).replace("\xa0", " ")


@pytest.mark.parametrize("name", [path.stem for path in SAMPLES])
def test_a_caption_on_a_piece_is_on_white(name: str) -> None:
    """It lies whole on the paper that the window shows; no line and no other word crosses it."""
    found = 0
    for lattice in lattices(name):
        piece = lattice.piece
        lines = [sampled_lines(stroke.path) for stroke in piece.drawing.strokes]
        for cell in lattice.cells:
            found += bool(cell.labels)
            boxes = [shapely.Polygon(frame(label, 0.5)) for label in cell.labels]
            others = [shapely.Polygon(frame(label)) for label in lattice.words]
            for box in boxes:
                assert lattice.space_of(cell).contains(Box(*box.bounds), 0.6)
                assert piece.paper.covers(box)
                assert not any(box.intersects(each) for each in (*lines, *others))
    assert found or name == "lantern-birthday"  # its pieces are narrow


def test_a_caption_on_a_piece_takes_no_paper_beside_it() -> None:
    """The window is as large as the piece; where there is no room it is larger, by the caption."""
    lattice, cell = first(panel(150.0, 100.0, *FACTS))
    assert cell.labels
    assert text(cell.labels).endswith(USE)
    assert cell.size == pytest.approx((150.0 + 1.0 + 3.0, 100.0 + 1.0 + 3.0))
    lattice, cell = first(panel(60.0, 22.0))
    assert not cell.labels
    assert lattice.words == lattice.piece.drawing.labels
    assert max(cell.size[0] - 60.0, cell.size[1] - 22.0) > 15.0


def test_a_title_is_not_said_twice() -> None:
    """The caption names the piece; a window without room for it keeps the title on the piece."""
    lattice, cell = first(panel(150.0, 100.0))
    assert text(cell.labels).count("top: panel") == 1
    assert "panel" not in text(lattice.words)
    lattice, _ = first(panel(60.0, 22.0))
    assert "panel" in text(lattice.words)


def test_facts_join_the_caption_where_they_would_be_in_its_way() -> None:
    """Their sentences, broken over several lines, are put together again, in their order."""
    large, small = panel(180.0, 150.0, *FACTS), panel(100.0, 44.0, *FACTS)
    lattice, cell = first(large)
    assert text(lattice.words) == " ".join(FACTS)
    assert FACTS[0] not in text(cell.labels)
    lattice, cell = first(small)
    assert not lattice.words
    assert " · ".join(FACTS) in text(cell.labels)


def test_what_points_stays_where_it_points_to() -> None:
    """A line with an arrow is neither moved nor turned."""
    for piece in (panel(150.0, 100.0, "this way ↑ up"), panel(100.0, 44.0, "↑ up", FACTS[0])):
        lattice, _ = first(piece)
        (kept,) = (label for label in lattice.words if "↑" in label.text)
        (was,) = (label for label in piece.drawing.labels if "↑" in label.text)
        assert replace(kept, continues=was.continues) == was


def test_a_part_is_named_on_it() -> None:
    """Of a piece in several windows each has its own name; the first says what to do."""
    lattice, _ = first(panel(700.0, 100.0))
    said = [text(cell.labels) for cell in lattice.cells]
    assert len(said) > 2
    assert all(said)
    for number, each in enumerate(said, 1):
        assert f"part {number} of {len(said)}" in each
        assert (USE in each) == (number == 1)


def test_a_tip_too_narrow_for_a_name_is_left_without() -> None:
    """The part with the body of the piece is named on it all the same."""
    tip = [(180.0, 440.0), (180.0, 240.0), (92.0, 240.0), (92.0, 0.0), (88.0, 0.0), (88.0, 240.0)]
    edge = polyline([(0.0, 240.0), (0.0, 440.0), *tip], closed=True)
    words = text_block(title_lines("top: panel"), Box(5.0, 245.0, 175.0, 435.0))
    drawing = Drawing(labels=words)
    piece = Piece(Owner("top", "top"), "panel", "top: panel", "", USE, edge, drawing).finished()
    named = [[bool(cell.caption) for cell in each.cells] for each in splits(piece, 190.0, 260.0)]
    assert [True, False] in named


@pytest.mark.parametrize("size", [(150.0, 100.0), (60.0, 30.0)])
def test_what_to_do_is_not_said_twice(size: tuple[float, float]) -> None:
    """On the piece or beside it: a piece with its use among its words, as a stencil, loses it."""
    piece = panel(*size, USE)
    lattice, cell = first(piece)
    said = text((*lattice.words, *cell.labels)) if cell.labels else text(lattice.words)
    beside = "" if cell.labels else " ".join(line.text for line in cell.caption)
    assert f"{said} {beside}".count("lay it on the top") == 1
