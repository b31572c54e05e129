"""What every sheet carries round its field: words above, check bars below and beside."""

from __future__ import annotations

from collections.abc import Sequence

from templates_gen.drawing import fonts as lettering
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import line
from templates_gen.sheets.frame import FOOT, HEAD, Frame
from templates_gen.units import MM_PER_INCH, decimal

CHECK = 100.0
"""Length of the check bars on every sheet, mm."""
LARGE_CHECK = 150.0
"""Length of the check bars on the first sheet, mm."""
REMINDER = "Print at 100 % (actual size), one-sided, not borderless."
MEASURE = "Measure both bars before you cut."
UPRIGHT = 4.6
"""From the edge of the printable area to the upright bar, whose words stand between, mm."""
FOOT_TEXT, BAR_TEXT = 3.0, 3.0
SHORT_REMINDER = "Print at 100\u00a0%, one-sided, not borderless."
"""For a foot that has no room for all of it."""
TO_TAPE = (
    "Match lines run between two round marks: trim one sheet there, lay its half marks on the whole"
    " ones of the other, tape, cut.",
    "Trim one sheet between its round marks, lay them on those of the other, tape, cut.",
)
TO_CUT = ("Cut along the thick lines.",)
"""What to do with a sheet, at full length and for narrow paper."""
ADVICE, FOOT_PITCH = 3.0, 3.8


def head(frame: Frame, left: str, mark: str, right: str, advice: Sequence[str]) -> Drawing:
    """Write what a sheet is above its field, and below that the longest ``advice`` that fits.

    The words are the number of the sheet, beside it the pack mark, and at the right the title.
    """
    area = frame.area
    width = area.width
    y = area.y1 - 4.5
    number = Label(left, (area.x0, y), 4.6, bold=True)
    pack = Label(f"pack mark {mark}", (area.x0 + number.width + 4, y), 3.6, bold=True)
    room = width - number.width - pack.width - 10
    fits = [each for each in advice if lettering.text_width(each, ADVICE) <= width]
    said = lettering.fitted((fits or advice[-1:])[0], width, ADVICE)
    labels = (
        number,
        pack,
        Label(lettering.fitted(right, room, 3.6), (area.x1, y), 3.6, Anchor.END),
        Label(said, (area.x0, y - 4.6), ADVICE),
    )
    rule = Stroke(line((area.x0, area.y1 - HEAD + 1.2), (area.x1, area.y1 - HEAD + 1.2)), Role.NOTE)
    return Drawing((rule,), labels)


def foot(frame: Frame) -> Drawing:
    """Draw both check bars and the reminder how to print."""
    area = frame.area
    across = check_bar((area.x0, area.y0 + 4.5), CHECK, upright=False)
    upright = check_bar((area.x0 + UPRIGHT, frame.field.y0 + 4), CHECK, upright=True)
    x = area.x0 + CHECK + 6
    texts = (f"{REMINDER} {MEASURE}", REMINDER, SHORT_REMINDER)
    wrapped = [lettering.wrapped(text, area.x1 - x, FOOT_TEXT) for text in texts]
    lines = next((lines for lines in wrapped if len(lines) <= FOOT // FOOT_PITCH), wrapped[-1])
    # two lines stand beside the bar, three take the whole foot
    top = area.y0 + min((len(lines) + 1) * FOOT_PITCH, FOOT)
    labels = tuple(
        Label(entry, (x, top - (index + 0.7) * FOOT_PITCH), FOOT_TEXT)
        for index, entry in enumerate(lines)
    )
    return across + upright + Drawing(labels=labels)


def large_check(frame: Frame) -> float:
    """Return the length of the check bars of the first sheet: the large one where both fit."""
    wide, tall = frame.field.width - 4, frame.field.y1 - frame.area.y0 - 4
    return LARGE_CHECK if min(wide, tall) >= LARGE_CHECK else CHECK


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
    label = Label(words, at(length / 2, 2.0), BAR_TEXT, Anchor.MIDDLE, turn=90 if upright else 0)
    return Drawing(
        (
            *(Stroke(line(a, b), Role.GUIDE) for a, b in ends),
            *(Stroke(line(a, b), Role.NOTE) for a, b in (*tens, *inches)),
        ),
        (label,),
    )
