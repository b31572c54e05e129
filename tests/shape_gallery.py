"""The gallery of shapes: of each its wrap and its collar, to scale, and one that tapers.

``python -m tests.reference`` writes it; a test fails while it differs.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from templates_gen.cakefile.shape_keys import shape_keys
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.shapes import SHAPES
from templates_gen.geometry.areas.sampling import sampled
from tests.cakes import one_tier, pieces_of

GALLERY = Path(__file__).resolve().parent.parent / "samples" / "shapes.svg"
KEYS = {
    "short": "'6 in'",
    "corner": "'15 mm'",
    "sides": "6",
    "lobes": "6",
    "outline": "'M0 0 C 0 -60 100 -60 100 0 L 50 110 Z'",
}
"""What the keys of a shape say in the gallery."""
PANELLED = "cover = 'panelled'\n"
DRIPS = "\n[tier.drips]\nspacing = '35 mm'\npattern = 'wave'"
SCALE, GAP, LANE = 0.2, 6.0, 8.0
SHOWN = ("cut", "trim", "fold", "pipe", "guide", "centre")


def spec() -> Iterator[tuple[str, str]]:
    """Yield each shape, and a taper, by name and with its lines of a cake file."""
    for shape in SHAPES:
        keys = [f"{key} = {KEYS[key]}\n" for key in shape_keys(shape) if key in KEYS]
        yield shape, f"shape = '{shape}'\n{''.join(keys)}"
    yield "round, tapered", "top_size = '6 in'\n"
    yield "polygon, tapered", "shape = 'polygon'\nsides = 6\ntop_size = '6 in'\n"
    yield "round, sloped", "shallowest_depth = '3 in'\n"
    yield "round, with a hole", "dummy = true\n[tier.opening]\nradius = '30 mm'\n"


def gallery() -> str:
    """Return the gallery as SVG: wraps left, collars right, a fifth of their size."""
    parts: list[str] = []
    y = wide = 0.0
    for name, lines in spec():
        found = pieces_of(one_tier(PANELLED + lines + DRIPS))
        pieces = [next(each for each in found if each.kind == kind) for kind in ("wrap", "collar")]
        tall = max(piece.size.height for piece in pieces) * SCALE
        parts.append(f'<text x="{GAP}" y="{y + LANE - 2:.1f}">{name}</text>')
        x = GAP
        for piece in pieces:
            parts += _drawn(piece, x, y + LANE)
            x += piece.size.width * SCALE + GAP
        wide, y = max(wide, x), y + LANE + tall + GAP
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.1f}mm" height="{y:.1f}mm"'
            f' viewBox="0 0 {wide:.1f} {y:.1f}">',
            "<title>Shapes: the wrap and the collar of each, a fifth of their size</title>",
            '<rect width="100%" height="100%" fill="#fff"/>',
            '<g font-size="4" font-family="sans-serif" fill="none" stroke="#000"'
            ' stroke-width="0.25" stroke-linejoin="round">',
            *(part.replace("<text ", '<text fill="#000" stroke="none" ') for part in parts),
            "</g>",
            "</svg>",
            "",
        ]
    )


def _drawn(piece: Piece, x: float, y: float) -> Iterator[str]:
    """Yield the lines of a piece, its upper left at (x, y)."""
    top = piece.size.height
    for stroke in piece.drawing.strokes:
        if stroke.role.word not in SHOWN:
            continue
        data = ""
        for points, _ in sampled(stroke.path, 0.3):
            places = (f"{x + px * SCALE:.1f} {y + (top - py) * SCALE:.1f}" for px, py in points)
            data += "M" + "L".join(places)
        dashes = " ".join(f"{each * SCALE * 2:.2f}" for each in stroke.role.dashes)
        yield f'<path d="{data}"' + (f' stroke-dasharray="{dashes}"' if dashes else "") + "/>"
