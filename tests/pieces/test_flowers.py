"""Flowers to cut: parts that make a flower of its width, nested sheets, wires, paste, drying."""

from __future__ import annotations

import math
from collections import Counter
from datetime import datetime
from itertools import combinations, pairwise
from typing import Any

import pytest
import shapely
import shapely.affinity
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.bench.bench_list import bench
from templates_gen.cakefile.cake import Cake
from templates_gen.drawing.flowers import FLOWERS
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.nesting import pitch
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.guides.decorated import build_stack
from templates_gen.guides.flowers import GAUGES, THICK, Part
from templates_gen.pieces.cautions import cautions
from templates_gen.pieces.flowers import flowers
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.templates import templates
from templates_gen.views.scene import scene
from tests.cakes import cake

TIER = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"
SHEETS = ("petals", "leaves")
GREEN = ("sepal", "leaf")


def with_flower(lines: str) -> Cake:
    """Return a cake with one table of flowers."""
    return cake(f"{TIER}[[flower]]\n{lines}")


def parts_of(lines: str) -> tuple[Part, ...]:
    """Return the parts of the flowers of a cake."""
    (made,) = flowers(build_stack(with_flower(lines)))
    return made.parts


def petals_of(kind: str, width: float = 80.0) -> list[Part]:
    """Return the petals of a kind one by one, from the middle out."""
    (made,) = flowers(build_stack(with_flower(f"kind = '{kind}'\nwidth = '{width} mm'")))
    return [each for each in made.singles if not each.green]


def shape_of(part: Part) -> shapely.Polygon:
    """Return a part as a polygon of its own."""
    ((points, _),) = sampled(part.outline, 0.01)
    return shapely.Polygon(points)


def up_the_ball(part: Part, along: float, steps: int = 2000) -> float:
    """Return how far from the axis a point of a part is: walked up its ball in small steps."""
    out, step = 0.0, along / steps
    for number in range(steps):
        out += step * math.cos((number + 0.5) * step / (part.form / 2))
    return out


@pytest.mark.parametrize("kind", FLOWERS)
def test_dried_on_its_ball_the_flower_has_its_width(kind: str) -> None:
    """The tip of the widest petal comes to half the width, by walking up the ball."""
    found = petals_of(kind)
    assert max(up_the_ball(part, part.length) for part in found) == pytest.approx(40, rel=1e-5)
    for part in found:
        box = shape_of(part).bounds
        assert box[2] - box[0] == pytest.approx(part.width, abs=0.02)
        assert (box[1], box[3]) == pytest.approx((0, part.length), abs=0.02)


@pytest.mark.parametrize("kind", FLOWERS)
@pytest.mark.parametrize("width", [50, 90, 150])
def test_every_sheet_says_how_many_are_on_it(kind: str, width: int) -> None:
    """Outlines to cut are counted on each sheet; what a flower has too many of goes on another."""
    plan = make_plan(with_flower(f"kind = '{kind}'\nwidth = '{width} mm'\ncount = 3\nleaves = 2"))
    made = 0
    for piece in plan.pieces:
        numbers = piece.values.get("number_of_each", ())
        if piece.kind not in SHEETS:
            continue
        assert isinstance(numbers, tuple)
        drawn = [stroke for stroke in piece.drawing.strokes if stroke.role is Role.CUT]
        assert len(drawn) - 1 == sum(numbers)  # but for the sheet itself
        words = " ".join(label.text for label in piece.drawing.labels)
        assert all(f"cut {3 * number}" in words for number in numbers), words
        made += round(sum(numbers))
    (flower,) = flowers(plan.stack)
    assert made == sum(part.count for part in flower.parts)


@pytest.mark.parametrize("kind", FLOWERS)
def test_petals_close_round_and_grow_outwards(kind: str) -> None:
    """Where they are widest they go once round at the least; outer ones reach no less far.

    So do those in one piece, but for what a blade takes between them.
    """
    found, round_ = petals_of(kind), 0.0
    for part in found:
        shape = shape_of(part)
        levels = [part.length * share / 200 for share in range(1, 200)]
        widest = max(levels, key=lambda y, shape=shape: _wide(shape, y))  # type: ignore[misc]
        circle = math.tau * up_the_ball(part, widest)
        round_ += part.count * _wide(shape, widest) / circle
    in_one_piece = FLOWERS[kind].whorls[0].in_one_piece(40.0)
    assert round_ > (0.93 if in_one_piece else 0.99)
    reach = [up_the_ball(part, part.length) for part in found]
    assert all(inner <= outer + 1e-6 for inner, outer in pairwise(reach))
    assert all(inner.form <= outer.form + 1e-6 for inner, outer in pairwise(found))


def _wide(shape: shapely.Polygon, y: float) -> float:
    return shapely.intersection(shape, shapely.LineString([(-500, y), (500, y)])).length


@pytest.mark.parametrize(
    ("kind", "petals", "sepals"),
    [("wild rose", 5, 5), ("cherry", 5, 5), ("poppy", 4, 0), ("lily", 6, 0), ("daisy", 21, 0)],
)
def test_parts_are_as_many_as_in_the_garden(kind: str, petals: int, sepals: int) -> None:
    """Counts of botany: rosids in fives, a lily in threes, rays of a daisy a Fibonacci number."""
    spec = with_flower(f"kind = '{kind}'\nwidth = '90 mm'\nleaves = 0")
    found = flowers(build_stack(spec))[0].singles
    assert sum(part.count for part in found if part.name not in GREEN) == petals
    assert sum(part.count for part in found if part.name == "sepal") == sepals


def cut_on(piece: Piece) -> list[shapely.Polygon]:
    """Return what is cut on a sheet, without its edge."""
    paths = [stroke.path for stroke in piece.drawing.strokes if stroke.role is Role.CUT]
    return [shapely.Polygon(points) for path in paths[1:] for points, _ in sampled(path, 0.01)]


def made_or_none(spec: Cake) -> Plan | None:
    """Return a plan; None where a part is too thin to be cut, and for no other reason."""
    try:
        return make_plan(spec)
    except CakeError as error:
        if "do not tear" not in str(error):
            raise
        return None


@given(st.sampled_from(sorted(FLOWERS)), st.floats(40, 200), st.integers(0, 9))
@settings(max_examples=25, deadline=None)
def test_sheets_hold_every_part_of_a_flower_apart(kind: str, width: float, leaves: int) -> None:
    """As many as a flower has, 3 mm apart and within the sheet; on the few sheets each once."""
    spec = with_flower(f"kind = '{kind}'\nwidth = '{width} mm'\nleaves = {leaves}")
    plan = made_or_none(spec)
    if plan is None:
        return
    (made,) = flowers(plan.stack)
    for kind_of, pieces in (
        ("all", [piece for piece in plan.pieces if piece.kind in SHEETS]),
        ("once", [piece for piece in templates(plan) if piece.kind in SHEETS and piece.printed]),
    ):
        found = [shape for piece in pieces for shape in cut_on(piece)]
        wanted = [
            round(shape_of(part).area, 1)
            for part in made.parts
            for _ in range(part.count if kind_of == "all" else 1)
        ]
        assert sorted(round(shape.area, 1) for shape in found) == pytest.approx(
            sorted(wanted), abs=0.11
        )
        for piece in pieces:
            shapes, edge = cut_on(piece), shapely.box(0, 0, *piece.size.size)
            for one, other in combinations(shapes, 2):
                assert one.distance(other) > 3.0 - 0.01
            assert all(edge.buffer(-2.9).covers(shape) for shape in shapes)


@pytest.mark.parametrize("kind", ["daisy", "poppy", "wild rose"])
def test_head_to_tail_they_lie_as_close_as_can_be(kind: str) -> None:
    """Closer than their boxes, 3 mm apart, and not by a tenth of a millimetre closer."""
    part = petals_of(kind)[0]
    step = pitch(part.outline, 3.0)
    assert step < part.width + 3.0 - 0.2
    one = shape_of(part)
    other = shapely.affinity.rotate(one, 180, origin=(0, part.length / 2))
    assert one.distance(shapely.affinity.translate(other, step)) == pytest.approx(3.0, abs=0.01)
    assert one.distance(shapely.affinity.translate(other, step - 0.1)) < 3.0
    assert 2 * step >= part.width + 3.0


def listed(lines: str) -> dict[str, Any]:
    """Return the bench list of a cake with flowers."""
    return bench(make_plan(with_flower(lines)))


def test_wires_are_as_thick_as_the_standard_has_them() -> None:
    """Each gauge by its thousandths of an inch in BS 3737:1964, the Standard Wire Gauge.

    As tabled at engineeringtoolbox.com/swg-standard-wire-gauge-d_1779.html and simetric.co.uk.
    """
    mils = {30: 12.4, 28: 14.8, 26: 18.0, 24: 22.0, 22: 28.0, 20: 36.0, 18: 48.0}
    assert {gauge: pytest.approx(0.0254 * each, abs=5e-4) for gauge, each in mils.items()} == THICK
    assert {gauge for _, gauge in GAUGES} < set(THICK)


@pytest.mark.parametrize("width", [40.0, 80.0])
def test_a_wire_reaches_half_way_up_and_leaves_as_much_to_hold(width: float) -> None:
    """Common practice, no source: half-way up its petal or leaf, and 70 mm to hold and to tape."""
    parts = parts_of(f"kind = 'anemone'\nwidth = '{width} mm'\nleaves = 2\nwired = true")
    for part in parts:
        if part.wire is not None:
            assert part.wire.length == pytest.approx(shape_length(part) / 2 + 70, abs=0.05)
    assert any(part.wire for part in parts if part.name == "leaf")


def shape_length(part: Part) -> float:
    """Return how long a part is from its base to its tip, as it is drawn."""
    _, low, _, high = shape_of(part).bounds
    return high - low


@pytest.mark.parametrize("kind", FLOWERS)
def test_leaves_grow_with_their_flower(kind: str) -> None:
    """Drawn as long and as wide, over the width of the flower, as the table of kinds has them."""
    table = FLOWERS[kind].leaf
    for width in (50.0, 90.0):
        parts = parts_of(f"kind = '{kind}'\nwidth = '{width} mm'\nleaves = 2")
        (leaf,) = [part for part in parts if part.name == "leaf"]
        low, _, high, _ = shape_of(leaf).bounds
        assert shape_length(leaf) / width == pytest.approx(table.long, rel=2e-3)
        assert (high - low) / shape_length(leaf) == pytest.approx(table.wide, rel=2e-3)


def number_of_wires(lines: str) -> Counter[str]:
    """Return how many wires of flowers are cut, by what they are for."""
    found: Counter[str] = Counter()
    for each in listed(lines)["pieces"]:
        if each["kind"] == "wire":
            found[each["what"].split(",")[0].removeprefix("wire for ")] += each["number"]
    return found


@pytest.mark.parametrize(
    ("kind", "width", "petals"),
    [
        *(("daisy", 50, 0), ("wild rose", 50, 0), ("cherry", 40, 0)),
        *(("wild rose", 90, 5), ("rose", 70, 5), ("lily", 90, 6), ("peony", 90, 22)),
    ],
)
def test_wires_are_as_many_as_the_kind_of_flower_is_made_with(
    kind: str, width: int, petals: int
) -> None:
    """One for a small flower in one piece, one for each large petal: common practice, no source.

    The inner petals of a rose are built on its cone. Each leaf has a wire, each flower a stem.
    """
    found = number_of_wires(f"kind = '{kind}'\nwidth = '{width} mm'\ncount = 10\nleaves = 0")
    assert found["petals"] == 10 * petals
    assert found["stems"] == 10
    found = number_of_wires(f"kind = '{kind}'\nwidth = '{width} mm'\ncount = 10\nleaves = 2")
    assert sum(found.values()) == 10 * (petals + 2 + 1)


@pytest.mark.parametrize("kind", ["daisy", "wild rose", "cherry"])
def test_a_ring_in_one_piece_has_its_petals_round_its_middle(kind: str) -> None:
    """All petals as long as they grow, turned alike about the cross; a cut between each two."""
    single = petals_of(kind, 50.0)[0]
    ring = parts_of(f"kind = '{kind}'\nwidth = '50 mm'\nleaves = 0")[0]
    assert (ring.count, ring.wire) == (1, None)
    shape, middle = shape_of(ring), shapely.Point(0.0, ring.middle or 0.0)
    furthest = max(middle.distance(shapely.Point(at)) for at in shape.exterior.coords)
    assert furthest == pytest.approx(max_reach(single), abs=0.02)
    turned = shapely.affinity.rotate(shape, 360 / single.count, origin=middle)
    assert shape.symmetric_difference(turned).area < 0.002 * shape.area
    round_ = middle.buffer(0.8 * single.length, quad_segs=64).exterior
    assert len(shapely.get_parts(shapely.difference(round_, shape))) in (
        single.count,
        single.count + 1,  # the circle starts in a cut
    )


def max_reach(part: Part) -> float:
    """Return how far a part reaches from its base."""
    return max(math.hypot(*at) for at in shape_of(part).exterior.coords)


def test_words_follow_how_a_flower_is_made() -> None:
    """A daisy is threaded on its wire, a peony taped petal by petal, a bud glued while soft."""

    def said(lines: str) -> str:
        return " ".join(each["what"] for each in listed(lines)["times"])

    daisy, peony, rose = (said(f"kind = '{each}'") for each in ("daisy", "peony", "rose"))
    assert "thread the ring up the wire of the middle" in daisy
    assert "petal by petal" not in daisy
    assert "tape petal by petal" in peony
    assert "first, second and third petals round the middles while soft" in rose
    assert "thread the calyx up the wire" in rose


def test_paste_wires_and_holders() -> None:
    """Paste by the area of its parts; 36 cm wires by the lengths each gives; a holder each."""
    found = listed(
        "kind = 'anemone'\nwidth = '60 mm'\ncount = 7\ncolour = 'plum'\nthickness = '1 mm'"
    )
    petals = petals_of("anemone", 60.0)
    on_cake = sum(shape_of(part).area * part.count for part in petals) * 7 / 1000
    (paste,) = [each for each in found["paste"] if each["colour"] == "plum"]
    density = next(each["value"] for each in found["estimates"] if each["name"] == "fondant")
    assert paste["on_cake_g"] == pytest.approx(on_cake * density, rel=2e-3)
    assert paste["mass_g"] > paste["rolled_g"] > paste["on_cake_g"]
    rows = [each for each in found["pieces"] if "wire" in each["what"]]
    lengths = {each["what"].split(", ")[1]: each for each in rows}
    assert {gauge: each["number"] for gauge, each in lengths.items()} == {
        "28 gauge": 7 * 8,
        "26 gauge": 7 * 2,
        "20 gauge": 7,
    }
    for each in found["wires"]:
        row = lengths[f"{each['gauge']} gauge"]
        one = int(360 // row["sizes_mm"][0])
        assert each["number"] == -(-row["number"] // one)
    assert found["holders"] == 7
    assert any("holder" in each["what"] for each in found["shopping"])


def test_petals_dry_before_they_are_put_together() -> None:
    """A day on their forms at the least; both steps are done before the cake is set up."""
    text = f"work.ready = '2027-05-08 14:00'\n{TIER}[[flower]]\n"
    steps = {each["step"]: each for each in bench(make_plan(cake(text)))["times"]}
    (cut,) = [each for name, each in steps.items() if name.startswith("cut")]
    assert cut["templates"] == ["pack/petals-1", "pack/leaves-1"]
    start = datetime.fromisoformat(steps["put together"]["start"])
    assert (start - datetime.fromisoformat(cut["end"])).total_seconds() >= 24 * 3600
    assert "food-safe holder" in steps["set up"]["what"]


def test_cautions_on_wires_and_plants() -> None:
    """Wires are spoken of where there are some; plants with every flower; neither without."""

    def said(text: str) -> str:
        return " ".join(cautions(build_stack(cake(text))))

    wired, unwired = f"{TIER}[[flower]]\n", f"{TIER}[[flower]]\nwired = false\n"
    assert "No wire goes into a cake" in said(wired)
    assert "sold as food" in said(wired)
    assert "No wire goes into a cake" not in said(unwired)
    assert "sold as food" in said(unwired)
    assert "sold as food" not in said(TIER)
    assert listed("wired = false")["holders"] == 0


def test_flowers_are_seen_on_the_picture() -> None:
    """Each that has room across the top stands there, as wide as said and picked as a part."""
    found = scene(build_stack(with_flower("kind = 'daisy'\nwidth = '60 mm'\ncount = 9"))).standing
    assert {each.look.part for each in found} == {"flower.0"}
    places = sorted({round(each.at[0], 6) for each in found})
    # 221 mm of a finished 8 in tier have room for three of 60 mm
    assert len(places) == 3
    xs = [x for each in found for shape in each.shapes for ring in shape for x, _ in ring]
    rays = max(found, key=lambda each: len(each.shapes))
    assert len(rays.shapes) == 21
    tips = [math.hypot(x, y - 30) for shape in rays.shapes for ring in shape for x, y in ring]
    assert max(tips) == pytest.approx(30, abs=0.05)
    assert xs
