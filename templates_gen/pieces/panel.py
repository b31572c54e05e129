"""Panel: one panel of the rows round a side, drawn once and cut many times."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

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
    closes_on,
    panel_layer,
    warnings,
)
from templates_gen.pieces.laid_flat import within_side
from templates_gen.pieces.making import OUT, fondant, rolled
from templates_gen.pieces.marks import on_side
from templates_gen.tiers.solid import Solid


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the panel of a tier with panels."""
    panels, row = tier.spec.panels, tier.panel_row
    if row is None or panels is None:
        return
    kinds = list(product(_courses(tier, row), row.widths))
    for number, (course, widths) in enumerate(kinds, 1):
        piece = _panel(tier, panels, row, course, widths, str(number) if len(kinds) > 1 else "")
        yield within_side(piece, panel_layer(tier, panels), 0.0)


@dataclass(frozen=True, slots=True)
class _Course:
    """Alike courses: how many, and from which v to which the first of them stands."""

    count: int
    top: float
    foot: float


def _courses(tier: Solid, row: PanelRow) -> list[_Course]:
    """Return the courses that differ: all alike where rim and foot are, else each its own."""
    if not tier.covered.is_tapered:
        return [_Course(row.rows, 0.0, row.height)]
    top, foot = row.band
    edges = [foot - course * row.height for course in range(row.rows + 1)]
    return [_Course(1, max(high, top), low) for low, high in pairwise(edges)]


def _panel(
    tier: Solid,
    panels: Panels,
    row: PanelRow,
    course: _Course,
    widths: tuple[float, int],
    part: str,
) -> Piece:
    """Return the panel of one width, of which a row has so many."""
    width, many = widths
    copies = many * course.count
    side = panel_layer(tier, panels).side
    title = f"{tier.name}: panel {part}".strip()
    middle = side.girth / 2
    half = width / row.ratio / 2
    box = Box(middle - half, course.top, middle + half, course.foot)
    edges = [2 * half * side.girth_ratio(v) for v in (course.top, course.foot)]
    lines = [*title_lines(title, f"cut {copies} ↑ up"), *_words(row, edges, many)]
    lines.append(_thick(tier, panels))
    space = Box(box.x0 + 2, -box.y1 + 2, box.x1 - 2, -box.y0 - 2)
    panel = side.unroll(
        Drawing((Stroke(rectangle(box), Role.CUT),), on_side(text_block(lines, space)))
    )
    return Piece(
        owner=tier.slug,
        kind="panel",
        part=part,
        tier=tier.name,
        title=title,
        surface=panel_layer(tier, panels).surface,
        copies=copies,
        use=_use(tier, panels, row, many),
        outline=panel.strokes[0].path,
        drawing=Drawing(labels=panel.labels),
        values={
            "count": many,
            "rows": row.rows,
            "width_mm": sum(edges) / 2,
            "height_mm": row.height,
            "left_over_mm": row.left_over,
            "per_join_mm": row.per_join,
            "closes_on_in": closes_on(tier, panels, width),
        },
        warnings=warnings(tier, panels, row) if part in ("", "1") else (),
    )


def _words(row: PanelRow, edges: Sequence[float], many: int) -> list[Line]:
    """Say how large a panel is, by its upper and lower edges where they differ."""
    rows = "row" if row.rows == 1 else "rows"
    upper, lower = map(measure, edges)
    words = (
        [f"{upper} × {measure(row.height)}"]
        if upper == lower
        else [f"top edge {upper}", f"bottom edge {lower}", f"{measure(row.height)} tall"]
    )
    words.append(f"{many} to a row, {row.rows} {rows}")
    if abs(row.per_join) > SEEN_GAP:
        much = "open" if row.per_join > 0 else "too long"
        words.append(f"{measure(abs(row.per_join))} {much} at each join")
    return [Line(text) for text in words]


def _thick(tier: Solid, panels: Panels) -> Line:
    """Say how thick the panels are: those that cover the tier are of its paste."""
    thick = tier.spec.paste_side_mm if panels.replace_wrap else panels.thickness.mm
    return Line(f"{measure(thick)} thick")


def _use(tier: Solid, panels: Panels, row: PanelRow, many: int) -> str:
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
