"""A shape to cut: one of the table, or the outline of a file."""

from __future__ import annotations

from templates_gen.drawing.artwork import read_artwork
from templates_gen.drawing.attached import Attached
from templates_gen.drawing.cutouts import CUTOUTS
from templates_gen.errors import CakeError, GeometryError
from templates_gen.geometry.areas.booleans import clean
from templates_gen.geometry.path import Path
from templates_gen.geometry.path_pen import FLIP


def cutout(shape: str, file: Attached | None, size: float) -> Path:
    """Return a shape of the table, or the one outline of a file, ``size`` mm at its longer side.

    Raises CakeError, at the key ``file``, for artwork that is not one closed outline.
    """
    if shape in CUTOUTS:
        return CUTOUTS[shape](size)
    allowed, advice = "an SVG file of one closed outline", "draw it as one filled shape"
    if file is None:
        write = 'write for example file = "bee.svg"'
        raise CakeError.at(("file",), "artwork and no file", allowed, write)
    try:
        drawing = read_artwork(file.content).fitted(size, size)
        (path,) = drawing.placed(0.0, 0.0)
        return clean(path.transformed(FLIP))
    except GeometryError as error:
        raise CakeError.at(("file",), str(error), allowed, advice) from None
    except ValueError:
        found = f"{len(drawing.paths)} lines and shapes"
        raise CakeError.at(("file",), found, allowed, advice) from None
