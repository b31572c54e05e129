"""A guide: something marked on the side of a tier."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Value
from templates_gen.errors import Key, PlanWarning
from templates_gen.guides.strips import Strip
from templates_gen.tiers.solid import Layer


@dataclass(frozen=True, slots=True)
class Repeats:
    """Where the repeats of a guide begin, u in mm, in order, and how long each is at the rim, mm.

    All are alike, and what one draws goes on where the next begins.
    """

    places: tuple[float, ...]
    width: float


@dataclass(frozen=True, slots=True)
class Guide:
    """One turn of marks round a surface of a tier, from v = ``top`` to v = ``foot``.

    ``drawing`` is in side coordinates, u in [0, girth); what reaches over the join goes on at the
    other end. A guide is on the collar, or on a ``strip`` of its own, by the number of that; one
    that is not ``on_collar`` is on other paper, and on pictures. ``note`` is what the
    paper says of it, ``sizes`` how large what is repeated is. ``name`` and ``key`` are what
    people and the cake file call it; one that ``is_placed`` has closed outlines in places of its
    own, one with ``repeats`` is the same all round the rim from each to the next. ``strips`` are
    cut for it. One that ``covers`` has closed outlines that hide what lies under them.
    """

    layer: Layer
    drawing: Drawing
    top: float
    foot: float
    values: Mapping[str, Value] = field(default_factory=dict)
    warnings: tuple[PlanWarning, ...] = ()
    strip: str = ""
    note: str = ""
    sizes: str = ""
    on_collar: bool = True
    name: str = ""
    key: Key = ()
    is_placed: bool = False
    repeats: Repeats | None = None
    strips: tuple[Strip, ...] = ()
    covers: bool = False


def numbered(values: Mapping[str, Value], name: str, index: int) -> dict[str, Value]:
    """Return figures of one of several guides under names of their own; the first is not named."""
    if index == 0:
        return dict(values)
    owner = f"{name}_{index + 1}"
    return {owner if key == name else f"{owner}_{key}": value for key, value in values.items()}
