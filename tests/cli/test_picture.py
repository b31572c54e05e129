"""The command picture: a drawing of the cake in three formats that say the same."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import cv2
import numpy as np
import pypdfium2
import pytest
import svgelements
from lxml import etree

from templates_gen.cakefile.cake import MOST_LETTER_CAKES
from templates_gen.guides.decorated import build_stack
from templates_gen.resources import folder
from templates_gen.views.elevation import elevation
from tests.cakes import SAMPLES, sample
from tests.cli.command import TIER, ask, call

NAMES = [path.stem for path in SAMPLES]
A4_AND_LETTER = (210.0, 279.4)


def drawn(name: str, ending: str, place: Path) -> Path:
    """Return the file of a sample's picture."""
    file = place / f"{name}.{ending}"
    ask("picture", folder("samples") / f"{name}.toml", "-o", file)
    return file


def size(svg: bytes) -> tuple[float, float]:
    """Return width and height of an SVG in mm."""
    root = etree.fromstring(svg)
    return tuple(float(root.get(side).removesuffix("mm")) for side in ("width", "height"))  # type: ignore[return-value, union-attr]


def test_a_missing_folder_is_made_as_other_commands_make_it(tmp_path: Path) -> None:
    """A picture goes into a folder that is not there yet, as a pack or a single template does."""
    cake = tmp_path / "cake.toml"
    cake.write_text(TIER)
    ask("picture", cake, "-o", tmp_path / "a" / "b" / "cake.svg")
    ask("disc", "--size", "8 in", "-o", tmp_path / "c" / "d" / "disc.svg")
    ask("pack", cake, "--out", tmp_path / "e" / "f")
    assert {path.name for path in tmp_path.iterdir()} == {"cake.toml", "a", "c", "e"}


@pytest.mark.parametrize("name", NAMES)
def test_formats_agree(name: str, tmp_path: Path) -> None:
    """SVG, PDF and PNG are of one size, which fits on A4 and Letter, and all have ink."""
    wide, tall = size(drawn(name, "svg", tmp_path).read_bytes())
    assert wide <= A4_AND_LETTER[0]
    assert tall <= A4_AND_LETTER[1]
    document = pypdfium2.PdfDocument(drawn(name, "pdf", tmp_path).read_bytes())
    assert len(document) == 1
    points = document[0].get_size()
    assert [side / 72 * 25.4 for side in points] == pytest.approx([wide, tall], abs=0.01)
    image = cv2.imread(str(drawn(name, "png", tmp_path)), cv2.IMREAD_GRAYSCALE)
    assert image is not None
    assert image.shape[::-1] == pytest.approx((wide / 25.4 * 200, tall / 25.4 * 200), abs=1.5)
    assert 0.002 < float(np.mean(image < 128)) < 0.2


@pytest.mark.parametrize("name", NAMES)
def test_sizes_are_told(name: str, tmp_path: Path) -> None:
    """The picture names the cake, every tier with its finished sizes, the drum and the scale."""
    texts = " ".join(
        str(text) for text in etree.fromstring(drawn(name, "svg", tmp_path).read_bytes()).itertext()
    )
    stack = build_stack(sample(name))
    for tier in stack.tiers:
        assert tier.name in texts
        widest = max(tier.covered.rim.bounds.width, tier.covered.foot.bounds.width)
        assert f"{widest:.1f}".removesuffix(".0") + " mm" in texts
    assert sample(name).title in texts
    assert re.search(r"Scale 1 : [\d.]+\.", texts)


def test_scale(tmp_path: Path) -> None:
    """The drum is as wide on the picture as its size over the scale that is told."""
    svg = drawn("naming-day", "svg", tmp_path).read_text(encoding="utf-8")
    found = re.search(r"Scale 1 : ([\d.]+)\. ", svg)
    assert found is not None
    scale = float(found[1])
    boxes = [svgelements.Path(data).bbox() for data in re.findall(r' d="([^"]+)"', svg)]
    widths = [box[2] - box[0] for box in boxes if box]
    drum = elevation(build_stack(sample("naming-day"))).strokes[0].path.bounds.width
    assert drum == 320
    assert any(abs(width - drum / scale) < 0.01 for width in widths)


def test_same_bytes(tmp_path: Path) -> None:
    """Drawn twice, each format has the same bytes."""
    for ending in ("svg", "pdf", "png"):
        once = drawn("starter", ending, tmp_path).read_bytes()
        assert drawn("starter", ending, tmp_path).read_bytes() == once


def test_unknown_ending() -> None:
    """Another ending is a wrong use of the command, and nothing is written."""
    done = call("picture", "-", "-o", "cake.gif", stdin=TIER)
    assert done.exit_code == 2
    assert ".svg, .pdf, .png" in done.stderr


def test_a_cake_that_cannot_be_made(tmp_path: Path) -> None:
    """It is told as by every command, and no picture is written."""
    file = tmp_path / "cake.svg"
    wider = TIER.replace("8 in", "20 in")
    done = call("picture", "-", "-o", file, stdin=TIER + wider)
    assert done.exit_code == 1
    assert "lies inside" in done.stderr
    assert not file.exists()


@pytest.mark.parametrize("command", ["picture", "handout", "pack"])
def test_as_many_letter_cakes_as_may_be_have_a_picture(command: str, tmp_path: Path) -> None:
    """However small, each takes room for its name and its width: the picture grows with them."""
    one = '[[letter_cake]]\ntext = "1"\ncap_height = "25 cm"\n'
    cake = tmp_path / "cake.toml"
    cake.write_text(one * MOST_LETTER_CAKES)
    words = [
        sys.executable,
        "-m",
        "templates_gen",
        command,
        str(cake),
        "-o",
        str(tmp_path / ("o" if command == "pack" else "o.pdf")),
    ]
    done = subprocess.run(words, capture_output=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr
    cake.write_text(one * (MOST_LETTER_CAKES + 1))
    assert f"up to {MOST_LETTER_CAKES}" in call("check", cake).output
