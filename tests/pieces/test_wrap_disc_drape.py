"""Wraps, top discs and rolling-out circles against the figures of the trade."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given

from templates_gen.cakefile.cake import Cake
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from tests.cakes import one_tier, pieces_of
from tests.strategies import cakes

PANELLED = "coating = 0\ncover = 'panelled'\nfondant = '5 mm'\n"


def piece(cake: Cake, kind: str) -> Piece:
    """Return the first piece of a kind."""
    return next(piece for piece in pieces_of(cake) if piece.kind == kind)


def test_a_24_inch_strip_does_not_meet_round_an_eight_inch_tier() -> None:
    """It falls 28.8 mm short of the bare girth and 44.5 mm short at mid-paste.

    "Three times across" is a kitchen rule: common practice, no source; the rest is arithmetic.
    """
    wrap = piece(one_tier(PANELLED + "strip = '24 in'"), "wrap")
    short = float(wrap.values["finished_length_mm"]) - 24 * 25.4  # type: ignore[arg-type]
    assert short == pytest.approx(44.5, abs=0.05)
    assert "44.5 mm" in wrap.warnings[0].text
    bare = piece(one_tier("coating = 0\ncover = 'panelled'\nfondant = '0.5 mm'"), "wrap")
    length = float(bare.values["finished_length_mm"])  # type: ignore[arg-type]
    assert length - 0.5 * 3.14159265 - 24 * 25.4 == pytest.approx(28.8, abs=0.05)


def test_a_strip_long_enough_gives_no_warning() -> None:
    """A strip that meets with the trim to spare is not mentioned; one with less is."""
    assert piece(one_tier(PANELLED + "strip = '27 in'"), "wrap").warnings == ()
    (warning,) = piece(one_tier(PANELLED + "strip = '26 in'"), "wrap").warnings
    assert "¼ in (6.3 mm) to spare" in warning.text


def test_a_four_inch_tier_takes_a_strip_of_thirteen_inches() -> None:
    """4 x 4 in: 12.57 in bare, 13.18 in at the middle of 5 mm; 6 in leave 2 in to trim.

    Common practice (just over 12 in by 6 in), no source; the true length is arithmetic.
    """
    text = PANELLED + "trim = '2 in'\nfirst = 'side'"
    wrap = piece(one_tier(text, size="4 in"), "wrap")
    assert wrap.values["finished_length_mm"] == pytest.approx(13.18 * 25.4, abs=0.13)
    assert wrap.size.height == pytest.approx(6 * 25.4)


@pytest.mark.parametrize("slope", ["front", "back", "left", "right"])
@pytest.mark.parametrize(
    "shape", ["shape = 'heart'", "shape = 'petal'\nlobes = 5", "shape = 'polygon'\nsides = 3"]
)
def test_a_wrap_says_how_deep_it_is_where_it_is_drawn_least_deep(shape: str, slope: str) -> None:
    """The lowest place of a sloped rim need not be in front, behind or at a quarter."""
    lines = f"{PANELLED}{shape}\nshallowest_depth = '2 in'\nslopes_down_to = '{slope}'"
    wrap = piece(one_tier(lines), "wrap")
    rim = next(s.path for s in wrap.drawing.strokes if s.role is Role.TRIM)
    least = rim.bounds.y0 - wrap.outline.bounds.y0
    words = " ".join(label.text for label in wrap.drawing.labels).replace("\xa0", " ")
    said = re.search(r"finished depth .* to .*?([\d.]+) mm.*fondant", words)
    assert said is not None
    assert float(said[1]) == pytest.approx(least, abs=0.05)


@given(cakes())
def test_a_wrap_is_its_meeting_length_and_depth_and_the_trim(cake: Cake) -> None:
    """The paper strip is longer and taller than the finished side by the trim, and no more."""
    for wrap in pieces_of(cake):
        if wrap.kind == "wrap":
            values = {
                name: value for name, value in wrap.values.items() if isinstance(value, float)
            }
            trim = values["trim_mm"]
            for box in (wrap.outline.bounds, wrap.size):
                assert box.width == pytest.approx(values["finished_length_mm"] + trim)
                assert box.height == pytest.approx(values["depth_mm"] + trim)


@given(cakes())
def test_the_trim_line_of_a_wrap_stands_where_it_meets(cake: Cake) -> None:
    """Half of the trim lies beyond it at either end, and all of it above the rim."""
    for wrap in pieces_of(cake):
        trim = wrap.values.get("trim_mm")
        if wrap.kind == "wrap" and isinstance(trim, float) and trim:
            edge = wrap.outline.bounds
            lines = [s.path.bounds for s in wrap.drawing.strokes if s.role.word == "trim"]
            ends = [line.x0 for line in lines if line.width < 1e-6]
            above = min(edge.y1 - line.y0 for line in lines if line.height < 1e-6)
            assert above == pytest.approx(trim)
            assert [min(ends) - edge.x0, edge.x1 - max(ends)] == pytest.approx([trim / 2] * 2)


def test_a_draped_ten_by_six_takes_a_circle_of_22_inches() -> None:
    """Across + 2 x depth, before trim. Common practice, no source."""
    text = "coating = 0\ntrim = 0\ncover = 'drape'"
    drape = piece(one_tier(text, size="10 in", depth="6 in"), "rolling-out-circle")
    assert drape.values["across_mm"] == pytest.approx(22 * 25.4)
    assert not drape.printed


def test_a_draped_six_by_six_takes_a_circle_of_18_inches() -> None:
    """Across + 2 x depth, before trim. Common practice, no source."""
    text = "coating = 0\ntrim = 0"
    drape = piece(one_tier(text, size="6 in", depth="6 in"), "rolling-out-circle")
    assert drape.values["across_mm"] == pytest.approx(18 * 25.4)


@pytest.mark.parametrize(("foot", "top"), [("10 in", "7 in"), ("8 in", "11 in")])
def test_the_drape_of_a_taper_goes_down_its_slanted_side(foot: str, top: str) -> None:
    """Its radius is that of the top and the slant, by Pythagoras: paper lies on the cone."""
    lines = f"top_size = '{top}'\ncoating = 0\ntrim = 0"
    drape = piece(one_tier(lines, size=foot, depth="6 in"), "rolling-out-circle")
    base, rim = (float(size.split()[0]) * 25.4 for size in (foot, top))
    slant = math.hypot((base - rim) / 2, 6 * 25.4)
    assert drape.values["across_mm"] == pytest.approx(rim + 2 * slant)
    assert drape.outline.bounds.width == pytest.approx(rim + 2 * slant)


def test_a_rolling_out_circle_is_printed_when_asked() -> None:
    """rolling_out_circle = true prints it whole."""
    assert piece(one_tier("rolling_out_circle = true"), "rolling-out-circle").printed


@pytest.mark.parametrize(
    ("lines", "kinds"),
    [
        ("", {"placement-guide", "rolling-out-circle", "collar", "circle-guide"}),
        ("cover = 'none'", {"placement-guide", "collar", "circle-guide"}),
        ("cover = 'panelled'", {"placement-guide", "wrap", "disc", "collar", "circle-guide"}),
        (
            "cover = 'panelled'\n[tier.panels]\nreplace_wrap = true",
            {"placement-guide", "panel", "disc", "marking-band", "collar", "circle-guide"},
        ),
        (
            "[tier.panels]\n[tier.drips]\nguide = 'both'",
            {
                "placement-guide",
                "rolling-out-circle",
                "panel",
                "collar",
                "top-edge-guide",
                "circle-guide",
            },
        ),
    ],
)
def test_a_tier_has_the_pieces_its_covering_needs(lines: str, kinds: set[str]) -> None:
    """Two lines make a useful pack already; parts add pieces and covering panels replace a wrap."""
    assert {piece.kind for piece in pieces_of(one_tier(lines))} == kinds


def test_covering_panels_together_are_the_wrap_they_replace() -> None:
    """A strip cut into panels is as long as the strip: both keep their length in mid-paste."""
    wrap = piece(one_tier(PANELLED), "wrap")
    panel = piece(one_tier(PANELLED + "[tier.panels]\nreplace_wrap = true\ncount = 7"), "panel")
    total = 7 * float(panel.values["width_mm"])  # type: ignore[arg-type]
    assert total == pytest.approx(float(wrap.values["finished_length_mm"]))  # type: ignore[arg-type]


@pytest.mark.parametrize("top", [164, 270])
def test_a_disc_on_a_taper_meets_the_side_where_it_lies(top: int) -> None:
    """On the upper edge of the wrap's outer face, at the coated top: by Pythagoras on the cone."""
    lines = "coating = '4 mm'\ncover = 'panelled'\nfondant = '5 mm'\nfirst = 'side'\n"
    lines += f"top_size = '{top} mm'"
    spec = one_tier(lines, size="217 mm", depth="150 mm")
    slope = (217 - top) / 2 / 150
    radius = 217 / 2 - slope * (150 + 4) + (4 + 5) * math.hypot(1, slope)
    disc = piece(spec, "disc")
    assert disc.values["across_mm"] == pytest.approx(2 * radius)
    assert "as wide as the top edge of the side under it: smooth its edge" in disc.use
    radii = piece(spec, "circle-guide").values["radii_mm"]
    assert isinstance(radii, tuple)
    assert any(mm == pytest.approx(radius) for mm in radii)
