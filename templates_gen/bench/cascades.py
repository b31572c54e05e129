"""Garlands and cascades on the bench list: how long each lies, its pieces by size and by place."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.bench.section import Data, Row, Section
from templates_gen.guides.cascade import counted_by_size, letter_of
from templates_gen.guides.cascade_line import CascadeLine
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.pieces.cascade import counts, with_pieces
from templates_gen.units import in_both


def cascades(stack: DecoratedStack) -> Iterator[Data]:
    """Yield each cascade with its length in mm and its pieces: all of them, and place by place."""
    for line in with_pieces(stack):
        spec = line.spec
        yield {
            "number": line.index + 1,
            "shape": spec.shape,
            "colour": spec.colour,
            "length_mm": line.length,
            "sizes": [letter_of(spec, size) for size in range(len(spec.sizes))],
            "sizes_mm": [size.mm for size in spec.sizes],
            "pieces": list(counts(stack, line)),
            "places": list(_places(stack, line)),
        }


def _places(stack: DecoratedStack, line: CascadeLine) -> Iterator[Data]:
    """Yield the pieces on each side and each ledge that a cascade passes, from the top down."""
    for run in line.runs:
        surface = stack.ledges[run.tier] if run.on_ledge else stack.tiers[run.tier]
        seat = stack.seats[run.tier]
        where = f"on {seat.name}" if run.on_ledge else f"side of {seat.upper.name}"
        laid = surface.cascades.get(line.index, ())
        yield {"where": where, "pieces": list(counted_by_size(line.spec, laid))}


def section(found: Data) -> Section:
    """Return what is said of the garlands of a cake."""
    rows = [row for each in found["cascades"] for row in _rows(each)]
    columns = ("", "where", "pieces")
    return Section("Garlands and cascades", columns, tuple(rows))


def _rows(each: Data) -> Iterator[Row]:
    name = f"cascade {each['number']}: {each['shape']}, {each['colour']}"
    long = f"{in_both(each['length_mm'])} long as it lies"
    sizes = zip(each["sizes"], each["sizes_mm"], each["pieces"], strict=True)
    whole = (f"{count} × {f'{letter} '.lstrip()}{in_both(mm)}" for letter, mm, count in sizes)
    yield name, long, ", ".join(whole)
    for place in each["places"]:
        some = [
            f"{count} × {name}".removesuffix(" × ")
            for name, count in zip(each["sizes"], place["pieces"], strict=True)
            if count
        ]
        if some:
            yield "", place["where"], ", ".join(some)
