"""Panel: one panel of the rows round a side, drawn once and cut many times."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, islice

from fontTools.misc.transform import Transform

from templates_gen.cakefile.panels import Panels
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import Line, measure, text_block, title_lines
from templates_gen.geometry.areas.sampling import path_length
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line, rectangle
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.panels import (
    SEEN_GAP,
    PanelRow,
    PanelRows,
    closes_on,
    panel_boxes,
    panel_layer,
    warnings,
)
from templates_gen.pieces.laid_flat import within_side
from templates_gen.pieces.making import OUT, fondant, rolled
from templates_gen.pieces.marks import on_side
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Solid
from templates_gen.units import counted, series


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the panels of a tier with panels: one of each width, on a taper of each shape."""
    panels, rows = tier.spec.panels, tier.panel_rows
    if rows is None or panels is None:
        return
    kinds = list(_kinds(tier, panels, rows))
    for number, kind in enumerate(kinds, 1):
        piece = _panel(tier, panels, kind, str(number) if len(kinds) > 1 else "")
        warned = warnings(tier, panels, rows) if number == 1 else ()
        yield within_side(replace(piece, warnings=warned), panel_layer(tier, panels), 0.0)


@dataclass(frozen=True, slots=True)
class _Kind:
    """Panels that are alike: in which row, where one stands on the side, how many there are.

    ``rows`` are alike; one of several that differ has its ``number`` from the lowest up. Where a
    row has panels of several shapes, ``places`` has which of it these are, from the back join.
    """

    row: PanelRow
    box: Box
    many: int
    rows: int
    number: int | None
    places: tuple[int, ...] = ()

    @property
    def place(self) -> str:
        """Which row or rows it is for, and how many of it."""
        if self.number is not None:
            return f"{self.many} for row {self.number} of {self.rows}, from the bottom"
        return f"{self.many} to a row, {counted(self.rows, 'row')}"

    @property
    def copies(self) -> int:
        """How many are cut."""
        return self.many * (self.rows if self.number is None else 1)


def _kinds(tier: Solid, panels: Panels, rows: PanelRows) -> Iterator[_Kind]:
    """Yield the panels that differ: where rim and foot are alike those of one row."""
    count, side = len(rows.rows), panel_layer(tier, panels).side
    if not tier.covered.is_tapered:
        for width, many in rows.rows[0].widths:
            yield _Kind(rows.rows[0], Box(0.0, 0.0, width, rows.height), many, count, None)
        return
    boxes = iter(panel_boxes(rows, panels, panel_layer(tier, panels)))
    for number, row in enumerate(rows.rows, 1):
        of_row = list(islice(boxes, row.count))
        alike = [list(enumerate(of_row, 1))] if panels.mould else _alike(side, of_row)
        for same in alike:
            places = tuple(place for place, _ in same) if len(alike) > 1 else ()
            box = _typical(side, [box for _, box in same])
            yield _Kind(row, box, len(same), count, number if count > 1 else None, places)


def _alike(side: Side, boxes: Iterable[Box]) -> list[list[tuple[int, Box]]]:
    """Return boxes of a side, numbered from 1, in groups whose papers are alike.

    On a flat face that narrows, the panels beside its middle lean, each by as much as it is away.
    """
    groups: list[tuple[list[float], list[tuple[int, Box]]]] = []
    for number, box in enumerate(boxes, 1):
        points = [
            side.flat(box.x0 + share / 4 * box.width, v)
            for v in (box.y0, box.y1)
            for share in range(5)
        ]
        apart = [math.dist(a, b) for a, b in combinations(points, 2)]
        for first, group in groups:
            if all(abs(a - b) < SEEN_GAP for a, b in zip(apart, first, strict=True)):
                group.append((number, box))
                break
        else:
            groups.append((apart, [(number, box)]))
    return [group for _, group in groups]


def _typical(side: Side, boxes: Sequence[Box]) -> Box:
    """Return the box whose edges are nearest to the mean of all: so many as it close best.

    On an oval taper, say, the layers make panels that pass as alike longer at some places.
    """
    lengths = [_edge(side, box, box.y0) + _edge(side, box, box.y1) for box in boxes]
    mean = sum(lengths) / len(lengths)
    off = [round(abs(length - mean), 6) for length in lengths]
    return boxes[off.index(min(off))]


def _panel(tier: Solid, panels: Panels, kind: _Kind, part: str) -> Piece:
    """Return the template of some panels."""
    title = f"{tier.name}: panel {part}".strip()
    side, box = panel_layer(tier, panels).side, kind.box
    if panels.mould is not None:  # straight, whatever it is set on
        box = Box(0.0, 0.0, panels.mould.mm, box.height)
    edges = [box.width if panels.mould else _edge(side, box, v) for v in (box.y0, box.y1)]
    lines = title_lines(title, f"cut {kind.copies} ↑ up")
    lines += [*_words(kind, edges), _thick(tier, panels)]
    panel = _on_paper(box, lines) if panels.mould else _on_side(side, box, lines)
    return Piece(
        owner=tier.owner,
        kind="panel",
        part=part,
        title=title,
        surface=panel_layer(tier, panels).surface,
        copies=kind.copies,
        use=_use(tier, panels, kind),
        outline=panel.strokes[0].path,
        drawing=Drawing(labels=panel.labels),
        values={
            "count": kind.many,
            "rows": kind.rows,
            "width_mm": sum(edges) / 2,
            "height_mm": box.height,
            "left_over_mm": kind.row.left_over,
            "per_join_mm": kind.row.per_join,
            "closes_on_in": closes_on(tier, panels, sum(edges) / 2),
        },
    )


def _edge(side: Side, box: Box, v: float) -> float:
    """Return how long the level edge of a box at ``v`` is on the paper, mm."""
    return path_length(side.unrolled(line((box.x0, v), (box.x1, v))))


def _on_paper(box: Box, lines: Sequence[Line]) -> Drawing:
    """Draw the edge of a straight panel, with its words."""
    return Drawing((Stroke(rectangle(box), Role.CUT),), text_block(lines, box.expanded(-2)))


def _on_side(side: Side, box: Box, lines: Sequence[Line]) -> Drawing:
    """Draw the edge of a panel that takes a box of a side, with its words, upright on the paper."""
    space = Box(box.x0 + 2, -box.y1 + 2, box.x1 - 2, -box.y0 - 2)
    edge = Stroke(rectangle(box), Role.CUT)
    laid = side.unroll(Drawing((edge,), on_side(text_block(lines, space))))
    (x0, y0), (x1, y1) = (side.flat(box.centre[0] + by, box.centre[1]) for by in (-0.5, 0.5))
    return laid.transformed(Transform().rotate(-math.atan2(y1 - y0, x1 - x0)))


def _words(kind: _Kind, edges: Sequence[float]) -> list[Line]:
    """Say how large a panel is, by its upper and lower edges where they differ."""
    upper, lower = map(measure, edges)
    words = (
        [f"{upper} × {measure(kind.box.height)}"]
        if upper == lower
        else [f"top edge {upper}", f"bottom edge {lower}", f"{measure(kind.box.height)} tall"]
    )
    words.append(kind.place)
    if abs(kind.row.per_join) > SEEN_GAP:
        much = "open" if kind.row.per_join > 0 else "too long"
        words.append(f"{measure(abs(kind.row.per_join))} {much} at each join")
    return [Line(text) for text in words]


def _thick(tier: Solid, panels: Panels) -> Line:
    """Say how thick the panels are: those that cover the tier are of its paste."""
    thick = tier.spec.paste_side_mm if panels.replace_wrap else panels.thickness.mm
    return Line(f"{measure(thick)} thick")


def _use(tier: Solid, panels: Panels, kind: _Kind) -> str:
    if panels.replace_wrap:
        return (
            f"Cut from {fondant(tier.spec, tier.spec.paste_side_mm)}, {OUT}; set {kind.many} to a"
            f" row, edge to edge round the coated side, at the joins marked on it.{_which(kind)}"
        )
    made_of = rolled(tier.spec.colour_of(panels), panels.material, panels.thickness.mm)
    if panels.mould is not None:
        made_of = made_of.replace(" rolled", "")
    return (
        f"Make them from {made_of}, {OUT}; set {kind.many} to a row, evenly, at the joins"
        f" marked on the side.{_which(kind)}"
    )


def _which(kind: _Kind) -> str:
    """Say which panels of a row these are, if not all of it are alike."""
    if not kind.places:
        return ""
    numbers = series([str(place) for place in kind.places])
    these = "these are panels" if kind.many > 1 else "this is panel"
    return f" Counting to the right from the first join after the back, {these} {numbers}."
