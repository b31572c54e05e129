"""The hole through a tier on its papers: where it comes through a side, and what it leaves."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.booleans import Area, clipped_area, region, together
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.tiers.tunnel import openings


def opening_paths(tier: Solid, layer: Layer) -> tuple[Path, ...]:
    """Return the openings of a tier as one turn shows them, in (u, v): one at the join twice."""
    girth = layer.rim.girth
    return tuple(
        path for path in _repeated(tier, layer) if path.bounds.x1 > 0 and path.bounds.x0 < girth
    )


def _repeated(tier: Solid, layer: Layer) -> Iterator[Path]:
    """Yield the openings of a tier on three turns, from u = -girth on."""
    girth = layer.rim.girth
    for path in openings(tier, layer) or ():
        for turn in (-girth, 0.0, girth):
            yield path.moved(turn, 0)


def opening_area(tier: Solid, layer: Layer) -> Area | None:
    """Return what the openings take of a side, in side coordinates; None for a whole side."""
    return together([region(path) for path in opening_paths(tier, layer)])


def openings_drawing(tier: Solid, layer: Layer, sheet: Box) -> Drawing:
    """Draw the openings in (u, v), round the join and on over it, as far as a sheet goes."""
    parts = (clipped_area(path, sheet) for path in _repeated(tier, layer))
    return Drawing(tuple(Stroke(part, Role.CUT) for part in parts if part.commands))


def opening_values(tier: Solid, layer: Layer) -> dict[str, float]:
    """Return how large an opening lies flat, as figures of a piece."""
    found = openings(tier, layer)
    if found is None:
        return {}
    box = found[0].bounds
    return {"opening_width_mm": box.width, "opening_height_mm": box.height}
