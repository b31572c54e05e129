"""Torn and stepped edges: they close at the join, keep within their band, and fit each other."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal, get_args

import pytest
import shapely
import shapely.affinity
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.bench.bench_list import bench
from templates_gen.drawing.designs.edges import fault, geode
from templates_gen.drawing.designs.motif import Cell
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.sampling import path_length, sampled
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import make_plan
from templates_gen.views.scene import scene
from tests.cakes import one_tier, pieces_of

Form = Literal["torn", "stepped"]
FORMS: tuple[Form, ...] = get_args(Form)
BAND = "[[tier.design]]\nkind = 'fault'\ntop = '30 mm'\nbottom = '70 mm'\n"


def points_of(path: Path) -> list[Point]:
    """Return a path as points a hundredth of a mm from it."""
    ((points, _),) = sampled(path, 0.01)
    return list(points)


def ends_of(path: Path) -> tuple[Point, Point, float, float]:
    """Return where an open path begins and ends, and its slope at both: dv over du."""
    (_, (start,)), (_, first), *_, (_, last), _ = path.commands
    before = last[-2] if len(last) > 1 else path.commands[-3][1][-1]
    rise, fall = first[0][1] - start[1], last[-1][1] - before[1]
    return start, last[-1], rise / (first[0][0] - start[0]), fall / (last[-1][0] - before[0])


@given(
    st.sampled_from(FORMS),
    st.floats(80, 1500),
    st.floats(6, 200),
    st.floats(0.05, 1 / 3),
    st.floats(4, 60),
    st.integers(0, 999_999),
)
@settings(max_examples=60)
def test_edges_close_at_the_join_and_keep_their_band(
    form: Form, width: float, height: float, share: float, pitch: float, shuffle: int
) -> None:
    """Each ends where and as steep as it began, runs to the right, and leaves a third open."""
    made = fault(
        Cell(width, height), form=form, drop=share * height, breadth=pitch, shuffle=shuffle
    )
    upper, lower = made.paths
    for path in (upper, lower):
        start, end, rise, fall = ends_of(path)
        assert (start[0], end[0]) == pytest.approx((0.0, width))
        assert start[1] == pytest.approx(end[1], abs=1e-9)
        assert rise == pytest.approx(fall, abs=1e-6)
        assert all(one[0] <= other[0] + 1e-9 for one, other in pairwise(points_of(path)))
    low, high = upper.bounds, lower.bounds
    assert low.y0 >= -1e-9
    assert low.y1 <= share * height + 1e-9
    assert high.y1 <= height + 1e-9
    assert high.y0 - low.y1 >= height / 3 - 1e-6


@given(st.floats(50, 300), st.floats(20, 200), st.floats(0.2, 1.0), st.integers(0, 999_999))
@settings(max_examples=40)
def test_a_geode_is_as_large_as_it_says_and_crosses_nothing(
    width: float, height: float, share: float, shuffle: int
) -> None:
    """One ring in order round its middle, as wide as asked and as tall as its band."""
    motif = geode(Cell(width, height), breadth=share * width, shuffle=shuffle)
    (path,) = motif.paths
    ring = shapely.Polygon(points_of(path))
    assert ring.is_valid
    assert ring.contains(shapely.Point(width / 2, height / 2))
    left = (1 - share) / 2 * width
    assert ring.bounds == pytest.approx((left, 0.0, width - left, height), abs=1e-6)
    assert motif.values["geode_width_mm"] == pytest.approx(share * width)
    assert motif.values["geode_height_mm"] == height


def test_one_number_one_edge() -> None:
    """The same shuffle number gives the same edge, another another."""
    cell = Cell(600.0, 40.0)
    assert fault(cell, shuffle=3) == fault(cell, shuffle=3)
    assert fault(cell, shuffle=3).paths != fault(cell, shuffle=4).paths
    assert geode(cell, shuffle=3) == geode(cell, shuffle=3)
    assert geode(cell, shuffle=3).paths != geode(cell, shuffle=4).paths


def papers(lines: str, size: str = "8 in") -> dict[str, Piece]:
    """Return the papers of edges of a tier 4 in deep, by the last word of their ids."""
    found = pieces_of(one_tier(lines, size=size))
    return {each.part.split("-")[1]: each for each in found if each.kind == "edge-paper"}


@pytest.mark.parametrize("form", ["torn", "stepped"])
@pytest.mark.parametrize(
    "more", ["", "top_size = '6 in'\n", "shape = 'square'\n", "shallowest_depth = '3.5 in'\n"]
)
def test_papers_share_their_edges_and_make_the_side(form: str, more: str) -> None:
    """Above, band and below take as much as the side that they cover, by its own area."""
    lines = f"cover = 'none'\n{more}{BAND}form = '{form}'\n"
    found = papers(lines)
    assert set(found) == {"band", "above", "below"}
    side = build_stack(one_tier(lines)).tiers[0].covered.side
    areas = [shapely.Polygon(points_of(each.outline)).area for each in found.values()]
    assert sum(areas) == pytest.approx(side.area, rel=2e-4)


def test_band_and_papers_beside_it_meet_without_a_gap() -> None:
    """Laid on each other at one height, the lower edge of one is the upper edge of the next."""
    found = papers(f"cover = 'none'\n{BAND}")
    girth = found["band"].size.width
    above, band, below = (
        shapely.Polygon(points_of(found[name].outline)) for name in ("above", "band", "below")
    )
    depth = 101.6 + 5
    # pieces begin at their lowest point: hang each from what it has in common with the rim
    lifted = shapely.affinity.translate(above, 0, depth - found["above"].size.height)
    top = max(y for x, y in below.exterior.coords)
    assert top < depth - 30
    middle = shapely.box(0, 0, girth, depth).difference(shapely.union_all([lifted, below]))
    assert middle.area == pytest.approx(band.area, rel=1e-4)
    moved = shapely.affinity.translate(band, 0, middle.bounds[1])
    assert middle.symmetric_difference(moved).area < 0.05 * girth


@pytest.mark.parametrize("rows", ["", "rows = 2\n"])
def test_edges_begin_at_the_join_wherever_repeats_would(rows: str) -> None:
    """An edge goes once round: it begins and ends where its papers do, not half the way round."""
    start = BAND + rows + "start = 'between'\n"
    assert pieces_of(one_tier(start)) == pieces_of(one_tier(BAND + rows))


def test_a_hole_that_crosses_the_papers_is_drawn_on_each() -> None:
    """Together they have the whole outline of the hole, as long as that of the collar."""
    lines = f"cover = 'none'\ndummy = true\n{BAND}[tier.opening]\nradius = '30 mm'\n"
    found = papers(lines)
    drawn = {
        name: sum(path_length(s.path) for s in each.drawing.strokes if s.role is Role.CHECK)
        for name, each in found.items()
    }
    assert all(length > 0 for length in drawn.values())
    layer = (tier := build_stack(one_tier(lines)).tiers[0]).covered
    hole = tier.openings.ends[layer.surface]
    # in front and at the join, where half of it is at each end
    assert sum(drawn.values()) == pytest.approx(sum(map(path_length, hole)), rel=0.01)


def test_a_band_at_the_rim_has_no_paper_above_it() -> None:
    """Where less than 5 mm would be left there is no paper."""
    found = papers("[[tier.design]]\nkind = 'fault'\nbottom = '40 mm'\n")
    assert set(found) == {"band", "below"}


def test_the_paper_of_a_geode_is_what_the_collar_marks() -> None:
    """Of one outline, here on a taper: same area, same way round, at the front."""
    lines = (
        "top_size = '6 in'\n[[tier.design]]\nkind = 'geode'\ncount = 1\nbreadth = '50 mm'\n"
        "top = '20 mm'\nbottom = '80 mm'\n"
    )
    (paper,) = papers(lines).values()
    collar = next(each for each in pieces_of(one_tier(lines)) if each.kind == "collar")
    drawn = [each.path for each in collar.drawing.strokes if each.role.word == "pipe"]
    areas = [shapely.Polygon(points_of(path)).area for path in drawn]
    cut = shapely.Polygon(points_of(paper.outline)).area
    assert any(area == pytest.approx(cut, rel=1e-3) for area in areas)
    assert paper.values["geode_width_mm"] == 50.0


def test_edges_are_cut_and_seen_not_piped() -> None:
    """No icing is mixed for them; the band is filled on the picture and is a step of its own."""
    plan = make_plan(one_tier(f"{BAND}colour = 'gold'\n"))
    found = bench(plan)
    assert not found["piping"]
    (step,) = [each for each in found["times"] if "fault" in each["step"]]
    assert "open the band" in step["what"]
    assert len([name for name in step["templates"] if "edge-paper" in name]) == 3
    marks = [mark for body in scene(plan.stack).bodies for mark in body.on_side]
    (band,) = [mark for mark in marks if mark.look.part.endswith("design.0")]
    ((ring,),) = band.shapes
    girth = plan.stack.tiers[0].covered.side.girth
    assert shapely.Polygon(ring).area == pytest.approx(girth * 30, rel=0.2)


def test_a_band_that_runs_on_does_not_end_at_corners() -> None:
    """“face” is for repeats: the papers of a torn band are those that go once round."""
    lines = "[[tier.design]]\nkind = 'fault'\ntop = '20 mm'\nbottom = '50 mm'\nper = '{}'\n"
    faces, once = (
        {
            piece.id: piece.size
            for piece in pieces_of(one_tier(f"shape = 'square'\n{lines.format(per)}"))
            if "design" in piece.id or "band" in piece.id
        }
        for per in ("face", "round")
    )
    assert faces == once
    assert any("band" in name for name in faces)
