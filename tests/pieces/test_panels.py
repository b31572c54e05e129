"""Panels: what closes, what is left over, and where the joins stand."""

from __future__ import annotations

import math
import re
from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.panels import Panels
from templates_gen.drawing.piece import Piece
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.guides.decorated import build_stack
from templates_gen.guides.panels import joins_drawing, panel_boxes, panel_rows
from tests.cakes import one_tier, pieces_of
from tests.solids import Model
from tests.strategies import cakes

BORDER = 2 * math.pi * 25.4
"""A moulded border, one length for each 2 in across: common practice, no source."""


def panel(lines: str, size: str = "8 in", layers: str = "coating = 0\ncover = 'none'\n") -> Piece:
    """Return the panel of a tier with these lines about its panels."""
    made = pieces_of(one_tier(f"{layers}[tier.panels]\nheight = '40 mm'\n{lines}", size))
    return next(piece for piece in made if piece.kind == "panel")


@pytest.mark.parametrize(("size", "count"), [("10 in", 5), ("8 in", 4), ("6 in", 3), ("4 in", 2)])
def test_a_moulded_border_closes_on_even_bare_tins(size: str, count: int) -> None:
    """Five on 10 in, four on 8, three on 6, two on 4: 159.6 mm each. Common practice, no source."""
    values = panel(f"mould = '{BORDER:.6f} mm'", size).values
    assert values["count"] == count
    assert values["left_over_mm"] == pytest.approx(0, abs=1e-4)
    assert values["closes_on_in"] == (4, 6, 8, 10, 12, 14, 16)
    assert pytest.approx(159.6, abs=0.05) == BORDER


def test_a_moulded_border_no_longer_closes_on_paste() -> None:
    """4 mm of paste on 10 in opens 25.1 mm, 5.0 mm at each of five joins (by arithmetic)."""
    made = panel(f"mould = '{BORDER:.6f} mm'", "10 in", "coating = 0\nfondant = '4 mm'\n")
    assert made.values["left_over_mm"] == pytest.approx(25.1, abs=0.05)
    assert made.values["per_join_mm"] == pytest.approx(5.0, abs=0.05)
    (advice,) = made.warnings
    assert "5 panels would leave 3/16 in (5 mm)" in advice.text
    assert "spread" in advice.text


def test_advice_names_thickness_and_tins_that_would_close() -> None:
    """What it suggests does close: tried again with that paste, and on those tins."""
    layers = "coating = 0\nfondant = '5 mm'\n"
    made = panel("mould = '136 mm'", "10 in", layers)
    advice = made.warnings[0].text
    (paste,) = re.findall(r"roll the paste [^)]*?([\d.]+)\Wmm", advice)
    again = panel("mould = '136 mm'", "10 in", f"coating = 0\nfondant = '{paste} mm'\n")
    assert abs(float(again.values["per_join_mm"])) < 0.1  # type: ignore[arg-type]
    for tin in made.values["closes_on_in"]:  # type: ignore[union-attr]
        tried = panel("mould = '136 mm'", f"{tin} in", layers)
        assert abs(float(tried.values["per_join_mm"])) <= 2  # type: ignore[arg-type]
        assert tried.warnings == ()


def test_panels_too_long_are_left_over_by_a_minus() -> None:
    """The nearest count may be one too many: what is left over is then negative, and said so."""
    made = panel("mould = '130 mm'", "8 in")
    assert made.values["count"] == 5
    assert made.values["left_over_mm"] == pytest.approx(638.37 - 650, abs=0.01)
    assert "too long" in made.warnings[0].text


@given(cakes())
def test_equal_panels_close_exactly(cake: Cake) -> None:
    """Count times width and what is left over make the girth, and nothing is left of a count."""
    for tier in build_stack(cake).tiers:
        panels = tier.spec.panels
        if panels is not None:
            for row in panel_rows(tier, panels).rows:
                widths = sum(width * many for width, many in row.widths)
                assert sum(many for _, many in row.widths) == row.count
                assert widths + row.left_over == pytest.approx(row.girth, abs=1e-9)
                if panels.mould is None:
                    # widths are compared to a millionth where the faces have several lengths
                    assert row.left_over == pytest.approx(0, abs=1e-6 * row.count)
                else:
                    assert abs(row.left_over) <= panels.mould.mm / 2 + 1e-9


@given(
    st.integers(1, 30),
    st.sampled_from(["panel", "join"]),
    st.sampled_from(["in line", "staggered"]),
    st.sampled_from(["base", "rim"]),
    st.integers(1, 4),
)
def test_joins_stand_one_pitch_apart_and_the_front_is_as_asked(
    count: int, front: str, joins: str, place: str, courses: int
) -> None:
    """Upright joins of each row are pitch apart; the lowest row shows the front asked for."""
    tier = build_stack(one_tier()).tiers[0]
    panels = Panels(
        count=count,
        front=front,  # type: ignore[arg-type]
        joins=joins,  # type: ignore[arg-type]
        place=place,  # type: ignore[arg-type]
        rows=courses,
        height=length_of(20),
    )
    made = panel_rows(tier, panels)
    row = made.rows[0]
    side = tier.covered.side
    drawing = joins_drawing(made, panels, tier.covered)
    rows: dict[float, list[float]] = {}
    for stroke in drawing.strokes:
        box = stroke.path.bounds
        if box.width < 1e-9:
            rows.setdefault(box.y1, []).append(box.x0)
    assert len(rows) == courses
    lowest = max(rows)
    assert lowest == pytest.approx(side.depth if place == "base" else 20 * courses)
    middle = side.girth / 2 + (row.pitch / 2 if front == "panel" else 0)
    assert any(_whole((u - middle) / row.pitch) for u in rows[lowest])
    for places in rows.values():
        gaps = [b - a for a, b in pairwise(places)]
        assert gaps == pytest.approx([row.pitch] * len(gaps))
    if courses > 1:
        first, second = sorted(rows, reverse=True)[:2]
        shift = (rows[second][0] - rows[first][0]) / row.pitch
        assert _whole(shift - (0.5 if joins == "staggered" else 0.0))


def _whole(number: float) -> bool:
    return abs(number - round(number)) < 1e-6


def test_a_mould_longer_than_the_girth_is_an_error() -> None:
    """Not one panel fits: the message says how long one may be."""
    with pytest.raises(CakeError, match=r"panels\.mould"):
        panel("mould = '700 mm'")


TAPER = "top_size = '6 in'\ncoating = 0\ncover = 'none'\n"
SINE = 1 / math.hypot(1, 4)
"""Of the lean of a tier that narrows from 8 to 6 in over 4 in."""


def test_panels_on_a_taper_are_counted_and_measured_where_they_stand() -> None:
    """A mould closes round the middle of its band, not round the rim, which is a quarter shorter.

    Source: half-way up a band of 40 mm the radius of the cone is 4 in - 20 mm times the sine.
    """
    girth = math.tau * (101.6 - 20 * SINE)
    made = panel("mould = '151 mm'", layers=TAPER)
    assert made.values["count"] == 4
    assert made.values["left_over_mm"] == pytest.approx(girth - 4 * 151, abs=1e-3)
    assert made.values["width_mm"] == pytest.approx(151, abs=1e-6)
    assert made.values["closes_on_in"] == ()
    assert panel("width = '60 mm'", layers=TAPER).values["count"] == round(girth / 60)


@pytest.mark.parametrize("place", ["base", "rim"])
def test_a_panel_of_a_taper_says_how_wide_it_is_drawn(place: str) -> None:
    """Its edges are arcs of the girths there. Source: radius of a cone at a way down its side."""
    slant = math.hypot(101.6, 25.4)
    lower = slant if place == "base" else 40
    top, bottom = (math.tau * (76.2 + v * SINE) / 6 for v in (lower - 40, lower))
    made = panel(f"count = 6\nplace = '{place}'", layers=TAPER)
    points, _ = next(sampled(made.outline, 1e-4))
    round_it = sum(map(math.dist, points, (*points[1:], points[0])))
    assert round_it == pytest.approx(top + bottom + 80, abs=0.01)
    said = " ".join(label.text for label in made.drawing.labels).replace("\xa0", " ")
    for edge, length in (("top", top), ("bottom", bottom)):
        found = re.search(rf"{edge} edge [^)]*?([\d.]+) mm", said)
        assert found is not None
        assert float(found[1]) == pytest.approx(length, abs=0.06)


@pytest.mark.parametrize("per_face", [1, 2, 3, 4])
def test_panels_of_a_flat_face_that_narrows_put_together_are_the_face(per_face: int) -> None:
    """Each is cut as the lines from rim to foot part the face, square to none but in its middle.

    Source: a face of the frustum of a square pyramid is a trapezoid; lines that part its upper and
    its lower edge alike part it into trapezoids as high, each with its own lean.
    """
    lines = f"{TAPER}[tier.panels]\nper_face = {per_face}\ncorners = 'join'\n"
    made = [p for p in pieces_of(one_tier(f"shape = 'square'\n{lines}")) if p.kind == "panel"]
    slant = math.hypot(101.6, 25.4)
    joins = [
        [(share / per_face - 0.5) * wide for share in range(per_face + 1)]
        for wide in (152.4, 203.2)
    ]
    lean = [above - below for above, below in zip(*joins, strict=True)]
    wanted = Counter({tuple(round(x, 1) for x in pair): 4 for pair in pairwise(lean)})
    found: Counter[tuple[float, ...]] = Counter()
    for piece in made:
        ((points, _),) = sampled(piece.outline)
        high = max(y for _, y in points)
        upper, lower = ([x for x, y in points if abs(y - end) < 0.01] for end in (high, 0.0))
        assert high == pytest.approx(slant, abs=0.01)
        assert max(upper) - min(upper) == pytest.approx(152.4 / per_face, abs=0.01)
        assert max(lower) - min(lower) == pytest.approx(203.2 / per_face, abs=0.01)
        ends = ((min, min), (max, max))
        found[tuple(round(f(upper) - g(lower), 1) for f, g in ends)] += piece.copies
    assert found == wanted


def edge_lengths(piece: Piece) -> tuple[float, float]:
    """Return how long the upper and the lower edge of a panel with upright sides are."""
    ((points, _),) = sampled(piece.outline, 1e-4)
    ring = [*points, points[0]]
    middle = sum(y for _, y in points) / len(points)
    level = [(a, b) for a, b in pairwise(ring) if abs(b[0] - a[0]) > abs(b[1] - a[1])]
    upper = sum(math.dist(a, b) for a, b in level if a[1] > middle)
    return upper, sum(math.dist(a, b) for a, b in level if a[1] < middle)


def test_panels_that_pass_as_alike_close_round_a_taper() -> None:
    """As many as are cut of each come to the girth of the side at both ends of their row.

    Layers make them longer at some places of a row than at others. Source: sections of an
    independent solid, in mid-paste.
    """
    layers = "shape = 'oval'\nshort = '141 mm'\n"
    layers += "top_size = '189 mm'\ncoating = '7 mm'\ncover = 'panelled'\nfondant = '5 mm'\n"
    layers += "first = 'side'\n"
    panels = "[tier.panels]\ncount = 18\nrows = 3\nreplace_wrap = true\n"
    cake = one_tier(layers + panels, "155 mm", depth="153 mm")
    made = [piece for piece in pieces_of(cake) if piece.kind == "panel"]
    model, depth = Model(cake.tier[0], 9.5), 153 + 7.0
    rows = iter(made)
    for row in range(3):
        upper = lower = count = 0.0
        while count < 18:
            piece = next(rows)
            count += piece.copies
            upper, lower = (
                so_far + piece.copies * edge
                for so_far, edge in zip((upper, lower), edge_lengths(piece), strict=True)
            )
        for found, level in ((upper, row + 1), (lower, row)):
            girth = model.section(level / 3 * depth).exterior.length
            assert found == pytest.approx(girth, abs=0.3)


def test_panels_of_different_shapes_say_which_they_are() -> None:
    """So does none of a round taper, all of whose panels are alike."""
    lines = "[tier.panels]\nper_face = 2\ncorners = 'join'\n"
    made = pieces_of(one_tier(f"shape = 'square'\n{TAPER}{lines}"))
    first, second = (each.use for each in made if each.kind == "panel")
    assert "these are panels 1, 3, 5 and 7." in first
    assert "these are panels 2, 4, 6 and 8." in second
    assert "Counting" not in panel("count = 6", layers=TAPER).use


def test_each_row_of_a_mould_on_a_taper_has_as_many_as_fit_its_girth() -> None:
    """So none overlaps the next by more than half of what one join of one panel more would.

    Source: half-way up each row the radius of the cone is 4 in less the way up times the sine.
    """
    lines = "[tier.panels]\nmould = '50 mm'\nheight = '30 mm'\nrows = 3\n"
    made = pieces_of(one_tier(f"{TAPER}{lines}"))
    rows = [piece for piece in made if piece.kind == "panel"]
    girths = [math.tau * (101.6 - up * SINE) for up in (15, 45, 75)]
    assert [each.values["count"] for each in rows] == [round(girth / 50) for girth in girths]
    assert len({each.values["count"] for each in rows}) == 3
    for number, (each, girth) in enumerate(zip(rows, girths, strict=True), 1):
        count = each.values["count"]
        assert isinstance(count, int)
        assert each.values["left_over_mm"] == pytest.approx(girth - 50 * count, abs=1e-3)
        assert (each.size.width, each.size.height) == pytest.approx((50, 30))
        said = " ".join(label.text for label in each.drawing.labels)
        assert f"{count} for row {number} of 3, from the bottom" in said
        gapes = abs(girth - 50 * count) / count > 2
        assert gapes == any(f"row {number} from the bottom: " in w.text for w in rows[0].warnings)


@pytest.mark.parametrize(
    ("plan", "faces", "widths"),
    [
        ("", (2, 2, 2, 2), [101.6]),
        ("shape = 'rectangle'\nshort = '6 in'", (2, 2, 2, 2), [76.2, 101.6]),
        ("shape = 'polygon'\nsides = 6", (1,) * 6, [203.2 / math.sqrt(3)]),
    ],
)
def test_panels_of_the_whole_side_end_at_corners(
    plan: str, faces: tuple[int, ...], widths: list[float]
) -> None:
    """Without a number or width they are about as wide as tall, face by face."""
    shape = plan or "shape = 'square'"
    layers = "coating = '0 mm'\ncover = 'none'\n"
    (tier,) = build_stack(one_tier(f"{shape}\n{layers}[tier.panels]\n")).tiers
    panels, rows = tier.spec.panels, tier.panel_rows
    assert panels is not None
    assert rows is not None
    assert sorted(rows.rows[0].per_face) == sorted(faces)
    assert [width for width, _ in sorted(rows.rows[0].widths)] == pytest.approx(widths)
    joins = {box.x0 for box in panel_boxes(rows, panels, tier.covered)}
    for corner in tier.covered.rim.corners:
        assert any(math.isclose(corner, u, abs_tol=1e-6) for u in joins)


@pytest.mark.parametrize("lines", ["count = 6", "width = '90 mm'", "mould = '90 mm'"])
def test_panels_of_a_given_number_or_width_go_round_a_square_as_asked(lines: str) -> None:
    """All are alike, also where one has to bend round a corner."""
    (tier,) = build_stack(one_tier(f"shape = 'square'\n[tier.panels]\n{lines}")).tiers
    assert tier.panel_rows is not None
    assert not tier.panel_rows.rows[0].per_face
    assert len(tier.panel_rows.widths) == 1
