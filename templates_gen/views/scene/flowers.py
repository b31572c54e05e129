"""Flowers as they stand on the top tier, in a row before the toppers, facing the front."""

from __future__ import annotations

import math
from collections.abc import Iterator

from templates_gen.drawing.colour_words import towards
from templates_gen.drawing.flowers import FLOWERS
from templates_gen.geometry.arcs import circle
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.guides.flowers import Flowers, Part
from templates_gen.pieces.flowers import flowers
from templates_gen.units import counted, in_both
from templates_gen.views.colours import colour_of
from templates_gen.views.scene.bodies import part_of, shape_of
from templates_gen.views.scene.parts import Look, Shape, SpacePose, Standing
from templates_gen.views.scene.stand import stand

FINE = 0.3
THICK = 3.0
"""How thick each ring of a flower is shown, mm."""
DEEPER = -0.08
"""How much darker each ring is shown than the one within it, so that both are seen."""
IN_FRONT = 0.3
"""How far before the middle of the top they stand, over its depth."""
LEAF_OUT = 0.35
"""Where the base of a leaf is, from the middle, over the radius of its flower."""


def standing_flowers(stack: DecoratedStack) -> Iterator[Standing]:
    """Yield the flowers that have room in a row across the top tier, each as rings of parts."""
    top = stand(stack)
    box = top.box
    x = box.x0
    for made in flowers(stack):
        wide = made.spec.width.mm
        for _ in range(made.spec.count):
            if x + wide > box.x1 and x > box.x0:
                break
            on = (min(x + wide / 2, max(0.0, box.x1 - wide / 2)), -IN_FRONT * box.height)
            yield from _flower(made, top.at(on))
            x += wide


def _flower(made: Flowers, at: SpacePose) -> Iterator[Standing]:
    """Yield a flower from the back to the front: leaves, petals from the outside in, its middle."""
    spec, radius = made.spec, made.spec.width.mm / 2
    size = f"{counted(spec.count, 'flower')}, {in_both(2 * radius)} wide"
    petals = [part for part in made.singles if not part.green]
    visible = [(part, spec.leaf_colour) for part in made.singles if part.name == "leaf"]
    visible += [(part, spec.colour) for part in reversed(petals)]
    for layer, (part, colour) in enumerate(visible):
        deep = DEEPER * (len(visible) - 1 - layer)
        look = Look(_id(made), spec.kind, size, towards(colour_of(colour, "ffffff"), deep))
        yield _layer(look, at, layer, radius, tuple(_ring(part, radius)))
    centre = FLOWERS[spec.kind].centre
    if centre is not None:
        look = Look(_id(made), spec.kind, size, colour_of(spec.centre_colour, "f7dd72"))
        path = circle((0.0, 0.0), centre.wide * radius)
        yield _layer(look, at, len(visible), radius, (shape_of(path, FINE),))


def _id(made: Flowers) -> str:
    return part_of(("flower", made.index))


def _layer(
    look: Look, at: SpacePose, layer: int, radius: float, shapes: tuple[Shape, ...]
) -> Standing:
    """Return a ring of a flower that stands on its edge, the later the nearer to the front."""
    turn = math.radians(at[3])
    x, y = at[0] + layer * THICK * math.sin(turn), at[1] - layer * THICK * math.cos(turn)
    up = tuple(
        tuple(tuple((px, py + radius) for px, py in ring) for ring in shape) for shape in shapes
    )
    return Standing(look, (x, y, at[2], at[3]), up, THICK)


def _ring(part: Part, radius: float) -> Iterator[Shape]:
    """Yield the parts of a ring as they are seen from above, each along its ball."""
    ball = part.form / 2
    base = LEAF_OUT * radius if part.name == "leaf" else 0.0
    (contour,) = shape_of(part.outline, FINE)
    flat = [(x, base + ball * math.sin(up / ball)) for x, up in contour]
    for number in range(part.count):
        turn = math.tau * number / part.count
        right, out = math.cos(turn), math.sin(turn)
        yield (tuple((x * right + y * out, y * right - x * out) for x, y in flat),)
