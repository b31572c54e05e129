"""Maps of split pieces."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.papers import PAPERS
from templates_gen.cover.maps import least_size, maps
from templates_gen.cover.pack import make_pack
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Owner, Piece
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.plan import make_plan
from templates_gen.sheets.lattice import Cell, Lattice
from tests.cakes import one_tier
from tests.laws import everything_lies_in_the_printable_area, frame_of, overlaps

STEPS = st.lists(st.floats(4, 200), min_size=1, max_size=5)
WIDTH = 180.0


def lattice_of(columns: list[float], rows: list[float]) -> Lattice:
    """Return a rectangle split into windows of these widths and heights."""
    xs = [sum(columns[:n]) for n in range(len(columns) + 1)]
    ys = [sum(rows[:n]) for n in range(len(rows) + 1)]
    edge = rectangle(Box(0.0, 0.0, xs[-1], ys[-1]))
    piece = Piece(Owner("tier", "tier"), "disc", "Disc", "", "", edge, Drawing()).finished()
    cells = tuple(
        Cell(row, column, Box(x0, y0, x1, y1), upright=False, caption=())
        for (row, (y1, y0)), (column, (x0, x1)) in product(
            enumerate(pairwise(ys[::-1])), enumerate(pairwise(xs))
        )
    )
    return Lattice(piece, cells, (), region(piece.outline), tuple(xs[1:-1]), tuple(ys[1:-1]))


@given(STEPS, STEPS, st.sampled_from((WIDTH, WIDTH / 2)))
def test_words_of_a_map_stand_in_their_parts(
    columns: list[float], rows: list[float], width: float
) -> None:
    """However narrow a part, its words are on no others and inside the map, it on the page."""
    lattice = lattice_of(columns, rows)
    places = {lattice.piece.id: {cell.code: n for n, cell in enumerate(lattice.cells)}}
    (block,) = maps([lattice], places, 90, width)
    labels = block.drawing.labels
    assert block.height >= least_size(lattice)[1]
    assert len(labels) == 1 + 2 * len(lattice.cells)
    assert not overlaps([frame_of(label) for label in labels])
    shown = Box.round([p for s in block.drawing.strokes for p in s.path.bounds.corners])
    assert shown.x1 <= width + 1e-6
    assert all(shown.contains(label.box, 0.01) for label in labels[1:])


@pytest.mark.parametrize("size", [(300.0, 7000.0), (6200.0, 300.0), (450.0, 9000.0)])
def test_parts_in_too_many_rows_for_a_page_have_words_for_a_map(size: tuple[float, float]) -> None:
    """How the parts lie is said instead, and nothing leaves the page."""
    piece = replace(lattice_of([size[0]], [size[1]]).piece, title="Long")
    pack = make_pack(make_plan(one_tier()), PAPERS["a4"], pieces=[piece])
    everything_lies_in_the_printable_area(pack)
    words = " ".join(label.text for label in pack.sheets[0].drawing.labels)
    assert re.search(r"Long: \d+ rows of \d+ parts. Part 1 is at the top left", words)
