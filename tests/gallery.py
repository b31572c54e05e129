"""The gallery of designs: each in every form, flat as on a strip and standing on a tier.

``python -m tests.reference`` writes it; a test fails while it differs.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import shapely

from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.lengths import length_of
from templates_gen.drawing.attached import Attached
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.shapes import SHAPES
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Point
from templates_gen.guides.designs import design_guide
from templates_gen.guides.guide import Guide
from templates_gen.tiers.solid import Layer

GALLERY = Path(__file__).resolve().parent.parent / "samples" / "designs.svg"
SIZE, DEPTH, GAP, LANE = 150.0, 90.0, 12.0, 10.0
STEP = 5.0
"""Between two points of a level line, mm."""
BAND = {"top": length_of(10), "bottom": length_of(80)}
SPRIG = b"""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 50">
<path d="M20 50 C 20 30 20 20 20 4 M20 36 C 8 34 4 26 4 18 C 14 20 19 26 20 36 C 21 26 26 20 36 18
C 36 26 32 34 20 36" fill="none" stroke="#000"/></svg>"""
"""Artwork of our own for the gallery."""


def spec() -> Iterator[tuple[str, Design]]:
    """Yield every design in every form, with what it is called."""
    for kind, design in DESIGNS.items():
        for form in design.forms or (None,):
            more = {"file": Attached("sprig.svg", SPRIG), "mirror": True}
            own = {key: value for key, value in more.items() if key in design.keys}
            given = {"kind": kind, "form": form, **BAND, **own}
            yield f"{kind} {form or ''}".strip(), Design.model_validate(given)


def gallery() -> str:
    """Return the gallery as SVG, mm."""
    outline = SHAPES["round"](SIZE)
    layer = Layer("covered", outline, outline, DEPTH)
    half = layer.side.girth / 2
    rows = list(spec())
    wide, tall = half + SIZE + 3 * GAP, len(rows) * (DEPTH + GAP + LANE) + GAP
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.1f}mm" height="{tall:.1f}mm"'
        f' viewBox="0 0 {wide:.1f} {tall:.1f}">',
        "<title>Designs: half a strip of each, and the tier from the front</title>",
        '<rect width="100%" height="100%" fill="#fff"/>',
        '<g fill="none" stroke="#000" stroke-width="0.4" stroke-linejoin="round">',
    ]
    for index, (name, design) in enumerate(rows):
        y = GAP + LANE + index * (DEPTH + GAP + LANE)
        guide = design_guide(layer, design)
        parts += [
            f'<text x="{GAP}" y="{y - 2:.1f}" font-size="6" font-family="sans-serif" fill="#000"'
            f' stroke="none">{name}</text>',
            f'<rect x="{GAP}" y="{y:.1f}" width="{half:.1f}" height="{DEPTH:.1f}"/>',
            f'<path d="{_lines(_flat(guide), GAP, y)}"/>',
            f'<rect x="{half + 2 * GAP:.1f}" y="{y:.1f}" width="{SIZE}" height="{DEPTH}"/>',
            f'<path d="{_lines(_standing(guide), half + 2 * GAP + SIZE / 2, y + DEPTH)}"/>',
        ]
    return "\n".join([*parts, "</g>", "</svg>", ""])


def _lines(lines: Iterator[list[Point]], x: float, y: float) -> str:
    """Return lines of points as path data, moved to (x, y)."""
    return "".join(
        "M" + "L".join(f"{x + px:.1f} {y + py:.1f}" for px, py in points) for points in lines
    )


def _flat(guide: Guide) -> Iterator[list[Point]]:
    """Yield what the front half of a strip shows, from its left end."""
    left = guide.layer.side.girth / 4
    for points in _seen(guide):
        yield [(u - left, v) for u, v in points]


def _standing(guide: Guide) -> Iterator[list[Point]]:
    """Yield what is seen from the front of a tier that stands on y = 0."""
    for points in _seen(guide):
        places = [guide.layer.side.in_space(u, v) for u, v in points]
        yield [(x, -z) for x, _, z in places]


def _seen(guide: Guide) -> Iterator[list[Point]]:
    """Yield what a guide draws on the front half of a side, as points a few mm apart."""
    girth = guide.layer.side.girth
    front = shapely.box(girth / 4, -1, 3 * girth / 4, DEPTH + 1)
    for stroke in guide.drawing.strokes:
        for points, _ in sampled(stroke.path, 0.05):
            for turn in (-girth, 0.0):
                line = shapely.LineString([(u + turn, v) for u, v in points])
                for part in shapely.get_parts(shapely.intersection(line, front)):
                    if part.length:
                        close = shapely.segmentize(part, STEP)
                        yield [(u, v) for u, v in close.coords]


NUMBER = re.compile(r"-?\d+\.\d+")


def numbers_and_rest(svg: str) -> tuple[list[float], str]:
    """Return the numbers of an SVG, and its text without them, for comparing."""
    return [float(number) for number in NUMBER.findall(svg)], NUMBER.sub("#", svg)
