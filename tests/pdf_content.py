"""What the pages of a PDF draw, read and rewritten with pikepdf, operator by operator."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from io import BytesIO
from typing import Any, NamedTuple

import pikepdf

from tests.raster import Map, affine

Instructions = list[Any]
"""Instructions of pikepdf: operands and an operator."""


UNDRAWN = {"BDC", "EMC", "q", "Q", "cm", "h", "j", "W", "W*", "Do", "BT", "ET"} | {
    "Tf",
    "TL",
    "Tm",
    "Td",
    "Tj",
    "T*",
    "RG",
    "g",
    "re",
    "f",
    "f*",
}
"""Operators that paint no line."""


def operator(instruction: Any) -> str:  # noqa: ANN401 (two classes of pikepdf)
    """Return the name of an instruction's operator."""
    return str(instruction.operator)


def numbers(instruction: Any) -> list[float]:  # noqa: ANN401 (two classes of pikepdf)
    """Return the operands of an instruction as numbers."""
    return [float(operand) for operand in instruction.operands]


def made(name: str, *operands: float) -> pikepdf.ContentStreamInstruction:
    """Return an instruction."""
    return pikepdf.ContentStreamInstruction(list(operands), pikepdf.Operator(name))


def rewritten(pdf: bytes, change: Callable[[int, Instructions], Instructions]) -> bytes:
    """Return a PDF whose pages draw what ``change`` makes of their number and instructions."""
    with pikepdf.open(BytesIO(pdf)) as document:
        for number, page in enumerate(document.pages, 1):
            changed = change(number, list(pikepdf.parse_content_stream(page)))
            page.Contents = document.make_stream(pikepdf.unparse_content_stream(changed))
        return saved(document)


def saved(document: pikepdf.Pdf) -> bytes:
    """Return an open document as a file."""
    out = BytesIO()
    document.save(out)
    return out.getvalue()


def blocks(instructions: Sequence[Any], start: str, end: str) -> Iterator[tuple[bool, Any]]:
    """Yield runs of instructions: those from ``start`` to its ``end``, and each other alone."""
    depth, run = 0, []
    for instruction in instructions:
        depth += operator(instruction) == start
        run.append(instruction)
        depth -= operator(instruction) == end
        if not depth:
            yield operator(run[0]) == start, run
            run = []


def forms_alone(instructions: Sequence[Any]) -> Instructions:
    """Keep the groups q … Do … Q that show pieces, and the scaling they stand in."""
    kept: Instructions = []
    for grouped, run in blocks(instructions, "q", "Q"):
        shows = grouped and any(operator(each) == "Do" for each in run)
        if shows or (not grouped and operator(run[0]) == "cm"):
            kept += run
    return kept


def without_text(instructions: Sequence[Any]) -> Instructions:
    """Leave out all text."""
    return [each for text, run in blocks(instructions, "BT", "ET") if not text for each in run]


class Placed(NamedTuple):
    """An instruction, the map from its frame to the page in mm, and whether a clip is on."""

    instruction: Any
    to_page: Map
    clipped: bool


def placed(page: pikepdf.Page) -> Iterator[Placed]:
    """Yield the instructions of a page where they stand."""
    stack: list[tuple[Map, bool]] = []
    here, clipped = affine(25.4 / 72, 0, 0, 25.4 / 72, 0, 0), False
    for instruction in pikepdf.parse_content_stream(page):
        name = operator(instruction)
        if name == "q":
            stack.append((here, clipped))
        elif name == "Q":
            here, clipped = stack.pop()
        elif name == "cm":
            here = here @ affine(*numbers(instruction))
        clipped |= name in ("W", "W*")
        yield Placed(instruction, here, clipped)


class Shown(NamedTuple):
    """A form shown on a page: its object, and the map from its frame to the page in mm."""

    form: pikepdf.Object
    to_page: Map
    clipped: bool


def forms_shown(page: pikepdf.Page) -> list[Shown]:
    """Return the forms that a page shows, in order."""
    found = []
    for instruction, to_page, clipped in placed(page):
        if operator(instruction) == "Do":
            form = page.Resources.XObject[str(instruction.operands[0])]
            matrix = affine(*(float(each) for each in form.get("/Matrix", [1, 0, 0, 1, 0, 0])))
            found.append(Shown(form, to_page @ matrix, clipped))
    return found


class Drawn(NamedTuple):
    """A painted line: its width and dashes as set, and every point it is drawn by, in order."""

    weight: float
    dashes: tuple[float, ...]
    points: list[tuple[float, float]]


def lines_drawn(instructions: Iterable[Any]) -> list[Drawn]:
    """Return the lines that a page or a form itself paints, in its own frame."""
    found: list[Drawn] = []
    weight, dashes = 1.0, tuple[float, ...]()
    points: list[tuple[float, float]] = []
    for instruction in instructions:
        name = operator(instruction)
        if name == "w":
            (weight,) = numbers(instruction)
        elif name == "d":
            dashes = tuple(float(each) for each in instruction.operands[0])
        elif name in ("m", "l", "c"):
            flat = numbers(instruction)
            points += zip(flat[::2], flat[1::2], strict=True)
        elif name in ("S", "n"):
            found += [Drawn(weight, dashes, points)] if name == "S" else []
            points = []
        else:
            assert name in UNDRAWN, f"operator {name} is not expected here"
    return found
