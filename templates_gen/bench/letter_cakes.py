"""Letter cakes on the bench list: what they are cut from, covered with, and how they are made."""

from __future__ import annotations

import math
from collections.abc import Iterator

from templates_gen.bench.amounts import MM3_PER_ML, grams
from templates_gen.bench.bakes import bakes
from templates_gen.bench.baking import Baking, of_batter
from templates_gen.bench.coats import crumb_coat
from templates_gen.bench.inside import Inner, filling_density, in_bakes, levelled, on_shelf
from templates_gen.bench.section import Data, Row, Section
from templates_gen.bench.servings import SIZES, Servings, servings
from templates_gen.bench.sized import of_surface
from templates_gen.bench.step import Step, chained, in_fives
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.letter_cakes import name_of
from templates_gen.guides.decorated import CakeOfLetters, DecoratedStack
from templates_gen.tiers.layered import ONE_LAYER
from templates_gen.tiers.letter_cakes import BOARD, Made
from templates_gen.units import MM_PER_INCH, counted, in_both

FILLING = "buttercream"
"""What letter cakes are filled with: our choice."""


def letter_cakes(stack: DecoratedStack) -> Iterator[Data]:
    """Yield each letter cake with its sizes in mm, its cake in g, and for how many it is."""
    estimates = stack.estimates
    for cake in stack.letter_cakes:
        made, spec = cake.made, cake.spec
        short, long = sorted((spec.tin_width.mm, spec.tin_length.mm))
        whole = made.area * made.layer_mm * spec.layers / MM3_PER_ML
        baked = made.sheets * spec.layers * short * long * made.layer_mm / MM3_PER_ML
        density = estimates.cake_density.value
        yield {
            "number": cake.index + 1,
            "text": spec.text or "shape",
            "parts": len(made.parts),
            "area_mm2": made.area,
            "girths_mm": [wall.bare for part in made.parts for wall in part.walls],
            "strip_mm": sum(wall.length for part in made.parts for wall in part.walls),
            "strip_height_mm": made.wall_height,
            "fondant_mm": spec.fondant.mm,
            "sheet_cakes": made.sheets * spec.layers,
            "tin_mm": [short, long],
            "layers": spec.layers,
            "layer_mm": made.layer_mm,
            "cake_g": whole * density,
            "cut_off_g": (baked - whole) * density,
            "board_mm": list(made.board),
            "portions": {size: _portions(made, size, estimates) for size in SIZES},
        }


def served(stack: DecoratedStack) -> tuple[Servings, ...]:
    """Return the portions of each tier and each letter cake."""
    return (*servings(stack), *_letters_served(stack))


def _letters_served(stack: DecoratedStack) -> Iterator[Servings]:
    for cake in stack.letter_cakes:
        portions = {size: _portions(cake.made, size, stack.estimates) for size in SIZES}
        name, tall = name_of(cake.index + 1), cake.spec.depth.mm
        yield Servings(name, edible=True, portions=portions, beside=True, tall_mm=tall)


def _inside(cake: CakeOfLetters, estimates: Estimates) -> Inner:
    """Return the inside of a letter cake: the sheet cakes of a layer lie side by side."""
    made, spec = cake.made, cake.spec
    kind = estimates.cake if isinstance(estimates.cake, str) else None
    level, size = levelled(kind, estimates), (spec.tin_width.mm, spec.tin_length.mm)
    high = (made.layer_mm + level,) * (made.sheets * spec.layers)
    fit, area = on_shelf(size, estimates), math.prod(size)
    return Inner(
        kind,
        spec.layers,
        made.layer_mm,
        FILLING,
        spec.filling.mm,
        tuple(in_bakes(high, fit, "sheet cake", area, estimates)),
        level,
        estimates.cake_keeps(kind),
        abreast=made.sheets,
    )


def letters_baked(stack: DecoratedStack) -> Iterator[Baking]:
    """Yield what the sheet cakes of each letter cake take: a tin each, as tiers have it."""
    estimates = stack.estimates
    for cake in stack.letter_cakes:
        made, spec = cake.made, cake.spec
        inside = _inside(cake, estimates)
        between = made.area * spec.filling.mm * inside.fillings / MM3_PER_ML
        filling = between * filling_density(FILLING, estimates) * (1 + estimates.waste / 100)
        raw = spec.tin_width.mm * spec.tin_length.mm * (made.layer_mm + inside.level) * inside.tins
        yield of_batter(name_of(cake.index + 1), inside, raw / MM3_PER_ML, filling, estimates)


def _portions(made: Made, size: str, estimates: Estimates) -> int:
    wide, long = SIZES[size]
    return math.floor(
        made.area / MM_PER_INCH**2 * estimates.portions_used / 100 / (wide * long) + 1e-9
    )


def coating_of(cake: CakeOfLetters) -> float:
    """Return what the coating of a letter cake takes: round its walls and on its top, mL."""
    made, spec = cake.made, cake.spec
    beside = (made.coated_area - made.area) * spec.depth.mm
    return (beside + made.coated_area * spec.coating.mm) / MM3_PER_ML


def mass_of(cake: CakeOfLetters, estimates: Estimates) -> float:
    """Return what a letter cake weighs on its board, g."""
    made, spec = cake.made, cake.spec
    strips = sum(wall.length for part in made.parts for wall in part.walls) * made.wall_height
    fondant = (strips + made.coated_area) * spec.fondant.mm
    board = made.board[0] * made.board[1] * BOARD.mm
    filled = spec.filling.mm * (spec.layers - 1)
    masses = (
        made.area * (spec.depth.mm - filled) * estimates.cake_density.value,
        made.area * filled * filling_density(FILLING, estimates),
        coating_of(cake) * MM3_PER_ML * estimates.coating,
        fondant * estimates.fondant,
        board * estimates.board,
    )
    return sum(masses) / MM3_PER_ML


def section(found: Data) -> Section:
    """Return what is said of letter cakes."""
    rows = tuple(row for each in found["letter_cakes"] for row in _rows(each))
    columns = ("", "what", "how much")
    says = (
        "Letter cakes: the outlines are cut from level sheet cakes as they lie on their sheets; a"
        " portion is of the depth of the cake.",
    )
    return Section("Number and letter cakes", columns, rows, assumptions=says if rows else ())


def _rows(each: Data) -> Iterator[Row]:
    name = f"{name_of(each['number'])}: {each['text']}"
    short, long = each["tin_mm"]
    tins = f"{in_both(short)} × {in_both(long)}, {in_both(each['layer_mm'])} thick"
    yield name, f"{counted(each['sheet_cakes'], 'sheet cake')} to bake", tins
    cake, left = (grams(round(each[key], -1)) for key in ("cake_g", "cut_off_g"))
    yield "", "cake in the letters", f"{cake}; {left} is cut off"
    girths = ", ".join(in_both(girth) for girth in each["girths_mm"])
    yield "", "girth of each wall of cake", girths
    if each["fondant_mm"]:
        strips = f"{in_both(each['strip_mm'])} in all, {in_both(each['strip_height_mm'])} tall"
        yield "", "strips of fondant", strips
    board = " × ".join(in_both(side) for side in each["board_mm"])
    yield "", "board", board
    portions = ", ".join(f"{count} {size}" for size, count in each["portions"].items())
    yield "", "portions", portions


def steps(stack: DecoratedStack) -> Iterator[Step]:
    """Yield the steps that make each letter cake."""
    for cake in stack.letter_cakes:
        yield from chained(_steps(cake, stack.estimates))


def _surface(made: Made, depth: float) -> float:
    """Return the tops and walls of all parts, mm2."""
    return made.area + depth * sum(wall.bare for part in made.parts for wall in part.walls)


def _steps(cake: CakeOfLetters, estimates: Estimates) -> Iterator[Step]:
    """Yield them: the time of a tier of its size for each part."""
    made, spec, name = cake.made, cake.spec, name_of(cake.index + 1)
    parts, inside = len(made.parts), _inside(cake, estimates)
    estimates = of_surface(estimates, _surface(made, spec.depth.mm) / parts)
    minutes = estimates.minutes
    yield from bakes(name, inside, estimates)
    cut = counted(parts * spec.layers, "outline")
    words = f"Level the sheet cakes, cut {cut}, fill them on their board, then chill until firm."
    levels = minutes.level * (inside.tins - 1)  # that of the first is in the minutes of a fill
    takes = in_fives(levels + minutes.fill + minutes.each_layer * parts * spec.layers)
    yield Step("fill", name, words, takes, "fill")
    if spec.coating.mm and inside.kind not in ONE_LAYER:
        yield crumb_coat(name, minutes.crumb_coat * parts)
    if spec.coating.mm:
        words = f"Coat tops and walls {in_both(spec.coating.mm)} thick, the holes too; chill."
        yield Step("coat", name, words, in_fives(minutes.coat * parts), "coat")
    if spec.fondant.mm:
        words = "Lay on the tops, then set a strip round each wall, from the join."
        yield Step("cover", name, words, in_fives(minutes.cover * parts), "cover")
