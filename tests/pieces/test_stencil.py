"""Stencils: nothing falls out, bridges are as wide as asked, a strip steps round the tier."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.cakefile.reading import parse_cake
from templates_gen.cakefile.source import CakeText
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.piece import Piece
from templates_gen.errors import CakeError
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import difference, region
from templates_gen.geometry.areas.stencil import openings_of
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.plan import make_plan
from templates_gen.printing.templates import templates
from tests.cakes import cake, one_tier, pieces_of
from tests.drawn_cakes import ARTWORK


def stencils(lines: str, size: str = "8 in") -> list[Piece]:
    """Return the stencils of a cake of one tier."""
    return [piece for piece in pieces_of(one_tier(lines, size=size)) if piece.kind == "stencil"]


def holds(piece: Piece) -> bool:
    """Tell whether the sheet without its openings is one piece, by shapely alone."""
    openings = [region(path) for path in piece.openings]
    left = shapely.difference(region(piece.outline), shapely.union_all(openings))
    return bool(left.geom_type == "Polygon" and left.is_valid)


@pytest.mark.parametrize("kind", [kind for kind in DESIGNS if kind != "artwork"])
@pytest.mark.parametrize("more", ["", "top_size = '7 in'\n"], ids=["upright", "tapered"])
def test_nothing_falls_out_of_a_design(kind: str, more: str) -> None:
    """The sheet minus the openings is one connected piece, for every design, tapered tiers too."""
    (piece,) = stencils(f"{more}[[tier.design]]\nkind = '{kind}'\nstencil = {{}}\n")
    assert holds(piece)
    assert len(piece.openings) > 2


def test_nothing_falls_out_of_artwork() -> None:
    """A motif from a file is a stencil like any other: one sheet, its lines and areas open."""
    text = (
        "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n[[tier.design]]\nkind = 'artwork'\n"
        "file = 'sprig.svg'\nwidth = '50 mm'\nheight = '40 mm'\nstencil = {}\n"
    )
    made = parse_cake(CakeText("test.toml", text, folder=ARTWORK))
    (piece,) = [each for each in pieces_of(made) if each.kind == "stencil"]
    assert holds(piece)
    assert len(piece.openings) > 4


def test_stencils_can_be_left_out_of_the_pack() -> None:
    """They have a key of their own among the templates, as other kinds have."""
    text = "[templates]\nstencils = 'none'\n[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"
    design = "[[tier.design]]\nkind = 'scallops'\nstencil = {}\n"
    made = templates(make_plan(cake(text + design)))
    assert [each.printed for each in made if each.kind == "stencil"] == [False]


@settings(max_examples=12)
@given(
    st.text(alphabet="ABDOPQRabdegopq0469&8@%é", min_size=1, max_size=6),
    st.sampled_from(["script", "bold"]),
    st.integers(1, 4),
    st.integers(1, 3),
)
def test_nothing_falls_out_of_letters(text: str, font: str, bridges: int, bridge: int) -> None:
    """Whatever has an inside, in either face, is held by its bridges."""
    lines = f"[[tier.lettering]]\ntext = '{text}'\nfont = '{font}'\ncap_height = '20 mm'\n"
    lines += f"stencil.bridge = '{bridge} mm'\nstencil.bridges = {bridges}\n"
    (piece,) = stencils(lines, "12 in")
    assert holds(piece)


@settings(max_examples=10)
@given(st.floats(1, 4), st.integers(1, 4), st.floats(8, 30), st.floats(0.3, 0.6))
def test_bridges_are_as_many_and_as_wide_as_asked(
    width: float, count: int, radius: float, inner: float
) -> None:
    """A ring is cut into as many parts as it has bridges, and loses their area."""
    sheet = region(rectangle(Box(-50, -50, 50, 50)))
    ring = difference(region(circle((0, 0), radius)), [region(circle((0, 0), radius * inner))])
    assert ring is not None
    openings = [region(path) for path in openings_of(sheet, [ring], width, count)]
    assert len(openings) == count
    lost = ring.area - sum(each.area for each in openings)
    # a band across the ring, straight where the ring bends
    assert lost == pytest.approx(count * width * radius * (1 - inner), rel=0.1)


@pytest.mark.parametrize(
    ("text", "font", "height"),
    [("90 @", "bold", 20), ("ABO8", "script", 18), ("Ada", "script", 42)],
)
def test_nothing_hangs_by_less_than_a_bridge(text: str, font: str, height: int) -> None:
    """Cut back by nearly half a bridge all round, the sheet is still in one part, but for specks.

    What letters nearly close, as the turn of an a, would tear off where they all but touch.
    """
    (piece,) = stencils(
        f"[[tier.lettering]]\ntext = '{text}'\nfont = '{font}'\ncap_height = '{height} mm'\n"
        "on = 'top'\nstencil = {bridge = '2 mm', bridges = 1}\n"
    )
    openings = [region(path) for path in piece.openings]
    left = shapely.difference(region(piece.outline), shapely.union_all(openings))
    _, *others = sorted(map(shapely.area, shapely.get_parts(left.buffer(-0.8))), reverse=True)
    assert sum(others) < 1.5
    assert sum(each.area for each in openings) > 50


def test_bridges_stand_where_they_show_least() -> None:
    """Of an opening that is thin on one side the bridge stands there."""
    sheet = region(rectangle(Box(-50, -50, 50, 50)))
    ring = difference(region(circle((0, 0), 20)), [region(circle((6, 0), 10))])
    assert ring is not None
    (opening,) = (region(path) for path in openings_of(sheet, [ring], 2, 1))
    lost = shapely.difference(ring, opening)
    assert lost.centroid.x > 15
    assert abs(lost.centroid.y) < 1


@pytest.mark.parametrize(("text", "height"), [("Rae", 19), ("Ada", 19.05)])
def test_bridges_stay_where_a_length_is_off_by_rounding(text: str, height: float) -> None:
    """A millionth of a mm more moves no edge of an opening by more than a knife's point.

    So a cake in inches has the stencil that it has in mm.
    """

    def edges(tall: float) -> shapely.Geometry:
        lines = f"text = '{text}'\nfont = 'script'\ncap_height = '{tall:.6f} mm'\nstencil = {{}}\n"
        (piece,) = stencils(f"[[tier.lettering]]\n{lines}")
        return shapely.union_all([region(path) for path in piece.openings]).boundary

    moved = shapely.hausdorff_distance(edges(height), edges(height + 1e-6), densify=0.05)
    assert moved < 0.05


def test_a_strip_steps_round_the_tier_by_its_holes() -> None:
    """Left and right holes are as many repeats apart as the strip has: whole steps close."""
    (piece,) = stencils(
        "[[tier.design]]\nkind = 'swags'\ntop = '20 mm'\ncount = 12\nstencil = {}\n"
    )
    holes = [path for path in piece.openings if abs(region(path).area - 7.07) < 0.1]
    xs = sorted(region(path).centroid.x for path in holes)
    step = float(piece.values["step_mm"])  # type: ignore[arg-type]
    assert xs[-1] - xs[0] == pytest.approx(step, abs=1e-3)
    girth = next(
        piece.values["length_mm"] for piece in pieces_of(one_tier()) if piece.kind == "collar"
    )
    assert float(girth) / step == pytest.approx(round(float(girth) / step * 12) / 12)  # type: ignore[arg-type]


def test_slots_are_as_wide_as_asked() -> None:
    """A line of a design is cut as wide as the slot, and ends half a bridge before the next."""
    areas = []
    for slot in (1, 2):
        lines = "[[tier.design]]\nkind = 'swags'\ncount = 12\n"
        (piece,) = stencils(f"{lines}stencil.slot = '{slot} mm'\n")
        areas.append(max(region(path).area for path in piece.openings))
    assert areas[1] == pytest.approx(2 * areas[0], rel=0.01)


def test_repeats_that_differ_have_no_stencil() -> None:
    """From face to face of a rectangle a strip cannot step: an error says so."""
    lines = "shape = 'rectangle'\nshort = '6 in'\n[[tier.design]]\nkind = 'pearls'\nper = 'face'\n"
    with pytest.raises(CakeError, match="stencil"):
        stencils(f"{lines}stencil = {{}}\n")


def test_no_stencil_unless_asked() -> None:
    """A design or lettering without the key has none."""
    assert not stencils("[[tier.design]]\n[[tier.lettering]]\ntext = 'B'\n")


def test_openings_that_the_bridges_fill_are_refused() -> None:
    """Letters of 5 mm with bridges of 3 mm: nothing is left to cut, and the message says so."""
    text = (
        "[[tier]]\nsize = '21 cm'\ndepth = '16 cm'\n[[tier.lettering]]\ntext = 'o'\n"
        "cap_height = '5 mm'\n[tier.lettering.stencil]\nbridge = '6 mm'\nbridges = 3\n"
    )
    with pytest.raises(CakeError, match="nothing of it is large enough to cut out"):
        pieces_of(cake(text))


def test_a_design_that_cannot_be_made_is_refused_once() -> None:
    """The stencil takes the design as the side has it, so its fault has one place."""
    text = (
        "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n[[tier.design]]\nkind = 'pearls'\n"
        "form = 'square'\ntop = '28 mm'\nbottom = '42 mm'\nrows = 4\n[tier.design.stencil]\n"
    )
    with pytest.raises(CakeError) as caught:
        pieces_of(cake(text))
    assert [problem.key for problem in caught.value.problems] == [("tier", 0, "design", 0, "rows")]


def test_a_stencil_is_not_folded() -> None:
    """Its mirrored halves are cut one by one: a knife goes through one sheet of acetate."""
    text = (
        "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n[[tier.design]]\nkind = 'arches'\n"
        "[tier.design.stencil]\n"
    )
    printed = [each for each in templates(make_plan(cake(text))) if each.kind == "stencil"]
    assert printed
    assert all(each.printed and each.unfolding is None for each in printed)
