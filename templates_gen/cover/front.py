"""What the bench adds to the cover of a pack: the picture of the cake, and the bench list."""

from __future__ import annotations

from collections.abc import Sequence

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import bench_blocks
from templates_gen.cakefile.model import Cake
from templates_gen.drawing.flow import Block, Front, heading
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.box import Box
from templates_gen.tiers.stack import build_stack
from templates_gen.views.picture import drawn

TALLEST = 165.0
"""The most room the picture takes, mm."""


def front(cake: Cake, pieces: Sequence[Piece]) -> Front:
    """Return what makes the picture and the bench list of a cake for the pages of its cover."""

    def blocks(room: Box) -> list[Block]:
        width, height = room.width, room.height - HEADING_ROOM
        picture = drawn(build_stack(cake), width, min(TALLEST, height))
        found = bench(cake, pieces)
        return [heading("The cake"), picture, *bench_blocks(found, width)]

    return blocks


HEADING_ROOM = 10.0
