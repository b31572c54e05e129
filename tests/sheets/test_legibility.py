"""What is printed can be read, of samples and random cakes; faults put in are counted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from io import BytesIO

import pikepdf
import pytest

from templates_gen.cakefile.papers import PAPERS, Margins
from templates_gen.cover.pack import make_packs
from templates_gen.drawing.apart import blocks
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.fonts import CAP_HEIGHT, text_width
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line
from templates_gen.sheets import captions
from templates_gen.sheets.drawn import drawn_strokes
from templates_gen.sheets.frame import frame_for
from templates_gen.sheets.layout import ASIDE
from templates_gen.sheets.line_words import line_words
from templates_gen.sheets.pack import Pack
from tests import legibility
from tests.cakes import SAMPLES, sample_plan
from tests.legibility import random_pack
from tests.prints import OWN, Job, packed, printed

PARTS, CAKES = 2, 4
FOURTEEN = 14 / 72 * 25.4


@cache
def first_pack(name: str) -> Pack:
    """Return the pack of a sample on the first of its papers."""
    plan = sample_plan(name)
    return make_packs(plan, [plan.paper])[0]


@pytest.mark.parametrize("name", [path.stem for path in SAMPLES])
def test_samples_can_be_read(name: str) -> None:
    """No word is crossed, no line drawn twice, no match line near another parallel to it."""
    can_be_read(first_pack(name))


@pytest.mark.parametrize("name", ["midsummer-tower", "harbour-wedding"])
def test_words_of_lines_stand_apart(name: str) -> None:
    """What a line says of itself is not read as one with the words before or after it."""
    assert not legibility.run_together(packed(name, "a4"))


@pytest.mark.parametrize("role", [role for role in Role if role.says])
@pytest.mark.parametrize("other", [Box(0, 50.6, 100, 100), Box(0, 0, 100, 49.4)])
def test_words_along_a_line_do_not_touch_it(role: Role, other: Box) -> None:
    """Above it and below: half a millimetre of white is between its ink and theirs."""
    seen = drawn_strokes([Stroke(line((0, 50), (100, 50)), role)])
    words = line_words(seen, Box(0, 0, 100, 100), Taken(()).also([other])).labels
    assert words
    for label in words:
        low, high = label.at[1], label.at[1] + CAP_HEIGHT * label.size
        assert min(abs(low - 50), abs(high - 50)) - role.weight / 2 >= 0.5
        assert (low > 50) == (other.y1 < 50)


@pytest.mark.parametrize("name", ["midsummer-tower", "harbour-wedding"])
def test_windows_stand_off_the_words_beside_the_field(name: str) -> None:
    """Where a sheet has room at its right, pieces leave some at its left."""
    sheets = [sheet for sheet in packed(name, "a4").sheets if sheet.windows]
    field = frame_for(PAPERS["a4"], (), Margins()).field
    for sheet in sheets:
        boxes = [
            Box.round([w.to_sheet.transformPoint(corner) for corner in w.box.corners])
            for w in sheet.windows
        ]
        left = min(box.x0 for box in boxes) - field.x0
        # a caption beside a window may be wider than that
        words = [each.box for each in sheet.drawing.labels if field.contains(each.box)]
        right = field.x1 - max(box.x1 for box in (*boxes, *words))
        assert left >= min(ASIDE, right) - 1


@pytest.mark.parametrize("seed", [2, 76, 353])
def test_a_match_line_stops_beside_lines_that_are_everywhere(seed: int) -> None:
    """A piece full of lines is cut clear of them as far as can be; its marks and grey stay.

    In packs with collars, placement guides and topper sheets in parts.
    """
    pack = random_pack(seed)
    legibility.match_lines_stand_clear(pack)
    windows = [window for sheet in pack.sheets for window in sheet.windows]
    split = [each for each in windows if each.overlaps]
    assert split
    assert all(len(each.marks) == 2 * len(each.overlaps) for each in split)


def test_an_arrow_of_two_joins_is_drawn_once() -> None:
    """A strip so long that the arrows of both its joins meet in its middle has one for both."""
    legibility.no_line_is_drawn_twice(random_pack(126))


@pytest.mark.parametrize("part", range(PARTS))
def test_random_cakes_can_be_read(part: int) -> None:
    """The same holds for what random cakes make."""
    for seed in range(part * CAKES, (part + 1) * CAKES):
        try:
            pack = random_pack(seed)
        except CakeError:
            continue
        can_be_read(pack)


def can_be_read(pack: Pack) -> None:
    """Check every law of what can be read."""
    for law in legibility.OF_PACKS:
        law(pack)


def spoilt(added: Drawing) -> Pack:
    """Return the pack of a sample with something more on its last sheet."""
    plan = sample_plan("starter")
    pack = make_packs(plan, [plan.paper])[0]
    *others, last = pack.sheets
    return replace(pack, sheets=(*others, replace(last, drawing=last.drawing + added)))


def test_a_crossed_word_is_counted() -> None:
    """A line put through a word is found, and it alone."""
    word = Label("word", (50, 5), 5)
    through = Stroke(line((45, 6), (70, 6)), Role.NOTE)
    assert legibility.crossings(spoilt(Drawing((through,), (word,))))[-1][1:] == ("word", "note")
    assert not legibility.crossings(spoilt(Drawing((), (word,))))


def test_a_doubled_line_is_counted() -> None:
    """A line on a part of another is found; one beside it, or one that crosses it, is not."""
    one = Stroke(line((10, 5), (90, 5)), Role.NOTE)
    for y, count in ((5.0, 1), (5.3, 0)):
        other = Stroke(line((40, y), (60, y)), Role.TRIM)
        assert len(legibility.doubled(spoilt(Drawing((one, other))))) == count
    across = Stroke(line((50, 2), (50, 8)), Role.TRIM)
    assert not legibility.doubled(spoilt(Drawing((one, across))))


@pytest.mark.parametrize(("away", "count"), [(7.9, 1), (8.1, 0)])
def test_a_line_beside_a_match_line_is_counted(away: float, count: int) -> None:
    """Nearer than 8 mm it could be taken for it."""
    match = Stroke(line((300, 100), (300, 160)), Role.MATCH)
    other = Stroke(line((300 + away, 100), (300 + away, 160)), Role.FOLD)
    assert len(legibility.near_match_lines(spoilt(Drawing((match, other))))) == count


@pytest.mark.parametrize("name", [path.stem for path in SAMPLES])
def test_names_can_be_read_at_arm_s_length(name: str) -> None:
    """Every window longer than its name has it at 14 points, with how many to cut."""
    for sheet in first_pack(name).sheets:
        for window in sheet.windows:
            names = captions.name(window.piece).split(": ")
            tier, kind = names[0], names[-1]
            texts = map(_name, blocks(sheet.drawing.labels))
            # the tier's size may stand between the two
            said = [e for e in texts if e.text.startswith(tier) and kind in e.text]
            side = min(window.box.size)
            wide = text_width(f"{window.piece.title} · part 10 of 10 · cut 10", FOURTEEN, bold=True)
            assert side < wide or any(e.size >= FOURTEEN and "cut" in e.text for e in said)


def _name(lines: Sequence[Label]) -> Label:
    """Return the name that begins a text, which may be broken over several lines, as one label."""
    bold = [line for line in lines if line.bold] or lines
    return replace(bold[0], text=" ".join(line.text for line in bold))


@pytest.mark.parametrize("job", OWN, ids="/".join)
def test_no_character_is_smaller_than_8_points(job: Job) -> None:
    """Every character of every page of the file, covers included, is set at 8 points or more."""
    with pikepdf.open(BytesIO(printed(job).pdf)) as document:
        for page in document.pages:
            scale = 1.0
            for instruction in pikepdf.parse_content_stream(page):
                operands = instruction.operands
                if str(instruction.operator) == "cm" and scale == 1.0:
                    scale = float(operands[0])
                if str(instruction.operator) == "Tf":
                    assert float(operands[1]) * scale >= 8


def test_the_cover_has_the_colours_of_the_cake() -> None:
    """The picture on the first sheet is filled with the colours of the tiers."""
    assert first_pack("harbour-wedding").sheets[0].drawing.fills
