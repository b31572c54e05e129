"""Cakes of numbers and letters: walls, areas, sheet cakes, boards, by fontTools and shapely."""

from __future__ import annotations

import math
import re
from io import BytesIO
from itertools import combinations, pairwise

import pytest
import shapely
from fontTools.pens.areaPen import AreaPen
from fontTools.pens.perimeterPen import PerimeterPen
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.bench.bench_list import bench
from templates_gen.bench.letter_cakes import section
from templates_gen.cakefile.lettering import bundled
from templates_gen.cakefile.papers import PAPERS
from templates_gen.cover.pack import make_pack
from templates_gen.drawing.piece import Piece
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import filled, region
from templates_gen.geometry.areas.walls import walls
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import polyline, rectangle
from templates_gen.plan import make_plan
from templates_gen.printing.templates import templates
from tests.cakes import cake

BOLD = TTFont(BytesIO(bundled("bold").content))
TIER = "[[tier]]\nsize = '6 in'\ndepth = '4 in'\n"


def scale_of(height: float) -> float:
    """Return mm to a unit of the bold face whose capitals are so tall."""
    return height / float(BOLD["OS/2"].sCapHeight)


def pieces(lines: str) -> list[Piece]:
    """Return the pieces of a letter cake beside a tier."""
    made = make_plan(cake(f"{TIER}[[letter_cake]]\n{lines}\n")).pieces
    return [
        piece for piece in made if piece.kind.startswith("letter") or piece.kind == "cake-sheet"
    ]


@pytest.mark.parametrize("char", "03457BDOSW")
def test_girths_and_areas_are_those_of_the_font(char: str) -> None:
    """All walls of a character together, and its area, by the pens of fontTools for a glyph.

    Of glyphs whose contours do not overlap, which the pens would count twice.
    """
    glyphs = BOLD.getGlyphSet()
    glyph = glyphs[BOLD.getBestCmap()[ord(char)]]
    long, area = PerimeterPen(glyphs, tolerance=0.001), AreaPen(glyphs)
    glyph.draw(long)
    glyph.draw(area)
    scale = scale_of(200)
    large = "tin_width = '300 mm'\ntin_length = '400 mm'\n"
    (letter,) = (
        piece
        for piece in pieces(f"text = '{char}'\ncap_height = '200 mm'\ndepth = '50 mm'\n{large}")
        if piece.kind == "letter-cake"
    )
    girths = letter.values["girths_mm"]
    assert isinstance(girths, tuple)
    assert sum(girths) == pytest.approx(long.value * scale, rel=2e-4)
    assert letter.values["area_mm2"] == pytest.approx(abs(area.value) * scale**2, rel=2e-4)
    assert letter.paper.area == pytest.approx(abs(area.value) * scale**2, rel=2e-3)


@pytest.mark.parametrize("by", [0.0, 3.0, 9.0])
def test_a_strip_round_a_rectangle_is_folded_at_its_corners(by: float) -> None:
    """Steiner: round a convex area a strip is longer by 2 pi by; each corner takes a quarter."""
    (wall,) = walls(rectangle(Box(0, 0, 120, 50)), by)
    arc = math.pi / 2 * by
    assert wall.length == pytest.approx(340 + 4 * arc, rel=1e-4)
    assert wall.bare == pytest.approx(340)
    sides = [0.0, *wall.folds, wall.length]
    found = [b - a for a, b in pairwise(sides)]
    assert sorted(found) == pytest.approx([50 + arc, 50 + arc, 120 + arc, 120 + arc], abs=0.05)


def test_a_strip_in_a_hollow_is_shorter() -> None:
    """Round an L the inner corner takes off twice its tangent: both sides lose ``by`` there."""
    el = polyline([(0, 0), (100, 0), (100, 40), (40, 40), (40, 120), (0, 120)], closed=True)
    (wall,) = walls(el, 5.0)
    assert len(wall.folds) == 5
    assert wall.length == pytest.approx(440 + 5 * math.pi / 2 * 5 - 2 * 5, abs=0.05)


@given(st.integers(20, 200), st.integers(20, 200), st.floats(0.5, 8))
@settings(max_examples=20)
def test_a_counter_is_a_wall_of_its_own(wide: int, tall: int, by: float) -> None:
    """Of a frame: the outer strip is longer by 2 pi by, that of the hole shorter by 8 by."""
    frame = rectangle(Box(0, 0, wide + 80, tall + 80))
    hole = polyline(
        [(40, 40), (40, 40 + tall), (40 + wide, 40 + tall), (40 + wide, 40)], closed=True
    )
    outer, inner = walls(frame + hole, by)
    assert not outer.counter
    assert inner.counter
    assert outer.length == pytest.approx(2 * (wide + tall + 160) + math.tau * by, rel=1e-4)
    assert inner.length == pytest.approx(2 * (wide + tall) - 8 * by, rel=1e-4)
    assert len(inner.folds) == 3


def test_strips_are_those_of_the_covered_letter() -> None:
    """Of an 8 with 5 mm of buttercream and 4 mm of fondant: 7 mm off the cake, by shapely."""
    made = pieces("text = '8'\ncap_height = '200 mm'\ndepth = '60 mm'\n")
    (letter,) = (piece for piece in made if piece.kind == "letter-cake")
    area = shapely.buffer(letter.paper, 7.0, quad_segs=64)
    assert isinstance(area, shapely.Polygon)
    wanted = [area.exterior.length, *(ring.length for ring in area.interiors)]
    strips = [piece.values["length_mm"] for piece in made if piece.kind == "letter-wall"]
    assert sorted(map(float, strips)) == pytest.approx(sorted(wanted), rel=1e-3)  # type: ignore[arg-type]
    heights = {piece.values["height_mm"] for piece in made if piece.kind == "letter-wall"}
    assert heights == {60.0 + 5 + 4}
    (top,) = (piece for piece in made if piece.kind == "letter-top")
    assert top.paper.area == pytest.approx(shapely.buffer(letter.paper, 5.0).area, rel=1e-3)


@given(st.text("0123456789BEHLX", min_size=1, max_size=6), st.integers(160, 220))
@settings(max_examples=12, deadline=None)
def test_parts_lie_apart_in_their_sheet_cakes_and_on_the_board(text: str, height: int) -> None:
    """By shapely: each part once, as large as it is, clear of the edges and of the others."""
    spec = f"text = '{text}'\ncap_height = '{height} mm'\napart = '15 mm'\n"
    spec += "depth = '50 mm'\ncoating = '3 mm'\n"
    tins = "tin_width = '280 mm'\ntin_length = '340 mm'\n"
    made = pieces(spec + tins)
    templates_of = [piece for piece in made if piece.kind == "letter-cake"]
    area = sum(float(str(p.values["area_mm2"])) * int(str(p.values["count"])) for p in templates_of)
    total = 0.0
    for sheet in (piece for piece in made if piece.kind == "cake-sheet"):
        tin = shapely.buffer(region(sheet.outline), -5 + 0.05)
        areas = [filled(stroke.path) for stroke in sheet.drawing.strokes[1:]]
        total += sum(each.area for each in areas)
        assert all(tin.covers(each) for each in areas)
        assert all(one.distance(other) >= 8 - 0.5 for one, other in combinations(areas, 2))
    assert total == pytest.approx(area, rel=1e-3)
    (board,) = (piece for piece in made if piece.kind == "letter-board")
    stands = [filled(stroke.path) for stroke in board.drawing.strokes[1:]]
    assert len(stands) == len(text)
    assert all(one.distance(other) >= 15 - 0.05 for one, other in combinations(stands, 2))
    assert all(region(board.outline).buffer(-40 + 0.05).covers(each) for each in stands)


def test_a_part_is_wide_enough_to_be_lifted_or_refused_with_what_would_do() -> None:
    """The height that the message names can be made; the one it refuses is narrower than said."""
    tin = "tin_width = '600 mm'\ntin_length = '600 mm'"
    text = f"text = 'W'\ncap_height = '{{}}'\ndepth = '76 mm'\n{tin}"
    with pytest.raises(CakeError) as caught:
        pieces(text.format("120 mm"))
    (problem,) = caught.value.problems
    assert problem.key == ("letter_cake", 0, "cap_height")
    enough = problem.advice.split('"')[1]
    assert pieces(text.format(enough))


def test_a_gap_that_its_covering_fills_is_said() -> None:
    """A thick covering closes the gap of a 5: there is a warning, and no hole where it was."""
    for thick, closes in (("1 mm", False), ("9 mm", True)):
        text = f"text = '5'\ncap_height = '8 in'\ncoating = '{thick}'\nfondant = '2 mm'\n"
        plan = make_plan(cake(f"{TIER}[[letter_cake]]\n{text}"))
        said = [each.text for each in plan.warnings() if each.key[0] == "letter_cake"]
        assert bool(said) == closes, said
        (top,) = (piece for piece in plan.pieces if piece.kind == "letter-top")
        assert not top.openings


def test_a_hole_that_its_covering_closes_is_refused_with_what_would_do() -> None:
    """Of an A of 8 in with 9 mm all round nothing is left of the hole; as tall as advised some."""
    text = "text = 'A'\ncap_height = '{}'\n"
    with pytest.raises(CakeError) as caught:
        pieces(text.format("8 in"))
    (problem,) = caught.value.problems
    assert "closes" in problem.found
    enough = float(problem.advice.split('"')[1].removesuffix(" mm"))
    # the radius of the circle in a triangle of three corners, from the outline of the font
    made = pieces(text.format(f"{enough} mm"))
    (letter,) = (piece for piece in made if piece.kind == "letter-cake")
    (hole,) = letter.openings
    ring = region(hole)
    inner = 2 * ring.area / ring.length
    assert 9 < inner < 9 * 1.02


def test_few_sheets_have_the_letters_alone() -> None:
    """Sheet cakes, boards, strips and tops are given by measure; whole, each has its sheet."""
    few = templates(make_plan(cake(f"{TIER}[[letter_cake]]\ntext = '1'\ncap_height = '8 in'\n")))
    printed = {piece.kind for piece in few if piece.printed}
    assert "letter-cake" in printed
    assert not printed & {"letter-top", "letter-wall", "letter-board", "cake-sheet"}
    text = f"print = 'whole'\n{TIER}[[letter_cake]]\ntext = '1'\ncap_height = '8 in'\n"
    whole = {piece.kind for piece in templates(make_plan(cake(text))) if piece.printed}
    assert whole >= {"letter-cake", "letter-top", "letter-wall", "letter-board", "cake-sheet"}


def test_the_bench_list_weighs_them() -> None:
    """A 1 of two layers: its cake by area, its portions by rule, its fondant and buttercream."""
    text = "text = '1'\ncap_height = '200 mm'\ndepth = '66 mm'\nfilling = '6 mm'\n"
    plan = make_plan(cake(f"{TIER}[[letter_cake]]\n{text}colour = 'navy'\n"))
    found = bench(plan)
    (listed,) = found["letter_cakes"]
    area = listed["area_mm2"]
    estimates = plan.stack.estimates
    density = estimates.cake_density.value
    assert listed["cake_g"] == pytest.approx(area * 60 / 1000 * density)
    assert listed["portions"]["wedding"] == math.floor(area * 0.95 / (25.4**2 * 2))
    assert listed["sheet_cakes"] == 2
    (navy,) = (each for each in found["paste_by_colour"] if each["colour"] == "navy")
    own = {each["tier"] for each in found["pieces"] if each["what"].startswith("letter")}
    assert own == {each["tier"] for each in found["paste"] if each["colour"] == "navy"}
    assert own == {"letter cake 1"}
    strips = listed["strip_mm"] * listed["strip_height_mm"]
    (top,) = (piece for piece in plan.pieces if piece.kind == "letter-top")
    on_cake = (strips + top.paper.area) * 4 / 1000 * estimates.fondant
    assert navy["mass_g"] > on_cake
    load = next(each for each in found["carrying"] if each["what"] == "letter cake 1")
    board = float(listed["board_mm"][0] * listed["board_mm"][1]) * 12 / 1000 * estimates.board
    filling = area * 6 / 1000 * estimates.coating  # of buttercream, as the coating
    whole = area * 60 / 1000 * density + filling + on_cake + board
    coat = next(each for each in found["coating"] if each["tier"] == "letter cake 1")
    waste = 1 + estimates.waste / 100
    assert load["mass_g"] == pytest.approx(whole + coat["mass_g"] / waste, rel=1e-3)
    assert any("cake of letters" in each for each in plan.cautions)


@pytest.mark.parametrize("fondant", ["0 mm", "4 mm"])
def test_strips_are_spoken_of_only_where_there_is_fondant(fondant: str) -> None:
    """A cake in buttercream has no strips: neither its template nor the list speaks of them."""
    text = f"text = '1'\ncap_height = '8 in'\nfondant = '{fondant}'\n"
    plan = make_plan(cake(f"[[letter_cake]]\n{text}"))
    (letter,) = (piece for piece in plan.pieces if piece.kind == "letter-cake")
    rows = section(bench(plan)).rows
    has_fondant = fondant != "0 mm"
    assert ("strips" in letter.use) == has_fondant
    assert any(label.text == "join" for label in letter.drawing.labels) == has_fondant
    assert any("strips" in row[1] for row in rows) == has_fondant


def test_alike_characters_have_one_template() -> None:
    """An 11 has one outline to print and says that it is cut twice."""
    made = pieces("text = '11'\ncap_height = '8 in'\n")
    (letter,) = (piece for piece in made if piece.kind == "letter-cake")
    assert letter.values["count"] == 2
    assert {piece.copies for piece in made if piece.kind in ("letter-top", "letter-wall")} == {2}


def test_a_letter_is_named_once_on_its_sheet() -> None:
    """What is written on a letter is its title, which a caption on it replaces."""
    made = make_plan(cake(f"{TIER}[[letter_cake]]\ntext = 'HO'\ncap_height = '200 mm'\n"))
    pack = make_pack(made, PAPERS["a3"])
    said = [label.text for sheet in pack.sheets for label in sheet.drawing.labels if label.bold]
    for name in ("letter cake 1: H", "letter cake 1: O"):
        assert sum(text.startswith(f"{name} ·") for text in said) == 1
    assert not {"H", "O"} & set(said)


def test_no_paper_is_spoken_of_where_there_is_none() -> None:
    """A sheet cake and a board without a sheet of their own say nothing of lying on them."""
    made = make_plan(cake(f"{TIER}[[letter_cake]]\ntext = 'HO'\ncap_height = '200 mm'\n"))
    used = {each.kind: each.use for each in templates(made) if not each.printed}
    assert used["cake-sheet"].endswith("cut H from each.") or "cut O" in used["cake-sheet"]
    assert "Set the characters on it, " in used["letter-board"]
    assert not re.search("as it lies|print side|prick", used["cake-sheet"] + used["letter-board"])
    whole = {each.kind: each.use for each in made.pieces}
    assert "as it lies here" in whole["cake-sheet"]


@pytest.mark.parametrize(("char", "bends"), [("O", False), ("H", True)])
def test_numbers_are_spoken_of_where_there_are_some(char: str, bends: bool) -> None:
    """A round letter has a join and no corners."""
    lines = f"text = '{char}'\ncap_height = '200 mm'\nfondant = '3 mm'"
    (letter,) = [each for each in pieces(lines) if each.kind == "letter-cake"]
    assert ("bend at the numbers" in letter.use) is bends
    assert "start at the join" in letter.use
    assert any(label.text == "1" for label in letter.drawing.labels) is bends


def test_what_of_a_letter_hangs_apart_is_named_by_number() -> None:
    """A letter and its accent are two cakes; a letter alone needs no number."""
    lines = "text = 'TÉ'\ncap_height = '210 mm'\ntin_width = '300 mm'\ntin_length = '400 mm'"
    names = [each.title for each in pieces(lines) if each.kind == "letter-cake"]
    assert names == ["letter cake 1: T", "letter cake 1: É, piece 1", "letter cake 1: É, piece 2"]


@pytest.mark.parametrize("text", ["MIMI", "8BO8", "Éë"])
def test_every_piece_of_a_letter_cake_has_a_name_of_its_own(text: str) -> None:
    """Equal letters are one piece, cut twice; a name has no number that says two things."""
    lines = f"text = '{text}'\ncap_height = '8 in'\ncoating = '1 mm'\nfondant = '1 mm'"
    titles = [each.title for each in pieces(lines)]
    assert len(set(titles)) == len(titles)
    assert all(title.startswith("letter cake 1: ") for title in titles)
