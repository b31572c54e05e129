"""Lines that lie on each other."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.geometry.areas.once import drawn_once
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.path import Path, line

ON = 0.05


def as_shape(path: Path) -> shapely.MultiLineString:
    """Return the lines of a path."""
    return shapely.MultiLineString([points for points, _ in sampled(path)])


def turned(length: float, turn: float, at: float, aside: float) -> Path:
    """Return a line of a length whose middle is at (at, aside), turned by so many radians."""
    dx, dy = length / 2 * math.cos(turn), length / 2 * math.sin(turn)
    return line((at - dx, aside - dy), (at + dx, aside + dy))


@given(st.floats(1, 6), st.floats(28, 40), st.floats(0, 0.13), st.floats(-5, 5), st.booleans())
def test_no_part_is_drawn_twice(
    one: float, other: float, off: float, at: float, swapped: bool
) -> None:
    """Where two lines run on each other the later is left out; nothing else of it is."""
    # the ends of the long one are so far off the short one
    first, second = turned(one, 0.0, 0.0, 0.0), turned(other, 2 * off / other, at, 0.0)
    if swapped:
        first, second = second, first
    kept, left = drawn_once([first, second])
    assert kept is first
    near = shapely.buffer(as_shape(first), ON)
    gone = shapely.difference(as_shape(second), as_shape(left).buffer(1e-6))
    assert shapely.difference(gone, near.buffer(0.01)).length < 1e-9
    if are_one_line(second, first):
        assert shapely.intersection(as_shape(left), near.buffer(-0.01)).length < 0.05


def are_one_line(second: Path, first: Path) -> bool:
    """Tell whether lines have a part in common, along all of which they are near each other."""
    common = shapely.clip_by_rect(as_shape(second), *_wide(first))
    common = shapely.clip_by_rect(common, *_wide(second))
    ends = shapely.points(shapely.get_coordinates(common))
    far = shapely.distance(ends, as_shape(first))
    return common.length > 0.5 and bool(far.max(initial=0.0) < 0.9 * ON)


def _wide(path: Path) -> tuple[float, float, float, float]:
    box = path.bounds
    return box.x0, -9.0, box.x1, 9.0


def test_lines_apart_come_back_as_they_were() -> None:
    """A line that crosses another, or lies 0.2 mm beside it, is not cut nor sampled."""
    paths = [
        turned(30.0, 0.0, 0.0, 0.0),
        turned(30.0, 1.2, 3.0, 0.0),
        turned(8.0, 0.03, -9.0, 0.0),
        turned(20.0, 0.0, 0.0, 0.2),
    ]
    assert all(a is b for a, b in zip(drawn_once(paths), paths, strict=True))


def arch(width: float, rise: float, foot: float) -> Path:
    """Return a closed arch on a straight foot of a length, drawn from its top."""
    half, flare = width / 2, foot / 2
    return Path(
        (
            ("moveTo", ((0.0, rise),)),
            ("curveTo", ((half, rise), (half, rise / 2), (flare, 0.0))),
            ("lineTo", ((-flare, 0.0),)),
            ("curveTo", ((-half, rise / 2), (-half, rise), (0.0, rise))),
            ("closePath", ()),
        )
    )


@given(st.floats(10, 60), st.floats(5, 40), st.floats(4, 30))
def test_curves_stay_curves(width: float, rise: float, foot: float) -> None:
    """What is left of an outline on a line is its two curves, cut short, in one open contour."""
    whole = arch(width, rise, foot)
    _, left = drawn_once([line((-99.0, 0.0), (99.0, 0.0)), whole])
    assert [name for name, _ in left.commands] == ["moveTo", "curveTo", "curveTo", "endPath"]
    above = as_shape(whole).difference(shapely.box(-99.0, -1.0, 99.0, ON))
    assert above.hausdorff_distance(as_shape(left)) < ON
    assert shapely.intersection(as_shape(left), shapely.box(-99.0, -1.0, 99.0, ON - 0.01)).is_empty


def test_what_no_line_is_on_stays_as_it_is() -> None:
    """Of two round corners the one beside a line is cut short; all else is as it was."""
    whole = Path(
        (
            ("moveTo", ((0.0, 0.0),)),
            ("lineTo", ((40.0, 0.0),)),
            ("curveTo", ((45.0, 0.0), (50.0, 5.0), (50.0, 10.0))),
            ("lineTo", ((50.0, 30.0),)),
            ("curveTo", ((50.0, 35.0), (45.0, 40.0), (40.0, 40.0))),
            ("lineTo", ((0.0, 40.0),)),
            ("closePath", ()),
        )
    )
    _, left = drawn_once([line((-10.0, 0.0), (60.0, 0.0)), whole])
    start, cut, *rest, last, end = left.commands
    assert (start[0], cut[0], end[0]) == ("moveTo", "curveTo", "endPath")
    assert cut[1][-1] == (50.0, 10.0)
    assert tuple(rest) == whole.commands[3:6]
    assert last[0] == "lineTo"
    assert last[1][0][1] == pytest.approx(ON)
