"""Panel: one panel of the rows round a side, drawn once and cut many times."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from templates_gen.cakefile.panels import Panels
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import Line, measure, text_block, title_lines
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.panels import (
    SEEN_GAP,
    PanelRow,
    PanelRows,
    closes_on,
    panel_layer,
    warnings,
)
from templates_gen.pieces.laid_flat import within_side
from templates_gen.pieces.making import OUT, fondant, rolled
from templates_gen.pieces.marks import on_side
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Solid
from templates_gen.units import counted


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the panels of a tier with panels: one of each width, on a taper of each row."""
    panels, rows = tier.spec.panels, tier.panel_rows
    if rows is None or panels is None:
        return
    kinds = list(_kinds(tier, rows))
    for number, kind in enumerate(kinds, 1):
        piece = _panel(tier, panels, kind, str(number) if len(kinds) > 1 else "")
        warned = warnings(tier, panels, rows) if number == 1 else ()
        yield within_side(replace(piece, warnings=warned), panel_layer(tier, panels), 0.0)


@dataclass(frozen=True, slots=True)
class _Kind:
    """Panels that are alike: in which row, how wide in its middle and how tall, mm, how many.

    ``rows`` are alike; one of several that differ has its ``number`` from the lowest up.
    """

    row: PanelRow
    width: float
    height: float
    many: int
    rows: int
    number: int | None

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


def _kinds(tier: Solid, rows: PanelRows) -> Iterator[_Kind]:
    """Yield the panels that differ: where rim and foot are alike those of one row."""
    count = len(rows.rows)
    each_its_own = tier.covered.is_tapered and count > 1
    for number, row in enumerate(rows.rows if each_its_own else rows.rows[:1], 1):
        for width, many in row.widths:
            yield _Kind(row, width, rows.height, many, count, number if each_its_own else None)


def _panel(tier: Solid, panels: Panels, kind: _Kind, part: str) -> Piece:
    """Return the template of some panels."""
    title = f"{tier.name}: panel {part}".strip()
    side = panel_layer(tier, panels).side
    top, foot = kind.row.band if tier.covered.is_tapered else (0.0, kind.height)
    middle, half = side.girth / 2, kind.width / kind.row.ratio / 2
    # a mould is straight, whatever it is set on
    edges = [kind.width if panels.mould else 2 * half * side.girth_ratio(v) for v in (top, foot)]
    lines = title_lines(title, f"cut {kind.copies} ↑ up")
    lines += [*_words(kind, edges), _thick(tier, panels)]
    panel = (
        _on_paper(Box(0.0, 0.0, kind.width, kind.height), lines)
        if panels.mould
        else _on_side(side, Box(middle - half, top, middle + half, foot), lines)
    )
    return Piece(
        owner=tier.slug,
        kind="panel",
        part=part,
        tier=tier.name,
        title=title,
        surface=panel_layer(tier, panels).surface,
        copies=kind.copies,
        use=_use(tier, panels, kind.many),
        outline=panel.strokes[0].path,
        drawing=Drawing(labels=panel.labels),
        values={
            "count": kind.many,
            "rows": kind.rows,
            "width_mm": sum(edges) / 2,
            "height_mm": kind.height,
            "left_over_mm": kind.row.left_over,
            "per_join_mm": kind.row.per_join,
            "closes_on_in": closes_on(tier, panels, kind.width),
        },
    )


def _on_paper(box: Box, lines: Sequence[Line]) -> Drawing:
    """Draw the edge of a straight panel, with its words."""
    words = text_block(lines, Box(box.x0 + 2, box.y0 + 2, box.x1 - 2, box.y1 - 2))
    return Drawing((Stroke(rectangle(box), Role.CUT),), words)


def _on_side(side: Side, box: Box, lines: Sequence[Line]) -> Drawing:
    """Draw the edge of a panel that takes a box of a side, with its words, as it lies flat."""
    space = Box(box.x0 + 2, -box.y1 + 2, box.x1 - 2, -box.y0 - 2)
    edge = Stroke(rectangle(box), Role.CUT)
    return side.unroll(Drawing((edge,), on_side(text_block(lines, space))))


def _words(kind: _Kind, edges: Sequence[float]) -> list[Line]:
    """Say how large a panel is, by its upper and lower edges where they differ."""
    upper, lower = map(measure, edges)
    words = (
        [f"{upper} × {measure(kind.height)}"]
        if upper == lower
        else [f"top edge {upper}", f"bottom edge {lower}", f"{measure(kind.height)} tall"]
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


def _use(tier: Solid, panels: Panels, many: int) -> str:
    if panels.replace_wrap:
        return (
            f"Cut from {fondant(tier.spec, tier.spec.paste_side_mm)}, {OUT}; set {many} to a row,"
            " edge to edge round the coated side, at the joins marked on it."
        )
    made_of = rolled(tier.spec.colour_of(panels), panels.material, panels.thickness.mm)
    if panels.mould is not None:
        made_of = made_of.replace(" rolled", "")
    return (
        f"Make them from {made_of}, {OUT}; set {many} to a row, evenly, at the joins"
        " marked on the side."
    )
