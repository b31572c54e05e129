"""The cake as one sees it from the front, and from above: true size, hidden lines hidden.

The elevation has x to the right and y upwards, the plan x to the right and y to the back; both have
their origin in the middle of the drum, the elevation on its upper face.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from fontTools.misc.transform import Transform

from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.booleans import Area, region, shadow, union
from templates_gen.geometry.areas.lines import cutter, within
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.areas.silhouettes import envelope, hull
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path, line, polyline, rectangle
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.guides.guide import Guide
from templates_gen.guides.keep_clear import visible_parts
from templates_gen.pieces.collar_paper import above_foot
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.seat import Seat
from templates_gen.tiers.solid import Solid
from templates_gen.views.letter_boards import letter_boards
from templates_gen.views.through import through
from templates_gen.views.view import FINE, NUDGE, ROUND, View

FORM, DETAIL = Role.GUIDE, Role.NOTE
"""The lines of the tiers themselves, and of what is on them."""


def views(stack: DecoratedStack, fine: float = FINE) -> tuple[View, ...]:
    """Return the tiers of a cake as seen from the front, from the bottom up."""
    return tuple(
        View(tier, place, foot, fine)
        for tier, place, foot in zip(stack.tiers, stack.places, stack.feet, strict=True)
    )


def elevation(stack: DecoratedStack, fine: float = FINE) -> Drawing:
    """Return the whole cake as seen from the front, its curves true to ``fine`` mm.

    Raises CakeError where a guide cannot be.
    """
    drawing = drum_seen(stack) or Drawing()
    for view, seat in zip(views(stack, fine), stack.seats, strict=True):
        drawing += separator_seen(view, seat)
        drawing += tier_seen(view)
    return drawing


def drum_seen(stack: DecoratedStack, turn: float = 0.0) -> Drawing | None:
    """Return the drum, if there is one, of a cake turned by degrees, clockwise from above."""
    if stack.drum is None:
        return None
    half = stack.drum.path().transformed(Pose(turn=-turn).transform).bounds.width / 2
    return Drawing((Stroke(rectangle(Box(-half, -stack.drum_thickness, half, 0.0)), FORM),))


def tier_seen(view: View, *, marked: bool = True) -> Drawing:
    """Return a tier as it is seen, its board below it.

    Without what is ``marked`` on the side it is soon drawn.
    """
    board = board_edge(view)
    under = (Stroke(rectangle(board), FORM),) if board else ()
    return Drawing((*under, *_form(view), *(_details(view) if marked else ())))


def separator_seen(view: View, seat: Seat, turn: float = 0.0) -> Drawing:
    """Return what a raised tier stands on, of a cake turned clockwise by degrees from above."""
    return Drawing(tuple(_nearest_whole(separators(view, seat, turn))))


def board_edge(view: View) -> Box | None:
    """Return the edge of the board under a tier as it is seen, if it has one."""
    thick = view.tier.board_thickness
    if not thick:
        return None
    seen = view.place.of(view.tier.board).bounds
    return Box(seen.x0, view.foot - thick, seen.x1, view.foot)


def separators(view: View, seat: Seat, turn: float = 0.0) -> list[Path]:
    """Return the pillars or the spacer under a raised tier as they are seen, the nearest last."""
    onto = Pose(turn=-turn).transform
    found = seat.separator
    if found is None:
        return []
    high = view.foot - view.tier.board_thickness
    low = high - found.height
    # the place of a tier on the drum is its place on its seat, moved on
    right, back = view.place.right - seat.place.right, view.place.back - seat.place.back
    if found.spacer is not None:
        seen = view.place.of(found.spacer).transformed(onto).bounds
        return [rectangle(Box(seen.x0, low, seen.x1, high))]
    own = seat.support.places if seat.support else ()
    places = [onto.transformPoint((right + x, back + y)) for x, y in own]
    half = found.thick / 2
    nearest_last = sorted(places, key=lambda at: -at[1])
    return [rectangle(Box(x - half, low, x + half, high)) for x, _ in nearest_last]


def _nearest_whole(paths: Sequence[Path]) -> Iterator[Stroke]:
    """Draw things that hide each other, the nearest last."""
    areas = [shadow(path, FINE) for path in paths]
    for index, path in enumerate(paths):
        seen = cutter(areas[index + 1 :])(path)
        if seen.commands:
            yield Stroke(seen, FORM)


def _form(view: View) -> Iterator[Stroke]:
    """Draw a tier itself: its outline, where its side turns away, rim, sharp corners, openings."""
    profile = view.tier.covered.side.profile
    if profile is not None:
        yield Stroke(profile.moved(view.place.right, view.foot), FORM)
        return
    yield Stroke(silhouette(view), FORM)
    yield from _on_side(view, [line((0.0, 0.0), (view.girth, 0.0))], FORM)
    for u in (*_turns(view), *view.edges):
        yield from _on_side(view, [line((u, 0.0), (u, view.foot_at(u)))], FORM)
    yield from _on_side(view, view.tier.openings.ends.get("covered", ()), FORM)
    hole = through(view)
    if hole is not None and hole.seen_through is not None:
        far_edge = within(hole.far, region(hole.near))
        if far_edge.commands:  # the whole edge may lie on that of the near end, or behind it
            yield Stroke(far_edge, FORM)


def silhouette(view: View) -> Path:
    """Return the edge of a tier as it looks from the front."""
    if not view.is_simple:
        return envelope(list(_patches(view)))
    if view.tier.covered.side.is_level:
        seen = view.tier.covered.rim.path().transformed(view.place.transform).bounds
        return rectangle(Box(seen.x0, view.foot, seen.x1, view.foot + view.depth))
    us = [index * view.girth / ROUND for index in range(ROUND)]
    return hull([view.seen(u, v) for u in us for v in (0.0, view.foot_at(u))])


def _patches(view: View) -> Iterator[Sequence[Point]]:
    """Yield the side in narrow pieces from rim to foot, as they look from the front."""
    us = [index * view.girth / ROUND for index in range(ROUND + 1)]
    rim = [view.seen(u, 0.0) for u in us]
    foot = [view.seen(u, view.foot_at(u)) for u in us]
    for left in range(ROUND):
        yield rim[left], rim[left + 1], foot[left + 1], foot[left]


def _turns(view: View) -> Iterator[float]:
    """Yield each u at which the side turns away from the viewer and is seen in front of more."""
    if view.is_simple:
        return
    middle = view.depth / 2
    us = [index * view.girth / ROUND for index in range(ROUND + 1)]
    for low, high in pairwise(us):
        if (view.faces(low, middle) > 0) != (view.faces(high, middle) > 0):
            yield _crossing(view, low, high, middle)


def _crossing(view: View, low: float, high: float, v: float) -> float:
    """Return the u between two at which the side is edge on, on the side that is seen."""
    towards = view.faces(low, v) > 0
    for _ in range(30):
        middle = (low + high) / 2
        low, high = (middle, high) if (view.faces(middle, v) > 0) == towards else (low, middle)
    return low if towards else high


def _details(view: View) -> Iterator[Stroke]:
    """Draw what is marked on a tier; what is nearer to the eye hides what lies under it."""
    drawn = [_finished(view, guide) for guide in visible_parts(view.tier.guides)]
    hidden = [list(_closed(strokes, view.fine)) for strokes in drawn]
    on_the_side = above_foot(view.tier.covered)
    for index, strokes in enumerate(drawn):
        cut = cutter([area for each in hidden[index + 1 :] for area in each])
        paths = [on_the_side(cut(stroke.path)) for stroke in strokes]
        yield from _on_side(view, paths, DETAIL)


def _finished(view: View, guide: Guide) -> list[Stroke]:
    """Return the strokes of a guide that may be seen on the finished side.

    A guide on the finished side is there as it is. One under a covering goes up to its upper edge,
    by its share of girth and of depth.
    """
    side, tier = guide.layer.side, view.tier
    strokes = list(guide.drawing.strokes)
    if guide.layer.surface != tier.covered.surface:
        tall = tier.wrapped.depth
        onto = Transform(view.girth / side.girth, 0, 0, tall / side.depth, 0, view.depth - tall)
        strokes = [stroke.transformed(onto) for stroke in strokes]
    return [stroke for stroke in strokes if view.may_be_seen(stroke.path)]


def _closed(strokes: Iterable[Stroke], fine: float) -> Iterator[Area]:
    """Yield the areas that strokes go round, whether they cross themselves or not.

    At the fineness of a picture small letters may; what encloses nothing there hides nothing.
    """
    for stroke in strokes:
        if all(name != "endPath" for name, _ in stroke.path.commands):
            yield shadow(stroke.path, fine)


def _on_side(view: View, paths: Iterable[Path], role: Role) -> Iterator[Stroke]:
    """Yield the parts of paths on the side that are seen, as they look from the front."""
    edges = [u + turn * view.girth for u in view.edges for turn in (-1, 0, 1)]
    for path in paths:
        for points, _ in sampled(path, view.fine):
            for run in _seen(view, list(_stepped(points, edges, view.step))):
                yield Stroke(polyline(run), role)


def _seen(view: View, places: Sequence[Point]) -> Iterator[list[Point]]:
    run: list[Point] = []
    for u, v in places:
        # on an edge of the side, look from within
        if view.is_seen(u, min(max(v, NUDGE), view.foot_at(u) - 2 * NUDGE)):
            run.append(view.seen(u, v))
            continue
        if len(run) > 1:
            yield run
        run = []
    if len(run) > 1:
        yield run


def _stepped(points: Sequence[Point], edges: Sequence[float], step: float) -> Iterator[Point]:
    """Yield the points of a line, and more between them where they are far apart.

    On both sides of an edge of the side there is a point.
    """
    yield points[0]
    for (u0, v0), (u1, v1) in pairwise(points):
        steps = max(1, math.ceil(math.hypot(u1 - u0, v1 - v0) / step))
        shares = [index / steps for index in range(1, steps + 1)]
        for edge in edges:
            near = (edge - 2 * NUDGE, edge + NUDGE)
            shares += [(u - u0) / (u1 - u0) for u in near if (u - u0) * (u - u1) < 0]
        for share in sorted(shares):
            yield u0 + (u1 - u0) * share, v0 + (v1 - v0) * share


def from_above(stack: DecoratedStack) -> Drawing:
    """Return the stack as seen from above: what lies under a tier above it is hidden."""
    drawn: list[Stroke] = []
    above: list[Area] = []
    for path, role in reversed(list(_from_above(stack))):
        drawn.append(Stroke(cutter(above)(path), role))
        if role is FORM:
            whole = union([*above, shadow(path, FINE)])
            above = [] if whole is None else [whole]
    return Drawing(tuple(stroke for stroke in reversed(drawn) if stroke.path.commands))


def seen_above(tier: Solid) -> tuple[Outline, ...]:
    """Return what is seen of a tier from above: its rim, and its foot where that shows round it."""
    rim, foot = tier.covered.rim, tier.covered.foot
    return (foot, rim) if foot.area > rim.area else (rim,)


def _from_above(stack: DecoratedStack) -> Iterator[tuple[Path, Role]]:
    """Yield the outlines of drum and tiers, each with what lies round it on what it stands on."""
    for beside in letter_boards(stack):
        yield from ((path, FORM) for path in (rectangle(beside.board), *beside.outlines))
    if stack.drum is not None:
        yield stack.drum.path(), FORM
    below = Pose()
    for tier, place, ledge in zip(stack.tiers, stack.places, stack.ledges, strict=True):
        for laid in (each for some in ledge.cascades.values() for each in some):
            yield laid.outline.moved(below.right, below.back), DETAIL
        yield from ((place.of(each), FORM) for each in seen_above(tier))
        below = place
