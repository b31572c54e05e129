"""The pictures of the README: printed pages, the overview at its head, the galleries.

``python -m tests.reference`` draws them; a test fails while they differ.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

import cv2
import numpy as np
from numpy.typing import NDArray

from templates_gen import PAPERS, Pack, write_pdf
from templates_gen.cover.pack import make_pack
from templates_gen.plan import Plan, make_plan
from templates_gen.views.picture import picture as elevation_and_plan
from templates_gen.writers.picture import picture_png
from tests import shape_gallery
from tests.cakes import sample
from tests.gallery import GALLERY, gallery
from tests.judges import run

SAMPLES = Path(__file__).resolve().parent.parent / "samples"
PICTURED = "harbour-wedding"


def _most_collars(pack: Pack) -> int:
    """Return the number of the sheet with the most windows of collars."""
    most = max(
        pack.sheets, key=lambda sheet: sum(each.piece.kind == "collar" for each in sheet.windows)
    )
    return most.number


def _most_folds(pack: Pack) -> int:
    """Return the number of the sheet with the most templates on the fold and tapes."""
    most = max(
        pack.sheets,
        key=lambda sheet: sum(each.piece.unfolding is not None for each in sheet.windows),
    )
    return most.number


PICTURES: dict[str, Callable[[Pack], int]] = {
    "printed-sheet.png": _most_collars,
    "fold-sheet.png": _most_folds,
    "cover.png": lambda _: 1,
    "bench-list.png": lambda _: 2,
}
"""The pictures of the README, and which sheet of the pack each shows."""


def picture(name: str) -> bytes:
    """Return a sheet of a sample as a small grey PNG, drawn by Poppler."""
    with tempfile.TemporaryDirectory() as folder:
        pdf, png = Path(folder) / "pack.pdf", Path(folder) / "sheet"
        pack = _pack()
        pdf.write_bytes(write_pdf(pack))
        page = str(PICTURES[name](pack))
        run(
            "pdftoppm", "-f", page, "-l", page, "-r", "70", "-gray", "-png", "-singlefile", pdf, png
        )
        return png.with_suffix(".png").read_bytes()


Pixels = NDArray[np.uint8]
TALL, GAP = 420, 18
"""Height of the overview's pictures and the gap round them, in pixels."""


def overview() -> bytes:
    """Return the page, a printed sheet and the cake side by side, as PNG.

    The page is the picture of it that is kept; the others are drawn.
    """
    page = cv2.imread(str(SAMPLES / "page.png"))
    assert page is not None
    cake = picture_png(_plan().title, elevation_and_plan(_plan(), 186, 260).drawing)
    drawn = [_decoded(picture("printed-sheet.png")), _decoded(cake)]
    framed = [_framed(each) for each in (np.asarray(page, np.uint8), *drawn)]
    blank = np.full((TALL + 2 * GAP, GAP, 3), 255, np.uint8)
    row = np.hstack([blank, *(part for each in framed for part in (each, blank))])
    done, png = cv2.imencode(".png", row, [cv2.IMWRITE_PNG_COMPRESSION, 9])
    assert done
    return png.tobytes()


def _decoded(png: bytes) -> Pixels:
    found = cv2.imdecode(np.frombuffer(png, np.uint8), cv2.IMREAD_COLOR)
    assert found is not None
    return np.asarray(found, np.uint8)


def _framed(image: Pixels) -> Pixels:
    """Return a picture as tall as the others, with a thin grey edge and blank above and below."""
    width = round(image.shape[1] * (TALL - 2) / image.shape[0])
    small = cv2.resize(image, (width, TALL - 2), interpolation=cv2.INTER_AREA)
    edged = cv2.copyMakeBorder(small, 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=(190, 190, 190))
    blank = (255, 255, 255)
    tall = cv2.copyMakeBorder(edged, GAP, GAP, 0, 0, cv2.BORDER_CONSTANT, value=blank)
    return np.asarray(tall, np.uint8)


@cache
def _plan() -> Plan:
    return make_plan(sample(PICTURED))


@cache
def _pack() -> Pack:
    return make_pack(_plan(), PAPERS["a4"])


if __name__ == "__main__":
    for name in PICTURES:
        (SAMPLES / name).write_bytes(picture(name))
    (SAMPLES / "overview.png").write_bytes(overview())
    GALLERY.write_text(gallery(), encoding="utf-8")
    shape_gallery.GALLERY.write_text(shape_gallery.gallery(), encoding="utf-8")
