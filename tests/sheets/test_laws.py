"""Laws of laying out: what holds for every cake on every paper."""

from __future__ import annotations

import pytest
from fontTools.misc.transform import Transform
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen import PAPERS
from templates_gen.cakefile.papers import SHARED, Paper
from templates_gen.cover.pack import make_pack, make_packs
from templates_gen.plan import Plan
from templates_gen.sheets.pack import Pack
from tests import laws
from tests.strategies import any_plans
from tests.whole_way import printer_of

OWN = st.builds(
    lambda width, more: Paper("own", float(width), float(width + more)),
    st.integers(144, 500),
    st.integers(40, 300),
)
PAPER = st.one_of(st.sampled_from(list(PAPERS.values())), OWN)


@st.composite
def packs(draw: st.DrawFn) -> Pack:
    """Draw a cake over all keys on a random paper."""
    plan = draw(any_plans())
    return make_pack(plan, draw(PAPER), printer=printer_of(plan))


@settings(max_examples=30)
@given(packs())
def test_every_pack_keeps_the_laws(pack: Pack) -> None:
    """Whatever the cake and the paper, each law of packs holds."""
    for law in laws.OF_PACKS:
        law(pack)


@settings(max_examples=20)
@given(any_plans())
def test_both_papers_have_the_same_sheets(plan: Plan) -> None:
    """Laid out on the area A4 and Letter share, sheet 7 is sheet 7 for everyone."""
    printer = printer_of(plan)
    one, other = make_packs(plan, ["both"], printer=printer)
    alone = make_pack(plan, PAPERS["letter"], SHARED, printer=printer)
    assert other.area == pytest.approx(alone.area)
    assert other.sheets[-1].drawing.labels[0].at == pytest.approx(
        alone.sheets[-1].drawing.labels[0].at
    )
    assert len(one.sheets) == len(other.sheets)
    for sheet, twin in zip(one.sheets, other.sheets, strict=True):
        assert [(w.piece.id, w.code, w.box) for w in sheet.windows] == [
            (w.piece.id, w.code, w.box) for w in twin.windows
        ]
        for window, double in zip(sheet.windows, twin.windows, strict=True):
            back: Transform = window.to_sheet.inverse()
            assert back.transform(double.to_sheet)[:4] == pytest.approx((1, 0, 0, 1))
