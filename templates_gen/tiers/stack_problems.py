"""What is wrong with how tiers stand on each other."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, pairwise

from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.limits import SMALLEST_TIER
from templates_gen.errors import CakeError, Problem
from templates_gen.geometry.outline import Outline
from templates_gen.tiers.dowels import LEAST, too_few
from templates_gen.tiers.seat import TOUCHING, Seat, clearance_in
from templates_gen.tiers.separators import separator_problems
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.stack import Stack
from templates_gen.units import at_least, at_most, counted, decimal, in_both


def stack_problems(stack: Stack[Solid]) -> list[Problem]:
    """Return what is wrong with how tiers stand: what reaches over too far, dowels without room."""
    problems = [problem for seat in stack.seats for problem in _overhang(seat)]
    for lower, upper in pairwise(stack.tiers):
        problems += _no_place(lower, upper)
        problems += separator_problems(lower, upper)
    for seat in stack.seats:
        if seat.lower is not None and seat.support is not None:
            problems += filter(None, [too_few(seat.lower, seat.support)])
        problems += _too_few_pillars(seat)
    if stack.travels and stack.through is None:
        problems.append(_no_way_through())
    return problems


def _no_place(lower: Solid, upper: Solid) -> Iterator[Problem]:
    """Yield why no tier can stand on a ball or on a sloped top."""
    fall = lower.bare.fall
    what = "a ball" if lower.ball else "a sloped top" if fall and fall.rate else ""
    if what:
        yield Problem(
            upper.key("size"),
            f"“{upper.name}” on “{lower.name}”, which has {what}",
            "a tier on a level top",
            "put it on another tier, or make that one level",
        )


def _too_few_pillars(seat: Seat) -> Iterator[Problem]:
    """Yield why a tier cannot stand on its pillars; of dowels alone there is a warning."""
    on_pillars = seat.separator is not None and seat.separator.on_pillars
    if on_pillars and seat.support is not None and seat.support.count < LEAST:
        yield Problem(
            seat.upper.key("raised"),
            f"room for {counted(seat.support.count, 'pillar')} under “{seat.upper.name}”",
            f"{LEAST} pillars or more",
            "use thinner pillars, a larger board, or a spacer: [tier.separator] kind = “spacer”",
        )


def _no_way_through() -> Problem:
    return Problem(
        ("through_dowel",),
        "tiers that no upright dowel can go through",
        "a place that lies inside every board",
        "move the tiers nearer to one line, or leave through_dowel out",
    )


def _overhang(seat: Seat) -> Iterator[Problem]:
    upper, wide = seat.upper, seat.outline.across
    allowed = upper.spec.position.overhang.mm
    below = f"on {'the drum' if seat.on_drum else f'“{seat.name}”'}, {in_both(wide)} across"
    over = -seat.clearance
    if over > allowed + TOUCHING:
        yield _too_far(seat, over, f"covered {_wide(upper.covered.foot)}, {below}")
    if upper.spec.board is None:
        return
    over = -clearance_in(upper.board, seat.place, seat.outline, seat.edge)
    if over > allowed + TOUCHING:
        yield Problem(
            upper.key("board"),
            f"the board of “{upper.name}”, {in_both(upper.board.across)} across, {below}",
            "a board that lies inside what it stands on",
            "use a smaller board, or leave it out",
        )


def _wide(outline: Outline) -> str:
    """Say how wide an outline is, and from corner to corner where that is more."""
    across = f"{in_both(outline.across)} across"
    corners = [outline.at(s) for s in outline.corners]
    diagonal = max((math.dist(*pair) for pair in combinations(corners, 2)), default=0.0)
    if diagonal <= outline.across + TOUCHING:
        return across
    return f"{across} and {in_both(diagonal)} from corner to corner"


def _too_far(seat: Seat, over: float, what: str) -> Problem:
    """Say that a tier reaches over what it stands on, by its size or by its position."""
    upper, spec = seat.upper, seat.upper.spec.position
    found = f"“{upper.name}”, {what}"
    if not spec.is_usual or spec.overhang.mm:
        return Problem(
            upper.key("position"),
            f"{found}, reaches {in_both(over)} over",
            f"up to {at_most(spec.overhang.mm)} over"
            if spec.overhang.mm
            else "a tier that lies inside what it stands on",
            f'move it back, or allow it: overhang = "{math.ceil(over)} mm"',
        )
    return Problem(
        upper.key("size"),
        found,
        "a tier that lies inside what it stands on",
        _sizes_that_fit(seat, over),
    )


def _sizes_that_fit(seat: Seat, over: float) -> str:
    """Say which drum would do, or which tin."""
    if seat.on_drum:
        least = at_least(seat.outline.across + 2 * over)
        return f"use a larger drum, {least} across or more: [drum] size"
    order = "in a cake file tiers are listed from the bottom up"
    largest = _largest_tin(seat)
    if largest is None:
        return f"use a larger tin below it; {order}"
    return f"use a tin up to {at_most(largest)} for it, or a larger one below; {order}"


def _largest_tin(seat: Seat) -> float | None:
    """Return the largest size of a tier that lies inside what it stands on, to 0.1 mm, if any."""
    spec = seat.upper.spec

    def fits(tenths: int) -> bool:
        size = Length(tenths / 10, f"{decimal(tenths / 10)} mm")
        tier = replace(seat.upper, spec=spec.model_copy(update={"size": size}))
        try:
            foot = tier.covered.foot
        except CakeError:  # too small for its own shape
            return False
        return clearance_in(foot, seat.place, seat.outline, seat.edge) >= -TOUCHING

    least, most = math.ceil(10 * SMALLEST_TIER), math.floor(10 * spec.size.mm)
    # the first that does not fit; a tin that is too small for its shape does not count as one
    found = bisect_left(range(least, most + 1), True, key=lambda tenths: not fits(tenths))
    return (least + found - 1) / 10 if found else None
