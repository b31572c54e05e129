"""The colours of a cake under the lines of its elevation and its plan: the same as in space."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise, zip_longest

from fontTools.misc.transform import Transform

from templates_gen.drawing.colour_words import from_hex
from templates_gen.drawing.drawing import Colour, Fill
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import polygons, rectangle
from templates_gen.guides.decorated import DecoratedStack, Ledge
from templates_gen.views.colours import BEHIND, BOARD, INSIDE, PILLAR
from templates_gen.views.elevation import board_edge, seen_above, separators, silhouette, views
from templates_gen.views.letter_boards import letter_boards
from templates_gen.views.scene.bodies import drum_body, tier_colour
from templates_gen.views.scene.marks import on_ledge, on_side, on_top
from templates_gen.views.scene.parts import Mark, Ring
from templates_gen.views.through import through
from templates_gen.views.view import View

LOOKED_AT = 8
"""Points of a shape that are looked at, whether it is hidden, on a side with hollows."""


def front_colours(stack: DecoratedStack) -> tuple[Fill, ...]:
    """Return the areas of colour of a cake as seen from the front, the nearest last."""
    return tuple(_front(stack))


def _front(stack: DecoratedStack) -> Iterator[Fill]:
    yield from _drum_in_front(stack)
    for view, seat in zip(views(stack), stack.seats, strict=True):
        board = board_edge(view)
        yield from (Fill(path, from_hex(PILLAR)) for path in separators(view, seat))
        if board is not None:
            yield Fill(rectangle(board), from_hex(BOARD))
        profile = view.tier.covered.side.profile
        whole = profile.moved(view.place.right, view.foot) if profile else silhouette(view)
        yield Fill(whole, tier_colour(view.tier))
        for mark in on_side(view.tier)[0]:
            yield from _seen_of(view, mark)
        for path in view.tier.openings.ends.get("covered", ()):
            rings = [points[:-1] for points, _ in sampled(path, view.fine)]
            yield from _filled(view, rings, from_hex(INSIDE))
        hole = through(view)
        if hole is not None and hole.seen_through is not None:
            yield Fill(hole.seen_through, from_hex(BEHIND))


def _drum_in_front(stack: DecoratedStack) -> Iterator[Fill]:
    if stack.drum is None:
        return
    drum = drum_body(stack.drum, stack.drum_spec)
    half, low = stack.drum.across / 2, -stack.drum_thickness
    yield Fill(rectangle(Box(-half, low, half, 0.0)), drum.look.colour)
    for mark in drum.on_side:
        tall = sum(band.height for band in mark.bands)
        yield Fill(rectangle(Box(-half, low, half, low + tall)), mark.look.colour)


def _seen_of(view: View, mark: Mark) -> Iterator[Fill]:
    """Yield what is seen of something on a side."""
    for band in mark.bands:
        yield from _filled(view, [_ring_round(view, band)], mark.look.colour)
    for shape in mark.every_shape:
        yield from _filled(view, shape, mark.look.colour)


def _ring_round(view: View, band: Box) -> Ring:
    """Return a box on a side as a ring of points close enough to follow it."""
    count = max(1, round(band.width / view.step))
    us = [band.x0 + band.width * step / count for step in range(count + 1)]
    low = [(u, min(band.y1, view.foot_at(u))) for u in us]
    return (*((u, band.y0) for u in us), *reversed(low))


def _filled(view: View, rings: Sequence[Sequence[Point]], colour: Colour) -> Iterator[Fill]:
    """Yield what is seen of rings that are filled together, from each turn of the side."""
    for turn in (-1, 0, 1):
        moved = [[(u + turn * view.girth, v) for u, v in ring] for ring in rings]
        path = polygons([view.seen(u, v) for u, v in ring] for ring in _in_sight(view, moved))
        if path.commands:
            yield Fill(path, colour)


def _in_sight(view: View, rings: Sequence[Sequence[Point]]) -> Iterator[Sequence[Point]]:
    """Yield the parts of rings that face the viewer; on a side with hollows, rings that all do."""
    if view.is_simple:
        start, length = view.in_sight
        for ring in rings:
            part = _beyond(_beyond(ring, start, 1.0), start + length, -1.0)
            if len(part) > 2:
                yield part
        return
    us = [u for ring in rings for u, _ in ring]
    if not us or max(us) < 0 or min(us) > view.girth:
        return
    looked = [point for ring in rings for point in ring[:: max(1, len(ring) // LOOKED_AT)]]
    if all(view.is_seen(u, v) for u, v in looked):
        yield from rings


def _beyond(ring: Sequence[Point], edge: float, way: float) -> list[Point]:
    """Return the part of a ring beyond u = ``edge`` (Sutherland and Hodgman 1974); way -1: before.

    Parts that hang together only beyond the edge stay joined along it.
    """
    found: list[Point] = []
    for (u0, v0), (u, v) in pairwise((*ring[-1:], *ring)):
        here, there = (u - edge) * way >= 0, (u0 - edge) * way >= 0
        if here != there:
            found.append((edge, v0 + (v - v0) * (edge - u0) / (u - u0)))
        if here:
            found.append((u, v))
    return found


def colours_above(stack: DecoratedStack) -> tuple[Fill, ...]:
    """Return the areas of colour of a cake as seen from above, the highest last."""
    found: list[Fill] = []
    if stack.drum is not None:
        drum = drum_body(stack.drum, stack.drum_spec)
        found.append(Fill(stack.drum.path(), drum.look.colour))
    for beside in letter_boards(stack):
        found.append(Fill(rectangle(beside.board), from_hex(BOARD)))
        found += [Fill(path, beside.colour) for path in beside.outlines]
    for lowest in stack.ledges[:1]:
        found += _ledge_above(lowest, Transform())
    for tier, place, ledge in zip_longest(stack.tiers, stack.places, stack.ledges[1:]):
        found += [Fill(place.of(each), tier_colour(tier)) for each in seen_above(tier)]
        for mark in on_top(tier):
            found += [_on_top(mark, shape, place.transform) for shape in mark.every_shape]
        if ledge is not None:
            found += _ledge_above(ledge, place.transform)
    return tuple(found)


def _ledge_above(ledge: Ledge, onto: Transform) -> list[Fill]:
    """Return what lies on a surface round the tier above."""
    return [_on_top(mark, shape, onto) for mark in on_ledge(ledge) for shape in mark.every_shape]


def _on_top(mark: Mark, shape: Sequence[Ring], onto: Transform) -> Fill:
    return Fill(polygons(shape).transformed(onto), mark.look.colour)
