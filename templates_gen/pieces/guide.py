"""A guide: something marked on the side of a tier."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from templates_gen.drawing.piece import Drawing, Value
from templates_gen.tiers.solid import Layer


@dataclass(frozen=True, slots=True)
class Guide:
    """One turn of marks round a surface of a tier, from v = ``top`` to v = ``foot``.

    ``drawing`` is in side coordinates, u in [0, girth); what reaches over the join goes on at the
    other end. One that is not ``on_collar`` is told elsewhere and only shown on pictures.
    """

    layer: Layer
    drawing: Drawing
    top: float
    foot: float
    values: Mapping[str, Value] = field(default_factory=dict)
    on_collar: bool = True
