"""Cakes the tests share."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.reading import parse_cake, read_cake
from templates_gen.cakefile.source import CakeText
from templates_gen.drawing.piece import Piece
from templates_gen.plan import Plan, make_plan
from templates_gen.resources import folder

SAMPLES = sorted(folder("samples").glob("*.toml"), key=lambda path: path.name)
"""Every sample that travels with the package."""


def cake(text: str) -> Cake:
    """Return the cake of a cake file's text."""
    return parse_cake(CakeText("test.toml", text))


def one_tier(lines: str = "", size: str = "8 in", depth: str = "4 in") -> Cake:
    """Return a cake of one tier, with more lines of its cake file."""
    return cake(f"[[tier]]\nsize = '{size}'\ndepth = '{depth}'\n{lines}")


def sample(name: str) -> Cake:
    """Return a sample by the name of its file."""
    return read_cake(Path(folder("samples")) / f"{name}.toml")


@cache
def sample_plan(name: str) -> Plan:
    """Return the plan of a sample by the name of its file, which is made once in a run."""
    return make_plan(sample(name))


def pieces_of(spec: Cake) -> tuple[Piece, ...]:
    """Return every piece of a cake."""
    return make_plan(spec).pieces
