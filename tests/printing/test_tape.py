"""Tapes: the marks of a collar by their places alone, on a narrow strip once round."""

from __future__ import annotations

import pytest

from templates_gen.cakefile.reading import cake_from
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.pieces.collar import TAB
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.tape import TALL, tape
from tests.cakes import one_tier, sample
from tests.random_cakes.cakes import cake_data
from tests.random_cakes.chance import Seeded
from tests.random_cakes.files import at_hand


def ticks(strip: Piece) -> list[float]:
    """Return how far from the start the ticks at the upper edge of a tape stand, in order."""
    marks = (s.path.bounds for s in strip.drawing.strokes if s.role is Role.GUIDE)
    return sorted(box.x0 for box in marks if box.y1 == TALL)


def tapes(plan: Plan) -> list[tuple[Piece, Piece]]:
    """Return the tapes of a plan, each with the collar that it stands for."""
    found = ((tape(piece, plan), piece) for piece in plan.pieces)
    return [(strip, collar) for strip, collar in found if strip is not None]


def keeps_the_law(strip: Piece, collar: Piece) -> None:
    """Check: ticks stand where the collar has its marks; the tape closes at the same length."""
    girth = collar.values["length_mm"]
    assert isinstance(girth, float)
    folds = (s.path.bounds for s in strip.drawing.strokes if s.role is Role.FOLD)
    assert [box.x0 for box in folds if box.height == TALL] == [girth]
    places = ticks(strip)
    assert places[0] >= 0
    assert places[-1] <= girth
    spaces = [b - a for a, b in zip(places, [*places[1:], places[0] + girth], strict=True)]
    assert sum(spaces) == pytest.approx(girth, abs=1e-9)
    marks = [s.path.bounds for s in collar.drawing.strokes if s.role is Role.GUIDE]
    middles = [box.centre[0] for box in marks if box.width < girth / 2]
    # a mark at the join is cut in two by the ends of the collar
    for place in (place for place in places if TAB < place < girth - TAB):
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
            keeps_the_law(strip, collar)


def test_the_tapes_of_a_sample() -> None:
    """Drips, panels and joins before covering each make a tape; every drip has its length."""
    plan = make_plan(sample("harbour-wedding"))
    found = tapes(plan)
    assert [collar.id for _, collar in found] == [
        "bottom/collar",
        "second/collar",
        "third/inner-collar",
        "top/collar",
    ]
    for strip, collar in found:
        keeps_the_law(strip, collar)
    row, strip = plan.stack.tiers[1].drip_row, found[1][0]
    assert row is not None
    assert ticks(strip) == list(row.positions)
    words = {label.text for label in strip.drawing.labels}
    for number, length in enumerate(row.lengths, 1):
        assert f"{number}: {length:.0f}" in words


@pytest.mark.parametrize(
    "lines",
    [
        "[[tier.design]]\nkind = 'swags'",
        "[tier.drips]\n[[tier.lettering]]\ntext = 'Ada'",
        "top_size = '6 in'\n[tier.drips]",
        "low_depth = '3 in'\n[tier.drips]",
        "dummy = true\n[tier.opening]\nradius = '30 mm'\n[tier.drips]",
    ],
)
def test_more_than_places_stays_a_collar(lines: str) -> None:
    """Letters, designs, holes and sides that are not level need the collar itself."""
    assert not tapes(make_plan(one_tier(lines)))
