"""A piece: one flat template, with its words and figures."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from types import MappingProxyType
from typing import NamedTuple

from fontTools.misc.transform import Offset

from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.once import lines_once
from templates_gen.drawing.roles import Role
from templates_gen.errors import GeometryError, PlanWarning
from templates_gen.geometry.areas.booleans import Area, difference, region
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.mirror import Mirror
from templates_gen.geometry.path import Path

Value = float | int | str | tuple[float, ...] | tuple[int, ...]
"""A figure of a piece; lengths in mm, as the ending of its name says."""


class Owner(NamedTuple):
    """What a piece belongs to: its name, and that as an id for file names."""

    slug: str
    name: str


PACK = Owner("pack", "pack")
"""Of a piece that is for no tier."""


@dataclass(frozen=True, slots=True)
class Unfolding:
    """How a template on the fold opens to its whole piece.

    It is laid on its image in each of the ``mirrors``, one after the other, in its own frame; its
    (0, 0) is ``origin`` of the frame of the whole piece, whose ``size`` is width and height in mm.
    """

    mirrors: tuple[Mirror, ...]
    origin: Point
    size: tuple[float, float]


@dataclass(frozen=True)
class Piece:
    """One flat template, mm.

    It belongs to ``owner``, mostly a tier, and is a ``kind``, of which that may have several
    ``part``s. ``outline`` is the closed cut edge, which is what the piece takes of a sheet,
    ``openings`` are cut out of it; neither is repeated in ``drawing``. ``values`` are its figures
    by name. A piece that is not ``printed`` is given by its figures and what stands ``instead``.
    ``tier_size`` is the size of its tier as the cake file has it.
    One with an ``unfolding`` is a half or a quarter of a piece, to be laid on folded parchment.
    """

    owner: Owner
    kind: str
    title: str
    surface: str
    use: str
    outline: Path
    drawing: Drawing
    copies: int = 1
    values: Mapping[str, Value] = field(default_factory=dict)
    warnings: tuple[PlanWarning, ...] = ()
    printed: bool = True
    instead: str = ""
    part: str = ""
    unfolding: Unfolding | None = None
    openings: tuple[Path, ...] = ()
    tier_size: str = ""

    @property
    def id(self) -> str:
        """``<tier>/<kind>``, with the part if there are several; safe in file names."""
        return "-".join(filter(None, (f"{self.owner.slug}/{self.kind}", self.part)))

    @property
    def tier(self) -> str:
        """The name of what it belongs to."""
        return self.owner.name

    @cached_property
    def size(self) -> Box:
        """The box round outline and strokes; of a finished piece it starts at (0, 0)."""
        return union_box([self.outline.bounds, *(s.path.bounds for s in self.drawing.strokes)])

    @property
    def full_size(self) -> tuple[float, float]:
        """Width and height of what is cut, unfolded where it is cut on the fold."""
        return self.unfolding.size if self.unfolding else self.size.size

    @cached_property
    def area(self) -> Area:
        """What the cut edge goes round. Raises GeometryError where it crosses itself."""
        return region(self.outline)

    @cached_property
    def paper(self) -> Area:
        """What the openings leave of its area. Raises GeometryError as ``area``."""
        left = difference(self.area, [region(opening) for opening in self.openings])
        if left is None:
            raise GeometryError("the openings leave nothing of a piece")
        return left

    def reworded(self, say: Callable[[str], str]) -> Piece:
        """Return the piece with everything that people read put into other words."""
        return replace(
            self,
            title=say(self.title),
            use=say(self.use),
            instead=say(self.instead),
            drawing=self.drawing.reworded(say),
            warnings=tuple(replace(each, text=say(each.text)) for each in self.warnings),
        )

    def drawn_as(self, other: Piece) -> Piece:
        """Return the piece with edge, openings and drawing of another."""
        return replace(
            self,
            outline=other.outline,
            drawing=other.drawing,
            openings=other.openings,
            values=MappingProxyType(dict(self.values)),
        )

    def finished(self) -> Piece:
        """Return the piece with its cut edge drawn, moved so that its lower left is (0, 0).

        No line lies on another.
        """
        box = self.size
        move = Offset(-box.x0, -box.y0)
        cuts = Drawing(tuple(Stroke(path, Role.CUT) for path in (self.outline, *self.openings)))
        whole = (cuts + self.drawing).transformed(move)
        return replace(
            self,
            outline=self.outline.transformed(move),
            drawing=replace(whole, strokes=lines_once(whole.strokes)),
            values=MappingProxyType(dict(self.values)),
            openings=tuple(path.transformed(move) for path in self.openings),
        )
