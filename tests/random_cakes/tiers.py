"""A tier drawn at random: its plan, its solid, its layers, what is on its side."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.cakefile.estimates import CAKES
from templates_gen.cakefile.inside import FILLINGS
from templates_gen.cakefile.shape_keys import BALL, shape_keys
from templates_gen.drawing.combs import COMBS
from templates_gen.drawing.shapes import SHAPES
from tests.random_cakes.chance import Chance, Table
from tests.random_cakes.sides import COLOURS, Room, design, drips, lettering, panels, scatter

OUTLINES = (
    "M0 0 C 0 -60 100 -60 100 0 L 50 120 Z",
    "M0 0 h80 v30 h-25 v40 h-30 v-40 h-25 z",
    "M50 0 A50 40 0 0 1 50 80 A30 40 0 0 1 50 0 Z",
    "M0 0 H90 V60 H0 Z",
)
"""Closed curves as SVG path data."""
ARC = "M0 0 C 30 40 70 40 100 0"
"""A line from left to right, as SVG path data."""
CORNERS = {"square": 4, "rectangle": 4, "heart": 2}
INSIDE = {"heart": 0.62, "petal": 0.8, "custom": 0.4}
"""How wide a circle in the middle of a shape is at the least, as a part of its size."""
SOLIDS = ("upright",) * 9 + ("tapered",) * 3 + ("opening",) * 2
LEAST_HOLED = 66.0
"""Depth and width of a tier with room for a hole, mm."""
ON_TOP = ("sloped",) * 3 + (BALL,) * 2
"""Solids that carry no other tier."""


@dataclass(frozen=True)
class Made:
    """A tier, and how wide a circle its top has room for, mm."""

    table: Table
    top: float


def tier(
    chance: Chance, size: float, shape: str, carries: bool, names: list[str], stands: bool = False
) -> Made:
    """Draw a tier ``size`` mm wide; one that ``carries`` another has a level top.

    One that ``stands`` on another may be raised.
    """
    solid = chance.pick(SOLIDS if carries else SOLIDS + ON_TOP)
    if solid == "opening" and size * INSIDE.get(shape, 0.8) < LEAST_HOLED:
        solid = "upright"
    shape = BALL if solid == BALL else shape
    depth = chance.mm(min(40, size * 0.4), max(41, min(180, size * 0.9)))
    if solid == BALL:
        depth = chance.pick((size, size / 2, size * 0.7))
    if solid == "opening":
        depth = max(depth, LEAST_HOLED)
    table: Table = {"shape": shape} if shape != "round" or chance.odds(20) else {}
    table["size"] = chance.written(size)
    table["depth"] = table["size"] if depth == size else chance.written(depth)
    made = plan(chance, shape, size)
    table |= made | _solid(chance, solid, size, depth)
    top = float(table.pop("_top", size))
    table |= _layers(chance, table, depth)
    least = min(size, top)
    room = Room(
        math.pi * least * (1 if shape in ("round", BALL) else 0.8),
        float(table.pop("_low", depth)) * 0.97,
        int(made.get("sides", CORNERS.get(shape, 0))),
        least * INSIDE.get(shape, 0.6),
    )
    table |= _extras(chance, table, size, depth)
    if shape != BALL:
        table |= _on_the_side(chance, table, room, solid)
    table |= _supports(chance, size, carries=carries, stands=stands)
    if chance.odds(30):
        table["name"] = chance.pick(names)
        names.remove(table["name"])
    inside = INSIDE.get(shape, 1.0) * top
    if shape in ("oval", "rectangle"):
        inside *= 0.6
    return Made(table, inside)


def plan(chance: Chance, shape: str, size: float) -> Table:
    """Draw what a shape of a size in mm takes."""
    if shape == BALL:
        return {}
    taken = shape_keys(shape)
    made: Table = {}
    if "short" in taken:
        made["short"] = chance.written(max(25.0, size * chance.pick((0.6, 0.8, 0.999))))
    if "corner" in taken and chance.odds(50):
        made["corner"] = chance.length(0, size / 6)
    if "sides" in taken:
        made["sides"] = chance.whole(3, 12)
    if "lobes" in taken:
        made["lobes"] = chance.whole(5, 12)
    if "outline" in taken:
        made["outline"] = chance.pick(OUTLINES)
    return made


def _solid(chance: Chance, solid: str, size: float, depth: float) -> Table:
    """Draw taper, slope, hole or gores; ``_top`` and ``_low`` are for the rest of the tier."""
    if solid == "tapered":
        lean = min(size * 0.4, depth * 0.9)
        top = max(40.0, size + chance.mm(-lean, lean))
        return {"top_size": chance.written(top), "_top": top}
    if solid == "sloped":
        low = chance.mm(max(10, depth * 0.3), depth)
        sides = ("front", "back", "left", "right")
        slopes_down_to = {"slopes_down_to": chance.pick(sides)} if chance.odds(70) else {}
        return {"shallowest_depth": chance.written(low), "_low": low, **slopes_down_to}
    if solid == "opening":
        return {"dummy": True, "opening": _opening(chance, size, depth)}
    if solid == BALL and chance.odds(60):
        gores: Table = {
            "count": chance.whole(4, 14),
            "joins": chance.pick(("edge to edge", "overlapping")),
            "overlap": chance.length(1, 8),
        }
        return {"gores": chance.some(gores, 60)}
    return {}


def _opening(chance: Chance, size: float, depth: float) -> Table:
    """Draw a hole right through a tier, mostly with enough left round it."""
    radius = chance.mm(10, max(11, min(size, depth) / 2 - 24))
    slack = max(0.0, depth / 2 - radius - 21)
    own: Table = {
        "height": chance.length(depth / 2 - slack, depth / 2 + slack),
        "turn": chance.whole(-90, 90),
        "sideways": chance.length(0, max(0, size / 2 - radius - 24) * 0.6),
        "to": chance.pick(("left", "right")),
        "drips": chance.pick(("shorten", "leave out")),
        "cut": chance.pick(("before", "after")),
    }
    return {"radius": chance.written(radius), **chance.some(own, 60)}


def _layers(chance: Chance, table: Table, depth: float) -> Table:
    """Draw coating, paste and how they go on."""
    cover = chance.pick(("drape", "panelled", "none"))
    own: Table = {
        "coating": chance.length(0, 10),
        "first": chance.pick(("top", "side")),
        "trim": chance.length(0, 25),
        "strip": chance.length(200, 1500),
        "rolling_out_circle": chance.odds(60),
    }
    made: Table = {"cover": cover} if cover != "drape" or chance.odds(50) else {}
    made |= chance.some(own, 50)
    if cover != "none" and chance.odds(60):
        made["fondant"] = chance.length(2, 7)
    if cover == "panelled" and chance.odds(30):
        own = {"fondant_top": chance.length(2, 7), "fondant_side": chance.length(2, 7)}
        made |= chance.some(own, 70)
    if cover != "none" and "opening" in table and chance.odds(50):
        made["fondant_lining"] = chance.length(2, 5)
    if "opening" not in table and chance.odds(15):
        made["dummy"] = True
    return made


def _extras(chance: Chance, table: Table, size: float, depth: float) -> Table:
    """Draw colour, board, ribbon and place."""
    own: Table = {
        "colour": chance.pick(COLOURS),
        "ribbon": chance.length(3, 30),
        "board_thickness": chance.length(0, 6),
        "board": chance.length(max(25, size * 0.8), max(26, size)),
    }
    made = chance.some(own, 25)
    if not table.get("dummy") and chance.odds(25):
        made["inside"] = _inside(chance, depth)
    if chance.odds(10):
        made["board_template"] = True
    if chance.odds(20):
        carving: Table = {
            "tins": chance.pick(("either", "round", "square")),
            "spare": chance.length(0, 30),
        }
        made["carving"] = chance.some(carving, 60)
    if chance.odds(15):
        made["print"] = chance.pick(("few", "whole", "none"))
    if chance.odds(25):
        made["position"] = _position(chance)
    return made


def _inside(chance: Chance, depth: float) -> Table:
    boards = chance.whole(0, 2) if depth > 85 else 0
    own: Table = {
        "cake": chance.pick(tuple(CAKES)),
        "layers": chance.whole(boards + 1, 6),
        "inner_boards": boards,
        "filling": chance.pick(tuple(FILLINGS)),
        "filling_thickness": chance.length(2, 12),
    }
    return chance.some(own, 60)


def _position(chance: Chance) -> Table:
    own: Table = {
        "place": chance.pick(("centre", "back")),
        "right": chance.length(-15, 15),
        "back": chance.length(-15, 15),
        "turn": chance.pick((45, 90, 22.5, -10, 180, 7)),
    }
    return {**chance.some(own, 50), "overhang": chance.length(20, 90)}


def _dowels(chance: Chance) -> Table:
    if not chance.odds(40):
        return {}
    own: Table = {
        "count": chance.whole(1, 5),
        "inset": chance.length(5, 20),
        "thickness": chance.length(3, 14),
    }
    return {"dowels": chance.some(own, 50)}


def _supports(chance: Chance, size: float, *, carries: bool, stands: bool) -> Table:
    dowels = _dowels(chance) if carries else {}
    return {**dowels, **(_raised(chance, size) if stands and chance.odds(20) else {})}


def _raised(chance: Chance, size: float) -> Table:
    """Draw how high a tier is raised, and mostly what has room under it."""
    most = max(26.0, size * 0.8)
    separator: Table = {"kind": "spacer"}
    if size < 110 or chance.odds(50):
        separator |= chance.some({"spacer": chance.length(25, most)}, 40)
    else:
        separator = chance.some({"kind": "pillars", "pillar": chance.length(15, 25)}, 50)
    raised: Table = {"raised": chance.length(20, 120)}
    return {**raised, "separator": separator} if separator else raised


def _run_out(chance: Chance, solid: str) -> Table:
    """Draw a collar of royal icing that mostly fits."""
    if solid == "sloped" or not chance.odds(8):
        return {}
    own: Table = {
        "width": chance.length(5, 40),
        "overlap": chance.length(3, 12),
        "sections": chance.pick((1, 2, 4)),
        "thickness": chance.length(1, 3),
        "colour": chance.pick(COLOURS),
    }
    return {"run_out": chance.some(own, 60)}


def _combed(chance: Chance, table: Table) -> Table:
    """Draw the comb of a tier without fondant."""
    if table.get("cover") != "none" or not chance.odds(40):
        return {}
    own: Table = {
        "profile": chance.pick(tuple(COMBS)),
        "pitch": chance.length(4, 40),
        "groove": chance.length(0.5, 3),
    }
    made = chance.some(own, 60)
    return {"comb": {**made, "line": ARC} if made.get("profile") == "contour" else made}


def _on_the_side(chance: Chance, table: Table, room: Room, solid: str) -> Table:
    """Draw what is on a side with an upright edge; few tiers have much of it."""
    made = _combed(chance, table) | _run_out(chance, solid)
    covers = table.get("cover", "drape") == "panelled"
    if solid != "sloped" and chance.odds(25):
        made["panels"] = panels(chance, room, covers and chance.odds(50))
    if room.depth > 15 and chance.odds(25):
        made["drips"] = drips(chance, room)
        if solid == "sloped":
            made["drips"].pop("guide", None)
    for key, draw, odds in (("design", design, 35), ("lettering", lettering, 25)):
        if chance.odds(odds):
            made[key] = [draw(chance, room) for _ in range(chance.pick((1, 1, 1, 2)))]
    if chance.odds(18):
        made["scatter"] = [scatter(chance, room) for _ in range(chance.pick((1, 1, 2)))]
    if chance.odds(20):
        on = ("side", "whole", *(key for key in ("drips", "panels") if key in made))
        made["paint"] = {
            "on": chance.pick(on),
            "coats": chance.whole(1, 4),
            "tool": chance.pick(("brush", "airbrush")),
        }
    return made


def shape_for(chance: Chance, below: str | None) -> str:
    """Return a shape for a tier: often that of the one below, and often round."""
    shapes = tuple(SHAPES)
    if below in (None, BALL):
        return chance.pick(("round",) * 4 + shapes)
    return chance.pick((str(below), str(below), "round", "round", *shapes))


WIDTH = {"square": 1.42, "rectangle": 1.42, "polygon": 1.3, "custom": 1.7, "petal": 1.15}
"""How far across a shape reaches at the most, as a part of its size."""


def largest(shape: str, below: Made, like: bool) -> float:
    """Return the largest size of a shape that stands on a tier with some room round it, mm."""
    if like:
        return below.top / INSIDE.get(shape, 1.0) * (0.6 if shape == "polygon" else 0.8)
    return below.top / WIDTH.get(shape, 1.1)
