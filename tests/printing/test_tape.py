"""Tapes: the marks of a collar by their places alone, on a narrow strip once round."""

from __future__ import annotations

import re
from itertools import combinations, pairwise

import pytest

from templates_gen.cakefile.reading import cake_from
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import measure
from templates_gen.errors import CakeError
from templates_gen.geometry.path import straights
from templates_gen.pieces.collar import TAB
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.marking import marked_by_parts
from templates_gen.printing.tape import TALL, TICK, UP
from templates_gen.units import inch_fraction
from tests.cakes import cake, one_tier, sample_plan
from tests.random_cakes.cakes import cake_data
from tests.random_cakes.chance import Seeded
from tests.random_cakes.files import at_hand

ODD = "[[tier.design]]\nkind = 'swags'\ncount = 11\nstart = 'between'"


def ticks(strip: Piece) -> list[float]:
    """Return how far from the start the ticks at the upper edge of a straight tape stand.

    Of a quarter, with its fold at x = 0: left and right of both outer folds of the strip; of a half
    left and right of its one fold.
    """
    marks = (s.path.bounds for s in strip.drawing.strokes if s.role is Role.GUIDE)
    found = [box.x0 for box in marks if abs(box.y1 - TALL) < 1e-9]
    if strip.unfolding is not None:
        long = strip.full_size[0]
        folds = (1, 3) if len(strip.unfolding.mirrors) == 2 else (2,)
        opened = {
            round((fold * long / 4 + way * x) % long, 7)
            for x in found
            for fold in folds
            for way in (-1, 1)
        }
        # an end is the beginning of the strip
        found = [0.0 if abs(u - long) < 1e-6 else u for u in opened]
    return sorted(found)


def tapes(plan: Plan) -> list[tuple[Piece, Piece]]:
    """Return the tapes of a plan, each with the collar that it stands for."""
    found = ((marked_by_parts(piece, plan) or (), piece) for piece in plan.pieces)
    return [(strip, collar) for parts, collar in found for strip in parts if is_tape(strip)]


def is_tape(piece: Piece) -> bool:
    """Tell whether a template is a tape, and no repeat or section of a collar."""
    return ": tape" in piece.title


def is_straight(piece: Piece) -> bool:
    """Tell whether a tape lies straight on the paper."""
    return abs(piece.size.height - TALL) < 1e-9


def wanted(plan: Plan, collar: Piece) -> set[float]:
    """Return where on a side drips stand and repeats of designs begin, of those of a collar."""
    tier = next(each for each in plan.stack.tiers if each.name == collar.tier)
    strip = collar.part if collar.kind == "design-strip" else ""
    places: set[float] = set()
    for guide in tier.guides:
        if guide.strip != strip or not guide.on_collar or guide.layer.surface != collar.surface:
            continue
        if guide.repeats and len(guide.repeats.places) > 1:
            places |= set(guide.repeats.places)
        positions = guide.values.get("positions_mm")
        places |= set(positions if isinstance(positions, tuple) else ())
    return places


def keeps_the_law(strip: Piece, collar: Piece, plan: Plan) -> None:
    """Check: ticks stand where the collar has its marks; the tape closes at the same length."""
    girth = collar.values["length_mm"]
    assert isinstance(girth, float)
    if strip.unfolding is None:
        folds = (s.path.bounds for s in strip.drawing.strokes if s.role is Role.FOLD)
        assert [box.x0 for box in folds if abs(box.height - TALL) < 1e-9] == [girth]
    else:
        share = 2 * len(strip.unfolding.mirrors)
        assert strip.size.width == pytest.approx(girth / share, abs=1e-9)
        assert strip.full_size[0] == pytest.approx(girth, abs=1e-9)
    places = ticks(strip)
    assert places[0] >= 0
    assert places[-1] <= girth
    spaces = [b - a for a, b in zip(places, [*places[1:], places[0] + girth], strict=True)]
    assert sum(spaces) == pytest.approx(girth, abs=1e-9)
    # the end of the tape is itself the mark of what stands at the join
    for u in (u for u in wanted(plan, collar) if 1e-6 < u < girth - 1e-6):
        assert min(abs(u - place) for place in places) < 1e-6, strip.title
    drawn = (Role.GUIDE, Role.PIPE, Role.FOLD, Role.CENTRE)
    marks = [s.path.bounds for s in collar.drawing.strokes if s.role in drawn]
    middles = [at for box in marks if box.width < girth / 2 for at in (box.x0, box.centre[0])]
    # a mark at the join is cut in two by the ends of the collar
    known = wanted(plan, collar)
    for place in (place for place in places if TAB < place < girth - TAB):
        if all(abs(place - u) > 1e-6 for u in known):
            assert min(abs(place - x) for x in middles) < 1e-6, strip.title


@pytest.mark.parametrize("seed", [0, 35])
def test_a_tape_has_the_places_of_its_collar(seed: int) -> None:
    """Whatever the cake, each tick is at a mark of the collar, and the spaces make the girth."""
    cakes = (cake_data(Seeded(seed + step)) for step in range(6))
    for data in cakes:
        try:
            plan = make_plan(cake_from(data, folder=at_hand()))
        except CakeError:
            continue
        for strip, collar in tapes(plan):
            if is_straight(strip):
                keeps_the_law(strip, collar, plan)


def test_the_tapes_of_a_sample() -> None:
    """Drips, panels and joins before covering each make a tape; every drip has its length."""
    plan = sample_plan("harbour-wedding")
    found = tapes(plan)
    assert [collar.id for _, collar in found] == [
        "bottom/collar",
        "second/collar",
        "third/marking-band",
        "top/collar",
    ]
    for strip, collar in found:
        keeps_the_law(strip, collar, plan)
    row, strip = plan.stack.tiers[1].drip_row, found[1][0]
    assert row is not None
    assert ticks(strip) == list(row.positions)
    words = {label.text for label in strip.drawing.labels}
    for number, length in enumerate(row.lengths, 1):
        # the cake is in inches: ticks 1 in apart have no room for mm too
        assert f"{number}: {inch_fraction(length)}" in words


@pytest.mark.parametrize(
    ("spacing", "size", "words"),
    [
        ("24 mm", "200 mm", r"\d+: \d+"),
        ("40 mm", "200 mm", r"\d+: \d+ mm \(.+ in\)"),
        ("40 mm", "8 in", r"\d+: .+ in \(\d+ mm\)"),
        ("13 mm", "8 in", r"\d+: [\d ⅛¼⅜½⅝¾⅞/]+"),
    ],
)
def test_a_drip_has_its_length_in_as_many_units_as_have_room(
    spacing: str, size: str, words: str
) -> None:
    """The unit of the cake first, or alone; the sentence below the title names it, and the tape."""
    drips = f"[tier.drips]\nspacing = '{spacing}'\nwidth = '7 mm'\npattern = 'random'"
    unit = "in" if "in" in size else "mm"
    text = f"unit = '{unit}'\n[[tier]]\nsize = '{size}'\ndepth = '4 in'\ncover = 'drape'\n{drips}"
    ((strip, _),) = tapes(make_plan(cake(text)))
    labels = [each.text for each in strip.drawing.labels if re.match(r"\d+:", each.text)]
    assert labels
    assert all(re.fullmatch(words, text) for text in labels), labels
    named = "inches" if unit == "in" else "mm"
    assert f"how long that drip is, in {named}" in strip.use
    (key,) = (each for each in strip.drawing.labels if each.text.startswith("drip number"))
    assert key.text == f"drip number: length in {named}"


@pytest.mark.parametrize("spacing", [55, 60])
def test_even_drips_say_their_length_once(spacing: int) -> None:
    """Where all are alike no tick repeats it: folded in four or once round."""
    drips = f"[tier.drips]\npattern = 'even'\nspacing = '{spacing} mm'\nlongest = '55 mm'"
    ((strip, _),) = tapes(make_plan(one_tier(f"cover = 'drape'\n{drips}")))
    assert "; each drip is 55 mm (2 3/16 in) long" in strip.use
    assert not [each.text for each in strip.drawing.labels if re.search("55|length", each.text)]


@pytest.mark.parametrize(("spacing", "says"), [(38, "← 1: "), (14, "1: ")])
def test_the_end_of_a_tape_is_named_as_the_tick_that_it_is(spacing: int, says: str) -> None:
    """What stands at the join has no tick but the end: its words are next to that."""
    drips = f"[tier.drips]\npattern = 'random'\nspacing = '{spacing} mm'\nwidth = '6 mm'\n"
    plan = make_plan(one_tier(drips, size="8 in"))
    ((strip, _),) = tapes(plan)
    row = plan.stack.tiers[0].drip_row
    assert row is not None
    assert row.positions[0] == 0
    assert ticks(strip) == list(row.positions[1:])
    text = f"{says}{inch_fraction(row.lengths[0])}"
    (label,) = [each for each in strip.drawing.labels if each.text.startswith(text)]
    assert 0 < label.box.x0 < label.size
    assert label.box.x1 < row.positions[1]


def test_words_of_ticks_next_to_each_other_stand_side_by_side() -> None:
    """Joins within 2 mm of a drip: no words overlap, each end at their tick or its pointer."""
    panels = "[tier.panels]\ncount = 11\n"
    drips = "[tier.drips]\nspacing = '22 mm'\nlongest = '20 mm'\n"
    text = f"cover = 'panelled'\n{panels}{drips}"
    ((strip, _),) = tapes(make_plan(one_tier(text, "10 in", "6 in")))
    near = [b - a for a, b in pairwise(ticks(strip)) if 1e-6 < b - a < 2]
    assert near
    words = [each for each in strip.drawing.labels if re.match("(?:join|drip) ", each.text)]
    assert not [pair for pair in combinations(words, 2) if pair[0].box.meets(pair[1].box)]
    straight = set(ticks(strip))
    ends = straight | {
        edge[1][0]
        for stroke in strip.drawing.strokes
        if stroke.role is Role.NOTE
        for edge in straights(stroke.path)
    }
    for label in words:
        if label.turn:
            assert label.box.y1 == pytest.approx(UP)
            assert min(abs(label.box.centre[0] - x) for x in ends) < label.size / 2


def test_joins_of_panels_are_called_so_beside_drips() -> None:
    """A number alone would be taken for that of a drip."""
    panels = "[tier.panels]\ncount = 5\nheight = '30 mm'\n"
    ((strip, _),) = tapes(make_plan(one_tier(f"[tier.drips]\nspacing = '25 mm'\n{panels}", "6 in")))
    words = {label.text for label in strip.drawing.labels}
    assert {f"join {number}" for number in (2, 3, 4, 5)} <= words
    assert not {"2", "3", "4", "5"} & words


def test_panels_say_how_high_their_edges_are() -> None:
    """A tape has the joins; what it says to do gives the level edges below the rim."""
    plan = make_plan(one_tier("coating = '0 mm'\n[tier.panels]\nheight = '40 mm'\ncount = 6"))
    ((strip, _),) = tapes(plan)
    depth = plan.stack.tiers[0].covered.side.depth
    assert f"panels have level edges {depth - 40:.1f} mm" in strip.use


def test_an_edge_at_the_rim_is_called_so() -> None:
    """Panels over the whole side begin at the rim, and nobody measures 0 mm."""
    ((strip, _),) = tapes(make_plan(one_tier("coating = '0 mm'\n[tier.panels]\ncount = 7")))
    assert "panels have level edges at the rim and " in strip.use
    assert " 0 mm" not in strip.use


@pytest.mark.parametrize(("count", "corners"), [(12, 0), (10, 1)])
def test_even_repeats_are_marked_through_a_strip_folded_in_four(count: int, corners: int) -> None:
    """The quarter opens to every join of the panels, those on its folds too; it has no numbers."""
    plan = make_plan(one_tier(f"coating = '0 mm'\n[tier.panels]\ncount = {count}"))
    ((strip, collar),) = tapes(plan)
    assert strip.unfolding is not None
    keeps_the_law(strip, collar, plan)
    space = strip.full_size[0] / count
    assert ticks(strip) == pytest.approx([(n + 0.5) * space for n in range(count)], abs=1e-6)
    words = [label.text for label in strip.drawing.labels]
    assert words.count("snip this corner") == corners
    assert not {*words} & {str(n) for n in range(count + 1)}
    assert "snip each tick through four layers" in strip.use


@pytest.mark.parametrize(("lines", "corners"), [("[tier.panels]\ncount = 9", 1), (ODD, 1)])
def test_an_odd_number_is_marked_through_a_strip_folded_in_two(lines: str, corners: int) -> None:
    """The half opens to every join or repeat; the sheet says how long the strip is."""
    plan = make_plan(one_tier(f"coating = '0 mm'\n{lines}"))
    (strip, collar), *_ = tapes(plan)
    assert strip.unfolding is not None
    assert strip.size.width == pytest.approx(strip.full_size[0] / 2)
    girth = strip.full_size[0]
    assert girth == pytest.approx(collar.values["length_mm"])
    marks = (s.path.bounds for s in strip.drawing.strokes if s.role is Role.GUIDE)
    found = [box.x0 for box in marks if abs(box.y1 - TALL) < 1e-9]
    opened = {round((girth / 2 + way * x) % girth, 6) for x in found for way in (-1, 1)}
    # at the join the end itself is the mark, and its corner snipped
    places = {round(u, 6) for u in wanted(plan, collar) or joins_of(9, girth)}
    assert opened == places - {0.0}
    words = [label.text for label in strip.drawing.labels]
    assert words.count("snip this corner") == corners
    assert "left / right" in words
    assert f"Fold a strip of parchment {measure(girth)} long in two" in strip.use


def joins_of(count: int, girth: float) -> set[float]:
    """Return where panels join, of which one has its middle at the front."""
    return {(0.5 + (n + 0.5) / count) * girth % girth for n in range(count)}


def test_joins_at_the_ends_of_a_folded_tape_are_snipped_at_its_corners() -> None:
    """A tick on an edge of the quarter is on all layers there: its corner is named, no layers."""
    ((strip, _),) = tapes(sample_plan("naming-day"))
    assert strip.unfolding is not None
    words = [label.text for label in strip.drawing.labels]
    assert words.count("snip this corner") == 2
    assert not any("layers" in each for each in words)


@pytest.mark.parametrize(
    "lines", ["[tier.drips]\npattern = 'random'", "top_size = '6 in'\n[tier.drips]"]
)
def test_what_differs_from_layer_to_layer_is_not_folded(lines: str) -> None:
    """Drips of many lengths and a bent tape are printed once round."""
    plan = make_plan(one_tier(f"coating = '0 mm'\n{lines}"))
    assert all(strip.unfolding is None for strip, _ in tapes(plan))


@pytest.mark.parametrize(
    "lines", ["top_size = '6 in'\n[tier.drips]", "shallowest_depth = '3 in'\n[tier.drips]"]
)
def test_the_tape_of_a_side_that_is_not_straight_follows_it(lines: str) -> None:
    """On a taper and under a sloped top a tape is bent as the collar is: its rim is the collar's.

    So every tick stands where the drip of the collar hangs.
    """
    plan = make_plan(one_tier(lines))
    ((strip, _),) = tapes(plan)
    assert not is_straight(strip)
    tier = plan.stack.tiers[0]
    assert tier.drip_row is not None
    side = tier.covered.side
    corner = strip.drawing.strokes[0].path.bounds
    flat = [side.flat(u, 0.0) for u in (0.0, *tier.drip_row.positions)]
    back = [s.path.bounds for s in strip.drawing.strokes if s.role is Role.GUIDE]
    dx = min(x for x, _ in (side.flat(u, v) for u in _along(side.girth) for v in (0.0, TALL)))
    for x, _ in flat[1:]:
        assert min(min(abs(box.x0 - x + dx), abs(box.x1 - x + dx)) for box in back) < 1e-6
    assert corner.x0 == pytest.approx(0.0, abs=1e-9)


def _along(girth: float) -> list[float]:
    return [step * (girth + TAB) / 400 for step in range(401)]


def test_a_folded_tape_says_with_an_arrow_where_its_ends_lie() -> None:
    """Level, under the ticks: along so low an edge it has no room, and at a tick it misleads."""
    ((strip, _),) = tapes(make_plan(one_tier("cover = 'drape'\n[tier.panels]\ncount = 12")))
    (label,) = [each for each in strip.drawing.labels if each.text.startswith("both ends")]
    assert (label.text, label.turn) == ("both ends and the front fold here →", 0)
    assert strip.outline.bounds.x1 - label.box.x1 == pytest.approx(1.5)
    assert label.box.y1 < TALL - TICK


@pytest.mark.parametrize("size", ["50 mm", "55 mm", "60 mm", "65 mm", "6 in"])
def test_a_short_tape_says_in_full_at_what_length_it_closes(size: str) -> None:
    """In mm alone where inches have no room; nothing is cut short."""
    tier = "cover = 'drape'\n[tier.drips]\nspacing = '20 mm'\nlongest = '30 mm'\npattern = 'random'"
    ((strip, _),) = tapes(make_plan(one_tier(tier, size=size, depth="3 in")))
    (label,) = [each for each in strip.drawing.labels if "closes at" in each.text]
    assert re.fullmatch(r"closes at [\d.]+ mm( \([^…]+ in\))?", label.text)
    (left,) = [each for each in strip.drawing.labels if each.text == "left"]
    assert label.box.y0 > left.at[1], "on one line they read as one"


def test_several_level_edges_are_said_in_a_row() -> None:
    """Of a band of panels at the foot: its upper edge and its lower."""
    panels = "[tier.panels]\nheight = '30 mm'\ncount = 6"
    ((strip, _),) = tapes(make_plan(one_tier(f"coating = '0 mm'\n{panels}")))
    assert re.search(r"level edges \S+ mm \(\S+( \S+)? in\) and \S+ mm \(.*\) below", strip.use)


@pytest.mark.parametrize(
    ("lines", "where"),
    [
        ("[[tier.design]]\nkind = 'shells'", "lower edge on the board"),
        ("[[tier.design]]\nkind = 'shells'\nform = 'top'", "upper edge at the rim"),
        ("[tier.drips]\n[[tier.design]]\nkind = 'shells'", "upper edge at the rim"),
        ("[[tier.design]]\nkind = 'stripes'\nwidth = '40 mm'", "lower edge on the board"),
        (
            "top_size = '7 in'\n[[tier.design]]\nkind = 'scallops'\ntop = '90 mm'",
            "upper edge at the rim",
        ),
    ],
)
def test_a_tape_lies_where_its_ticks_are_needed(lines: str, where: str) -> None:
    """It stands on the board as its repeats do; of a leaning side it is as long as the rim only."""
    plan = make_plan(one_tier(lines))
    (collar,) = (piece for piece in plan.pieces if piece.kind == "collar")
    tape, *repeats = marked_by_parts(collar, plan) or ()
    assert is_tape(tape)
    assert f"its {where}, ends together" in tape.use
    if "drips" not in lines:
        assert all(f"its {where}; mark" in each.use for each in repeats)
