"""True-size paper templates for tiered celebration cakes.

The stages, each one call: ``read_cake`` a cake file, ``build_pieces``, ``lay_out`` the pieces on
sheets, ``write_pdf`` the pack, ``write_svg`` a piece; ``figures`` gives every dimension.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from templates_gen.bench.figures import figures
    from templates_gen.cake.model import Cake
    from templates_gen.cake.papers import PAPERS, Paper
    from templates_gen.cake.reading import read_cake
    from templates_gen.drawing.piece import Piece
    from templates_gen.errors import TemplatesGenError
    from templates_gen.pieces.table import build_pieces
    from templates_gen.sheets.layout import lay_out
    from templates_gen.sheets.pack import Pack
    from templates_gen.writers.pdf import write_pdf
    from templates_gen.writers.svg import write_svg

__version__ = "0.1.0"
__all__ = [
    "PAPERS",
    "Cake",
    "Pack",
    "Paper",
    "Piece",
    "TemplatesGenError",
    "build_pieces",
    "figures",
    "lay_out",
    "read_cake",
    "write_pdf",
    "write_svg",
]

_HOMES = {
    "PAPERS": "cake.papers",
    "Cake": "cake.model",
    "Pack": "sheets.pack",
    "Paper": "cake.papers",
    "Piece": "drawing.piece",
    "TemplatesGenError": "errors",
    "build_pieces": "pieces.table",
    "figures": "bench.figures",
    "lay_out": "sheets.layout",
    "read_cake": "cake.reading",
    "write_pdf": "writers.pdf",
    "write_svg": "writers.svg",
}


def __getattr__(name: str) -> Any:  # noqa: ANN401 (any public name)
    """Import a public name when it is first used, so that ``--help`` stays fast."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
