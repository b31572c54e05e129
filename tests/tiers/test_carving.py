"""Carved tiers, against an independent solid, circles of a sphere and the tins themselves."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Literal

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from templates_gen.bench.carving import boards_inside
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.carving import Carving
from templates_gen.cakefile.lengths import Length
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.guides.decorated import DecoratedTier, build_stack
from templates_gen.tiers.carving import CarvedLayer, carved_layers, section, section_radius
from templates_gen.tiers.layered import layered
from tests.cakes import cake, one_tier
from tests.solids import Model, ball_volume
from tests.strategies import any_cakes

Shape = Literal["round", "square", "either"]
THIN = "inside = { layers = 5, filling_thickness = '0.5 mm' }\ncarving = {}\n"
TIERS = {
    "taper": "shape = 'square'\ntop_size = '5 in'\n",
    "flare": "shape = 'oval'\nshort = '5 in'\ntop_size = '9 in'\n",
    "slope": "shallowest_depth = '1.5 in'\nslopes_down_to = 'left'\n",
    "heart": "shape = 'heart'\n",
}


def tier_of(made: Cake) -> DecoratedTier:
    """Return the one tier of a cake."""
    return build_stack(made).tiers[0]


def layers_of(made: Cake) -> tuple[CarvedLayer, ...]:
    """Return the carved layers of the one tier of a cake."""
    return carved_layers(tier_of(made), made.estimates)


@pytest.mark.parametrize("name", TIERS)
def test_layers_and_fillings_make_the_solid(name: str) -> None:
    """What all layers keep, and the fillings between them, is the volume of the solid."""
    made = one_tier(TIERS[name] + THIN, "7 in")
    model, layers = Model(made.tier[0], 0.0), layers_of(made)
    assert len(layers) == 5
    between = [(a.top, b.base) for a, b in pairwise(layers)]
    fillings = sum((b - a) * _area_at(model, (a + b) / 2) for a, b in between)
    whole = sum(layer.kept for layer in layers) + fillings
    assert whole == pytest.approx(model.volume, rel=1e-3)


def _area_at(model: Model, z: float) -> float:
    """Return the area of a section of the independent solid; under a slope what is below its top.

    The part under the top is cut out by strips of the plan, so that no clipping of ours is used.
    """
    whole = model.section(z)
    if model.slope == (0.0, 0.0):
        return float(whole.area)
    x0, y0, x1, y1 = whole.bounds
    kept = [
        shapely.box(x0 + step * (x1 - x0) / 400, y0, x0 + (step + 1) * (x1 - x0) / 400, y1)
        for step in range(400)
        if model.top(x0 + (step + 0.5) * (x1 - x0) / 400, 0.0) >= z
    ]
    return float(whole.intersection(shapely.union_all(kept)).area)


@pytest.mark.parametrize(("size", "depth"), [(8, 8), (8, 5), (8, 4), (10, 3)])
def test_a_ball_is_a_stack_of_discs(size: int, depth: int) -> None:
    """Each radius is √(R² - h²), h from the centre; the layers make the volume of the ball."""
    made = one_tier("shape = 'ball'\n" + THIN, f"{size} in", f"{depth} in")
    radius, centre = size * 12.7, depth * 25.4 - size * 12.7
    layers, tier = layers_of(made), tier_of(made)
    for z in (z for layer in layers for z in (layer.base, layer.top)):
        true = math.sqrt(max(radius**2 - (z - centre) ** 2, 0))
        assert section_radius(tier, z) == pytest.approx(true, abs=1e-9)
    fillings = sum(
        (b.base - a.top) * math.pi * (radius**2 - ((a.top + b.base) / 2 - centre) ** 2)
        for a, b in pairwise(layers)
    )
    whole = sum(layer.kept for layer in layers) + fillings
    assert whole == pytest.approx(ball_volume(size * 25.4, depth * 25.4, 0.0), rel=2e-3)


def test_an_own_outline_keeps_its_area_at_every_layer() -> None:
    """A T of 80 by 30 and 30 by 40, 80 as long as the size: its area times the layers."""
    outline = "shape = 'custom'\noutline = 'M0 0 h80 v30 h-25 v40 h-30 v-40 h-25 z'\n"
    layers = layers_of(one_tier(outline + THIN, "160 mm", "90 mm"))
    area = (80 * 30 + 30 * 40) * 4
    assert [layer.kept for layer in layers] == pytest.approx([area * (90 - 4 * 0.5) / 5] * 5)


@given(any_cakes(), st.floats(0, 30), st.sampled_from(("round", "square", "either")))
@settings(max_examples=25)
def test_every_layer_has_room_in_its_tin(made: Cake, spare: float, tins: Shape) -> None:
    """No section of a layer comes nearer to the side of its tin than the spare cake."""
    carving = Carving(tins=tins, spare=Length(spare, f"{spare} mm"))
    tiers = [tier.model_copy(update={"carving": carving}) for tier in made.tier]
    try:
        stack = build_stack(made.model_copy(update={"tier": tuple(tiers)}))
    except CakeError:  # for what is on it: a garland over a ball, say
        assume(False)
    found = [(t, layer) for t in stack.tiers for layer in carved_layers(t, made.estimates)]
    for tier, layer in found:
        half = layer.tin.across / 2 - spare
        for step in range(11):
            z = layer.base + (layer.top - layer.base) * step / 10
            for x, y in (p for ring, _ in sampled(section(tier, z)) for p in ring):
                far = math.hypot(x, y) if layer.tin.shape == "round" else max(abs(x), abs(y))
                assert far <= half + 1e-6
        assert layer.cut_off > 0


def test_the_tin_is_as_small_as_can_be() -> None:
    """Round or square as asked; of either the one that wastes less; beyond 16 in not ordinary."""
    for tins, wanted in (("round", "round 10 in"), ("square", "square 8 in")):
        made = one_tier(f"shape = 'heart'\ncarving = {{ tins = '{tins}', spare = '0 mm' }}\n")
        assert {str(layer.tin) for layer in layers_of(made)} == {wanted}, tins
    wide = one_tier("shape = 'square'\ntop_size = '15.5 in'\ncarving = {}\n", "16 in", "3 in")
    tins_of_wide = [layer.tin for layer in layers_of(wide)]
    assert str(tins_of_wide[0]) == "square 18 in"
    assert not tins_of_wide[0].is_ordinary


@pytest.mark.parametrize(
    ("size", "top", "tins"),
    [
        ("8 in", "7 in", ["round 10 in", "round 8 in"]),
        ("20 cm", "15 cm", ["round 25 cm", "round 20 cm"]),
        ("200 mm", "150 mm", ["round 25 cm", "round 20 cm"]),
        ("43 cm", "40 cm", ["round 45 cm"]),
    ],
)
def test_tins_are_in_the_unit_of_the_tier(size: str, top: str, tins: list[str]) -> None:
    """Tins of 10, 15, 20 cm and so on where the tier is in cm or mm: common practice, no source."""
    made = one_tier(f"top_size = '{top}'\ncarving = {{ tins = 'round' }}\n", size)
    found = [layer.tin for layer in layers_of(made)]
    assert list(dict.fromkeys(map(str, found))) == tins
    assert all(tin.is_ordinary == (tin.across <= 16 * 25.4) for tin in found)


def test_what_has_a_tin_of_its_own_is_not_carved() -> None:
    """An upright round or square tier is baked in its tin, a dummy not at all."""
    for lines in ("", "shape = 'square'\n", "top_size = '6 in'\ndummy = true\n"):
        assert layers_of(one_tier(lines + "carving = {}\n")) == ()
    assert layers_of(one_tier("top_size = '6 in'\n")) == ()


@pytest.mark.parametrize(
    ("lines", "boards", "heights"),
    [
        # 200 mm in two: 6 layers with 4 fillings of 5 mm and a card of 3 mm
        ("layers = 6", 1, [0, 34.5, 69, 101.5, 136, 170.5]),
        # in three of up to 70 mm: 3 fillings and 2 cards
        (
            "layers = 6 }\n[estimates]\ndeepest = '70 mm'\n#",
            2,
            [0, 34.8333, 67.6667, 102.5, 135.3333, 170.1667],
        ),
        ("layers = 1", 1, [0, 101.5]),
    ],
)
def test_boards_between_layers_take_their_thickness(
    lines: str, boards: int, heights: list[float]
) -> None:
    """Layers, fillings and cards of 3 mm add up to the depth, by hand; a card is no filling."""
    made = cake(
        "[[tier]]\nsize = '8 in'\ndepth = '200 mm'\nshape = 'heart'\ncarving = {}\n"
        f"inside = {{ filling_thickness = '5 mm', {lines} }}"
    )
    layers = layers_of(made)
    assert [layer.base for layer in layers] == pytest.approx(heights, abs=1e-3)
    assert layers[-1].top == pytest.approx(200)
    fillings = len(layers) - 1 - boards
    deep = sum(layer.top - layer.base for layer in layers)
    assert deep + 5 * fillings + 3 * boards == pytest.approx(200)
    cards = list(boards_inside(tier_of(made), made.estimates))
    ends = [layer.top for layer in layers]
    assert all(any(height == pytest.approx(end) for end in ends) for height, _ in cards)
    assert len(cards) == boards


def test_layers_are_those_of_the_inside() -> None:
    """Levels are the layers of cake with the fillings between, from the base to the top."""
    made = cake(
        "[[tier]]\nsize = '8 in'\ndepth = '100 mm'\nshape = 'heart'\ncarving = {}\n"
        "inside = { layers = 4, filling_thickness = '8 mm' }\n"
    )
    heights = [(layer.base, layer.top) for layer in layers_of(made)]
    assert heights == [(0.0, 19.0), (27.0, 46.0), (54.0, 73.0), (81.0, 100.0)]
    inside = layered(tier_of(made), made.estimates)
    assert inside is not None
    assert list(inside.levels) == heights
