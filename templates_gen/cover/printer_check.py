"""The check sheet of a printer: what to measure on it to know its scales and its margins."""

from __future__ import annotations

from collections.abc import Iterator

from fontTools.misc.transform import Offset, Transform

from templates_gen.cakefile.papers import Paper
from templates_gen.cakefile.printers import BAR, Printer
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.flow import TITLE, Block, flow, text
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line, rectangle
from templates_gen.sheets.furniture import check_bar
from templates_gen.sheets.pack import Pack, Sheet
from templates_gen.units import decimal

REACH = 20
"""The largest margin that can be read off the steps, mm."""
INNER = REACH + 5.0
"""Everything else keeps so far from the edges of the paper, mm."""
STEP, TREAD = 6.0, 5.0
"""From step to step along an edge, and the length of the line of a step, mm."""
STEP_SIZE = 2.9
"""Em size of the numbers of the steps, mm."""
SQUARE = 100.0
"""Side of the square with diagonals, mm."""
BARS = 10.0
"""From the lower left corner inside the steps to the bars, mm."""
BODY = 3.6
"""Em size of what is to be done, mm: 10 pt."""
ROOM = 55.0
"""Height of the words above the upright bar, mm."""
LEAST = (2 * INNER + BARS + BAR, 2 * INNER + BARS + BAR + ROOM)
"""Width and height of the smallest paper, mm; A4 and Letter are larger."""


def printer_check(paper: Paper, printer: Printer | None = None) -> Pack:
    """Return the check sheet on a paper; for a ``printer``, corrected for its error.

    Raises CakeError for paper that is too small.
    """
    if paper.width < LEAST[0] or paper.height < LEAST[1]:
        least = " by ".join(f"{decimal(side)} mm" for side in LEAST)
        found, advice = f"{paper.name}, too small for bars of {decimal(BAR)} mm", "use A4 or Letter"
        raise CakeError.at(("paper",), found, f"{least} or more", advice)
    area = Box(0, 0, paper.width, paper.height)
    drawing = _bars(area) + _square(area) + _words(area, printer)
    for edge in _edges(area):
        drawing += _steps(edge)
    return Pack("Printer check", "", paper, area, (Sheet(1, (), drawing),), printer)


def _bars(area: Box) -> Drawing:
    x, y = area.x0 + INNER, area.y0 + INNER
    across = check_bar((x + BARS, y), BAR, upright=False)
    return across + check_bar((x + 2, y + BARS), BAR, upright=True)


def _square(area: Box) -> Drawing:
    """Draw the square with its diagonals, equally long where the paper is fed straight."""
    inset = INNER + BARS + (BAR - SQUARE) / 2
    box = Box(0, 0, SQUARE, SQUARE).moved(area.x0 + inset, area.y0 + inset)
    diagonals = (line((box.x0, box.y0), (box.x1, box.y1)), line((box.x0, box.y1), (box.x1, box.y0)))
    x, _ = box.centre
    label = Label(f"{decimal(SQUARE)} mm square", (x, box.y0 - 5), BODY, Anchor.MIDDLE)
    paths = (rectangle(box), *diagonals)
    return Drawing(tuple(Stroke(path, Role.GUIDE) for path in paths), (label,))


def _words(area: Box, printer: Printer | None) -> Drawing:
    foot = area.y0 + INNER + BARS + BAR + 4
    space = Box(area.x0 + INNER, foot, area.x1 - INNER, area.y1 - INNER)

    def said(width: float) -> list[Block]:
        title = text("Printer check", width, TITLE, bold=True)
        return [title, *(text(each, width, BODY) for each in _instructions(printer))]

    (page,) = flow([said], space)
    return page


def _instructions(printer: Printer | None) -> Iterator[str]:
    """Yield what to do with the sheet, a paragraph each."""
    bar = f"{decimal(BAR)}\u00a0mm"
    if printer is not None:
        yield (
            f"Made for the printer “{printer.name}”: print it there at 100\u00a0%. Both bars must"
            f" now read {bar}. If one is off by more than 0.3\u00a0mm, print a new check sheet with"
            " templates-gen printer, and measure again."
        )
        return
    yield (
        "1. Print at 100\u00a0% (actual size), not borderless, on the paper you use for packs."
        f" Measure both bars of {bar}, to 0.2\u00a0mm, with a good ruler."
    )
    yield (
        "2. At each edge look for the lowest step that is printed whole: its number is the margin"
        " in mm. Sides: the larger of left and right; ends: the larger of top and bottom."
    )
    yield (
        "3. Both diagonals of the square must be equal within 1\u00a0mm; if not, the paper went in"
        " askew: print again."
    )
    yield (
        "4. Type what you read, across the page first: templates-gen printer --name kitchen"
        " --measured 149.2x150.6 --margin-sides 5mm --margin-ends 12mm"
    )


def _edges(area: Box) -> tuple[Transform, ...]:
    """Return for each edge the map to the sheet from its own frame.

    In the frame the edge runs along x, with 0 in its middle, and the paper is above it.
    """
    x, y = area.centre
    return (
        Offset(x, area.y0),
        Transform(1, 0, 0, -1, x, area.y1),
        Transform(0, 1, 1, 0, area.x0, y),
        Transform(0, 1, -1, 0, area.x1, y),
    )


def _steps(to_sheet: Transform) -> Drawing:
    """Draw steps that rise from an edge, 1 mm each, with their numbers beyond them."""
    strokes, labels = [], []
    for mm in range(1, REACH + 1):
        x = (mm - 0.5 - REACH / 2) * STEP
        tread = line((x - TREAD / 2, mm), (x + TREAD / 2, mm)).transformed(to_sheet)
        strokes.append(Stroke(tread, Role.NOTE))
        at = to_sheet.transformPoint((x, mm + 1.2 + STEP_SIZE / 3))
        labels.append(Label(str(mm), (at[0], at[1] - STEP_SIZE / 3), STEP_SIZE, Anchor.MIDDLE))
    return Drawing(tuple(strokes), tuple(labels))
