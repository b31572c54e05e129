"""Carving guide: the outlines to which the layers of a tier are carved, one inside the other."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from templates_gen.cakefile.estimates import Estimates
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece, Value
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, Line, measure, text_block, title_lines
from templates_gen.geometry.areas.booleans import buffered, region
from templates_gen.geometry.areas.lines import spans_on
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path
from templates_gen.pieces.marks import axes_across
from templates_gen.tiers.carving import can_be_cut, carved_layers, section, section_radius
from templates_gen.tiers.solid import Solid

GAP = 6.0
"""The least distance of two outlines on one guide, so that each can be named, mm."""
SAME = 0.05
"""Outlines that differ by less, mm, are one."""
NEXT = ", then cut the guide back to the next line"
RAY = math.radians(76)
"""The direction from the middle in which outlines are named."""


@dataclass(frozen=True, slots=True)
class Level:
    """The edge of a tier at the base or the top of some of its layers."""

    names: tuple[str, ...]
    edge: Path
    radius: float | None

    @property
    def name(self) -> str:
        """What stands at its line; many follow each other where a side is upright."""
        few = len(self.names) < 3
        return ", ".join(self.names) if few else f"{self.names[0]} to {self.names[-1]}"


def levels(tier: Solid, estimates: Estimates) -> tuple[Level, ...]:
    """Return the edge at the base and at the top of each layer that is carved."""
    found = (
        Level((f"{layer.number} {end}",), section(tier, z), section_radius(tier, z))
        for layer in carved_layers(tier, estimates)
        for end, z in (("base", layer.base), ("top", layer.top))
    )
    return tuple(each for each in found if can_be_cut(each.edge))


def build(tier: Solid, estimates: Estimates) -> Iterable[Piece]:
    """Yield the guides of a tier that is carved: as few as have room for all its outlines."""
    groups = _nested(levels(tier, estimates))
    for number, outlines in enumerate(groups, 1):
        yield _guide(tier, outlines, str(number) if len(groups) > 1 else "")


def _nested(found: Sequence[Level]) -> list[list[Level]]:
    """Put outlines into each other, the largest outside; those like the outer edge share it."""
    groups: list[list[Level]] = []
    for each in sorted(found, key=lambda level: -region(level.edge).area):
        for outlines in groups:
            if _is_same(outlines[0].edge, each.edge):
                outlines[0] = replace(outlines[0], names=outlines[0].names + each.names)
                break
            if _lies_in(each.edge, outlines[-1].edge):
                outlines.append(each)
                break
        else:
            groups.append([each])
    return groups


def _is_same(one: Path, other: Path) -> bool:
    widened = buffered(region(other), SAME)
    area = region(one)
    return widened is not None and widened.covers(area) and area.area > region(other).area * 0.99


def _lies_in(inner: Path, outer: Path) -> bool:
    inside = buffered(region(outer), -GAP)
    return inside is not None and inside.covers(region(inner))


def _guide(tier: Solid, outlines: Sequence[Level], part: str) -> Piece:
    outer = outlines[0]
    title = f"{tier.name}: carving guide{f' {part}' if part else ''}"
    across = tuple(max(level.edge.bounds.size) for level in outlines)
    named = zip(outlines, across, strict=True)
    said = "; ".join(f"{level.name} {measure(wide)}" for level, wide in named)
    lines = title_lines(
        title, f"layer {outer.name}: {measure(across[0])} across", "largest outline first"
    )
    return Piece(
        owner=tier.owner,
        kind="carving-guide",
        title=title,
        surface="bare",
        use=f"Lay it on layer {said}, its middle on the middle of the cake"
        f" and its front to the front; carve down to its edge{NEXT if len(outlines) > 1 else ''}.",
        outline=outer.edge,
        drawing=_drawing(outlines, lines),
        values={"outline_count": len(outlines), "across_mm": across, **_radii(outlines)},
        part=part,
    )


def _radii(outlines: Sequence[Level]) -> dict[str, Value]:
    """Return the radii of outlines that are circles, as a figure."""
    radii = tuple(level.radius for level in outlines if level.radius is not None)
    return {"radii_mm": radii} if len(radii) == len(outlines) else {}


def _drawing(outlines: Sequence[Level], lines: Sequence[Line]) -> Drawing:
    """Draw the inner outlines, the name of each, the axes, the front, and the title."""
    edge = outlines[0].edge
    inner = _on_ray(outlines[-1].edge)
    inside = Box(inner[0] + 10.0, 3.0, outlines[-1].edge.bounds.x1 * 0.7, inner[1] * 0.7)
    front = Label("front", (4.0, edge.bounds.y0 + SMALL / 2), SMALL, bold=True)
    words = (*map(_named, outlines), front, *text_block(lines, inside))
    drawn = (Stroke(level.edge, Role.TRIM) for level in outlines[1:])
    return axes_across(edge) + Drawing(tuple(drawn), words)


def _named(level: Level) -> Label:
    """Return the name of an outline, which stands just inside it."""
    x, y = _on_ray(level.edge)
    return Label(level.name, (x, y - GAP / 2 - SMALL * 0.35), SMALL, Anchor.MIDDLE)


def _on_ray(edge: Path) -> Point:
    """Return the outermost place of an edge in the direction in which outlines are named."""
    far = max(edge.bounds.size) * 2
    spans = spans_on(region(edge), (0.0, 0.0), (far * math.cos(RAY), far * math.sin(RAY)))
    return spans[-1][1] if spans else (0.0, edge.bounds.y1)
