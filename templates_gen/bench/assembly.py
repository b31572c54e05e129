"""How the tiers become one cake: dowels, the stack, the journey, setting up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from templates_gen.bench.cut_list import into_drum
from templates_gen.bench.cut_list import ribbons as cut_ribbons
from templates_gen.bench.quantities import shells_on
from templates_gen.bench.step import Step, in_fives
from templates_gen.cakefile.cut_from import fixed_with
from templates_gen.cakefile.minutes import Minutes
from templates_gen.cakefile.work import Work
from templates_gen.guides.cascade import named_counts
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.pieces.cascade import counts, with_pieces
from templates_gen.tiers.seat import Seat
from templates_gen.units import counted, series
from templates_gen.units import in_both as measure

CAKE = "cake"
TWO = "Two-person lift."
PILLARS = (
    "Pillars must stand upright and level. Never move a cake that stands on them: lift the raised"
    " tiers off first."
)


def dowel(seat: Seat, minutes: Minutes) -> Iterator[Step]:
    """Yield the step that dowels a tier, where there are dowels to set."""
    support = seat.support
    if seat.lower is None or support is None or not support.count:
        return
    pillars = seat.separator is not None and seat.separator.on_pillars
    long = f" of {measure(support.length)}, up through the pillars," if pillars else ""
    them = "alike and set them" if support.count > 1 else "and set it"
    words = (
        f"Prick through the placement guide, cut {counted(support.count, 'dowel')}{long} {them}"
        " upright."
    )
    takes = in_fives(minutes.dowel + minutes.each_dowel * support.count)
    yield Step("dowel", seat.name, words, takes, "dowel")


def stacked_at_the_venue(stack: DecoratedStack, work: Work) -> bool:
    """Tell whether tiers travel apart: a stack travels only with a dowel through all tiers.

    Nothing travels on pillars.
    """
    held = stack.through is not None and not any(map(_on_pillars, stack.seats))
    return bool(work.travel) and len(stack.tiers) > 1 and not held


def _on_pillars(seat: Seat) -> bool:
    return seat.separator is not None and seat.separator.on_pillars


def assembly(
    stack: DecoratedStack, work: Work, ready: Sequence[str], *, heavy: bool
) -> Iterator[Step]:
    """Yield the steps from the finished tiers on, the last of which ends when the cake is ready.

    ``ready`` are the keys of the steps that everything before has ended with; what is ``heavy`` is
    lifted by two.
    """
    apart = stacked_at_the_venue(stack, work)
    stacking = list(_stacking(stack, heavy=heavy))
    before = tuple(ready)
    if not apart:
        for step in stacking:
            yield _in_turn(step, before, on_the_day=False)
            before = (step.key,)
    journey = _journey(work, stack.estimates.minutes, apart=apart, heavy=heavy)
    for step in (*journey, *(stacking if apart else ()), _setup(stack, work)):
        yield _in_turn(step, before, on_the_day=True)
        before = (step.key,)


DRILL = "drill the boards"


def drill(stack: DecoratedStack) -> Iterator[Step]:
    """Yield the step that drills the boards for a dowel through all tiers, before they are used."""
    if stack.through is not None:
        words = "Drill a hole for the long dowel through each board, at T of its placement guide."
        takes = in_fives(stack.estimates.minutes.drill)
        yield Step(DRILL, CAKE, words, takes, "drill")


def separators(stack: DecoratedStack) -> Iterator[Step]:
    """Yield the step that makes what each raised tier stands on, before its board is used."""
    for seat in stack.seats:
        found = seat.separator
        if found is None:
            continue
        if found.on_pillars:
            number = counted(seat.support.count, "pillar") if seat.support else "pillars"
            words = (
                f"Cut {number} to {measure(found.height)}, exactly alike; wash and dry them. Mark"
                " their places under the board of the tier through its board guide."
            )
        else:
            words = (
                f"Cut the spacer {measure(found.height)} tall, wrap it in food-safe film or ribbon,"
                " and glue it under the middle of the board of the tier."
            )
        takes = in_fives(stack.estimates.minutes.separators)
        yield Step("separators", seat.upper.name, words, takes, "separators")


def _in_turn(step: Step, before: tuple[str, ...], *, on_the_day: bool) -> Step:
    return replace(step, after=before, place="on the day" if on_the_day else "kitchen")


def _stacking(stack: DecoratedStack, *, heavy: bool) -> Iterator[Step]:
    """Yield how tiers are stacked and finished; letters stand on their boards when covered."""
    count, minutes = len(stack.tiers), stack.estimates.minutes
    if count:
        yield from _stacked(stack, heavy=heavy)
    ribbons = ", tie the ribbons" if any(cut_ribbons(stack)) else ""
    low = {tier.name: sum(each.is_low for each in shells_on(tier)) for tier in stack.tiers}
    bases = [name for name, number in low.items() if number]
    shells = f", pipe the shells at the base of {series(bases)}" if bases else ""
    words = f"Hide the joins{shells}{ribbons}, remove all templates and pins."
    work = minutes.finish + minutes.each_tier * count + minutes.each_shell * sum(low.values())
    takes = in_fives(work)
    yield Step("finish", CAKE, words, takes, "finish")


def _stacked(stack: DecoratedStack, *, heavy: bool) -> Iterator[Step]:
    count, minutes = len(stack.tiers), stack.estimates.minutes
    words = (
        "Score each outline through its placement guide, then stack from the bottom up."
        if count > 1
        else "Set the cake on the drum."
    )
    words += "".join(map(_raised, stack.seats))
    caution = " ".join([TWO] * heavy + [PILLARS] * any(map(_on_pillars, stack.seats)))
    takes = in_fives(minutes.stack * count)
    yield Step("stack", CAKE, words, takes, "stack", caution=caution)
    if stack.through is not None:
        deep = measure(into_drum(stack))
        words = f"Sharpen the long dowel, drive it through every board, {deep} into the drum."
        takes = in_fives(minutes.through_dowel)
        yield Step("through dowel", CAKE, words, takes, "through dowel")
    for line in with_pieces(stack):
        found = counts(stack, line)
        words = (
            f"Set {named_counts(line.spec, found)} where they are marked, from the top down, with"
            f" {fixed_with(line.spec)}."
        )
        takes = in_fives(minutes.cascade + minutes.each_cascade * sum(found))
        yield Step(f"cascade {line.index + 1}", CAKE, words, takes, "cascade")


def _raised(seat: Seat) -> str:
    """Say how a raised tier is set on what it stands on."""
    if seat.separator is None:
        return ""
    name = seat.upper.name
    if not seat.separator.on_pillars:
        return f" Set the spacer of “{name}” over its dowels, on its outline."
    return f" Slip the pillars over their dowels, level them, and set “{name}” on them."


def _journey(work: Work, minutes: Minutes, *, apart: bool, heavy: bool) -> Iterator[Step]:
    if not work.travel:
        return
    what = "each tier in its own box" if apart else "the cake"
    words = f"Box {what} on a non-slip mat, level; take spare icing, tools and this list."
    takes = in_fives(minutes.pack)
    yield Step("pack", CAKE, words, takes, "pack", caution=TWO * heavy)
    words = "Drive gently, the cake level on the floor of a cool car."
    yield Step("travel", CAKE, words, in_fives(work.travel), "travel")


def _setup(stack: DecoratedStack, work: Work) -> Step:
    tops = ", set the toppers" if stack.toppers else ""
    tops += ", set the run-out collars in icing" if _has_run_outs(stack) else ""
    tops += _flowers_set(stack)
    held = list(_inside(stack))
    says = f"; tell whoever cuts it about {series(held)}" if held else ""
    words = f"Set the cake out, check it all round{tops}{says}."
    return Step("set up", CAKE, words, max(5, in_fives(work.setup)), "set up")


def _inside(stack: DecoratedStack) -> Iterator[str]:
    """Yield what is in a cake and is not eaten."""
    dowelled = any(seat.support and seat.support.count for seat in stack.seats[1:])
    if dowelled or stack.through or any(tier.inner_boards for tier in stack.tiers):
        yield "dowels"
    if stack.toppers:
        yield "sticks"
    if any(each.wired for each in stack.flowers):
        yield "wires"


def _has_run_outs(stack: DecoratedStack) -> bool:
    return any(tier.spec.run_out for tier in stack.tiers)


def _flowers_set(stack: DecoratedStack) -> str:
    """Say how flowers are set: never with a bare wire in the cake."""
    if not stack.flowers:
        return ""
    if any(each.wired for each in stack.flowers):
        return ", set the flowers, each stem in a food-safe holder"
    return ", set the flowers with a dab of icing"
