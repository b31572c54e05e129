"""Circle guide: a hole for every circle, each at its radius from the pivot, its name beside it."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations, product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.papers import Paper
from templates_gen.cover.pack import make_pack
from templates_gen.drawing.drawing import Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import SMALL
from templates_gen.geometry.box import Box
from templates_gen.guides.decorated import build_stack
from templates_gen.pieces import circle_lanes
from templates_gen.pieces.circle_guide import circles
from templates_gen.pieces.circle_lanes import HOLE, LEAST_GAP, Hole, Spot, strip
from templates_gen.plan import make_plan
from templates_gen.sheets.pack import Window
from templates_gen.sheets.register import ARM
from templates_gen.sheets.tiling import splits
from tests.cakes import cake as cake_of
from tests.cakes import pieces_of, sample
from tests.circle_guides import holes, names, off, pivot
from tests.strategies import cakes

TIERS = ("foundation", "lower middle", "middle", "upper middle", "upper", "crown", "finial")
FIELDS = ((190.0, 256.0), (195.9, 238.4))
"""Where pieces lie on A4 and on Letter, mm."""


def guide(cake: Cake) -> Piece:
    """Return the circle guide of a cake."""
    return next(piece for piece in pieces_of(cake) if piece.kind == "circle-guide")


@given(cakes())
def test_each_circle_of_the_cake_has_a_hole_at_its_radius(cake: Cake) -> None:
    """The distance from pivot to hole is the radius, and no circle is without one.

    A cake without circles has no strip.
    """
    if not circles(build_stack(cake)):
        assert all(piece.kind != "circle-guide" for piece in pieces_of(cake))
        return
    piece = guide(cake)
    found = sorted(math.hypot(*hole) for hole in holes(piece))
    assert found == pytest.approx(sorted(piece.values["radii_mm"]), abs=1e-9)  # type: ignore[arg-type]
    for circle in circles(build_stack(cake)):
        assert min(abs(radius - circle.radius) for radius in found) < 0.051


@st.composite
def some_holes(draw: st.DrawFn) -> list[Hole]:
    """Draw holes of growing radius, some of nearly one, with names of every length."""
    near = draw(st.floats(30, 600))
    radius = st.one_of(st.floats(20, 700), st.floats(near - 5, near + 5))
    radii = draw(st.lists(radius, min_size=1, max_size=14, unique_by=lambda each: round(each, 1)))
    widths = draw(st.lists(st.floats(20, 90), min_size=len(radii), max_size=len(radii)))
    return [Hole(*each) for each in zip(sorted(radii), widths, strict=True)]


@given(some_holes())
def test_holes_keep_their_radius_and_names_keep_apart(holes: list[Hole]) -> None:
    """Whatever the radii: exact, holes at their least gap, names clear of each other and holes."""
    laid = strip(holes, (16.0, 10.0))
    for hole, spot in zip(holes, laid.spots, strict=True):
        assert math.hypot(*spot.hole) == pytest.approx(hole.radius, abs=1e-9)
    for one, other in combinations(laid.spots, 2):
        assert math.dist(one.hole, other.hole) >= LEAST_GAP - 0.1
    boxes = [written(*each) for each in zip(laid.spots, holes, strict=True)]
    assert all(laid.box.contains(box) for box in boxes)
    assert not any(one.intersection(other) for one, other in combinations(boxes, 2))
    assert all(off(box, spot.hole) > HOLE for box in boxes for spot in laid.spots)
    assert all(off(box, (0.0, 0.0)) > 2 for box in boxes)


def written(spot: Spot, hole: Hole) -> Box:
    """Return what a name takes, from its capitals to its descenders, about its mid-line."""
    x, y = spot.name
    start = x - hole.name if spot.before else x
    return Box(start, y - 1.7, start + hole.name, y + 1.0)


@pytest.mark.parametrize(
    ("name", "widest"),
    [
        ("lantern-birthday", 18),
        ("paper-garden", 18),
        ("golden-wedding", 28),
        ("lighthouse-farewell", 48),
    ],
)
def test_a_strip_is_no_wider_than_its_names_need(name: str, widest: float) -> None:
    """Three circles and eleven take one as narrow as may be; twenty-two, most alike, a wider."""
    assert min(guide(sample(name)).size.size) == pytest.approx(widest)


def tall() -> Cake:
    """Return seven draped tiers on a drum: twenty-nine circles."""
    named = zip(TIERS, range(14, 0, -2), strict=True)
    tiers = (
        f"[[tier]]\nname = '{name}'\nsize = {size}\ndepth = {min(size, 4)}\n"
        for name, size in named
    )
    return cake_of(f"title = 'Tall'\nunit = 'in'\n[drum]\nsize = 18\n{''.join(tiers)}")


@pytest.mark.parametrize(
    "cake",
    [*map(sample, ("harbour-wedding", "golden-wedding", "starter")), tall()],
    ids=lambda cake: cake.title,
)
def test_a_strip_in_parts_is_cut_between_its_names(cake: Cake) -> None:
    """Neither a match line nor a mark on it meets a name or a hole, whichever way parts lie."""
    piece = guide(cake)
    x0, y0 = pivot(piece)
    things = [label.box for label in piece.drawing.labels]
    things += [Box.round([(x + x0, y + y0)]).expanded(HOLE) for x, y in holes(piece)]
    lines = [x for field in FIELDS for x in splits(piece, *field)[0].lines_x]
    assert lines
    assert all(x - ARM > box.x1 or x + ARM < box.x0 for box in things for x in lines)


@pytest.mark.parametrize(
    ("paper", "share"), [((210, 297), 1), ((148, 210), 0.85)], ids=["A4", "A5"]
)
@pytest.mark.parametrize("cake", [tall(), sample("harbour-wedding")], ids=lambda cake: cake.title)
def test_a_name_is_printed_at_its_own_hole(
    cake: Cake, paper: tuple[float, float], share: float
) -> None:
    """Whatever the paper, no name is moved to where it would name another hole, but cut short."""
    piece = guide(cake)
    full = {label.text: label for label in names(piece)}
    pack = make_pack(make_plan(cake), Paper("any", *paper), pieces=[piece])
    printed = 0
    for sheet in pack.sheets:
        for label in sheet.drawing.labels if sheet.windows else ():
            of = [full[text] for text in full if text.startswith(label.text.partition(" (")[0])]
            if of and label.size == SMALL and " in" in label.text:
                printed += 1
                ways = product(of, sheet.windows)
                assert any(is_at_home(label, name, window) for name, window in ways), label.text
    assert printed >= share * len(full)


def is_at_home(label: Label, of: Label, window: Window) -> bool:
    """Tell whether a label on a sheet starts, or ends, where that of the piece does."""
    home = of.transformed(window.to_sheet)
    ends = (label.box.centre, replace(home, text=label.text).box.centre)
    return math.dist(*ends) < 0.01


def test_small_circles_of_nearly_one_radius_keep_their_radius() -> None:
    """Six circles of 25 mm across, a fifth apart, lie in lanes one above another."""
    piece = guide(cake_of(small_tiers(6)))
    found = sorted(math.hypot(*hole) for hole in holes(piece))
    assert found[:6] == pytest.approx([12.5, 12.6, 12.7, 12.8, 12.9, 13.0], abs=1e-9)
    assert piece.size.size < (100, 31)


def test_more_small_circles_than_lanes_lie_on_the_far_side_of_the_pivot() -> None:
    """Each of ten keeps its radius, its name and its distance from the others."""
    piece = guide(cake_of(small_tiers(10)))
    found = holes(piece)
    radii = sorted(math.hypot(*hole) for hole in found)
    assert radii == pytest.approx(sorted(piece.values["radii_mm"]), abs=1e-9)  # type: ignore[arg-type]
    assert len(names(piece)) == len(found) == 11
    assert min(math.dist(*pair) for pair in combinations(found, 2)) >= LEAST_GAP - 0.1
    assert min(x for x, _ in found) < 0


def small_tiers(count: int) -> str:
    """Return tiers from 25 mm across, each a fifth of a mm wider than the one on it."""
    return "".join(
        f"[[tier]]\nsize = '{25 + place / 5} mm'\ndepth = '20 mm'\ncover = 'none'\ncoating = 0\n"
        for place in reversed(range(count))
    )


def test_every_hole_has_its_name() -> None:
    """Each hole has a label, and the name tells width and whose circle it is."""
    piece = guide(cake_of("[[tier]]\nname = 'lower'\nsize = '8 in'\ndepth = '4 in'"))
    words = [label.text for label in piece.drawing.labels]
    assert "8 in (203.2 mm): lower board, bare" in words
    assert "8 11/16 in (221.2 mm): lower covered" in words
    assert len(names(piece)) == len(holes(piece))


def test_a_long_name_stands_in_full() -> None:
    """A tier with a long name whose circles share a hole: nothing of it is left out."""
    tier = "name = 'the tier with the longest name'\ncover = 'none'\ncoating = 0"
    piece = guide(cake_of(f"[[tier]]\nsize = '8 in'\ndepth = '4 in'\n{tier}"))
    assert "board, bare, coated, covered" in " ".join(label.text for label in names(piece))


def test_a_guide_of_many_circles_is_not_tried_for_ever(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where circles leave no gap for a match line, the search ends; every hole has its place."""
    placed = []

    def counted(*given: Any) -> Any:  # noqa: ANN401 (what it wraps)
        placed.append(given[0])
        return ways(*given)

    ways = circle_lanes._ways
    monkeypatch.setattr(circle_lanes, "_ways", counted)
    many = [Hole(40 + 1.7 * number, 35 + number * 7 % 40) for number in range(120)]
    laid = strip(many, (20.0, 12.0))
    assert [math.hypot(*spot.hole) for spot in laid.spots] == pytest.approx(
        [hole.radius for hole in many], abs=1e-9
    )
    assert len(placed) < circle_lanes.SEARCH + 60 * len(many)
