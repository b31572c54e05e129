"""The same design on other tins: what of a cake file grows with a tier, and how."""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from operator import attrgetter
from typing import Any

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.lengths import CROSS, UNITS, Length, LengthError, parse_length
from templates_gen.units import counted, decimal, inch_fraction

Data = dict[str, Any]
PLACES = {"in": 3, "cm": 2, "mm": 1}
"""Decimals of a length that was scaled, by its unit: less off than the 0.1 mm of the paper."""
EXACT = 1e-3
"""Millimetres off a mark of a ruler at which a length in inches is written as a fraction."""


@dataclass(frozen=True, slots=True)
class Growth:
    """How much wider and deeper a tier becomes: 1 for what stays."""

    across: float
    deep: float

    @property
    def least(self) -> float:
        """The smaller of both, for what must fit in either direction."""
        return min(self.across, self.deep)

    @property
    def area(self) -> float:
        """How much larger the side becomes."""
        return self.across * self.deep


@dataclass(frozen=True, slots=True)
class Tin:
    """A size and, where it is not to stay, a depth."""

    size: Length
    depth: Length | None = None


SIZES = "a size for each tier from the bottom up, with its depth or without, such as 12x5, 9x6, 6x4"


def tins_of(text: str, cake: Cake) -> list[Tin]:
    """Read the tins of a line such as ``12x5, 9x6, 6``, one for each tier. Raises LengthError.

    In a cake without a unit, numbers without one are in that of its first size.
    """
    if not cake.tier:
        found, allowed = "a cake of letters alone", "a cake of tiers; for letters change cap_height"
        raise LengthError(found, allowed)
    unit = cake.unit or cake.tier[0].size.tidy.rpartition(" ")[2]
    tins = []
    for each in text.split(","):
        size, *depth = (parse_length(part, unit) for part in CROSS.split(each.strip()))
        if len(depth) > 1:
            raise LengthError(f"“{each.strip()}” is more than a size and a depth", SIZES)
        tins.append(Tin(size, *depth))
    if len(tins) != len(cake.tier):
        found = f"{counted(len(tins), 'size')} for {counted(len(cake.tier), 'tier')}"
        raise LengthError(found, SIZES)
    return tins


Rule = Callable[[Growth], float]


_across, _deep, _least, _area = map(attrgetter, ("across", "deep", "least", "area"))

TIER = ""
LENGTHS: Mapping[str, Mapping[str, Rule]] = {
    TIER: {"short": _across, "corner": _across, "top_size": _across, "shallowest_depth": _deep},
    "opening": {"radius": _least, "height": _deep, "sideways": _across},
    "position": {"right": _across, "back": _across, "overhang": _across},
    "separator": {"spacer": _across},
    "panels": {"height": _deep},
    "drips": {"shortest": _deep, "longest": _deep, "lengths": _deep},
    "design": {"top": _deep, "bottom": _deep, "drop": _deep},
    "lettering": {
        "cap_height": _least,
        "width": _across,
        "curve_height": _least,
        "level": _deep,
        "sideways": _across,
    },
    "scatter": {"top": _deep, "bottom": _deep},
}
"""By table of a tier, its lengths that grow with it; what is not named keeps its true size."""
COUNTS: Mapping[str, Mapping[str, Rule]] = {
    "panels": {"count": _across, "per_face": _across},
    "design": {"count": _across},
    "scatter": {"count": _area},
}
"""The counts that grow, so that what is repeated keeps about its width."""


def resized(data: Mapping[str, Any], tins: Sequence[Tin]) -> Data:
    """Return the data of a cake that can be made, with its tiers in these tins.

    The drum and the boards keep what they are wider by.
    """
    made: Data = copy.deepcopy(dict(data))
    unit = made.get("unit")
    for index, (tier, tin) in enumerate(zip(made["tier"], tins, strict=True)):
        size, depth = _length(tier["size"], unit), _length(tier["depth"], unit)
        deep = tin.depth.mm / depth.mm if tin.depth else 1.0
        more = tin.size.mm - size.mm
        _grow(tier, Growth(tin.size.mm / size.mm, deep), unit)
        _widen(tier, "board", more, unit)
        if index == 0:
            _widen(made.get("drum", {}), "size", more, unit)
        if more:
            tier["size"] = _typed(tin.size, tier["size"], unit)
        if tin.depth and deep != 1:
            tier["depth"] = _typed(tin.depth, tier["depth"], unit)
    return made


def _grow(tier: Data, growth: Growth, unit: str | None) -> None:
    """Scale the lengths and counts of a tier and of its tables."""
    for table, key, rule in _found(tier, LENGTHS):
        if "mould" not in table:  # a mould stays as it is
            table[key] = _scaled(table[key], _rate(table, key, rule, growth), unit)
    for table, key, rule in _found(tier, COUNTS):
        if rule(growth) != 1:
            table[key] = max(1, round(table[key] * rule(growth)))


def _found(tier: Data, rules: Mapping[str, Mapping[str, Rule]]) -> Iterator[tuple[Data, str, Rule]]:
    """Yield each table of a tier with a key in it that grows, and by which rule."""
    for name, keys in rules.items():
        held = tier if name == TIER else tier.get(name, [])
        for table in held if isinstance(held, list) else [held]:
            yield from ((table, key, rule) for key, rule in keys.items() if key in table)


def _rate(table: Data, key: str, rule: Rule, growth: Growth) -> float:
    """Return by how much a length grows: levels on a top go with its width."""
    return growth.across if key == "level" and table.get("on") == "top" else rule(growth)


def _widen(table: Data, key: str, more: float, unit: str | None) -> None:
    """Make a length longer by ``more`` mm."""
    if key in table and more:
        old = _length(table[key], unit)
        table[key] = _scaled(table[key], (old.mm + more) / old.mm, unit)


def _scaled(value: Any, rate: float, unit: str | None) -> Any:  # noqa: ANN401 (any TOML value)
    """Return a length, or a list of them, at another size, written in its unit as it was."""
    if rate == 1:
        return value
    if isinstance(value, list):
        return [_scaled(each, rate, unit) for each in value]
    length = _length(value, unit)
    if length.mm == 0:  # needs no unit, and stays
        return value
    return _written(Length(length.mm * rate, ""), value, unit)


def _length(value: object, unit: str | None) -> Length:
    return parse_length(str(value), unit)


def _typed(length: Length, old: object, unit: str | None) -> Any:  # noqa: ANN401 (any TOML value)
    """Return a length that was typed: as the old one was written, unless it is in another unit."""
    units = (each.tidy.rpartition(" ")[2] for each in (length, _length(old, unit)))
    return _written(length, old, unit) if len({*units}) == 1 else length.text


def _written(length: Length, old: object, unit: str | None) -> Any:  # noqa: ANN401 (any TOML value)
    """Return a length as the old one was written: a bare number, or a text with its unit."""
    name = _length(old, unit).tidy.rpartition(" ")[2]
    mark = _length(f"{inch_fraction(length.mm, typed=True)} in", None)
    if name == "in" and abs(mark.mm - length.mm) < EXACT:
        if isinstance(old, str):
            return mark.text
        length = mark
    number = float(decimal(length.mm / float(UNITS[name]), 5 if length is mark else PLACES[name]))
    number = int(number) if number == int(number) else number
    return f"{number} {name}" if isinstance(old, str) else number
