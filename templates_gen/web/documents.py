"""What the page gives beside the pack: a calendar, papers for a class, a chart for the wall."""

from __future__ import annotations

import base64

from templates_gen.cakefile.papers import paper_for_words
from templates_gen.cakefile.rules import clip
from templates_gen.cakefile.slug import file_name, slug
from templates_gen.terms import Terms
from templates_gen.web.answer import PDF, Answer, json_answer
from templates_gen.web.labels import place
from templates_gen.web.live import plan_of
from templates_gen.web.request import Body, Options, cake_of, content_of, text_of, with_files

CHART_DEPTH = "4 in"
"""The usual depth of tins."""


def calendar_file(body: Body, options: Options) -> Answer:
    """Return the order of work as a calendar file."""
    from templates_gen.bench.calendar import calendar  # its library is seldom needed

    plan = plan_of(body)
    return Answer(calendar(plan), "text/calendar", name=f"{slug(plan.title)}.ics")


def handout_file(body: Body, options: Options) -> Answer:
    """Return the pages that a student can follow, as PDF, on the paper of the cake."""
    from templates_gen.handout.contents import handout
    from templates_gen.handout.page import handout_pdf

    plan = plan_of(body)
    content = handout_pdf(plan, handout(plan), paper_for_words(plan.paper))
    return Answer(content, PDF, name=f"{file_name(slug(plan.title))}-handout.pdf")


def chart_file(body: Body, options: Options) -> Answer:
    """Return what tins of each size take, as PDF, on the paper and in the unit of the cake."""
    from templates_gen.cakefile.lengths import parse_length
    from templates_gen.chart.files import chart_pdf
    from templates_gen.chart.table import DEFAULT_STRIP, chart
    from templates_gen.chart.tins import SHAPES, SIZES, Layers, tins

    cake = cake_of(body)
    layers = Layers(parse_length(CHART_DEPTH))
    unit = "in" if (cake.unit or "in") == "in" else "cm"
    found = chart(list(tins(SIZES, SHAPES, layers)), layers, unit, DEFAULT_STRIP)
    said = found.said(Terms(cake.words))
    return Answer(chart_pdf(said, paper_for_words(cake.paper)), PDF, name="chart.pdf")


def school_class(body: Body, options: Options) -> Answer:
    """Return the pages of each person in a class list, its errors, and all files as a ZIP.

    The PDFs with the pages of all, one for each paper, come beside it.

    Instead of the ``list`` the body may have ``names``, one on each line, and the headings
    ``written`` of what each name is the value of.
    """
    # seldom needed
    from templates_gen.classroom.roster import LINE, RosterSource, read_names, read_roster
    from templates_gen.web.class_list import class_of

    cake_of(body)  # the design itself can be made
    data = with_files(body["cake"], body.get("files"))
    if "names" in body:
        source = RosterSource("names", LINE)
        roster = read_names(text_of(body, "names"), source.name, _texts(body, "written"))
    else:
        source = RosterSource(clip(text_of(body, "name")) or "class.csv")
        roster = read_roster(content_of(source.name, body.get("list")), source.name)
    found = class_of(data, roster, source)
    packed = base64.b64encode(found.content).decode()
    note = f"{roster.note}." if roster.note else ""
    table = {"people": found.people, "problems": found.problems, "note": note}
    return json_answer(table | {"name": found.name, "zip": packed, "prints": found.prints})


def class_list_file(body: Body, options: Options) -> Answer:
    """Return the list of a class to fill in, for the cake, with the columns that were chosen.

    It has a row for each of the ``names``, one on each line, where there are any.
    """
    from templates_gen.classroom.blank_list import ROWS, blank_list

    cake_of(body)
    lines = text_of(body, "names") if "names" in body else ""
    names = [each.strip() for each in lines.splitlines() if each.strip()]
    content = blank_list(body["cake"], _texts(body, "columns"), names or ROWS)
    return Answer(content, "text/csv", name="class.csv")


def _texts(body: Body, key: str) -> tuple[str, ...]:
    """Return the texts of a list in a body, none where it has no list."""
    found = body.get(key)
    return tuple(str(each) for each in found) if isinstance(found, list) else ()


def class_columns(body: Body, options: Options) -> Answer:
    """Return what else may differ in a class, and what may say a name, in the words of the page."""
    from templates_gen.classroom.blank_list import columns

    cake_of(body)
    data = body["cake"]
    found = [
        {"heading": each.heading, "label": place(each.key, data), "value": each.value}
        | {"usual": each.is_usual, "text": each.key[-1] == "text"}
        for each in columns(data)
    ]
    return json_answer(
        {
            "columns": [each for each in found if not each["usual"]],
            "texts": [each for each in found if each["text"]],
        }
    )
