"""Making the packs of a class: each cake once, as many at a time as there are processors."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from typing import Any

from templates_gen.bench.bench_list import bench
from templates_gen.bench.figures import figures
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.papers import title_of
from templates_gen.cakefile.printer_store import printer_named
from templates_gen.classroom.orders import Order, Student, orders
from templates_gen.cover.pack import titled_packs
from templates_gen.errors import CakeError, Problem
from templates_gen.plan import make_plan
from templates_gen.sheets.pack import Pack
from templates_gen.terms import Terms
from templates_gen.units import counted
from templates_gen.writers.manifest import write_manifest
from templates_gen.writers.pdf import write_pdf


@dataclass(frozen=True, slots=True)
class Printed:
    """The sheets of one person on one paper."""

    name: str
    paper: str
    sheets: int
    pack_mark: str
    pdf: bytes
    manifest: bytes

    @property
    def said(self) -> str:
        """How many pages on which paper: 6 pages (A4)."""
        return f"{counted(self.sheets, 'page')} ({title_of(self.paper)})"


@dataclass(frozen=True, slots=True)
class Lists:
    """What is the same for all who have a cake; figures and bench list in mm and grams."""

    figures: dict[str, Any]
    bench: dict[str, Any]
    warnings: tuple[str, ...]
    terms: Terms


@dataclass(frozen=True, slots=True)
class Made:
    """What was made for one person."""

    student: Student
    printed: tuple[Printed, ...]
    lists: Lists


_Answer = tuple[Lists, list[tuple[Printed, ...]]]
"""What a process made of a cake: what all have, and the sheets under each title."""


def make_all(
    found: Sequence[Student], step: Callable[[], None], jobs: int = 0
) -> tuple[list[Made], list[CakeError]]:
    """Return what was made, in the order of the class, and what could not be.

    ``step`` is called as each person is done; ``jobs`` as for ``make``.
    """
    made: dict[int, Made] = {}
    errors: dict[int, CakeError] = {}
    for order, answer in make(orders(found), jobs):
        for index, student in enumerate(order.students):
            row = student.person.row
            if isinstance(answer, CakeError):
                errors[row] = answer.located(student.source)
            else:
                made[row] = answer[index]
            step()
    return [made[row] for row in sorted(made)], [errors[row] for row in sorted(errors)]


def make(found: Sequence[Order], jobs: int) -> Iterator[tuple[Order, list[Made] | CakeError]]:
    """Yield each order when it is finished, with the packs of its people or with its error.

    ``jobs`` is how many are made at a time; 0 is one for each processor.
    """
    if len(found) < 2 or jobs == 1:
        for order in found:
            yield order, _answered(order, _ordered(order.cake, _titles(order)))
        return
    with ProcessPoolExecutor(min(jobs or os.cpu_count() or 1, len(found))) as pool:
        waiting = {pool.submit(_ordered, each.cake, _titles(each)): each for each in found}
        try:
            for done in as_completed(waiting):
                yield waiting[done], _answered(waiting[done], done.result())
        finally:
            pool.shutdown(wait=True, cancel_futures=True)


def _titles(order: Order) -> list[str]:
    return [student.title for student in order.students]


def _answered(order: Order, answer: _Answer | list[Problem]) -> list[Made] | CakeError:
    """Give each person what was made, or every problem its place in their row."""
    if isinstance(answer, list):
        return CakeError(answer)
    lists, printed = answer
    return [
        Made(student, sheets, lists)
        for student, sheets in zip(order.students, printed, strict=True)
    ]


def _ordered(cake: Cake, titles: Sequence[str]) -> _Answer | list[Problem]:
    """Make the packs of a cake, one for each title, or return its problems."""
    try:
        plan = make_plan(cake)
        packs = titled_packs(plan, [cake.paper], titles, printer=printer_named(plan.printer))
    except CakeError as error:
        return list(error.problems)
    printed = [tuple(map(_printed, each)) for each in packs]
    warnings = tuple(warning.text for warning in plan.warnings())
    return Lists(figures(plan), bench(plan), warnings, plan.terms), printed


def _printed(pack: Pack) -> Printed:
    pdf = write_pdf(pack)
    manifest = write_manifest(pack, {f"{pack.name}.pdf": pdf})
    return Printed(pack.name, pack.paper.name, len(pack.sheets), pack.pack_mark, pdf, manifest)
