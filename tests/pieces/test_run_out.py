"""Run-out collars against an independent buffer, and practice sheets at the spacing of the cake."""

from __future__ import annotations

from itertools import pairwise

import pytest
import shapely
import shapely.affinity
from shapely.geometry.base import BaseGeometry

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report_quantities import quantities
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import make_plan
from templates_gen.views.scene import scene
from tests.cakes import cake, one_tier, pieces_of

SHAPES = {
    "round": "",
    "square": "shape = 'square'\ncorner = '10 mm'\n",
    "hexagon": "shape = 'polygon'\nsides = 6\n",
    "petal": "shape = 'petal'\nlobes = 6\n",
    "oval": "shape = 'oval'\nshort = '6 in'\n",
    "heart": "shape = 'heart'\n",
}
ALIKE = {2: {"round", "square", "hexagon", "petal", "oval"}, 4: {"round", "square"}}
"""Shapes that are the same when they are turned by one of so many sections."""
COLLAR = "[tier.run_out]\nwidth = '22 mm'\noverlap = '9 mm'\nsections = "


def area_of(path: Path) -> BaseGeometry:
    """Return what closed contours go round, those within others being holes."""
    rings = [shapely.Polygon(points) for points, _ in sampled(path, 0.005)]
    area: BaseGeometry = rings[0]
    for ring in rings[1:]:
        area = area.symmetric_difference(ring)
    return area


def piped(piece: Piece) -> BaseGeometry:
    """Return what is run in icing on a sheet."""
    (found,) = [each.path for each in piece.drawing.strokes if each.role is Role.PIPE]
    return area_of(found)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_collar_is_the_rim_grown_both_ways(shape: str) -> None:
    """By shapely's buffer of the finished rim, taken out and in, mitred or round alike inside."""
    spec = one_tier(f"{SHAPES[shape]}{COLLAR}1\n")
    (piece,) = [each for each in pieces_of(spec) if each.kind == "run-out"]
    rim = area_of(build_stack(spec).tiers[0].covered.rim.path())
    most, least = rim.buffer(22, join_style="mitre", mitre_limit=9), rim.buffer(22, quad_segs=99)
    inner = rim.buffer(-9, quad_segs=99)
    found = piped(piece)
    # pieces begin at (0, 0): put the middle of the box back
    x, y = (most.bounds[0] - found.bounds[0], most.bounds[1] - found.bounds[1])
    moved = shapely.affinity.translate(found, x, y)
    # corners may be round or pointed; nothing else may differ
    assert moved.difference(most.difference(inner).buffer(0.05)).area < 0.5
    assert least.difference(inner.buffer(0.05)).difference(moved.buffer(0.05)).area < 0.5
    assert piece.values["ring_area_mm2"] == pytest.approx(found.area, rel=1e-3)


@pytest.mark.parametrize("count", [2, 4])
@pytest.mark.parametrize("shape", SHAPES)
def test_sections_make_the_whole_ring(shape: str, count: int) -> None:
    """Together they take as much as the ring; where they are alike one stands for all."""
    found = [
        each
        for each in pieces_of(one_tier(f"{SHAPES[shape]}{COLLAR}{count}\n"))
        if each.kind == "run-out"
    ]
    assert len(found) == (1 if shape in ALIKE[count] else count)
    whole = sum(piped(each).area * each.copies for each in found)
    assert whole == pytest.approx(found[0].values["ring_area_mm2"], rel=2e-3)
    assert all(isinstance(piped(each), shapely.Polygon) for each in found)


def test_icing_drying_and_picture() -> None:
    """Icing by area and thickness; two days to dry before the cake is set up; seen on the top."""
    plan = make_plan(one_tier(f"{COLLAR}4\nthickness = '3 mm'\n"))
    (piece,) = [each for each in plan.pieces if each.kind == "run-out"]
    found = bench(plan)
    (icing,) = found["piping"]
    waste = next(each["value"] for each in found["estimates"] if each["name"] == "waste")
    area = piped(piece).area * 4
    assert icing["volume_ml"] == pytest.approx(area * 3 / 1000 * (1 + waste / 100), rel=2e-3)
    (row,) = (row for row in quantities(found).rows if "run-out" in row[1])
    assert row[1] == "icing for run-out collar"  # it is flooded: no length of lines is said
    steps = {each["step"]: each for each in found["times"]}
    assert steps["run-out collar"]["wait_h"] == 48
    assert steps["run-out collar"]["templates"] == [piece.id]
    assert "run-out collars" in steps["set up"]["what"]
    marks = [mark for body in scene(plan.stack).bodies for mark in body.on_top]
    assert [mark.look.part for mark in marks] == ["tier.0.run_out"]


def test_a_collar_clears_the_tier_above() -> None:
    """It may rest on what is free of the top, less 2 mm, and on no more."""
    text = (
        "[[tier]]\nsize = '8 in'\ndepth = '4 in'\nrun_out.overlap = '{} mm'\n"
        "[[tier]]\nsize = '6 in'\ndepth = '4 in'\n"
    )
    assert pieces_of(cake(text.format(23.3)))
    with pytest.raises(CakeError, match="tier above"):
        pieces_of(cake(text.format(23.5)))


@pytest.mark.parametrize("kind", ["scallops", "waves", "swags", "chevrons"])
def test_practice_rows_have_the_spacing_of_the_cake(kind: str) -> None:
    """In each row copies follow each other by the true width of a repeat, end on end."""
    keys = "width = '70 mm'\ntransfer = { joined = true }\n"  # two of a swag find room in a row
    spec = one_tier(f"[[tier.design]]\nkind = '{kind}'\n{keys}")
    pieces = pieces_of(spec)
    sheet = next(each for each in pieces if each.kind == "piping-sheet")
    girth = build_stack(spec).tiers[0].covered.side.girth
    collar = next(each for each in pieces if each.kind == "collar")
    pitch = girth / int(str(collar.values["repeat_count"]))
    boxes = [each.path.bounds for each in sheet.drawing.strokes if each.role is Role.PIPE]
    row = sorted({round(box.x0, 6) for box in boxes if abs(box.y0 - boxes[0].y0) < 1e-6})
    steps = {round(other - one, 4) for one, other in pairwise(row)}
    assert round(pitch, 4) in steps
    # on a page of A4 or Letter, turned or not
    assert min(sheet.size.size) <= 180 + 1e-6
    assert max(sheet.size.size) <= 225 + 1e-6
    assert len(boxes) > len(row) > 1


def test_rows_of_a_leaning_side_are_not_joined() -> None:
    """Their repeats lie on arcs: the key is refused."""
    lines = "top_size = '6 in'\n[[tier.design]]\nkind = 'swags'\ntransfer = { joined = true }\n"
    with pytest.raises(CakeError, match="leans"):
        pieces_of(one_tier(lines))
