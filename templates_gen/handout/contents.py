"""What a handout says: what to have ready, the steps with their templates, cautions."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import sections
from templates_gen.bench.report_times import named, order_of_tiers
from templates_gen.bench.section import QUANTITIES
from templates_gen.drawing.piece import Piece
from templates_gen.plan import Plan
from templates_gen.printing.by_numbers import NO_SHEET
from templates_gen.printing.templates import by_piece
from templates_gen.units import counted, hours, in_both


@dataclass(frozen=True, slots=True)
class HandoutStep:
    """A step with its number from 1: what to do, how long, the pieces it takes, each in words."""

    number: int
    title: str
    words: str
    takes: str
    pieces: tuple[tuple[Piece, str], ...]


@dataclass(frozen=True, slots=True)
class Handout:
    """A cake as a handout: rows of what to have ready, steps in order, cautions."""

    title: str
    ready: tuple[tuple[str, ...], ...]
    steps: tuple[HandoutStep, ...]
    cautions: tuple[str, ...]


def handout(plan: Plan) -> Handout:
    """Return the handout of a plan."""
    found, printed = bench(plan), by_piece(plan)
    ready = next(
        (each.rows for each in sections(found, plan.terms) if each.title == QUANTITIES), ()
    )
    pieces = {piece.id: tuple(_at_hand(piece, printed[piece.id])) for piece in plan.pieces}
    cautions = dict.fromkeys(each["caution"] for each in found["times"] if each["caution"])
    say = plan.terms.text
    return Handout(
        plan.title,
        tuple((whose, what, amount) for whose, what, amount, _ in ready),
        tuple(_steps(found["times"], order_of_tiers(found), pieces, say)),
        (*plan.cautions, *map(say, cautions)),
    )


def _steps(
    times: Sequence[dict[str, Any]],
    order: Sequence[str],
    pieces: Mapping[str, tuple[Piece, ...]],
    say: Callable[[str], str],
) -> Iterator[HandoutStep]:
    """Yield the steps; what is done alike to one tier after another is one of them."""
    alike = groupby(
        _bakes_in_one(times), lambda step: (step["step"], step["what"], step["days_before"])
    )
    for number, ((name, words, days), group) in enumerate(alike, 1):
        each = list(group)
        wait = max(step["wait_h"] for step in each)
        takes = f"{counted(days, 'day')} before" if days else "the day"
        takes += f" · {hours(sum(step['minutes'] for step in each) / 60)}"
        takes += f", then wait {hours(wait)}" if wait else ""
        used = dict.fromkeys(piece for step in each for piece in step["templates"])
        known = (piece for id_ in used for piece in pieces.get(id_, ()))
        templates = tuple((piece, say(_of_piece(piece))) for piece in known)
        yield HandoutStep(
            number, f"{name.capitalize()}: {named(each, order)}", say(words), takes, templates
        )


def _bakes_in_one(times: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the steps; all bakes of a tier on one day are one step, in the place of the first."""
    found: dict[tuple[object, ...], list[dict[str, Any]]] = {}
    for step in times:
        name = "" if step["bake"] else step["step"]
        found.setdefault((step["tier"], step["days_before"], name), []).append(step)
    return [_one_of(steps) for steps in found.values()]


def _one_of(steps: Sequence[dict[str, Any]]) -> dict[str, Any]:
    """Return one step or several bakes as one, each told where they are not all alike."""
    first, last = steps[0], steps[-1]
    if first is last:
        return first
    (start, _), (end, count) = first["bake"], last["bake"]
    each = [step["what"] for step in steps]
    return {
        **first,
        "step": f"bake {start} to {end} of {count}",
        "what": each[0] if len(set(each)) == 1 else " ".join(each),
        "minutes": sum(step["minutes"] for step in steps),
        "wait_h": last["wait_h"],
    }


def _at_hand(piece: Piece, printed: Sequence[Piece]) -> Iterator[Piece]:
    """Yield what a student has of a piece: what is printed in its place, or it, whole.

    What is printed on the fold, or drawn with the circle guide, is the whole piece in the end.
    """
    for template in printed:
        if not template.printed:
            yield replace(piece, printed=False, instead=template.instead, use=template.use)
        elif template.title.startswith(f"{piece.title}, "):
            yield piece
        else:
            yield template


def _of_piece(piece: Piece) -> str:
    """Return what a step says of a piece beside its drawing: its name, how many, its size."""
    wide, tall = in_both(piece.size.width), in_both(piece.size.height)
    size = f"{wide} across" if wide == tall else f"{wide} × {tall}"
    if piece.instead:
        found = piece.use if piece.instead == NO_SHEET else size
        return f"{piece.title} ({piece.instead}): {found}"
    return f"{piece.title}, cut {piece.copies}: {size}"
