"""Strings hang as strings do: catenaries against published figures and a root finder."""

from __future__ import annotations

import math

import pytest
import svgpathtools
from fontTools.pens.svgPathPen import SVGPathPen
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, optimize

from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.curves import Catenary, graph
from templates_gen.geometry.path import Path, line
from templates_gen.geometry.warp import bent

SPANS, SHARES = st.floats(5, 900), st.floats(0.005, 3)


def true_length(path: Path) -> float:
    """Return the length of a path as svgpathtools measures it."""
    pen = SVGPathPen(None, ntos=repr)
    path.draw(pen)
    return float(svgpathtools.parse_path(pen.getCommands()).length(error=1e-9))


def test_a_published_length() -> None:
    """Parameter 980, half-span 110: length 220.46225 (ideas.from-ks.com, exercise 16 hint 2)."""
    sag = 980 * (math.cosh(110 / 980) - 1)
    string = Catenary(220, sag)
    assert string.parameter == pytest.approx(980, rel=1e-9)
    assert string.length == pytest.approx(220.46225, abs=5e-6)


def test_a_published_cable_between_poles() -> None:
    """80 m of cable that sags 30 m: a = 11.67, span 45.4 m (wp.scsiraidguru.com, page 6352)."""
    string = Catenary(45.4, 30)
    assert string.parameter == pytest.approx(11.67, abs=0.01)
    assert string.length == pytest.approx(80, abs=0.02)


@given(SPANS, SHARES)
def test_the_parameter_is_the_root_scipy_finds(span: float, share: float) -> None:
    """Root finding by brentq agrees on the parameter, and quadrature on the length."""
    string = Catenary(span, share * span)

    def missed(a: float) -> float:
        return 2 * a * math.sinh(span / 4 / a) ** 2 - share * span

    a = optimize.brentq(missed, span / 20, span * 1e4, xtol=1e-12 * span, rtol=1e-14)
    assert string.parameter == pytest.approx(a, rel=1e-7)
    length, _ = integrate.quad(lambda x: math.cosh(x / a), -span / 2, span / 2)
    assert string.length == pytest.approx(length, rel=1e-7)


@given(SPANS, SHARES)
def test_the_line_drawn_is_the_string(span: float, share: float) -> None:
    """Its ends hang level, its middle at the sag, its length is that reported: to 0.01 mm."""
    string = Catenary(span, share * span)
    path = string.path()
    ((points, closed),) = sampled(path)
    assert not closed
    assert points[0] == pytest.approx((0, 0), abs=1e-6)
    assert points[-1] == pytest.approx((span, 0), abs=1e-6)
    assert path.bounds.y1 == pytest.approx(share * span, abs=1e-6)
    assert true_length(path) == pytest.approx(string.length, abs=0.01 + 1e-5 * string.length)


def test_a_graph_keeps_to_its_curve() -> None:
    """Sixteen cubics to a wave: within 7e-5 of its height."""
    path = graph(lambda x: (math.cos(x), -math.sin(x)), 0, math.tau, 16)
    ((points, _),) = sampled(path, 1e-7)
    assert max(abs(y - math.cos(x)) for x, y in points) < 7e-5


def test_a_path_stays_near_where_its_map_has_a_crease() -> None:
    """No tangent is taken across a crease: a jump of 0.01 mm bends a path by no more than that."""

    def creased(x: float, y: float) -> tuple[float, float]:
        return (x, math.sin(x / 10)) if x < 31.4159 else (x, math.sin(x / 10) + 0.01)

    box = bent(line((0.0, 0.0), (100.0, 0.0)), creased).bounds
    assert (box.x0, box.x1) == pytest.approx((0, 100), abs=1e-6)
    assert (box.y0, box.y1) == pytest.approx((-1, 1), abs=0.02)
