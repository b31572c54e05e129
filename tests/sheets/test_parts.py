"""Nesting, cutting and numbering on their own."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations, pairwise

import pytest
import shapely
from fontTools.misc.transform import Transform
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.papers import PAPERS, Margins, Paper
from templates_gen.cover.pack import make_pack
from templates_gen.cover.pages import cover_pages
from templates_gen.drawing.apart import blocks
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.flow import Block, heading, table
from templates_gen.drawing.fonts import text_width
from templates_gen.drawing.piece import Owner, Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box, union_box
from templates_gen.geometry.path import Command, Path, line, rectangle
from templates_gen.plan import make_plan
from templates_gen.sheets.frame import (
    LEAST_HEIGHT,
    LEAST_WIDTH,
    ROOMY_HEIGHT,
    ROOMY_WIDTH,
    Frame,
    frame_for,
)
from templates_gen.sheets.furniture import TO_CUT, edges, head, large_check, to_tape
from templates_gen.sheets.grid import AIR, Grid, grid_drawing, grid_of
from templates_gen.sheets.labels import readable, shared_out
from templates_gen.sheets.lattice import Cell, Lattice, letters
from templates_gen.sheets.layout import assemble, lay_out
from templates_gen.sheets.packing import pack_sheets
from templates_gen.sheets.print_check import REMINDER
from templates_gen.sheets.register import MARK_ROOM, joins
from templates_gen.sheets.spans import OVERLAP, TOO_NEAR, Axis, spans
from templates_gen.sheets.tiling import splits
from tests.cakes import one_tier
from tests.laws import everything_lies_in_the_printable_area, words_stand_apart

SIZES = st.lists(st.tuples(st.floats(5, 180), st.floats(5, 240)), min_size=1, max_size=30)


@given(SIZES)
def test_nested_items_lie_on_their_sheet_apart_from_each_other(
    sizes: list[tuple[float, float]],
) -> None:
    """Every item has one spot, inside the sheet, over no other item."""
    spots = pack_sheets(sizes, range(len(sizes)), 180, 240)
    boxes = []
    for (width, height), spot in zip(sizes, spots, strict=True):
        w, h = (height, width) if spot.turned else (width, height)
        box = Box(spot.x, spot.y, spot.x + w, spot.y + h)
        assert Box(0, 0, 180, 240).contains(box, 1e-6)
        boxes.append((spot.sheet, box))
    for (one_sheet, one), (other_sheet, other) in combinations(boxes, 2):
        common = one.intersection(other) if one_sheet == other_sheet else None
        assert common is None or min(common.width, common.height) < 1e-5


def test_items_that_fit_one_sheet_exactly_take_one_sheet() -> None:
    """Halves of a sheet lie on one, the second turned."""
    sizes = [(180.0, 120.0), (120.0, 180.0)]
    assert {spot.sheet for spot in pack_sheets(sizes, range(2), 180, 240)} == {0}


@given(st.floats(10, 3000), st.floats(60, 400), st.booleans(), st.data())
def test_intervals_cover_an_axis_with_the_fewest(
    length: float, most: float, equal: bool, data: st.DataObject
) -> None:
    """They overlap by 10 mm, none is longer than allowed, and fewer would not reach."""
    hits = tuple(data.draw(st.lists(st.integers(0, 3), min_size=1, max_size=40)))
    axis = Axis(0, length, (hits * (math.ceil(length) // len(hits) + 1))[: math.ceil(length) + 1])
    found = spans(axis, most, equal=equal)
    assert found[0][0] == 0
    assert found[-1][1] == length
    assert all(end - start <= most + 1e-6 for start, end in found)
    for (_, end), (start, _) in pairwise(found):
        assert end - start == pytest.approx(OVERLAP)
    if len(found) > 1:
        fewer = len(found) - 1
        assert fewer * most - (fewer - 1) * OVERLAP < length


@given(
    st.integers(1, 12), st.floats(60, 400), st.floats(-1e-8, 1e-8), st.booleans(), st.integers(0, 3)
)
def test_lengths_that_intervals_just_fill_are_covered(
    count: int, most: float, more: float, equal: bool, busy: int
) -> None:
    """A length that so many intervals fill to the last place, or miss by a rounding, is covered."""
    length = OVERLAP + count * (most - OVERLAP) + more
    found = spans(Axis(0, length, (busy,) * (math.ceil(length) + 1)), most, equal=equal)
    assert len(found) in (count, count + 1)
    assert (found[0][0], found[-1][1]) == (0, length)
    assert all(end - start <= most + 1e-6 for start, end in found)


def test_a_cut_keeps_clear_of_words_where_it_can() -> None:
    """With a free gap in reach, the match line lies in it."""
    busy = [0 if 150 <= place <= 160 else 1 for place in range(301)]
    (_, end), _ = spans(Axis(0, 300, tuple(busy)), 200, equal=False)
    assert 150 <= end - OVERLAP / 2 <= 160


@pytest.mark.parametrize("tick", [184.0, 179.0])
def test_a_match_line_hides_no_tick(tick: float) -> None:
    """Not even where two windows of the width of the field meet only there."""
    drawing = Drawing((Stroke(line((tick, 14.0), (tick, 22.0)), Role.GUIDE),))
    edge = rectangle(Box(0.0, 0.0, 368.0, 22.0))
    tape = Piece(Owner("test", "test"), "tape", "Tape", "", "", edge, drawing).finished()
    for lattice in splits(tape, 193.0, 193.0):
        assert all(abs(place - tick) > TOO_NEAR for place in lattice.lines_x)


def test_rows_are_lettered_without_i_and_o() -> None:
    """Fields are A, B and so on without I and O (ISO 5457 as public templates have it)."""
    names = [letters(index) for index in range(26)]
    assert names[:9] == ["A", "B", "C", "D", "E", "F", "G", "H", "J"]
    assert not {"I", "O"} & set(names)
    assert names[24:] == ["AA", "AB"]


@pytest.mark.parametrize("name", PAPERS)
def test_the_printable_area_keeps_the_margins(name: str) -> None:
    """7 mm in from the long edges, 15 mm from the short ones, unless the cake says otherwise."""
    paper = PAPERS[name]
    area = frame_for(paper, (), Margins()).area
    assert area == pytest.approx((7, 15, paper.width - 7, paper.height - 15))
    wide = frame_for(paper, (), Margins(3, 5)).area
    assert wide == pytest.approx((3, 5, paper.width - 3, paper.height - 5))


def test_the_shared_area_fits_both_papers() -> None:
    """The area A4 and Letter share is as wide as A4's and as tall as Letter's."""
    shared = (PAPERS["a4"], PAPERS["letter"])
    for paper in shared:
        area = frame_for(paper, shared, Margins()).area
        assert (area.width, area.height) == pytest.approx((210 - 14, 11 * 25.4 - 30))
        assert Box(7, 15, paper.width - 7, paper.height - 15).contains(area)


def test_margins_that_leave_no_room_are_an_error() -> None:
    """The message says how much is left and what is needed."""
    with pytest.raises(CakeError, match="margin_sides"):
        frame_for(PAPERS["a4"], (), Margins(70, 15))


@pytest.mark.parametrize(("name", "least"), [("a4", (190, 256)), ("letter", (195, 238))])
def test_words_and_bars_leave_the_field_most_of_the_area(
    name: str, least: tuple[float, float]
) -> None:
    """Beside them is room for half a 10 in disc, along its diameter."""
    frame = frame_for(PAPERS[name], (), Margins())
    assert frame.field.width >= least[0] - 1e-6
    assert frame.field.height >= least[1] - 1e-6
    edge = circle((127, 127), 127)
    piece = Piece(Owner("test", "test"), "disc", "Disc", "", "", edge, Drawing()).finished()
    windows = {len(lattice.cells) for lattice in lay_out([piece], frame).lattices}
    assert windows == ({2} if name == "a4" else {4})


@pytest.mark.parametrize("taped", [False, True])
@pytest.mark.parametrize("width", [LEAST_WIDTH, ROOMY_WIDTH - 1, ROOMY_WIDTH, 400])
@pytest.mark.parametrize("height", [LEAST_HEIGHT, ROOMY_HEIGHT - 1, ROOMY_HEIGHT, 500])
def test_every_sheet_says_how_to_print_and_what_to_do(
    width: float, height: float, taped: bool
) -> None:
    """Beside the bars, or above them on small paper, in full and outside the field."""
    frame = Frame(Paper("own", width, height), Box(0, 0, width, height))
    advice = to_tape(frame, (), straight=True) if taped else TO_CUT
    labels = edges(frame, advice).labels
    said = " ".join(label.text for label in labels).replace("\u00a0", " ")
    for words in ("Print at 100 %", "one-sided, not borderless", "Measure both bars", advice):
        assert words in said
    for one, other in combinations(labels, 2):
        assert not one.box.intersection(other.box)
    for label in labels:
        assert frame.area.contains(label.box, 0.05)
        assert not frame.field.intersection(label.box)


@pytest.mark.parametrize("height", range(200, 300, 10))
def test_words_beside_a_large_check_end_below_the_head(height: int) -> None:
    """On a sheet that holds the large bars and little more, advice without room is left out."""
    frame = Frame(Paper("own", 204, height), Box(0, 0, 204, height))
    words = edges(frame, REMINDER, large_check(frame)).labels
    above = head(frame, "Sheet 1 of 10", "2F4G", "A cake").labels
    assert not [1 for one in words for other in above if one.box.intersection(other.box)]


@pytest.mark.parametrize("paper", [Paper("small", 196, 249), PAPERS["a4"], Paper("a3", 297, 420)])
@pytest.mark.parametrize("length", [100, 150])
def test_the_first_sheet_says_once_how_to_print(paper: Paper, length: float) -> None:
    """How to print, and that the bars are measured: each once, whatever the room."""
    frame = Frame(paper, Box(0, 0, paper.width, paper.height))
    labels = edges(frame, REMINDER, length).labels
    said = " ".join(label.text for label in labels).replace("\u00a0", " ")
    for words in ("Print at 100 %", "one-sided, not borderless", "Measure both bars"):
        assert said.count(words) == 1
    for one, other in combinations(labels, 2):
        assert not one.box.intersection(other.box)


def test_the_large_check_is_there_only_where_both_bars_fit() -> None:
    """Bars of 150 mm on A4; of 100 mm on a sheet that is wide enough and not tall enough."""
    assert large_check(frame_for(PAPERS["a4"], (), Margins())) == 150
    low = frame_for(Paper("own", 220, 230), (), Margins(0, 40))
    assert low.area.width == 220
    assert large_check(low) == 100


def test_no_pieces_make_a_cover() -> None:
    """A pack of nothing has a cover and no other sheet."""
    (cover,) = make_pack(make_plan(one_tier()), PAPERS["a4"], pieces=[]).sheets
    assert not cover.windows
    assert "Tea time" not in [label.text for label in cover.drawing.labels]


def test_what_a_caller_adds_follows_the_lines() -> None:
    """A bench list or a picture comes onto the cover after what the first sheet must say."""
    rows = [("what", "how much"), ("paste", "1.2 kg")]

    def added(width: float) -> list[Block]:
        return [heading("To buy"), *table(rows, width)]

    plan, frame = make_plan(one_tier()), frame_for(PAPERS["a4"], (), Margins())
    (page,) = cover_pages(plan, [], "MARK", lay_out([], frame), [], [added])
    cover = assemble("Title", "MARK", [page], lay_out([], frame), frame).sheets[0]
    height = {label.text: label.at[1] for label in cover.drawing.labels}
    assert height["To buy"] > height["what"] > height["paste"]
    assert height["paste"] == height["1.2 kg"]


def test_the_cover_lists_tiers_bare_and_covered() -> None:
    """8 in round, 4 in deep, 5 mm coating, 4 mm paste: 221.2 mm across and π times that round."""
    spec = one_tier("coating = '5 mm'\nfondant = '4 mm'")
    cover = make_pack(make_plan(spec), PAPERS["a4"])
    labels = [label for sheet in cover.sheets for label in sheet.drawing.labels]
    words = " ".join(label.text.replace("\u00a0", " ") for label in labels)
    for length in (203.2, 101.6, 221.2, math.pi * 221.2, 101.6 + 9):
        assert f"{round(length, 1):g} mm" in words
    # a card of 3 mm under 101.6 + 5 + 4 mm
    assert "The whole cake is 4½ in (113.6 mm) high" in words
    (bare,) = make_pack(make_plan(spec), PAPERS["a4"], pieces=[]).sheets
    assert "Tiers" not in [label.text for label in bare.drawing.labels]


def test_texts_with_the_same_first_line_stay_apart() -> None:
    """Lines hang together by what they continue, not by what they say."""
    one, other = (
        [Label("here", (x, 0)), Label("and on", (x, -4), continues=True)] for x in (0.0, 500.0)
    )
    assert blocks([*one, *other]) == [one, other]


@pytest.mark.parametrize("turn", [0, 45, 90, -90, 135, 180, 225, 270])
def test_no_text_is_upside_down(turn: float) -> None:
    """What would be is turned about in its place, its lines in their order."""
    lines = (Label("first", (10, 10), turn=turn), Label("second", (12, 5), turn=turn))
    joined_up = (lines[0], replace(lines[1], continues=True))
    turned = readable(Drawing(labels=joined_up)).labels
    assert [label.text for label in turned] == ["first", "second"]
    assert all(math.cos(math.radians(label.turn)) >= -1e-9 for label in turned)
    was, now = (union_box(label.box for label in each) for each in (lines, turned))
    assert now == pytest.approx(was)


@pytest.mark.parametrize("tall", [2.0, 3.9, 4.1, 30.0])
def test_every_join_of_a_strip_has_marks(tall: float) -> None:
    """However low a strip is, its windows can be put together: two marks on each match line."""
    edge = rectangle(Box(0, 0, 400, tall))
    piece = Piece(Owner("test", "test"), "strip", "Strip", "", "", edge, Drawing()).finished()
    pack = make_pack(make_plan(one_tier()), PAPERS["a4"], pieces=[piece])
    windows = [window for sheet in pack.sheets for window in sheet.windows]
    assert len(windows) > 1
    marks = [mark.on_piece for window in windows for mark in window.marks]
    assert len(marks) == 4 * (len(windows) - 1)
    assert len(set(marks)) == 2 * (len(windows) - 1)


def test_a_word_on_a_match_line_goes_to_a_window_beside_it() -> None:
    """Where none has room for it, as between two of three windows, the nearer one gets it."""
    xs = [0.0, 120.0, 240.0, 360.0]
    edge = rectangle(Box(0, 0, xs[-1], 100))
    drawing = Drawing(labels=(Label("i", (241, 50), 2.0),))
    piece = Piece(Owner("test", "test"), "word", "Word", "", "", edge, drawing).finished()
    cells = tuple(
        Cell(0, column, Box(x0, 0, x1, 100), upright=False, caption=())
        for column, (x0, x1) in enumerate(pairwise(xs))
    )
    lattice = Lattice(piece, cells, piece.drawing.labels, region(piece.outline), tuple(xs[1:-1]))
    shared = shared_out(lattice, Taken([]))
    assert [len(shared[cell.code]) for cell in cells] == [0, 0, 1]


def test_a_text_turned_about_keeps_clear_of_others() -> None:
    """A word beside its short line is not under its long one after the turn."""
    block = (Label("a long line of words", (0, 0), turn=180), Label("short", (0, 4), turn=180))
    beside = Label("beside", (-18, 3))
    labels = (block[0], replace(block[1], continues=True), beside)
    boxes = [label.box for label in readable(Drawing(labels=labels), lambda: Taken([])).labels]
    assert not any(one.intersection(other) for one, other in combinations(boxes, 2))
    away = Taken([], region(rectangle(Box(-45, -3, 3, 60))))
    inside = [label.box for label in readable(Drawing(labels=labels), lambda: away).labels]
    assert all(Box(-45, -3, 3, 60).contains(box) for box in inside[:2])
    unaware = [label.box for label in readable(Drawing(labels=labels)).labels]
    assert any(one.intersection(other) for one, other in combinations(unaware, 2))


def test_a_grid_keeps_clear_of_long_lines() -> None:
    """Lines of the grid beside a long parallel line of the piece are left out, on all windows."""
    edge = rectangle(Box(0, 0, 400, 120))
    marks = (line((101, 0), (101, 120)), line((210, 0), (210, 120)), line((250, 0), (250, 9)))
    drawing = Drawing(tuple(Stroke(path, Role.GUIDE) for path in marks))
    piece = Piece(Owner("test", "test"), "grid", "Grid", "", "", edge, drawing).finished()
    grid = grid_of(Lattice(piece, (), ()))
    assert [name for name, _ in grid.upright] == ["1", "3", "4", "6", "7"]
    assert dict(grid.across) == {"A": 100, "B": 50}
    beside = grid_of(Lattice(piece, (), (), lines_x=(151.0,), lines_y=(52.0,)))
    assert [name for name, _ in beside.upright] == ["1", "4", "6", "7"]
    assert dict(beside.across) == {"A": 100}


@pytest.mark.parametrize(("tall", "named"), [(50.0, ""), (50.5, "1234567")])
def test_a_strip_without_crossings_has_no_grid(tall: float, named: str) -> None:
    """The numbers of its lines would stand among those of its ticks."""
    edge = rectangle(Box(0, 0, 400, tall))
    piece = Piece(Owner("test", "test"), "grid", "Grid", "", "", edge, Drawing()).finished()
    assert "".join(name for name, _ in grid_of(Lattice(piece, (), ())).upright) == named


@pytest.mark.parametrize(("middle", "named"), [((60.0, 90.0), "A"), ((60.0, 92.0), "AB")])
def test_a_grid_line_lies_on_no_curve_where_it_turns(
    middle: tuple[float, float], named: str
) -> None:
    """A circle whose foot is at y = 50 mm takes the line there; 2 mm higher it does not."""
    edge = rectangle(Box(0, 0, 400, 150))
    drawing = Drawing((Stroke(circle(middle, 40), Role.PIPE),))
    piece = Piece(Owner("test", "test"), "grid", "Grid", "", "", edge, drawing).finished()
    assert "".join(name for name, _ in grid_of(Lattice(piece, (), ())).across)[::-1] == named


def test_a_grid_line_stops_for_words_beside_the_window_and_for_names() -> None:
    """Lines of a caption beyond the window bring no line back; names of lines are not crossed."""
    window, line_at = Box(0, 0, 100, 100), 20.0
    grid = Grid(upright=(("1", 1.5 + AIR),), across=(("A", line_at),))
    captions = [Box(0, 101, 90, 104), Box(0, 105, 90, 108)]
    drawn = grid_drawing(window, grid, [*captions, Box(0, 40, 90, 44)], Taken([]))
    upright = [each.path.bounds for each in drawn.strokes if not each.path.bounds.width]
    taken = [*captions, Box(0, 40, 90, 44), *(label.box for label in drawn.labels)]
    assert all(window.contains(each) for each in upright)
    crossed = [each for each in upright for word in taken if each.expanded(0.01).intersection(word)]
    assert not crossed
    assert sum(each.height for each in upright) == pytest.approx(100 - 4 - 4 * AIR, abs=4)


def test_a_window_says_its_name_and_its_neighbours_along_the_match_line() -> None:
    """Its own part stands on its own side of each match line, its neighbour's beyond it, grey."""
    edge = rectangle(Box(0, 0, 540, 100))
    piece = Piece(
        Owner("test", "test"), "strip", "Strip", "", "Use it.", edge, Drawing()
    ).finished()
    pack = make_pack(make_plan(one_tier()), PAPERS["a4"], pieces=[piece])
    found: dict[str, set[str]] = {"A1": {"A2"}, "A2": {"A1", "A3"}, "A3": {"A2"}}
    for sheet in pack.sheets:
        for window in sheet.windows:
            back = window.to_sheet.inverse()
            shown = window.box.transformed(window.to_sheet)
            mine = [each for each in sheet.drawing.labels if shown.contains(each.box)]
            for neighbour in found[window.code]:
                beyond = next(e for e in mine if e.text.startswith(f"to part {neighbour[1]} · "))
                own = [e for e in mine if e.text == f"Strip · part {window.code[1]} of 3"]
                lines = [mark.on_piece[0] for mark in window.marks]
                match = min(lines, key=lambda x: abs(x - middle(beyond, back)))
                side = 1 if neighbour > window.code else -1
                assert 0 < side * (middle(beyond, back) - match) < 4
                assert any(0 < side * (match - middle(each, back)) < 4 for each in own)
    assert {w.code for sheet in pack.sheets for w in sheet.windows} == found.keys()


def middle(label: Label, back: Transform) -> float:
    """Return x of the middle of a label of a sheet on the piece."""
    return float(back.transformPoint(label.box.centre)[0])


@pytest.mark.parametrize("size", [(90, 120), (60, 200), (500, 46), (46, 700), (400, 400)])
def test_what_to_do_is_said_where_a_piece_starts(size: tuple[float, float]) -> None:
    """The caption of the first window has the whole sentence, in as many lines as it takes."""
    use = "Lay it round the finished side, upper edge at the rim, ends together at the back."
    edge = rectangle(Box(0, 0, *size))
    piece = Piece(Owner("test", "test"), "any", "Any", "", use, edge, Drawing()).finished()
    _, first, *_ = make_pack(make_plan(one_tier()), PAPERS["a4"], pieces=[piece]).sheets
    assert use in " ".join(label.text for label in first.drawing.labels)


@pytest.mark.parametrize("size", [(400, 300), (1200, 90), (150, 900)])
def test_a_match_line_is_in_the_middle_of_what_both_windows_show(size: tuple[int, int]) -> None:
    """Of the overlap one half lies to either side of it: 5 mm on each of the two windows."""
    edge = rectangle(Box(0, 0, *size))
    piece = Piece(Owner("test", "test"), "plain", "Plain", "", "", edge, Drawing()).finished()
    for lattice in splits(piece, 180, 240):
        for join in joins(lattice):
            one, other = join.first.box, join.second.box
            across = join.start[0] == join.end[0]
            near, far = (one.x1, other.x0) if across else (one.y0, other.y1)
            line_at = join.start[0] if across else join.start[1]
            assert abs(near - far) == pytest.approx(OVERLAP)
            assert line_at == pytest.approx((near + far) / 2)
            for mark in join.marks:
                assert mark[0 if across else 1] == pytest.approx(line_at)


@pytest.mark.parametrize("turn", [80, 95, 100, 260, 280])
def test_grid_lines_stop_for_slanting_lines_turned_about(turn: float) -> None:
    """Lines of a slanting text that trade places when it is turned about are still not crossed."""
    edge = rectangle(Box(0, 0, 60, 700))
    texts = ("title", "meets at 668.8 mm (26 5/16 in)", "finished depth 60.2 mm", "thick")
    lines = [Label(text, (16 + 6 * n, 80), 3, turn=turn) for n, text in enumerate(texts)]
    text = [lines[0], *(replace(label, continues=True) for label in lines[1:])]
    text += [replace(label, at=(label.at[0], label.at[1] + 140)) for label in text]
    drawing = Drawing(labels=tuple(text))
    piece = Piece(Owner("test", "test"), "strip", "Strip", "", "", edge, drawing).finished()
    words_stand_apart(make_pack(make_plan(one_tier()), PAPERS["a4"], pieces=[piece]))


def test_a_sliver_has_no_caption() -> None:
    """Beside a piece too narrow for any word there is none, not even dots that reach beyond it."""
    edge = rectangle(Box(0, 0, 0.8, 1.2))
    piece = Piece(Owner("test", "test"), "dot", "Dot", "", "", edge, Drawing()).finished()
    pack = make_pack(make_plan(one_tier()), PAPERS["a4"], pieces=[piece])
    everything_lies_in_the_printable_area(pack)
    assert not [label for label in pack.sheets[-1].drawing.labels if label.text in ("", "…", "A1")]


def test_words_have_room_on_no_more_than_a_window_shows() -> None:
    """On a piece that narrows, no word can be moved to where its window shows nothing."""
    corners = ((0.0, 0.0), (300.0, 520.0), (600.0, 0.0))
    edge = Path((("moveTo", corners[:1]), *(("lineTo", (c,)) for c in corners[1:]), CLOSE))
    piece = Piece(Owner("test", "test"), "any", "Any", "", "", edge, Drawing()).finished()
    for lattice in splits(piece, 180, 240):
        for cell in lattice.cells:
            assert cell.box.contains(lattice.space_of(cell), 1e-6), cell.code


CLOSE: Command = ("closePath", ())


@pytest.mark.parametrize("high", [228.0, 234.0, 240.0])
def test_no_corner_of_a_piece_is_left_between_windows(high: float) -> None:
    """A corner that only overlaps of neighbours could show is in one of the windows."""
    for across in range(10, 600, 5):
        corners = ((0.0, 0.0), (float(across), high), (600.0, 0.0))
        edge = Path((("moveTo", corners[:1]), *(("lineTo", (c,)) for c in corners[1:]), CLOSE))
        piece = Piece(Owner("test", "test"), "any", "Any", "", "", edge, Drawing()).finished()
        for lattice in splits(piece, 180, 240):
            windows = shapely.union_all([shapely.box(*cell.box) for cell in lattice.cells])
            assert windows.covers(region(edge))


@pytest.mark.parametrize("title", ["Cake", "i" * 60])
def test_the_title_of_a_sheet_ends_before_its_number(title: str) -> None:
    """One above the other would be hard to read: a long title is cut short."""
    frame = frame_for(PAPERS["a4"], (), Margins())
    _, mark, title_at = head(frame, f"Sheet {'0' * 40}", "AB12", title).labels
    assert title_at.box.x0 - mark.box.x1 >= 6 - 1e-6
    assert title_at.box.x1 == pytest.approx(frame.area.x1)


@pytest.mark.parametrize(
    ("size", "times"),
    [((60, 170), 2), ((170, 60), 2), ((400, 235), 3), ((640, 300), 2), ((500, 700), 4)],
)
def test_a_caption_has_room_along_its_window(size: tuple[int, int], times: int) -> None:
    """Its lines are no longer than the side they lie along, the longer one where it can be.

    What to do with the piece is said where it starts, on a window that fits the field with it, in
    the handiest way at least.
    """
    edge = rectangle(Box(0, 0, *size))
    use = "lay it round the finished side, ends together at the back, and mark through it " * times
    piece = Piece(Owner("test", "test"), "plain", "Plain", "", use, edge, Drawing()).finished()
    ways = splits(piece, 180, 240)
    if len(ways[0].cells) == 1:
        assert ways[0].cells[0].upright == (size[1] > size[0])
    for lattice in ways:
        for cell in lattice.cells:
            room = cell.box.height if cell.upright else cell.box.width
            assert max(text_width(e.text, e.size, bold=e.bold) for e in cell.caption) <= room
            assert min(cell.size) <= 180 + 1e-9
            assert max(cell.size) <= 240 + 1e-9
    said = " ".join(each.text for each in ways[0].cells[0].caption)
    assert said.endswith(use.strip())


def test_register_marks_keep_clear_of_curves() -> None:
    """A curve along the match line, where a mark would stand, moves the mark past it."""
    edge = rectangle(Box(0, 0, 540, 100))
    for across in range(1, 539, 11):
        curve = Stroke(circle((float(across), 2.0), 11), Role.PIPE)
        piece = Piece(Owner("test", "test"), "strip", "Strip", "", "", edge, Drawing((curve,)))
        (lattice, *_) = splits(piece.finished(), 180, 240)
        outlines = [stroke.path for stroke in lattice.piece.drawing.strokes]
        lines = Taken(outlines)
        marks = [mark for join in joins(lattice) for mark in join.marks]
        assert min(lines.clearances(marks)) >= MARK_ROOM


@pytest.mark.parametrize("long", [3.0, 9.0, 30.0])
def test_a_match_line_stops_where_a_line_lies_on_it(long: float) -> None:
    """Be the line short or long, only one of the two is drawn there."""
    edge = rectangle(Box(0, 0, 540, 100))
    plain = Piece(Owner("test", "test"), "strip", "Strip", "", "", edge, Drawing()).finished()
    (lattice, *_) = splits(plain, 180, 240)
    x = lattice.lines_x[0]
    on = Stroke(line((x, 40), (x, 40 + long)), Role.GUIDE)
    piece = replace(plain, drawing=plain.drawing + Drawing((on,)))
    join = next(each for each in joins(replace(lattice, piece=piece)) if each.start[0] == x)
    (interval,) = join.beside
    assert [100 * share for share in interval] == pytest.approx([40, 40 + long])


def test_the_name_of_a_grid_line_is_clear_of_a_thick_line_along_the_window() -> None:
    """A fold or cut edge half a line inside the window does not touch the letter."""
    drawn = grid_drawing(Box(0, 0, 100, 100), Grid((), (("D", 50.0),)), [], Taken([]))
    (label,) = drawn.labels
    assert label.box.x0 > 0.5 + 1
