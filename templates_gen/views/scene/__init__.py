"""The whole cake in space, as data that a renderer can turn and look at from anywhere."""

from __future__ import annotations

import math
from collections.abc import Hashable
from dataclasses import dataclass, replace
from functools import partial
from itertools import zip_longest

from templates_gen.guides.decorated import DecoratedStack, DecoratedTier, Ledge
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.views.scene.bodies import drum_body, separator_bodies, tier_body
from templates_gen.views.scene.flowers import standing_flowers
from templates_gen.views.scene.lying import lying, reach_of
from templates_gen.views.scene.marks import on_ledge, on_side, on_top
from templates_gen.views.scene.parts import Body, Lying, Scene, SpacePose
from templates_gen.views.scene.standing import standing

__all__ = ["Body", "Scene", "scene"]


def scene(stack: DecoratedStack, memo: Memo = NOTHING_KEPT, *, coarse: bool = False) -> Scene:
    """Return a cake in space. Raises CakeError where something marked on it cannot be.

    A ``coarse`` scene has nothing marked on tiers that the memo does not know, and so comes soon.
    """
    made = [_decorated(tier, memo, coarse=coarse) for tier in stack.tiers]
    at = [
        (place.right, place.back, foot, place.turn)
        for place, foot in zip(stack.places, stack.feet, strict=True)
    ]
    bodies = [each.standing(where) for each, where in zip(made, at, strict=True)]
    drums = _drum(stack, memo)
    raising = [
        body
        for seat, place, foot in zip(stack.seats, stack.places, stack.feet, strict=True)
        for body in separator_bodies(seat, place, foot)
    ]
    whole = [*(each.body for each in drums), *bodies]
    if not coarse:
        whole = [_with_ledge(*each, memo) for each in zip_longest(whole, stack.ledges)]
    upright = () if coarse else (*standing(stack, memo), *standing_flowers(stack))
    beside = _lying(stack, memo)
    reach = max(
        [
            *(each.reach for each in drums),
            *(each.reach + math.hypot(*where[:2]) for each, where in zip(made, at, strict=True)),
        ],
        default=0.0,
    )
    middle, reach = reach_of(beside, reach) if beside else (0.0, reach)
    return Scene(
        (*whole, *raising),
        upright,
        stack.height,
        reach,
        coarse or any(each.is_simplified for each in made),
        beside,
        middle,
    )


@dataclass(frozen=True, slots=True)
class _Made:
    """A body in its own frame, how far it reaches out, mm, and whether something is left out."""

    body: Body
    reach: float
    is_simplified: bool = False

    def standing(self, at: SpacePose) -> Body:
        """Return the body where it stands."""
        return replace(self.body, at=at)


def _made(body: Body, key: Hashable, *, is_simplified: bool = False) -> _Made:
    return _Made(replace(body, made_from=key), _reach(body), is_simplified)


def _drum(stack: DecoratedStack, memo: Memo) -> list[_Made]:
    """Return the drum, if the cake stands on one."""
    if stack.drum is None:
        return []
    drum = (stack.drum, stack.drum_spec)
    key = (drum_body, *drum)
    return [memo.get(key, lambda: _made(drum_body(*drum), key))]


def _with_ledge(body: Body, above: Ledge | None, memo: Memo) -> Body:
    """Return a body with what lies on it round the tier above."""
    if above is None or not above.runs:
        return body
    marks = memo.get((on_ledge, above), partial(on_ledge, above))
    key = (body.made_from, above)
    return replace(body, on_top=(*body.on_top, *marks), made_from=key)


def _lying(stack: DecoratedStack, memo: Memo) -> tuple[Lying, ...]:
    """Return the letter cakes, which lie before the drum."""
    made_from = (lying, stack.letter_cakes, stack.drum, stack.drum_thickness)
    return memo.get(made_from, lambda: tuple(lying(stack)))


def _decorated(tier: DecoratedTier, memo: Memo, *, coarse: bool) -> _Made:
    """Return a tier in its own frame with all that is on it, and whether that is simplified."""
    key = ("scene", tier)
    if coarse and key not in memo:
        return _made(tier_body(tier), ("bare scene", tier), is_simplified=True)
    return memo.get(key, lambda: _whole(tier, key, memo))


def _whole(tier: DecoratedTier, key: Hashable, memo: Memo) -> _Made:
    marks, is_simplified = on_side(tier)
    plain = (tier_body, tier.spec, tier.index, tier.name)  # whatever lies over it
    bare = memo.get(plain, partial(tier_body, tier))
    body = replace(bare, on_side=marks, on_top=on_top(tier))
    return _made(body, key, is_simplified=is_simplified)


def _reach(body: Body) -> float:
    """Return how far a body reaches from its own middle, mm."""
    ends = (end for column in body.columns for end in (column.rim, column.foot))
    far = (math.hypot(*end[:2]) for end in ends)
    return max(far, default=body.sphere.radius if body.sphere else 0.0)
