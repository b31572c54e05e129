"""Placement guides: one for each tier and the surface it stands on, with warnings."""

from __future__ import annotations

import pytest
import shapely
import shapely.affinity

from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.path import Path
from templates_gen.plan import make_plan
from templates_gen.tiers.widths import width_words
from tests.cakes import cake, one_tier, pieces_of

TWO = "[[tier]]\nname = 'lower'\nsize = '10 in'\ndepth = '4 in'\n[[tier]]\nname = 'upper'\n{}"


def test_each_tier_has_a_sheet_on_what_it_stands_on() -> None:
    """The drum has the lower tier's outline, the lower tier the upper one's, covered."""
    text = TWO.format("size = '8 in'\ndepth = '4 in'")
    sheets = {
        piece.tier: piece for piece in pieces_of(cake(text)) if piece.kind == "placement-guide"
    }
    assert list(sheets) == ["drum", "lower"]
    assert sheets["drum"].values["outline_across_mm"] == pytest.approx(254 + 18)
    assert sheets["lower"].values["outline_across_mm"] == pytest.approx(203.2 + 18)
    assert sheets["lower"].size.width == pytest.approx(254 + 18, abs=1e-3)


def test_a_drum_may_go_without_a_sheet() -> None:
    """Sheet = false leaves the drum's placement guide out, and no other."""
    text = "[drum]\nguide = false\n" + TWO.format("size = '8 in'\ndepth = '4 in'")
    scored = [piece.tier for piece in pieces_of(cake(text)) if piece.kind == "placement-guide"]
    assert scored == ["lower"]


@pytest.mark.parametrize(
    ("upper", "says"),
    [
        ("size = '9.9 in'\ndepth = '4 in'", "only 1/16 in (1.3 mm)"),
        ("size = '6 in'\ndepth = '4 in'\nboard = '8 in'", "will show"),
        ("size = '8 in'\ndepth = '4 in'\nboard = '3 in'", "less than half"),
    ],
    ids=["hardly any room", "wide board", "small board"],
)
def test_a_warning_says_how_a_tier_stands(upper: str, says: str) -> None:
    """Little clearance, a board that shows, a board too small: a warning that names the tier."""
    found = [warning.text for p in pieces_of(cake(TWO.format(upper))) for warning in p.warnings]
    assert [text for text in found if text.startswith("upper:") and says in text]


@pytest.mark.parametrize("turn", [0, 45, 90, 135, 180, -45, -100, -135])
def test_no_word_lies_on_another(turn: int) -> None:
    """However a tier is turned, the mark of its front keeps clear of the title."""
    text = TWO.format(
        f"size = '6 in'\ndepth = '4 in'\n[tier.position]\nturn = {turn}\nright = '1 cm'"
    )
    (sheet,) = (
        p for p in pieces_of(cake(text)) if p.kind == "placement-guide" and p.tier == "lower"
    )
    boxes = [label.box for label in sheet.drawing.labels if label.text.strip()]
    labels = [label.text for label in sheet.drawing.labels if label.text.strip()]
    assert not [
        (labels[i], labels[j])
        for i, box in enumerate(boxes)
        for j in range(i)
        if box.expanded(-0.2).intersection(boxes[j])
    ]


def test_a_usual_stack_has_no_warnings() -> None:
    """There is no warning of one tier on its usual drum."""
    assert not [warning for piece in pieces_of(one_tier()) for warning in piece.warnings]


@pytest.mark.parametrize(
    "lines", ["right = '60 mm'", "back = '60 mm'\nturn = 45", "back = '60 mm'\nturn = 180"]
)
def test_what_reaches_over_the_edge_is_not_drawn(lines: str) -> None:
    """Lines and words of a tier that reaches over its drum end at the edge of the drum."""
    drum = "[drum]\nsize = '10 in'\n[[tier]]\nsize = '8 in'\ndepth = '4 in'\ncorner = '5 mm'\n"
    text = f"{drum}shape = 'square'\n[tier.position]\noverhang = '90 mm'\n{lines}"
    (sheet,) = (piece for piece in pieces_of(cake(text)) if piece.kind == "placement-guide")
    edge = sheet.outline.bounds.expanded(1e-6)
    assert all(edge.contains(stroke.path.bounds) for stroke in sheet.drawing.strokes)
    assert all(edge.contains(label.box) for label in sheet.drawing.labels)


PETALS = {"round": "", "petal": "shape = 'petal'\nlobes = 5\n", "square": "shape = 'square'\n"}


@pytest.mark.parametrize("upper", PETALS)
@pytest.mark.parametrize("lobes", [5, 6, 8, 12])
@pytest.mark.parametrize("turn", [0, 25])
def test_on_petals_every_line_is_whole(upper: str, lobes: int, turn: int) -> None:
    """Outline and board of the upper tier go all round, both axes all across, dowels stand inside.

    By shapely, from the outlines of the solids.
    """
    text = TWO.format(
        f"{PETALS[upper]}size = '5 in'\ndepth = '4 in'\n[tier.position]\nturn = {turn}\n"
    ).replace("depth = '4 in'\n[[", f"shape = 'petal'\nlobes = {lobes}\ndepth = '4 in'\n[[")
    plan = make_plan(cake(text))
    (guide,) = (p for p in plan.pieces if p.kind == "placement-guide" and p.tier == "lower")
    low, high = plan.stack.tiers
    edge = ring_of(low.covered.rim.path())
    assert ring_of(guide.outline).area == pytest.approx(edge.area, rel=1e-4)
    wanted = {
        Role.SCORE: ring_of(high.covered.foot.path()).length,
        Role.GUIDE: ring_of(high.board.path()).length,
        Role.CUT: edge.length,
    }
    for role, length in wanted.items():
        longest = max(length_of(s.path) for s in guide.drawing.strokes if s.role is role)
        assert longest == pytest.approx(length, rel=1e-3)
    # marks at the edge lie on the axes, which then leave them out
    drawn = shapely.MultiLineString(
        [points for s in guide.drawing.strokes for points, _ in sampled(s.path, 0.005)]
    ).buffer(0.02)
    for ends in AXES:
        across = edge.intersection(shapely.LineString(ends))
        axis = shapely.affinity.translate(across, -edge.bounds[0], -edge.bounds[1])
        assert drawn.intersection(axis).length == pytest.approx(across.length, abs=0.1)
    inside = ring_of(high.covered.foot.path())
    inside = shapely.affinity.rotate(inside, turn, origin=(0, 0))
    support = plan.stack.seats[1].support
    assert support is not None
    for place in support.places:
        assert inside.covers(shapely.Point(place).buffer(3))


AXES = (((-500, 0), (500, 0)), ((0, -500), (0, 500)))


def ring_of(path: Path) -> shapely.Polygon:
    """Return a closed path as a polygon of its own."""
    ((points, _),) = sampled(path, 0.005)
    return shapely.Polygon(points)


def length_of(path: Path) -> float:
    """Return how long a path is."""
    return sum(shapely.LineString(points).length for points, _ in sampled(path, 0.005))


def test_a_hexagon_is_named_by_both_its_sizes() -> None:
    """As in the list of tiers: across flats and corner to corner."""
    upper = "[[tier]]\nsize = '6 in'\nshape = 'polygon'\nsides = 6\ndepth = '4 in'"
    stack = make_plan(cake(f"[[tier]]\nsize = '10 in'\ndepth = '4 in'\n{upper}"))
    (guide,) = [each for each in stack.pieces if each.title == "tier 1: placement guide"]
    said = " ".join(each.text for each in guide.drawing.labels).replace("\u00a0", " ")
    foot = stack.stack.tiers[1].covered.foot
    assert stack.terms.text(f"for tier 2: {width_words(foot)}") in said
    assert "across flats" in said
