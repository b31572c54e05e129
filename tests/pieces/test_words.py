"""What each piece says: what it is made of, how thick, which face is out, which way it goes."""

from __future__ import annotations

import re
from collections import defaultdict
from functools import cache

import pytest

from templates_gen.cakefile.papers import PAPERS
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.plan import make_plan
from templates_gen.printing.templates import templates
from templates_gen.sheets.captions import Caption, is_named, short, strip_width
from templates_gen.sheets.frame import frame_for
from templates_gen.sheets.layout import arranged
from tests.cakes import one_tier, pieces_of, sample, sample_plan
from tests.drawn_cakes import drawn_cakes

SAMPLES = ("harbour-wedding", "lantern-birthday", "midsummer-tower", "naming-day", "paper-garden")
ROLLED = r"(fondant|modelling paste)[^;]*? [0-9⅛¼⅜½⅝¾⅞][^;]* thick"
OUT = "this face out"
PRINT_UP, PRINT_OUT = "print side up", "print side out|either side out"
CARVED = ("its front to the front", "carve down to its edge")
FACTS: dict[str, tuple[str, ...]] = {
    "wrap": (ROLLED, OUT, "turn this over", "finished length", "top edge", "front", "top disc"),
    "disc": (ROLLED, OUT, "across", "front", "the side"),
    "lining": (ROLLED, "this face into the hole", "front edge", "back edge", "trim flush"),
    "gore": (ROLLED, OUT, "points up", "Cut"),
    "cap": (ROLLED, OUT, "over the points of the gores"),
    "rolling-out-circle": (ROLLED, OUT, "across", "trim at the bottom edge"),
    "panel": (r"\d[^.;]* thick", OUT, "to a row", "joins marked on"),
    "marking-band": (PRINT_OUT, "front", "at the rim|on the board"),
    "collar": (PRINT_OUT, "at the rim|on the board|finished rim"),
    "design-strip": (PRINT_OUT, "at the rim|on the board"),
    "lettering-mirror": ("reads right when turned over",),
    "top-lettering": (PRINT_UP, "front to the front", "prick"),
    "letter": (ROLLED, OUT, "Cut [0-9]+", "where the lettering shows"),
    "stencil": ("acetate or parchment", OUT),
    "scatter": (ROLLED, OUT, "at its number"),
    "top-edge-guide": (PRINT_UP, "front", "pipe a drip at each mark"),
    "placement-guide": (PRINT_UP, "front|back|its mark at", "prick the"),
    "letter-cake": (PRINT_UP, "sheet cake", "layer", "thick"),
    "letter-top": (ROLLED, OUT, "on the coated top"),
    "letter-wall": (ROLLED, OUT, "long", "tall", "the join"),
    "cake-sheet": ("Bake", "thick", "as it lies"),
    "letter-board": (PRINT_UP, "prick the outlines", "apart"),
    "cascade": (ROLLED, OUT, "Set each where", "as it lies"),
    "topper": (ROLLED, OUT, "stick|tab", "dry"),
    "portions": ("front", "does not touch the cake|lay the parchment on it"),
    "board": (r"\d[^.;]* thick", "front", "saw just outside the line"),
    "board-guide": ("face down on the underside", "front", "mark each circle"),
    "inner-board": ("Cut the board by its edge", "front", "prick the numbered crosses"),
    "drum-ring": (ROLLED, "this face up", "front to the front"),
    "carving-guide": CARVED,
    "piping-sheet": ("under acetate", "slide it along"),
    "topper-sheet": ("under acetate", "slide it along"),
    "circle-guide": ("Pin the pivot", "swing a circle"),
}
"""What a piece of each kind says, on itself or beside it; with its name and how many to cut."""
UNPRINTED = {
    "front",
    "front|back|its mark at",
    "finished length",
    "across",
    PRINT_UP,
    PRINT_OUT,
    *CARVED,
    "as it lies",
    "prick the outlines",
}
"""What is not said of a piece that has no sheet."""


@cache
def every_piece() -> dict[str, list[Piece]]:
    """Return pieces of every kind, whole and in each way in which they are printed."""
    found = defaultdict(list)
    for cake in (*map(sample, SAMPLES), *drawn_cakes().values()):
        plan = make_plan(cake)
        for piece in (*plan.pieces, *templates(plan)):
            found[piece.kind].append(piece)
    return found


def test_every_kind_says_what_the_bench_must_know() -> None:
    """Each fact of its kind, whatever the way it is printed; and each piece has a use."""
    pieces = every_piece()
    assert pieces.keys() >= FACTS.keys()
    assert all(piece.use for some in pieces.values() for piece in some)
    for kind, facts in FACTS.items():
        for piece in pieces[kind]:
            said = " ".join([piece.use, *(label.text for label in piece.drawing.labels)])
            needed = [fact for fact in facts if piece.printed or fact not in UNPRINTED]
            lacking = [fact for fact in needed if not re.search(fact, said)]
            assert not lacking, (piece.title, piece.instead, lacking, said)


def test_every_piece_of_a_tier_knows_its_size() -> None:
    """As the cake file has it, with its unit; what belongs to no tier has none."""
    made = pieces_of(one_tier("name = 'low'\nshape = 'oval'\nshort = '6 in'", size="8 1/2 in"))
    sized = {piece.kind: piece.tier_size for piece in made}
    assert sized["collar"] == "8 1/2 in × 6 in"
    assert sized.get("circle-guide", "") == ""


def test_the_halves_of_a_lining_are_told_apart_on_themselves() -> None:
    """Each names itself along both of its edges, and which edge is in front."""
    hole = "dummy = true\n[tier.opening]\nradius = '30 mm'\nsideways = '20 mm'"
    lower, upper = (p for p in pieces_of(one_tier(hole)) if p.kind == "lining")
    for piece, name in ((lower, "LOWER"), (upper, "UPPER")):
        said = [label.text for label in piece.drawing.labels]
        assert f"front edge · {name} half" in said
        assert f"back edge · {name} half" in said
        assert name.lower() in piece.title


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_window_names_its_tier_and_its_piece(name: str, paper: str) -> None:
    """On every sheet of the samples, however narrow; and each piece says what to do with it."""
    plan = sample_plan(name)
    frame = frame_for(PAPERS[paper], (), plan.margins, None)
    found = arranged(templates(plan), frame.field)
    for lattice in found.lattices:
        assert all(is_named(lattice.piece, cell.caption) for cell in lattice.cells)


def caption_of(piece: Piece, room: float) -> Caption:
    """Return the name of the second of four parts of a piece."""
    return short(piece, "part 2 of 4", room)


def test_a_caption_drops_the_size_first_then_what_is_on_the_piece() -> None:
    """From wide to narrow; the tier's name and the kind are there to the last."""
    wrap = next(
        each
        for each in templates(make_plan(one_tier("name = 'low'\ncover = 'panelled'", size="10 in")))
        if each.kind == "wrap"
    )
    said = [caption_of(wrap, float(room)) for room in range(300, 14, -1)]
    texts = [" ".join(line.text for line in caption).replace("\u00a0", " ") for caption in said]
    texts = list(dict.fromkeys(texts))
    assert texts[:4] == [
        "low (10 in): wrap, quarter on the fold · part 2 of 4 · cut 1",
        "low: wrap, quarter on the fold · part 2 of 4 · cut 1",
        "low: wrap · part 2 of 4 · cut 1",
        "low: wrap · part 2 of 4",
    ]
    assert all(is_named(wrap, caption) for caption in said)
    assert min(line.size for caption in said for line in caption) >= LEAST_TEXT
    assert all(strip_width(caption) < 30 for caption in said)
