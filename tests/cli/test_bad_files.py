"""Broken files that a cake file speaks of: refused at the line that names them."""

from __future__ import annotations

import os
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import NamedTuple

import pytest
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

from templates_gen.cakefile.lettering import LARGEST_FONT, bundled
from tests.cli.command import TIER, call
from tests.cli.test_bad_input import problems_in, refused

FONT = bundled("bold").content


def table(tag: str) -> int:
    """Return where a table of the font begins in its file."""
    return int(TTFont(BytesIO(FONT)).reader.tables[tag].offset)


def changed(index: int, *values: int) -> bytes:
    """Return the font with other bytes from a place on."""
    return FONT[:index] + bytes(values) + FONT[index + len(values) :]


def flattened(font: bytes) -> bytes:
    """Return a font whose letters are lines there and back."""
    opened = TTFont(BytesIO(font))
    pen = TTGlyphPen(None)
    pen.moveTo((0, 0))
    pen.lineTo((0, 700))
    pen.lineTo((0, 350))
    pen.closePath()
    for char in "Ada":
        opened["glyf"][opened.getBestCmap()[ord(char)]] = pen.glyph(dropImpliedOnCurves=False)
    out = BytesIO()
    opened.save(out)
    return out.getvalue()


class BadFile(NamedTuple):
    """A file beside the cake file, the table that names it, and fragments of the message."""

    name: str
    file: str
    content: bytes | None
    says: tuple[str, ...]


DAMAGED = "mine.ttf is damaged: its letters cannot be drawn"
NO_FONT = "no TrueType or OpenType font"
FONTS = (
    BadFile("missing font", "mine.ttf", None, ("“mine.ttf”, which cannot be read", "check the")),
    BadFile("font of another kind", "mine.woff2", FONT, ("“mine.woff2”", "ends in .ttf or .otf")),
    BadFile("empty font", "mine.ttf", b"", (f"“mine.ttf” is {NO_FONT}", "script, bold")),
    BadFile("text as font", "mine.otf", b"hello", (f"“mine.otf” is {NO_FONT}", "script, bold")),
    BadFile("half a font", "mine.ttf", FONT[:20_000], ("mine.ttf", "font with outlines")),
    BadFile(
        "font of an another OS/2 table", "mine.ttf", changed(table("OS/2"), 231), ("capitals",)
    ),
    BadFile("font of one table", "mine.ttf", changed(4, 0, 1), ("mine.ttf",)),
    BadFile("font of lines", "mine.ttf", flattened(FONT), (DAMAGED, "a font with outlines")),
    BadFile("huge font", "mine.ttf", b"\0" * (LARGEST_FONT + 1), ("larger than 30000 kB",)),
    BadFile("font with a zero byte in its name", "a\\u0000b.ttf", None, ("cannot be read",)),
)


NO_SVG = "the file is no SVG"
SVGS = (
    BadFile("missing SVG", "leaf.svg", None, ("“leaf.svg”, which cannot be read", "check the")),
    BadFile("SVG of another kind", "leaf.png", b"", ("“leaf.png”", "ends in .svg")),
    BadFile("empty SVG", "leaf.svg", b"", (NO_SVG, "plain SVG")),
    BadFile("picture as SVG", "leaf.svg", b"\x89PNG\r\n", (NO_SVG, "plain SVG")),
    BadFile("huge SVG", "leaf.svg", b" " * 2_000_001, ("larger than 2000 kB", "smaller file")),
    BadFile("SVG with text", "leaf.svg", b"<svg><text>a</text></svg>", ("has text", "outlines")),
    BadFile("SVG of nothing", "leaf.svg", b"<svg/>", ("no lines or shapes", "lines and shapes")),
    BadFile(
        "SVG with a picture", "leaf.svg", b"<svg><image href='a.png'/></svg>", ("a picture in it",)
    ),
    BadFile("SVG up a folder", "../leaf.svg", None, ("“../leaf.svg”, which cannot be read",)),
)


def beside(folder: Path, bad: BadFile, table: str, key: str) -> None:
    """Write a cake file and the broken file it names."""
    (folder / "cake.toml").write_text(f'{TIER}[[tier.{table}]]\n{key} = "{bad.file}"\n')
    if bad.content is not None:
        (folder / bad.file).write_bytes(bad.content)


@pytest.mark.parametrize("bad", FONTS, ids=lambda bad: str(bad.name))
def test_font(bad: BadFile, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A font that cannot be used is named at its line, with the faces that can."""
    monkeypatch.chdir(tmp_path)
    beside(tmp_path, bad, "lettering", "text = 'Ada'\nfont")
    ((place, *message),) = problems_in(refused("pack", "cake.toml", code=1))
    assert place == "cake.toml, line 6: tier 1, lettering 1, font"
    for words in bad.says:
        assert words in "\n".join(message)


@pytest.mark.parametrize("bad", SVGS, ids=lambda bad: str(bad.name))
def test_svg(bad: BadFile, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Artwork that cannot be used is named at its line, with what would do."""
    monkeypatch.chdir(tmp_path)
    beside(tmp_path, bad, "design", "kind = 'artwork'\nfile")
    ((place, *message),) = problems_in(refused("pack", "cake.toml", code=1))
    assert place == "cake.toml, line 6: tier 1, design 1, file"
    for words in bad.says:
        assert words in "\n".join(message)


@pytest.mark.parametrize(
    ("make", "says"), [(os.mkdir, "it is a folder"), (os.mkfifo, "it is a pipe or a device")]
)
def test_what_is_no_file_is_no_font(
    make: Callable[[Path], None], says: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder is refused, and a pipe, which may never end."""
    monkeypatch.chdir(tmp_path)
    make(tmp_path / "mine.ttf")
    (tmp_path / "cake.toml").write_text(
        f"{TIER}[[tier.lettering]]\ntext = 'Ada'\nfont = 'mine.ttf'"
    )
    assert says in refused("pack", "cake.toml", code=1)


def test_a_font_beside_the_cake_file_is_found_from_anywhere(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Names are looked up where the cake file lies, not where the command is called."""
    folder, elsewhere = tmp_path / "cakes", tmp_path / "elsewhere"
    folder.mkdir()
    elsewhere.mkdir()
    (folder / "mine.ttf").write_bytes(FONT)
    (folder / "cake.toml").write_text(f"{TIER}[[tier.lettering]]\ntext = 'Ada'\nfont = 'mine.ttf'")
    monkeypatch.chdir(elsewhere)
    done = call("check", str(folder / "cake.toml"))
    assert done.exit_code == 0, done.output
