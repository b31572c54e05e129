"""All that is done for a cake, step by step, each with the templates that it takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from templates_gen.bench import letter_cakes
from templates_gen.bench.ahead import cascade_name, cover_drum, made_ahead, topper_name
from templates_gen.bench.assembly import assembly, dowel, drill, separators
from templates_gen.bench.carrying import Load, loads
from templates_gen.bench.sized import of_surface
from templates_gen.bench.step import ROYAL_DRIPS, SLOWLY, SOFT_DRIPS, Step, in_fives, in_sessions
from templates_gen.bench.tier_steps import after_all, before_decoration, prepare, tier_steps
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.letter_cakes import name_of
from templates_gen.cakefile.waits import OF_STAGE
from templates_gen.drawing.piece import Piece
from templates_gen.guides.flowers import flower_name
from templates_gen.plan import Plan
from templates_gen.tiers.seat import DRUM

DRIPS = (SOFT_DRIPS, ROYAL_DRIPS)
USED = {
    "scraper": ("coat",),
    "board": ("drill", "fill", "coat", "almond paste", "cover"),
    "drum-ring": ("cover the drum",),
    "carving-guide": ("carve",),
    **dict.fromkeys(
        ("wrap", "disc", "lining", "gore", "cap", "rolling-out-circle", "marking-band"), ("cover",)
    ),
    "panel": ("panels", "cover"),
    "collar": ("panels", *DRIPS, "design", "lettering", "letters set", "small pieces"),
    "top-edge-guide": DRIPS,
    "design-strip": ("design", "lettering", "letters set"),
    "top-lettering": ("lettering", "letters set"),
    "lettering-mirror": ("lettering", "letters set"),
    "letter": ("letters",),
    "piping-sheet": ("design", "lettering", "small pieces ahead"),
    "stencil": ("design", "lettering", "letters set"),
    "scatter": ("small pieces ahead",),
    "placement-guide": ("dowel", "stack"),
    "board-guide": ("separators",),
    "inner-board": ("build",),
    "letter-cake": ("fill",),
    "cake-sheet": ("fill",),
    "letter-board": ("fill",),
    "letter-top": ("cover",),
    "letter-wall": ("cover",),
    "cascade": ("small pieces ahead",),
    "topper": ("topper",),
    "topper-sheet": ("topper",),
    "run-out": ("run-out",),
    "edge-paper": ("design",),
    "petals": ("petals",),
    "leaves": ("petals",),
    "portions": (),
    "circle-guide": ("cover the drum", "cover", "stack"),
}
"""For each kind of template the stages that may use it: the first there is, else the stack."""

NAMED = {
    **dict.fromkeys(("topper", "topper-sheet"), topper_name),
    **dict.fromkeys(("petals", "leaves"), flower_name),
    "cascade": cascade_name,
    **dict.fromkeys(
        ("letter-cake", "cake-sheet", "letter-board", "letter-top", "letter-wall"), name_of
    ),
}
"""What kinds of template belong to whose part begins with the number of it, and no tier has."""


def steps(plan: Plan, carried: Iterable[Load] | None = None) -> tuple[Step, ...]:
    """Return every step of a cake, each with the steps it waits for and the templates it takes.

    ``carried`` is what ``loads`` returns, where that is known already.
    """
    loaded = loads(plan.stack) if carried is None else carried
    found = list(_steps(plan, heavy=any(load.takes_two for load in loaded)))
    taken: dict[str, list[str]] = {}
    for piece in plan.pieces:
        taken.setdefault(_user(piece, found).key, []).append(piece.id)
    named = [
        replace(_timed(step, plan.stack.estimates), pieces=tuple(taken.get(step.key, ())))
        for step in found
    ]
    return in_sessions(named, plan.work)


def _timed(step: Step, estimates: Estimates) -> Step:
    """Return a step with its minutes at a person's pace and its wait by the cake file."""
    given = step.stage in ("travel", "set up")
    minutes = step.minutes if given else max(5, in_fives(step.minutes * estimates.pace / 100))
    named = OF_STAGE.get(step.stage) if step.waits else None
    wait = getattr(estimates.waits, named) + step.oven if named else 0.0
    oven = wait if step.stage == SLOWLY else step.oven
    return replace(step, minutes=minutes, wait=wait, oven=oven)


def _steps(plan: Plan, *, heavy: bool) -> Iterator[Step]:
    stack, estimates, ends = plan.stack, plan.stack.estimates, list[str]()
    drilled = [*drill(stack), *separators(stack)]
    beside = letter_cakes.steps(stack)
    drum = of_surface(estimates, stack.drum.area if stack.drum else 0.0)
    ahead = [*drilled, *made_ahead(stack), *cover_drum(stack.drum_spec, drum), *beside]
    yield from ahead
    several = len(stack.tiers) > 1
    dowelled = {seat.name: seat for seat in stack.seats[1:]}
    for tier in stack.tiers:
        own = list(tier_steps(tier, estimates))
        own = [_on_a_board(step, drilled) for step in own]
        if several:
            if tier.name in dowelled:
                each = dowel(dowelled[tier.name], estimates.minutes)
                own += [before_decoration(step, own) for step in each]
            own.append(after_all(prepare(tier, own, estimates), own))
        yield from own
        ends += [step.key for step in own]
    yield from assembly(stack, plan.work, [*(step.key for step in ahead), *ends], heavy=heavy)


def _on_a_board(step: Step, drilled: Sequence[Step]) -> Step:
    """Return a step, after the boards are drilled where it sets a tier on one."""
    if step.stage not in ("fill", "coat", "almond paste", "cover"):
        return step
    return replace(step, follows=(*step.follows, *(each.key for each in drilled)))


def _user(piece: Piece, found: Sequence[Step]) -> Step:
    """Return the step that takes a template: of its tier, or of the whole cake."""
    name = NAMED.get(piece.kind)
    whose = name(int(piece.part.split("-")[0])) if name else piece.tier
    of_a_tier = whose == DRUM or any(step.tier == whose for step in found)
    for stage in USED[piece.kind]:
        for step in found:
            if step.stage == stage and (step.tier == whose or not of_a_tier):
                return step
    last = ("set up",) if piece.kind == "portions" else ("stack", "finish")
    return next(step for step in found if step.stage in last)


def hours_of_work(found: Iterable[Step]) -> float:
    """Return the hours that all steps take in all, without what waits."""
    return sum(step.minutes for step in found) / 60
