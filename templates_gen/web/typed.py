"""What the page types for the decorator: a stack from one line, a shape, another unit of length."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from templates_gen.cakefile.bare_numbers import is_bare
from templates_gen.cakefile.keys import KeyInfo, changed
from templates_gen.cakefile.lengths import CROSS, UNIT_OF, UNITS, LengthError, parse_length
from templates_gen.cakefile.rules import clip
from templates_gen.cakefile.shape_keys import BALL, shape_keys
from templates_gen.cakefile.spelling import POLYGONS, hint
from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import CakeError, FileError, Problem
from templates_gen.units import decimal, inch_fraction
from templates_gen.web.request import MOST_TIERS

Data = dict[str, Any]
UNIT = "in"
"""What bare numbers are in where a cake does not say it."""
CALLED = {
    **{"circle": "round", "circular": "round", "rectangular": "rectangle", "sphere": BALL},
    **{"rd": "round", "sq": "square", "rect": "rectangle", "hex": "hexagon"},
}
"""Other words for shapes."""
STACK = (
    "sizes and depths from the bottom up with a comma between tiers, such as 10x5, 8x5, 6x4,"
    " or sizes alone: 10, 8, 6"
)
_ENDS = re.compile(r"[;\n]|,(?=\s)")
_COMMA = re.compile(rf",(?=\d+{CROSS.pattern})", re.IGNORECASE)
"""One before a size: it ends a tier, unless it is that of a decimal."""
MOST_DECIMALS = 2
"""A line of so many commas and no blank after any is a list, and they are no decimal commas."""
_BLANK_ENDS = re.compile(
    rf"({CROSS.pattern}\d[^\s,;]*)\s+(?=\d+(?:\.\d+|\s+\d+/\d+)?(?:[x×*]|\s*by\b))", re.IGNORECASE
)
"""A blank between two tiers that are written without one, such as ``10x5 8x5``."""
_BLANK_SIZES = re.compile(r"\d+(?:\.\d+)?[\"″”]?(?:\s+\d+(?:\.\d+)?[\"″”]?)+")
"""Sizes with nothing but blanks between; none has a fraction, so a blank can only end one."""
_LISTED = re.compile(r"[;\n]|,(?=\s)|\band\b", re.IGNORECASE)
_BLANK = " \t\n,;"
"""What may stand before and after all tiers of a line, and says nothing."""
_UNIT = re.compile(r"[a-z\"″”]+\.?$", re.IGNORECASE)
USUAL_DEPTHS = {"in": "4", "cm": "10", "mm": "100"}
"""How deep a tier is of which no depth is typed: common practice, no source."""
FIRST_SIZES = {"in": "8", "cm": "20", "mm": "200"}
"""Of a first tier: common practice, no source."""
SMALLER = {"in": 2, "cm": 5, "mm": 50}
"""How much smaller a tier is than the one below: common practice, no source."""
NEEDED = {"sides": 6, "lobes": 6}
"""Counts for a shape that has to have one: what most are sold with, common practice, no source."""
BEAN = "M0 30 C 0 0 40 0 45 20 C 50 0 90 0 90 30 C 95 60 0 60 0 30 Z"
"""An outline to begin with."""
SHORT = Fraction(3, 4)
"""The short side of an oval or rectangle to begin with, over its long one."""


def stack_of(line: str, unit: str) -> list[Data]:
    """Return the tiers of a line such as ``10x5, 8x5 square``, from the bottom up.

    A tier without a depth is as deep as is usual. Raises CakeError with what cannot be read, and
    FileError for a unit that is none.
    """
    _refuse_unknown(unit)
    line = _BLANK_ENDS.sub(r"\1; ", line.strip(_BLANK))
    if CROSS.search(line):
        tiers = [_tier_of(_with_depth(part, unit), part, unit) for part in _parts(line)]
    else:
        tiers = [_tier_of(part, typed, unit) for typed, part in _with_depths(line, unit)]
    if not 1 <= len(tiers) <= MOST_TIERS:
        problem = Problem((), f"{len(tiers)} tiers", f"1 to {MOST_TIERS}: {STACK}", "type them")
        raise CakeError([problem])
    across = [parse_length(tier["size"], unit).mm for tier in tiers]
    tiers = tiers[::-1] if across == sorted(across) else tiers
    return [{"name": name} | tier for name, tier in zip(_names(len(tiers)), tiers, strict=True)]


def _refuse_unknown(unit: str) -> None:
    if unit not in UNITS:
        raise FileError(f"there is no unit “{unit[:40]}”")


def unit_of(tiers: list[Data]) -> str:
    """Return the unit that is typed with every size, or nothing where they differ or have none."""
    units = {UNIT_OF.get(_unit_in(tier["size"]).lower(), "") for tier in tiers}
    return units.pop() if len(units) == 1 else ""


def _names(count: int) -> tuple[str, ...]:
    """Return what decorators call the tiers of a cake, from the bottom up."""
    if count == 1:
        return ("cake",)
    between = ("middle",) if count == 3 else tuple(f"tier {n}" for n in range(2, count))
    return ("bottom", *between, "top")


def _parts(line: str) -> Iterator[str]:
    """Yield the text of each tier. A comma ends one, unless it is that of a decimal."""
    for part in _ENDS.split(line):
        held = ""
        for piece in _COMMA.split(part):
            held = f"{held},{piece}" if held else piece
            if CROSS.search(held):
                yield held.strip()
                held = ""
        if held.strip():
            yield held.strip()


def _with_depths(line: str, unit: str) -> Iterator[tuple[str, str]]:
    """Yield each tier of sizes alone, such as ``10, 8, 6 in``: as typed, and with the usual depth.

    Where only the last has a unit it is that of all.
    """
    sizes = [part.strip() for part in _sizes(line) if part.strip()]
    for size in sizes:
        yield size, _with_depth(size, unit, _unit_in(sizes[-1]))


def _with_depth(part: str, unit: str, given: str = "") -> str:
    """Return a tier with the usual depth where it has none; a unit is its own, else as given."""
    if CROSS.search(part):
        return part
    given = _unit_in(part) or given
    depth = USUAL_DEPTHS[UNIT_OF.get(given.lower(), unit) if given else unit]
    return f"{part} x {depth}{' ' if given.isalpha() else ''}{given}"


def _sizes(line: str) -> list[str]:
    if _BLANK_SIZES.fullmatch(line):
        return line.split()
    has_decimals = _LISTED.search(line) or line.count(",") < MOST_DECIMALS
    return _LISTED.split(line) if has_decimals else line.split(",")


def _unit_in(size: str) -> str:
    """Return the unit that is written in a size with a shape."""
    plain = " ".join(word for word in size.split() if not _shape_of(word))
    found = _UNIT.search(plain) if any(char.isdigit() for char in plain) else None
    return found[0] if found and found[0].lower() in UNIT_OF else ""


def _tier_of(part: str, typed: str, unit: str) -> Data:
    """Return the tier of a size and a depth. Raises CakeError with what was ``typed`` of it."""
    words = [word for word in part.split() if _shape_of(word)]
    shape = _shape_of(words[0]) if words else {}
    sizes = CROSS.split(" ".join(word for word in part.split() if word not in words))
    if found := _UNIT.search(sizes[-1]):
        sizes = [each if _UNIT.search(each) else f"{each} {found[0]}" for each in sizes]
    most = 3 if "short" in shape_keys(shape.get("shape", "round")) else 2
    try:
        if not 2 <= len(sizes) <= most:
            raise LengthError(typed)
        for each in sizes:
            if _is_improper(each):  # ``20/15`` is two tiers, and no length of 4/3
                raise LengthError(typed)
            parse_length(each, unit)
    except LengthError:
        is_short_of_shape = len(sizes) == 3 and not shape
        raise CakeError([_not_read(part, typed, is_short_of_shape=is_short_of_shape)]) from None
    size, *short, depth = (each.strip() for each in sizes)
    tier: Data = {"size": size, "depth": depth} | shape
    if short:
        tier["short"] = short[0]
    return tier | shaped(tier, tier["shape"], unit) if shape else tier


def _not_read(part: str, typed: str, *, is_short_of_shape: bool) -> Problem:
    """Return the problem of a tier, with what was ``typed`` for it."""
    if other := _unknown_word(typed):
        shapes = (*SHAPES, BALL, *POLYGONS)
        known = f"in, cm or mm, or a shape ({', '.join(shapes)}), such as 10x5 square"
        wrong = f"“{clip(other)}” is neither a unit nor a shape"
        return Problem((), wrong, known, hint(other, shapes) or f"write {known}")
    if is_short_of_shape:
        known = "size and depth, such as 10x5; of an oval or a rectangle its short side between"
        wrong = f"“{clip(typed)}” has three lengths and no shape"
        return Problem((), wrong, known, f"write “{clip(typed)} rectangle”, or leave one out")
    wrong = f"“{clip(typed)}” is not a size{'' if part != typed else ' and a depth'}"
    return Problem((), wrong, STACK, f"write {STACK}")


def _shape_of(word: str) -> Data:
    """Return what a word says of the shape of a tier, nothing where it is no shape."""
    plain = word.lower().rstrip(".")
    shape = CALLED.get(plain, plain)
    if shape in POLYGONS:
        return {"shape": "polygon", "sides": POLYGONS[shape]}
    return {"shape": shape} if shape in (*SHAPES, BALL) else {}


def _is_improper(text: str) -> bool:
    """Tell whether a length is a fraction of 1 or more, which nobody types for a tin."""
    found = re.match(r"(\d+)\s*/\s*(\d+)", text)
    return found is not None and int(found[1]) >= int(found[2])


def _unknown_word(typed: str) -> str:
    """Return a word beside the numbers of a tier that is neither a unit nor a shape."""
    if not any(char.isdigit() for char in typed):
        return ""
    words = re.findall(r"[^\W\d_]{2,}", CROSS.sub(" ", typed))
    return next((word for word in words if word.lower() not in UNIT_OF and not _shape_of(word)), "")


def shaped(tier: Data, shape: str, unit: str) -> Data:
    """Return what a tier of a shape has to have beside size and depth, as far as it lacks it."""
    if shape not in (*SHAPES, BALL):
        raise FileError(f"there is no shape “{shape[:40]}”")
    _refuse_unknown(unit)
    found: Data = {}
    for key, is_needed in shape_keys(shape).items():
        if is_needed and key != "size" and key not in tier:
            found[key] = NEEDED.get(key) or (BEAN if key == "outline" else _shorter(tier, unit))
    return found


def _shorter(tier: Data, unit: str) -> str:
    """Return the short side of a tier to begin with, in the unit of its size."""
    written = str(tier.get("size", ""))
    try:
        mm = parse_length(written, unit).mm
    except LengthError:
        return written
    own = UNIT_OF.get(_unit_in(written).lower(), "")
    short = _in_unit(Fraction(mm) * SHORT, own or unit)
    return f"{short} {own}".strip() if short else f"{decimal(mm * float(SHORT), 0)} mm"


def converted(data: Data, unit: str) -> Data:
    """Return a cake whose lengths without a unit are in another one: the same cake.

    A length that the other unit cannot say exactly keeps its own, written beside it.
    """
    _refuse_unknown(unit)
    before = data.get("unit")

    def convert(key: KeyInfo, value: object) -> object:
        return _in_other(value, before, unit) if key.kind == "length" else value

    return {**(changed(data, convert) if before in UNITS else data), "unit": unit}


def _in_other(value: object, before: Any, unit: str) -> object:  # noqa: ANN401 (a unit)
    if not is_bare(value):
        return value
    written = str(value).strip()
    try:
        length = parse_length(written, before)
    except LengthError:
        return value
    is_decimal = re.fullmatch(r"-?\d+(\.\d+)?", written)
    exact = Fraction(written) * UNITS[before] if is_decimal else Fraction(length.mm)
    return _in_unit(exact, unit) or f"{written} {before}"


def _in_unit(mm: Fraction, unit: str) -> str:
    """Write a length in a unit as a bare number, or nothing where it is none of few figures."""
    value = mm / UNITS[unit]
    typed = inch_fraction(float(mm), typed=True)
    if unit == "in" and parse_length(typed, unit).mm == float(mm):
        return typed
    places = value * 10000
    if abs(places - round(places)) > Fraction(1, 10**6):
        return ""
    return decimal(round(places) / 10000, 4)
