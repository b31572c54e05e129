"""Cakes of numbers and letters: a template of each part, its fondant, sheet cakes, the board."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from templates_gen.cakefile.letter_cakes import name_of
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.fonts import missing_glyphs
from templates_gen.drawing.piece import Owner, Piece, Value
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, TEXT, Line, measure, text_block
from templates_gen.errors import PlanWarning
from templates_gen.geometry.areas.booleans import Area, covers, filled
from templates_gen.geometry.areas.parts import covered, outer_and_holes
from templates_gen.geometry.areas.placement import deepest
from templates_gen.geometry.areas.walls import Wall
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path, rectangle
from templates_gen.guides.decorated import CakeOfLetters
from templates_gen.pieces.making import OUT, PRINT_UP, rolled
from templates_gen.pieces.marks import strokes
from templates_gen.tiers.letter_cakes import Made, Part, off
from templates_gen.units import counted, in_both, series

FONDANT = "fondant (sugar paste)"
WORKED = 25.0
"""A hole narrower than this is hard to line, mm: common practice, no source."""
BESIDE = 7.0
"""How far from a corner its number stands, mm."""

CUT_BY_PAPER = " as it lies here"
SET_BY_PAPER = (
    f"Lay it on the board, {PRINT_UP}, prick the outlines and set each character in its own"
)


def without_paper(use: str) -> str:
    """Return what to do with a piece of a letter cake for which there is no sheet."""
    return use.replace(CUT_BY_PAPER, "").replace(SET_BY_PAPER, "Set the characters on it")


def build(cake: CakeOfLetters) -> Iterable[Piece]:
    """Yield the pieces of a letter cake. Raises CakeError."""
    made, owner = cake.made, str(cake.index + 1)
    for part, copies in _alike(made.parts):
        name = f"{owner}-{part.number}"
        yield _template(name, made, part, copies)
        if made.spec.fondant.mm:
            yield _top(name, made, part, copies)
            for number, (which, wall) in enumerate(_named_walls(part.walls), 1):
                yield _wall(f"{name}-{number}", made, part, which, wall, copies)
    for sheet in range(made.sheets):
        yield _sheet(f"{owner}-{sheet + 1}", made, sheet)
    yield _board(owner, made)


def _alike(parts: Sequence[Part]) -> list[tuple[Part, int]]:
    """Return parts that differ, each with how many there are of it."""
    found: dict[Path, list[Part]] = {}
    for part in parts:
        found.setdefault(part.outline, []).append(part)
    return [(alike[0], len(alike)) for alike in found.values()]


def _named(part: Part) -> str:
    """Name a part by its character, where the font of the sheets has it."""
    return part.text if not missing_glyphs(part.text) else f"part {part.number}"


def _named_walls(walls: Sequence[Wall]) -> Iterator[tuple[str, Wall]]:
    """Yield each wall of a part with its name: holes have numbers where there are several."""
    holes = sum(wall.counter for wall in walls)
    number = 0
    for wall in walls:
        number += wall.counter
        hole = f"hole {number}" if holes > 1 else "the hole"
        yield hole if wall.counter else "the outside", wall


def _title(name: str, words: str) -> str:
    """Name a piece of a letter cake by what it is: a number in it would be another's, too."""
    return f"{name_of(int(name.split('-')[0]))}: {words}"


def _piece(kind: str, part: str, title: str, use: str, outline: Path, drawing: Drawing) -> Piece:
    """Return a piece; its part starts with the number of its letter cake."""
    return Piece(
        owner=Owner("pack", name_of(int(part.split("-")[0]))),
        kind=kind,
        title=title,
        surface="flat",
        use=use,
        outline=outline,
        drawing=drawing,
        part=part,
    )


def _template(name: str, made: Made, part: Part, copies: int) -> Piece:
    spec = made.spec
    outer, holes = outer_and_holes(part.outline)
    box = outer.bounds
    title = _title(name, _named(part))
    area = filled(part.outline)
    lines = [Line(title, TEXT, bold=True)]
    in_strips = spec.fondant.mm > 0
    marks = _numbers(area, part.walls) if in_strips else ()
    times = f" of each of {copies}" if copies > 1 else ""
    hole = " and round each hole" if holes else ""
    use = (
        f"Lay it on a sheet cake, {PRINT_UP}, and cut straight down round its edge{hole}:"
        f" {counted(spec.layers, 'layer')}{times}, each {in_both(made.layer_mm)} thick."
    )
    if in_strips:
        bent = any(len(wall.corners) > 1 for wall in part.walls)
        use += f" Its strips start at the join{' and bend at the numbers' if bent else ''}."
    drawing = Drawing(labels=(*_words(area, lines), *marks))
    found = _piece("letter-cake", name, title, use, outer, drawing)
    return replace(
        found,
        openings=holes,
        values={
            "letter": part.text,
            "count": copies,
            "width_mm": box.width,
            "height_mm": box.height,
            "area_mm2": area.area,
            "girths_mm": tuple(wall.bare for wall in part.walls),
        },
        warnings=tuple(_warnings(made, part, holes, int(name.split("-")[0]) - 1)),
    )


def _words(area: Area, lines: Sequence[Line]) -> tuple[Label, ...]:
    """Set words where an area is widest."""
    (x, y), far = deepest(area)
    return text_block(lines, Box(x - 0.75 * far, y - 0.6 * far, x + 0.75 * far, y + 0.6 * far))


def _numbers(area: Area, walls: Sequence[Wall]) -> tuple[Label, ...]:
    """Write numbers at the corners of each wall inside an area, where it has room for that."""
    found: list[Label] = []
    for wall in walls:
        for number, corner in enumerate(wall.corners):
            label = _beside(area, corner, str(number) if number else "join")
            if label is not None and not any(label.box.intersection(each.box) for each in found):
                found.append(label)
    return tuple(found)


def _beside(area: Area, corner: Point, text: str) -> Label | None:
    x, y = corner
    for dx, dy in ((0, -1), (1, -1), (-1, -1), (1, 0), (-1, 0), (1, 1), (-1, 1), (0, 1)):
        label = Label(text, (x + dx * BESIDE, y + dy * BESIDE - 1), SMALL, Anchor.MIDDLE)
        if covers(area, label.box.expanded(0.5)):
            return label
    return None


def _warnings(made: Made, part: Part, holes: Sequence[Path], index: int) -> Iterator[PlanWarning]:
    """Say of gaps that the covering fills, and of holes that are hard to line with fondant."""
    if covered(part.outline, made.spec.coating.mm + made.spec.fondant.mm)[1]:
        text = (
            f"letter cake {index + 1}: its covering fills a narrow gap of “{_named(part)}”; make it"
            " larger, or the covering thinner."
        )
        yield PlanWarning(("letter_cake", index, "cap_height"), text)
    off_walls = made.spec.coating.mm + made.spec.fondant.mm
    for hole in holes:
        wide = 2 * (deepest(filled(hole))[1] - off_walls)
        if wide < WORKED:
            text = (
                f"letter cake {index + 1}: the hole of “{_named(part)}” is"
                f" {in_both(wide)} wide when it is covered, which is hard to line:"
                " make it larger."
            )
            yield PlanWarning(("letter_cake", index, "cap_height"), text)


def _top(name: str, made: Made, part: Part, copies: int) -> Piece:
    spec = made.spec
    coated = off(part.outline, spec.coating.mm)
    outer, holes = outer_and_holes(coated)
    title = _title(name, f"top of {_named(part)}")
    made_of = rolled(spec.colour, FONDANT, spec.fondant.mm)
    more = measure(spec.coating.mm)
    larger = f", {more} larger all round than the cake" if spec.coating.mm else ""
    use = f"Cut {copies} from {made_of}, {OUT}{larger}, and lay it on the coated top."
    lines = [Line(title, TEXT, bold=True), Line(made_of, SMALL)]
    found = _piece(
        "letter-top", name, title, use, outer, Drawing(labels=_words(filled(coated), lines))
    )
    values = {"width_mm": outer.bounds.width, "height_mm": outer.bounds.height}
    return replace(found, openings=holes, copies=copies, values=values)


def _wall(name: str, made: Made, part: Part, which: str, wall: Wall, copies: int) -> Piece:
    spec, tall = made.spec, made.wall_height
    title = _title(name, f"strip for {which} of {_named(part)}")
    made_of = rolled(spec.colour, FONDANT, spec.fondant.mm)
    folds = series([in_both(fold) for fold in wall.folds]) if wall.folds else ""
    bent = f" Bend it sharply {folds} from the join." if folds else ""
    use = (
        f"Cut {copies} from {made_of}, {OUT}: {in_both(wall.length)} long,"
        f" {in_both(tall)} tall. Start at the join and set it round {which}.{bent}"
    )
    edge = Box(0.0, 0.0, wall.length, tall)
    lines = strokes(Role.FOLD, *(((fold, 0.0), (fold, tall)) for fold in wall.folds))
    numbers = [
        Label(str(number), (fold + 1.5, 2.0), SMALL) for number, fold in enumerate(wall.folds, 1)
    ]
    words = [Line(title, TEXT, bold=True), Line(made_of, SMALL)]
    ends = pairwise((0.0, *wall.folds, wall.length))
    widest = max(ends, key=lambda span: span[1] - span[0])
    space = Box(widest[0] + 3, 8.0, widest[1] - 3, tall - 3)
    labels = (Label("join", (1.5, 2.0), SMALL), *numbers, *text_block(words, space))
    found = _piece("letter-wall", name, title, use, rectangle(edge), Drawing(lines, labels))
    values: dict[str, Value] = {
        "length_mm": wall.length,
        "height_mm": tall,
        "folds_mm": wall.folds,
        "bare_girth_mm": wall.bare,
    }
    return replace(found, copies=copies, values=values)


def _sheet(name: str, made: Made, sheet: int) -> Piece:
    spec = made.spec
    short, long = sorted((spec.tin_width.mm, spec.tin_length.mm))
    drawn: list[Stroke] = []
    labels: list[Label] = []
    some = [
        (part, place)
        for part, place in zip(made.parts, made.places, strict=True)
        if place.rectangle == sheet
    ]
    for part, place in some:
        lies = part.outline.transformed(place.onto)
        drawn.append(Stroke(lies, Role.GUIDE))
        labels += _words(filled(lies), [Line(_named(part), TEXT, bold=True)])
    title = _title(name, f"sheet cake {sheet + 1} of {made.sheets}")
    cut = ", ".join(_named(part) for part, _ in some)
    use = (
        f"Bake {counted(spec.layers, 'sheet cake')} {in_both(short)} × {in_both(long)}, each"
        f" {in_both(made.layer_mm)} thick when level, and cut {cut} from each{CUT_BY_PAPER}."
    )
    outline = rectangle(Box(0.0, 0.0, short, long))
    found = _piece("cake-sheet", name, title, use, outline, Drawing(tuple(drawn), tuple(labels)))
    used = sum(filled(part.outline).area for part, _ in some)
    values = {
        "parts": len(some),
        "layers": spec.layers,
        "width_mm": short,
        "length_mm": long,
        "used_percent": 100 * used / (short * long),
    }
    return replace(found, values=values)


def _board(name: str, made: Made) -> Piece:
    spec, (wide, deep) = made.spec, made.board
    outside = spec.coating.mm + spec.fondant.mm
    drawn: list[Stroke] = []
    labels: list[Label] = []
    for part in made.parts:
        stands = off(part.outline, outside).moved(part.x, part.y)
        drawn.append(Stroke(stands, Role.SCORE))
        labels += _words(filled(stands), [Line(_named(part), TEXT, bold=True)])
    title = _title(name, "board")
    use = (
        f"Cut a board {in_both(wide)} × {in_both(deep)}. {SET_BY_PAPER},"
        f" {measure(spec.apart.mm)} apart."
    )
    at = (wide / 2, spec.edge.mm / 2 - 1)
    front = Label(f"front · {title}", at, SMALL, Anchor.MIDDLE, bold=True)
    outline = rectangle(Box(0.0, 0.0, wide, deep))
    drawing = Drawing(tuple(drawn), (*labels, front))
    found = _piece("letter-board", name, title, use, outline, drawing)
    return replace(found, values={"width_mm": wide, "length_mm": deep})
