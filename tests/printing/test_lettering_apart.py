"""Lettering on a large top: its part of the top, which says how far it is to the edges."""

from __future__ import annotations

import re

import pytest

from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box, union_box
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.templates import templates
from tests.cakes import cake

FAR = re.compile(r"its (front|left|right) edge (?:([\d.]+) mm|at)")


def made(size: str, lines: str = "", shape: str = "shape = 'rectangle'\nshort = '25 cm'\n") -> Plan:
    """Return the plan of a tier with words on its top."""
    top = f"size = '{size}'\ndepth = '8 cm'\ncover = 'none'\n{shape}"
    words = f"[[tier.lettering]]\ntext = 'Ada'\non = 'top'\ncap_height = '3 cm'\n{lines}"
    return make_plan(cake(f"[[tier]]\n{top}{words}"))


def whole_and_printed(plan: Plan) -> tuple[Piece, Piece]:
    """Return the lettering as a piece and as it is printed."""
    (whole,) = (each for each in plan.pieces if each.kind == "top-lettering")
    (printed,) = (each for each in templates(plan) if each.kind == "top-lettering")
    return whole, printed


def letters(piece: Piece) -> Box:
    """Return the box round the letters of a piece."""
    strokes = (each for each in piece.drawing.strokes if each.role is Role.PIPE)
    return union_box(each.path.bounds for each in strokes)


@pytest.mark.parametrize("lines", ["", "level = '3 cm'\n", "level = '6 mm'\n"])
def test_the_ways_to_the_edges_set_the_letters_where_they_belong(lines: str) -> None:
    """From each edge of a rectangle to the letters: way and paper together are what the whole has.

    A way is read to a tenth of a millimetre. The paper holds the letters and is far smaller.
    """
    whole, printed = whole_and_printed(made("40 cm", lines))
    ways = {edge: float(far or 0.0) for edge, far in FAR.findall(printed.use)}
    assert set(ways) == {"front", "left", "right"}
    paper, part, top, inked = printed.size, letters(printed), whole.size, letters(whole)
    assert ways["front"] + part.y0 == pytest.approx(inked.y0, abs=0.051)
    assert ways["left"] + part.x0 == pytest.approx(inked.x0, abs=0.051)
    assert ways["right"] + paper.width - part.x1 == pytest.approx(top.width - inked.x1, abs=0.051)
    assert part.width == pytest.approx(inked.width, abs=1e-6)
    assert printed.area.area < whole.area.area / 4
    assert min(part.x0, part.y0) > 0


def test_marks_of_words_in_the_middle_are_on_its_lines() -> None:
    """The front mark of a round top is on the line from back to front, the others at the sides."""
    _, printed = whole_and_printed(made("30 cm", shape=""))
    part = letters(printed)
    marks = [each.path.bounds for each in printed.drawing.strokes if each.role is Role.CENTRE]
    front, left, right = marks
    assert front.centre[0] == pytest.approx(part.centre[0], abs=0.6)
    assert left.centre[1] == right.centre[1]
    assert (left.x0, front.y0) == pytest.approx((0.0, 0.0), abs=1e-6)
    assert right.x1 == pytest.approx(printed.size.width)


@pytest.mark.parametrize(("size", "is_whole"), [("15 cm", True), ("17 cm", True), ("22 cm", False)])
def test_a_top_that_goes_on_a_page_is_printed_whole(size: str, is_whole: bool) -> None:
    """Then its edge is the best guide."""
    whole, printed = whole_and_printed(made(size, shape=""))
    assert (printed.outline == whole.outline) == is_whole
    assert ("front to the front" in printed.use) == is_whole


def test_printed_whole_it_stays_whole() -> None:
    """Who asks for every template in full has the top in full."""
    text = "print = 'whole'\n[[tier]]\nsize = '30 cm'\ndepth = '8 cm'\n"
    plan = make_plan(cake(f"{text}[[tier.lettering]]\ntext = 'Ada'\non = 'top'\n"))
    whole, printed = whole_and_printed(plan)
    assert printed.outline == whole.outline
