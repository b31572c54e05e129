"""Scatter: small pieces spread over a side, marked by number."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from fontTools.misc.transform import Transform

from templates_gen.cakefile.cutting import MOST, Scatter
from templates_gen.cakefile.lengths import Length
from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.piece import Value
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT, SMALL
from templates_gen.errors import CakeError, Problem, all_problems
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.guides import keep_clear
from templates_gen.guides.cutting import cutout
from templates_gen.guides.guide import Guide, numbered
from templates_gen.guides.spread import Region, spread
from templates_gen.tiers.rigid import set_at
from templates_gen.tiers.solid import Solid
from templates_gen.units import at_most, counted, in_both

USUAL_DENSITY = 3
"""Pieces to 10 cm by 10 cm where nothing is said."""


@dataclass(frozen=True, slots=True)
class Scattered:
    """Small pieces in their places: the outline of one, y up about (0, 0); places in (u, v).

    ``placed`` are their outlines as they lie on the side, in (u, v).
    """

    spec: Scatter
    outline: Path
    places: tuple[Point, ...]
    placed: tuple[Path, ...]


def scatters(tier: Solid, closed: Sequence[Path]) -> Mapping[int, Scattered]:
    """Return the scatters of a tier by their index in the cake file, each clear of those before.

    They keep clear of ``closed`` areas of the side too. Raises CakeError with every problem.
    """
    taken = [(path, 0.0) for path in closed]
    made: dict[int, Scattered] = {}
    with all_problems() as problems:
        for index, spec in enumerate(tier.spec.scatter):
            with problems.at(*tier.key("scatter"), index):
                made[index] = scattered(tier, spec, taken)
                taken += [(path, spec.apart.mm) for path in made[index].placed]
    return made


def scattered(tier: Solid, spec: Scatter, taken: Sequence[tuple[Path, float]]) -> Scattered:
    """Return pieces spread over a tier, as far from each area that is ``taken`` as it says, mm.

    Raises CakeError, keys within the scatter.
    """
    outline = cutout(spec.shape, spec.file, spec.size.mm)
    box = outline.bounds
    radius = math.hypot(box.width, box.height) / 2 if spec.shape != "circle" else spec.size.mm / 2
    side = tier.covered.side
    top, foot = _band(side.depth, spec, radius)
    per_piece = 1e4 / (spec.density or USUAL_DENSITY)
    area = keep_clear.area(side, top, foot)
    count = spec.count or min(MOST, max(1, round(area / per_piece)))
    kept = [(path, max(apart, spec.apart.mm)) for path, apart in taken]
    is_clear = keep_clear.clear_on(tier.covered, kept, (top, foot), radius)

    def free(place: Point) -> bool:
        return is_clear(place, radius)

    region = Region(side.girth, top + radius, foot - radius, free, side.flat, area)
    least = 2 * radius + spec.apart.mm
    places = spread(region, count, least, spec.shuffle)
    if len(places) < count:
        most = _surely(region, len(places), least, spec.shuffle)
        raise CakeError([_too_many(spec, count, len(places), most)])
    draw = random.Random(spec.shuffle)
    placed = []
    for at in places:
        turn = draw.random() * math.tau if spec.turned else 0.0
        placed.append(set_at(side, outline.transformed(Transform().rotate(turn)), at))
    return Scattered(spec, outline, places, tuple(placed))


def _band(depth: float, spec: Scatter, radius: float) -> tuple[float, float]:
    top = spec.top.mm if spec.top else 0.0
    foot = spec.bottom.mm if spec.bottom else depth
    for key, length in (("top", spec.top), ("bottom", spec.bottom)):
        if isinstance(length, Length) and length.mm > depth + 1e-9:
            found = f"“{length}” on a side {in_both(depth)} deep"
            raise CakeError.at((key,), found, f"up to {at_most(depth)}", "move the pieces up")
    if foot - top < 2 * radius:
        found = f"pieces that take {in_both(2 * radius)} on a band {in_both(foot - top)} tall"
        allowed = "pieces that fit the band, however they are turned"
        raise CakeError.at(("size",), found, allowed, "make them smaller, or the band taller")
    return top, foot


def _surely(region: Region, found: int, least: float, seed: int) -> int:
    """Return how many places are found where so many are wanted: fewer are thrown otherwise."""
    while found and (placed := len(spread(region, found, least, seed))) < found:
        found = placed
    return found


def _too_many(spec: Scatter, count: int, found: int, most: int) -> Problem:
    key = "count" if spec.count else "density" if spec.density else "size"
    if not most:
        advice = "make them smaller, or give them a band clear of all else on the side"
    else:
        advice = f"write count = {most}, or make them smaller"
    return Problem(
        (key,),
        f"{counted(count, 'piece')} of {spec.size.text} {spec.apart.text} apart",
        f"as many as there is room for: {found} were placed",
        advice,
    )


def guides(tier: Solid, scatters: Mapping[int, Scattered]) -> Iterator[Guide]:
    """Yield the outlines of scattered pieces where they belong, each with its number."""
    for index, made in scatters.items():
        boxes = [path.bounds for path in made.placed]
        values: dict[str, Value] = {
            "scatter": made.spec.shape,
            "placed": len(made.places),
            "size_mm": made.spec.size.mm,
            "places_u_mm": tuple(u for u, _ in made.places),
            "places_v_mm": tuple(v for _, v in made.places),
        }
        yield Guide(
            tier.covered,
            Drawing(tuple(Stroke(path, Role.GUIDE) for path in made.placed), _numbers(made)),
            min(box.y0 for box in boxes),
            max(box.y1 for box in boxes),
            numbered(values, "scatter", index),
            note=f"{len(made.places)} × {made.spec.shape}, {in_both(made.spec.size.mm)}",
            name=tier.spec.scatter_name(index),
            key=(*tier.key("scatter"), index),
            is_placed=True,
        )


def _numbers(made: Scattered) -> tuple[Label, ...]:
    """Write numbers in the middles of the pieces, from the back join to the right."""
    size = max(LEAST_TEXT, min(SMALL, made.spec.size.mm / 4))
    drop = size * fonts.CAP_HEIGHT / 2
    return tuple(
        Label(str(number), (u, v + drop), size, Anchor.MIDDLE)
        for number, (u, v) in enumerate(made.places, 1)
    )
