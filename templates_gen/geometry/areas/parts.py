"""The parts of an area, each as an outline with its holes."""

from __future__ import annotations

import shapely

from templates_gen.geometry.areas.booleans import edge_of, filled, ring_path
from templates_gen.geometry.path import Path


def parts_of(path: Path) -> tuple[Path, ...]:
    """Return what a path fills part by part, from the left; as it is where that is one."""
    parts = shapely.get_parts(filled(path))
    if len(parts) == 1:
        return (path,)
    ordered = sorted(parts, key=lambda part: part.bounds)
    return tuple(edge_of(part) for part in ordered)


def outer_and_holes(path: Path) -> tuple[Path, tuple[Path, ...]]:
    """Return the outer edge of an area in one part, and the edges of its holes."""
    (part,) = shapely.get_parts(filled(path))
    return ring_path(part.exterior), tuple(map(ring_path, part.interiors))


def covered(path: Path, by: float) -> tuple[Path, int]:
    """Return the outline of an area covered ``by`` mm thick, and how many gaps that closes.

    A gap that closes is filled, as in ``walls``; a hole that closes is gone.
    """
    whole, closed = [], 0
    for part in shapely.get_parts(filled(path)):
        outer = shapely.buffer(shapely.Polygon(part.exterior), by, quad_segs=64)
        closed += len(outer.interiors)
        holes = [
            shapely.buffer(shapely.Polygon(ring), -by, quad_segs=64) for ring in part.interiors
        ]
        whole.append(shapely.difference(shapely.Polygon(outer.exterior), shapely.union_all(holes)))
    return edge_of(shapely.union_all(whole)), closed
