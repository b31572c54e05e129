"""What every sheet carries round its field: words above, check bars below and beside."""

from __future__ import annotations

from templates_gen.drawing import lettering
from templates_gen.drawing.numbers import MM_PER_INCH, decimal
from templates_gen.drawing.path import Point, line
from templates_gen.drawing.piece import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.sheets.frame import FOOT, HEAD, Frame

CHECK = 100.0
"""Length of the check bars on every sheet, mm."""
LARGE_CHECK = 150.0
"""Length of the check bars on the first sheet, mm."""
REMINDER = "Print at 100 % (actual size), one-sided, not borderless."
MEASURE = "Measure both bars before you cut."
FOOT_TEXT = 2.6
TO_TAPE = (
    "Trim one of two neighbours at the dashed match line, lay it on the other so that the half"
    " marks close, tape, then cut."
)
TO_CUT = "Cut along the thick lines."


def head(frame: Frame, left: str, right: str, advice: str) -> Drawing:
    """Write what a sheet is above its field, with a line below it saying what to do."""
    area = frame.area
    width = area.width
    y = area.y1 - 4.5
    room = width - lettering.text_width(left, 4.6, bold=True) - 6
    labels = (
        Label(left, (area.x0, y), 4.6, bold=True),
        Label(lettering.fitted(right, room, 3.6), (area.x1, y), 3.6, Anchor.END),
        Label(lettering.fitted(advice, width, 3.0), (area.x0, y - 4.6), 3.0),
    )
    rule = Stroke(line((area.x0, area.y1 - HEAD + 1.2), (area.x1, area.y1 - HEAD + 1.2)), Role.NOTE)
    return Drawing((rule,), labels)


def foot(frame: Frame) -> Drawing:
    """Draw both check bars and the reminder how to print."""
    area = frame.area
    across = check_bar((area.x0, area.y0 + 4.5), CHECK, upright=False)
    upright = check_bar((area.x0 + 4.0, frame.field.y0 + 4), CHECK, upright=True)
    x = area.x0 + CHECK + 6
    lines = lettering.wrapped(REMINDER, area.x1 - x, FOOT_TEXT)
    if len(lines) < 3:
        lines += lettering.wrapped(MEASURE, area.x1 - x, FOOT_TEXT)
    # two lines stand beside the bar, four take the whole foot
    pitch = min(3.6, FOOT / len(lines))
    top = area.y0 + (len(lines) + 1) * pitch if len(lines) < 3 else area.y0 + FOOT
    labels = tuple(
        Label(entry, (x, top - (index + 0.7) * pitch), FOOT_TEXT)
        for index, entry in enumerate(lines)
    )
    return across + upright + Drawing(labels=labels)


def large_check(width: float) -> float:
    """Return the length of the check bars of the first sheet where ``width`` mm are free."""
    return LARGE_CHECK if width >= LARGE_CHECK else CHECK


def check_bar(start: Point, length: float, *, upright: bool) -> Drawing:
    """Draw a bar to measure: a tick each 10 mm on one side, each inch on the other, its length."""
    x, y = start

    def at(along: float, aside: float) -> Point:
        return (x - aside, y + along) if upright else (x + along, y + aside)

    ends = ((at(0, -3), at(0, 3)), (at(length, -3), at(length, 3)), (at(0, 0), at(length, 0)))
    tens = [(at(mm, 0), at(mm, 1.5)) for mm in range(10, int(length), 10)]
    inches = [
        (at(inch * MM_PER_INCH, 0), at(inch * MM_PER_INCH, -1.5))
        for inch in range(1, int(length / MM_PER_INCH) + 1)
    ]
    words = f"{decimal(length)} mm ({decimal(length / MM_PER_INCH, 2)} in)"
    label = Label(words, at(length / 2, 2.0), 2.6, Anchor.MIDDLE, turn=90 if upright else 0)
    return Drawing(
        (
            *(Stroke(line(a, b), Role.GUIDE) for a, b in ends),
            *(Stroke(line(a, b), Role.NOTE) for a, b in (*tens, *inches)),
        ),
        (label,),
    )
