"""Keys that were written and change nothing: one line each in a table, with the reason."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from pydantic import BaseModel

from templates_gen.cake.model import Cake, Tier
from templates_gen.cake.plans import PLAN_KEYS, keys_of
from templates_gen.cake.rhythms import RHYTHMS
from templates_gen.drawing.designs import DESIGNS
from templates_gen.errors import Doubt

_TIERS = {"drape": "a draped tier", "panelled": "a panelled tier", "none": "a tier without paste"}


@dataclass(frozen=True, slots=True)
class Use:
    """A key of a tier, when it matters, and the reason why it does not otherwise.

    The reason goes on after "has no effect"; it may speak of the ``{tier}``, its ``{shape}``
    and its ``{rhythm}``.
    """

    key: tuple[str, ...]
    matters: Callable[[Tier], bool]
    reason: str


def _panels_cover(tier: Tier) -> bool:
    return tier.panels is not None and tier.panels.covering


def _has_wrap(tier: Tier) -> bool:
    return tier.cover == "panelled" and not _panels_cover(tier)


def _joins_can_differ(tier: Tier) -> bool:
    return tier.panels is None or tier.panels.joins == "in line" or tier.panels.courses > 1


def _round_the_girth(tier: Tier) -> bool:
    return tier.panels is None or tier.panels.per_face is None


def _heeds(name: str) -> Callable[[Tier], bool]:
    return lambda tier: tier.drips is None or name in RHYTHMS[tier.drips.rhythm].heeds


def _rhythms_that_heed(name: str) -> str:
    *others, last = (f"“{word}”" for word, rhythm in RHYTHMS.items() if name in rhythm.heeds)
    return f"{', '.join(others)} and {last}" if others else last


def _takes(key: str) -> Callable[[Tier], bool]:
    return lambda tier: key in keys_of(tier.shape)


USES = (
    *(Use((key,), _takes(key), "on the shape “{shape}”") for key in PLAN_KEYS if key != "size"),
    Use(("first",), lambda tier: tier.cover == "panelled", "on {tier}: it has no top disc"),
    Use(("strip",), _has_wrap, "on {tier}: only a panelled side has a wrap"),
    Use(
        ("trim",),
        lambda tier: tier.cover == "drape" or _has_wrap(tier),
        "on {tier}: it has no wrap and no drape circle",
    ),
    Use(
        ("drape_circle",),
        lambda tier: tier.cover == "drape" or not tier.drape_circle,
        "on {tier}: only a draped tier has one",
    ),
    Use(("colour",), lambda tier: tier.cover != "none", "on {tier}: it has no paste"),
    Use(
        ("panels", "thickness"),
        lambda tier: not _panels_cover(tier),
        "on {tier}: they are as thick as the paste",
    ),
    Use(("panels", "joins"), _joins_can_differ, "on one course: it has no row above it"),
    Use(
        ("panels", "place"),
        lambda tier: tier.panels is None or tier.panels.height is not None,
        "on panels without a height: they are as tall as the side",
    ),
    Use(("panels", "front"), _round_the_girth, "with per_face: joins follow the corners"),
    Use(("panels", "corners"), lambda tier: not _round_the_girth(tier), "without per_face"),
    Use(
        ("drips", "front"),
        lambda tier: tier.drips is None or not tier.drips.corners,
        "with corners = true: drips follow the corners",
    ),
    *(
        Use(
            ("drips", name),
            _heeds(name),
            f"with the rhythm “{{rhythm}}”: it is for {_rhythms_that_heed(name)}",
        )
        for name in dict.fromkeys(key for rhythm in RHYTHMS.values() for key in rhythm.heeds)
    ),
)


def idle(cake: Cake) -> tuple[Doubt, ...]:
    """Return a doubt for every key of a tier that was written and has no effect."""
    return tuple(
        doubt
        for place, (tier, name) in enumerate(zip(cake.tier, cake.names, strict=True))
        for doubt in _idle(tier, name, place)
    )


def _idle(tier: Tier, name: str, place: int) -> Iterator[Doubt]:
    words = {
        "tier": "a tier whose panels are the wrap" if _panels_cover(tier) else _TIERS[tier.cover],
        "rhythm": tier.drips.rhythm if tier.drips else "",
        "shape": tier.shape,
    }
    for use in USES:
        if _written(tier, use.key) and not use.matters(tier):
            reason = use.reason.format_map(words)
            text = f"{name}: {use.key[-1]} has no effect {reason}."
            yield Doubt(("tier", place, *use.key), text)
    for number, design in enumerate(tier.design):
        own = {"kind", "top", "foot", "paper", *DESIGNS[design.kind].keys}
        for key in sorted(design.model_fields_set - own):
            text = f"{name}: {key} has no effect on {design.kind}."
            yield Doubt(("tier", place, "design", number, key), text)


def _written(model: BaseModel, key: tuple[str, ...]) -> bool:
    """Say whether a key was written, and not left to its usual value."""
    name, *inner = key
    if name not in model.model_fields_set:
        return False
    value = getattr(model, name)
    return not inner or (isinstance(value, BaseModel) and _written(value, tuple(inner)))
