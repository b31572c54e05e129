"""Drips: counts that close, lengths that fit, outlines that are true."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.drips import Drips
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import region
from templates_gen.guides.decorated import build_stack
from templates_gen.guides.drip_outline import FOOT, ROOT_WIDTH, drip_outline
from templates_gen.guides.drips import DripRow, drip_row
from tests.cakes import one_tier, pieces_of
from tests.strategies import cakes


@given(cakes())
def test_drips_close_evenly_and_keep_their_lengths(cake: Cake) -> None:
    """N spacings make the girth, places are one spacing apart, lengths lie between the extremes."""
    for tier in build_stack(cake).tiers:
        drips = tier.spec.drips
        if drips is None:
            continue
        row = drip_row(tier, drips, tier.openings)
        girth = tier.covered.side.girth
        assert len(row.positions) * row.spacing == pytest.approx(girth, abs=1e-9)
        gaps = [b - a for a, b in pairwise(row.positions)]
        assert gaps == pytest.approx([row.spacing] * len(gaps))
        assert 0 <= row.positions[0] < row.spacing
        if drips.pattern == "listed":
            assert {round(length, 6) for length in row.lengths} == {
                each.mm for each in drips.lengths or ()
            }
            continue
        assert drips.shortest is not None
        assert drips.longest is not None
        assert min(row.lengths) >= drips.shortest.mm - 1e-9
        assert max(row.lengths) <= drips.longest.mm + 1e-9


@pytest.mark.parametrize("front", ["drip", "gap"])
@pytest.mark.parametrize("spacing", [25, 27, 31, 38])
def test_the_front_is_a_drip_or_a_gap_as_asked(front: str, spacing: int) -> None:
    """The front centre is on a drip, or half a spacing from two."""
    tier = build_stack(
        one_tier(f"[tier.drips]\nspacing = '{spacing} mm'\nfront = '{front}'")
    ).tiers[0]
    assert tier.spec.drips is not None
    row = drip_row(tier, tier.spec.drips, tier.openings)
    nearest = min(abs(place - tier.covered.side.girth / 2) for place in row.positions)
    assert nearest == pytest.approx(0 if front == "drip" else row.spacing / 2, abs=1e-9)


@given(st.floats(4, 14), st.floats(1.5, 12), st.floats(-50, 900))
def test_a_drip_is_a_sound_outline_with_a_wider_foot(width: float, share: float, u: float) -> None:
    """It reaches from the rim to its length, is as wide as its root, and its foot is the wider."""
    length = width * share
    path = drip_outline(u, width, length)
    box, area = path.bounds, region(path, 0.001)
    assert shapely.is_valid(area)
    assert (box.y0, box.y1) == pytest.approx((0, length), abs=1e-4 * width)
    assert box.width == pytest.approx(ROOT_WIDTH * width, abs=1e-6)
    foot = area.intersection(shapely.box(u - width, length - FOOT * width, u + width, length))
    assert foot.bounds[2] - foot.bounds[0] == pytest.approx(2 * FOOT * width, rel=1e-3)
    mirrored = shapely.transform(area, lambda xy: xy * [-1, 1] + [2 * u, 0])
    assert area.symmetric_difference(mirrored).area < 1e-3 * area.area


def test_the_run_is_as_wide_as_asked() -> None:
    """Half-way down a long drip it has the width asked for."""
    area = region(drip_outline(0, 10, 60), 0.001)
    run = area.intersection(shapely.LineString([(-20, 30), (20, 30)]))
    assert run.length == pytest.approx(10, abs=0.01)


@pytest.mark.parametrize(("spacing", "width"), [(20, 8), (20, 12), (30, 10), (40, 8), (40, 12)])
def test_usual_drips_do_not_touch(spacing: int, width: int) -> None:
    """20 to 40 mm apart, 8 to 12 mm wide. Common practice, no source."""
    text = f"[tier.drips]\nspacing = '{spacing} mm'\nwidth = '{width} mm'"
    collar = next(p for p in pieces_of(one_tier(text)) if p.kind == "collar")
    assert collar.values["spacing_mm"] == pytest.approx(spacing, rel=0.04)


def test_drips_that_would_touch_say_which_spacing_would_do() -> None:
    """The spacing that the message names does do."""
    text = "[tier.drips]\nwidth = '12 mm'\nspacing = '{} mm'"
    with pytest.raises(CakeError, match="and touch") as caught:
        pieces_of(one_tier(text.format(15)))
    better = caught.value.problems[0].advice.split('"')[1].removesuffix(" mm")
    assert pieces_of(one_tier(text.format(better)))


def test_lengths_left_out_are_a_quarter_to_half_of_the_depth() -> None:
    """Common practice, no source."""
    tier = build_stack(one_tier("[tier.drips]\npattern = 'alternate'", depth="6 in")).tiers[0]
    row = drip_row(tier, Drips(pattern="alternate"), tier.openings)
    depth = tier.covered.depth
    assert (min(row.lengths), max(row.lengths)) == pytest.approx((depth / 4, depth / 2))


@given(st.integers(0, 999))
def test_a_scatter_depends_on_its_seed_alone(seed: int) -> None:
    """The same seed gives the same lengths, the next another."""
    tier = build_stack(one_tier()).tiers[0]
    lengths = [
        drip_row(tier, Drips(pattern="random", shuffle=s), tier.openings).lengths
        for s in (seed, seed, seed + 1)
    ]
    assert lengths[0] == lengths[1] != lengths[2]


def test_lengths_typed_in_go_on_from_the_front_to_the_right() -> None:
    """The first is at the front, the next to its right, and they close."""
    text = "[tier.drips]\npattern = 'listed'\nlengths = ['20 mm', '50 mm', '35 mm']"
    tier = build_stack(one_tier(text)).tiers[0]
    assert tier.spec.drips is not None
    row = drip_row(tier, tier.spec.drips, tier.openings)
    assert len(row.positions) % 3 == 0
    front = min(
        range(len(row.positions)),
        key=lambda index: abs(row.positions[index] - tier.covered.side.girth / 2),
    )
    assert row.lengths[front : front + 3] == pytest.approx((20, 50, 35))


def test_drips_follow_a_line() -> None:
    """Long where it hangs low: a hollow drawn in the left half leaves the right half short."""
    text = "[tier.drips]\npattern = 'drawn'\nline = 'M0 0 Q 25 80 50 0 H100'"
    tier = build_stack(one_tier(text)).tiers[0]
    assert tier.spec.drips is not None
    row = drip_row(tier, tier.spec.drips, tier.openings)
    girth, depth = tier.covered.side.girth, tier.covered.depth
    for u, length in zip(row.positions, row.lengths, strict=True):
        turn = u / girth
        low = 4 * (turn / 0.5) * (1 - turn / 0.5) if turn < 0.5 else 0.0
        assert length == pytest.approx(depth / 4 * (1 + low), abs=0.1)


def test_a_drip_at_the_back_join_is_on_both_ends_of_the_collar() -> None:
    """What reaches over the join is cut at one end and goes on at the other, under the tab."""
    girth = math.pi * (203.2 + 18)
    text = f"[tier.drips]\nspacing = '{girth / 20:.6f} mm'\npattern = 'even'"
    collar = next(p for p in pieces_of(one_tier(text)) if p.kind == "collar")
    assert collar.values["positions_mm"][0] == pytest.approx(0, abs=1e-9)  # type: ignore[index]
    boxes = [s.path.bounds for s in collar.drawing.strokes if s.role.word == "pipe"]
    drips = [box for box in boxes if box.width > 4]
    assert min(box.x0 for box in drips) == pytest.approx(0, abs=1e-6)
    assert any(box.x0 < girth - 1 and box.x1 > girth + 1 for box in drips)
    assert all(box.x1 <= collar.size.x1 + 1e-6 for box in drips)


@given(st.integers(60, 300), st.integers(8, 38), st.sampled_from(["even", "alternate"]))
def test_the_spacing_advised_always_does(size: int, width: int, pattern: str) -> None:
    """Following the advice of the message never leads to the same message again."""
    text = f"[tier.drips]\nwidth = '{width} mm'\npattern = '{pattern}'\nspacing = '{{}} mm'"
    tier = f"{size} mm"
    try:
        pieces_of(one_tier(text.format(10), tier, "200 mm"))
    except CakeError as error:
        advice = error.problems[0].advice
        if advice.startswith("write"):
            better = advice.split('"')[1].removesuffix(" mm")
            assert pieces_of(one_tier(text.format(better), tier, "200 mm"))


def test_drips_longer_than_the_side_by_themselves_are_an_error() -> None:
    """Lengths left out never make a drip longer than its side: wide drips on a low tier."""
    text = "[tier.drips]\nwidth = '40 mm'\nspacing = '70 mm'"
    with pytest.raises(CakeError, match=r"drips\.width"):
        pieces_of(one_tier(text, depth="20 mm"))


@pytest.mark.parametrize(
    ("key", "limit", "beyond"),
    # the side is 100 mm deep; a drip 10 mm wide is at least one and a half times as long
    [("longest", 100.0, 100.1), ("shortest", 15.0, 14.9)],
)
def test_a_drip_may_be_just_as_long_as_there_is_room(key: str, limit: float, beyond: float) -> None:
    """The lengths at both limits are drawn; a tenth of a millimetre beyond is refused there."""
    bare = "cover = 'none'\ncoating = 0\n[tier.drips]\nwidth = '10 mm'\npattern = 'alternate'\n"

    def row(length: float) -> DripRow:
        (tier,) = build_stack(one_tier(f"{bare}{key} = '{length} mm'", depth="100 mm")).tiers
        assert tier.spec.drips is not None
        return drip_row(tier, tier.spec.drips, tier.openings)

    most = max if key == "longest" else min
    assert most(row(limit).lengths) == pytest.approx(limit)
    with pytest.raises(CakeError, match=rf"drips\.{key}"):
        row(beyond)


@pytest.mark.parametrize("pattern", ["pattern = 'front'", "pattern = 'drawn'\nline = 'M0 0 L1 1'"])
def test_at_corners_a_gap_in_front_changes_nothing(pattern: str) -> None:
    """Drips follow the corners then: neither their places nor their lengths follow ``front``."""
    text = f"shape = 'square'\n[tier.drips]\ncorners = true\n{pattern}\n"
    plain, gap = (
        build_stack(one_tier(f"{text}{front}")).tiers[0].drip_row
        for front in ("", "front = 'gap'\n")
    )
    assert plain is not None
    assert plain == gap
