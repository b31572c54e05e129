"""What every sheet carries round its field: words above, a check bar in each of two edges."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import line
from templates_gen.sheets.frame import FOOT, Frame
from templates_gen.sheets.legend import Slot, legend
from templates_gen.sheets.print_check import CHECK, LARGE_CHECK, REMINDER
from templates_gen.units import MM_PER_INCH, decimal

MEASURE = "Measure both bars before you cut."
BESIDE = (
    f"Print at 100\u00a0%, one-sided, not borderless. {MEASURE}",
    "Print at 100\u00a0%, one-sided, not borderless. Measure both bars.",
    "Print at 100\u00a0%.",
)
"""What stands beside the lower bar, at full length and shorter."""
MEASURES = (MEASURE, "Measure both bars.")
"""What is left to say there where the advice says how to print."""
TO_TAPE = "Trim the grey off one part, stick the other's under it, mark on mark. Tape, cut."
TO_TAPE_STRAIGHT = TO_TAPE.replace("mark on mark", "mark on mark, triangles along a ruler")
TO_CUT = "Cut along the thick lines."
NUMBER, TITLE, TEXT, LINE = 4.6, 3.6, 3.0, 4.0
"""Em sizes of number, title and other words, and height of a line of these, mm."""
BASELINE, BELOW = 3.4, 4.6
"""From the upper edge of the printable area to the words above the field, and to their foot, mm."""
LOW, HIGH, CAPTION = 1.5, 3.0, 1.0
"""How far the ticks of a bar reach to either side of it, and where its words start, mm."""
LOWER, UPRIGHT = 1.6, 3.0
"""From the edges of the printable area to the bar below the field and to that beside it, mm."""
UPRIGHT_BASELINES = (2.1, 5.0)
"""From the edge of the printable area to the feet of the upright words above the bar, mm."""
AFTER_BAR = 4.0
"""Between a bar and the words after it, mm."""


def head(frame: Frame, number: str, mark: str, title: str) -> Drawing:
    """Write above the field the number of a sheet, beside it the pack mark, at the right a title.

    With the pack mark stands the printer that the sheet is for. A title that is too long is cut
    short.
    """
    area = frame.area
    y = area.y1 - BASELINE
    first = Label(number, (area.x0, y), NUMBER, bold=True)
    only = f" · for the printer “{frame.printer.name}” only" if frame.printer else ""
    said = fonts.fitted(f"pack mark {mark}{only}", area.width - first.width - 14, TITLE)
    pack = Label(said, (area.x0 + first.width + 4, y), TITLE, bold=True)
    available = area.width - first.width - pack.width - 10
    last = Label(fonts.fitted(title, available, TITLE), (area.x1, y), TITLE, Anchor.END)
    return Drawing(labels=(first, pack, last))


def edges(
    frame: Frame, advice: str, length: float = CHECK, roles: Collection[Role] = ()
) -> Drawing:
    """Draw a check bar below the field and one beside it, how to print and what to do after them.

    Above the upright bar stand the advice and the legend of the ``roles`` on the sheet, as far as
    there is room. Where the printable area is small, words stand above the lower bar.
    """
    area, start = frame.area, frame.field.y0 + 1
    bars = check_bar((area.x0, area.y0 + LOWER), length, upright=False)
    bars += check_bar((area.x0 + UPRIGHT, start), length, upright=True)
    after = start + length + AFTER_BAR
    available = area.y1 - BELOW - 1 - after
    if not frame.is_roomy:
        lines = ((area.x0, area.y0 + FOOT + row * LINE + 0.8) for row in (1, 0))
        full = MEASURES if advice == REMINDER else (f"{REMINDER} {MEASURE}",)
        remind = next(iter((*_for_printer(frame, length, advice), *full)))
        said = zip((advice, remind) if advice == REMINDER else (remind, advice), lines, strict=True)
        slots = [((area.x0 + x, after), available) for x in UPRIGHT_BASELINES]
        words = Drawing(labels=tuple(Label(text, at, TEXT) for text, at in said if text))
        return bars + words + legend(roles, slots)
    x = area.x0 + length + AFTER_BAR
    above = Label(advice, (area.x0 + UPRIGHT_BASELINES[0], after), LEAST_TEXT, turn=90)
    if above.width > available:
        above = replace(above, text="")
    ways = (
        *_for_printer(frame, length, above.text),
        *(MEASURES if above.text == REMINDER else BESIDE),
    )
    texts = (text for text in ways if fonts.text_width(text, TEXT) <= area.x1 - x)
    beside = Label(next(texts, ""), (x, area.y0 + LOWER), TEXT)
    return (
        bars
        + Drawing(labels=tuple(label for label in (beside, above) if label.text))
        + legend(roles, _slots(frame, above, after, available))
    )


def to_tape(frame: Frame, roles: Collection[Role], *, straight: bool) -> str:
    """Say how parts are taped, and how triangles keep them ``straight``.

    The latter is left out where there is no room for it, or less for the legend of the ``roles``.
    """
    long, short = (
        {label.text for label in edges(frame, advice, roles=roles).labels}
        for advice in (TO_TAPE_STRAIGHT, TO_TAPE)
    )
    fits = frame.is_roomy or fonts.text_width(TO_TAPE_STRAIGHT, TEXT) <= frame.area.width
    fits = fits and long == short - {TO_TAPE} | {TO_TAPE_STRAIGHT}
    return TO_TAPE_STRAIGHT if straight and fits else TO_TAPE


def _slots(frame: Frame, above: Label, after: float, available: float) -> list[Slot]:
    """Return where the legend stands: beside the advice, then after it."""
    x0 = frame.area.x0
    taken = above.width + AFTER_BAR if above.text else 0.0
    return [
        ((x0 + UPRIGHT_BASELINES[1], after), available),
        ((x0 + UPRIGHT_BASELINES[0], after + taken), available - taken),
    ]


def _for_printer(frame: Frame, length: float, advice: str) -> list[str]:
    """Say of a sheet for one printer how to print, if no advice does, and what bars read."""
    if frame.printer is None:
        return []
    must = f"Both bars must read {decimal(length)}\u00a0mm"
    if advice == REMINDER:
        return [f"{must}."]
    return [
        f"Print at 100\u00a0%, one-sided, not borderless. {must}.",
        f"Print at 100\u00a0%. {must}.",
        f"{must}.",
    ]


def large_check(frame: Frame) -> float:
    """Return the length of the check bars of the first sheet: the large one where both fit."""
    available = min(frame.area.width - 4, frame.field.height - 4)
    return LARGE_CHECK if available >= LARGE_CHECK else CHECK


def check_bar(start: Point, length: float, *, upright: bool) -> Drawing:
    """Draw a bar to measure: a tick each 10 mm on one side, each inch on the other, its length.

    The length is written among the ticks of 10 mm, which leave room for it.
    """
    x, y = start

    def at(along: float, aside: float) -> Point:
        return (x - aside, y + along) if upright else (x + along, y + aside)

    words = f"{decimal(length)} mm ({decimal(length / MM_PER_INCH, 2)} in)"
    turn = 90 if upright else 0
    label = Label(words, at(length / 2, CAPTION), LEAST_TEXT, Anchor.MIDDLE, turn, bold=True)
    ends = [(at(along, -LOW), at(along, HIGH)) for along in (0, length)]
    tens = [
        (at(mm, 0), at(mm, LOW))
        for mm in range(10, int(length), 10)
        if abs(mm - length / 2) > label.width / 2 + 1
    ]
    inches = [
        (at(inch * MM_PER_INCH, 0), at(inch * MM_PER_INCH, -LOW))
        for inch in range(1, int(length / MM_PER_INCH) + 1)
    ]
    drawn = (*ends, (at(0, 0), at(length, 0)), *tens, *inches)
    return Drawing(tuple(Stroke(line(a, b), Role.NOTE) for a, b in drawn), (label,))
