"""Artwork: the decorator's own SVG file as the repeat."""

from __future__ import annotations

from templates_gen.drawing.artwork import read_artwork
from templates_gen.drawing.designs.motif import Cell, Motif, within
from templates_gen.errors import CakeError, geometry_at


def artwork(
    cell: Cell, *, file: bytes | None = None, height: float | None = None, mirror: bool = False
) -> Motif:
    """Return the drawing of an SVG file in the middle of the cell, as large as fits it.

    Up to ``height`` mm tall, in its own proportions. Mirrored: every other repeat is turned round.
    """
    tall = cell.height if height is None else height
    within("height", tall, cell.height, "the band of the design")
    allowed = "an SVG file of lines and shapes"
    if file is None:
        example = 'write for example file = "leaf.svg"'
        raise CakeError.at(("file",), "artwork and no file", allowed, example)
    advice = "save it as plain SVG, all text converted to outlines"
    with geometry_at(("file",), allowed, advice):
        drawing = read_artwork(file).fitted(cell.width, tall)
    middle = cell.width / 2, cell.height / 2
    box = drawing.box
    return Motif(
        drawing.placed(*middle),
        turned=drawing.placed(*middle, mirrored=True) if mirror else None,
        values={"art_width_mm": box.width, "art_height_mm": box.height},
        about=middle,
    )
