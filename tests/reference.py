"""The pictures of the README: printed pages, the overview at its head, the galleries.

``python -m tests.reference`` draws them; a test fails while they differ.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path

import cv2
import numpy as np
from numpy.typing import NDArray

from templates_gen import PAPERS, Pack, write_pdf
from templates_gen.cakefile.reading import parse_data, read_text
from templates_gen.classroom.making import make_all
from templates_gen.classroom.orders import Student, students
from templates_gen.classroom.roster import RosterSource, read_roster
from templates_gen.cover.pack import make_pack
from templates_gen.plan import Plan
from templates_gen.sheets.pack import Sheet
from templates_gen.views.picture import picture as elevation_and_plan
from templates_gen.writers.picture import picture_png
from tests import shape_gallery
from tests.cakes import sample_plan
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


def _fold_and_tape(pack: Pack) -> int:
    """Return the number of the first sheet with a quarter on the fold and a tape."""

    def has_both(sheet: Sheet) -> bool:
        pieces = [window.piece for window in sheet.windows]
        quarters = [each for each in pieces if each.unfolding and len(each.unfolding.mirrors) == 2]
        return bool(quarters) and any("tape" in each.title for each in pieces)

    return next(sheet.number for sheet in pack.sheets if has_both(sheet))


PICTURES: dict[str, Callable[[Pack], int]] = {
    "fold-sheet.png": _fold_and_tape,
    "cover.png": lambda _: 1,
    "bench-list.png": lambda _: 2,
}
"""The pictures of the README, and which sheet of the pack each shows."""


def picture(name: str) -> bytes:
    """Return a sheet of a sample as a small grey PNG, drawn by Poppler."""
    return _drawn(write_pdf(_pack()), PICTURES[name](_pack()))


def _drawn(pdf: bytes, page: int) -> bytes:
    """Return a page of a PDF as a small grey PNG, drawn by Poppler."""
    with tempfile.TemporaryDirectory() as folder:
        file, png = Path(folder) / "pack.pdf", Path(folder) / "sheet"
        file.write_bytes(pdf)
        only = ("-f", str(page), "-l", str(page), "-singlefile")
        run("pdftoppm", *only, "-r", "70", "-gray", "-png", file, png)
        return png.with_suffix(".png").read_bytes()


EARLY = "before.png"
"""A page of an early version, which is kept: it has half of ``REDRAWN``, and strips to tape."""
REDRAWN = "second: placement guide"


def before_and_after() -> bytes:
    """Return a page of an early version and the page with the same template now, as grey PNG."""
    sheets = (
        sheet.number
        for sheet in _pack().sheets
        if any(each.piece.title.startswith(REDRAWN) for each in sheet.windows)
    )
    early = (SAMPLES / EARLY).read_bytes()
    pages = [_decoded(each) for each in (early, _drawn(write_pdf(_pack()), next(sheets)))]
    return _png(cv2.cvtColor(_side_by_side(pages), cv2.COLOR_BGR2GRAY))


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
    sheet = _drawn(write_pdf(_pack()), _most_collars(_pack()))
    drawn = [_decoded(sheet), _decoded(cake)]
    return _png(_side_by_side([np.asarray(page, np.uint8), *drawn]))


PUPILS = ("Abena", "Goro")
"""Two people of the sample list whose cakes differ."""


def class_picture() -> bytes:
    """Return the first sheet and one of templates of two people of a class, as a small grey PNG."""
    file = read_text(str(SAMPLES / "starter.toml"))
    roster = read_roster((SAMPLES / "evening-class.csv").read_bytes(), "evening-class.csv")
    people = [each for each in roster.people if each.name in PUPILS]
    found = students(people, parse_data(file), file, RosterSource("evening-class.csv"))
    made, errors = make_all(
        [each for each in found if isinstance(each, Student)], lambda: None, jobs=1
    )
    assert not errors
    sheets = [_decoded(_drawn(each.printed[0].pdf, page)) for each in made for page in (1, 3)]
    return _png(cv2.cvtColor(_side_by_side(sheets), cv2.COLOR_BGR2GRAY))


def _side_by_side(images: Sequence[Pixels]) -> Pixels:
    blank = np.full((TALL + 2 * GAP, GAP, 3), 255, np.uint8)
    framed = (_framed(each) for each in images)
    row = np.hstack([blank, *(part for each in framed for part in (each, blank))])
    return np.asarray(row, np.uint8)


def _png(image: object) -> bytes:
    done, png = cv2.imencode(".png", np.asarray(image), [cv2.IMWRITE_PNG_COMPRESSION, 9])
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


COMPOSED: dict[str, Callable[[], bytes]] = {
    "overview.png": overview,
    "class.png": class_picture,
    "before-and-after.png": before_and_after,
}
"""The pictures of the README that are put together."""


@cache
def _plan() -> Plan:
    return sample_plan(PICTURED)


@cache
def _pack() -> Pack:
    return make_pack(_plan(), PAPERS["a4"])


if __name__ == "__main__":
    for name in PICTURES:
        (SAMPLES / name).write_bytes(picture(name))
    for name, made in COMPOSED.items():
        (SAMPLES / name).write_bytes(made())
    GALLERY.write_text(gallery(), encoding="utf-8")
    shape_gallery.GALLERY.write_text(shape_gallery.gallery(), encoding="utf-8")
