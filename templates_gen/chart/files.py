"""The chart as files: a page to hang up, CSV, or a page for a browser."""

from __future__ import annotations

import html
from collections.abc import Callable

from templates_gen.cakefile.papers import Paper
from templates_gen.chart.table import Chart
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.flow import Block, stacked, table, text
from templates_gen.drawing.roles import Role
from templates_gen.errors import FileError
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line
from templates_gen.spreadsheet import csv_bytes
from templates_gen.units import NO_BREAK
from templates_gen.writers.picture import pages_pdf

MARGIN = 12.0
LEAST = 2.9
"""Nothing is smaller than 8 pt, in mm."""
SIZES = (4.2, 3.9, 3.6, 3.3, 3.1, LEAST)
"""Em sizes of the table, mm: the largest that fits on one page is used."""
ROW_GAP = 1.6
"""Between rows, with a rule, mm."""


def chart_pdf(chart: Chart, paper: Paper) -> bytes:
    """Return the chart as one page across the paper."""
    width, height = paper.height, paper.width
    space = Box(MARGIN, MARGIN, width - MARGIN, height - MARGIN)
    blocks = (_block(chart, space.width, size) for size in SIZES)
    block = next((each for each in blocks if each.height <= space.height), None)
    if block is None:
        raise FileError(
            f"the chart has no room on one page of {paper.name}: choose fewer sizes or larger paper"
        )
    page = block.drawing.moved(space.x0, space.y1)
    return pages_pdf(chart.title, [page], width, height)


def _block(chart: Chart, width: float, size: float) -> Block:
    # a tin is named in one line
    cells = [(tin.replace(" ", NO_BREAK), *others) for tin, *others in chart.rows]
    rows = [_ruled(block, width) for block in table([chart.headings, *cells], width, size)]
    notes = [text(note, width, max(size * 0.85, LEAST)) for note in chart.notes]
    head = [text(chart.title, width, 8.0, bold=True), text(chart.layers, width, size)]
    return stacked([*head, *rows, *notes])


def _ruled(block: Block, width: float) -> Block:
    """Return a row with a rule below it."""
    y = -block.height - ROW_GAP / 2
    rule = Stroke(line((0, y), (width, y)), Role.NOTE)
    return Block(block.height + ROW_GAP, block.drawing + Drawing((rule,)))


def chart_csv(chart: Chart, paper: Paper) -> bytes:
    """Return the chart as CSV for spreadsheets."""
    return csv_bytes([chart.headings, *chart.rows])


def chart_html(chart: Chart, paper: Paper) -> bytes:
    """Return the chart as a page that a browser shows and prints."""
    head = "".join(f'<th scope="col">{html.escape(each)}</th>' for each in chart.headings)
    rows = "".join(
        f'<tr><th scope="row">{html.escape(first)}</th>'
        + "".join(f"<td>{html.escape(each)}</td>" for each in rest)
        + "</tr>\n"
        for first, *rest in chart.rows
    )
    notes = "".join(f"<p>{html.escape(note)}</p>\n" for note in chart.notes)
    title = html.escape(chart.title)
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{title}</title>\n'
        f"<style>{STYLE}</style></head>\n<body><h1>{title}</h1>\n<p>{html.escape(chart.layers)}</p>\n<table><thead><tr>{head}</tr>"
        f"</thead>\n<tbody>\n{rows}</tbody></table>\n{notes}</body></html>\n"
    ).encode()


STYLE = (
    "body{font:16px/1.4 sans-serif;margin:2em}table{border-collapse:collapse}"
    "th,td{border-bottom:1px solid #777;padding:.4em .6em;text-align:left;vertical-align:top}"
    "@page{size:landscape}"
)
CHARTS: dict[str, Callable[[Chart, Paper], bytes]] = {
    ".pdf": chart_pdf,
    ".csv": chart_csv,
    ".html": chart_html,
}
"""By the ending of a file, what writes it."""
