"""The files that random cakes speak of: artwork and a typeface."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from templates_gen.resources import folder

_HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 40">'
LEAF = f"""{_HEAD}<path d="M5 20 C 20 0 40 0 55 20 C 40 40 20 40 5 20 Z M5 20 H55"/>
<circle cx="30" cy="20" r="6"/></svg>"""
TWIG = f"""{_HEAD}<g fill="none" stroke="green"><path d="M0 38 C 15 30 30 10 60 2"/>
<path d="M20 26 l4 -14 M36 13 q10 8 16 4"/></g></svg>"""
BEE = f"""{_HEAD}<path d="M30 2 C 44 2 58 14 54 26 C 50 38 38 32 30 38 C 22 32 10 38 6 26
C 2 14 16 2 30 2 Z"/></svg>"""
DRAWINGS = ("leaf.svg", "twig.svg", "bee.svg")
"""Artwork of lines and curves, for designs."""
OUTLINE = "bee.svg"
"""Artwork of one closed outline, to cut."""
FACE = "face.ttf"
"""A typeface of one's own."""


def contents() -> dict[str, bytes]:
    """Return every file by its name."""
    drawn = {"leaf.svg": LEAF, "twig.svg": TWIG, "bee.svg": BEE}
    face = (folder("fonts") / "SourceSans3-Bold.ttf").read_bytes()
    return {**{name: text.encode() for name, text in drawn.items()}, FACE: face}


def put(where: Path) -> None:
    """Write the files to a folder, for the cake files in it."""
    where.mkdir(parents=True, exist_ok=True)
    for name, content in contents().items():
        (where / name).write_bytes(content)


@cache
def at_hand() -> Path:
    """Return a folder that has them, for the life of the process."""
    held = tempfile.TemporaryDirectory(prefix="random-cakes-")
    _HELD.append(held)
    put(Path(held.name))
    return Path(held.name)


_HELD: list[tempfile.TemporaryDirectory[str]] = []
