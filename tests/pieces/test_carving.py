"""Carving guides: every outline once, apart from each other, on few sheets."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import pytest
import shapely

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import sections
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.booleans import region
from templates_gen.pieces.carving import GAP
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.templates import templates
from tests.cakes import one_tier

SQUARE = "shape = 'square'\ntop_size = '6 in'\ncarving = {}\ninside.layers = 4\n"


def guides(plan: Plan) -> list[Piece]:
    """Return the carving guides of a plan."""
    return [piece for piece in plan.pieces if piece.kind == "carving-guide"]


def test_outlines_of_a_taper_are_by_similar_triangles() -> None:
    """A square of 8 in over 6 in is as wide at each level as the share of its height says."""
    made = make_plan(one_tier(SQUARE))
    depth, filling = 101.6, 6.0
    layer = (depth - 3 * filling) / 4
    levels = [n * (layer + filling) + end for n in range(4) for end in (0.0, layer)]
    wanted = sorted(203.2 - 50.8 * z / depth for z in levels)
    found = [w for piece in guides(made) for w in _tuple(piece, "across_mm")]
    assert sorted(found) == pytest.approx(wanted)


def _tuple(piece: Piece, name: str) -> tuple[float, ...]:
    value = piece.values[name]
    assert isinstance(value, tuple)
    return tuple(map(float, value))


@pytest.mark.parametrize(
    "lines",
    [
        SQUARE,
        "shape = 'ball'\ndepth = '8 in'\ncarving = {}\n",
        "shape = 'petal'\nlobes = 6\ntop_size = '5 in'\ncarving = {}\n",
        "shallowest_depth = '1 in'\ncarving = {}\n",
    ],
)
def test_outlines_on_one_guide_lie_apart_and_each_is_named(lines: str) -> None:
    """Lines of a guide lie in each other, 6 mm apart; every base and top is named once."""
    depth = "8 in" if "depth = '8 in'" in lines else "4 in"
    made = make_plan(one_tier(lines.replace("depth = '8 in'\n", ""), depth=depth))
    names: list[str] = []
    for piece in guides(made):
        inner = [s.path for s in piece.drawing.strokes if s.role is Role.TRIM]
        areas = [region(path) for path in (piece.outline, *inner)]
        areas.sort(key=lambda area: -area.area)
        for outer, one in pairwise(areas):
            assert outer.covers(one)
            assert shapely.distance(outer.boundary, one.boundary) > GAP - 0.1
        said = [label.text for label in piece.drawing.labels]
        names += [name for name in said if re.match(r"\d+ (base|top)", name)]
    assert len(names) == len(set(names))
    assert sum(int(str(piece.values["outline_count"])) for piece in guides(made)) == len(names)


def test_an_upright_tier_has_one_guide_for_all_layers() -> None:
    """The outline of an upright heart is the same at every layer."""
    (piece,) = guides(make_plan(one_tier("shape = 'heart'\ncarving = {}\n")))
    assert "1 base to 3 top" in [label.text for label in piece.drawing.labels]
    assert piece.values["outline_count"] == 1


def test_circles_are_left_to_the_circle_guide() -> None:
    """A carved ball takes no sheet: the circle guide has a hole for each of its discs."""
    plan = make_plan(one_tier("shape = 'ball'\ncarving = {}\n", depth="8 in"))
    printed = [piece for piece in templates(plan) if piece.kind == "carving-guide"]
    assert printed
    assert all(not piece.printed and piece.instead == "circle guide" for piece in printed)
    (holes,) = (_tuple(p, "radii_mm") for p in plan.pieces if p.kind == "circle-guide")
    for radius in (r for piece in guides(plan) for r in _tuple(piece, "radii_mm")):
        assert any(math.isclose(radius, hole, abs_tol=0.05) for hole in holes)


def test_a_square_guide_is_printed_as_a_quarter() -> None:
    """A guide that mirrors in itself is laid on parchment folded in four."""
    plan = make_plan(one_tier(SQUARE))
    printed = [piece for piece in templates(plan) if piece.kind == "carving-guide"]
    assert [len(p.unfolding.mirrors) if p.unfolding else 0 for p in printed] == [2, 2]


def test_the_bench_list_says_what_is_baked_and_cut_off() -> None:
    """What is baked for a carved tier fills its tins: the cake kept and what is cut off."""
    made = make_plan(one_tier(SQUARE + "inside.cake = 'sponge'\n"))
    found = bench(made)
    rows, tins = found["carving"], found["carving_tins"]
    assert [row["layer"] for row in rows] == [1, 2, 3, 4]
    layer = (101.6 - 18) / 4
    areas = {"square 10 in": 254.0**2, "square 8 in": 203.2**2}
    raw = sum(areas[row["tin"]] for row in rows) * layer
    kept = sum(
        (203.2 - 50.8 * (row["base_mm"] + layer * (step + 0.5) / 100) / 101.6) ** 2 * layer / 100
        for row in rows
        for step in range(100)
    )
    cut_off = sum(row["cut_off_g"] for row in rows)
    assert cut_off == pytest.approx((raw - kept) / 1000 * 0.343, rel=1e-3)
    # two layers of 20.9 mm to a tin of 76.2 mm, of which 10 mm are levelled off
    assert [(each["number"], each["tin"]) for each in tins] == [
        (1, "square 10 in"),
        (1, "square 8 in"),
    ]
    assert any(part.title == "To carve" for part in sections(found))


def test_a_deep_tier_has_a_board_inside() -> None:
    """A carved tier deeper than one cake has a board of 3 mm in place of its middle filling."""
    made = make_plan(one_tier("top_size = '6 in'\ncarving = {}\ninside.layers = 6\n", depth="8 in"))
    boards = [each for each in bench(made)["pieces"] if each["what"].startswith("board inside")]
    height = 3 * (203.2 - 3 - 4 * 6) / 6 + 2 * 6
    across = 203.2 - 50.8 * height / 203.2 - 6
    assert [each["sizes_mm"] for each in boards] == [[pytest.approx(across)] * 2]
    assert any(step.get("step") == "carve" for step in bench(made)["times"])
