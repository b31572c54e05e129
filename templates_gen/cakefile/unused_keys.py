"""Keys that were written and change nothing: one line each in a table, with the reason."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.cut_from import WAFER
from templates_gen.cakefile.cutting import ONLY_FOR
from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.flowers import Flower
from templates_gen.cakefile.lettering import Lettering
from templates_gen.cakefile.panels import follow_corners
from templates_gen.cakefile.shape_keys import PLAN_KEYS, shape_keys
from templates_gen.cakefile.tier import Tier
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.flowers import FLOWERS
from templates_gen.drawing.patterns import PATTERNS
from templates_gen.errors import Key, PlanWarning
from templates_gen.units import series

_TIERS = {"drape": "a draped tier", "panelled": "a panelled tier", "none": "a tier without paste"}


@dataclass(frozen=True, slots=True)
class Use:
    """A key of a tier, when it matters, and the reason why it does not otherwise.

    The reason goes on after "has no effect"; it may speak of the ``{tier}``, its ``{shape}``
    and its ``{pattern}``.
    """

    key: tuple[str, ...]
    matters: Callable[[Tier], bool]
    reason: str


def _panels_cover(tier: Tier) -> bool:
    return tier.panels is not None and tier.panels.replace_wrap


def _has_wrap(tier: Tier) -> bool:
    return tier.cover == "panelled" and not _panels_cover(tier)


def _uses_key(name: str) -> Callable[[Tier], bool]:
    return lambda tier: tier.drips is None or name in PATTERNS[tier.drips.pattern].keys


def _patterns_with(name: str) -> str:
    return series([f"“{word}”" for word, pattern in PATTERNS.items() if name in pattern.keys])


def _takes(key: str) -> Callable[[Tier], bool]:
    return lambda tier: key in shape_keys(tier.shape)


USES = (
    *(Use((key,), _takes(key), "on the shape “{shape}”") for key in PLAN_KEYS if key != "size"),
    Use(("first",), lambda tier: tier.cover == "panelled", "on {tier}: it has no top disc"),
    *(
        Use(
            (key,),
            lambda tier: tier.has_disc_and_wrap or tier.cover == "none",
            "on {tier}: only a disc and a wrap have thicknesses of their own",
        )
        for key in ("fondant_top", "fondant_side")
    ),
    Use(("fondant_lining",), lambda tier: tier.opening is not None, "on a tier without a hole"),
    Use(
        ("opening", "cut"),
        lambda tier: tier.opening is None or tier.opening.cut == "after" or _has_wrap(tier),
        "on {tier}: only a wrap can be cut before it goes on",
    ),
    Use(("strip",), _has_wrap, "on {tier}: only a panelled side has a wrap"),
    Use(
        ("trim",),
        lambda tier: tier.cover == "drape" or _has_wrap(tier) or tier.opening is not None,
        "on {tier}: it has no wrap and no rolling-out circle",
    ),
    Use(
        ("rolling_out_circle",),
        lambda tier: tier.cover == "drape" or not tier.rolling_out_circle,
        "on {tier}: only a draped tier has one",
    ),
    *(
        Use(("panels", key), lambda tier: not _panels_cover(tier), f"on {{tier}}: they are {are}")
        for key, are in (
            ("thickness", "as thick as the paste"),
            ("colour", "of the colour of the tier"),
            ("material", "of the paste of the tier"),
        )
    ),
    Use(("separator",), lambda tier: tier.raised is not None, "on a tier that is not raised"),
    Use(
        ("separator", "pillar"),
        lambda tier: tier.raised is None or tier.separator.kind == "pillars",
        "on a spacer: it has no pillars",
    ),
    Use(
        ("separator", "spacer"),
        lambda tier: tier.raised is None or tier.separator.kind == "spacer",
        "on pillars: write kind = “spacer”",
    ),
    Use(
        ("board_template",),
        lambda tier: (
            not tier.board_template or tier.board_thickness is None or tier.board_thickness.mm > 0
        ),
        "on a tier without a board",
    ),
    Use(("inside",), lambda tier: not tier.dummy, "on a dummy: it is no cake"),
    Use(("carving",), lambda tier: not tier.dummy, "on a dummy: it is no cake"),
    Use(
        ("carving",),
        lambda tier: tier.dummy or not tier.has_own_tin,
        "on an upright {shape} tier: it is baked in a tin of its size",
    ),
    Use(
        ("comb",),
        lambda tier: tier.cover == "none",
        "on {tier}: only buttercream and ganache are combed, with cover = “none”",
    ),
    Use(
        ("comb", "line"),
        lambda tier: tier.comb is None or tier.comb.profile == "contour",
        "on a comb without profile = “contour”",
    ),
    Use(
        ("comb", "pitch"),
        lambda tier: tier.comb is None or tier.comb.profile != "contour",
        "on a contour, which is as tall as the side",
    ),
    Use(
        ("panels", "joins"),
        lambda tier: tier.panels is None or tier.panels.joins == "in line" or tier.panels.rows > 1,
        "on one row: it has none above it",
    ),
    Use(
        ("panels", "place"),
        lambda tier: tier.panels is None or tier.panels.height is not None,
        "on panels without a height: they are as tall as the side",
    ),
    Use(
        ("panels", "front"),
        lambda tier: tier.panels is None or not follow_corners(tier.panels, tier.shape),
        "on panels face by face: joins follow the corners",
    ),
    Use(
        ("panels", "corners"),
        lambda tier: tier.panels is None or tier.panels.per_face is not None,
        "without per_face",
    ),
    Use(
        ("drips", "front"),
        lambda tier: tier.drips is None or not tier.drips.corners,
        "with corners = true: drips follow the corners",
    ),
    *(
        Use(
            ("drips", name),
            _uses_key(name),
            f"with the pattern “{{pattern}}”: it is for {_patterns_with(name)}",
        )
        for name in dict.fromkeys(key for pattern in PATTERNS.values() for key in pattern.keys)
    ),
)


def unused_keys(cake: Cake) -> tuple[PlanWarning, ...]:
    """Return a warning for every key that was written and has no effect."""
    warnings: list[PlanWarning] = []
    for index, (tier, name) in enumerate(zip(cake.tier, cake.names, strict=True)):
        warnings += _unused_in_tier(tier, name, index)
        for table in ("design", "lettering", "scatter"):
            warnings += _unused_in_tables(getattr(tier, table), ("tier", index, table), f"{name}: ")
    below = _unused_below(cake) if cake.tier else _unused_without_tiers(cake)
    return (*warnings, *below, *_unused_in_cake(cake))


def _unused_without_tiers(cake: Cake) -> Iterator[PlanWarning]:
    """Yield the unused keys of a cake of numbers or letters alone."""
    for key in ("drum", "portions", "through_dowel"):
        if key in cake.model_fields_set:
            yield PlanWarning((key,), f"{key} has no effect on a cake without tiers.")


def _unused_in_cake(cake: Cake) -> Iterator[PlanWarning]:
    """Yield the unused keys of the tables beside the tiers."""
    yield from _unused_in_tables(cake.cascade, ("cascade",), "")
    for number, cut in enumerate(cake.letter_cake):
        for key in ("text", "font"):
            if cut.file is not None and key in cut.model_fields_set:
                text = f"{key} has no effect beside a file: the shape of the file is cut."
                yield PlanWarning(("letter_cake", number, key), text)
        if cut.layers == 1 and "filling" in cut.model_fields_set:
            text = "filling has no effect on one layer."
            yield PlanWarning(("letter_cake", number, "filling"), text)
    yield from _unused_in_tables(cake.topper, ("topper",), "")
    yield from _unused_in_tables(cake.flower, ("flower",), "")
    for number, spec in enumerate(cake.cascade):
        if spec.on_drum is not None and spec.end not in (None, cake.names[0]):
            text = "on_drum has no effect on a cascade that ends above the drum."
            yield PlanWarning(("cascade", number, "on_drum"), text)


def _unused_below(cake: Cake) -> Iterator[PlanWarning]:
    """Say that dowels of a tier that carries no other are not cut, and what a bare drum lacks."""
    top = len(cake.tier) - 1
    if cake.tier[top].dowels is not None and not cake.tier[top].inside.inner_boards:
        text = f"{cake.names[top]}: dowels has no effect on the top tier: it carries no other."
        yield PlanWarning(("tier", top, "dowels"), text)
    if "colour" in cake.drum.model_fields_set and cake.drum.fondant is None:
        text = "drum: colour has no effect on a drum without fondant."
        yield PlanWarning(("drum", "colour"), text)
    if cake.drum.covering == "ring" and cake.drum.fondant is None:
        text = "drum: covering has no effect on a drum without fondant."
        yield PlanWarning(("drum", "covering"), text)


def _unused_in_tables(tables: Sequence[BaseModel], owner: Key, named: str) -> Iterator[PlanWarning]:
    """Yield the unused keys of tables of one kind, in the order they are known in."""
    for number, spec in enumerate(tables):
        for key in type(spec).model_fields:
            reason = _reason(spec, key)
            if key in spec.model_fields_set and reason:
                text = f"{named}{key} has no effect {reason}."
                yield PlanWarning((*owner, number, key), text)
        if isinstance(spec, Lettering) and _written(spec, ("stencil", "slot")):
            text = f"{named}slot has no effect on lettering: its letters are cut out whole."
            yield PlanWarning((*owner, number, "stencil", "slot"), text)


_OF_EVERY_DESIGN = ("kind", "top", "bottom", "paper", "colour", "stencil", "transfer")


def _not_of(spec: Design, key: str) -> str:
    """Say for which designs a key is that this one does not use."""
    others = [f"“{name}”" for name, design in DESIGNS.items() if key in design.keys]
    return f"on the design “{spec.kind}”: leave it out; it is for {', '.join(others)}"


def _reason(spec: BaseModel, key: str) -> str:
    """Return why a key of a table has no effect, or nothing where it has one."""
    if key == "thickness" and getattr(spec, "material", None) == WAFER:
        return "on wafer paper: it is not rolled"
    if isinstance(spec, Design):
        return "" if key in (*_OF_EVERY_DESIGN, *DESIGNS[spec.kind].keys) else _not_of(spec, key)
    if isinstance(spec, Lettering):
        needs = {
            "curve_height": (spec.line == "curve", f"on the line “{spec.line}”"),
            "paper": (spec.on == "side", "on the top"),
            "thickness": (spec.cut, "without cut = true"),
        }
        matters, reason = needs.get(key, (True, ""))
        return "" if matters else reason
    if isinstance(spec, Flower):
        kind = FLOWERS[spec.kind]
        green = bool(spec.leaves) or any(each.green for each in kind.whorls)
        missing = {"leaf_colour": not green, "centre_colour": kind.centre is None}
        return f"on this {spec.kind}: it has no such part" if missing.get(key) else ""
    shape, only = str(getattr(spec, "shape", "")), ONLY_FOR.get(key)
    return f"on the shape “{shape}”: it is for “{only}”" if only not in (None, shape) else ""


def _unused_in_tier(tier: Tier, name: str, index: int) -> Iterator[PlanWarning]:
    words = {
        "tier": "a tier whose panels are the wrap" if _panels_cover(tier) else _TIERS[tier.cover],
        "pattern": tier.drips.pattern if tier.drips else "",
        "shape": tier.shape,
    }
    for use in USES:
        if _written(tier, use.key) and not use.matters(tier):
            reason = use.reason.format_map(words)
            text = f"{name}: {use.key[-1]} has no effect {reason}."
            yield PlanWarning(("tier", index, *use.key), text)


def _written(model: BaseModel, key: tuple[str, ...]) -> bool:
    """Say whether a key was written, and not left to its usual value."""
    name, *inner = key
    if name not in model.model_fields_set:
        return False
    value = getattr(model, name)
    return not inner or (isinstance(value, BaseModel) and _written(value, tuple(inner)))
