"""Own outline: one closed curve drawn by the decorator, as SVG path data."""

from __future__ import annotations

from templates_gen.geometry.arc_fitting import from_path
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.svg_path import read_outline


def custom(outline: str, size: float) -> Outline:
    """Return the outline of SVG path data, ``size`` mm long the longer way of its box.

    SVG's y runs down: what is lowest in the drawing is the front of the tier. Raises GeometryError
    for anything but one simple closed curve.
    """
    return from_path(read_outline(outline).centred(size))
