"""The order of work by day, as a page of HTML to print, with a box to tick for each step."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from html import escape
from itertools import groupby
from typing import Any

from templates_gen.units import counted, decimal

Data = dict[str, Any]
DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
STYLE = (
    "@page{margin:12mm}body{font:9pt/1.25 sans-serif;columns:2;column-gap:8mm}"
    "h1{font-size:14pt;column-span:all;margin:0 0 2mm}"
    "section{break-inside:avoid-column;margin-bottom:3mm}"
    "h2{font-size:11pt;margin:0;border-bottom:1px solid}ul{list-style:none;margin:0;padding:0}"
    "li{break-inside:avoid;margin:.8mm 0 0 5mm;text-indent:-5mm}"
)
BOX = "☐"


def as_html(found: Data) -> str:
    """Return the plan by day of a bench list as data: a page that prints on either paper."""
    title = escape(found["title"])
    sections = "\n".join(_sections(found["times"]))
    notes = "".join(f"<p>{escape(note)}</p>" for note in found["doubts"])
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{title}</title>'
        f"<style>{STYLE}</style></head>\n<body><h1>{title}</h1>\n{notes}{sections}\n</body></html>\n"
    )


def _sections(times: Sequence[Data]) -> Iterator[str]:
    for days, steps in groupby(times, lambda each: each["days_before"]):
        of_day = list(steps)
        rows = "\n".join(f"<li>{BOX} {_line(each)}</li>" for each in of_day)
        yield f"<section><h2>{_day(of_day[0], days)}</h2><ul>\n{rows}\n</ul></section>"


def _day(first: Data, days: int) -> str:
    before = f"{counted(days, 'day')} before" if days else "the day"
    if not first["start"]:
        return before.capitalize()
    when = datetime.fromisoformat(first["start"])
    return f"{DAYS[when.weekday()]} {when:%Y-%m-%d}, {before}"


def _line(each: Data) -> str:
    """Write one step: its hour, what for, what to do, how long it waits."""
    hour = f"<b>{datetime.fromisoformat(each['start']):%H:%M}</b> " if each["start"] else ""
    wait = f" Wait {decimal(each['wait_h'], 1)} h." if each["wait_h"] else ""
    caution = f" <em>{escape(each['caution'])}</em>" if each["caution"] else ""
    what = escape(f"{each['tier']}, {each['step']}: {each['what']}")
    return f"{hour}{what} {each['minutes']} min.{wait}{caution}"
