"""Laws of laying out: what holds for every cake on every paper."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from templates_gen import PAPERS, build_pieces, lay_out
from templates_gen.cake.model import Cake
from tests.strategies import cakes

PAPER = st.sampled_from(sorted(PAPERS))


@given(cakes(), PAPER)
def test_everything_printed_lies_inside_the_printable_area(cake: Cake, paper: str) -> None:
    """No label and no line of a sheet leaves the printable area."""
    pack = lay_out(cake, build_pieces(cake), PAPERS[paper])
    for sheet in pack.sheets:
        for label in sheet.drawing.labels:
            assert pack.area.holds(label.box, 0.05), (sheet.number, label)
        for window in sheet.windows:
            assert pack.area.holds(window.box.transformed(window.to_sheet), 1e-6)
        for stroke in sheet.drawing.strokes:
            assert pack.area.holds(stroke.path.bounds, 0.6), (sheet.number, stroke)
