"""The paper of collars in side coordinates: how tall it is, its edge, what of guides lies on it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from templates_gen.drawing.drawing import Stroke
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.lines import clipped, within
from templates_gen.geometry.path import Path
from templates_gen.guides.guide import Guide
from templates_gen.pieces.laid_flat import strip_edge
from templates_gen.pieces.marks import Edge, level
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Layer

WORD_STRIP = 6.5
"""Height of the strip of a collar that is kept free for words, mm."""
LEAST_BAND = 20.0
"""Height of a collar that marks only front and quarters, mm."""

AT_RIM, ON_BOARD = "upper edge at the rim", "lower edge on the board"
"""Where paper lies on a side."""


@dataclass(frozen=True, slots=True)
class Band:
    """What of a side a collar covers: from v = ``top`` to its foot, and whether that is the board.

    ``lowest`` is v of the foot where it is lowest.
    """

    top: float
    foot: Edge
    lowest: float
    stands: bool

    @property
    def edge(self) -> str:
        """Where it lies."""
        return ON_BOARD if self.stands else AT_RIM

    @property
    def strip(self) -> float:
        """Where the strip for words begins, v in mm."""
        return self.top if self.stands else self.lowest - WORD_STRIP

    @property
    def words(self) -> Edge:
        """The line on which the words of marks stand."""
        return level(self.strip + WORD_STRIP - 1.8)


def band_of(found: Sequence[Guide], side: Side, least: float) -> Band:
    """Return the band of a collar that is at ``least`` so deep.

    A collar hangs from the rim with its words below the guides; one whose guides reach the foot of
    the tier stands on the board, with its words above them.
    """
    top = min((guide.top for guide in found), default=0.0)
    foot = max([least, *(guide.foot for guide in found)]) or min(LEAST_BAND, side.least_depth)
    if foot + WORD_STRIP < side.least_depth:
        return Band(min(top, 0.0), level(foot + WORD_STRIP), foot + WORD_STRIP, stands=False)
    # the strip does not lie across the rim, nor across a foot that is higher elsewhere
    top = (0.0 if 0.0 < top < WORD_STRIP else min(top, side.least_depth)) - WORD_STRIP
    return Band(top, side.foot_at, side.depth, stands=True)


def drawn_round(found: Sequence[Guide], girth: float, start: float, end: float) -> Iterator[Stroke]:
    """Yield the lines of guides that reach into a section, whichever turn they are on."""
    guides = [(each, each.path.bounds) for guide in found for each in guide.drawing.strokes]
    for turn in (-girth, 0.0, girth):
        for stroke, box in guides:
            if box.x1 + turn >= start and box.x0 + turn <= end:
                yield Stroke(stroke.path.moved(turn, 0), stroke.role)


def drawn_on(layer: Layer, drawn: Iterable[Stroke], sheet: Path) -> Iterator[Stroke]:
    """Yield what of some lines lies on a paper, and on the side."""
    area = None if layer.side.least_depth == layer.side.depth else region(sheet)
    for stroke in drawn:
        path = clipped(stroke.path, sheet.bounds, area)
        if path.commands:
            yield Stroke(path, stroke.role)


def above_foot(layer: Layer) -> Callable[[Path], Path]:
    """Return what takes away of a line in (u, v) all that would lie below the side.

    Marks keep their distance from a sloped rim, so that some end in the air where it is low.
    """
    side = layer.side
    if layer.fall is None:
        return lambda path: path
    area = region(strip_edge(-side.depth, side.foot_at, -side.girth, 2 * side.girth))
    return lambda path: within(path, area)


def edge_name(stands: bool) -> str:
    """Say which edge goes where, with an arrow to it."""
    return "↓ board" if stands else "↑ rim"
