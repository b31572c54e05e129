"""Rasters of what was written, drawn by outside programs, and how they are compared."""

from __future__ import annotations

import subprocess
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import cv2
import numpy as np
import numpy.typing as npt
import pypdfium2

from tests.judges import require, run
from tests.svg_content import NOT_LINES, cut_short, piece_extent, without_groups

Ink = npt.NDArray[np.uint8]
"""Ink of each pixel, rows from the top: 0 is paper, 255 is black."""
Map = npt.NDArray[np.float64]
"""An affine map of the plane, three by three."""

DPI = 200
DARK, FAINT = 128, 32
"""A pixel at least half black is drawn on; one less than an eighth black is blank."""


@dataclass(frozen=True)
class Raster:
    """Ink, and the map from mm (y up) to pixels, the middle of the top left one at (0, 0)."""

    ink: Ink
    from_mm: Map


def affine(a: float, b: float, c: float, d: float, e: float, f: float) -> Map:
    """Return the map x' = a x + c y + e, y' = b x + d y + f."""
    return np.array([[a, c, e], [b, d, f], [0, 0, 1]], dtype=np.float64)


def page_map(across: float, down: float, height: float) -> Map:
    """Return the map to pixels of a page ``height`` mm high with so many pixels to a mm."""
    return affine(across, 0, 0, -down, -0.5, height * down - 0.5)


def by_pdfium(pdf: bytes, dpi: int = DPI, pages: Sequence[int] | None = None) -> list[Raster]:
    """Return the pages of a PDF (all, or those numbered from 0) as PDFium draws them.

    PDFium fills whole pixels with a page, so a pixel is not exactly 1/dpi in.
    """
    document = pypdfium2.PdfDocument(pdf)
    rasters = []
    for number in range(len(document)) if pages is None else pages:
        page = document[number]
        ink = 255 - page.render(scale=dpi / 72, grayscale=True).to_numpy()
        width, height = (side / 72 * 25.4 for side in page.get_size())
        scale = page_map(ink.shape[1] / width, ink.shape[0] / height, height)
        rasters.append(Raster(ink, scale))
    document.close()
    return rasters


def by_poppler(pdf: bytes, dpi: int = DPI) -> list[Raster]:
    """Return the pages of a PDF as Poppler draws them."""
    document = pypdfium2.PdfDocument(pdf)
    heights = [page.get_size()[1] / 72 * 25.4 for page in document]
    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder) / "pack.pdf"
        source.write_bytes(pdf)
        run("pdftoppm", "-r", str(dpi), "-gray", source, Path(folder) / "page")
        files = sorted(Path(folder).glob("page-*.pgm"))
        inks = [_ink(file.read_bytes()) for file in files]
    pixels = dpi / 25.4
    return [
        Raster(ink, page_map(pixels, pixels, height))
        for ink, height in zip(inks, heights, strict=True)
    ]


def by_librsvg(svg: bytes, dpi: int = DPI) -> Ink:
    """Return an SVG as librsvg draws it, on white."""
    command = [require("rsvg-convert"), f"--dpi-x={dpi}", f"--dpi-y={dpi}", "-b", "white"]
    done = subprocess.run(command, input=svg, capture_output=True, check=True)
    return _ink(done.stdout)


def _ink(picture: bytes) -> Ink:
    grey = cv2.imdecode(np.frombuffer(picture, np.uint8), cv2.IMREAD_GRAYSCALE)
    assert grey is not None
    return np.asarray(255 - grey, dtype=np.uint8)


@lru_cache(maxsize=2)
def piece_raster(svg: bytes, dpi: int = DPI) -> Raster:
    """Return a piece from its SVG, lettering and check square aside, mapped from its own frame.

    The lower left of what is drawn is (0, 0) of the piece, wherever it lies on the canvas.
    """
    pixels = dpi / 25.4
    at = piece_extent(svg)
    frame = affine(pixels, 0, 0, -pixels, at.left * pixels - 0.5, at.foot * pixels - 0.5)
    lines = cut_short(without_groups(svg, *NOT_LINES), at.foot + 2)
    return Raster(by_librsvg(lines, dpi), frame)


def laid(page: Raster, from_mm: Map, shape: tuple[int, ...]) -> Ink:
    """Return a page drawn again with its mm where ``from_mm`` puts them, in rows and columns."""
    moved = from_mm @ np.linalg.inv(page.from_mm)
    return np.asarray(cv2.warpAffine(page.ink, moved[:2], shape[::-1]), dtype=np.uint8)


def missing(expected: Ink, found: Ink) -> int:
    """Count the dark pixels of ``expected`` that have no ink of ``found`` within a pixel."""
    near = cv2.dilate(found, np.ones((3, 3), np.uint8))
    return int(np.count_nonzero((expected >= DARK) & (near < FAINT)))
