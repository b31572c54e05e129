"""Everything doubtful about a cake that can be made."""

from __future__ import annotations

from collections.abc import Sequence

from templates_gen.cakefile.model import Cake
from templates_gen.cakefile.unused_keys import idle
from templates_gen.drawing.piece import Piece
from templates_gen.errors import Doubt


def doubts(cake: Cake, pieces: Sequence[Piece]) -> tuple[Doubt, ...]:
    """Return what the decorator may not have meant: keys without effect, then piece by piece."""
    return (*idle(cake), *(doubt for piece in pieces for doubt in piece.doubts))
