"""The whole cake in space, as data that a renderer can turn and look at from anywhere."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from itertools import starmap, zip_longest

from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.views.scene.bodies import drum_body, separator_bodies, tier_body
from templates_gen.views.scene.flowers import standing_flowers
from templates_gen.views.scene.lying import lying, reach_of
from templates_gen.views.scene.marks import on_ledge, on_side, on_top
from templates_gen.views.scene.parts import Body, Lying, Mark, Scene
from templates_gen.views.scene.standing import standing

__all__ = ["Body", "Scene", "scene"]


def scene(stack: DecoratedStack, memo: Memo = NOTHING_KEPT, *, coarse: bool = False) -> Scene:
    """Return a cake in space. Raises CakeError where something marked on it cannot be.

    A ``coarse`` scene has nothing marked on tiers that the memo does not know, and so comes soon.
    """
    made = [_decorated(tier, memo, coarse=coarse) for tier in stack.tiers]
    bodies = [
        replace(body, at=(place.right, place.back, foot, place.turn))
        for (body, _), place, foot in zip(made, stack.places, stack.feet, strict=True)
    ]
    drums = _drum(stack, memo)
    raising = [
        body
        for seat, place, foot in zip(stack.seats, stack.places, stack.feet, strict=True)
        for body in separator_bodies(seat, place, foot)
    ]
    whole = [*drums, *bodies]
    if not coarse:
        on_ledges = [memo.get((on_ledge, each), partial(on_ledge, each)) for each in stack.ledges]
        whole = list(starmap(_with_marks, zip_longest(whole, on_ledges, fillvalue=())))
    upright = () if coarse else (*standing(stack), *standing_flowers(stack))
    beside = _lying(stack, memo)
    reach = max(_reaches(*whole), default=0.0)
    middle, reach = reach_of(beside, reach) if beside else (0.0, reach)
    return Scene(
        (*whole, *raising),
        upright,
        stack.height,
        reach,
        coarse or any(simplified for _, simplified in made),
        beside,
        middle,
    )


def _drum(stack: DecoratedStack, memo: Memo) -> list[Body]:
    """Return the drum, if the cake stands on one."""
    if stack.drum is None:
        return []
    board = (stack.drum, stack.drum_ribbon, stack.drum_thickness, stack.drum_colour)
    return [memo.get((drum_body, *board), lambda: drum_body(*board))]


def _with_marks(body: Body, marks: tuple[Mark, ...]) -> Body:
    """Return a body with what lies on it round the tier above."""
    return replace(body, on_top=(*body.on_top, *marks)) if marks else body


def _lying(stack: DecoratedStack, memo: Memo) -> tuple[Lying, ...]:
    """Return the letter cakes, which lie before the drum."""
    made_from = (lying, stack.letter_cakes, stack.drum, stack.drum_thickness)
    return memo.get(made_from, lambda: tuple(lying(stack)))


def _decorated(tier: DecoratedTier, memo: Memo, *, coarse: bool) -> tuple[Body, bool]:
    """Return a tier in its own frame with all that is on it, and whether that is simplified."""
    key = ("scene", tier)
    if coarse and key not in memo:
        return tier_body(tier), True
    return memo.get(key, lambda: _whole(tier))


def _whole(tier: DecoratedTier) -> tuple[Body, bool]:
    marks, simplified = on_side(tier)
    return replace(tier_body(tier), on_side=marks, on_top=on_top(tier)), simplified


def _reaches(*bodies: Body) -> Iterator[float]:
    """Yield how far each body reaches from the middle of the cake, mm."""
    for body in bodies:
        aside = math.hypot(*body.at[:2])
        if body.sphere is not None:
            yield aside + body.sphere.radius
        for column in body.columns:
            yield aside + max(math.hypot(*end[:2]) for end in (column.rim, column.foot))
