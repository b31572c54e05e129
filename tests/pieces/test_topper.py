"""Toppers: as tall as asked, stout enough, with a stick that is long enough."""

from __future__ import annotations

import re

import pytest
import shapely
import svgpathtools
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.reading import parse_cake
from templates_gen.cakefile.source import CakeText
from templates_gen.drawing.cutouts import CUTOUTS
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import filled
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.areas.thickness import narrowest
from templates_gen.guides.decorated import build_stack
from templates_gen.pieces.cautions import cautions
from templates_gen.pieces.topper import LEAST_NECK, stick_in_cake
from tests.cakes import cake, one_tier, pieces_of
from tests.random_cakes.files import BEE, at_hand

TIER = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"


def with_topper(lines: str, depth: str = "4 in") -> Cake:
    """Return a cake with a topper."""
    return cake(f"{TIER.replace('4 in', depth)}[[topper]]\n{lines}")


def toppers(lines: str) -> list[Piece]:
    """Return the toppers of a cake."""
    return [piece for piece in pieces_of(with_topper(lines)) if piece.kind == "topper"]


@pytest.mark.parametrize("stick", ["line", "tab"])
@pytest.mark.parametrize("shape", CUTOUTS)
def test_a_topper_is_as_tall_as_asked(shape: str, stick: str) -> None:
    """Without its tab; with one, 25 mm more stands below it."""
    (piece,) = toppers(f"shape = '{shape}'\nheight = '90 mm'\nstick = '{stick}'")
    assert piece.values["height_mm"] == pytest.approx(90, abs=0.02)
    more = 25 if stick == "tab" else 0
    assert piece.size.height == pytest.approx(90 + more, abs=0.02)
    assert narrowest(piece.outline, LEAST_NECK) == LEAST_NECK


def test_a_topper_of_own_artwork_has_its_shape() -> None:
    """It is as wide by its height as the outline of the file, as svgpathtools reads it."""
    lines = "shape = 'artwork'\nfile = 'bee.svg'\nheight = '90 mm'"
    spec = parse_cake(CakeText("bee.toml", f"{TIER}[[topper]]\n{lines}", at_hand()))
    (piece,) = (piece for piece in pieces_of(spec) if piece.kind == "topper")
    (data,) = re.findall(r' d="([^"]+)"', BEE)
    x0, x1, y0, y1 = svgpathtools.parse_path(data).bbox()
    assert piece.size.width / piece.size.height == pytest.approx((x1 - x0) / (y1 - y0), rel=1e-3)


@given(st.floats(15, 600))
def test_a_stick_goes_in_by_a_third_and_sixty_millimetres_at_least(height: float) -> None:
    """Common practice, no source."""
    assert stick_in_cake(height) >= 60
    assert stick_in_cake(height) >= height / 3
    assert stick_in_cake(height) in (60, height / 3)


def test_the_stick_line_lies_in_the_topper() -> None:
    """From its foot upwards, two thirds of its height, paste on both sides; and it is told."""
    (piece,) = toppers("shape = 'heart'\nheight = '240 mm'")
    (stick,) = (s.path.bounds for s in piece.drawing.strokes if s.role is Role.CENTRE)
    area = filled(piece.outline)
    assert stick.y0 == pytest.approx(0, abs=0.02)
    assert area.buffer(0.1).covers(shapely.LineString([(stick.x0, stick.y0), (stick.x0, stick.y1)]))
    assert 160 <= stick.height <= 200
    assert piece.values["stick_in_cake_mm"] == pytest.approx(80)
    # in the cake, seen below the topper, and up to the end of its line
    assert piece.values["stick_length_mm"] == pytest.approx(80 + 14 + stick.y1, abs=0.02)
    assert stick.y1 > 160
    assert "food-safe stick" in piece.use
    assert "dry flat" in piece.use


def test_the_stick_line_leaves_out_the_hole_of_a_letter() -> None:
    """Where a figure 0 has no paste, nothing is drawn to lay a stick on; it goes on above it."""
    (piece,) = toppers("shape = 'text'\ntext = '0'\nheight = '60 mm'\nfont = 'bold'")
    sticks = [s.path.bounds for s in piece.drawing.strokes if s.role is Role.CENTRE]
    area = filled(piece.outline)
    for stick in sticks:
        ends = [(stick.x0, stick.y0), (stick.x0, stick.y1)]
        assert area.buffer(0.05).covers(shapely.LineString(ends))
    drawn = sum(stick.height for stick in sticks)
    assert 0 < drawn < float(str(piece.values["height_mm"])) / 2


def test_figures_stand_each_alone_and_joined_letters_together() -> None:
    """40 is two toppers; a name in joined script is one, or one a word."""
    assert len(toppers("shape = 'text'\ntext = '40'")) == 2
    script = "shape = 'text'\nfont = 'script'\nheight = '100 mm'\ntext = "
    assert len(toppers(f"{script}'hannah'")) == 1


def test_a_thin_topper_is_refused_with_a_height_that_does() -> None:
    """What the message says to write is stout enough."""
    lines = "shape = 'text'\nfont = 'script'\ntext = 'Ada'\nheight = '{} mm'"
    with pytest.raises(CakeError, match="at its thinnest") as caught:
        toppers(lines.format(20))
    better = caught.value.problems[0].advice.split('"')[1].removesuffix(" mm")
    assert toppers(lines.format(better))


@given(st.sampled_from([*CUTOUTS]), st.integers(15, 200), st.integers(4, 24))
@settings(max_examples=40)
def test_every_topper_that_is_made_holds(shape: str, height: int, points: int) -> None:
    """Whatever its shape and size it has 5 mm everywhere, or is refused."""
    try:
        made = toppers(f"shape = '{shape}'\nheight = '{height} mm'\npoints = {points}")
    except CakeError:
        return
    for piece in made:
        assert narrowest(piece.outline, LEAST_NECK) == LEAST_NECK


def test_a_stick_through_the_tier_gives_a_warning() -> None:
    """Once, at its topper; and sticks are cautioned of where there are any."""
    low = with_topper("shape = 'text'\ntext = '40'", depth="1 in")
    warnings = [warning for piece in pieces_of(low) for warning in piece.warnings]
    assert [warning.key for warning in warnings] == [("topper", 0, "height")]
    assert "through tier" in warnings[0].text
    assert any(text.startswith("Sticks are not food") for text in cautions(build_stack(low)))
    assert not any("Sticks" in text for text in cautions(build_stack(one_tier())))


@pytest.mark.parametrize("text", ["8", "18", "80"])
@pytest.mark.parametrize("stick", ["line", "tab"])
def test_figures_with_two_counters_hang_together(text: str, stick: str) -> None:
    """An 8 has two counters, and where its outline crosses itself nothing hangs loose."""
    made = toppers(f"shape = 'text'\ntext = '{text}'\nstick = '{stick}'")
    assert len(made) == len(text)
    eight = made[text.index("8")]
    assert len(list(sampled(eight.outline))) == 3


@pytest.mark.parametrize("stick", ["line", "tab"])
def test_the_height_advised_for_a_stick_does(stick: str) -> None:
    """A figure too small at its foot is refused with a height that has a place, whatever stick."""
    lines = "shape = 'text'\ntext = '1'\nheight = '{} mm'\nstick = '" + stick + "'"
    with pytest.raises(CakeError, match=f"for a {'tab' if stick == 'tab' else 'stick'}") as caught:
        toppers(lines.format(15))
    problem = caught.value.problems[0]
    assert problem.key == ("topper", 0, "height")
    assert 'stick = "line"' not in problem.advice
    assert toppers(lines.format(problem.advice.split('"')[1].removesuffix(" mm")))


def test_a_line_is_advised_where_a_tab_has_no_place() -> None:
    """A figure 1 of 40 mm has no place for a tab, and one for a stick."""
    lines = "shape = 'text'\ntext = '1'\nheight = '40 mm'"
    with pytest.raises(CakeError, match='stick = "line", or write height'):
        toppers(f"{lines}\nstick = 'tab'")
    assert toppers(lines)


@pytest.mark.parametrize(("points", "thin"), [(5, False), (8, True), (16, True)])
def test_thin_points_of_a_star_are_told(points: int, thin: bool) -> None:
    """A point is no neck and may be thin, but the paper says so where it is long."""
    (piece,) = toppers(f"shape = 'star'\npoints = {points}")
    assert ("points end narrower than" in piece.use) is thin


@pytest.mark.parametrize(
    ("font", "text"),
    [("script", "40"), ("bold", "40"), ("script", "Maggy"), ("bold", "Jo")],
)
def test_a_text_is_as_tall_as_its_height(font: str, text: str) -> None:
    """Low figures of a script, and letters that hang below the line, are measured as they are cut.

    Of letters each alone the tallest is.
    """
    found = toppers(f"shape = 'text'\ntext = '{text}'\nfont = '{font}'\nheight = '120 mm'")
    assert max(piece.size.height for piece in found) == pytest.approx(120, abs=0.05)


def test_a_part_of_a_text_is_named_by_its_own_letters() -> None:
    """Each figure that stands alone by itself and the text; letters that hang together by that."""
    figures = toppers("shape = 'text'\ntext = '50'\nheight = '90 mm'\nfont = 'bold'")
    assert [each.title for each in figures] == [
        "Topper 1-1: “5” of “50”",
        "Topper 1-2: “0” of “50”",
    ]
    (word,) = toppers("shape = 'text'\ntext = 'Anna'\nheight = '90 mm'\nfont = 'script'")
    assert word.title == "Topper 1: Anna"
    spaced = toppers("shape = 'text'\ntext = 'A BA'\nheight = '90 mm'\nfont = 'bold'")
    assert [each.title[10:15] for each in spaced] == [": “A”", ": “B”", ": “A”"]


@pytest.mark.parametrize(
    ("dries", "words"),
    [(72, "3 days, turned over each day."), (24, "1 day, turned"), (30, "flat for 30 h.")],
)
def test_the_sheet_gives_the_time_of_the_schedule(dries: float, words: str) -> None:
    """Three days by default, or as the cake file says: one figure on all the papers."""
    spec = one_tier(f"[estimates.waits]\ntopper = {dries}.0\n[[topper]]\nshape = 'heart'\n")
    (piece,) = (piece for piece in pieces_of(spec) if piece.kind == "topper")
    assert words in piece.use
