"""What is other in a cake on other tins: the counts, spacings and lengths of its pieces."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.bench.figures import value_lines
from templates_gen.plan import Plan

COUNTED = ("count", "spacing", "width", "per join", "closes on", "portion", "finished length")
"""The figures worth seeing when a cake is resized, by what their names have in them."""


def changes(before: Plan, after: Plan) -> Iterator[str]:
    """Yield for each piece what of its counts, spacings and lengths has changed."""
    old = {piece.id: dict(value_lines(piece.values)) for piece in before.pieces}
    for piece in after.pieces:
        was = old.get(piece.id, {})
        found = [
            f"{label} {was[label]} → {text}"
            for label, text in value_lines(piece.values)
            if label in was and was[label] != text and any(word in label for word in COUNTED)
        ]
        if found:
            yield after.terms.text(f"{piece.title}: {'; '.join(found)}")
