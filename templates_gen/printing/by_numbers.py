"""What needs no sheet: numbers on the cover, the circle guide or one's own mould serve instead."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from templates_gen.drawing.piece import Piece
from templates_gen.pieces.circle_guide import SAME
from templates_gen.plan import Plan
from templates_gen.printing.marking import guides_of, openings_alone
from templates_gen.tiers.seat import OF_DRUM
from templates_gen.units import in_both, series

NO_SHEET = "no sheet needed"
ROUND = 1e-6
"""By which share a circle may be off."""


def circle_guide_gives(piece: Piece, plan: Plan) -> Piece | None:
    """Return a piece of circles as what the circle guide draws, if it has their holes."""
    wanted = _radii(piece)
    if not wanted or plan.templates.circle_guides == "none":
        return None
    guides = (each.values.get("radii_mm") for each in plan.pieces if each.kind == "circle-guide")
    radii = [mm for found in guides if isinstance(found, tuple) for mm in found]
    if not all(any(abs(radius - mm) < SAME for mm in radii) for radius in wanted):
        return None
    several = len(wanted) > 1
    across = series([in_both(2 * radius) for radius in wanted])
    holes = f"hole{'s' if several else ''} {across}"
    drawn = "both circles" if len(wanted) == 2 else "all circles" if several else "it"
    use = f"Draw {drawn} on parchment with the circle guide: {holes}. {_then(piece, plan)}"
    return replace(piece, printed=False, instead="circle guide", use=use)


def _then(piece: Piece, plan: Plan) -> str:
    """Say what is done with circles."""
    if piece.kind == "carving-guide":  # in short: each of many layers has its hole
        return "Carve each layer to its circle."
    if piece.kind == "board" and "drill" in piece.use:
        return f"{piece.use} The middle is where the pin was."
    seat = next((each for each in plan.stack.seats if each.owner == piece.owner), None)
    if piece.kind != "placement-guide" or seat is None:
        return piece.use
    middle = " A dowel goes in where the pin was." if seat.support and seat.support.through else ""
    return (
        f"Cut out the outer one, lay it on the {'drum' if seat.on_drum else 'covered top'}, line"
        f" up the edges, and prick the inner one: “{seat.upper.name}” stands there.{middle}"
    )


def _radii(piece: Piece) -> tuple[float, ...]:
    """Return the radii of a disc, or of all outlines of other pieces, if they are circles."""
    if piece.kind in ("carving-guide", "board", "drum-ring", "placement-guide"):
        found = piece.values.get("radii_mm", ())
        return tuple(map(float, found)) if isinstance(found, tuple) else ()
    radius = _radius(piece) if piece.kind == "disc" else None
    return () if radius is None else (radius,)


def _radius(piece: Piece) -> float | None:
    """Return the radius of a piece that is a circle."""
    width, height = piece.outline.bounds.size
    is_round = math.isclose(width, height, rel_tol=ROUND) and math.isclose(
        piece.outline.area, math.pi / 4 * width * height, rel_tol=1e-3
    )
    return width / 2 if is_round else None


def same_edge(piece: Piece, plan: Plan) -> Piece | None:
    """Return the template of a drum without a sheet, where a placement guide has the same edge."""
    guides = (each for each in plan.pieces if each.kind == "placement-guide")
    if (
        piece.kind != "board"
        or plan.templates.placement_guides == "none"
        or not any(guide.owner == piece.owner == OF_DRUM for guide in guides)
    ):
        return None
    use = f"Use the placement guide of the drum. {piece.use}"
    return replace(piece, printed=False, instead="placement guide", use=use)


def own_mould(piece: Piece, plan: Plan) -> Piece | None:
    """Return a panel of a mould that the decorator owns without a sheet."""
    tier = plan.tier_of(piece)
    panels = tier.spec.panels if tier else None
    if piece.kind != "panel" or panels is None or panels.mould is None:
        return None
    return replace(piece, printed=False, instead="your mould")


def quarters_alone(piece: Piece, plan: Plan) -> Piece | None:
    """Return a collar on which nothing but front, back and quarters is marked as its numbers."""
    tier = plan.tier_of(piece)
    if piece.kind != "collar" or tier is None:
        return None
    layer = tier.covered
    if guides_of(piece, tier, layer) or openings_alone(tier, layer, plan):
        return None
    use = quarters_apart({"": tier.covered.side.girth / 4})
    return replace(piece, printed=False, instead=NO_SHEET, use=use)


def quarters_apart(quarters: Mapping[str, float]) -> str:
    """Say how far apart front, sides and back of tiers are, each with a quarter of its rim, mm."""
    apart = (f"{name} {in_both(mm)} apart".lstrip() for name, mm in quarters.items())
    return f"Mark front, left, back and right on the finished rim: {', '.join(apart)}."
