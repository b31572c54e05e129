"""What marks a side, in place of the whole collar: a tape, one repeat of a design, sections.

What stands at places, as drips and joins, needs a tape only. A design needs a tape and a template
of one repeat. What stands at one place of the side, as letters, needs that section of the collar.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from templates_gen.drawing.piece import Piece
from templates_gen.geometry.path import straights
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.drips import DripRow
from templates_gen.guides.guide import Guide, Repeats
from templates_gen.pieces.collar import STRIP
from templates_gen.pieces.collar_paper import AT_RIM, ON_BOARD, band_of
from templates_gen.pieces.collar_section import CollarSection, collar_section
from templates_gen.pieces.making import PRINT_OUT
from templates_gen.plan import Plan
from templates_gen.printing.places import Span, spans_of
from templates_gen.printing.tape import TALL, Tick, tape_of, tape_on_fold
from templates_gen.terms import Terms
from templates_gen.tiers.solid import Layer
from templates_gen.units import in_both, series

HAIR = 1e-6
LEAST_WIDE = 60.0
"""A template of repeats has as many as make it so wide, mm."""
GAUGE = 100.0
"""Width of a template of level lines, mm."""
SEEN = 0.05
"""What an edge is below the rim at the least, mm: less would be written as 0 mm."""
WORTH = 0.85
"""The parts take less than this of the paper of the collar, or the collar is printed."""
LETTERS = "ABCDEFGH"


def marked_by_parts(piece: Piece, plan: Plan) -> tuple[Piece, ...] | None:
    """Return what marks the side in place of a collar, or None where that would be no less."""
    tier = plan.tier_of(piece)
    if tier is None or piece.kind not in ("collar", "marking-band", STRIP):
        return None
    layer = tier.coated if piece.kind == "marking-band" else tier.covered
    kinds = _sorted(guides_of(piece, tier, layer), tier, layer, plan.terms)
    if kinds is None:
        return None
    parts = _parts(piece, tier, layer, kinds, openings_alone(tier, layer, plan), plan.terms)
    if not parts or sum(part.area.area for part in parts) > WORTH * piece.area.area:
        return None
    first, *others = parts
    return (replace(first, warnings=piece.warnings), *others)


def guides_of(piece: Piece, tier: DecoratedTier, layer: Layer) -> list[Guide]:
    """Return what a collar, or a strip of one guide, has on it."""
    strip = piece.part if piece.kind == STRIP else ""
    return [
        guide
        for guide in tier.guides
        if guide.on_collar and guide.strip == strip and guide.layer.surface == layer.surface
    ]


def openings_alone(tier: DecoratedTier, layer: Layer, plan: Plan) -> list[Span]:
    """Return where the hole through a tier comes out, if no wrap shows that."""
    wraps = any(piece.kind == "wrap" and piece.tier == tier.name for piece in plan.pieces)
    boxes = [path.bounds for path in tier.openings.on(layer)]
    return [] if wraps else [(box.x0, box.x1) for box in boxes]


@dataclass(frozen=True, slots=True)
class _Kinds:
    """The guides of a side: ticks, groups of designs with the same repeats, what has its place.

    Some of the ``ticks`` are of ``drips``.
    """

    ticks: tuple[Tick, ...]
    drips: DripRow | None
    level: tuple[float, ...]
    groups: tuple[tuple[Guide, ...], ...]
    placed: tuple[Guide, ...]


def _sorted(
    guides: Sequence[Guide], tier: DecoratedTier, layer: Layer, terms: Terms
) -> _Kinds | None:
    """Sort guides by what they need; None where one of them needs the whole collar."""
    ticks: list[Tick] = []
    joins: list[Tick] = []
    drips: DripRow | None = None
    level: list[float] = []
    repeated: list[Guide] = []
    placed = [guide for guide in guides if guide.is_placed]
    for guide in (each for each in guides if not each.is_placed):
        if guide.repeats is not None and _is_periodic(layer):
            repeated.append(guide)
            continue
        row = tier.drip_row
        if row is not None and guide.values.get("positions_mm") == row.positions:
            ticks += _drips(row, terms)
            drips = row
            continue
        found, lines = _joins(guide) if not guide.name else ([], [])
        if not found:
            return None
        joins += found
        level += lines
    if drips or repeated:  # a number alone would be taken for that of a drip
        joins = [
            replace(each, words=f"join {each.words}", kind=each.kind or "join") for each in joins
        ]
    ticks += joins
    return _Kinds(tuple(ticks), drips, tuple(level), tuple(_groups(repeated)), tuple(placed))


def _is_periodic(layer: Layer) -> bool:
    """Tell whether a side lies flat alike all round: upright walls, or a round cone."""
    rim = layer.rim
    is_round = math.isclose(4 * math.pi * rim.area, rim.girth**2, rel_tol=1e-9)
    return layer.side.is_level or (is_round and layer.fall is None)


def _drips(row: DripRow, terms: Terms) -> list[Tick]:
    """Return a tick for each drip of a row, with its length where they are not all alike.

    That is in inches or mm as the cake is, and in both where there is room.
    """
    if row.is_even:
        return [Tick(u, f"drip {number}", "drip") for number, u in enumerate(row.positions, 1)]
    made = []
    drips = zip(row.positions, row.words, row.numbers(inches=terms.inches), strict=True)
    for number, (u, both, length) in enumerate(drips, 1):
        ways = terms.text(both), length
        *fuller, words = (f"{number}: {way}" for way in ways)
        made.append(Tick(u, words, length, tuple(fuller)))
    return made


def _joins(guide: Guide) -> tuple[list[Tick], list[float]]:
    """Return the upright lines of a guide of panels as ticks, and v of its level ones."""
    levels, places = set[float](), dict[float, float]()
    for stroke in guide.drawing.strokes:
        for (x0, y0), (x1, y1) in straights(stroke.path):
            if abs(x0 - x1) < HAIR:
                u = x0 % guide.layer.side.girth
                places[u] = max(places.get(u, 0.0), y0, y1)
            else:
                levels.add(y0)
    lowest = max(places.values(), default=0.0)
    rows = {u: "row 1" if foot > lowest - HAIR else "row 2" for u, foot in places.items()}
    several = len(set(rows.values())) > 1
    ticks = [
        Tick(u, f"{number} {rows[u]}", rows[u]) if several else Tick(u, str(number), "")
        for number, u in enumerate(sorted(places), 1)
    ]
    return ticks, sorted(levels)


def _groups(guides: Sequence[Guide]) -> Iterator[tuple[Guide, ...]]:
    """Yield designs whose repeats begin at the same places; level lines go with any others."""
    groups: list[list[Guide]] = []
    for guide in sorted(guides, key=_is_level):
        same = next((group for group in groups if _repeat_alike(guide, group[0])), None)
        if same is None:
            groups.append([guide])
        else:
            same.append(guide)
    yield from map(tuple, groups)


def _repeat_alike(one: Guide, other: Guide) -> bool:
    if _is_level(one):
        return True
    a, b = one.repeats, other.repeats
    if a is None or b is None or len(a.places) != len(b.places):
        return False
    pairs = zip(a.places, b.places, strict=True)
    return all(abs(mine - its) < HAIR for mine, its in pairs)


def _is_level(guide: Guide) -> bool:
    """Tell whether a guide is level lines once round, and nothing else."""
    boxes = (stroke.path.bounds for stroke in guide.drawing.strokes)
    return all(box.height < HAIR and box.width > LEAST_WIDE for box in boxes)


def _parts(
    piece: Piece,
    tier: DecoratedTier,
    layer: Layer,
    kinds: _Kinds,
    openings: Sequence[Span],
    terms: Terms,
) -> list[Piece] | None:
    """Return the tape, the repeats and the sections that serve instead of a collar, if they do."""
    moving = [group for group in kinds.groups if not _is_level(group[0])]
    letters = LETTERS if len(moving) > 1 or (moving and kinds.ticks) else [""]
    if len(moving) > len(letters):
        return None
    ticks = list(kinds.ticks)
    for letter, group in zip(letters, moving, strict=False):
        places = group[0].repeats.places if group[0].repeats else ()
        ticks += [Tick(u, f"{letter}{number}", letter) for number, u in enumerate(places, 1)]
    made = []
    if ticks:
        if layer.side.least_depth < TALL:
            return None
        edge = ON_BOARD if _stands(kinds, layer) else AT_RIM
        folded = tape_on_fold(piece, tier, layer, ticks, edge, _says(kinds, "number", terms))
        says = _says(kinds, "second number", terms)
        made.append(folded or tape_of(piece, tier, layer, ticks, edge, says, _key(kinds, terms)))
    for number, group in enumerate(kinds.groups, 1):
        letter = letters[moving.index(group)] if group in moving else ""
        found = _repeat(piece, tier, layer, group, letter, number)
        if found is None:
            return None
        made.append(found)
    sections = _sections(piece, tier, layer, kinds.placed, openings)
    return None if sections is None else [*made, *sections]


def _stands(kinds: _Kinds, layer: Layer) -> bool:
    """Tell whether a tape stands on the board, as all templates of repeats do."""
    moving = [group for group in kinds.groups if not _is_level(group[0])]
    on_board = all(band_of(group, layer.side, 0.0).stands for group in moving)
    return layer.side.is_level and not kinds.ticks and on_board


def _says(kinds: _Kinds, length: str, terms: Terms) -> str:
    """Say what the ticks of a tape are, and which number there is the ``length`` of a drip."""
    says = ""
    if kinds.drips and kinds.drips.is_even:
        says = f"; each drip is {kinds.drips.words[0]} long"
    elif kinds.drips:
        says = f"; the {length} is how long that drip is, in {terms.unit}"
    if kinds.level:
        below = [in_both(v) for v in kinds.level if v >= SEEN]
        deep = f"{series(below)} below" if below else ""
        at_rim = f"at the rim{f' and {deep} it' if deep else ''}"
        where = at_rim if kinds.level[0] < SEEN else f"{deep} the rim"
        says += f"; panels have level edges {where}"
    return says


def _key(kinds: _Kinds, terms: Terms) -> str:
    """Return what tells how the words at ticks are read, for the tape itself."""
    has_lengths = kinds.drips is not None and not kinds.drips.is_even
    return f"drip number: length in {terms.unit}" if has_lengths else ""


def _repeat(
    piece: Piece,
    tier: DecoratedTier,
    layer: Layer,
    group: Sequence[Guide],
    letter: str,
    number: int,
) -> Piece | None:
    """Return a template of one repeat of some designs, or a few; None beside openings all round."""
    repeats = group[0].repeats
    if repeats is None:
        return None
    lines = _is_level(group[0])
    wide = GAUGE if lines else _times(repeats) * repeats.width
    start = _clear_start(repeats, wide, layer, tier)
    if start is None:
        return None
    named = f"repeat{f' {letter}' if letter else ''}" if not lines else "level lines"
    alone = f" for {group[0].name}" if piece.kind == STRIP else ""
    where = f"{piece.tier}: {named}{alone}"
    count, lettered = len(repeats.places), f" {letter}" if letter else ""
    ticks = f"each of the {count} ticks{lettered}" if count > 1 else f"the tick{lettered}"
    # of several designs of one kind the number says nothing that can be seen here
    names = series(list(dict.fromkeys(each.name.partition(" (")[0] for each in group)))
    use = (
        f"Slide it round, {PRINT_OUT}, its {{edge}}, and mark the lines of the {names}."
        if lines
        else f"Set its left edge at {ticks} of the tape, {PRINT_OUT}, its {{edge}};"
        f" mark or prick the {names}{', then move on' if count > 1 else ''}."
    )
    use += _sizes(group)
    part = "-".join(filter(None, (piece.part, f"repeat-{number}")))
    marks = tuple(start + step * repeats.width for step in range(1, _times(repeats)))
    section = CollarSection(start, start + wide, part, where, use, marks=marks, moves=True)
    return collar_section(tier, piece.kind, layer, group, section)


def _sizes(group: Sequence[Guide]) -> str:
    """Say how large what is repeated is; how wide a repeat is can be read off the template."""
    sizes = list(dict.fromkeys(guide.sizes for guide in group if guide.sizes))
    return f" Sizes: {'; '.join(sizes)}." if sizes else ""


def _times(repeats: Repeats) -> int:
    """Return how many repeats a template has."""
    return min(len(repeats.places), math.ceil(LEAST_WIDE / repeats.width - HAIR))


def _clear_start(repeats: Repeats, wide: float, layer: Layer, tier: DecoratedTier) -> float | None:
    """Return the first place from which repeats are clear of openings."""
    holes = [path.bounds for path in tier.openings.repeated(layer)]
    girth = layer.side.girth
    for u in repeats.places if repeats.width < girth - HAIR else (girth / 2 + 2, girth / 4, 0.0):
        if all(box.x1 < u or box.x0 > u + wide for box in holes):
            return u
    return None


def _sections(
    piece: Piece,
    tier: DecoratedTier,
    layer: Layer,
    placed: Sequence[Guide],
    openings: Sequence[Span],
) -> list[Piece] | None:
    """Return the sections that carry what has its place; None where that is most of the side."""
    boxes = [stroke.path.bounds for guide in placed for stroke in guide.drawing.strokes]
    found = spans_of([*((box.x0, box.x1) for box in boxes), *openings], layer.side.girth)
    if found is None:
        return None
    made = []
    for number, (start, end, at) in enumerate(found, 1):
        title = f"{piece.tier}: collar at the {at}"
        use = (
            f"Lay it on the finished side, once the icing is firm, {PRINT_OUT}, {{edge}},"
            f" its mark at the {at}; mark through it."
        )
        part = "-".join(filter(None, (piece.part, f"place-{number}")))
        made.append(
            collar_section(
                tier, piece.kind, layer, placed, CollarSection(start, end, part, title, use)
            )
        )
    return made
