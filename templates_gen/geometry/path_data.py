"""Path data of SVG, drawn to a pen by the parser of fontTools."""

from __future__ import annotations

from fontTools.misc.transform import Identity
from fontTools.svgLib.path import parse_path
from fontTools.svgLib.path.arc import EllipticalArc

from templates_gen.geometry.arcs import arc_cubics
from templates_gen.geometry.path import Pen


class _Arc(EllipticalArc):  # type: ignore[misc]  # the base class is untyped
    """An arc of path data, drawn in finer cubics than the quarter turns of its base."""

    cubics = 16
    """Cubics to a full turn: they leave it by less than 1e-7 of its radius."""

    def draw(self, pen: Pen) -> None:
        """Draw the arc; one without a radius is a straight line, as SVG has it (F.6.6)."""
        if self._parametrize():
            onto = Identity.rotate(self.angle).scale(self.rx, self.ry)
            centre = self.center_point.real, self.center_point.imag
            for name, points in arc_cubics(centre, 1.0, self.theta1, self.theta_arc, self.cubics):
                getattr(pen, name)(*onto.transformPoints(points))
        elif self.target_point != self.current_point:
            pen.lineTo((self.target_point.real, self.target_point.imag))


class _CoarserArc(_Arc):
    cubics = 12


def draw(data: str, pen: Pen, *, coarser: bool = False) -> None:
    """Draw path data to a pen, y down; ``coarser`` has fewer cubics to an arc.

    What it raises for other text has no one class.
    """
    parse_path(data, pen, arc_class=_CoarserArc if coarser else _Arc)
