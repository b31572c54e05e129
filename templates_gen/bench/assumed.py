"""The estimates that a cake depends on, in few lines: one for each source."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping

from templates_gen.bench.amounts import KILOGRAM, carried, grams
from templates_gen.bench.cut_list import THROUGH, WAFER_SHEET
from templates_gen.bench.section import ASSUMPTIONS, Data, Section
from templates_gen.cakefile.estimate_words import in_words
from templates_gen.cakefile.estimates import GIVEN
from templates_gen.cakefile.waits import OF_STAGE
from templates_gen.units import capital, decimal, in_both, waiting

OF_PART: Mapping[str, tuple[str, ...]] = {
    "paste": ("fondant", "waste", "pack", "cut_gap", "rough"),
    "wafer": ("waste", "cut_gap"),
    "gum": ("gum",),
    "coating": ("coating", "waste"),
    "icing": ("drip", "drip_icing", "waste", "batch"),
    "piping": ("piped_line", "drip_icing", "waste", "batch"),
    "paint": ("film", "dust", "dust_share"),
    "baking": (
        *("cake", "batter", "rise", "filling", "waste", "tin", "level", "layer", "deepest"),
        "tins_at_once",
    ),
    "shelved": ("shelf_width", "shelf_depth"),
    "carving": ("inner_gap",),
    "dummies": ("dummy",),
    "draped": ("one_drapes", "drapes", "panelled"),
    "ribbons": ("ribbon_overlap",),
    "dowels": ("wood",),
    "through": ("below_top", "into_drum"),
    "carrying": ("board", "box_room", "box_headroom", "one_lifts", "reach"),
    "servings": ("portions_used",),
    "times": ("pace", "grows"),
}
"""For each part of a bench list, the estimates that it is worked out with."""
CHANGE = (
    "Change these in the cake file under [estimates], by the key in brackets; minutes of work under"
    " [estimates.minutes], how long things keep under [estimates.keeps]."
)


def assumed(found: Data, says: Iterable[str], *, with_keys: bool) -> Section:
    """Return the estimates that a cake depends on, in words, and notes.

    The notes are what a bench list ``says`` of how its figures are estimated. ``with_keys`` says
    for each which key of a cake file changes it.
    """
    used, by_source = set(_used(found)), defaultdict[str, list[str]](list)
    for each in found["estimates"]:
        if each["name"] in used or each["source"] == GIVEN:
            key = f" ({each['name']})" if with_keys else ""
            said = f"{in_words(each['name'])}: {valued(each)}{key}"
            by_source[each["source"]].append(said)
    rows = ((f"{capital(source)}: {'; '.join(some)}.",) for source, some in by_source.items())
    return Section(ASSUMPTIONS, ("",), tuple(rows), (*says, CHANGE), bench_only=True)


def _used(found: Data) -> Iterator[str]:
    is_counted = any(each["name"] == "tins_at_once" for each in found["estimates"])
    parts = {
        **found,
        "shelved": () if is_counted else found["baking"],
        "dummies": [each for each in found["servings"] if not each["edible"]],
        "draped": [each for each in found["pieces"] if each["kind"] == "rolling-out-circle"],
        "wafer": [each for each in found["pieces"] if each["kind"] == WAFER_SHEET],
        "through": [each for each in found["pieces"] if each["kind"] == THROUGH],
    }
    for part, names in OF_PART.items():
        if parts[part]:
            yield from names
    yield from (f"waits.{OF_STAGE[each['stage']]}" for each in found["times"] if each["wait_h"])


def value(found: Data, name: str) -> str:
    """Write the value of an estimate with its unit."""
    return valued(next(each for each in found["estimates"] if each["name"] == name))


def valued(each: Data) -> str:
    """Write the value of an estimate as amounts of its kind are written."""
    number, unit = each["value"], each["unit"]
    if unit == "mm" and number >= 1:  # less is no length of a ruler
        return in_both(number)
    if unit == "kg":
        return carried(KILOGRAM * number)
    write = {"g": grams, "h": waiting}
    return write[unit](number) if unit in write else f"{decimal(number)} {unit}".strip()
