"""Every dimension of a cake, as data and as a table in both units."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from templates_gen.drawing.piece import Piece, Value
from templates_gen.plan import Plan
from templates_gen.terms import Terms
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.units import decimal, in_both


def figures(plan: Plan) -> dict[str, Any]:
    """Return title, tiers and pieces with every figure, lengths in mm, ready for JSON."""
    return {
        "title": plan.title,
        "tiers": [_tier(tier) for tier in plan.stack.tiers],
        "pieces": [_piece(piece) for piece in plan.pieces],
    }


def _tier(tier: Solid) -> dict[str, Any]:
    return {
        "name": tier.name,
        "shape": tier.spec.shape,
        **{layer.surface: _layer(layer) for layer in (tier.bare, tier.coated, tier.covered)},
    }


def _layer(layer: Layer) -> dict[str, float]:
    """Return the sizes of a surface, across and girth at its top; of a taper at its foot too."""
    foot = {"foot_across_mm": layer.foot.across, "foot_girth_mm": layer.foot.girth}
    return {
        "across_mm": layer.rim.across,
        "girth_mm": layer.rim.girth,
        "depth_mm": layer.depth,
        **(foot if layer.is_tapered else {}),
    }


def _piece(piece: Piece) -> dict[str, Any]:
    return {
        "id": piece.id,
        "tier": piece.tier,
        "kind": piece.kind,
        "surface": piece.surface,
        "width_mm": piece.size.width,
        "height_mm": piece.size.height,
        "copies": piece.copies,
        "values": dict(piece.values),
    }


def figures_table(found: dict[str, Any], terms: Terms) -> str:
    """Return figures as lines of text, every length in both units, that of the cake first."""
    lines = [found["title"], ""]
    for tier in found["tiers"]:
        lines.append(f"{tier['name']} ({tier['shape']})")
        for surface in ("bare", "coated", "covered"):
            across = "widest" if tier["shape"] == "polygon" else "across"
            lines += _surface_lines(surface, tier[surface], across)
    for piece in found["pieces"]:
        size = f"{in_both(piece['width_mm'])} × {in_both(piece['height_mm'])}"
        lines += ["", f"{piece['id']}: cut {piece['copies']}, {piece['surface']}, {size}"]
        lines += [f"  {name:18} {text}" for name, text in value_lines(piece["values"])]
    return terms.text("\n".join(lines))


def _surface_lines(surface: str, sizes: Mapping[str, float], wide: str) -> Iterator[str]:
    """Yield a line of sizes; of a tapered surface one for its top and one for its foot."""
    depth = f" depth {in_both(sizes['depth_mm'])}"
    parts = [("top ", ""), ("base ", "foot_")] if "foot_across_mm" in sizes else [("", "")]
    for word, key in parts:
        across, girth = sizes[f"{key}across_mm"], sizes[f"{key}girth_mm"]
        name = surface if key == "" else ""
        yield (
            f"  {name:8} {word}{wide} {in_both(across):26} {word}girth {in_both(girth):28}{depth}"
        ).rstrip()
        depth = ""


def value_lines(values: Mapping[str, Value]) -> Iterator[tuple[str, str]]:
    """Yield each figure of a piece as its name and its text, lengths in both units."""
    for name, value in values.items():
        word, _, unit = name.rpartition("_")
        label = (word if unit in ("mm", "in") else name).replace("_", " ")
        if isinstance(value, tuple):
            texts = [in_both(each) if unit == "mm" else f"{decimal(each)} {unit}" for each in value]
            yield label, ", ".join(texts) or "none"
        elif unit == "mm" and isinstance(value, float | int):
            yield label, in_both(value)
        else:
            yield label, decimal(value, 1) if isinstance(value, float) else str(value)
