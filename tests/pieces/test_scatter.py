"""Scatter: even, apart, clear of drips and openings, and cut in the number needed."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.spatial import KDTree

from templates_gen.cakefile.lengths import length_of
from templates_gen.drawing.cutouts import CUTOUTS
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import Area, covers, filled, region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.path import Path
from templates_gen.guides import keep_clear
from templates_gen.guides.decorated import DecoratedTier, build_stack
from templates_gen.guides.guide import Guide
from templates_gen.guides.scatter import scatters
from templates_gen.guides.spread import Region, lattice_bound, spread
from templates_gen.sheets.labels import shared_out
from templates_gen.sheets.tiling import splits
from tests.cakes import one_tier, pieces_of, sample_plan


def tier(lines: str, above: str = "", depth: str = "5 in") -> DecoratedTier:
    """Return a tier 8 in wide with a scatter."""
    return build_stack(one_tier(f"{above}\n[[tier.scatter]]\n{lines}", depth=depth)).tiers[0]


def upright(girth: float, tall: float) -> Region:
    """Return the whole of an upright side as a region."""
    return Region(girth, 0, tall, lambda place: True, lambda u, v: (u, -v), girth * tall)


def nearest(places: tuple[tuple[float, float], ...], girth: float) -> list[float]:
    """Return each place's distance from its nearest neighbour, round the girth, by scipy."""
    around = [(u + turn, v) for turn in (-girth, 0, girth) for u, v in places]
    distances, _ = KDTree(around).query(places, k=2)
    return [float(pair[1]) for pair in distances]


def test_the_bound_is_that_of_the_hexagonal_lattice() -> None:
    """Points of a lattice of triangles of side 1: one to each sqrt(3) / 2 of area.

    The densest packing of circles fills pi / sqrt(12) of the plane (MathWorld, "Circle Packing").
    """
    d = lattice_bound(100.0, 50)
    assert 50 * math.pi * (d / 2) ** 2 / 100 == pytest.approx(math.pi / math.sqrt(12))


@given(st.integers(8, 120), st.integers(0, 9999), st.floats(200, 1500), st.floats(40, 200))
@settings(max_examples=40)
def test_places_are_spread_evenly(count: int, seed: int, girth: float, tall: float) -> None:
    """No two are nearer than six tenths of the bound; many in a wide band have neighbours alike.

    Points thrown blindly on a plane have neighbours as near as you like, and their distances spread
    by 0.52 of the mean (Rayleigh: sqrt(4 / pi - 1)).
    """
    places = spread(upright(girth, tall), count, 1.0, seed)
    assert len(places) == count
    bound = lattice_bound(girth * tall, count)
    near = nearest(places, girth)
    assert min(near) >= 0.6 * bound
    mean = sum(near) / count
    if count >= 20 and tall > 2 * bound:
        assert math.sqrt(sum((d - mean) ** 2 for d in near) / count) < 0.25 * mean
    assert all(0 <= u < girth and 0 <= v <= tall for u, v in places)


def test_points_thrown_blindly_fail_that_test() -> None:
    """The comparison can fail: one throw with no least distance is not even."""
    region = upright(700, 100)
    even = spread(region, 60, 1.0, 3)
    blind = tuple((u * 7919 % 700, v * 104729 % 100) for u, v in even)
    assert min(nearest(blind, 700)) < 0.6 * lattice_bound(70_000, 60)


@given(st.data())
@settings(max_examples=25)
def test_pieces_overlap_neither_each_other_nor_drips(data: st.DataObject) -> None:
    """Their true outlines by shapely, round the join too; they stay in their band."""
    drips = data.draw(st.sampled_from(["", "[tier.drips]", "[tier.drips]\npattern = 'front'"]))
    shape = data.draw(st.sampled_from(sorted(CUTOUTS)))
    size, count = data.draw(st.integers(8, 30)), data.draw(st.integers(1, 40))
    solid = tier(
        f"shape = '{shape}'\nsize = '{size} mm'\ncount = {count}\nbottom = '130 mm'\n"
        f"apart = '2 mm'\nshuffle = {data.draw(st.integers(0, 99))}",
        drips,
    )
    guide = scatter_guide(solid)
    assume(guide is not None)
    assert guide is not None
    girth = solid.covered.side.girth
    areas = [filled(stroke.path) for stroke in guide.drawing.strokes]
    assert len(areas) == count == guide.values["placed"]
    assert all(area.bounds[1] >= -1e-6 and area.bounds[3] <= 130 + 1e-6 for area in areas)
    again = [shapely.transform(area, lambda xy: xy + np.array([girth, 0])) for area in areas]
    hanging = tuple(stroke.path for stroke in drips_of(solid).strokes)
    around = [filled(drip) for drip in keep_clear.all_round(hanging, girth)]
    tree = shapely.STRtree([*areas, *again, *around])
    near = tree.query(areas, predicate="dwithin", distance=2 - 0.02)
    assert all(one == other for one, other in near.T)


def drips_of(solid: DecoratedTier) -> Drawing:
    """Return the drips on a side, in (u, v)."""
    return next((each.drawing for each in solid.guides if each.key[2] == "drips"), Drawing())


@pytest.mark.parametrize("shuffle", range(6))
def test_pieces_keep_from_drips_where_a_side_leans(shuffle: int) -> None:
    """On the paper of a steep flare, where distances are true, none is nearer than 3 mm."""
    text = (
        "top_size = '10 in'\n[tier.drips]\nlongest = '80 mm'\nshortest = '60 mm'\n"
        f"[[tier.scatter]]\nshape = 'circle'\ncount = 25\nsize = '12 mm'\nshuffle = {shuffle}"
    )
    solid = build_stack(one_tier(text, size="5 in", depth="5 in")).tiers[0]
    guide = scatter_guide(solid)
    assert guide is not None
    pieces, drips = (
        [filled(stroke.path) for stroke in solid.covered.side.unroll(each).strokes]
        for each in (guide.drawing, drips_of(solid))
    )
    gap = shapely.distance(shapely.union_all(pieces), shapely.union_all(drips))
    assert 3 - 0.02 <= gap < 6


def scatter_guide(solid: DecoratedTier) -> Guide | None:
    """Return the guide of the scatter, or None where there is no room for it."""
    try:
        return next(guide for guide in solid.guides if "placed" in guide.values)
    except CakeError:
        return None


def test_what_is_closed_is_kept_clear() -> None:
    """Where an area of the side is closed, over the join too, nothing is placed."""
    solid = tier("count = 40\nsize = '14 mm'")
    girth = solid.covered.side.girth
    for u, v in scatters(solid, [circle((3.0, 60.0), 40.0)])[0].places:
        away = min(math.hypot(u - 3, v - 60), math.hypot(u - girth - 3, v - 60))
        assert away >= 40 + 7


def test_density_is_pieces_to_a_square_of_ten_centimetres() -> None:
    """694.9 mm round and 100 mm tall: 6.949 squares, at 4 each 28 pieces."""
    solid = tier("density = 4\ntop = '10 mm'\nbottom = '110 mm'\nsize = '12 mm'")
    assert len(solid.scatters[0].places) == 28


def test_a_seed_gives_the_same_and_another_another() -> None:
    """Places depend on the seed alone."""
    tiers = (tier(f"count = 12\nshuffle = {seed}") for seed in (5, 5, 6))
    first, again, other = (each.scatters[0].places for each in tiers)
    assert first == again != other


def test_upright_pieces_are_not_turned() -> None:
    """Left upright, every outline is as wide and tall as the shape."""
    guide = scatter_guide(tier("shape = 'leaf'\nturned = false\ncount = 9"))
    assert guide is not None
    boxes = [stroke.path.bounds for stroke in guide.drawing.strokes]
    assert all(box.height == pytest.approx(20) for box in boxes)


@pytest.mark.parametrize("shuffle", range(1, 9))
def test_of_too_many_it_says_how_many_have_room(shuffle: int) -> None:
    """The count that the message names can be placed: fewer wanted are thrown otherwise."""
    text = f"size = '40 mm'\nshuffle = {shuffle}\ncount = "
    with pytest.raises(CakeError) as caught:
        _ = tier(f"{text}200").scatters
    better = caught.value.problems[0].advice.split(",")[0].removeprefix("write count = ")
    assert int(better) > 10
    assert len(tier(text + better).scatters[0].places) == int(better)


@given(st.integers(1, 120), st.integers(6, 60))
@settings(max_examples=20)
def test_as_many_are_cut_as_are_placed(count: int, size: int) -> None:
    """The cutting sheets together have every number once, none over another, all on the paper."""
    cake = one_tier(
        f"[[tier.scatter]]\nshape = 'star'\ncount = {count}\nsize = '{size} mm'\napart = 0",
        size="20 in",
        depth="8 in",
    )
    try:
        pieces = pieces_of(cake)
    except CakeError:
        assume(False)
    sheets = [piece for piece in pieces if piece.kind == "scatter"]
    assert sum(int(str(sheet.values["pieces"])) for sheet in sheets) == count
    numbers = [label.text for sheet in sheets for label in sheet.drawing.labels]
    assert sorted(int(text) for text in numbers if text.isdigit()) == list(range(1, count + 1))
    for sheet in sheets:
        paper = filled(sheet.outline)
        cuts = [filled(stroke.path) for stroke in sheet.drawing.strokes[1:]]
        assert all(paper.covers(area) for area in cuts)
        tree = shapely.STRtree(cuts)
        assert all(a == b for a, b in tree.query(cuts, predicate="intersects").T)
        assert (sheet.size.width, sheet.size.height) <= (181, 121)


def test_lengths_in_the_figures() -> None:
    """How many, how large, and where each is."""
    solid = tier("count = 5")
    guide = scatter_guide(solid)
    assert guide is not None
    assert guide.values["placed"] == 5
    assert guide.values["size_mm"] == length_of(20).mm
    places = guide.values["places_u_mm"]
    assert isinstance(places, tuple)
    assert len(places) == 5


UNEVEN = {
    "tapered": ("top_size = '7 in'", "10 in", "6 in"),
    "tapered upwards": ("top_size = '12 in'", "6 in", "5 in"),
    "sloped": ("shallowest_depth = '4 in'", "8 in", "8 in"),
    "tapered square": ("shape = 'square'\ncorner = '10 mm'\ntop_size = '8 in'", "10 in", "5 in"),
    "heart": ("shape = 'heart'", "9 in", "5 in"),
}


def laid(solid: DecoratedTier, paths: Iterable[Path], turn: float = 0.0) -> list[Area]:
    """Return areas drawn on a side as they lie on its paper."""
    strokes = tuple(Stroke(path.moved(turn, 0), Role.GUIDE) for path in paths)
    unrolled = solid.covered.side.unroll(Drawing(strokes))
    return [region(stroke.path) for stroke in unrolled.strokes]


@pytest.mark.parametrize("name", UNEVEN)
def test_pieces_lie_on_the_paper_as_large_as_they_are_and_clear_of_all_else(name: str) -> None:
    """Circles of 20 mm are 20 mm on the paper, apart over the join too, on no corner, all on it."""
    lines, size, depth = UNEVEN[name]
    text = f"{lines}\n[[tier.lettering]]\ntext = 'Ada'\n"
    text += "".join(
        f"[[tier.scatter]]\nshape = '{shape}'\nsize = '20 mm'\ncount = 9\napart = '2 mm'\n"
        for shape in ("circle", "heart")
    )
    cake = one_tier(text, size, depth)
    (solid,) = build_stack(cake).tiers
    made = solid.scatters
    assert set(made) == {0, 1}
    for area in laid(solid, made[0].placed):
        assert area.area == pytest.approx(math.pi * 100, abs=0.5)
    side = solid.covered.side
    pieces = [path for each in made.values() for path in each.placed]
    letters = [path for each in solid.letterings_on_side.values() for path in each.on_side]
    areas = laid(solid, [*pieces, *letters])
    others = [*areas, *laid(solid, pieces, side.girth), *laid(solid, pieces, -side.girth)]
    near = shapely.STRtree(others).query(areas[: len(pieces)], "dwithin", distance=2 - 0.03)
    assert all(one == other for one, other in near.T)
    for path in pieces:
        box = path.bounds
        assert not any(box.x0 < u < box.x1 for u in solid.covered.rim.corners)
        assert box.y0 >= -0.03
        points = [point for contour, _ in sampled(path) for point in contour]
        assert all(v <= side.foot_at(u) + 0.03 for u, v in points)


@pytest.mark.parametrize("name", ["sloped", "tapered upwards"])
def test_every_number_is_on_the_collar(name: str) -> None:
    """Of a sloped tier as of others, on the parts of it too, and every outline whole."""
    lines, size, depth = UNEVEN[name]
    cake = one_tier(f"{lines}\n[[tier.scatter]]\nshape = 'heart'", size, depth)
    (solid,) = build_stack(cake).tiers
    made = solid.scatters[0]
    count = len(made.places)
    collar = next(piece for piece in pieces_of(cake) if piece.kind == "collar")
    paper = region(collar.outline)
    numbers = [label for label in collar.drawing.labels if label.text.isdigit()]
    assert len(numbers) == count > 20
    assert all(paper.contains(shapely.Point(label.at)) for label in numbers)
    drawn_on = Taken(stroke.path for stroke in collar.drawing.strokes)
    for lattice in splits(collar, 190, 260):
        shared = [label for labels in shared_out(lattice, drawn_on).values() for label in labels]
        split = [label for label in shared if label.text.isdigit()]
        assert len(split) == count
        assert all(covers(paper, label.box) for label in split)
    drawn = [s.path for s in collar.drawing.strokes if s.path.commands[-1][0] == "closePath"]
    hearts = [path for path in drawn if path.bounds.width < 30]
    # one over the back join is drawn in part at either end
    boxes = [path.bounds for path in made.placed]
    whole = sum(box.x0 >= 0 and box.x1 <= solid.covered.side.girth for box in boxes)
    assert len([path for path in hearts if paper.covers(region(path))]) >= whole > 20


def test_a_fault_of_another_thing_is_told_once_and_at_its_own_place() -> None:
    """Drips and lettering that cannot be made are told as theirs, not as a fault of the scatter."""
    with pytest.raises(CakeError) as caught:
        pieces_of(one_tier("[tier.drips]\nlongest = '9 in'\n[[tier.scatter]]\ncount = 5"))
    assert [problem.key[2] for problem in caught.value.problems] == ["drips"]
    with pytest.raises(CakeError) as caught:
        pieces_of(
            one_tier("[[tier.lettering]]\ntext = 'x'\nwidth = '9 in'\n[[tier.scatter]]\ncount = 5")
        )
    assert [problem.key[2] for problem in caught.value.problems] == ["lettering"]


def test_a_number_without_room_in_its_middle_stays_in_its_piece() -> None:
    """In a wing of a butterfly whose waist is too narrow for it, and not beside another one."""
    plan = sample_plan("paper-garden")
    collar = next(each for each in plan.pieces if each.id == "top/collar")
    made = plan.stack.tiers[-1].scatters[0]
    numbers = {each.text: each for each in collar.drawing.labels if each.text.isdigit()}
    assert len(numbers) == len(made.places) == 12
    side = plan.stack.tiers[-1].covered.side
    u0, v0 = made.places[0]
    x0, y0 = numbers["1"].box.centre
    shift = x0 - side.flat(u0, v0)[0], y0 - side.flat(u0, v0)[1]
    for number, (u, v) in enumerate(made.places, 1):
        x, y = side.flat(u, v)
        at = numbers[str(number)].box.centre
        assert math.dist(at, (x + shift[0], y + shift[1])) < made.spec.size.mm / 2
