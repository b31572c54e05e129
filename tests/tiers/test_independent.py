"""Every tier against an independent solid: volumes, thickness of layers, areas laid flat."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from shapely.geometry import Point

from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.reading import cake_from
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.guides.decorated import DecoratedTier, build_stack
from templates_gen.guides.drips import drip_row, drips_drawing
from templates_gen.pieces import collar, wrap
from templates_gen.pieces.laid_flat import strip_edge, within_side
from templates_gen.tiers.drape import drape_outline
from templates_gen.tiers.solid import Layer
from templates_gen.tiers.volume import volume
from tests import solids
from tests.solids import Model
from tests.strategies import plans

NEAR = 0.05
"""How far a surface may lie from that of the independent solid, mm."""


def made(**lines: object) -> DecoratedTier:
    """Return the one tier of a cake with keys of the cake file, numbers in mm."""
    keys = {
        key: length_of(value) if isinstance(value, int | float) and key not in COUNTS else value
        for key, value in lines.items()
    }
    return build_stack(cake_from({"tier": [keys]})).tiers[0]


COUNTS = ("sides", "lobes")
quick = settings(max_examples=15, phases=[Phase.explicit, Phase.reuse, Phase.generate])


def layers(tier: DecoratedTier) -> list[tuple[Layer, Model]]:
    """Return the surfaces of a tier beside the independent ones."""
    coating, paste = tier.spec.coating_mm, tier.spec.paste_mm
    thick = (0.0, coating, coating + paste)
    surfaces = (tier.bare, tier.coated, tier.covered)
    return [(a, Model(tier.spec, b)) for a, b in zip(surfaces, thick, strict=True)]


@st.composite
def tiers(draw: st.DrawFn) -> DecoratedTier:
    """Tiers of every shape with coating and paste: upright, sloped, tapered either way."""
    size, depth = draw(st.integers(150, 350)), draw(st.integers(80, 200))
    shape = draw(plans(size).filter(lambda plan: plan["shape"] != "custom"))
    tapered = st.fixed_dictionaries({"top_size": st.integers(round(0.7 * size), round(1.2 * size))})
    sloped = st.fixed_dictionaries(
        {
            "shallowest_depth": st.integers(round(0.3 * depth), depth),
            "slopes_down_to": st.sampled_from(["front", "back", "left", "right"]),
        }
    )
    solid = draw(st.one_of(st.just({}), sloped, tapered))
    thick = {"coating": draw(st.integers(2, 8)), "fondant": draw(st.integers(2, 6))}
    return made(size=size, depth=depth, cover="panelled", **shape, **solid, **thick)


@quick
@given(tiers())
def test_every_surface_goes_round_what_the_independent_solid_holds(tier: DecoratedTier) -> None:
    """Bare, coated and covered: the same volume to a few parts in ten thousand."""
    for layer, model in layers(tier):
        assert volume(tier, layer) == pytest.approx(model.volume, rel=5e-4)


@quick
@given(tiers(), st.floats(0, 1))
def test_layers_are_as_thick_as_asked_square_to_every_surface(
    tier: DecoratedTier, start: float
) -> None:
    """Every place of a covered side is coating and paste away from the bare one, its rim on top."""
    layer, model = layers(tier)[-1]
    side = layer.side
    for step in range(24):
        u = (start + step / 24) % 1 * side.girth
        x, y, z = side.in_space(u, 0.0)
        assert z == pytest.approx(model.top(x, y), abs=NEAR)
        for share in (0.0, 1.0):
            x, y, z = side.in_space(u, share * side.foot_at(u))
            assert model.section(z).exterior.distance(Point(x, y)) < NEAR


@quick
@given(tiers())
def test_a_side_laid_flat_is_as_large_as_it_is_in_space(tier: DecoratedTier) -> None:
    """Paper, figures, and the side in space: by how the volume grows with the thickness."""
    layer, model = layers(tier)[-1]
    sheet = strip_edge(0.0, layer.side.foot_at, 0.0, layer.side.girth)
    drawn = region(layer.side.unrolled(sheet), 1e-3).area
    true = solids.side_area(model)
    assert drawn == pytest.approx(true, rel=1e-3)
    assert layer.side.area == pytest.approx(true, rel=1e-3)


@pytest.mark.parametrize(("low", "coating_ml"), [(90, 578.6), (150, 669.1)])
def test_a_sloped_top_is_coated_as_thick_as_the_side(low: float, coating_ml: float) -> None:
    """8 in, 150 mm falling to ``low``, 5 mm of coating; by arithmetic, pi r^2 times mean depth."""
    tier = made(size=203.2, depth=150, shallowest_depth=low, coating=5, fondant=5)
    slope = (150 - low) / 203.2
    mean = (150 + low) / 2
    by_hand = math.pi * (106.6**2 * (mean + 5 * math.hypot(1, slope)) - 101.6**2 * mean) / 1000
    coated, bare = (volume(tier, layer) for layer in (tier.coated, tier.bare))
    assert by_hand == pytest.approx(coating_ml, abs=0.5)
    assert (coated - bare) / 1000 == pytest.approx(by_hand, rel=1e-9)


def test_a_steep_top_stays_under_its_layers() -> None:
    """12 in deep falling to 1 in: the covered rim is above the bare top, not below it."""
    tier = made(size=203.2, depth=304.8, shallowest_depth=25.4, coating=5, fondant=5)
    rise = 10 * math.hypot(1, (304.8 - 25.4) / 203.2)
    at_front = tier.covered.side.in_space(tier.covered.side.girth / 2, 0.0)
    model = Model(tier.spec, 0.0)
    assert at_front[2] - model.top(*at_front[:2]) == pytest.approx(rise, abs=1e-6)


@pytest.mark.parametrize("depth", [200, 150, 100, 60])
def test_a_ball_goes_round_what_its_triangles_hold(depth: float) -> None:
    """Whole and cut, bare, coated and covered: to a thousandth."""
    tier = made(size=200, depth=depth, shape="ball", coating=6, fondant=4)
    for layer, thick in ((tier.bare, 0), (tier.coated, 6), (tier.covered, 10)):
        found = solids.ball_volume(200, depth, thick)
        assert volume(tier, layer) == pytest.approx(found, rel=1e-3)


UNEVEN: list[dict[str, object]] = [
    {"shape": "oval", "short": 140},
    {"shape": "rectangle", "short": 140},
    {"shape": "heart"},
    {"shape": "petal", "lobes": 8},
]
"""Plans whose tapered sides lean otherwise from place to place."""


@pytest.mark.parametrize("shape", UNEVEN, ids=lambda shape: str(shape["shape"]))
@pytest.mark.parametrize("top", [160, 260])
def test_drips_are_as_long_on_a_taper_as_they_were_made(
    shape: dict[str, object], top: float
) -> None:
    """From the rim down to its foot every drip of 60 mm is 60 mm long in space."""
    drips = {"spacing": "30 mm", "width": "8 mm", "lengths": ["60 mm"], "pattern": "listed"}
    tier = made(size=220, depth=130, top_size=top, coating=5, fondant=5, drips=drips, **shape)
    assert tier.spec.drips is not None
    side, row = tier.covered.side, drip_row(tier, tier.spec.drips, tier.openings)
    for stroke, u in zip(drips_drawing(row, side).strokes, row.positions, strict=True):
        rim, foot = side.in_space(u, 0.0), side.in_space(u, stroke.path.bounds.y1)
        assert math.dist(rim, foot) == pytest.approx(60, abs=0.01)


@pytest.mark.parametrize("shape", [{"shape": "round"}, *UNEVEN], ids=lambda s: str(s["shape"]))
@pytest.mark.parametrize(
    "solid", [{"top_size": 150}, {"top_size": 280}, {"shallowest_depth": 50}], ids=str
)
def test_a_drape_laid_with_its_middle_on_the_top_reaches_the_foot(
    shape: dict[str, object], solid: dict[str, object]
) -> None:
    """At the foot no less than the trim is left at any place, by the straight way down the side."""
    tier = made(size=220, depth=200, coating=5, fondant=4, trim=15, cover="drape", **solid, **shape)
    side, sheet = tier.coated.side, region(drape_outline(tier).path())
    along = math.hypot(1, tier.coated.fall.rate) if tier.coated.fall else 1.0
    for step in range(48):
        u = side.girth * (step + 0.5) / 48
        top, foot = side.in_space(u, 0.0), side.in_space(u, side.foot_at(u))
        # straight on over the rim, flat: the top as long as the slope makes it
        over = Point(top[0], top[1] * along).buffer(math.dist(top, foot) + 14.99)
        assert sheet.contains(over)


def test_a_plan_that_no_layer_fits_says_how_far_it_is_off() -> None:
    """A hollow that the paste closes is laid at the mean slant, and the paper says how near."""
    hollow = "M0 0 h80 v60 h-37 v-30 h-6 v30 h-37 z"
    keys = {"size": 220, "depth": 100, "top_size": 120, "coating": 5, "fondant": 5}
    tier = made(shape="custom", outline=hollow, cover="panelled", **keys)
    assert tier.covered.off > 0.25
    pieces = [*collar.build(tier), *wrap.build(tier)]
    said = [warning.text for piece in pieces for warning in piece.warnings]
    assert sum("off" in text for text in said) == 2


@pytest.mark.parametrize("lobes", [8, 12])
@pytest.mark.parametrize("top", [210, 150])
def test_paper_of_a_tapered_petal_is_no_larger_than_its_side(lobes: int, top: float) -> None:
    """Guides that go on over the creases do not leave the collar."""
    design = [{"kind": "waves"}, {"kind": "swags"}]
    keys = {"size": 200, "depth": 100, "top_size": top, "coating": 5, "fondant": 4}
    tier = made(shape="petal", lobes=lobes, cover="panelled", design=design, **keys)
    side = tier.covered.side
    most = max(side.girth, side.girth * side.girth_ratio(side.depth)) + side.longest
    for piece in (*collar.build(tier), *wrap.build(tier)):
        assert max(piece.size.size) < most + 4 * tier.spec.trim.mm


def test_a_piece_larger_than_its_side_is_a_fault_of_the_program() -> None:
    """Such paper is not printed: the run ends instead."""
    tier = made(size=200, depth=100)
    (piece,) = collar.build(tier)
    far = replace(piece, outline=rectangle(Box(0, 0, 8400, 1500)))
    with pytest.raises(AssertionError, match="larger than the side"):
        within_side(far, tier.covered, 15.0)


@pytest.mark.parametrize(
    ("shape", "other"), [("heart", {}), ("oval", {"short": 200}), ("rectangle", {"short": 200})]
)
def test_what_has_one_v_is_level(shape: str, other: dict[str, float]) -> None:
    """A band on a side that slopes unevenly is at one height all round the cake."""
    keys = {"size": 250, "top_size": 180, "depth": 120, "coating": 5, "fondant": 4, **other}
    tier = made(shape=shape, **keys)
    side = tier.covered.side
    heights = {side.in_space(u * side.girth / 40, 0.4 * side.depth)[2] for u in range(40)}
    assert max(heights) - min(heights) < 1e-6
    assert max(heights) == pytest.approx(0.6 * side.in_space(0, 0)[2], abs=1e-6)
