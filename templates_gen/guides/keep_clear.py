"""What a side is kept clear of: openings cut through it, and what is piped on it.

One place, so that whatever is cut or piped later is avoided by every design at once.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache

from templates_gen.drawing.drawing import Drawing
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.lines import cutter
from templates_gen.geometry.areas.placement import clear_of
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path, line
from templates_gen.geometry.tolerances import SAMPLING
from templates_gen.geometry.warp import bent
from templates_gen.guides.drips import DripRow, drips_drawing
from templates_gen.guides.guide import Guide
from templates_gen.guides.openings import Openings
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Layer, Solid

PARTS = 8
"""In how many parts a side is looked at on its paper."""
ROUND = 128
"""Places round a side at which its depth is taken for its area."""


def closed_areas(
    tier: Solid, openings: Openings, row: DripRow | None, letters: Sequence[Path]
) -> tuple[Path, ...]:
    """Return the closed areas that have their place on the covered side of a tier, in (u, v)."""
    strokes = drips_drawing(row, tier.covered.side).strokes if row else ()
    return (*openings.on(tier.covered), *(each.path for each in strokes), *letters)


def area(side: Side, top: float, foot: float) -> float:
    """Return the area of a side between two v, as far as the side goes down, mm2."""
    us = [side.girth * (step + 0.5) / ROUND for step in range(ROUND)]
    tall = [max(min(foot, side.foot_at(u)) - top, 0.0) for u in us]
    return side.girth * side.girth_ratio((top + foot) / 2) * sum(tall) / ROUND


def clear_on(
    layer: Layer, taken: Sequence[tuple[Path, float]], band: tuple[float, float], most: float
) -> Callable[[Point, float], bool]:
    """Return a function that tells whether a disc of a radius has room at a place (u, v) of a side.

    It keeps from each closed area that is ``taken`` the distance that stands with it, mm, lies
    within the band and on no corner. No radius is above ``most``. Distances are those on the paper,
    which is looked at part by part: all round it may lie over itself.
    """
    side = layer.side
    # where the side narrows downwards, the same way is more of u there
    apart = max([by for _, by in taken], default=0.0)
    beside = 2 * (most + apart) / min(1.0, side.girth_ratio(side.depth))
    step = side.girth / PARTS
    boxed = [(path, path.bounds, by) for path, by in taken]

    @cache  # most things are looked for in a few parts alone
    def clear_in(part: int) -> Callable[[Point, float], bool]:
        ends = part * step - beside, (part + 1) * step + beside
        return _clear_between(layer, boxed, band, ends)

    def is_clear(place: Point, radius: float) -> bool:
        u, v = place
        part = min(int(u / step), PARTS - 1)
        return v < side.foot_at(u) and clear_in(part)(side.flat(u, v), radius)

    return is_clear


def _clear_between(
    layer: Layer,
    taken: Sequence[tuple[Path, Box, float]],
    band: tuple[float, float],
    ends: tuple[float, float],
) -> Callable[[Point, float], bool]:
    """Return what tells whether a disc on the paper is clear of all that lies between two u."""
    side = layer.side
    start, end = ends
    turns = [layer.side.girth * turn for turn in (-1, 0, 1)]
    areas = [
        (side.unrolled(path.moved(turn, 0)), by)
        for path, box, by in taken
        for turn in turns
        if box.x1 + turn > start and box.x0 + turn < end
    ]
    us = [u + turn for u in layer.rim.corners for turn in turns if start < u + turn < end]
    lines = [(side.unrolled(line((u, 0.0), (u, side.foot_at(u)))), 0.0) for u in us]
    if not side.is_level:
        top, foot = band
        along = line((start, 0.0), (end, 0.0))
        edges = (
            bent(along, lambda u, _: side.flat(u, top)),
            bent(along, lambda u, _: side.flat(u, min(foot, side.foot_at(u)))),
        )
        lines += ((edge, -3 * SAMPLING) for edge in edges)
    return clear_of(areas, lines)


def cut_out(drawing: Drawing, areas: tuple[Path, ...], girth: float) -> Drawing:
    """Return a drawing without what lies in closed areas of a side ``girth`` mm round."""
    if not areas:
        return drawing
    return drawing.cut(cutter([region(area) for area in all_round(areas, girth)]))


def visible_parts(found: Sequence[Guide]) -> list[Guide]:
    """Return guides as they are seen on each other: what goes on under drips stops beside them.

    Letters and small pieces lie over the drips.
    """
    covers = [guide for guide in found if guide.covers]
    return [_uncovered(guide, covers) for guide in found]


def _uncovered(guide: Guide, covers: Sequence[Guide]) -> Guide:
    if guide.covers or guide.is_placed:
        return guide
    above = tuple(
        stroke.path
        for each in covers
        if each.layer.surface == guide.layer.surface
        for stroke in each.drawing.strokes
    )
    return replace(guide, drawing=cut_out(guide.drawing, above, guide.layer.side.girth))


def all_round(areas: tuple[Path, ...], girth: float) -> list[Path]:
    """Return areas of a side, and again where they reach over the join."""
    return [area.moved(turn, 0) for area in areas for turn in (-girth, 0.0, girth)]
