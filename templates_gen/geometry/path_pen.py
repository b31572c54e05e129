"""A pen that collects what is drawn to it as a path."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fontTools.misc.transform import Identity, Transform
from fontTools.pens.basePen import BasePen

from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Command, Path

FLIP = Transform(1, 0, 0, -1, 0, 0)
"""From y down to y up, and back."""


class PathPen(BasePen):  # type: ignore[misc]  # the base class is untyped
    """Collect lines and cubics, each point mapped; BasePen raises quadratics to cubics.

    ``glyphs`` is where it finds the parts of a glyph that is made of others.
    """

    def __init__(
        self, transform: Transform = Identity, glyphs: Mapping[str, Any] | None = None
    ) -> None:
        super().__init__(glyphs)
        self._transform = transform
        self._commands: list[Command] = []

    @property
    def path(self) -> Path:
        """What was drawn so far."""
        return Path(tuple(self._commands))

    def _add(self, name: str, *points: Point) -> None:
        mapped = self._transform.transformPoints(points)
        self._commands.append((name, tuple((float(x), float(y)) for x, y in mapped)))

    def _moveTo(self, pt: Point) -> None:  # noqa: N802 (the pen protocol)
        self._add("moveTo", pt)

    def _lineTo(self, pt: Point) -> None:  # noqa: N802
        self._add("lineTo", pt)

    def _curveToOne(self, pt1: Point, pt2: Point, pt3: Point) -> None:  # noqa: N802
        self._add("curveTo", pt1, pt2, pt3)

    def _closePath(self) -> None:  # noqa: N802
        self._add("closePath")

    def _endPath(self) -> None:  # noqa: N802
        self._add("endPath")
