"""Templates on the fold cut from the sheets and unfolded, by pixels, are the whole piece.

Pages are drawn by PDFium and by Poppler, the whole piece by librsvg from its SVG. Lines of dashes
are left out, since a half starts its dashes at the fold, and lines along a fold: the crease is one.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

import numpy as np
import pytest

from templates_gen.drawing.roles import Role
from templates_gen.plan import make_plan
from templates_gen.printing.templates import templates
from templates_gen.writers.svg import write_svg
from tests.cakes import one_tier, pieces_of
from tests.prints import Job, Print, print_of
from tests.raster import (
    DARK,
    Ink,
    Map,
    Raster,
    affine,
    by_pdfium,
    by_poppler,
    laid,
    missing,
    piece_raster,
)
from tests.svg_content import without_groups

CAKE = one_tier(
    "name = 'cake'\ncover = 'panelled'\nshape = 'oval'\nshort = '5 in'\n", size="7 in", depth="3 in"
)
CREASE = 2
"""Half the width of a fold line on the rasters, pixels: it is drawn in place of what lies on it."""
Draw = Callable[[bytes], list[Raster]]
FOLDED = ("cake/disc", "cake/wrap", "drum/placement-guide")


@cache
def pack() -> Print:
    """Return the cake as it is printed."""
    plan = make_plan(CAKE)
    return print_of(Job("cake", "a4", "a4"), plan, templates(plan))


@cache
def sheets(draw: Draw) -> list[Raster]:
    """Return the sheets as an outside program draws them."""
    return draw(pack().pdf)


def images(window: dict[str, Any]) -> list[Map]:
    """Return the maps from a template's frame to that of the whole piece, one for each layer."""
    maps = [np.eye(3)]
    for fold in window["unfold"]:
        at = 2 * fold["at_mm"]
        mirror = affine(-1, 0, 0, 1, at, 0) if fold["axis"] == "x" else affine(1, 0, 0, -1, 0, at)
        maps += [mirror @ each for each in maps]
    move = affine(1, 0, 0, 1, *window["whole_mm"])
    return [move @ each for each in maps]


def unfolded(piece: str, whole: Raster, move: float = 0.0, draw: Draw = by_pdfium) -> Ink:
    """Return a template cut from its sheets and laid on itself layer by layer."""
    ink, aside = np.zeros_like(whole.ink), affine(1, 0, 0, 1, move, 0)
    for number, window in pack().windows:
        if window["piece"] != piece:
            continue
        page = sheets(draw)[number - 1]
        x0, y0, x1, y1 = window["box_mm"]
        to_sheet = affine(*window["to_sheet"])
        corners = page.from_mm @ to_sheet @ np.array([(x0, y0, 1), (x1, y1, 1)]).T
        (left, right), (top, foot) = sorted(corners[0]), sorted(corners[1])
        shown = np.zeros_like(page.ink)
        rows = slice(max(0, int(top)), int(foot) + 2)
        columns = slice(max(0, int(left)), int(right) + 2)
        shown[rows, columns] = page.ink[rows, columns]
        for image in images(window):
            to_whole = whole.from_mm @ image @ aside @ np.linalg.inv(to_sheet)
            ink = np.maximum(ink, laid(Raster(shown, page.from_mm), to_whole, ink.shape))
    return ink


def whole_raster(piece: str) -> Raster:
    """Return a whole piece from its SVG, without lines of dashes."""
    made = next(each for each in pieces_of(CAKE) if each.id == piece)
    dashed = [role.word for role in Role if role.dashes]
    return piece_raster(without_groups(write_svg(made), *dashed))


def off_folds(whole: Raster, piece: str) -> Raster:
    """Return a whole piece without what is drawn along the folds of its template."""
    ink = whole.ink.copy()
    for window in (w for _, w in pack().windows if w["piece"] == piece):
        for fold in window["unfold"]:
            axis = 0 if fold["axis"] == "x" else 1
            place = window["whole_mm"][axis] + fold["at_mm"]
            at = (whole.from_mm @ ((place, 0, 1) if axis == 0 else (0, place, 1)))[axis]
            near = slice(max(0, int(at) - CREASE), int(at) + CREASE + 1)
            ink[(slice(None), near) if axis == 0 else (near, slice(None))] = 0
    return Raster(ink, whole.from_mm)


@pytest.mark.parametrize("draw", [by_pdfium, by_poppler])
@pytest.mark.parametrize("piece", FOLDED)
def test_a_template_cut_out_and_unfolded_is_the_whole_piece(piece: str, draw: Draw) -> None:
    """Every line of the whole piece is on the layers of its template, to within a pixel."""
    assert any(w["piece"] == piece and w.get("unfold") for _, w in pack().windows)
    whole = whole_raster(piece)
    wanted = off_folds(whole, piece).ink
    assert np.count_nonzero(wanted) > 0.9 * np.count_nonzero(whole.ink)
    assert missing(wanted, unfolded(piece, whole, draw=draw)) == 0


@pytest.mark.parametrize("piece", FOLDED)
def test_a_template_printed_half_a_millimetre_aside_does_not_unfold(piece: str) -> None:
    """The comparer sees it where the lines of a template are not where they should be."""
    whole = whole_raster(piece)
    assert missing(whole.ink, unfolded(piece, whole, 0.5)) > 100
    assert np.count_nonzero(whole.ink >= DARK) > 1000
