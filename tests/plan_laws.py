"""What holds for the plan of every cake: laws between its tiers, papers, lists and pictures.

Each law takes a plan and fails by an assertion, on whatever goes the whole way.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations

import pytest
import shapely

from templates_gen.bench import quantities
from templates_gen.bench.baking import baking
from templates_gen.bench.bench_list import bench
from templates_gen.bench.carrying import loads
from templates_gen.bench.cut_list import cut_list
from templates_gen.bench.rolled import rolled
from templates_gen.bench.steps import steps
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Box
from templates_gen.pieces.circle_lanes import ARM, HOLE
from templates_gen.plan import Plan
from templates_gen.tiers.carving import is_carved
from templates_gen.views.elevation import separators, tier_seen, views
from templates_gen.views.scene import scene
from tests.circle_guides import NARROWEST, holes, named, names, off, pivot, said

NEAR = 0.3
"""How far what is seen may be from where it is marked, mm."""


def all_paste_and_batter_is_bought(plan: Plan) -> None:
    """Check: what is weighed for tiers is what is bought for the cake."""
    found = bench(plan)
    bought = sum(each["quantity"] for each in found["shopping"] if each["packs"])
    assert bought == pytest.approx(sum(each["mass_g"] for each in found["paste"]))
    batter = [each for each in found["shopping"] if each["what"].startswith("batter")]
    baked = sum(each["batter_g"] or 0.0 for each in found["baking"])
    assert sum(each["quantity"] for each in batter) == pytest.approx(baked)
    assert all(each["quantity"] > 0 for each in found["shopping"])


def boxes_hold_what_they_carry(plan: Plan) -> None:
    """Check: the box of the cake is wider than drum and tiers, and taller; weights add up."""
    found, count = loads(plan.stack), len(plan.stack.tiers)
    apart = found[:count]
    if not apart:  # letter cakes alone have no drum
        return
    whole = found[count]  # letter cakes come after it
    assert whole.width > plan.stack.seats[0].outline.across
    assert whole.height > plan.stack.height + plan.stack.drum_thickness
    for tier, load in zip(plan.stack.tiers, apart, strict=True):
        assert load.width > tier.covered.foot.bounds.width
        assert load.height > tier.covered.depth + tier.board_thickness
        assert load.mass == pytest.approx(quantities.weight(tier, plan.stack.estimates))
    assert whole.mass > sum(each.mass for each in apart)


def the_pieces_weigh_what_the_list_says(plan: Plan) -> None:
    """Check: the paste of all templates is that of all tiers and that of all colours."""
    found = bench(plan)
    pieces = sum(each["mass_g"] for each in found["rolled"])
    assert pieces == pytest.approx(sum(each["mass_g"] for each in found["paste"]))
    assert pieces == pytest.approx(sum(each["mass_g"] for each in found["paste_by_colour"]))
    assert all(each["offcuts_g"] >= -1e-9 for each in found["paste"])


def weights_add_up(plan: Plan) -> None:
    """Check: dowels bear the weight of all above; every quantity is a number, not negative."""
    found = bench(plan)
    weights = [quantities.weight(tier, plan.stack.estimates) for tier in plan.stack.tiers]
    between = [quantities.separator_weight(seat, plan.stack.estimates) for seat in plan.stack.seats]
    inside = [len(boards) for boards in plan.stack.inner_boards]
    assert len(found["dowels"]) == max(0, len(weights) - 1) + sum(inside)
    for index, dowels in enumerate(found["dowels"]):
        if index + 1 < len(weights):
            above = sum(weights[index + 1 :]) + sum(between[index + 1 :])
            assert dowels["bears_g"] == pytest.approx(above)
        if dowels["count"]:
            each = dowels["bears_each_g"]
            assert each * dowels["count"] == pytest.approx(dowels["bears_g"])
    assert all(weight > 0 for weight in weights)
    for key in ("paste", "coating", "icing"):
        assert all(each["mass_g"] > 0 for each in found[key])


def every_piece_has_a_step(plan: Plan) -> None:
    """Check: each template is taken by one step; keys of steps differ, and lead to steps."""
    found = steps(plan)
    taken = [piece for step in found for piece in step.pieces]
    # a long step is done in stretches, each with the same templates
    assert set(taken) == {piece.id for piece in plan.pieces}
    keys = [step.key for step in found]
    assert len(set(keys)) == len(keys)
    assert {key for step in found for key in (*step.after, *step.follows)} <= set(keys)


def every_tier_of_cake_is_baked(plan: Plan) -> None:
    """Check: each tier has layers, tins and batter; a dummy has none."""
    found = {each.tier: each for each in baking(plan.stack)}
    for tier in plan.stack.tiers:
        assert (tier.name in found) != tier.spec.dummy
        if tier.name in found:
            each = found[tier.name]
            deep = each.inner.cake_depth + each.inner.fillings * each.inner.filling_depth
            # boards inside are cards of 3 mm
            assert deep + 3 * each.inner.boards == pytest.approx(tier.spec.depth.mm)
            assert sum(count for count, _ in each.inner.in_tins) == each.inner.tins
            assert all(high <= plan.stack.estimates.tin.mm + 1e-6 for _, high in each.inner.in_tins)
            level = each.inner.level * each.inner.tins
            raised = sum(count * high for count, high in each.inner.in_tins)
            assert is_carved(tier) or raised - level == pytest.approx(each.inner.cake_depth)
            assert each.batter is None or each.batter > 0
            assert each.filling >= 0


def dowels_are_as_long_as_the_tiers_are_drawn(plan: Plan) -> None:
    """Check: a dowel reaches from what its tier stands on to the board above, as drawn.

    On the elevation each tier is drawn with its board, the lowest of its lines; in a tier with
    boards inside, dowels stand on the highest of them, and under pillars they go on up through
    them.
    """
    stack = plan.stack
    drawn = [
        min(stroke.path.bounds.y0 for stroke in tier_seen(view, marked=False).strokes)
        for view in views(stack)
    ]
    cuts = cut_list(plan, rolled(plan))
    cut = {each.tier: each.sizes[0] for each in cuts if each.what == "dowel"}
    for index, seat in enumerate(stack.seats[1:], 1):
        if seat.support is None or not seat.support.count:
            assert seat.name not in cut
            continue
        lower = stack.tiers[index - 1]
        stands_on = drawn[index - 1] + lower.board_thickness + lower.dowelled_from
        spacer = seat.separator.height if seat.separator and not seat.separator.on_pillars else 0.0
        assert cut[seat.name] == pytest.approx(drawn[index] - spacer - stands_on, abs=0.05)


def dowels_are_as_long_as_the_drawn_heights(plan: Plan) -> None:
    """Check: so from the foot of a tier to what they bear: the board above, or its spacer."""
    stack = plan.stack
    for index, seat in enumerate(stack.seats[1:], 1):
        if seat.support is None:
            continue
        borne = stack.feet[index] - stack.tiers[index].board_thickness
        if seat.separator is not None and not seat.separator.on_pillars:
            borne -= seat.separator.height
        stands = stack.feet[index - 1] + max(
            (board.top for board in stack.inner_boards[index - 1]), default=0.0
        )
        assert seat.support.length == pytest.approx(borne - stands)


def pillars_are_drawn_between_the_tiers(plan: Plan) -> None:
    """Check: in both pictures each stands on the tier below and ends at the board above."""
    stack = plan.stack
    bodies = scene(stack).bodies
    for index, (view, seat) in enumerate(zip(views(stack), stack.seats, strict=True)):
        if seat.separator is None:
            continue
        lower = stack.tiers[index - 1]
        low = stack.feet[index - 1] + lower.covered.depth
        high = stack.feet[index] - stack.tiers[index].board_thickness
        drawn = [path.bounds for path in separators(view, seat)]
        part = f"tier.{index}.separator"
        standing = [body for body in bodies if body.look.part == part]
        count = seat.support.count if seat.separator.on_pillars and seat.support else 1
        assert len(drawn) == len(standing) == count
        for box in drawn:
            assert (box.y0, box.y1) == pytest.approx((low, high))
        for body in standing:
            assert (body.at[2], body.at[2] + body.top) == pytest.approx((low, high))
        xs = sorted((box.x0 + box.x1) / 2 for box in drawn)
        if seat.separator.on_pillars:
            assert xs == pytest.approx(sorted(body.at[0] for body in standing), abs=1e-6)


def cakes_boards_and_dowels_are_as_deep_as_the_tier(plan: Plan) -> None:
    """Check: so in every tier; each inner board lies inside the tier at its height."""
    for index, (tier, boards) in enumerate(
        zip(plan.stack.tiers, plan.stack.inner_boards, strict=True)
    ):
        tall = sum(board.support.length + board.thickness for board in boards) + tier.part_depth
        assert tall == pytest.approx(tier.spec.depth.mm)
        for board in boards:
            widest = max(tier.bare.rim.area, tier.bare.foot.area)
            assert board.outline.area <= widest * (1 + 1e-9)
        if boards and index + 1 < len(plan.stack.tiers):
            support = plan.stack.seats[index + 1].support
            raised = plan.stack.seats[index + 1].separator
            lifted = raised.height if raised and raised.on_pillars else 0.0
            assert support is not None
            assert support.length == pytest.approx(tier.covered.depth - boards[-1].top + lifted)


ON_PAPER = ("drips", "scatter", "cascade", "lettering")
"""What is drawn whole on a collar or a strip of its own."""


def off_the_paper(plan: Plan, moved: float = 0.0) -> list[float]:
    """Return how far each mark of upright tiers is from the lines of their papers, mm.

    By hand: on a collar u is measured from its left edge, v from its upper edge at the rim or up
    from the board. The marks may be ``moved`` sideways.
    """
    found = []
    for tier, body in zip(plan.stack.tiers, scene(plan.stack).bodies[1:], strict=False):
        lines, layer = [], tier.covered
        for piece in plan.pieces if layer.side.is_level and layer.side.lies_flat else ():
            if piece.owner == tier.owner and piece.kind in ("collar", "design-strip"):
                high = layer.depth if "lower edge on the board" in piece.use else piece.size.y1
                lines += [
                    shapely.LineString([(x, high - y) for x, y in points])
                    for stroke in piece.drawing.strokes
                    for points, _ in sampled(stroke.path, 0.02)
                ]
        paper = shapely.union_all(lines)
        top_edge = tier.spec.drips is not None and tier.spec.drips.guide == "top edge"
        for mark in body.on_side if lines else ():
            kind = next((each for each in ON_PAPER if each in mark.look.part), None)
            if kind is None or (kind == "drips" and top_edge):
                continue
            rings = [ring for shape in mark.every_shape for ring in shape]
            at = [(u % body.girth + moved, v) for ring in rings for u, v in ring]
            if at:
                far = shapely.distance(paper, shapely.points(at))
                found.append(float(sorted(far)[len(at) // 2]))
    return found


def what_is_seen_on_a_side_is_where_its_paper_marks_it(plan: Plan) -> None:
    """Check: drips, letters, small pieces and cascades lie on the lines of papers."""
    assert all(each < NEAR for each in off_the_paper(plan))


def each_name_stands_clear_beside_its_own_hole(plan: Plan) -> None:
    """Check: no name lies on another, a hole or the pivot; the nearest hole is the one named."""
    for piece in plan.pieces:
        if piece.kind != "circle-guide":
            continue
        assert min(piece.size.size) >= NARROWEST - 1e-9
        x0, y0 = pivot(piece)
        around = Box(x0 - ARM, y0 - ARM, x0 + ARM, y0 + ARM)
        boxes = [label.box for label in piece.drawing.labels]
        assert not any(one.intersection(other) for one, other in combinations(boxes, 2))
        assert all(piece.size.contains(box) and not box.intersection(around) for box in boxes)
        centres = [(x + x0, y + y0) for x, y in holes(piece)]
        assert all(off(box, at) > HOLE for box in boxes for at in centres)
        assert len(names(piece)) == len(centres)
        for label in names(piece):
            assert named(piece, label) == pytest.approx(said(label), abs=0.16)


OF_PLANS: tuple[Callable[[Plan], None], ...] = (
    all_paste_and_batter_is_bought,
    boxes_hold_what_they_carry,
    the_pieces_weigh_what_the_list_says,
    weights_add_up,
    every_piece_has_a_step,
    every_tier_of_cake_is_baked,
    dowels_are_as_long_as_the_tiers_are_drawn,
    dowels_are_as_long_as_the_drawn_heights,
    pillars_are_drawn_between_the_tiers,
    cakes_boards_and_dowels_are_as_deep_as_the_tier,
    each_name_stands_clear_beside_its_own_hole,
    what_is_seen_on_a_side_is_where_its_paper_marks_it,
)
