"""Templates on the fold: unfolded they are the whole piece, and nothing else is folded."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import cache

import pytest
import shapely
from fontTools.misc.transform import Identity, Transform
from hypothesis import given, reject, settings
from hypothesis import strategies as st

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.papers import PAPERS
from templates_gen.cover.pack import make_pack
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.mirror import Mirror, half_outline, is_same, merged_contours
from templates_gen.geometry.path import Edge, Path, line
from templates_gen.plan import make_plan
from templates_gen.printing.fold_marks import IN
from templates_gen.printing.on_fold import mirrors_of, on_fold
from templates_gen.printing.portions_on_fold import portions_on_fold, unbroken
from templates_gen.printing.strip_in_four import strip_in_four
from templates_gen.printing.templates import templates
from tests.cakes import SAMPLES, cake, one_tier, pieces_of, sample_plan
from tests.strategies import cakes

ADDED = (Role.ON_FOLD, Role.NOTE)
"""Lines that a template has besides those of its piece."""


def unfolded(part: Piece) -> Drawing:
    """Return the lines of a template and of its images, in the frame of the whole piece."""
    assert part.unfolding is not None
    drawing = Drawing(part.drawing.strokes)
    for mirror in part.unfolding.mirrors:
        drawing += drawing.transformed(mirror.transform)
    return drawing.transformed(Transform(1, 0, 0, 1, *part.unfolding.origin))


def by_role(drawing: Drawing) -> dict[Role, list[Path]]:
    """Return the paths of each role."""
    found: dict[Role, list[Path]] = defaultdict(list)
    for stroke in drawing.strokes:
        found[stroke.role].append(stroke.path)
    return found


def edges_of(paths: Iterable[Path], mirrors: Iterable[Mirror] = ()) -> list[Edge]:
    """Return every line and cubic of some paths, in parts where it crosses a mirror line."""
    edges = [edge for path in paths for found, _ in merged_contours(path) for edge in found]
    for mirror in mirrors:
        edges = [part for edge in edges for part in mirror.split(edge)]
    return edges


def lines_of(paths: Iterable[Path]) -> shapely.MultiLineString:
    """Return paths as lines of points."""
    return shapely.MultiLineString([points for path in paths for points, _ in sampled(path)])


def is_whole(part: Piece, piece: Piece) -> None:
    """Check: a template unfolded is its piece, line by line, and goes round as much."""
    assert part.unfolding is not None
    x, y = part.unfolding.origin
    mirrors = [Mirror(each.axis, x if each.axis == "x" else y) for each in part.unfolding.mirrors]
    found, wanted = by_role(unfolded(part)), by_role(piece.drawing)
    assert {role for role in found if role not in ADDED} == {*wanted} - {*ADDED}
    for role, paths in wanted.items():
        ours, theirs = edges_of(found[role]), edges_of(paths, mirrors)
        assert is_same(theirs, ours, Identity), (piece.id, role)
        if role not in ADDED:
            assert is_same(ours, theirs, Identity), (piece.id, role)
            assert lines_of(found[role]).hausdorff_distance(lines_of(paths)) < 0.05
    halves = 2 ** len(mirrors)
    assert part.area.area * halves == pytest.approx(piece.area.area, rel=1e-4)
    assert part.full_size == piece.size.size


def made(cake: Cake) -> tuple[Piece, ...]:
    """Return the pieces of a random cake that can be made."""
    try:
        return pieces_of(cake)
    except CakeError:
        reject()


def is_its_own_image(piece: Piece, mirrors: Iterable[Mirror]) -> None:
    """Check: all points of the lines of a piece have their image in a mirror line among them."""
    lines = lines_of(stroke.path for stroke in piece.drawing.strokes)
    for mirror in mirrors:
        image = shapely.affinity.affine_transform(lines, _matrix(mirror.transform))
        assert lines.hausdorff_distance(image) < 0.05, piece.id


def _matrix(map_: Transform) -> list[float]:
    return [map_.xx, map_.yx, map_.xy, map_.yy, map_.dx, map_.dy]


def is_folded_in_four(part: Piece, strip: Piece) -> None:
    """Check: unfolded, a quarter strip cuts what the strip is, and marks whatever it marks.

    A line for one pair of layers is unfolded with the others to its true place too.
    """
    assert part.unfolding is not None
    found, wanted = by_role(unfolded(part)), by_role(strip.drawing)
    fold, front = part.unfolding.mirrors
    x, _ = part.unfolding.origin
    mirrors = [Mirror("x", x + at) for at in (fold.at, front.at, 2 * front.at)]
    for role, paths in wanted.items():
        ours, theirs = edges_of(found[role]), edges_of(paths, mirrors)
        assert is_same(theirs, ours, Identity), (strip.id, role)
    inner = front.at + x
    cut = [e for e in edges_of(found[Role.CUT]) if not all(abs(p[0] - inner) < 1e-6 for p in e)]
    assert is_same(cut, edges_of(wanted[Role.CUT], mirrors), Identity)
    assert part.area.area * 4 == pytest.approx(strip.area.area, rel=1e-9)


@settings(max_examples=10)
@given(cakes())
def test_a_template_unfolds_to_the_whole_piece(cake: Cake) -> None:
    """Whatever is folded, its lines and their mirror images are those of the piece, to 1e-6 mm.

    And nothing is folded that is not its own mirror image.
    """
    for piece in made(cake):
        is_its_own_image(piece, mirrors_of(piece))
        part, quarter = on_fold(piece), strip_in_four(piece)
        if part is not None:
            is_whole(part, piece)
        if quarter is not None:
            is_folded_in_four(quarter, piece)


def portion_guide(cuts: str, lines: str) -> tuple[Piece, Piece | None]:
    """Return the portion guide of a tier with its cuts under its words too, and its part."""
    plan = make_plan(cake(f"[portions]\ncuts = '{cuts}'\n[[tier]]\ndepth = '4 in'\n{lines}"))
    (piece,) = (each for each in plan.pieces if each.kind == "portions")
    found = unbroken(piece, plan)
    assert found is not None
    return found[0], portions_on_fold(piece, plan)


ROUND, OVAL = "size = '10 in'\n", "shape = 'oval'\nsize = '12 in'\nshort = '8 in'\n"
SQUARE, PENTAGON = "shape = 'square'\nsize = '9 in'", "shape = 'polygon'\nsides = 5\nsize = '9 in'"


@pytest.mark.parametrize(
    ("cuts", "lines", "folds"),
    [
        *(("grid", lines, 2) for lines in (ROUND, OVAL, SQUARE)),
        *(("rings", lines, 1) for lines in (ROUND, OVAL, PENTAGON)),
        ("grid", PENTAGON, 1),
        ("rings", SQUARE, 2),
    ],
)
def test_a_portion_guide_unfolds_to_the_whole(cuts: str, lines: str, folds: int) -> None:
    """Its cuts are those of the whole guide to 1e-6 mm, but for where they stop for its words."""
    whole, part = portion_guide(cuts, lines)
    unstopped = on_fold(whole)
    assert part is not None
    assert unstopped is not None
    assert part.unfolding is not None
    assert len(part.unfolding.mirrors) == folds
    is_whole(unstopped, whole)
    assert part.outline == unstopped.outline
    ours, all_of_it = (lines_of(by_role(each.drawing)[Role.GUIDE]) for each in (part, unstopped))
    assert ours.difference(all_of_it.buffer(1e-6)).is_empty
    words = shapely.union_all([shapely.box(*each.box) for each in part.drawing.labels])
    stopped = all_of_it.difference(ours.buffer(1e-6))
    assert stopped.length > 0
    assert words.buffer(1.5).covers(stopped)
    assert not words.intersects(ours)


@pytest.mark.parametrize(
    ("cuts", "shape", "size", "arrows"),
    [
        # four rows of 2 in have a cut along either fold, three have none across
        ("grid", "square", "8 in", "←↓"),
        ("grid", "square", "6 in", "←"),
        # rings of 14, 10 and 4 parts have one at front and back, that of 7 at the back alone
        ("rings", "round", "10 in", "←←←←←←←"),
    ],
)
def test_an_arrow_points_to_each_cut_on_a_fold(
    cuts: str, shape: str, size: str, arrows: str
) -> None:
    """The line of the fold hides it."""
    _, part = portion_guide(cuts, f"shape = '{shape}'\nsize = '{size}'")
    assert part is not None
    assert part.use.endswith("cut along the holes, and along the fold at each arrow.")
    said = [label.text for label in part.drawing.labels if label.text.endswith(" cut")]
    assert "".join(sorted(text[0] for text in said)) == arrows


def test_a_round_wrap_is_a_quarter_strip() -> None:
    """Half the trim lies at either end, so that its folds are alike; marks say on which layers."""
    wrap = piece(one_tier("name = 'cake'\ncover = 'panelled'", size="10 in"), "cake/wrap")
    part = strip_in_four(wrap)
    assert part is not None
    is_folded_in_four(part, wrap)
    assert part.size.width == pytest.approx(wrap.size.width / 4)
    words = " ".join(label.text for label in part.drawing.labels)
    for said in ("both ends and the front fold here", "on the two end layers"):
        assert said in words


def test_a_strip_with_an_opening_is_no_quarter() -> None:
    """A hole that is cut out first at front and back is cut on no fold; its outline may be."""
    hole = "dummy = true\ncover = 'panelled'\n[tier.opening]\nradius = '30 mm'\n"
    (wrap,) = [each for each in pieces_of(one_tier(hole + "cut = 'before'")) if is_wrap(each)]
    assert strip_in_four(wrap) is None
    assert on_fold(wrap) is not None
    (wrap,) = [each for each in pieces_of(one_tier(hole)) if is_wrap(each)]
    part = strip_in_four(wrap)
    assert part is not None
    is_folded_in_four(part, wrap)


@pytest.mark.parametrize(
    ("depth", "radius"), [("4 in", "20 mm"), ("4 in", "30 mm"), ("6 in", "40 mm")]
)
def test_a_line_to_trim_says_on_which_layers_it_is(depth: str, radius: str) -> None:
    """The words stand along it, also where a hole leaves little room."""
    hole = f"dummy = true\ncover = 'panelled'\n[tier.opening]\nradius = '{radius}'\n"
    (wrap,) = [each for each in pieces_of(one_tier(hole, depth=depth)) if is_wrap(each)]
    part = strip_in_four(wrap)
    assert part is not None
    strokes = [each.path.bounds for each in part.drawing.strokes if each.role is Role.TRIM]
    (trim,) = [box for box in strokes if box.width < 1]
    said = [each.box for each in part.drawing.labels if each.text == "on the two end layers"]
    assert any(trim.expanded(1.5).intersection(box) for box in said)


def is_wrap(made: Piece) -> bool:
    """Tell whether a piece is a wrap."""
    return made.kind == "wrap"


def piece(cake: Cake, name: str) -> Piece:
    """Return a piece of a cake by its id."""
    return next(each for each in pieces_of(cake) if each.id == name)


DISC = piece(one_tier("name = 'cake'\ncover = 'panelled'", size="10 in"), "cake/disc")


def test_a_round_disc_is_a_quarter() -> None:
    """A disc is its own image both ways: its template has an edge on either fold."""
    part = on_fold(DISC)
    assert part is not None
    assert part.unfolding is not None
    assert [mirror.axis for mirror in part.unfolding.mirrors] == ["x", "y"]
    assert part.size.width < 0.51 * DISC.size.width
    words = {label.text for label in part.drawing.labels}
    assert {"fold parchment in 4", "front / back", "left / right"} <= words


@pytest.mark.parametrize("off", [2e-6, 1e-3, 1.0])
@pytest.mark.parametrize("at", [(40.0, 20.0), (90.0, 127.0)])
def test_one_line_on_one_side_undoes_the_fold(off: float, at: tuple[float, float]) -> None:
    """A short line whose image is missing, or off by two millionths of a mm, is seen."""
    box = DISC.outline.bounds
    middle, _ = box.centre

    def marked(shift: float) -> Piece:
        x, y = at
        left, right = middle - x, middle + x
        pair = [line((left, y), (left, y + 5)), line((right + shift, y), (right + shift, y + 5))]
        strokes = tuple(Stroke(path, Role.GUIDE) for path in pair)
        return replace(DISC, drawing=DISC.drawing + Drawing(strokes))

    assert "x" in [mirror.axis for mirror in mirrors_of(marked(0.0))]
    assert "x" not in [mirror.axis for mirror in mirrors_of(marked(off))]


def test_letters_and_loose_lines_are_never_folded() -> None:
    """A circle guide, letters and a collar with words are not their own image."""
    kinds = {"circle-guide", "letter", "lettering", "scatter"}
    for each in sample_plan("paper-garden").pieces:
        if each.kind in kinds:
            assert on_fold(each) is None


@given(st.floats(20, 200))
def test_half_a_round_outline_is_one_contour(across: float) -> None:
    """Wherever it starts, and whatever rounding leaves open there."""
    round_ = circle((across / 2, across / 2), across / 2)
    half = half_outline(round_, Mirror("x", round_.bounds.centre[0]))
    assert len(list(merged_contours(half))) == 1
    assert region(half).area == pytest.approx(region(round_).area / 2, rel=1e-4)


def test_words_along_a_curve_keep_along_it_at_their_mirror_image() -> None:
    """On a quarter, names set slantwise cross no line of the piece: as on the whole."""
    (whole,) = [
        each for each in sample_plan("harbour-wedding").pieces if each.id == "drum/placement-guide"
    ]
    part = on_fold(whole)
    assert part is not None
    slanted = [label for label in part.drawing.labels if label.turn % 90]
    assert {label.text for label in slanted} == {"bare", "bottom covered"}
    assert not [label.text for label in slanted if crossed(part, label)]
    assert [each for each in slanted if crossed(part, replace(each, turn=-each.turn))]


def crossed(piece: Piece, label: Label) -> bool:
    """Tell whether a word lies across a line of a piece."""
    own = shapely.box(0, 0, label.width, 0.5 * label.size)
    frame = label.frame
    corners = [frame.transformPoint(corner) for corner in own.exterior.coords]
    lines = lines_of(stroke.path for stroke in piece.drawing.strokes)
    return bool(shapely.Polygon(corners).intersects(lines))


HOLED = (
    "dummy = true\ncover = 'panelled'\nfondant = '4 mm'\n"
    "[tier.opening]\nradius = '30 mm'\nheight = '50 mm'\n"
)


@cache
def many() -> tuple[Piece, ...]:
    """Return the pieces of the samples, of a tier with a hole and of one on pillars."""
    return (
        *(each for path in SAMPLES for each in sample_plan(path.stem).pieces),
        *pieces_of(one_tier(HOLED, size="160 mm", depth="100 mm")),
        *pieces_of(one_tier("[[tier]]\nsize = '4 in'\ndepth = '3 in'\nraised = '60 mm'")),
    )


def frames(part: Piece) -> list[shapely.Polygon]:
    """Return what the brackets of a part stand round, to the fold edge."""
    notes = [stroke.path.bounds for stroke in part.drawing.strokes if stroke.role is Role.NOTE]
    return [
        shapely.box(*box)
        for box in notes
        if (box.x0, box.x1) == pytest.approx((0.4, IN))
        or (box.y0, box.y1) == pytest.approx((0.4, IN))
    ]


@pytest.mark.parametrize("fold", [on_fold, strip_in_four])
def test_no_words_but_its_own_stand_within_a_bracket(fold: Callable[[Piece], Piece | None]) -> None:
    """Whatever else is said on a template on the fold, and a bracket is on its paper."""
    parts = [part for part in map(fold, many()) if part is not None]
    assert len(parts) > 5
    for part in parts:
        assert frames(part)
        for frame in frames(part):
            assert shapely.buffer(part.paper, 0.01).covers(frame), part.id
            for label in part.drawing.labels:
                assert not shapely.box(*label.box.expanded(-0.01)).intersects(frame), label.text


def test_the_ends_of_a_strip_are_named_beside_their_edge() -> None:
    """Along it, even where the outline of a hole comes to it."""
    (wrap,) = [
        each for each in many() if is_wrap(each) and each.tier == "tier 1" and "hole" in each.use
    ]
    part = strip_in_four(wrap)
    assert part is not None
    (label,) = [each for each in part.drawing.labels if each.text.startswith("both ends")]
    assert label.turn == 90
    assert part.outline.bounds.x1 - label.box.x1 < 3


def test_both_edges_of_a_lining_are_named_at_their_one_line() -> None:
    """Folded, its front and its back edge are one."""
    (lining,) = [each for each in many() if each.kind == "lining" and each.tier == "tier 1"]
    part = on_fold(lining)
    assert part is not None
    assert "front edge / back edge" in [label.text for label in part.drawing.labels]


def test_no_bracket_lies_on_the_mark_of_a_dowel_or_a_pillar() -> None:
    """One that stands on the fold, as half a circle: its number is not taken for the bracket's."""
    guides = [on_fold(each) for each in many() if each.kind == "placement-guide"]
    marked = 0
    for part in filter(None, guides):
        strokes = [each for each in part.drawing.strokes if each.role is Role.GUIDE]
        small = [each.path for each in strokes if max(each.path.bounds.size) < 30]
        marked += bool(small)
        for frame in frames(part):
            assert not frame.intersects(lines_of(small)), part.id
    assert marked > 2


def test_shapes_to_cut_lie_on_a_sheet_that_is_not_folded() -> None:
    """Stars in rows are their own mirror image, and each has its number."""
    spec = one_tier("[[tier.scatter]]\nshape = 'star'\nsize = '15 mm'\ncount = 20")
    sheets = [each for each in templates(make_plan(spec)) if each.kind == "scatter"]
    assert [each.unfolding for each in sheets if each.printed] == [None]
    said = {label.text for label in sheets[0].drawing.labels}
    assert {str(number) for number in range(1, 21)} <= said


def test_a_sheet_of_shapes_is_named_once() -> None:
    """A caption on it has its title, which needs no second place there."""
    spec = one_tier("[[tier.scatter]]\nshape = 'leaf'\nsize = '18 mm'\ncount = 16")
    pack = make_pack(make_plan(spec), PAPERS["a4"])
    said = [label.text for sheet in pack.sheets if sheet.windows for label in sheet.drawing.labels]
    assert sum("leaf, numbers 1 to 16" in text for text in said) == 1


def test_a_quarter_names_front_and_back_at_one_mark() -> None:
    """Also where a pillar stands so near the mark that one of the names was moved aside."""
    two = "[[tier]]\nsize = '8.5 in'\ndepth = '5 in'\n[[tier]]\nsize = '7 in'\ndepth = '4 in'\n"
    plan = make_plan(cake(f"{two}raised = '3 in'\n"))
    (guide,) = (part for part in templates(plan) if part.kind == "board-guide")
    assert guide.unfolding is not None
    assert len(guide.unfolding.mirrors) == 2
    names = {"front", "back", "left", "right"}
    assert not names & {label.text for label in guide.drawing.labels}
