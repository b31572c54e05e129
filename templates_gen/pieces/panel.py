"""Panel: one panel of the rows round a side, drawn once and cut many times."""

from __future__ import annotations

from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.path import Box, rectangle
from templates_gen.drawing.piece import Drawing, Piece, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.pieces.marks import Line, text_block, title_lines
from templates_gen.pieces.panel_row import advice, closes_on, panel_layer, panel_row
from templates_gen.tiers.solid import Solid


def build(tier: Solid) -> Piece | None:
    """Return the panel of a tier with panels, or None."""
    panels = tier.asked.panels
    if panels is None:
        return None
    row = panel_row(tier, panels)
    copies = row.count * row.courses
    title = f"{tier.name}: panel"
    box = Box(0, 0, row.width, row.height)
    block = [
        *title_lines(title, f"cut {copies}"),
        Line(f"{in_both(row.width)} × {in_both(row.height)}"),
        Line(f"{row.count} to a row, {row.courses} {'row' if row.courses == 1 else 'rows'}"),
    ]
    return Piece(
        id=f"{tier.slug}/panel",
        tier=tier.name,
        title=title,
        surface=panel_layer(tier, panels).surface,
        copies=copies,
        use=_use(tier, row.count),
        outline=rectangle(box),
        drawing=Drawing((Stroke(rectangle(box), Role.CUT),), text_block(block, box.grown(-2))),
        values={
            "count": row.count,
            "courses": row.courses,
            "width_mm": row.width,
            "height_mm": row.height,
            "left_over_mm": row.left_over,
            "per_join_mm": row.per_join,
            "closes_on_in": closes_on(tier, panels, row.width),
        },
        doubts=advice(tier, panels, row),
    )


def _use(tier: Solid, count: int) -> str:
    panels = tier.asked.panels
    if panels is not None and panels.covering:
        return f"Cut from rolled paste and set {count} edge to edge round the coated side."
    return f"Set {count} evenly round the finished side, at the joins that the collar marks."
