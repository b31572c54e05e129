"""A small picture of a whole cake from the front, in its colours, as an SVG file."""

from __future__ import annotations

from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.units import decimal
from templates_gen.views.coloured import front_colours
from templates_gen.views.colours import to_hex
from templates_gen.views.elevation import elevation
from templates_gen.web.view_data import lines

FINE = 1.0
"""How far curves of so small a picture may stray, mm of the cake."""
EDGE = 2.0
_BEGIN = '<svg xmlns="http://www.w3.org/2000/svg" width="{0}" height="{1}" viewBox="0 0 {0} {1}">'
_LINE = 'fill="none" stroke="#4a3f45" stroke-opacity="0.45" vector-effect="non-scaling-stroke"'


def front_svg(stack: DecoratedStack) -> bytes:
    """Return a cake from the front as an SVG file: its colours, and thin lines over them."""
    drawing = elevation(stack, FINE)
    page = drawing.bounds.expanded(EDGE)
    corner = (page.x0, page.y1)
    parts = [
        f'<path d="{_data(fill.path, corner)}" fill="{to_hex(fill.colour)}" fill-rule="evenodd"/>'
        for fill in front_colours(stack)
    ]
    parts += [f'<path d="{data}" {_LINE}/>' for data in lines(drawing, corner).values()]
    return (
        _BEGIN.format(decimal(page.width, 2), decimal(page.height, 2)) + "".join(parts) + "</svg>"
    ).encode()


def _data(path: Path, corner: tuple[float, float]) -> str:
    return lines(Drawing((Stroke(path, Role.GUIDE),)), corner)[Role.GUIDE.word]
