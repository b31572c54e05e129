"""Panel: one panel of the rows round a side, drawn once and cut many times."""

from __future__ import annotations

from collections.abc import Iterable

from templates_gen.drawing.path import Box, rectangle
from templates_gen.drawing.piece import Drawing, Piece
from templates_gen.pieces.marks import Line, measure, text_block, title_lines
from templates_gen.pieces.panel_row import (
    SEEN_GAP,
    PanelRow,
    closes_on,
    doubts,
    panel_layer,
    panel_row,
)
from templates_gen.tiers.solid import Solid


def build(tier: Solid) -> Iterable[Piece]:
    """Yield the panel of a tier with panels."""
    panels = tier.asked.panels
    if panels is None:
        return
    row = panel_row(tier, panels)
    copies = row.count * row.courses
    title = f"{tier.name}: panel"
    box = Box(0, 0, row.width, row.height)
    words = text_block([*title_lines(title, f"cut {copies}"), *_words(row)], box.grown(-2))
    yield Piece(
        owner=tier.slug,
        kind="panel",
        tier=tier.name,
        title=title,
        surface=panel_layer(tier, panels).surface,
        copies=copies,
        use=_use(row, covering=panels.covering),
        outline=rectangle(box),
        drawing=Drawing(labels=words),
        values={
            "count": row.count,
            "courses": row.courses,
            "width_mm": row.width,
            "height_mm": row.height,
            "left_over_mm": row.left_over,
            "per_join_mm": row.per_join,
            "closes_on_in": closes_on(tier, panels, row.width),
        },
        doubts=doubts(tier, panels, row),
    )


def _words(row: PanelRow) -> list[Line]:
    rows = "row" if row.courses == 1 else "rows"
    words = [
        f"{measure(row.width)} × {measure(row.height)}",
        f"{row.count} to a row, {row.courses} {rows}",
    ]
    if abs(row.per_join) > SEEN_GAP:
        much = "open" if row.per_join > 0 else "too long"
        words.append(f"{measure(abs(row.per_join))} {much} at each join")
    return [Line(text) for text in words]


def _use(row: PanelRow, *, covering: bool) -> str:
    if covering:
        return (
            f"Cut from rolled paste and set {row.count} to a row, edge to edge round the coated"
            " side, at the joins that the inner collar marks."
        )
    return f"Set {row.count} to a row, evenly, at the joins that the collar marks."
