"""Lines with fewer points."""

from __future__ import annotations

import shapely
from shapely import LineString

from templates_gen.geometry.areas.sampling import as_point, sampled
from templates_gen.geometry.path import Path, polyline, together

_FEWEST = {False: 2, True: 4}
"""Points of a line, and of one that is closed, where the first is the last."""


def thinned(path: Path, by: float) -> Path:
    """Return a path of straight lines with as few points as keep it within ``by`` mm of itself.

    A path with curves, which has few points, comes back as it is.
    """
    if any(name == "curveTo" for name, _ in path.commands):
        return path
    made = []
    for points, closed in sampled(path):
        few = shapely.simplify(LineString(points), by, preserve_topology=False).coords
        kept = [as_point(point) for point in few] if len(few) >= _FEWEST[closed] else points
        made.append(polyline(kept[:-1] if closed else kept, closed=closed))
    return together(made)
