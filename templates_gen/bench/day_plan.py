"""The order of work by day, as a page of HTML to print, with a box to tick for each step."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from html import escape
from itertools import groupby
from typing import Any

from templates_gen.terms import DAYS, MONTHS, UK_TERMS, Terms
from templates_gen.units import counted, hours, waiting

Data = dict[str, Any]
STYLE = (
    "@page{margin:12mm}body{font:9pt/1.25 sans-serif;columns:2;column-gap:8mm}"
    "h1{font-size:14pt;column-span:all;margin:0 0 2mm}"
    "section{break-inside:avoid-column;margin-bottom:3mm}"
    "h2{font-size:11pt;margin:0;border-bottom:1px solid}ul{list-style:none;margin:0;padding:0}"
    "li{break-inside:avoid;margin:.8mm 0 0 5mm;text-indent:-5mm}"
)
BOX = "☐"


@dataclass(frozen=True, slots=True)
class Step:
    """A step of a day: its hour, or nothing where no day is set, and what to do."""

    hour: str
    what: str
    caution: str


@dataclass(frozen=True, slots=True)
class Day:
    """A day of the plan: what it is called, and its steps in order."""

    name: str
    steps: tuple[Step, ...]


def days(found: Data, terms: Terms = UK_TERMS) -> tuple[Day, ...]:
    """Return the plan by day of a bench list as data."""
    return tuple(_days(found["times"], terms.text))


def as_html(found: Data, terms: Terms = UK_TERMS) -> str:
    """Return the plan by day of a bench list as data: a page that prints on either paper."""
    title = escape(found["title"])
    sections = "\n".join(map(_section, days(found, terms)))
    notes = "".join(f"<p>{escape(terms.text(note))}</p>" for note in found["time_warnings"])
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{title}</title>'
        f"<style>{STYLE}</style></head>\n<body><h1>{title}</h1>\n{notes}{sections}\n</body></html>\n"
    )


def _section(day: Day) -> str:
    rows = "\n".join(f"<li>{BOX} {_line(step)}</li>" for step in day.steps)
    return f"<section><h2>{day.name}</h2><ul>\n{rows}\n</ul></section>"


def _line(step: Step) -> str:
    hour = f"<b>{step.hour}</b> " if step.hour else ""
    caution = f" <em>{escape(step.caution)}</em>" if step.caution else ""
    return f"{hour}{escape(step.what)}{caution}"


def _days(times: Sequence[Data], say: Callable[[str], str]) -> Iterator[Day]:
    for before, steps in groupby(times, lambda each: each["days_before"]):
        of_day = list(steps)
        yield Day(say(_name(of_day[0], before)), tuple(_step(each, say) for each in of_day))


def _name(first: Data, days_before: int) -> str:
    before = f"{counted(days_before, 'day')} before" if days_before else "the day"
    if not first["start"]:
        return before.capitalize()
    when = datetime.fromisoformat(first["start"])
    return f"{DAYS[when.weekday()]} {when.day} {MONTHS[when.month - 1]} {when.year}, {before}"


def _step(each: Data, say: Callable[[str], str]) -> Step:
    """Return one step: its hour, what for, what to do, how long it waits."""
    hour = f"{datetime.fromisoformat(each['start']):%H:%M}" if each["start"] else ""
    wait = f" Wait {waiting(each['wait_h'])}." if each["wait_h"] else ""
    what = f"{each['tier']}, {each['step']}: {each['what']} {hours(each['minutes'] / 60)}.{wait}"
    return Step(say(hour), say(what + _latest(each)), say(each["caution"] or ""))


def _latest(each: Data) -> str:
    if not each["latest"] or each["latest"] == each["start"]:
        return ""
    when = datetime.fromisoformat(each["latest"])
    return f" Start by {DAYS[when.weekday()]} {when:%H:%M}."
