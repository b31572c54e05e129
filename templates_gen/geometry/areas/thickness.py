"""How narrow an area gets, and whether it hangs together."""

from __future__ import annotations

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from templates_gen.geometry.areas.booleans import Area, filled, outreach
from templates_gen.geometry.path import Path
from templates_gen.geometry.roots import halved
from templates_gen.geometry.tolerances import SAMPLING


def narrowest(path: Path, least: float) -> float:
    """Return the width of the thinnest neck or arm of an area, if it is under ``least`` mm.

    A neck parts what it joins when ``width / 2`` is taken off all round; an arm vanishes farther
    back than the tip of a corner does. An area without such parts has at least ``least``, and that
    is returned.
    """
    area = filled(path)
    if not _gives_way(area, least / 2):
        return least
    return 2 * halved(lambda by: not _gives_way(area, by), 0.0, least / 2, SAMPLING)[0]


TIP = 4.0
"""How far back a mere tip may vanish, over what is taken off: tips of 23 degrees or more stay."""


def _gives_way(area: Area, by: float) -> bool:
    """Tell whether an area falls apart, or loses an arm, when ``by`` mm is taken off all round."""
    left = shapely.buffer(area, -by, quad_segs=16)
    parts = len(shapely.get_parts(area))
    if left.is_empty or len(shapely.get_parts(left)) != parts:
        return True
    return _lost(area, left, by) > TIP * by


def _lost(area: Area, left: BaseGeometry, by: float) -> float:
    """Return how far an area reaches beyond what is ``left`` of it buffered again, mm."""
    return outreach(area, shapely.buffer(left, by + SAMPLING, quad_segs=16))


def thin_tips(path: Path, least: float) -> float:
    """Return how far tips narrower than ``least`` mm reach beyond where an area is as wide, mm."""
    area = filled(path)
    return _lost(area, shapely.buffer(area, -least / 2, quad_segs=16), least / 2)


def is_one(path: Path) -> bool:
    """Tell whether what a path fills hangs together."""
    return isinstance(filled(path), Polygon)
