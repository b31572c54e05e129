"""What is remembered between edits is what would be made anew."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from hypothesis import assume, given, settings

from templates_gen.bench.bench_list import bench
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.reading import cake_from
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.box import Box, union_box
from templates_gen.geometry.svg_path import read_path
from templates_gen.guides.decorated import DecoratedTier, build_stack
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.plan import make_plan
from templates_gen.units import in_unit
from templates_gen.views.elevation import elevation
from templates_gen.web import live
from templates_gen.web.live import MEMO, answer, in_space, seen
from templates_gen.web.summary import summary
from templates_gen.web.view_data import EDGE, Lines, lines
from tests.cakes import SAMPLES, cake, sample
from tests.strategies import any_cakes

NEAR = 0.02
"""mm; the elevation is drawn to 0.05 mm."""


Shown = dict[str, list[Box]]
"""The box round each contour of a drawing, in order, by the word of its lines."""


def boxes(found: Lines, right: float = 0.0, up: float = 0.0) -> Shown:
    """Return the contours of path data, moved, with y up."""
    return {
        word: [read_path(each).bounds.moved(right, up) for each in re.findall("M[^M]+", text)]
        for word, text in found.items()
    }


def shown(spec: Cake, turn: int) -> Shown:
    """Return what the page puts together, from the middle of the drum."""
    parts, found = seen(spec, turn)["parts"], Shown()
    x0, y0 = parts[0]["at"]
    for part in parts:
        x, y = part["at"]
        for word, some in boxes(part["lines"], x - x0, y0 - y).items():
            found.setdefault(word, []).extend(some)
    return found


def every(drawn: Shown) -> list[Box]:
    """Return the boxes of all lines."""
    return [box for some in drawn.values() for box in some]


def outcome(spec: Cake, memo: Memo) -> object:
    """Return the pieces of a cake, or what is wrong with it."""
    try:
        return make_plan(spec, memo).pieces
    except CakeError as error:
        return error.problems


@settings(max_examples=15)
@given(any_cakes(), any_cakes())
def test_remembered_pieces_are_those_made_anew(first: Cake, second: Cake) -> None:
    """After other cakes, which share tiers with it, a cake has the very pieces of a first run."""
    mixed = second.model_copy(update={"tier": (*first.tier[:1], *second.tier[1:]), "cascade": ()})
    assume(mixed.tier or mixed.letter_cake)
    for made in (first, mixed, second, first):
        assert outcome(made, MEMO) == outcome(made, NOTHING_KEPT)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_from_the_front_the_picture_is_that_of_the_command_line(path: Path) -> None:
    """Put together from tiers that are drawn alone, the elevation is the same to 0.02 mm."""
    spec = sample(path.stem)
    ours, whole = shown(spec, 0), boxes(lines(elevation(build_stack(spec))))
    assert ours.keys() == whole.keys()
    for word, some in whole.items():
        for one, other in zip(ours[word], some, strict=True):
            assert (one.x0, one.y0, one.x1, one.y1) == pytest.approx(
                (other.x0, other.y0, other.x1, other.y1), abs=NEAR
            )


RAISED = """
[[tier]]
size = "10 in"
depth = "4 in"
[[tier]]
size = "6 in"
depth = "4 in"
raised = "50 mm"
[tier.position]
right = "30 mm"
[tier.separator]
"""


@pytest.mark.parametrize("kind", ["kind = 'pillars'\n", "kind = 'spacer'\n"])
def test_a_raised_tier_stands_on_what_raises_it(kind: str) -> None:
    """From the front as the command line draws it; from behind what was right is left."""
    spec = cake(RAISED + kind)
    whole = boxes(lines(elevation(build_stack(spec))))
    ours, behind = (shown(spec, turn) for turn in (0, 180))

    def sides(drawn: Shown, way: float) -> list[list[float]]:
        """Return the boxes of what stands up: the rims are lines in parts, from join to join."""
        upright = [box for box in every(drawn) if box.height > 1]
        return sorted([*sorted((way * b.x0, way * b.x1)), b.y0, b.y1] for b in upright)

    for one, other in zip(sides(ours, 1), sides(whole, 1), strict=True):
        assert one == pytest.approx(other, abs=NEAR)
    for one, other in zip(sides(behind, -1), sides(whole, 1), strict=True):
        assert one == pytest.approx(other, abs=NEAR)
    assert len(seen(spec, 0)["parts"]) == 4


@pytest.mark.parametrize("kind", ["kind = 'pillars'\n", "kind = 'spacer'\n"])
def test_what_raises_a_tier_is_in_the_picture_that_is_turned(kind: str) -> None:
    """Drum, both tiers and what is between them: a pillar at each place, or one spacer."""
    spec = cake(RAISED + kind)
    bodies = json.loads(in_space(spec))["bodies"]
    names = [body["name"] for body in bodies]
    assert names[:3] == ["Drum", "tier 1", "tier 2"]
    support = build_stack(spec).seats[1].support
    assert support is not None
    pillars = ["Pillar"] * len(support.places)
    assert names[3:] == (pillars if "pillars" in kind else ["Spacer"])


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_picture_after_an_edit_is_that_of_a_first_look(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is kept of a tier is not shown where another tier now lies over it."""
    first = sample(path.stem)
    *lower, top = first.tier
    moved = top.model_copy(update={"size": Length(top.size.mm - 8, f"{top.size.mm - 8} mm")})
    other = first.model_copy(update={"tier": (*lower, moved)})
    monkeypatch.setattr(live, "MEMO", Memo(1000))
    assert in_space(first) != in_space(other)
    after = in_space(other)
    monkeypatch.setattr(live, "MEMO", Memo(1000))
    assert json.loads(after) == json.loads(in_space(other))


def test_a_square_turned_by_an_eighth_is_as_wide_as_its_diagonal() -> None:
    """Tier and drum are wider by the root of 2; arithmetic."""
    spec = cake("[[tier]]\nsize='20 cm'\ndepth='10 cm'\nshape='square'\ncover='none'")
    drum = build_stack(spec).seats[0].outline.across
    for turn, wide in ((0, drum), (45, drum * 2**0.5)):
        assert union_box(every(shown(spec, turn))).width == pytest.approx(wide, abs=NEAR)
        assert seen(spec, turn)["size"][0] == pytest.approx(wide + 2 * EDGE, abs=NEAR)


def test_half_a_turn_shows_what_was_on_the_right_on_the_left() -> None:
    """A tier moved to the right stands left as seen from behind, and amidst from the side."""
    text = (
        "[[tier]]\nsize='30 cm'\ndepth='10 cm'\n"
        "[[tier]]\nsize='10 cm'\ndepth='10 cm'\nposition={right='40 mm'}"
    )
    spec = cake(text)

    def middle(turn: int) -> float:
        return max(every(shown(spec, turn)), key=lambda box: box.y1).centre[0]

    assert middle(0) == pytest.approx(40, abs=NEAR)
    assert middle(180) == pytest.approx(-40, abs=NEAR)
    assert middle(90) == pytest.approx(0, abs=NEAR)


def test_what_is_coarse_becomes_whole_tier_by_tier() -> None:
    """First come bare tiers; once the picture is whole an edit leaves bare only what it touches."""
    text = (
        "[[tier]]\nsize='21 cm'\ndepth='91 mm'\ndrips={{}}\n"
        "[[tier]]\nsize='{} cm'\ndepth='9 cm'\ndrips={{}}"
    )
    first, other = cake(text.format(11)), cake(text.format(12))

    def marked(spec: Cake, *, coarse: bool) -> list[bool]:
        return [Role.NOTE.word in part["lines"] for part in seen(spec, 0, coarse=coarse)["parts"]]

    assert marked(first, coarse=True) == [False, False, False]
    assert marked(first, coarse=False) == [False, True, True]
    assert marked(first, coarse=True) == [False, True, True]
    assert marked(other, coarse=True) == [False, True, False]


def test_an_answer_has_everything_that_is_shown() -> None:
    """Figures of every tier, every piece with a drawing, cautions; sizes are those of figures."""
    shown = answer(sample("harbour-wedding"))
    assert [tier["name"] for tier in shown["tiers"]] == ["bottom", "second", "third", "top"]
    assert shown["tiers"][0]["layers"][0]["across"] == "10 in (254 mm)"
    assert all(piece["drawing"]["lines"] for piece in shown["pieces"])
    assert shown["cautions"]


@pytest.mark.parametrize(("words", "weight"), [("uk", r"\d+ g"), ("us", r"\d+ lb( \d+ oz)?")])
def test_fondant_is_weighed_as_in_the_place_of_the_cake(words: str, weight: str) -> None:
    """Tins of inches are filled with pounds in the US alone."""
    plan = make_plan(cake(f"unit = 'in'\nwords = '{words}'\n[[tier]]\nsize = 6\ndepth = 4\n"))
    assert re.fullmatch(weight, summary(plan, bench(plan), "in")["fondant"])


def test_the_height_is_that_of_the_tallest_thing() -> None:
    """A cake of figures alone is as high as its walls, beside a stack it may be lower."""
    figure = "[[letter_cake]]\ntext = '7'\ncap_height = '8 in'\ndepth = '3 in'\n"
    tier = "[[tier]]\nsize = '6 in'\ndepth = '6 in'\n"
    alone, beside, stack = (
        summary(plan, bench(plan), "in")["height"]
        for plan in (make_plan(cake(text)) for text in (figure, tier + figure, tier))
    )
    wall = 76.2 + 5 + 4  # its depth, the usual coating and the usual fondant
    assert alone == in_unit(wall, "in")
    assert beside == stack


def test_a_piece_that_is_known_is_not_sent_again() -> None:
    """After an edit the answer has whole only what is new; the others come by id and digest."""
    one, other = (
        cake(f"[[tier]]\nsize='20 cm'\ndepth='9 cm'\ndrips={{shuffle={seed}}}") for seed in (1, 2)
    )
    first = answer(one)["pieces"]
    second = answer(other, [piece["digest"] for piece in first])["pieces"]
    assert [piece["id"] for piece in second if "drawing" in piece] == ["tier-1/collar"]
    assert {piece["digest"] for piece in second if "drawing" not in piece} < {
        piece["digest"] for piece in first
    }


def test_a_body_that_is_known_is_not_sent_again() -> None:
    """After an edit the picture has whole only what changed; the rest comes by digest and place."""
    tiers = "".join(f"[[tier]]\nsize='{size} cm'\ndepth='DEPTH cm'\n" for size in (20, 10))
    deep, deeper = (tiers.replace("DEPTH", text, 1).replace("DEPTH", "9") for text in ("9", "11"))
    before, whole = (json.loads(in_space(cake(text)))["bodies"] for text in (deep, deeper))
    digests = {body["digest"] for body in before}
    sent = json.loads(in_space(cake(deeper), digests))["bodies"]
    assert ["part" in body for body in sent] == [False, True, False]  # drum and tiers
    known = {body["digest"]: body for body in before}
    assert [known.get(body["digest"], {}) | body for body in sent] == whole


def test_an_edit_makes_only_what_it_touches() -> None:
    """Of the sample of four tiers, other drips on one leave the pieces of two others as they are.

    So they do what shows how tiers stand on each other, and the circles. The pieces are the same
    things, not only alike: nothing was made again.
    """
    first = sample("harbour-wedding")
    drips = first.tier[1].drips
    assert drips is not None
    other = drips.model_copy(update={"seed": drips.shuffle + 1, "width": Length(8.0, "8 mm")})
    tiers = list(first.tier)
    tiers[1] = tiers[1].model_copy(update={"drips": other})
    before = {piece.id: piece for piece in make_plan(first, MEMO).pieces}
    after = make_plan(first.model_copy(update={"tier": tuple(tiers)}), MEMO).pieces
    same = {piece.id for piece in after if before[piece.id] is piece}
    assert {"bottom/wrap", "third/panel", "top/collar", "top/top-edge-guide"} <= same
    assert {piece.id for piece in after if piece.kind == "placement-guide"} <= same
    assert "pack/circle-guide" in same
    assert "second/collar" not in same


def test_another_title_makes_no_piece_again() -> None:
    """Also where lengths have inches first: no piece has the title."""
    first = sample("harbour-wedding")
    plan = make_plan(first, MEMO)
    assert not plan.terms.is_plain
    after = make_plan(first.model_copy(update={"title": "Another", "note": "Other"}), MEMO)
    assert all(one is other for one, other in zip(plan.pieces, after.pieces, strict=True))


ALL_ON_ONE_SIDE = """
[[tier]]
size = "25 cm"
depth = "12 cm"
drips = { longest = "LONGEST mm" }
[[tier.design]]
kind = "pearls"
width = "10 mm"
top = "TOP mm"
[[tier.lettering]]
text = "Happy day"
level = "80 mm"
cap_height = "12 mm"
[[tier.scatter]]
shape = "blossom"
size = "10 mm"
count = 5
top = "55 mm"
"""


def test_what_is_on_a_side_is_made_again_only_where_it_has_changed() -> None:
    """Other pearls leave letters and blossoms where they are, other drips the letters.

    They are the same things, not only alike; and pieces on which nothing has changed are drawn as
    they were.
    """
    memo = Memo(1000)

    def made(longest: int, top: int) -> tuple[DecoratedTier, dict[str, Drawing]]:
        text = ALL_ON_ONE_SIDE.replace("LONGEST", str(longest)).replace("TOP", str(top))
        plan = make_plan(cake(text), memo)
        (tier,) = plan.stack.tiers
        return tier, {piece.id: piece.drawing for piece in plan.pieces}

    first, drawn = made(30, 110)
    pearls, drawn_pearls = made(30, 112)
    drips, drawn_drips = made(34, 112)
    assert pearls.letterings_on_side[0] is first.letterings_on_side[0]
    assert pearls.scatters is first.scatters
    assert drips.letterings_on_side[0] is first.letterings_on_side[0]
    assert drips.scatters is not first.scatters
    for other in (drawn_pearls, drawn_drips):
        assert [id_ for id_ in other if other[id_] is not drawn[id_]] == ["tier-1/collar"]


def test_too_few_portions_and_too_large_a_tin_are_among_the_warnings() -> None:
    """The page says at their fields what the kitchen cannot do: 24 portions of 8 in for 60."""
    tiers = [{"size": "16 in", "depth": "4 in"}, {"size": "8 in", "depth": "4 in"}]
    found = answer(cake_from({"guests": 60, "tier": tiers[1:]}))["warnings"]
    (few,) = (each for each in found if each["key"] == ["guests"])
    assert few["place"] == "Guests"
    assert "24 wedding portions for 60 guests, 36 too few" in few["text"]
    found = answer(cake_from({"guests": 60, "tier": tiers}))["warnings"]
    (large,) = (each for each in found if "oven shelf" in each["text"])
    assert large["key"] == ["tier", 0, "size"]
    assert "shelf_width" not in large["text"]
