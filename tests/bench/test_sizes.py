"""Sizes of a tier are named alike wherever they are given."""

from __future__ import annotations

from templates_gen.bench.figures import figures, figures_table
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.papers import PAPERS
from templates_gen.cover.pack import make_pack
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import make_plan
from templates_gen.terms import inches_first
from templates_gen.units import decimal, in_both
from templates_gen.views.picture import picture
from tests.cakes import one_tier


def _words(cake: Cake) -> set[str]:
    """Return the words of the cover."""
    sheets = make_pack(make_plan(cake), PAPERS["a4"]).sheets
    texts = " ".join(label.text for sheet in sheets for label in sheet.drawing.labels)
    return set(texts.replace("\u00a0", " ").split())


def test_sizes_of_a_taper_name_top_and_base_everywhere() -> None:
    """Figures, picture and cover give the same widths of the covered tier, both of them."""
    cake = one_tier("top_size = '7 in'", "10 in", "6 in")
    (tier,) = build_stack(cake).tiers
    top, foot = in_both(tier.covered.rim.across), in_both(tier.covered.foot.across)
    plan = make_plan(cake)
    table = figures_table(figures(plan), plan.terms)
    assert f"top across {inches_first(top)}" in table
    assert f"base across {inches_first(foot)}" in table
    shown = " ".join(label.text for label in picture(plan, 180, 240).drawing.labels)
    assert f"top {inches_first(top)} across" in shown
    assert f"base {inches_first(foot)} across" in shown
    words = _words(cake)
    assert {"top", "base"} <= words
    for outline in (tier.bare.rim, tier.bare.foot, tier.covered.rim, tier.covered.foot):
        assert f"({decimal(outline.across, 1)}" in words


def test_a_ball_is_as_wide_on_the_cover_as_in_its_figures() -> None:
    """The cover gives the width of the ball, not that of the ring it stands in."""
    cake = one_tier("shape = 'ball'", "6 in", "6 in")
    assert "(152.4" in _words(cake)
