"""What flowers take: paste, parts to cut, wires of each gauge, holders."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator

from templates_gen.bench.rolled import Rolled, side_by_side
from templates_gen.cakefile.cut_from import MODELLING
from templates_gen.cakefile.estimates import Estimates
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.guides.flowers import WIRE, Flowers, Wire
from templates_gen.pieces.flowers import flowers
from templates_gen.units import decimal, series


def rolled_for_flowers(stack: DecoratedStack) -> Iterator[Rolled]:
    """Yield the paste of each flower: petals, what is green, and what is modelled in the middle."""
    for made in flowers(stack):
        for name, green in (("petals", False), ("leaves", True)):
            if any(part.green == green for part in made.parts):
                yield _cut(made, name, stack.estimates, green=green)
        if made.centre:
            all_of_it = made.centre * made.spec.count
            colour, thick = made.spec.centre_colour, made.spec.width.mm
            name = f"pack/{made.name} centres"
            yield Rolled(name, "pack", MODELLING, colour, thick, all_of_it, all_of_it)


def _cut(made: Flowers, name: str, estimates: Estimates, *, green: bool) -> Rolled:
    spec = made.spec
    shapes = [(each.outline, each.count * spec.count) for each in made.parts if each.green == green]
    title, colour = f"pack/{made.name} {name}", spec.leaf_colour if green else spec.colour
    return side_by_side(title, "pack", spec, colour, shapes, estimates)


def wires(made: Flowers) -> Iterator[tuple[str, int, Wire]]:
    """Yield what wires are for, how many and which: of one gauge all as long as the longest."""
    wired = [(part, part.wire) for part in made.parts if part.wire is not None]
    for gauge in dict.fromkeys(wire.gauge for _, wire in wired):
        some = [(part, wire) for part, wire in wired if wire.gauge == gauge]
        green = {part.green for part, _ in some}
        of = series([name for name, kind in (("petals", False), ("leaves", True)) if kind in green])
        count = sum(part.count for part, _ in some) * made.spec.count
        yield f"wire for {of}", count, Wire(gauge, max(wire.length for _, wire in some))
    if made.stem is not None:
        yield "wire for stems", made.spec.count, made.stem


def wires_to_buy(stack: DecoratedStack) -> dict[int, int]:
    """Return how many wires of each gauge are bought, as they are sold."""
    found: dict[int, int] = defaultdict(int)
    for made in flowers(stack):
        for _, count, wire in wires(made):
            found[wire.gauge] += math.ceil(count / wire.from_one)
    return dict(sorted(found.items()))


def holders(stack: DecoratedStack) -> int:
    """Return how many holders are pushed into the cake, one for each stem."""
    return sum(each.count for each in stack.flowers if each.wired)


SOLD = f"{decimal(WIRE)} mm long"
"""How wires are sold."""
