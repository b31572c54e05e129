"""What is on a side, drawn at random: designs, panels, drips, lettering, scatter."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.drawing.cutouts import CUTOUTS
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.flowers import FLOWERS
from templates_gen.drawing.patterns import PATTERNS
from tests.random_cakes.chance import Chance, Table
from tests.random_cakes.files import DRAWINGS, FACE, OUTLINE

COLOURS = ("white", "ivory", "gold & rose", "grün", "<black>")
TEXTS = ("Ada", "40", "HB", "Ada & Joe", "Zoë", "Happy birthday", "8", "M<3", "Ærøskøbing", "ij")
LINES = ("M0 0 C 30 40 70 40 100 0", "M0 0 L 50 30 L 100 0", "M0 10 C 30 0 70 60 100 10")


@dataclass(frozen=True)
class Room:
    """A side as a random cake sees it, mm: how far it goes round and down, and its corners."""

    girth: float
    depth: float
    corners: int = 0
    size: float = 200.0


def band(chance: Chance, room: Room, least: float) -> tuple[float, Table]:
    """Return the height of a band of a side, and its keys."""
    if room.depth < least + 4 or not chance.odds(60):
        return room.depth, {}
    top = chance.mm(0, room.depth - least - 2)
    foot = chance.mm(top + least, room.depth)
    keys = {"top": chance.written(top), "bottom": chance.written(foot)}
    kept = chance.pick((("top", "bottom"), ("top",), ("bottom",)))
    height = (foot if "bottom" in kept else room.depth) - (top if "top" in kept else 0)
    return height, {key: keys[key] for key in kept}


def design(chance: Chance, room: Room) -> Table:
    """Draw a design that mostly fits."""
    kind = chance.pick(tuple(DESIGNS))
    heeded = DESIGNS[kind].keys
    height, keys = band(chance, room, 12)
    spec: Table = {"kind": kind, **keys, **_measure(chance, room, kind)}
    rows = chance.whole(1, 4)
    own: Table = {
        "drop": chance.length(2, max(3, height * 0.4)),
        "height": chance.length(3, max(4, height * 0.8 / rows)),
        "breadth": chance.length(1, 6),
        "rows": rows,
        "fullness": chance.mm(1, 6),
        "strip": chance.length(40, 800),
        "thickness": chance.length(1, 4),
        "mirror": chance.odds(30),
        "shuffle": chance.whole(0, 999),
        "start": chance.pick(("front", "between", "join")),
        "per": chance.pick(("face", "round")) if room.corners else "round",
        "paper": chance.pick(("collar", "strip")),
        "colour": chance.pick(COLOURS),
        "stencil": _stencil(chance),
        "transfer": transfer(chance),
    }
    if DESIGNS[kind].forms:
        own["form"] = chance.pick(DESIGNS[kind].forms)
    written = chance.some(own, 45)
    if kind == "artwork":
        spec["file"] = chance.pick(DRAWINGS)
    stray = chance.odds(3)
    kept = {
        key: value
        for key, value in written.items()
        if stray
        or key in (*heeded, "paper", "colour", "stencil")
        or (key == "transfer" and DESIGNS[kind].repeat is not None)
    }
    return {**spec, **kept}


def _measure(chance: Chance, room: Room, kind: str) -> Table:
    """Return how wide or how many the repeats of a design are."""
    if "count" not in DESIGNS[kind].keys:
        return {}
    most = max(2, min(40, int(room.girth / 16) // 2 * 2))
    count = chance.whole(1, most // 2) * 2
    width = chance.length(16, max(17, min(room.girth / 2, 120)))
    return chance.pick(({}, {"width": width}, {"count": count}))


def drips(chance: Chance, room: Room) -> Table:
    """Draw drips that mostly fit and do not touch."""
    deepest = max(10, int(room.depth * 0.9))
    width = chance.whole(3, min(12, max(3, deepest // 5)))
    least = int(1.5 * width) + 2
    shortest = chance.whole(least, max(least, deepest // 2))
    longest = chance.whole(shortest, max(shortest, deepest))
    pattern = chance.pick(tuple(PATTERNS))
    own: Table = {
        "waves": chance.whole(1, 2),
        "shuffle": chance.whole(0, 999),
        "front": chance.pick(("drip", "gap")),
        "guide": chance.pick(("collar", "top edge", "both")),
        "corners": room.corners > 0 and chance.odds(50),
        "colour": chance.pick(COLOURS),
    }
    made = {
        "spacing": chance.written(chance.whole(2 * width + 8, max(60, 2 * width + 9))),
        "width": chance.written(width),
        "shortest": chance.written(shortest),
        "longest": chance.written(longest),
        "pattern": pattern,
        **chance.some(own, 50),
    }
    if pattern == "listed" or chance.odds(3):
        made["lengths"] = [chance.written(each) for each in (shortest, longest, least)]
    if pattern == "drawn" or chance.odds(3):
        made["line"] = chance.pick(LINES)
    return made


def panels(chance: Chance, room: Room, replace_wrap: bool) -> Table:
    """Draw panels that mostly fit."""
    most = max(1, min(24, int(room.girth / 15)))
    measures: list[Table] = [
        {},
        {"count": chance.whole(1, most)},
        {"width": chance.length(15, max(16, min(150, room.girth / 2)))},
        {"mould": chance.length(15, max(16, min(150, room.girth / 2)))},
    ]
    if room.corners:
        measures += [{"per_face": chance.whole(1, 4), "corners": chance.pick(("panel", "join"))}]
    rows = chance.whole(1, 3)
    own: Table = {
        "height": chance.length(3, max(4, room.depth * 0.95 / rows)),
        "rows": rows,
        "joins": chance.pick(("in line", "staggered")),
        "place": chance.pick(("base", "rim")),
        "front": chance.pick(("panel", "join")),
        "thickness": chance.length(0.5, 8),
        "material": chance.pick(("modelling paste", "fondant")),
        "colour": chance.pick(COLOURS),
    }
    made = {**chance.pick(measures), **chance.some(own, 50)}
    return {**made, "replace_wrap": replace_wrap} if replace_wrap or chance.odds(20) else made


def transfer(chance: Chance) -> Table:
    """Draw a piping sheet of any number of copies."""
    own: Table = {
        "copies": chance.whole(1, 30),
        "sheet": chance.pick(("normal", "mirrored", "both")),
        "joined": chance.odds(15),
        "apart": chance.length(0, 30),
    }
    return chance.some(own, 50)


def _stencil(chance: Chance) -> Table:
    """Draw a stencil, with bridges and slots of any width."""
    own: Table = {
        "bridge": chance.length(1, 4),
        "bridges": chance.whole(1, 4),
        "slot": chance.length(1, 3),
    }
    return chance.some(own, 50)


def lettering(chance: Chance, room: Room, tapered: bool = False) -> Table:
    """Draw a name or message that mostly fits the side or the top."""
    text = chance.pick(TEXTS)
    on = chance.pick(("side", "side", "top"))
    line = chance.pick(("level", "level", "curve") if on == "side" else ("level", "curve", "rim"))
    widest = room.girth * 0.4 if on == "side" else room.size * 0.55
    cap = min(widest / (0.85 * len(text)), room.depth * 0.4 if on == "side" else room.size * 0.2)
    cap = max(3.0, cap)
    measure = (
        {"cap_height": chance.length(3, cap)},
        {"cap_height": chance.length(3, cap)},
        {"width": chance.length(max(5.0, cap), max(6.0, cap * len(text) * 0.6))},
    )
    own: Table = {
        "font": chance.pick(("script", "bold", FACE)),
        "sideways": chance.length(-room.girth / 3, room.girth / 3)
        if on == "side"
        else chance.length(-10, 10),
        "cut": chance.odds(60),
        "thickness": chance.length(1, 5),
        "colour": chance.pick(COLOURS),
        "mirror": chance.odds(60),
        "transfer": transfer(chance),
        "stencil": _stencil(chance),
        "paper": chance.pick(("strip", "collar")),
    }
    if on == "top":
        del own["paper"]
    made = {"text": text, **chance.pick(measure), "on": on, "line": line, **chance.some(own, 50)}
    if line == "curve":
        # up to half a circle, of which the narrowest text has little
        most = 0.1 * (3.0 if "cap_height" in made else cap) * len(text)
        made["curve_height"] = chance.length(-most, most)
    if chance.odds(20):
        made["level"] = chance.length(room.depth * 0.45, room.depth * 0.7)
    return made


def scatter(chance: Chance, room: Room) -> Table:
    """Draw small pieces scattered over a side, mostly with room for them."""
    height, keys = band(chance, room, 16)
    size = chance.mm(4, max(5, min(28, height * 0.6)))
    area = height * room.girth
    most = max(1, min(40, int(area / (math.pi * (size + 3) ** 2))))
    measure: Table = chance.pick(
        ({"count": chance.whole(1, most)}, {"density": chance.whole(1, 4)}, {})
    )
    shape = chance.pick((*CUTOUTS, "artwork"))
    own: Table = {
        "apart": chance.length(0, 5),
        "thickness": chance.length(0.5, 4),
        "colour": chance.pick(COLOURS),
        "turned": chance.odds(50),
        "transfer": transfer(chance),
        "shuffle": chance.whole(0, 999),
    }
    made = {"shape": shape, "size": chance.written(size), **measure, **keys, **chance.some(own)}
    return {**made, "file": OUTLINE} if shape == "artwork" else made


def cascade(chance: Chance, names: Sequence[str]) -> Table:
    """Draw a garland over tiers of these names, from the bottom up; most can be made."""
    shape = chance.pick((*CUTOUTS, "artwork"))
    largest = chance.mm(12, 45)
    sizes = [largest, largest * 0.6, largest * 0.4][: chance.whole(1, 3)]
    sizes = [round(max(size, 6.0 - 0.1 * index), 2) for index, size in enumerate(sizes)]
    wide = chance.mm(largest, 3 * largest)
    turn = chance.whole(-180, 180)
    start = chance.whole(0, len(names) - 1)
    own: Table = {
        "start_turn": turn,
        "end_turn": turn + chance.pick((0, 60, -120, 400)),
        "end_width": chance.length(largest, 3 * largest),
        "density": chance.whole(2, 50),
        "on_drum": chance.length(0, 20),
        "apart": chance.length(0, 6),
        "thickness": chance.length(0.5, 4),
        "colour": chance.pick(COLOURS),
        "turned": chance.odds(50),
        "shuffle": chance.whole(0, 999),
        "start": names[start],
        "end": names[chance.whole(0, start)],
    }
    made: Table = {"shape": shape, "sizes": [f"{size} mm" for size in sizes], **chance.some(own)}
    if chance.odds(70):
        made["width"] = chance.written(wide)
    return {**made, "file": OUTLINE} if shape == "artwork" else made


def letter_cake(chance: Chance) -> Table:
    """Draw a number or word of cakes; most have room in their tins and hold together."""
    tall = chance.mm(120, 260)
    own: Table = {
        "font": chance.pick(("bold", "script", FACE)),
        "depth": chance.length(25, 70),
        "layers": chance.whole(1, 3),
        "filling": chance.length(0, 8),
        "coating": chance.length(0, 8),
        "fondant": chance.length(0, 6),
        "colour": chance.pick(COLOURS),
        "apart": chance.length(5, 50),
        "edge": chance.length(10, 60),
    }
    made = {"cap_height": chance.written(tall), **chance.some(own)}
    made |= {"tin_width": chance.length(300, 400), "tin_length": chance.length(400, 600)}
    if chance.odds(20):
        return {**made, "file": OUTLINE}
    return {**made, "text": chance.pick(("40", "8", "HB", "11", "Zoë", "i"))}


def topper(chance: Chance) -> Table:
    """Draw a topper that is mostly stout enough."""
    shape = chance.pick((*CUTOUTS, "text", "artwork"))
    own: Table = {
        "stick": chance.pick(("line", "tab")),
        "thickness": chance.length(5, 9),
        "colour": chance.pick(COLOURS),
        "transfer": transfer(chance),
        "count": chance.whole(1, 3),
    }
    made = {"shape": shape, "height": chance.length(40, 160), **chance.some(own)}
    if shape == "text":
        made |= {"text": chance.pick(("40", "1", "HB", "Ada", "18", "8")), "font": "bold"}
        if chance.odds(30):
            made["font"] = chance.pick(("script", FACE))
    if shape == "star" and chance.odds(60):
        made["points"] = chance.whole(4, 9)
    return {**made, "file": OUTLINE} if shape == "artwork" else made


def flower(chance: Chance) -> Table:
    """Draw flowers to cut, mostly wide enough for their narrowest part."""
    own: Table = {
        "count": chance.whole(1, 12),
        "leaves": chance.whole(0, 4),
        "wired": chance.odds(50),
        "thickness": chance.length(0.3, 2),
        "colour": chance.pick(COLOURS),
        "leaf_colour": chance.pick(COLOURS),
        "centre_colour": chance.pick(COLOURS),
    }
    made = {"kind": chance.pick(tuple(FLOWERS)), "width": chance.length(35, 130)}
    return {**made, **chance.some(own)}
