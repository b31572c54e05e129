"""The pack mark: five characters on every sheet, which tell the sheets of two versions apart."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence

from templates_gen.cakefile.papers import Paper
from templates_gen.cakefile.printers import Printer
from templates_gen.drawing.piece import Piece
from templates_gen.version import VERSION

CHARACTERS = "CDFHJKMNPRTWXY34679"
"""No two look alike in print or handwriting, and without vowels they spell no word."""
PLACES = 5


def pack_mark(
    cake_digest: str,
    pieces: Sequence[Piece],
    papers: Sequence[tuple[Paper, tuple[Paper, ...]]],
    printer: Printer | None = None,
) -> str:
    """Return the pack mark of a cake's pieces on papers, such as ``K7RW3``.

    It comes from the digest of the cake, which of its pieces, the papers with those they share a
    layout with, the values of the printer if there is one, and the version of the program. Two
    versions have the same mark by chance once in about 2.5 million (19 to the power of 5).
    """
    spec: dict[str, object] = {
        "version": VERSION,
        "cake": cake_digest,
        "pieces": [piece.id for piece in pieces],
        "papers": list(papers),
    }
    if printer is not None:
        spec["printer"] = printer
    text = json.dumps(spec, sort_keys=True, default=str)
    digest = hashlib.sha256(text.encode()).digest()
    return "".join(CHARACTERS[byte % len(CHARACTERS)] for byte in digest[:PLACES])
