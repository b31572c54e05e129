"""Lettering in the bundled face, against fontTools read apart from the project."""

from __future__ import annotations

import unicodedata
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.drawing import fonts
from templates_gen.errors import FileError, GlyphError

FACES = {False: fonts.REGULAR, True: fonts.BOLD}


@pytest.mark.parametrize("bold", [False, True])
def test_widths_are_the_advances_of_the_face(bold: bool) -> None:
    """A text is as wide as its glyphs' advances, read from hmtx."""
    font = TTFont(fonts.font_file(FACES[bold]))
    names, em = font.getBestCmap(), font["head"].unitsPerEm
    text = "Wrap: 8 1/2 in × 209,6 mm"
    wanted = sum(font["hmtx"][names[ord(char)]][0] for char in text) / em * 5
    assert fonts.text_width(text, 5, bold=bold) == pytest.approx(wanted)


@pytest.mark.parametrize("face", FACES.values())
def test_heights_are_those_of_the_face(face: str) -> None:
    """Capital height and the deepest letters of common text are what the boxes allow for."""
    font = TTFont(fonts.font_file(face))
    em = font["head"].unitsPerEm
    assert font["OS/2"].sCapHeight / em == pytest.approx(fonts.CAP_HEIGHT)
    names = font.getBestCmap()
    deepest = min(font["glyf"][names[ord(char)]].yMin for char in "gjpqyQ,;")
    assert -deepest / em <= fonts.DESCENT


@pytest.mark.parametrize("face", FACES.values())
@pytest.mark.parametrize(
    ("script", "first", "last"),
    [("LATIN", 0x41, 0x17F), ("GREEK", 0x391, 0x3C9), ("CYRILLIC", 0x410, 0x44F)],
)
def test_the_face_has_the_letters_of_three_scripts(
    face: str, script: str, first: int, last: int
) -> None:
    """Every letter of the main blocks can be printed."""
    letters = [
        char
        for char in map(chr, range(first, last + 1))
        if char.isalpha() and unicodedata.name(char, "").startswith(script)
    ]
    assert letters
    assert fonts.missing_glyphs("".join(letters), face) == []


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("text", ["Ågot", "Élodie & Šárka", "Ça va", "ĐẾN"])
def test_a_text_is_as_tall_as_the_accents_on_its_capitals(text: str, bold: bool) -> None:
    """No glyph reaches over the height of its text, but for letters such as l and b a little."""
    font = TTFont(fonts.font_file(FACES[bold]))
    names, em = font.getBestCmap(), font["head"].unitsPerEm
    highest = max(getattr(font["glyf"][names[ord(char)]], "yMax", 0) for char in text) / em
    taller = highest > 0.75
    assert fonts.rise(text, bold=bold) == pytest.approx(highest, abs=1e-9 if taller else 0.09)


@given(st.lists(st.sampled_from(["Oak", "wrap", "2.5 mm", "cut\u00a01", "part 2"]), min_size=2))
def test_no_line_begins_with_the_dot_that_divides(parts: list[str]) -> None:
    """A line is broken after a dot between two names, and each word stays as it is."""
    lines = fonts.wrapped(" · ".join(parts), 30, 5)
    assert not any(line.startswith("·") for line in lines)
    assert " ".join(lines) == " · ".join(parts)


def test_the_licence_lets_the_face_be_embedded_and_lies_beside_it() -> None:
    """The face allows embedding (fsType 0) and its licence is in the same folder."""
    for face in FACES.values():
        file = fonts.font_file(face)
        assert TTFont(file)["OS/2"].fsType == 0
        assert "SIL Open Font License" in (file.parent / "SourceSans3-LICENSE.md").read_text()


def test_a_missing_glyph_is_named() -> None:
    """The error says which character, by number and name."""
    with pytest.raises(GlyphError, match=r"U\+0915 DEVANAGARI LETTER KA"):
        fonts.text_width("a क", 3)


@pytest.mark.parametrize("left", [None, 0, 1000, 100_000])
def test_a_damaged_face_is_not_the_fault_of_what_was_typed(
    left: int | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file that is not there, or only its beginning, is named, and what to do about it."""
    file = tmp_path / "face.ttf"
    if left is not None:
        file.write_bytes(fonts.font_file(fonts.REGULAR).read_bytes()[:left])
    monkeypatch.setattr(fonts, "font_file", lambda _: file)
    with pytest.raises(FileError, match=r"face\.ttf.* is damaged: install templates-gen again"):
        fonts.missing_glyphs("A", f"cut off after {left}")


@given(st.text("abc ABC", min_size=1, max_size=40), st.floats(6, 100))
def test_a_fitted_text_fits(text: str, width: float) -> None:
    """What is cut short is no wider than the room, and what fits is not cut."""
    fitted = fonts.fitted(text, width, 3)
    assert fonts.text_width(fitted, 3) <= max(width, fonts.text_width("…", 3))
    assert fitted == text or fonts.text_width(text, 3) > width


@given(st.floats(20, 60))
def test_a_number_stays_with_its_fraction_its_unit_and_its_sign(width: float) -> None:
    """A line may end between the two units of a length, not within either, nor within 6 × B."""
    text = (
        "Set 6 × B, 12 × petal; 160 mm (6 5/16 in) wide, each of 8⅜ in or 213 mm, 2 in the middle"
    )
    lines = fonts.wrapped(text, width, 3)
    assert " ".join(lines) == text
    for kept in ("6 × B", "12 × petal", "160 mm", "(6 5/16 in)", "8⅜ in", "213 mm"):
        assert any(kept in line for line in lines), lines
