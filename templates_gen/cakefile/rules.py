"""Validators the cake's fields are made of. Each failure carries found, allowed and what to do."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Any

from pydantic import AfterValidator, GetCoreSchemaHandler, PlainValidator, ValidationInfo
from pydantic_core import PydanticCustomError
from pydantic_core.core_schema import CoreSchema, no_info_after_validator_function

from templates_gen.cakefile.lengths import ALLOWED, Length, LengthError, parse_length
from templates_gen.cakefile.papers import parse_papers
from templates_gen.cakefile.spelling import hint
from templates_gen.drawing.fonts import character_name, missing_glyphs
from templates_gen.errors import Key
from templates_gen.units import at_least, at_most, counted, decimal

LONGEST_SHOWN = 60
RULE = "cake_rule"
"""The error type of the rules below, distinct from pydantic's own."""


@dataclass(frozen=True, slots=True)
class Broken:
    """A broken rule: what was found, what is allowed, what to do; an empty advice is the example.

    ``at`` is the key inside the value that breaks it, when that is not the value itself. ``bare``
    is a length that lacks its unit alone.
    """

    found: str
    allowed: str
    advice: str = ""
    at: Key = ()
    bare: str = ""


def require_none(rules: Iterable[Broken]) -> None:
    """Raise one error of all broken rules, if there are any."""
    if found := tuple(rules):
        raise _error(found)


def _error(rules: tuple[Broken, ...]) -> PydanticCustomError:
    return PydanticCustomError(RULE, "a broken rule", {"rules": rules})


def broken(found: str, allowed: str, advice: str = "", at: Key = ()) -> PydanticCustomError:
    """Return the error of one broken rule."""
    return _error((Broken(found, allowed, advice, at),))


def _read_length(value: object, info: ValidationInfo) -> Length:
    if isinstance(value, Length):
        return value
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise broken(quoted(value), ALLOWED)
    unit = (info.context or {}).get("unit")
    try:
        return parse_length(value if isinstance(value, str) else _plain_number(value), unit)
    except LengthError as error:
        rule = Broken(error.found, error.allowed, error.advice, bare=error.bare)
        raise _error((rule,)) from None


def _plain_number(number: float) -> str:
    """Write a bare number without an exponent, cut where it is absurdly long."""
    if isinstance(number, int):
        return str(number) if abs(number) < 10**40 else "a number of over 40 figures"
    return f"{Decimal(repr(number)):f}" if math.isfinite(number) else str(number)


def quoted(value: object) -> str:
    """Show a value of a cake file as it is written there, or say what it is."""
    if isinstance(value, str):
        return f"“{clip(value)}”"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, list | tuple):
        return "a list"
    if isinstance(value, int | float):
        return clip(_plain_number(value))
    return clip(str(value))


def clip(text: str) -> str:
    """Cut a long text short."""
    return text if len(text) <= LONGEST_SHOWN else f"{text[: LONGEST_SHOWN - 1]}…"


class Rule:
    """What a value must be, as an annotation of its field: called with the value as it was read."""

    __slots__ = ()

    def __call__(self, value: Any) -> Any:  # noqa: ANN401 (of the type of the field)
        """Return the value, or raise a broken rule."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Return what reads the field, and then calls the rule."""
        return no_info_after_validator_function(self, handler(source))


@dataclass(frozen=True, slots=True)
class Within(Rule):
    """A length from ``least`` to ``most`` mm."""

    least: float
    most: float

    def __call__(self, length: Length) -> Length:
        """Return the length, or raise when it is out of bounds."""
        if self.least <= length.mm <= self.most:
            return length
        raise broken(length.found, f"{at_least(self.least)} to {at_most(self.most)}")


@dataclass(frozen=True, slots=True)
class Count(Rule):
    """A whole number from ``least`` to ``most``."""

    least: int
    most: int

    def __call__(self, number: int) -> int:
        """Return the number, or raise when it is out of bounds."""
        if self.least <= number <= self.most:
            return number
        raise broken(quoted(number), f"a whole number from {self.least} to {self.most}")


@dataclass(frozen=True, slots=True)
class OneOfNumbers(Rule):
    """A whole number of a few."""

    numbers: tuple[int, ...]

    def __call__(self, number: int) -> int:
        """Return the number, or raise when it is none of them."""
        if number in self.numbers:
            return number
        raise broken(quoted(number), " or ".join(map(str, self.numbers)))


@dataclass(frozen=True, slots=True)
class Number(Rule):
    """A number from ``least`` to ``most``, not a length."""

    least: float
    most: float

    def __call__(self, number: float) -> float:
        """Return the number, or raise when it is out of bounds."""
        if self.least <= number <= self.most:
            return number
        between = f"{decimal(self.least, 6)} to {decimal(self.most)}"
        raise broken(quoted(number), f"a number from {between}")


@dataclass(frozen=True, slots=True)
class OneOf(Rule):
    """A word of a table."""

    table: Collection[str]

    def __call__(self, word: str) -> str:
        """Return the word, or raise with the one that was meant."""
        if word in self.table:
            return word
        raise broken(quoted(word), ", ".join(self.table), hint(word, self.table))


def unprintable(words: str) -> Broken | None:
    """Return why a text cannot be printed on paper or in a message, if it cannot."""
    hidden = [char for char in words if not char.isprintable()]
    if hidden:
        return Broken(
            f"the character {character_name(hidden[0])}", "one line of letters, figures and signs"
        )
    missing = missing_glyphs(words)
    if not missing:
        return None
    return Broken(
        f"the character {character_name(missing[0])} in {quoted(words)}",
        "characters of the Latin, Greek and Cyrillic scripts and common signs",
        f"write it without {', '.join(f'“{char}”' for char in missing)}:"
        " the font that prints the pack has no such character",
    )


def _printable(text: str) -> str:
    """Return a text that can be printed, blanks trimmed."""
    words = text.replace("\u00a0", " ").strip()
    if rule := unprintable(words):
        raise _error((rule,))
    return words


@dataclass(frozen=True, slots=True)
class Characters(Rule):
    """A text of ``least`` to ``most`` characters."""

    least: int
    most: int

    def __call__(self, text: str) -> str:
        """Return the text, or raise when it is too short or too long."""
        if self.least <= len(text) <= self.most:
            return text
        advice = "shorten it" if text else "write a letter or more, or leave it out"
        raise broken(
            counted(len(text), "character"), f"{self.least} to {self.most} characters", advice
        )


def instead_of(other: str) -> AfterValidator:
    """Return what refuses a key beside another that says the same."""

    def check(value: object, info: ValidationInfo) -> object:
        if info.data.get(other) is not None:
            both = f"{other} and {info.field_name}"
            raise broken(both, f"one of {both}", "leave one of them out")
        return value

    return AfterValidator(check)


def below_the_top(bottom: Length, info: ValidationInfo) -> Length:
    """Return the bottom of a band of a side, or raise when it is not below the band's top."""
    top = info.data.get("top")
    if top is not None and bottom.mm <= top.mm:
        raise broken(
            f"“{bottom}”, not below the top “{top}”",
            "both are measured down from the rim: bottom is the longer",
            "swap top and bottom",
        )
    return bottom


def _paper(text: str) -> str:
    try:
        parse_papers([text])
    except LengthError as error:
        raise broken(error.found, error.allowed, error.advice) from None
    return text


AnyLength = Annotated[Length, PlainValidator(_read_length)]
Name = Annotated[str, AfterValidator(_printable), Characters(1, 60)]
Note = Annotated[str, AfterValidator(_printable), Characters(0, 400)]
PaperName = Annotated[str, AfterValidator(_paper)]
