"""Artwork: what an SVG shows, as large as it is, and nothing that could do harm."""

from __future__ import annotations

import io
import math

import pytest
import svgpathtools
from fontTools.pens.svgPathPen import SVGPathPen
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from templates_gen.drawing.artwork import Artwork, read_artwork
from templates_gen.errors import GeometryError
from templates_gen.geometry.path import Path
from tests.icons import SETS, icons

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'


def svg(body: str, attributes: str = 'viewBox="0 0 100 100"') -> bytes:
    """Return an SVG with a body."""
    return f"{HEAD} {attributes}>{body}</svg>".encode()


def read(body: str, attributes: str = 'viewBox="0 0 100 100"') -> Artwork:
    """Return the artwork of an SVG with a body."""
    return read_artwork(svg(body, attributes))


def length(paths: tuple[Path, ...]) -> float:
    """Return the length of paths as svgpathtools measures it."""
    total = 0.0
    for path in paths:
        pen = SVGPathPen(None, ntos=repr)
        path.draw(pen)
        total += svgpathtools.parse_path(pen.getCommands()).length(error=1e-6)
    return total


def visible(content: bytes) -> list[svgpathtools.Path]:
    """Return the visible paths of a flat icon as svgpathtools reads them, filled ones closed."""
    paths, attributes = svgpathtools.svg2paths(io.StringIO(content.decode()))
    root = etree.fromstring(content)
    stroked = root.get("stroke") not in (None, "none")
    result = []
    for path, own in zip(paths, attributes, strict=True):
        filled = own.get("fill", root.get("fill")) != "none"
        if not (filled or stroked or own.get("stroke")):
            continue
        for part in path.continuous_subpaths():
            if filled and abs(part.start - part.end) > 1e-9:
                part.append(svgpathtools.Line(part.end, part.start))
            result.append(part)
    return result


@pytest.mark.parametrize("name", SETS)
def test_icons_are_read_as_large_as_they_are(name: str) -> None:
    """Of a whole set: proportions and length of all lines as svgpathtools reads the same files."""
    checked = 0
    for stem, content in icons(name).items():
        drawing = read_artwork(content)
        boxes = [path.bbox() for path in visible(content)]
        wide = max(box[1] for box in boxes) - min(box[0] for box in boxes)
        tall = max(box[3] for box in boxes) - min(box[2] for box in boxes)
        box = drawing.box
        scale = max(box.width, box.height) / max(wide, tall)
        assert (box.width, box.height) == pytest.approx((wide * scale, tall * scale), abs=1e-3), (
            stem
        )
        total = sum(path.length(error=1e-6) for path in visible(content))
        assert length(drawing.paths) == pytest.approx(total * scale, rel=1e-3), stem
        fitted = drawing.fitted(40, 25)
        assert fitted.box.width <= 40 + 1e-6
        assert fitted.box.height <= 25 + 1e-6
        assert max(fitted.box.width / 40, fitted.box.height / 25) == pytest.approx(1)
        checked += 1
    assert checked > 200


@pytest.mark.parametrize(
    ("attributes", "factor"),
    [
        ('viewBox="0 0 100 100" width="50mm" height="50mm"', 1),
        ('viewBox="0 0 100 50" width="100px" height="100px" preserveAspectRatio="none"', 2),
        ('width="4in" height="3in"', 1),
        ('viewBox="-50 -50 100 100" width="10cm" height="5cm"', 1),
        ('viewBox="0 0 10 10" width="100%" height="100%"', 1),
    ],
)
def test_viewbox_and_units(attributes: str, factor: float) -> None:
    """A box twice as wide as tall is so, whatever the units, unless the file stretches it."""
    box = read('<rect x="5" y="5" width="40" height="20"/>', attributes).box
    assert box.width / box.height == pytest.approx(2 / factor)


@pytest.mark.parametrize(
    ("body", "wide", "tall"),
    [
        ('<circle cx="50" cy="50" r="20"/>', 40, 40),
        ('<ellipse cx="50" cy="50" rx="30" ry="10"/>', 60, 20),
        ('<line x1="0" y1="0" x2="30" y2="40" stroke="red"/>', 30, 40),
        ('<polygon points="0,0 30,0 30,60"/>', 30, 60),
        ('<polyline points="0,0 30,0 30,60" fill="none" stroke="#000"/>', 30, 60),
        ('<rect width="30" height="60" rx="5"/>', 30, 60),
        ('<path d="M0 0 q 20 40 40 0 t 40 0"/>', 80, 40),
        ('<path d="M10 10 a 20 20 0 1 1 1 0 z"/>', 40, 39.994),
        ('<g transform="rotate(90)"><rect width="30" height="60"/></g>', 60, 30),
        ('<g transform="scale(2 3)"><rect width="30" height="20"/></g>', 60, 60),
        ('<defs><rect id="a" width="30" height="60"/></defs><use href="#a"/>', 30, 60),
        ('<defs><rect id="a" width="9" height="9"/></defs><use xlink:href="#a" x="4"/>', 9, 9),
        (
            '<svg viewBox="0 0 10 10" width="50" height="50"><rect width="4" height="8"/></svg>',
            1,
            2,
        ),
        ('<rect width="30" height="60"/><rect width="99" height="9" fill="none"/>', 30, 60),
        ('<rect width="30" height="60"/><rect width="99" display="none" height="9"/>', 30, 60),
        ('<rect width="30" height="60"/><rect width="99" visibility="hidden" height="9"/>', 30, 60),
        (
            '<style>.a{fill:none}</style><rect width="3" height="6"/>'
            '<rect class="a" width="9" height="9"/>',
            3,
            6,
        ),
    ],
)
def test_shapes_groups_and_transforms(body: str, wide: float, tall: float) -> None:
    """What is drawn has the proportions that arithmetic gives it; what is not shown is left out."""
    box = read(body).box
    assert box.width / box.height == pytest.approx(wide / tall, rel=1e-4)


@pytest.mark.parametrize("data", ["M0 0H90V60Z garbage", "M0 0H90V60 C 1 2 3", "0 0 9 9"])
def test_damaged_path_data_is_refused(data: str) -> None:
    """An SVG whose path data has an error is refused: no part of it is left out silently."""
    with pytest.raises(GeometryError, match="cannot be drawn"):
        read(f'<path d="{data}"/><rect width="9" height="9"/>')


@pytest.mark.parametrize(
    "body",
    [
        '<rect x="-4" y="-1e1" width="9" height="6" rx="auto" ry="1"/>',
        '<rect x="+.5" width="1.e1mm" height=" 9 " rx="-0"/>',
        '<polygon points="0,0 9-6,5.5.5 -1e-2 7"/>',
        '<circle cx="5%" r="5 "/>',
    ],
)
def test_numbers_are_read_as_svg_has_them(body: str) -> None:
    """What the check of numbers lets pass is what SVG 1.1 (4.2, 9.7) calls numbers and lengths."""
    assert read(body).paths


def test_open_lines_stay_lines_and_filled_shapes_are_closed() -> None:
    """A stroke that is not filled keeps its ends; the same line filled becomes an outline."""
    corner = "M0 0H30V60"
    (line,) = read(f'<path d="{corner}" fill="none" stroke="#000"/>').paths
    (shape,) = read(f'<path d="{corner}"/>').paths
    assert line.commands[-1][0] == "endPath"
    assert shape.commands[-1][0] == "closePath"


def test_a_ring_keeps_its_hole() -> None:
    """Two contours of one path stay one path."""
    (ring,) = read('<path d="M0 0h60v60h-60zm20 20v20h20v-20z" fill-rule="evenodd"/>').paths
    assert [name for name, _ in ring.commands].count("closePath") == 2
    assert length((ring,)) * 1 == pytest.approx(ring.bounds.width / 60 * (240 + 80))


def test_mirrored_and_placed() -> None:
    """Its middle is where asked, mirrored or not, and a mirror turns left to right."""
    drawing = read('<path d="M0 0H40V10H0z"/><path d="M0 0H10V40H0z"/>').fitted(40, 40)
    plain, turned = (drawing.placed(100, 50, mirrored=way) for way in (False, True))
    for paths in (plain, turned):
        box = Artwork(paths).box
        assert box.centre == pytest.approx((100, 50))
    assert plain[1].bounds.x0 == pytest.approx(80)
    assert turned[1].bounds.x1 == pytest.approx(120)


BOMB = "".join(f'<g id="g{n + 1}">{f"""<use href="#g{n}"/>""" * 10}</g>' for n in range(9))
BAD = {
    "empty": (b"", "no SVG"),
    "text": (b"hello", "no SVG"),
    "half": (svg('<rect width="9" height="9"/>')[:-8], "no SVG"),
    "png": (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "no SVG"),
    "html": (b"<html><body/></html>", "no SVG but “html”"),
    "another namespace's root": (b"<a:svgs xmlns:a='b'/>", "no SVG but “svgs”"),
    "nothing": (svg(""), "shows no lines"),
    "invisible": (svg('<rect width="9" height="9" fill="none"/>'), "shows no lines"),
    "hidden": (svg('<g display="none"><rect width="9" height="9"/></g>'), "shows no lines"),
    "only defined": (svg('<defs><rect width="9" height="9"/></defs>'), "shows no lines"),
    "a point": (svg('<path d="M5 5z"/>'), "shows no lines"),
    "text in it": (svg('<text x="5" y="9">Joy</text>'), "convert it to outlines"),
    "text in a group": (svg("<g><text><tspan>a</tspan></text></g>"), "convert it to outlines"),
    "picture": (svg('<image href="a.png" width="9" height="9"/>'), "trace it"),
    "picture within": (svg('<image href="data:image/png;base64,AA" width="9"/>'), "trace it"),
    "a page in it": (svg("<foreignObject/>"), "trace it"),
    "a page of others": (svg("<iframe/>"), "trace it"),
    "a film in it": (svg("<video/>"), "trace it"),
    "a canvas in it": (svg("<g><canvas/></g>"), "trace it"),
    "parts of others": (svg('<use href="other.svg#a"/>'), "put them into this one"),
    "parts from the web": (svg('<use xlink:href="http://a.b/c.svg#a"/>'), "put them into this one"),
    "entities": (b'<!DOCTYPE svg [<!ENTITY a "b">]>' + svg("<g>&a;</g>"), "save it as plain SVG"),
    "entity bomb": (
        b'<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;&a;">]>' + svg("<g>&b;</g>"),
        "save it as plain SVG",
    ),
    "a file's content": (
        b'<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/hostname">]>' + svg("<g>&a;</g>"),
        "save it as plain SVG",
    ),
    "use within itself": (svg('<g id="a"><use href="#a"/></g>'), "within itself"),
    "use in a ring": (
        svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'),
        "within itself",
    ),
    "use bomb": (svg(f'<g id="g0"><path d="M0 0H9"/></g>{BOMB}'), "over 5000 elements"),
    "many elements": (svg('<path d="M0 0H9V9z"/>' * 5001), "over 5000 elements"),
    "many curves": (svg(f'<path d="M0 0{"h1v1" * 1_001}"/>'), "over 2000 lines"),
    "deep": (svg("<g>" * 300 + "</g>" * 300), "nested too deeply"),
    "deeper": (svg("<g>" * 50_000 + "</g>" * 50_000), ""),
    "huge": (svg(" " * 2_000_001), "larger than 2 MB"),
    "no number": (svg('<path d="M0 0 L nan 5 H 3"/>'), ""),
    "out of all measure": (svg('<path d="M0 0 L 1e300 5 H 3"/>'), "of all measure"),
    "infinite": (svg('<path d="M0 0 L 1e999 5 H 3"/>'), "of all measure"),
    "no path data": (svg('<path d="hello"/>'), ""),
    "no size": (svg('<path d="M0 0H9V9z"/>', 'viewBox="0 0 0 0"'), ""),
    "no length": (svg('<circle cx="5" cy="5" r="wide"/>'), "circle whose r is no number: wide"),
    "no length beside others": (
        svg('<circle r="NaN"/><rect width="9" height="9"/>'),
        "circle whose r is no number: NaN",
    ),
    "no place": (svg('<circle cx="nan" cy="5" r="5"/>'), "circle whose cx is no number"),
    "no end": (svg('<line x2="inf" y2="3" stroke="red"/>'), "line whose x2 is no number"),
    "no points": (svg('<polygon points="0,0 nan,5 5,5"/>'), "polygon whose points are not all"),
    # a negative radius, width or height "is an error": SVG 1.1 (Second Edition), 9.2 to 9.4
    "negative radius": (svg('<circle cx="5" cy="5" r="-5"/>'), "circle whose r is negative: -5"),
    "negative radii": (svg('<ellipse rx="-.5e1" ry="3"/>'), "ellipse whose rx is negative"),
    "negative width": (svg('<rect width="-5" height="3"/>'), "rect whose width is negative: -5"),
    "negative corner": (
        svg('<rect width="9" height="9" rx="-2px"/>'),
        "whose rx is negative: -2px",
    ),
    "singular": (svg('<g transform="scale(0)"><rect width="9" height="9"/></g>'), "shows no lines"),
    "broken transform": (svg('<g transform="turn(5"><rect width="a" height="9"/></g>'), ""),
}


@pytest.mark.parametrize("name", BAD)
def test_bad_artwork(name: str) -> None:
    """It is refused in words for a decorator, quickly, and never crashes."""
    content, says = BAD[name]
    with pytest.raises(GeometryError) as caught:
        read_artwork(content)
    assert says in str(caught.value)
    assert str(caught.value)[:7] in ("the SVG", "the fil")


@given(st.sampled_from(["heart", "anchor", "feather"]), st.integers(0, 400), st.binary(max_size=8))
def test_damaged_artwork_never_crashes(stem: str, place: int, damage: bytes) -> None:
    """Overwritten anywhere it is read, or refused."""
    content = bytearray(icons("feather-icons")[stem])
    content[place : place + len(damage)] = damage
    try:
        box = read_artwork(bytes(content)).box
    except GeometryError:
        return
    assert all(math.isfinite(side) for side in box)
