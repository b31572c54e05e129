"""Outlines of a text: as large, as wide and of the very form the font file says.

The font file is read here by fontTools alone, table by table.
"""

from __future__ import annotations

import math
import string
from itertools import pairwise
from pathlib import Path as File

import pytest
import shapely
from fontTools.pens.areaPen import AreaPen
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.lettering import FACES, bundled
from templates_gen.drawing.attached import Attached
from templates_gen.drawing.letters import STEEPEST, arched, level
from templates_gen.drawing.typesetting import missing_characters, set_text
from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.booleans import clean, filled
from templates_gen.geometry.areas.sampling import sampled, signed_area
from templates_gen.geometry.box import union_box
from templates_gen.resources import folder


def font(word: str) -> TTFont:
    """Return a bundled face as fontTools reads it."""
    return TTFont(File(folder("fonts")) / f"{FACES[word]}.ttf")


SCRIPT, BOLD = bundled("script"), bundled("bold")


@pytest.mark.parametrize("word", FACES)
@given(st.floats(5, 200))
def test_a_capital_is_as_tall_as_asked(word: str, tall: float) -> None:
    """The H, measured in the glyf table against the cap height of OS/2, in the size asked for."""
    read = font(word)
    glyph = read["glyf"]["H"]
    scale = tall / read["OS/2"].sCapHeight
    box = set_text("H", bundled(word)).scaled(tall).box
    assert (box.y0, box.y1) == pytest.approx((glyph.yMin * scale, glyph.yMax * scale), abs=0.01)
    assert box.height == pytest.approx(tall, rel=0.06)  # a script's H has a swing


@pytest.mark.parametrize("text", ["Hbdhl", "2468", "nine"])
def test_a_text_is_as_wide_as_its_advances(text: str) -> None:
    """Where no pair is kerned: the sum of hmtx but the last, from ink to ink by the glyf table."""
    read = font("bold")
    names = [read.getBestCmap()[ord(char)] for char in text]
    advances = [read["hmtx"][name][0] for name in names]
    ink = sum(advances[:-1]) + read["glyf"][names[-1]].xMax - read["glyf"][names[0]].xMin
    line = set_text(text, BOLD)
    assert line.box.width * read["OS/2"].sCapHeight == pytest.approx(ink, abs=1e-6)
    for letter, advance in zip(line.letters, advances, strict=True):
        assert letter.advance * read["OS/2"].sCapHeight == pytest.approx(advance)


def test_shaping_kerns() -> None:
    """What HarfBuzz is for: AVA is set closer than its advances, as the font's own kerning asks."""
    read = font("bold")
    advances = [read["hmtx"][read.getBestCmap()[ord(char)]][0] for char in "AVA"]
    set_close = sum(letter.advance for letter in set_text("AVA", BOLD).letters)
    assert set_close * read["OS/2"].sCapHeight < sum(advances) - 20


def test_shaping_chooses_the_forms_of_letters() -> None:
    """And the y that ends a word of the script is another than one that goes on."""
    names = [letter.name for letter in set_text("yay day", SCRIPT).letters]
    assert names[0] == "y"
    assert names[2] == names[-1] == "y.fina"


@pytest.mark.parametrize("char", "oOeagBS8&")
def test_an_outline_fills_what_the_glyph_fills(char: str) -> None:
    """Its area is that of the glyph by fontTools' own pen."""
    read = font("script")
    glyphs = read.getGlyphSet()
    pen = AreaPen(glyphs)
    letter = set_text(char, SCRIPT).scaled(100).letters[0]
    glyphs[letter.name].draw(pen)
    scale = 100 / read["OS/2"].sCapHeight
    assert filled(letter.path).area == pytest.approx(abs(pen.value) * scale**2, rel=2e-3)


def test_strokes_that_overlap_are_one_outline() -> None:
    """The bold H is drawn of three strokes and is one closed line; script joins word by word."""
    (bold,) = set_text("H", BOLD).scaled(30).along(level)
    assert [name for name, _ in bold.commands].count("closePath") == 1
    words = set_text("An hour", SCRIPT).scaled(30).along(level)
    assert len(words) < 6
    areas = [filled(path) for path in words]
    assert all(shapely.area(shapely.intersection(a, b)) < 0.01 for a, b in pairwise(areas))


@given(st.floats(50, 500), st.floats(-STEEPEST, STEEPEST))
def test_an_arch_rises_as_asked(length: float, share: float) -> None:
    """Its middle is the rise above its ends, every point equally far from one middle."""
    rise = length * share
    if abs(rise) < 0.1:
        return
    baseline = arched(length, rise)
    (x0, y0), _ = baseline(-length / 2)
    (x1, y1), heading = baseline(length / 2)
    assert baseline(0)[0] == pytest.approx((0, 0))
    assert (y0, y1) == pytest.approx((-rise, -rise), abs=1e-6)
    assert x1 == pytest.approx(-x0)
    radius = length / 2 / abs(heading)
    centre = 0, -math.copysign(radius, rise)
    for place in (-0.4, -0.1, 0.3):
        assert math.dist(baseline(place * length)[0], centre) == pytest.approx(radius)


def test_an_arch_steeper_than_a_half_circle_is_refused() -> None:
    """It cannot be drawn as one."""
    with pytest.raises(GeometryError):
        arched(100, 33)


def test_letters_stand_upright_on_an_arch() -> None:
    """They keep their form, and the text its middle."""
    line = set_text("HHHHH", BOLD).scaled(20)
    paths = line.along(arched(line.box.width, 20))
    box = union_box(path.bounds for path in paths)
    assert box.centre[0] == pytest.approx(0, abs=0.5)
    areas = [filled(path).area for path in paths]
    assert areas == pytest.approx([areas[0]] * 5, rel=1e-3)


def test_missing_characters_are_found() -> None:
    """Each once, in order; a space is never missing."""
    assert missing_characters("Aж Bжя", BOLD) == ["ж", "я"]
    assert missing_characters("Aж Bжя", SCRIPT) == []


@pytest.mark.parametrize(
    "content",
    [b"", b"no font", b"OTTO", SCRIPT.content[:4000], b"ttcf" + SCRIPT.content, b"\0" * 9999],
)
def test_files_that_are_no_fonts(content: bytes) -> None:
    """They are refused by name, whatever is wrong with them."""
    with pytest.raises(GeometryError, match=r"mine\.ttf"):
        set_text("A", Attached("mine.ttf", content))


@given(st.integers(0, 60_000), st.binary(min_size=1, max_size=40))
def test_a_damaged_font_never_crashes(place: int, damage: bytes) -> None:
    """Overwritten anywhere it is set, or refused."""
    content = bytearray(BOLD.content)
    place %= len(content)
    content[place : place + len(damage)] = damage
    try:
        line = set_text("Ada", Attached("mine.ttf", bytes(content)))
    except GeometryError:
        return
    assert line.letters


@pytest.mark.parametrize("font", ["script", "bold"])
def test_cut_letters_have_no_specks(font: str) -> None:
    """Every contour of a clean letter 20 mm tall is one that can be cut: over 1 mm2."""
    text = set_text(string.ascii_letters + string.digits + "&@?!%äöüñéß", bundled(font)).scaled(20)
    for letter in text.inked:
        for points, _ in sampled(clean(letter.path)):
            assert abs(signed_area(points)) > 1, letter.text


@pytest.mark.parametrize("char", "8BPR&")
@pytest.mark.parametrize("word", FACES)
def test_letters_have_no_slits_where_their_strokes_overlap(word: str, char: str) -> None:
    """An outline to cut, large as for a cake: taken out and in again it is as before."""
    line = set_text(char, bundled(word)).scaled(170)
    for path in line.along(level):
        area = filled(path)
        closed = area.buffer(0.1).buffer(-0.1)
        assert closed.difference(area).area < 0.05
