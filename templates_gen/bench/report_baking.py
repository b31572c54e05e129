"""What is baked, filled and carved, in words."""

from __future__ import annotations

from itertools import groupby

from templates_gen.bench.amounts import to_weigh
from templates_gen.bench.section import Data, Section
from templates_gen.units import counted, in_both


def baking(found: Data) -> Section:
    """Return what each tier of cake is baked and filled with."""
    rows = tuple(
        (
            each["tier"],
            each["kind"] or "cake",
            _layers(each),
            _filled(each),
            counted(each["tins"], "tin"),
            _batter(each),
        )
        for each in found["baking"]
    )
    says = (
        "Batter: what the layers take and what is levelled off, by how far the batter rises, ×"
        " specific gravity of the batter, without loss.",
        *dict.fromkeys(
            f"Specific gravity of the batter for {each['kind']}: from {each['source']}."
            for each in found["baking"]
            if each["source"]
        ),
    )
    columns = ("tier", "cake", "layers", "filling", "tins", "batter")
    notes = tuple(found["advice"])
    if not rows and notes:
        return Section("Please check", ("",), tuple((each,) for each in notes), bench_only=True)
    return Section("To bake and fill", columns, rows, notes, says, bench_only=True)


def _layers(each: Data) -> str:
    layers = f"{counted(each['layers'], 'layer')} of {in_both(each['layer_mm'])}"
    boards = each["inner_boards"]
    return f"{layers}, {counted(boards, 'board')} between" if boards else layers


def carving(found: Data) -> Section:
    """Return from which cakes each carved tier is cut."""
    rows = tuple(
        (
            each["tier"],
            str(each["layer"]),
            each["tin"],
            f"{in_both(each['base_mm'])} to {in_both(each['top_mm'])}",
            f"{in_both(each['base_across_mm'])}, {in_both(each['top_across_mm'])}",
            to_weigh(each["cut_off_g"]),
        )
        for each in found["carving"]
    )
    columns = ("tier", "layer", "tin", "height", "width at base, at top", "cut off")
    says = (
        "Cut off when carved: the tin's area × the depth of the layer, less what is kept; keep it"
        " for crumb."
    )
    baked = groupby(found["carving_tins"], lambda each: str(each["tier"]))
    notes = tuple(
        f"{tier}: bake " + ", ".join(f"{each['number']} × {each['tin']}" for each in group) + "."
        for tier, group in baked
    )
    return Section("To carve", columns, rows, notes, (says,), bench_only=True)


def _filled(each: Data) -> str:
    if not each["fillings"]:
        return "none"
    deep = in_both(each["filling_mm"])
    return f"{each['fillings']} × {each['filling']}, {deep}, {to_weigh(each['filling_g'])}"


def _batter(each: Data) -> str:
    if each["batter_g"] is None:
        return "depends on the recipe"
    groups = each["batter_in_tins"]
    if not groups:
        return f"{to_weigh(each['batter_g'])}, shared by the area of the tins under “To carve”"
    deep = [in_both(group["mm"]) for group in groups]
    if len(groups) == 1:
        each_tin = "each tin" if groups[0]["tins"] > 1 else "the tin"
        return f"{to_weigh(each['batter_g'])}, {deep[0]} deep in {each_tin}"
    some = " and ".join(
        f"{depth} deep in {group['tins']}" for depth, group in zip(deep, groups, strict=True)
    )
    return f"{to_weigh(each['batter_g'])}, {some}"
