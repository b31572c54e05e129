"""The words of a piece on its windows: each whole on one of them, clear of lines and others."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

from fontTools.misc.transform import Transform

from templates_gen.drawing.apart import REACH, Text, blocks, clear_move
from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path
from templates_gen.sheets.lattice import Lattice

_OTHER_WAY = str.maketrans("←↑→↓", "→↓←↑")


def shared_out(
    lattice: Lattice, drawn: Taken, marks: Sequence[Path] = ()
) -> dict[str, list[Label]]:
    """Share the words of a piece, whose lines are ``drawn``, out to its windows, by code.

    Captions on the piece are among what is returned.

    A text goes to the window that shows most of it. One that lies across a match line, or on one of
    the ``marks`` of the windows, is moved to the nearest place free of lines and texts; if that
    window has none, another's; if none has, its lines are broken. A long line that still does not
    fit is split at its commas, and a part that does not fit is left out, as the caption or the
    cover has it too. A name that stays is shortened where it stands.
    """
    shared = {cell.code: list(cell.labels) for cell in lattice.cells}
    if len(lattice.cells) == 1:
        return {code: [*lattice.words, *labels] for code, labels in shared.items()}
    spaces = {cell.code: lattice.space_of(cell) for cell in lattice.cells}
    marked, moving = Taken(marks), list[Text]()
    for text in map(Text.of, blocks(lattice.words)):
        code = max(spaces, key=lambda code: _overlap(spaces[code], text.box))
        if spaces[code].contains(text.box) and all(text.fits(marked)([(0.0, 0.0)])):
            shared[code] += text.lines
        elif text.lines[0].stays:
            _shorten(text.lines[0], spaces, shared, marked)
        else:
            moving.append(text)
    drawn = drawn.also((), marks)
    # a short text stands at what it names
    for text in sorted(moving, key=lambda text: text.box.width):
        _place(text, spaces, shared, drawn)
    return shared


def readable(
    drawing: Drawing, lines: Callable[[], Taken] | None = None, turned: float = 0.0
) -> Drawing:
    """Return a drawing whose texts are not upside down: those that were are turned round.

    Words of a window that is ``turned``, degrees, are read with the sheet held upright or turned
    as the window is, so that they are turned about the direction between these two.
    Lines of unequal length that then lie on a line or a word of what is drawn are moved off it.
    """
    labels: list[Label] = []
    for text in map(Text.of, blocks(drawing.labels)):
        if 90.5 < (text.lines[0].turn - turned / 2) % 360 < 269.5:
            x, y = text.box.centre
            about = Transform(-1, 0, 0, -1, 2 * x, 2 * y)
            other = Text.of([_turned_round(label, about) for label in text.lines])
            if lines is not None and len(text.lines) > 1:
                others = [label.box for label in drawing.labels if label not in text.lines]
                other = _off_lines(other, lines(), others)
            text = other
        labels += text.lines
    return Drawing(drawing.strokes, tuple(labels))


def _turned_round(label: Label, about: Transform) -> Label:
    """Return a label turned round, its arrows so that they point where they did."""
    return replace(label.transformed(about), text=label.text.translate(_OTHER_WAY))


def _off_lines(text: Text, lines: Taken, others: Sequence[Box]) -> Text:
    fits = text.fits(lines)
    on_other = any(label.box.intersection(other) for label in text.lines for other in others)
    if not on_other and all(fits([(0.0, 0.0)])):
        return text
    move = clear_move(text.box, text.box.expanded(REACH), others, fits)
    return text if move is None else Text.of(text.moved(*move))


def _overlap(space: Box, box: Box) -> tuple[float, float]:
    """Return how much of ``box`` a space holds, and how near its middle is, for comparing."""
    part = space.intersection(box)
    area = part.width * part.height if part else 0.0
    return area, -math.dist(space.centre, box.centre)


def _shorten(
    label: Label, spaces: dict[str, Box], shared: dict[str, list[Label]], marked: Taken
) -> None:
    """Add as much of a name as has room where it stands: up to its colon, or to its bracket."""
    for end in (":", " ("):
        short = Text.of([replace(label, text=label.text.partition(end)[0])])
        for code, space in spaces.items():
            if space.contains(short.box) and all(short.fits(marked)([(0.0, 0.0)])):
                shared[code] += short.lines
                return


def _place(
    text: Text, spaces: dict[str, Box], shared: dict[str, list[Label]], drawn: Taken
) -> None:
    """Add the lines of a text to a window with a free place for it, else phrase by phrase."""
    codes = sorted(spaces, key=lambda code: _overlap(spaces[code], text.box), reverse=True)
    for narrower in text.ways:
        for code in codes:
            taken = [label.box for label in shared[code]]
            move = clear_move(narrower.box, spaces[code], taken, narrower.fits(drawn))
            if move is not None:
                shared[code] += narrower.moved(*move)
                return
    for phrase in text.phrases:
        _place(phrase, spaces, shared, drawn)
