"""The DXF of a piece as ezdxf and LibreCAD read it."""

from __future__ import annotations

import math
import os
import subprocess
from collections import Counter, defaultdict
from collections.abc import Iterator
from io import StringIO
from itertools import pairwise
from pathlib import Path as FilePath
from typing import Any

import ezdxf
import pikepdf
import pytest
import svgpathtools
from ezdxf.document import Drawing as Document
from ezdxf.lldxf.encoding import decode_dxf_unicode
from lxml import etree

from templates_gen import Piece, write_svg
from templates_gen.drawing.roles import Role
from templates_gen.writers.dxf import LABELS, write_dxf
from tests.cakes import sample_plan
from tests.judges import require
from tests.svg_content import SVG_NAME

PIECES = sample_plan("paper-garden").pieces
LAYERED = [role.word for role in Role]


def opened(dxf: bytes) -> Document:
    """Return a DXF as ezdxf reads it."""
    return ezdxf.read(StringIO(dxf.decode("cp1252")))  # type: ignore[attr-defined]


def lengths(dxf: bytes) -> dict[str, float]:
    """Return the length of all lines of each layer, by ezdxf, mm."""
    found: dict[str, float] = defaultdict(float)
    for entity in opened(dxf).modelspace():
        if entity.dxftype() != "TEXT":
            found[entity.dxf.layer] += length(entity)
    return dict(found)


def length(entity: Any) -> float:  # noqa: ANN401 (any entity of ezdxf)
    """Return the length of a line, a circle, an arc, a spline, or a polyline of some of these."""
    kind = entity.dxftype()
    if kind == "CIRCLE":
        return math.tau * float(entity.dxf.radius)
    if kind == "ARC":
        sweep = (entity.dxf.end_angle - entity.dxf.start_angle) % 360
        return math.radians(sweep) * float(entity.dxf.radius)
    if kind == "LWPOLYLINE":
        return sum(map(length, entity.virtual_entities()))
    if kind == "LINE":
        return float(entity.dxf.start.distance(entity.dxf.end))
    points = list(entity.construction_tool().flattening(1e-4, segments=16))
    return float(sum(one.distance(other) for one, other in pairwise(points)))


def lengths_in_svg(svg: bytes) -> dict[str, float]:
    """Return the length of all lines of each layer of the SVG, by svgpathtools, mm."""
    return {
        group.get("id", ""): sum(
            svgpathtools.parse_path(path.get("d")).length(error=1e-6)
            for path in group.findall(f"{SVG_NAME}path")
        )
        for group in etree.fromstring(svg).findall(f"{SVG_NAME}g")
        if group.get("id") != LABELS
    }


@pytest.mark.parametrize("piece", PIECES, ids=lambda piece: piece.id)
def test_layers_are_as_long_as_in_svg(piece: Piece) -> None:
    """Each role is a layer, and its lines are as long by ezdxf as in the SVG by svgpathtools."""
    found = lengths(write_dxf(piece))
    assert found == pytest.approx(lengths_in_svg(write_svg(piece)), rel=1e-4)


def test_files_are_sound_and_in_millimetres() -> None:
    """The audit of ezdxf finds nothing; units are mm; a layer has weight and dashes of its role."""
    for piece in PIECES:
        document = opened(write_dxf(piece))
        assert not document.audit().has_errors
        assert document.header["$INSUNITS"] == 4
        for layer in document.layers:
            if layer.dxf.name in LAYERED:
                role = next(role for role in Role if role.word == layer.dxf.name)
                assert layer.dxf.lineweight == round(100 * role.weight)
                assert (layer.dxf.linetype == "Continuous") == (not role.dashes)
        solid = opened(write_dxf(piece, solid=True))
        assert {layer.dxf.linetype for layer in solid.layers} == {"Continuous"}


def test_arcs_are_arcs_and_curves_are_splines() -> None:
    """A disc is one circle; no curve is made of short lines."""
    kinds: Counter[str] = Counter()
    for piece in PIECES:
        entities = opened(write_dxf(piece)).modelspace()
        if piece.kind == "disc":
            cut = [each.dxftype() for each in entities if each.dxf.layer == "cut"]
            assert cut == ["CIRCLE"]
        kinds.update(each.dxftype() for each in entities)
    assert {"CIRCLE", "ARC", "SPLINE", "LWPOLYLINE", "LINE", "TEXT"} >= kinds.keys()
    assert kinds["SPLINE"]
    assert kinds["ARC"]


def test_words_are_text_or_outlines() -> None:
    """Words are on a layer of their own, as text with its place, or as outlines."""
    piece = next(piece for piece in PIECES if piece.drawing.labels)
    texts = [each for each in opened(write_dxf(piece)).modelspace() if each.dxftype() == "TEXT"]
    # what the code page lacks is written as the DXF reference has it: \\U+ and the code point
    assert [decode_dxf_unicode(each.dxf.text) for each in texts] == [
        label.text.replace("\u00a0", " ") for label in piece.drawing.labels
    ]
    assert {each.dxf.layer for each in texts} == {LABELS}
    outlined = list(opened(write_dxf(piece, outlined=True)).modelspace())
    assert "TEXT" not in {each.dxftype() for each in outlined}
    assert LABELS in {each.dxf.layer for each in outlined}


def test_the_same_piece_gives_the_same_bytes() -> None:
    """There is no time of day and no random mark in a file."""
    for piece in PIECES[:3]:
        assert write_dxf(piece, "K7RW3") == write_dxf(piece, "K7RW3")
    assert b"K7RW3" in write_dxf(PIECES[0], "K7RW3")


COLOURS = {(1, 0, 0): 1, (1, 1, 0): 2, (0, 1, 0): 3, (0, 1, 1): 4, (0, 0, 1): 5, (1, 0, 1): 6}
"""The colours of the first layers: the DXF reference, colour index."""


def lengths_by_librecad(dxf: bytes, folder: FilePath) -> dict[str, float]:
    """Return the length of the lines of the first layers as LibreCAD prints them, mm."""
    (folder / "piece.dxf").write_bytes(dxf)
    subprocess.run(
        # ten times as large, as it draws to whole dots of 1/1200 in
        [require("librecad"), "dxf2pdf", "-s", "10", "piece.dxf"],
        cwd=folder,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        check=True,
        timeout=60,
    )
    words = [role.word for role in Role]
    found: dict[str, float] = defaultdict(float)
    with pikepdf.open(folder / "piece.pdf") as pdf:
        for colour, length in drawn(pdf.pages[0]):
            if colour in COLOURS:
                found[words[COLOURS[colour] - 1]] += length / 72 * 25.4 / 10
    return dict(found)


def drawn(page: pikepdf.Page) -> Iterator[tuple[tuple[int, ...], float]]:
    """Yield colour and length of each line that a page draws, in points."""
    scale, colour, here, start, length = 1.0, (0, 0, 0), 0j, 0j, 0.0
    for name, numbers in numbers_of(page):
        points = [complex(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=False)]
        if name == "cm":
            scale *= math.sqrt(abs(numbers[0] * numbers[3] - numbers[1] * numbers[2]))
        elif name == "SCN":
            colour = (round(numbers[0]), round(numbers[1]), round(numbers[2]))
        elif name == "m":
            start = here = points[0]
        elif name in ("l", "c", "h"):
            curve = [here, *(points or [start])]
            length += float(svgpathtools.bpoints2bezier(curve).length())
            here = curve[-1]
        elif name in ("S", "n", "f"):
            yield colour, length * scale if name == "S" else 0.0
            length = 0.0


def numbers_of(page: pikepdf.Page) -> Iterator[tuple[str, list[float]]]:
    """Yield the operators of a page that draw, with their numbers."""
    for part in pikepdf.parse_content_stream(page):
        name = str(part.operator)
        if name in ("cm", "SCN", "m", "l", "c", "h", "S", "n", "f"):
            yield name, [float(str(each)) for each in part.operands]


@pytest.mark.parametrize("kind", ["disc", "placement-guide", "topper", "letter", "scatter"])
def test_librecad_finds_the_same_lengths(kind: str, tmp_path: FilePath) -> None:
    """Another program draws cut and score lines as long as the SVG has them, to half a percent."""
    piece = next(piece for piece in PIECES if piece.kind == kind)
    expected = lengths_in_svg(write_svg(piece))
    found = lengths_by_librecad(write_dxf(piece, solid=True), tmp_path)
    assert found["cut"] == pytest.approx(expected["cut"], rel=5e-3)
    if "score" in expected:
        assert found["score"] == pytest.approx(expected["score"], rel=5e-3)
