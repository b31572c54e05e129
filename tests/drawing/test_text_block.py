"""Lines of text: what they take is what is measured, and none lies on another."""

from __future__ import annotations

import ast
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import templates_gen
from templates_gen.drawing.text_block import (
    LEADING,
    LOOSE,
    Line,
    are_cut,
    broken,
    height,
    inked_height,
    set_lines,
    text_block,
)
from templates_gen.geometry.box import Box, union_box

LINES = st.lists(
    st.builds(
        Line,
        st.text("TagfÅÉ 12", min_size=1, max_size=40).filter(str.strip),
        st.floats(2.85, 9.0),
        st.booleans(),
    ),
    min_size=1,
    max_size=8,
)


@given(LINES, st.sampled_from([LEADING, LOOSE]))
def test_lines_stand_one_under_another_in_the_height_that_is_measured(
    lines: list[Line], leading: float
) -> None:
    """Whatever their sizes no line reaches into the next, and all lie in their height."""
    boxes = [label.box for label in set_lines(lines, (5.0, 70.0), leading=leading)]
    assert all(upper.y0 > lower.y1 for upper, lower in pairwise(boxes))
    whole = union_box(boxes)
    assert whole.y1 < 70.0
    assert whole.y0 > 70.0 - height(lines, leading)
    assert whole.height == pytest.approx(inked_height(lines, leading))


@given(LINES, st.floats(10, 120))
def test_broken_lines_are_no_wider_and_keep_their_words(lines: list[Line], width: float) -> None:
    """Each line is broken by itself, in its own face, and only a long word is cut short."""
    rows = broken(lines, width)
    assert all(row.width <= width + 1e-9 for row in rows)
    words = " ".join(row.text for row in rows)
    assert are_cut(rows) or words.split() == [word for line in lines for word in line.text.split()]


@given(LINES, st.floats(5, 120), st.floats(3, 60))
def test_words_in_a_box_lie_in_it_whole(lines: list[Line], width: float, tall: float) -> None:
    """What is set in a box lies in it, never cut short, smaller only down to what can be read."""
    box = Box(3, 4, 3 + width, 4 + tall)
    labels = text_block(lines, box)
    assert not are_cut(labels)
    assert all(box.contains(label.box, 1e-6) and label.size >= 2.85 for label in labels)


def test_lines_are_broken_in_one_place() -> None:
    """No other module breaks a text into lines: whoever sets lines takes them from there."""
    folder = Path(templates_gen.__file__).parent
    callers = {
        file.name
        for file in folder.rglob("*.py")
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if (isinstance(node, ast.Attribute) and ast.unparse(node) == "fonts.wrapped")
        or (isinstance(node, ast.ImportFrom) and "wrapped" in [name.name for name in node.names])
    }
    assert callers == {"text_block.py"}
