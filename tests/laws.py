"""What holds for every cake on every paper: laws of pieces, of packs and of refusals.

Each law takes what was made and fails by an assertion. The tests run them on what Hypothesis draws,
the campaign on what a seed draws.
"""

from __future__ import annotations

import json
import math
import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import combinations, dropwhile
from typing import Any

import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from templates_gen.cakefile.cake import Cake
from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path
from templates_gen.sheets.frame import LEFT
from templates_gen.sheets.pack import Pack, Sheet, Window
from templates_gen.sheets.spans import OVERLAP

EIGHT_POINTS = 8 / 72 * 25.4
"""The smallest letters that can be read at arm's length, mm (common practice, no source)."""
HAIR = 0.1
"""Words that share less of each other's room do not touch, mm."""


def shown(window: Window) -> BaseGeometry:
    """Return the part of a piece that a window shows, on the sheet."""
    part = region(window.piece.outline).intersection(shapely.box(*window.box))
    a, b, c, d, e, f = window.to_sheet
    moved: BaseGeometry = shapely.affinity.affine_transform(part, (a, c, b, d, e, f))
    return moved


def by_piece(pack: Pack) -> dict[str, list[Window]]:
    """Return the windows of each piece."""
    found: dict[str, list[Window]] = defaultdict(list)
    for sheet in pack.sheets:
        for window in sheet.windows:
            found[window.piece.id].append(window)
    return found


# Refusals


def says_what_to_do(error: CakeError) -> None:
    """Check: a refusal has a key, what was found, what is allowed and what to do."""
    assert error.problems
    for problem in error.problems:
        assert problem.key, problem
        assert problem.key[0] in Cake.model_fields, problem
        for text in (problem.found, problem.allowed, problem.advice):
            assert text.strip(), problem
            assert not {"nan", "inf", "None"} & set(text.replace(",", " ").split()), problem
            reads_well(text)


def reads_well(text: str) -> None:
    """Check: no word stands twice in a row, no noun is counted wrongly, no two stops end a line."""
    assert not re.search(r"\b([a-z]+) \1\b", text), text
    assert not re.search(r"(?<![\d.,/-])\b1 (?:dowels|coats|tiers|pieces)\b", text), text
    assert "?." not in text, text
    assert ".." not in text.replace("...", ""), text


# Pieces


def every_number_is_finite(pieces: Sequence[Piece]) -> None:
    """Check: no coordinate, figure or size of a piece is nan or infinite."""
    for piece in pieces:
        for path in (piece.outline, *(stroke.path for stroke in piece.drawing.strokes)):
            assert all(map(math.isfinite, _numbers(path.commands))), piece.id
        for label in piece.drawing.labels:
            assert all(map(math.isfinite, (*label.at, label.size, label.turn))), label
            assert label.size > 0, label
        assert all(map(math.isfinite, _numbers(piece.values.values()))), piece.id


def _numbers(value: Any) -> Iterator[float]:  # noqa: ANN401 (whatever holds numbers)
    if isinstance(value, float | int):
        yield value
    elif isinstance(value, Iterable) and not isinstance(value, str):
        for part in value:
            yield from _numbers(part)


def pieces_are_simple_areas(pieces: Sequence[Piece]) -> None:
    """Check: the outline of a piece encloses one area, is closed, and does not cross itself."""
    for piece in pieces:
        area = region(piece.outline)
        assert area.is_valid, piece.id
        assert area.area > 0.01, piece.id
        # a letter may have a dot
        assert len(shapely.get_parts(area)) == 1 or piece.kind == "letter", piece.id
        assert all(closed for _, closed in sampled(piece.outline)), piece.id


def words_lie_on_their_piece(pieces: Sequence[Piece]) -> None:
    """Check: no word is cut off, round a piece or in its openings, and none is on another."""
    for piece in pieces:
        openings = [region(opening) for opening in piece.openings]
        area = region(piece.outline).difference(shapely.union_all(openings))
        labels = piece.drawing.labels
        frames = [frame_of(label) for label in labels]
        shapely.prepare(area)
        for label, frame in zip(labels, frames, strict=True):
            assert area.covers(frame), (piece.id, label.text)
        for one, other in overlaps(frames):
            raise AssertionError((piece.id, labels[one].text, labels[other].text))


def overlaps(frames: Sequence[BaseGeometry]) -> list[tuple[int, int]]:
    """Return which of some shapes have something in common."""
    pairs = shapely.STRtree(frames).query(frames, "intersects").T if frames else ()
    return [(int(one), int(other)) for one, other in pairs if one < other]


def pieces_have_names_of_their_own(pieces: Sequence[Piece]) -> None:
    """Check: ids differ, whatever their capitals; each is cut once or more and says its use."""
    names = [piece.id.lower() for piece in pieces]
    assert len(names) == len(set(names))
    for piece in pieces:
        assert piece.copies >= 1, piece.id
        assert piece.title.strip(), piece.id
        assert piece.use.strip() or piece.instead.strip(), piece.id


# Packs


def everything_lies_in_the_printable_area(pack: Pack) -> None:
    """Check: no label, window or line of a sheet leaves the printable area."""
    for sheet in pack.sheets:
        for label in sheet.drawing.labels:
            assert pack.area.contains(label.box, 0.05), (sheet.number, label)
        for window in sheet.windows:
            assert pack.area.contains(window.box.transformed(window.to_sheet), 1e-6)
        for stroke in sheet.drawing.strokes:
            assert pack.area.contains(stroke.path.bounds, 0.6), (sheet.number, stroke)


def windows_of_a_sheet_are_apart(pack: Pack) -> None:
    """Check: what one window shows covers nothing that another shows, by the true outlines."""
    for sheet in pack.sheets:
        boxes = [window.box.transformed(window.to_sheet) for window in sheet.windows]
        for one, other in combinations(range(len(boxes)), 2):
            if boxes[one].intersection(boxes[other]):
                common = shown(sheet.windows[one]).intersection(shown(sheet.windows[other]))
                assert common.area < 1e-6, (sheet.number, one, other)


def windows_put_together_give_the_piece_back(pack: Pack) -> None:
    """Check: the union of a piece's windows is the piece; neighbours share an overlap of 10 mm."""
    for windows in by_piece(pack).values():
        whole = region(windows[0].piece.outline)
        parts = [whole.intersection(shapely.box(*window.box)) for window in windows]
        assert shapely.union_all(parts).area == pytest.approx(whole.area, rel=1e-9)
        doubled = sum(part.area for part in parts) - whole.area
        assert (doubled > 1e-6) == (len(windows) > 1)
        for one, other in combinations(windows, 2):
            common = one.box.intersection(other.box)
            if common is not None:
                assert min(common.width, common.height) <= OVERLAP + 1e-6


def every_line_is_on_a_window(pack: Pack) -> None:
    """Check: no line of a piece is cut off: each lies within what its windows show."""
    for windows in by_piece(pack).values():
        boxes = shapely.union_all([shapely.box(*window.box) for window in windows])
        whole = boxes.buffer(1e-6)
        for stroke in windows[0].piece.drawing.strokes:
            if any(window.box.contains(stroke.path.bounds) for window in windows):
                continue
            lost = shapely.difference(_lines(stroke.path), whole)
            assert lost.length < 1e-3, (windows[0].piece.id, stroke.role, lost.length)


def _lines(path: Path) -> BaseGeometry:
    return shapely.MultiLineString([points for points, _ in sampled(path)])


def every_piece_is_printed_once(pack: Pack) -> None:
    """Check: codes of a piece differ; a sheet after the cover shows something; numbers run on."""
    numbers = [sheet.number for sheet in pack.sheets]  # on a roll after those of its cover
    assert numbers == list(range(numbers[0], numbers[0] + len(numbers)))
    for windows in by_piece(pack).values():
        codes = [window.code for window in windows]
        assert len(codes) == len(set(codes))
    pieces = list(dropwhile(lambda sheet: not sheet.windows, pack.sheets))
    assert all(sheet.windows for sheet in pieces)
    for windows in by_piece(pack).values():
        whole = region(windows[0].piece.outline)
        assert all(shapely.clip_by_rect(whole, *window.box).area > 0 for window in windows)


def windows_keep_the_true_size(pack: Pack) -> None:
    """Check: the map from piece to sheet turns by quarters and moves, and does nothing else."""
    turns = {(1, 0, 0, 1), (0, 1, -1, 0), (0, -1, 1, 0)}
    for windows in by_piece(pack).values():
        assert {tuple(window.to_sheet)[:4] for window in windows} <= turns


def marks_are_shared_by_two_windows(pack: Pack) -> None:
    """Check: each mark of a split piece lies in its window, and on exactly two of its windows."""
    for windows in by_piece(pack).values():
        seen: dict[tuple[float, float], int] = defaultdict(int)
        for window in windows:
            for mark in window.marks:
                assert shapely.box(*window.box).covers(shapely.Point(mark.on_piece))
                assert window.to_sheet.transformPoint(mark.on_piece) == mark.on_sheet
                seen[mark.on_piece] += 1
        assert set(seen.values()) <= {2}
        assert bool(seen) == (len(windows) > 1)


def match_lines_go_through_the_marks(pack: Pack) -> None:
    """Check: each match line, or what is left of it beside other lines, is on that of two marks."""
    for sheet in pack.sheets:
        marks = [mark.on_sheet for window in sheet.windows for mark in window.marks]
        lines = [stroke.path for stroke in sheet.drawing.strokes if stroke.role is Role.MATCH]
        # but for the legend, left of the field
        lines = [path for path in lines if path.bounds.x0 > pack.area.x0 + LEFT]
        assert not sheet.windows or len(lines) <= len(marks) / 2
        for path in lines if sheet.windows else ():
            box = path.bounds
            axis = 0 if box.width < box.height else 1
            assert box[axis] == pytest.approx(box[axis + 2], abs=1e-6)
            assert sum(abs(mark[axis] - box[axis]) < 1e-6 for mark in marks) >= 2, path


def windows_hang_together(pack: Pack) -> None:
    """Check: from any window one comes to every other over joins that carry two marks."""
    for windows in by_piece(pack).values():
        reached, wave = {windows[0].code}, [windows[0]]
        while wave:
            here = wave.pop()
            mine = {mark.on_piece for mark in here.marks}
            for other in windows:
                common = mine & {mark.on_piece for mark in other.marks}
                if other.code not in reached and len(common) >= 2:
                    reached.add(other.code)
                    wave.append(other)
        assert len(reached) == len(windows), windows[0].piece.id


def every_word_is_printed(pack: Pack) -> None:
    """Check: the words of a piece are whole on its sheets, or on the cover for want of room."""
    for windows in by_piece(pack).values():
        piece = windows[0].piece
        sheets = [
            sheet
            for sheet in pack.sheets
            if not sheet.windows or any(w.piece is piece for w in sheet.windows)
        ]
        printed = [label.text for sheet in sheets for label in sheet.drawing.labels]
        # a line that had no room is broken into several, a length between its units
        running = _unturned(" ".join(printed))
        # a caption on the piece has its title, with the size of the tier
        running = running.replace(f"{piece.tier} ({piece.tier_size}):", f"{piece.tier}:")
        for label in piece.drawing.labels:
            # parted at its commas; a name that stays where it is may be shortened on small paper
            whole = _unturned(label.text)
            said = whole.partition(" (")[0] if label.stays else whole
            for phrase in re.split("(?<=[,;]) ", said):
                assert phrase in running, (piece.id, label.text)


def _unturned(text: str) -> str:
    """Return words as they are compared: an arrow turns with its words."""
    return text.translate(str.maketrans("→↓\u00a0", "←↑ "))


def frame_of(label: Label) -> BaseGeometry:
    """Return what a label takes of a sheet, without a hair's breadth round it."""
    foot = -fonts.DESCENT * label.size
    own = Box(0, foot, label.width, label.rise).expanded(-HAIR)
    return shapely.Polygon(label.frame.transformPoints(own.corners))


def words_stand_apart(pack: Pack) -> None:
    """Check: no word is on another, of pieces, marks or margins, and no grid line on a word."""
    for sheet in pack.sheets:
        labels = sheet.drawing.labels
        frames = [frame_of(label) for label in labels]
        for one, other in overlaps(frames):
            raise AssertionError((sheet.number, labels[one].text, labels[other].text))
        grid = _grid(sheet)
        crossed = shapely.STRtree(frames).query(grid, "intersects")[1] if grid else ()
        assert not len(crossed), (sheet.number, "grid", [labels[word].text for word in crossed])


def _grid(sheet: Sheet) -> list[BaseGeometry]:
    return [_lines(each.path) for each in sheet.drawing.strokes if each.role is Role.GRID]


def words_are_large_enough(pack: Pack) -> None:
    """Check: no word on any sheet is smaller than 8 points."""
    for sheet in pack.sheets:
        for label in sheet.drawing.labels:
            assert label.size >= EIGHT_POINTS, (sheet.number, label)


OF_PIECES: tuple[Callable[[Sequence[Piece]], None], ...] = (
    every_number_is_finite,
    pieces_are_simple_areas,
    pieces_have_names_of_their_own,
    words_lie_on_their_piece,
)
OF_PACKS: tuple[Callable[[Pack], None], ...] = (
    everything_lies_in_the_printable_area,
    windows_of_a_sheet_are_apart,
    windows_put_together_give_the_piece_back,
    every_line_is_on_a_window,
    every_piece_is_printed_once,
    windows_keep_the_true_size,
    marks_are_shared_by_two_windows,
    match_lines_go_through_the_marks,
    windows_hang_together,
    every_word_is_printed,
    words_stand_apart,
    words_are_large_enough,
)


def figures_are_finite(found: dict[str, Any]) -> None:
    """Check: figures and bench list are JSON without nan."""
    json.dumps(found, allow_nan=False)
