"""The parts of a sheet: what the printer can reach, and within it the field for pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.cakefile.papers import Margins, Paper
from templates_gen.cakefile.printers import Printer
from templates_gen.errors import CakeError
from templates_gen.geometry.box import Box
from templates_gen.units import decimal

HEAD, FOOT, LEFT = 5.4, 5.6, 6.0
"""Heights of the words above and the check bar below the field, width of the upright bar, mm."""
ROOMY_WIDTH, ROOMY_HEIGHT = 182.0, 218.0
"""Where an area is this large, all words have room beside the check bars, mm."""
WORDS = 8.0
"""Height of the lines of words above the check bar of a smaller area, mm."""
LEAST_WIDTH, LEAST_HEIGHT = 130.0, 150.0
"""The least area to print on: A5 with the usual margins has it, mm."""


@dataclass(frozen=True, slots=True)
class Frame:
    """A sheet of ``paper``: ``area`` can be printed on, ``field`` of it is for pieces.

    Everything is in true mm; with a ``printer`` they come out true on that one alone.
    """

    paper: Paper
    area: Box
    printer: Printer | None = None

    @property
    def is_roomy(self) -> bool:
        """Whether the words of a sheet have room beside its check bars."""
        return self.area.width >= ROOMY_WIDTH and self.area.height >= ROOMY_HEIGHT

    @property
    def field(self) -> Box:
        """Where pieces lie."""
        area, foot = self.area, FOOT if self.is_roomy else FOOT + WORDS
        return Box(area.x0 + LEFT, area.y0 + foot, area.x1, area.y1 - HEAD)


def frame_for(
    paper: Paper, shared: Sequence[Paper], margins: Margins, printer: Printer | None = None
) -> Frame:
    """Return the frame of a paper, with the area that all of ``shared`` can print, centred.

    For a ``printer`` it is smaller by what a page may be moved where the printer stretches it, or
    shrinks it, from one of its edges. Raises CakeError when the margins leave too little.
    """
    across, up = (1.0, 1.0) if printer is None else (printer.across, printer.up)
    margins = margins if printer is None else printer.margins(margins)
    width = min(each.width for each in (paper, *shared)) * (1 - abs(1 - across))
    height = min(each.height for each in (paper, *shared)) * (1 - abs(1 - up))
    width, height = width - 2 * margins.sides, height - 2 * margins.ends
    x0, y0 = (paper.width - width) / 2, (paper.height - height) / 2
    frame = Frame(paper, Box(x0, y0, x0 + width, y0 + height), printer)
    if width < LEAST_WIDTH or height < LEAST_HEIGHT:
        raise CakeError.at(
            ("paper",),
            f"{paper.name}: {decimal(width, 1)} by {decimal(height, 1)} mm to print on",
            f"{decimal(LEAST_WIDTH)} by {decimal(LEAST_HEIGHT)} mm or more between margins",
            "use larger paper, or in a cake file smaller margin_sides and margin_ends",
        )
    return frame
