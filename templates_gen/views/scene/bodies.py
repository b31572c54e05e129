"""Tiers and drum as bodies: their sides as columns, tops, balls, and holes with what is inside."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from templates_gen.cakefile.drum import Drum
from templates_gen.drawing.colour_words import from_hex
from templates_gen.drawing.drawing import Colour
from templates_gen.drawing.shapes.round import disc
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Box
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path
from templates_gen.geometry.tolerances import ROUNDING
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.seat import Seat
from templates_gen.tiers.side import Side, UprightSide
from templates_gen.tiers.solid import Layer
from templates_gen.tiers.tunnel import Crossing, specified_tunnel
from templates_gen.tiers.widths import width_words
from templates_gen.units import in_both, in_trade
from templates_gen.views.colours import BUTTERCREAM, DRUM, INSIDE, PILLAR, RIBBON, TINTS, colour_of
from templates_gen.views.scene.parts import (
    Body,
    Column,
    Hole,
    Look,
    Mark,
    Move,
    Ring,
    Shape,
    SpacePose,
)

TURN = math.radians(3)
"""The most that the rim turns between two columns: a round of 300 mm is drawn to 0.05 mm."""
HOLE_POINTS = 48


def part_of(key: tuple[str | int, ...]) -> str:
    """Return the name of what a key of the cake file says."""
    return ".".join(map(str, key))


def tier_colour(tier: DecoratedTier) -> Colour:
    """Return the colour of a tier's covering: the one given, or a pale one for its place."""
    spec = tier.spec
    is_bare = spec.cover == "none" and not spec.dummy
    return colour_of(spec.colour, BUTTERCREAM if is_bare else TINTS[tier.index % len(TINTS)])


def tier_body(tier: DecoratedTier, at: SpacePose = (0.0, 0.0, 0.0, 0.0)) -> Body:
    """Return a finished tier, with nothing marked on it."""
    layer = tier.covered
    bare = tier.bare
    look = Look(
        part_of(tier.key()),
        tier.name,
        f"{width_words(bare.foot)}, {in_both(bare.depth)} deep",
        tier_colour(tier),
        (
            Move(("position", "right"), "right", tier.spec.position.right.mm),
            Move(("position", "back"), "back", tier.spec.position.back.mm),
        ),
    )
    side, sphere = layer.side, layer.side.sphere
    top, slope = layer.depth, (0.0, 0.0)
    if layer.fall is not None:
        fall = layer.fall
        top += fall.start * fall.rate
        slope = -fall.rate * fall.towards[0], -fall.rate * fall.towards[1]
    return Body(
        look,
        at,
        side.girth,
        () if sphere else _columns(side, layer.rim),
        top,
        slope,
        sphere,
        hole=_hole(tier),
        board=ring_of(tier.board),
        thick=tier.board_thickness,
    )


def drum_body(outline: Outline, spec: Drum) -> Body:
    """Return the drum, its upper face at height 0, with its ribbon and the colour of its paste."""
    thick, ribbon = spec.thickness.mm, spec.ribbon
    side = UprightSide(outline, thick)
    look = Look("drum", "Drum", width_words(outline), colour_of(spec.paste_colour, DRUM))
    at = (0.0, 0.0, -thick, 0.0)
    marks = () if ribbon is None else (ribbon_mark("drum.ribbon", side, ribbon.mm),)
    return Body(look, at, side.girth, _columns(side, outline), thick, on_side=marks)


def separator_bodies(seat: Seat, on_drum: Pose, foot: float) -> Iterator[Body]:
    """Yield the pillars or the spacer under a raised tier that stands so on the drum."""
    found, upper = seat.separator, seat.upper
    if found is None:
        return
    low = foot - upper.board_thickness - found.height
    part, colour = part_of(upper.key("separator")), from_hex(PILLAR)
    tall = f"{in_both(found.height)} tall"
    if found.spacer is not None:
        look = Look(part, "Spacer", f"{width_words(found.spacer)}, {tall}", colour)
        at = (on_drum.right, on_drum.back, low, on_drum.turn)
        yield _upright(look, at, found.spacer, found.height)
        return
    right, back = on_drum.right - seat.place.right, on_drum.back - seat.place.back
    look = Look(part, "Pillar", f"{in_trade(found.thick)} thick, {tall}", colour)
    for x, y in seat.support.places if seat.support else ():
        yield _upright(look, (right + x, back + y, low, 0.0), disc(found.thick), found.height)


def _upright(look: Look, at: SpacePose, outline: Outline, tall: float) -> Body:
    side = UprightSide(outline, tall)
    return Body(look, at, side.girth, _columns(side, outline), tall)


def ribbon_mark(part: str, side: Side, wide: float) -> Mark:
    """Return a ribbon round the foot of a side; on a drum it is no wider than that is thick."""
    top = max(side.depth - wide, 0.0)
    look = Look(part, "Ribbon", f"{in_trade(wide)} wide", from_hex(RIBBON))
    return Mark(look, bands=(Box(0.0, top, side.girth, side.depth),), raised=0.5)


def _columns(side: Side, rim: Outline) -> tuple[Column, ...]:
    """Return lines down a side so close that its faces look smooth; the last is the first again."""
    return tuple(
        Column(u, side.foot_at(u), side.in_space(u, 0.0), side.in_space(u, side.foot_at(u)))
        for u in _places(rim)
    )


def _places(rim: Outline) -> list[float]:
    """Return places once round a rim between which it turns little; its corners are among them."""
    us = [0.0]
    for bend in rim.bends:
        steps = max(1, math.ceil(abs(bend.turn) / TURN)) if bend.length > ROUNDING else 0
        us += [us[-1] + bend.length * (step + 1) / steps for step in range(steps)][:steps]
    return [0.0, *(b for a, b in pairwise(us) if b - a > ROUNDING)]


def ring_of(outline: Outline) -> Ring:
    """Return an outline as points."""
    return tuple(outline.at(u) for u in _places(outline)[:-1])


def shape_of(path: Path, fine: float) -> Shape:
    """Return the closed contours of a path, which leave it by no more than ``fine`` mm."""
    return tuple(tuple(points[:-1]) for points, closed in sampled(path, fine) if closed)


def _hole(tier: DecoratedTier) -> Hole | None:
    """Return the hole through a tier as it comes through its finished side."""
    hole = specified_tunnel(tier)
    if hole is None:
        return None
    layer = tier.covered
    crossing = Crossing(layer.rim, hole)
    turns = [math.tau * step / HOLE_POINTS for step in range(HOLE_POINTS)]
    edge = [
        (hole.aside + hole.radius * math.cos(t), hole.height + hole.radius * math.sin(t))
        for t in turns
    ]
    front, back = (
        tuple(
            (_near(crossing.ends(w)[end], crossing.ends(hole.aside)[end], layer), layer.depth - h)
            for w, h in edge
        )
        for end in (0, 1)
    )
    look = Look(
        part_of(tier.key("opening")),
        "Hole through the tier",
        f"{in_both(2 * hole.radius)} across",
        from_hex(INSIDE),
        (Move(("turn",), "turn", math.degrees(hole.turn)), Move(("height",), "up", hole.height)),
    )
    return Hole(look, front, back)


def _near(u: float, start: float, layer: Layer) -> float:
    """Return a u as it goes on from a start, also over the back join."""
    girth = layer.rim.girth
    return u + girth * round((start - u) / girth)
