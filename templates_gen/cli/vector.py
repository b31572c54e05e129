"""Single pieces as files for vector editors and cutting machines: their options."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import click

from templates_gen.drawing.piece import Piece

ENDINGS = (".svg", ".dxf")
"""What the file of a single piece may be."""


@dataclass(frozen=True, slots=True)
class Style:
    """How single pieces are drawn: every line ``solid``, words ``outlined``."""

    solid: bool = False
    outlined: bool = False

    @classmethod
    def of(cls, solid: bool, words: str) -> Style:
        """Return the style that two options give."""
        return cls(solid, words == "outlines")


SOLID: dict[str, Any] = {
    "is_flag": True,
    "help": "In SVG and DXF of single pieces draw every line solid: a machine cuts each dash.",
}
WORDS: dict[str, Any] = {
    "type": click.Choice(["text", "outlines"]),
    "default": "text",
    "show_default": True,
    "help": "In SVG and DXF of single pieces write words as text, or as the outlines of their"
    " letters, for programs without the typeface.",
}


def style_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the options of single pieces."""
    return click.option("--solid", **SOLID)(click.option("--words", **WORDS)(command))


def style_params() -> list[click.Option]:
    """Return the same options for a command that is made of a list."""
    return [click.Option(["--solid"], **SOLID), click.Option(["--words"], **WORDS)]


def piece_file(piece: Piece, mark: str, ending: str, style: Style) -> bytes:
    """Return one piece as a file of an ending, with the mark of its pack."""
    if ending == ".dxf":
        from templates_gen.writers.dxf import write_dxf

        return write_dxf(piece, mark, solid=style.solid, outlined=style.outlined)
    from templates_gen.writers.svg import write_svg

    return write_svg(piece, mark, solid=style.solid, outlined=style.outlined)
