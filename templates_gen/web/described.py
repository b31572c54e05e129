"""What the scripts of the page need to know of cake files."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import asdict
from typing import Any

from templates_gen.cakefile.lengths import BARE, UNITS
from templates_gen.cakefile.reading import LARGEST_FILE as LARGEST_CAKE
from templates_gen.cakefile.resizing import PLACES
from templates_gen.cakefile.work import FIRST_YEAR, LAST_YEAR
from templates_gen.drawing.colour_words import WORDS
from templates_gen.terms import PLACES as WORDS_OF
from templates_gen.terms import Terms
from templates_gen.web.answer import LARGEST_FILE
from templates_gen.web.choices import choices
from templates_gen.web.form import Field, as_data, form
from templates_gen.web.labels import ONE_OF
from templates_gen.web.typed import FIRST_SIZES, SMALLER, USUAL_DEPTHS


def _in_units(value: Callable[[str], Any]) -> dict[str, Any]:
    return {unit: value(unit) for unit in UNITS}


def _unit(unit: str) -> dict[str, object]:
    """Return what the scripts write in a unit: lengths that are dragged, and a tier to go on top.

    Without a tier below it is the ``first``; else it is ``smaller`` by so much.
    """
    first = {"size": FIRST_SIZES[unit], "depth": USUAL_DEPTHS[unit]}
    mm = float(UNITS[unit])
    return {"mm": mm, "decimals": PLACES[unit], "first": first, "smaller": SMALLER[unit]}


def _texts(fields: Iterable[Field]) -> Iterator[str]:
    """Yield what is read at fields."""
    for each in fields:
        yield from (each.label, each.help, *each.names)
        yield from _texts(each.fields)


def _said(place: str) -> dict[str, str]:
    """Return those texts of fields that a place has in other words, by the UK's."""
    spelled = Terms(place).spelled
    return {text: said for text in _texts(form()) if (said := spelled(text)) != text}


def described() -> dict[str, object]:
    """Return what the scripts need to know of cake files."""
    return {
        "fields": as_data(form()),
        "said": {place: _said(place) for place in WORDS_OF},
        "choices": [asdict(each) | {"values": _in_units(each.values_in)} for each in choices()],
        "colours": WORDS,
        "bare": BARE,
        "largest_file": LARGEST_FILE,
        "largest_cake": LARGEST_CAKE,
        "units": _in_units(_unit),
        "years": [FIRST_YEAR, LAST_YEAR],
        "one_of": ONE_OF,
    }
