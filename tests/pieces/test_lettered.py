"""Lettering: where it stands on sides and tops, its letters to cut, its mirror."""

from __future__ import annotations

import math
import re

import pytest
import shapely
from fontTools.misc.transform import Transform
from shapely.geometry.base import BaseGeometry

from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import filled
from templates_gen.geometry.box import Box, union_box
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import DecoratedTier, build_stack
from templates_gen.guides.lettering import on_side, on_top
from templates_gen.plan import make_plan
from tests.cakes import cake, one_tier, pieces_of
from tests.lengths import in_both_units


def tier(lines: str) -> DecoratedTier:
    """Return a tier 8 by 4 in with lettering."""
    return build_stack(one_tier(f"[[tier.lettering]]\n{lines}")).tiers[0]


def box_of(lines: str) -> Box:
    """Return the box round lettering on the side, in (u, v)."""
    (guide,) = tier(lines).guides
    return union_box(stroke.path.bounds for stroke in guide.drawing.strokes)


def pieces(lines: str) -> dict[str, Piece]:
    """Return the pieces of a tier with lettering by id."""
    made = pieces_of(one_tier(f"[[tier.lettering]]\n{lines}"))
    return {piece.id: piece for piece in made}


FRONT = math.pi * (203.2 + 18) / 2


@pytest.mark.parametrize("font", ["script", "bold"])
@pytest.mark.parametrize("aside", [0, 60, -140])
def test_it_is_centred_where_asked(font: str, aside: int) -> None:
    """The middle of its ink is the front, or so much to the right or left of it."""
    box = box_of(f"text = 'Ada & Joe'\nfont = '{font}'\nsideways = '{aside} mm'")
    assert box.centre[0] == pytest.approx(FRONT + aside, abs=0.01)


def test_it_is_as_wide_and_as_deep_down_as_asked() -> None:
    """Width from ink to ink; the feet of H and I on the level."""
    box = box_of("text = 'HIH'\nfont = 'bold'\nwidth = '150 mm'\nlevel = '80 mm'")
    assert box.width == pytest.approx(150, abs=0.01)
    assert box.y1 == pytest.approx(80, abs=1.0)  # round ends hang over by an 80th


def test_left_alone_it_stands_in_the_middle_of_the_side() -> None:
    """As much above as below."""
    box = box_of("text = 'HAN'\nfont = 'bold'")
    assert box.centre[1] == pytest.approx((101.6 + 9) / 2, abs=0.01)


def test_it_reads_from_outside() -> None:
    """On the paper, u to the right and the rim above, L has its foot to the right and below."""
    collar = pieces("text = 'L'\nfont = 'bold'\ncap_height = '60 mm'")["tier-1/collar"]
    letter = next(
        stroke.path
        for stroke in collar.drawing.strokes
        if stroke.role is Role.PIPE and len(stroke.path.commands) > 8
    )
    area, box = filled(letter), letter.bounds
    foot = shapely.box(box.centre[0], box.y0, box.x1, box.centre[1])
    head = shapely.box(box.centre[0], box.centre[1], box.x1, box.y1)
    assert area.intersection(foot).area > 5 * area.intersection(head).area


def test_each_letter_once_in_the_number_needed() -> None:
    """Anna has one A, two n and one a; the outline of each is its own size."""
    made = pieces("text = 'Anna n'\nfont = 'bold'\ncut = true\ncap_height = '20 mm'")
    letters = [piece for piece in made.values() if piece.kind == "letter"]
    assert {(piece.values["letter"], piece.copies) for piece in letters} == {
        ("A", 1),
        ("n", 3),
        ("a", 1),
    }
    assert len({piece.id.lower() for piece in letters}) == 3
    capital = next(piece for piece in letters if piece.values["letter"] == "A")
    assert capital.size.height == pytest.approx(20, abs=0.5)


def test_a_mirror_shows_the_same_turned_round() -> None:
    """Mirrored once more it fills what the lettering fills."""
    made = pieces("text = 'Joy'\nmirror = true")
    strokes = made["tier-1/lettering-mirror-1"].drawing.strokes
    mirrored = shapely.union_all([filled(s.path) for s in strokes if s.role is Role.PIPE])
    (guide,) = tier("text = 'Joy'").guides
    true = shapely.union_all([filled(stroke.path) for stroke in guide.drawing.strokes])

    def at_origin(area: BaseGeometry, turn: int) -> BaseGeometry:
        turned = shapely.transform(area, lambda xy: xy * [turn, 1])
        x0, y0, _, _ = shapely.bounds(turned)
        return shapely.transform(turned, lambda xy: xy - [x0, y0])

    # one has y up and the other v down, so each is turned over once
    back = at_origin(shapely.transform(mirrored, lambda xy: xy * [1, -1]), -1)
    there = at_origin(true, 1)
    assert back.symmetric_difference(there).area < 1e-3 * there.area
    assert at_origin(mirrored, 1).symmetric_difference(there).area > 0.1 * there.area


def test_along_the_rim_its_feet_are_to_the_edge() -> None:
    """Every letter stands on one circle about the middle, at the front, its head inwards."""
    solid = tier("text = 'HHHHHHH'\nfont = 'bold'\non = 'top'\nline = 'rim'\nlevel = '12 mm'")
    (spec,) = solid.spec.lettering
    lettered = on_top(solid.covered, spec)
    radius = (203.2 + 18) / 2
    for path in lettered.outlines:
        far = shapely.get_coordinates(filled(path))
        reach = [math.hypot(*place) for place in far]
        assert max(reach) == pytest.approx(radius - 12, abs=0.8)
        assert min(reach) == pytest.approx(radius - 32, abs=0.8)
    assert lettered.box.centre[0] == pytest.approx(0, abs=0.3)
    assert lettered.box.y1 < 0


def test_lettering_on_the_top_lies_in_it() -> None:
    """It has a piece of its own, and one that reaches over the edge is refused."""
    made = pieces("text = 'Ada'\non = 'top'\ncap_height = '20 mm'")
    assert made["tier-1/top-lettering-1"].values["cap_height_mm"] == 20
    with pytest.raises(CakeError, match="reaches over the edge"):
        pieces("text = 'Ada'\non = 'top'\nwidth = '300 mm'")


@pytest.mark.parametrize("size", ["width = '300 mm'", "cap_height = '90 mm'"])
def test_the_size_advised_lies_on_the_top(size: str) -> None:
    """What the message says to write fits, and the line it names is the one that was given."""
    text = "text = 'Ada & Joe'\non = 'top'\n"
    with pytest.raises(CakeError) as caught:
        pieces(text + size)
    advice = caught.value.problems[0].advice
    written = re.fullmatch(r'write (\w+ = "\d+ mm") or less, or move it', advice)
    assert written, advice
    assert written[1].split()[0] == size.split()[0]
    assert pieces(text + written[1])


def test_the_size_advised_does() -> None:
    """What the message says to write fits the side."""
    with pytest.raises(CakeError) as caught:
        pieces("text = 'Happily ever after and ever'\ncap_height = '70 mm'")
    advice = caught.value.problems[0].advice.split('"')[1]
    assert pieces(f"text = 'Happily ever after and ever'\ncap_height = '{advice}'")


def test_figures() -> None:
    """Height of capitals and width of the text, those of a second under its number."""
    lines = "text = 'Joy'\nwidth = '60 mm'\n[[tier.lettering]]\ntext = 'Al'\ncap_height = '1 in'"
    values = pieces(lines)["tier-1/collar"].values
    assert values["text_width_mm"] == pytest.approx(60)
    assert values["text_2"] == "Al"
    assert values["text_2_cap_height_mm"] == pytest.approx(25.4)


TAPERED = "top_size = '7 in'"
SLOPED = "shallowest_depth = '4 in'\nslopes_down_to = 'left'"


def letters_on(above: str, lines: str, size: str = "10 in") -> tuple[list[Box], list[Box]]:
    """Return the boxes of letters as they lie on the collar, and as they are cut, upright."""
    made = pieces_of(one_tier(f"{above}\n[[tier.lettering]]\ncut = true\n{lines}", size, "6 in"))
    cut = [piece.size for piece in made if piece.kind == "letter"]
    collar = next(piece for piece in made if piece.kind == "collar")
    drawn = [
        s.path
        for s in collar.drawing.strokes
        if s.role is Role.PIPE and len(s.path.commands) > 8 and s.path.bounds.width < 60
    ]
    return [upright(path) for path in drawn], cut


def upright(path: Path) -> Box:
    """Return the box of a letter turned so that it is narrowest: as an H stands."""
    turns = [Transform().rotate(math.radians(step / 10)) for step in range(-300, 301, 2)]
    return min((path.transformed(turn).bounds for turn in turns), key=lambda box: box.width)


@pytest.mark.parametrize("above", [TAPERED, SLOPED, "shape = 'square'\n" + TAPERED, ""])
@pytest.mark.parametrize("line", ["level", "curve"])
def test_letters_have_their_true_size_on_every_side(above: str, line: str) -> None:
    """As the collar shows them they are as wide and tall as they are cut."""
    lines = (
        f"text = 'HH'\nfont = 'bold'\ncap_height = '22 mm'\nline = '{line}'\ncurve_height = '5 mm'"
    )
    drawn, (cut,) = letters_on(above, lines)
    assert len(drawn) == 2
    for box in drawn:
        assert box.size == pytest.approx(cut.size, abs=0.05)


def test_letters_are_spaced_along_the_true_line() -> None:
    """On a taper two letters are as far apart on the paper, along their line, as they are set."""
    lines = "text = 'H              H'\nfont = 'bold'\ncap_height = '22 mm'"
    solid = build_stack(one_tier(f"{TAPERED}\n[[tier.lettering]]\n{lines}", "10 in", "6 in"))
    (spec,) = solid.tiers[0].spec.lettering
    side = solid.tiers[0].covered.side
    lettered = on_side(solid.tiers[0].covered.side, spec)
    first, *_, last = lettered.line.letters
    boxes = [path.bounds for path in lettered.on_side]
    foot = max(box.y1 for box in boxes)
    apart = (boxes[-1].centre[0] - boxes[0].centre[0]) * side.girth_ratio(foot)
    assert apart == pytest.approx(last.x - first.x, abs=0.3)


def test_lettering_reaching_over_the_foot_of_a_slope_is_refused() -> None:
    """Low at the left, the tier is not as deep there; the message says what level does."""
    lines = "text = 'Hannah'\nfont = 'bold'\nlevel = '135 mm'\nsideways = '-180 mm'"
    cake_ = f"{SLOPED}\n[[tier.lettering]]\n{lines}"
    with pytest.raises(CakeError, match="beyond the foot") as caught:
        pieces_of(one_tier(cake_, "10 in", "6 in"))
    most = int(in_both_units(caught.value.problems[0].allowed)[-1][0])
    assert pieces_of(one_tier(cake_.replace("135", str(most)), "10 in", "6 in"))


@pytest.mark.parametrize(
    ("size", "text", "wide", "caps"),
    [
        ("6 in", "Robin", None, 0.2),
        ("12 in", "Robin", None, 0.2),
        ("6 in", "Congratulations", 0.7, None),
        ("4 in", "Happy birthday, Robin", 0.7, None),
    ],
)
def test_a_name_in_the_middle_of_a_top_fills_it(
    size: str, text: str, wide: float | None, caps: float | None
) -> None:
    """Where no size is said: as tall or as wide as suits the top; a size that is said stays."""
    lines = f"[[tier.lettering]]\ntext = '{text}'\non = 'top'\n"
    (made,) = build_stack(one_tier(lines, size)).tiers[0].letterings_on_top.values()
    across = build_stack(one_tier(lines, size)).tiers[0].covered.rim.across
    if wide:
        assert made.line.box.width == pytest.approx(wide * across)
        assert made.line.cap_height < 0.2 * across
    if caps:
        assert made.line.cap_height == pytest.approx(caps * across)
        assert made.line.box.width < 0.7 * across
    said = one_tier(f"{lines}cap_height = '11 mm'\n", "12 in")
    (same,) = build_stack(said).tiers[0].letterings_on_top.values()
    assert same.line.cap_height == pytest.approx(11)


@pytest.mark.parametrize(
    ("line", "level", "caps"),
    [("rim", None, 20), ("level", "30 mm", 20), ("level", "150 mm", None)],
)
def test_letters_that_are_moved_keep_the_size_that_fills_the_top(
    line: str, level: str | None, caps: float | None
) -> None:
    """Where that has no room, and along the edge, they are 20 mm tall as on a side."""
    at = f"level = '{level}'\n" if level else ""
    lines = f"[[tier.lettering]]\ntext = 'Ada and Joe'\non = 'top'\nline = '{line}'\n"
    (middle,) = build_stack(one_tier(lines, "12 in")).tiers[0].letterings_on_top.values()
    (made,) = build_stack(one_tier(lines + at, "12 in")).tiers[0].letterings_on_top.values()
    assert made.line.cap_height == pytest.approx(caps or middle.line.cap_height)
    assert (middle.line.cap_height > 25) == (line != "rim")


@pytest.mark.parametrize(
    ("size", "text", "round_", "caps"),
    [
        ("14 in", "Robin", None, 31),
        ("6 in", "Congratulations", 0.2, None),
        ("4 in", "A very long good wish to all of you", None, 10),
    ],
)
def test_letters_on_a_side_begin_at_a_size_that_suits_it(
    size: str, text: str, round_: float | None, caps: float | None
) -> None:
    """All seen from the front, or else as small as one pipes them; a size that is said stays."""
    lines = f"depth = '150 mm'\n[[tier.lettering]]\ntext = '{text}'\n"
    spec = f"[[tier]]\nsize = '{size}'\n{lines}"
    (only,) = build_stack(cake(spec)).tiers
    (made,) = only.letterings_on_side.values()
    if round_:
        assert made.line.box.width == pytest.approx(round_ * only.covered.side.girth)
        assert 10 < made.line.cap_height < 20
    if caps:
        assert made.line.cap_height == pytest.approx(caps, rel=0.06)
    (same,) = build_stack(cake(f"{spec}cap_height = '11 mm'\n")).tiers
    (said,) = same.letterings_on_side.values()
    assert said.line.cap_height == pytest.approx(11)


def test_letters_on_a_side_that_have_no_room_as_large_are_smaller() -> None:
    """Near the foot of a deep tier there is room for 20 mm, and not for a fifth of the depth."""
    spec = "[[tier]]\nsize = '12 in'\ndepth = '250 mm'\n[[tier.lettering]]\ntext = 'Ada'\n"
    for level, caps in (("", 51), ("level = '30 mm'\n", 20)):
        (only,) = build_stack(cake(spec + level)).tiers
        (made,) = only.letterings_on_side.values()
        assert made.line.cap_height == pytest.approx(caps, abs=1)


@pytest.mark.parametrize(("line", "is_hidden"), [("level", True), ("rim", False)])
def test_a_name_that_the_tier_above_stands_on_is_told(line: str, is_hidden: bool) -> None:
    """In the middle of a top it is not seen; along the edge of a large one it is."""
    lines = f"[[tier.lettering]]\ntext = 'Ada'\non = 'top'\nline = '{line}'\n"
    lower = f"[[tier]]\nname = 'base'\nsize = '12 in'\ndepth = '4 in'\n{lines}"
    upper = "[[tier]]\nname = 'crown'\nsize = '6 in'\ndepth = '4 in'\n"
    told = {each.key: each.text for each in make_plan(cake(lower + upper)).warnings()}
    assert (("tier", 0, "lettering", 0) in told) == is_hidden
    if is_hidden:
        assert "“crown” stands on the words “Ada”" in told["tier", 0, "lettering", 0]
    assert not make_plan(cake(lower)).warnings()
