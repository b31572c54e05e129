"""The jobs that the page can request: one function and one line in the table each."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from templates_gen.bench.bench_list import bench
from templates_gen.bench.changes import changes
from templates_gen.cakefile.editing import plain, saved
from templates_gen.cakefile.lengths import LengthError
from templates_gen.cakefile.papers import parse_papers
from templates_gen.cakefile.printer_store import printer_named
from templates_gen.cakefile.resizing import resized, tins_of
from templates_gen.cakefile.rules import clip
from templates_gen.cakefile.slug import slug
from templates_gen.cover.pack import make_packs
from templates_gen.drawing.piece import Piece
from templates_gen.errors import CakeError, FileError, Problem, StageError, TemplatesGenError
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.templates import chosen, templates
from templates_gen.sheets.pack import Pack
from templates_gen.sheets.pack_mark import pack_mark
from templates_gen.units import capital
from templates_gen.web.answer import PDF, Answer, json_answer, refusal
from templates_gen.web.choices import pictures
from templates_gen.web.described import described
from templates_gen.web.documents import (
    calendar_file,
    chart_file,
    class_columns,
    class_list_file,
    handout_file,
    school_class,
)
from templates_gen.web.files import opened
from templates_gen.web.labels import known_keys, place, worded
from templates_gen.web.lists import lists
from templates_gen.web.live import MEMO, answer, in_space, plan_of, seen
from templates_gen.web.request import (
    Body,
    Options,
    RequestError,
    body_of,
    cake_of,
    degrees,
    table_of,
    text_of,
)
from templates_gen.web.sample_picture import front_svg
from templates_gen.web.summary import summary
from templates_gen.web.typed import UNIT, converted, shaped, stack_of, unit_of
from templates_gen.writers.svg import write_svg
from templates_gen.writers.svg_sheet import write_sheet_svg

LONGEST_LINE = 500
"""Characters of a stack in one line."""
DXF = "image/vnd.dxf"
SVG, TOML = "image/svg+xml", "application/toml"
MOST_THUMBNAILS = 60
"""Sheets that are shown; the count tells of all."""


def run(job: str, content: bytes, options: Options) -> Answer:
    """Do a job. What cannot be done is said in the answer, in the words of the command line.

    Raises StageError, and whatever else is a fault of the program.
    """
    body: Body = {}
    try:
        body = body_of(content)
        return JOBS[job](body, options)
    except RequestError as error:
        return refusal(str(error), 400)
    except CakeError as error:
        return refusal(str(error), 422, _in_words(error.problems, body.get("cake")))
    except StageError:
        raise
    except TemplatesGenError as error:
        return refusal(str(error), 422)


def _in_words(problems: tuple[Problem, ...], data: object) -> list[dict[str, Any]]:
    """Return problems in the words of the page; ``data`` is the cake, with the names of tiers."""
    unit = str(data.get("unit")) if isinstance(data, dict) else ""
    return [
        {
            "key": list(problem.key),
            "place": place(problem.key, data),
            "found": worded(problem.found, problem.key),
            "allowed": worded(problem.allowed, problem.key),
            "advice": worded(problem.advice, problem.key, unit),
            "keys": known_keys(problem.key),
        }
        for problem in problems
    ]


def show(body: Body, options: Options) -> Answer:
    """Return figures, pieces, warnings and cautions of a cake.

    Pieces whose digests the body has under ``known`` are not sent again.
    """
    return json_answer(answer(cake_of(body), _known(body)))


def _known(body: Body) -> set[str]:
    """Return the digests of what the page has already."""
    known = body.get("known")
    return {each for each in known if isinstance(each, str)} if isinstance(known, list) else set()


def front(body: Body, options: Options) -> Answer:
    """Return the elevation of a cake, seen from the option ``turn`` in degrees.

    With the option ``coarse`` what would take long is left out.
    """
    turn = degrees(options.get("turn", "0"))
    return json_answer(seen(cake_of(body), turn, coarse="coarse" in options))


def space(body: Body, options: Options) -> Answer:
    """Return the cake in space. With the option ``coarse`` what would take long is left out.

    Bodies whose digests the body has under ``known`` are not sent again.
    """
    return Answer(in_space(cake_of(body), _known(body), coarse="coarse" in options).encode())


def bench_list(body: Body, options: Options) -> Answer:
    """Return the lists to work by, as words, and the figures that are always in view."""
    cake = cake_of(body)
    plan = make_plan(cake, MEMO)
    found = bench(plan)
    return json_answer(
        {
            "title": plan.title,
            "lists": lists(found, plan.terms),
            "summary": summary(plan, found, cake.unit or "in"),
        }
    )


def sheets(body: Body, options: Options) -> Answer:
    """Return how many sheets a pack has, and the first of them as SVG; and what it could have.

    The options ``tiers`` and ``kinds`` choose some of its templates.
    """
    plan = plan_of(body)
    pack = _packs(plan, options)[0]
    drawn = [write_sheet_svg(pack, sheet).decode() for sheet in pack.sheets[:MOST_THUMBNAILS]]
    printed = [each for each in templates(plan) if each.printed]
    return json_answer(
        {
            "paper": pack.paper.title,
            "count": len(pack.sheets),
            "sheets": drawn,
            "tiers": list(dict.fromkeys(each.tier for each in printed)),
            "kinds": list(dict.fromkeys(each.kind for each in printed)),
        }
    )


def pack(body: Body, options: Options) -> Answer:
    """Return the pack as PDF, on the option ``paper``, of the tiers and kinds chosen.

    Where that names several papers, the option ``page`` says which of them this is for.
    """
    packs = {made.paper.name: made for made in _packs(plan_of(body), options)}
    page = options.get("page") or next(iter(packs))
    if page not in packs:
        raise FileError(f"“{clip(page)}” is none of the papers {', '.join(packs)}")
    made = packs[page]
    from templates_gen.writers.pdf import write_pdf  # the page is there before its library

    part = "-part" if options.get("tiers") or options.get("kinds") else ""
    return Answer(write_pdf(made), PDF, name=f"{made.name}{part}.pdf")


def _packs(plan: Plan, options: Options) -> list[Pack]:
    """Return the packs of a paper as a cake file names it, of what is chosen. Raises CakeError."""
    tiers, kinds = (
        [word for word in options.get(key, "").split("|") if word] for key in ("tiers", "kinds")
    )
    pieces = None
    if tiers or kinds:
        pieces = chosen(templates(plan), tiers, kinds)
        if not pieces:
            raise FileError("nothing of that is printed: choose other tiers or kinds")
    try:
        paper = options.get("paper") or plan.paper
        return make_packs(plan, [paper], pieces, printer_named(plan.printer))
    except LengthError as error:
        problem = Problem(("paper",), error.found, error.allowed, error.advice or "choose one")
        raise CakeError([problem]) from None


def piece(body: Body, options: Options) -> Answer:
    """Return one piece, as SVG, as DXF or, on sheets of its own, as PDF."""
    plan = plan_of(body)
    found = _piece(plan.pieces, options.get("id", ""))
    name = found.id.replace("/", "-")
    if (form := options.get("form")) != "pdf":
        mark = pack_mark(plan.digest, plan.pieces, parse_papers([plan.paper]))
        if form == "dxf":
            from templates_gen.writers.dxf import write_dxf  # a large library, seldom needed

            return Answer(write_dxf(found, mark), DXF, name=f"{name}.dxf")
        return Answer(write_svg(found, mark), SVG, name=f"{name}.svg")
    from templates_gen.writers.pdf import write_pdf

    made = make_packs(plan, [plan.paper], [found], printer_named(plan.printer))[0]
    return Answer(write_pdf(made), PDF, name=f"{name}-{made.paper.name}.pdf")


def _piece(pieces: tuple[Piece, ...], wanted: str) -> Piece:
    for each in pieces:
        if each.id == wanted and each.printed:
            return each
    raise FileError(f"there is no piece “{clip(wanted)}” to print")


def open_file(body: Body, options: Options) -> Answer:
    """Return the data of a cake file; why one cannot be read is said in the words of files."""
    try:
        cake = opened(text_of(body, "text"), clip(text_of(body, "name")) or "cake.toml")
    except CakeError as error:
        return refusal(f"This cannot be read as a cake file. {_in_one_line(error)}", 422)
    return json_answer({"cake": cake})


def _in_one_line(error: CakeError) -> str:
    """Say where the problems of a file are, what they are, and what to do."""
    return " ".join(
        f"{error.source.where(each.key) if error.source else each.key}: {each.found}."
        f" {capital(each.advice)}."
        for each in error.problems
    )


def save(body: Body, options: Options) -> Answer:
    """Return a cake file; the text it was opened from, under ``opened``, lends its comments."""
    data = table_of(body, "cake")
    try:
        text = saved(data, text_of(body, "opened"))
    except (ValueError, TypeError) as error:
        raise FileError(f"this cannot be written as a cake file: {clip(str(error))}") from None
    title = data.get("title")
    name = slug(title if isinstance(title, str) else "", "my")
    return Answer(text.encode(), TOML, name=f"{name}.cake.toml")


def stack(body: Body, options: Options) -> Answer:
    """Return the tiers of a line such as ``10x5, 8x5``, and the unit if all have the same."""
    tiers = stack_of(text_of(body, "line")[:LONGEST_LINE], options.get("unit", UNIT))
    return json_answer({"tiers": tiers, "unit": unit_of(tiers)})


def shape(body: Body, options: Options) -> Answer:
    """Return what the tier of the body lacks to have the shape of the options."""
    tier = table_of(body, "tier")
    return json_answer(shaped(tier, options.get("shape", ""), options.get("unit", UNIT)))


def convert(body: Body, options: Options) -> Answer:
    """Return the cake with its lengths in the unit of the options."""
    return json_answer({"cake": converted(table_of(body, "cake"), options.get("unit", ""))})


def resize(body: Body, options: Options) -> Answer:
    """Return the same design on the tins of a line such as ``12x5, 9x6``, and what has changed."""
    cake = cake_of(body)
    before = make_plan(cake, MEMO)
    try:
        tins = tins_of(text_of(body, "line")[:LONGEST_LINE], cake)
    except LengthError as error:
        advice = error.advice or "write the sizes of all tiers"
        raise CakeError.at((), error.found, error.allowed, advice) from None
    new = plain(resized(body["cake"], tins))
    after = plan_of(body | {"cake": new})
    return json_answer({"cake": new, "changes": list(changes(before, after))})


def description(body: Body, options: Options) -> Answer:
    """Return what the scripts need to know of cake files."""
    return json_answer(described())


def choice_pictures(body: Body, options: Options) -> Answer:
    """Return the pictures of what can be put on a cake."""
    return json_answer(dict(pictures()))


def sample_picture(body: Body, options: Options) -> Answer:
    """Return the cake of a file from the front, in its colours, as SVG."""
    cake = cake_of({"cake": opened(text_of(body, "text"), "sample")})
    return Answer(front_svg(build_stack(cake, MEMO)), SVG)


JOBS: Mapping[str, Callable[[Body, Options], Answer]] = {
    "form": description,
    "cake": show,
    "front": front,
    "scene": space,
    "bench": bench_list,
    "calendar": calendar_file,
    "sheets": sheets,
    "pack": pack,
    "piece": piece,
    "open": open_file,
    "save": save,
    "stack": stack,
    "shape": shape,
    "convert": convert,
    "resize": resize,
    "class": school_class,
    "class-list": class_list_file,
    "class-columns": class_columns,
    "handout": handout_file,
    "chart": chart_file,
    "choices": choice_pictures,
    "sample-picture": sample_picture,
}
"""The jobs by their addresses."""
