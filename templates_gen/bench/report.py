"""The bench list in words: sections of rows, shown as lines of text or as blocks on paper."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from templates_gen.bench import cascades, letter_cakes
from templates_gen.bench.amounts import carried
from templates_gen.bench.assumed import assumed, value
from templates_gen.bench.bench_list import NOT_STRUCTURAL
from templates_gen.bench.cut_list import WAFER_SHEET
from templates_gen.bench.packs import size_name
from templates_gen.bench.report_baking import baking, carving
from templates_gen.bench.report_quantities import in_packs, quantities, sentence
from templates_gen.bench.report_times import times
from templates_gen.bench.section import APART, PORTIONS, SHOPPING, WHOLE, Data, Row, Section, whose
from templates_gen.bench.servings import LOW, SIZES
from templates_gen.bench.shopping import GUM, amount
from templates_gen.terms import UK_TERMS, Terms
from templates_gen.units import counted, decimal, hours, in_both, money, series


def sections(
    found: Data, terms: Terms = UK_TERMS, *, with_keys: bool = True
) -> tuple[Section, ...]:
    """Return the parts of a bench list that have something to say, in the words of a place.

    What is needed at the bench comes first, what is assumed last and only once; ``with_keys`` says
    which key of a cake file changes an estimate.
    """
    makers = (
        _cuts,
        cascades.section,
        letter_cakes.section,
        quantities,
        baking,
        carving,
        _dowels,
        times,
        _carrying,
        _shopping,
        _portions,
    )
    parts = [part for part in (make(found) for make in makers) if part.rows]
    says = (each for part in parts if part.title not in APART for each in part.assumptions)
    shown = (part if part.title in APART else replace(part, assumptions=()) for part in parts)
    return tuple(
        _in_terms(part, terms) for part in (*shown, assumed(found, says, with_keys=with_keys))
    )


def _in_terms(part: Section, terms: Terms) -> Section:
    def say(row: Row) -> Row:
        return tuple(map(terms.text, row))

    return replace(
        part,
        title=terms.text(part.title),
        columns=say(part.columns),
        rows=tuple(map(say, part.rows)),
        notes=say(part.notes),
        assumptions=say(part.assumptions),
        brief=tuple(map(say, part.brief)),
    )


IN_SHEETS = (
    "Sheets of wafer paper: pieces of a colour side by side in rows, with waste, on 8 × 11 in,"
    " which A4 holds (common practice, no source)."
)


def _cuts(found: Data) -> Section:
    rows = tuple(
        (whose(each), each["what"], str(each["number"]), each["size"], each["from"])
        for each in found["pieces"]
    )
    says = (IN_SHEETS,) if any(each["kind"] == WAFER_SHEET for each in found["pieces"]) else ()
    columns = ("tier", "what", "qty", "size", "template")
    return Section("To cut", columns, rows, assumptions=says)


def _portions(found: Data) -> Section:
    rows = [
        (each["tier"], *(str(count) if each["edible"] else "dummy" for count in counts))
        for each in found["servings"]
        for counts in [each["portions"].values()]
    ]
    eaten = [each["portions"] for each in found["servings"] if each["edible"]]
    if not eaten:
        return Section(PORTIONS, (), ())
    names = list(SIZES)
    rows.append((WHOLE, *(str(sum(each[name] for each in eaten)) for name in names)))
    tiers = [each for each in found["servings"] if not each["beside"]]
    top = tiers[-1]["portions"] if tiers and tiers[-1]["edible"] else None
    if top is not None and len(eaten) > 1:
        kept = (str(sum(each[name] for each in eaten) - top[name]) for name in names)
        rows.append(("without the top tier, if it is kept back", *kept))
    titles = (f"{name}, {' × '.join(map(decimal, sides))} in" for name, sides in SIZES.items())
    says = (
        f"Each portion is about 4 in tall{_lower(found['servings'])}; a tier built of several cakes"
        " is cut cake by cake."
        " Squares: area over portion; rounds of 6 to 14 in by published charts (bakewithsarah.com;"
        " huppahsblog 2010/12), others 95 % of their area. Charts that promise more than the area"
        " holds are not followed.",
    )
    notes = (found["too_few_portions"],) if found["too_few_portions"] else ()
    return Section(PORTIONS, ("tier", *titles), tuple(rows), notes, says, bench_only=True)


def _lower(tiers: Iterable[Mapping[str, Any]]) -> str:
    """Name the tiers whose portions are much lower than is usual."""
    low = [
        f"{each['tier']} {in_both(each['tall_mm'])}"
        for each in tiers
        if each["edible"] and each["tall_mm"] < LOW
    ]
    return f", but of {series(low)}: allow more of those" if low else ""


MADE = (
    "Here modelling paste is made from fondant and gum powder; to buy it ready-made, give its price"
    " under [prices]."
)

IN_PACKS = "Packs are of usual sizes; for the one size that you buy write pack under [estimates]."
PRICED = (
    "Prices of fondant and modelling paste are for packs of {}; for another size write pack under"
    " [estimates]."
)
FEW = (
    "So little is needed of some colours that white is coloured for them: {}. Food colours are not"
    " on this list."
)
SHORT = (
    "Where packs hold slightly less than the weight shown, the difference comes out of the waste"
    " allowance."
)


def _shopping(found: Data) -> Section:
    rows = [
        (each["what"], _bought(each), _money(found, each["cost"])) for each in found["shopping"]
    ]
    cost = found["cost"]
    says = ["For costs write prices under [prices]."]
    if cost is not None:
        rows.append(("work", hours(found["hours_of_work"]), _money(found, cost["work"])))
        rows.append(("in all", "", _money(found, cost["total"])))
        if cost["per_portion"] is not None:
            rows.append(("a wedding portion", "", _money(found, cost["per_portion"])))
        without = counted(len(cost["unpriced"]), "line")
        says = [f"{without} above without a price, not in the sum."] if cost["unpriced"] else []
    says += _of_packs(found)
    if any(each["what"] == GUM for each in found["shopping"]):
        says.append(MADE)
    columns = ("what", "how much", "cost" if cost else "")
    return Section(SHOPPING, columns, tuple(rows), (), tuple(says), bench_only=True)


def _of_packs(found: Data) -> Iterator[str]:
    """Say in which packs paste is counted, and where they hold less than is weighed."""
    sold = {size for each in found["shopping"] for size in each["sold_in"]}
    if len(sold) > 1:
        yield IN_PACKS
    elif sold and not any(each["name"] == "pack" for each in found["estimates"]):
        yield PRICED.format(*map(size_name, sold))
    few = [each["colour"] for each in found["paste_by_colour"] if not each["packs"]]
    if few:
        yield FEW.format(series(few))
    held = (
        (sum(packs["number"] * packs["size_g"] for packs in each["packs"]), each["quantity"])
        for each in found["shopping"]
        if each["packs"]
    )
    if any(holds < wanted for holds, wanted in held):
        yield SHORT


def _bought(each: Data) -> str:
    bought = amount(each["what"], each["quantity"], each["unit"])
    return f"{bought}, {in_packs(each['packs'])}" if each["packs"] else bought


def _money(found: Data, amount: float | None) -> str:
    currency = found["cost"]["currency"] if found["cost"] else ""
    return "" if amount is None or not currency else f"{currency}{money(amount)}"


def _carrying(found: Data) -> Section:
    rows = tuple(
        (
            each["what"],
            carried(each["mass_g"]),
            " × ".join(in_both(math.ceil(side)) for side in each["box_mm"]),
            "two-person lift" if each["two_person_lift"] else "",
        )
        for each in found["carrying"]
    )
    says = (
        f"Boxes: inside width × depth × height, {value(found, 'box_room')} of room beside and"
        f" {value(found, 'box_headroom')} above, without toppers. A two-person lift is more than"
        f" {value(found, 'one_lifts')} or 23 kg × 25/H (guidelines, not limits: UK HSE, 16 kg,"
        " second-hand; NIOSH 94-110, H in cm to the hands).",
    )
    columns = ("what", "weight", "box, inside", "")
    return Section("To carry", columns, rows, (), says, bench_only=True)


def _dowels(found: Data) -> Section:
    rows = tuple(
        (
            each["tier"],
            counted(each["count"], "dowel") if each["count"] else "none has room",
            f"each {in_both(each['length_mm'])}" if each["count"] else "",
            f"carry {carried(each['bears_g'])}"
            + (f", each {carried(each['bears_each_g'])}" if each["count"] else ""),
        )
        for each in found["dowels"]
    )
    columns = ("in tier", "number", "length", "weight above")
    if not rows:
        return Section("Dowels", columns, ())
    ways = (f"{each['tier']}: {way}." for each in found["dowels"] for way in each["choices"])
    says = (sentence(found["formulas"]["dowels"]), DOWEL_RULE, _bound(found["dowels"]))
    return Section("Dowels", columns, rows, (*ways, NOT_STRUCTURAL), says)


PUBLISHED_DOWELS = {
    "Orlando Sentinel, 6 June 1985: up to 8 in, from 10 in": (5, 7),
    "pattycakes.com": (6, 8),
    "ehow 6156392: by size": (3, 8),
    "cakecraftworld.co.uk": (4, 5),
}
"""By who says so, the least and the most dowels that published rules set under a tier."""
DOWEL_RULE = (
    "How many dowels: by rule of thumb, one for each 2 in across the tier above, three at least"
    " (from memory, no source). Published rules differ: "
    + "; ".join(f"{least} to {most} ({says})" for says, (least, most) in PUBLISHED_DOWELS.items())
    + "."
)
GRAVITY = 9.81


def _bound(dowels: Sequence[Data]) -> str:
    """Say what one ideal dowel could carry before it buckles: a bound, not what is safe."""
    most = min(each["wooden_buckles_at_n"] for each in dowels) / GRAVITY
    return (
        f"A perfect upright wooden dowel buckles beyond {decimal(most, 0)} kg (Euler, the"
        " weakest here): an upper bound, not advice. Cake, board and a leaning dowel give way long"
        " before."
    )


def bench_table(found: Data, terms: Terms = UK_TERMS) -> str:
    """Return a bench list as lines of text."""
    lines = [found["title"]]
    for part in sections(found, terms):
        lines += ["", part.title]
        rows = [row for row in (part.columns, *part.rows) if any(row)]
        widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
        for row in rows:
            cells = (cell.ljust(width) for cell, width in zip(row, widths, strict=True))
            lines.append("  " + "  ".join(cells).rstrip())
        lines += [f"  {note}" for note in (*part.notes, *part.assumptions)]
    return "\n".join(lines)
