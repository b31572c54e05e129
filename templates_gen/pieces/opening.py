"""The hole through a tier on its papers: where it comes through a side, and what it leaves."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.drawing.path import Path
from templates_gen.drawing.piece import Drawing, Stroke
from templates_gen.drawing.polygons import Area, region, together
from templates_gen.drawing.roles import Role
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.tiers.tunnel import openings


def opening_paths(tier: Solid, layer: Layer) -> tuple[Path, ...]:
    """Return the openings of a tier as far as one turn shows them: one at the join twice."""
    return tuple(_shown(tier, layer))


def _shown(tier: Solid, layer: Layer) -> Iterator[Path]:
    girth = layer.rim.girth
    for path in openings(tier, layer) or ():
        yield path
        if path.bounds.x0 < 0:
            yield path.moved(girth, 0)
        if path.bounds.x1 > girth:
            yield path.moved(-girth, 0)


def opening_area(tier: Solid, layer: Layer) -> Area | None:
    """Return what the openings take of a side, in side coordinates; None for a whole side."""
    return together([region(path) for path in opening_paths(tier, layer)])


def openings_drawing(tier: Solid, layer: Layer, role: Role) -> Drawing:
    """Draw the openings in side coordinates."""
    return Drawing(tuple(Stroke(path, role) for path in opening_paths(tier, layer)))


def opening_values(tier: Solid, layer: Layer) -> dict[str, float]:
    """Return how large an opening lies flat, as figures of a piece."""
    found = openings(tier, layer)
    if found is None:
        return {}
    box = found[0].bounds
    return {"opening_width_mm": box.width, "opening_height_mm": box.height}
