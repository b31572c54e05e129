"""The bench list in words: sections of rows, shown as lines of text or as blocks on paper."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import groupby
from typing import Any

from templates_gen.bench.amounts import TEASPOON, carried, dust, millilitres, spoons, to_weigh
from templates_gen.bench.bench_list import NOT_STRUCTURAL
from templates_gen.bench.servings import SIZES
from templates_gen.terms import Terms
from templates_gen.units import counted, decimal, in_both

WHOLE = "whole cake"
QUANTITIES = "To weigh and mix (estimates)"
"""The title of the section of quantities."""
SHOPPING, TIMES, PORTIONS = "To buy", "Order of work", "Portions"
"""The titles of what may stand on a page of its own."""
UK_TERMS = Terms()
Row = tuple[str, ...]
Data = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the bench list: its title, headings of its columns, rows, notes below them.

    What is said of how figures are estimated is among ``assumptions``. A section that is
    ``bench_only`` stands in the bench list and on the page, but not on the cover.
    ``brief`` are fewer rows, with headings above them, that say the same where room is dear.
    """

    title: str
    columns: Row
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    bench_only: bool = False
    brief: tuple[Row, ...] = ()


def sections(found: Data, terms: Terms = UK_TERMS) -> tuple[Section, ...]:
    """Return the parts of a bench list that have something to say, in the words of a place."""
    makers = (
        _cuts,
        _baking,
        _carving,
        _quantities,
        _shopping,
        _dowels,
        _carrying,
        _times,
        _portions,
        _estimates,
    )
    parts = (make(found) for make in makers)
    return tuple(_in_terms(part, terms) for part in parts if part.rows)


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


def _cuts(found: Data) -> Section:
    rows = tuple(
        (_whose(each), each["what"], str(each["number"]), each["size"], each["from"])
        for each in found["pieces"]
    )
    return Section("To cut", ("tier", "what", "qty", "size", "template"), rows)


def _baking(found: Data) -> Section:
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
            f"{each['kind']}: specific gravity of batter from {each['source']}."
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


def _carving(found: Data) -> Section:
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
    says = "Cut off: the tin's area × the depth of the layer, less what is kept; keep it for crumb."
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
    if each["batter_in_tin_mm"] is None:
        return f"{to_weigh(each['batter_g'])}, shared by the area of the tins under “To carve”"
    return f"{to_weigh(each['batter_g'])}, {in_both(each['batter_in_tin_mm'])} deep in each tin"


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
    top = found["servings"][-1]
    if top["edible"] and len(eaten) > 1:
        kept = (str(sum(each[name] for each in eaten[:-1])) for name in names)
        rows.append(("without the top tier, if it is kept back", *kept))
    titles = (f"{name}, {wide:g} × {long:g} in" for name, (wide, long) in SIZES.items())
    says = (
        "Each portion is about 4 in tall; a tier built of several cakes is cut cake by cake."
        " Squares: area over portion; rounds of 6 to 14 in by published charts (bakewithsarah.com;"
        " huppahsblog 2010/12), others 95 % of their area. Charts that promise more than the area"
        " holds are not followed.",
    )
    return Section(PORTIONS, ("tier", *titles), tuple(rows), (), says, bench_only=True)


def _shopping(found: Data) -> Section:
    rows = [
        (each["what"], _bought(found, each), _money(found, each["cost"]))
        for each in found["shopping"]
    ]
    cost = found["cost"]
    says = "For costs write prices under [prices]."
    if cost is not None:
        hours = f"{decimal(found['hours_of_work'], 1)} h"
        rows.append(("work", hours, _money(found, cost["work"])))
        rows.append(("in all", "", _money(found, cost["total"])))
        if cost["per_portion"] is not None:
            rows.append(("a wedding portion", "", _money(found, cost["per_portion"])))
        says = f"{counted(len(cost['unpriced']), 'line')} above without a price, not in the sum."
    columns = ("what", "how much", "cost" if cost else "")
    return Section(SHOPPING, columns, tuple(rows), (), (says,), bench_only=True)


def _bought(found: Data, each: Data) -> str:
    if each["unit"] == "g":
        mass = (
            dust(each["quantity"]) if each["what"] == "edible dust" else to_weigh(each["quantity"])
        )
        packs = f", {counted(each['packs'], 'pack')} of {_value(found, 'pack')}"
        return f"{mass}{packs if each['packs'] else ''}"
    if each["unit"] == "tsp":
        return spoons(each["quantity"] * TEASPOON)
    return f"{decimal(each['quantity'], 2)} {each['unit']}".strip()


def _money(found: Data, amount: float | None) -> str:
    currency = found["cost"]["currency"] if found["cost"] else ""
    return "" if amount is None or not currency else f"{currency}{amount:.2f}"


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
        f"Boxes: inside width × depth × height, {_value(found, 'box_room')} of room beside and"
        f" {_value(found, 'box_headroom')} above, without toppers. A two-person lift is more than"
        " 16 kg (UK HSE guideline, second-hand) or 23 kg × 25/H (NIOSH 94-110, H in cm to the"
        " hands); guidelines, not limits.",
    )
    columns = ("what", "weight", "box, inside", "")
    return Section("To carry", columns, rows, (), says, bench_only=True)


def _whose(each: Data) -> str:
    """Return the tier that something is for; what belongs to none is for the whole cake."""
    return WHOLE if each["tier"] == "pack" else str(each["tier"])


def _quantities(found: Data) -> Section:
    columns = ("tier", "what", "to weigh", "")
    pastes = list(_pastes(found))
    others = (
        *_poured(found, "coating", "buttercream or ganache"),
        *_poured(found, "icing", "icing for drips"),
        *_batch(found, "icing_batch_g", "icing for drips: one batch"),
        *_poured(found, "piping", "icing for designs, if piped"),
        *_batch(found, "piping_batch_g", "icing for designs: one batch"),
        *_paints(found),
    )
    # the cover says nothing of packs and offcuts: the bench list does
    brief = tuple((*row[:-1], "") for row in pastes)
    return Section(
        QUANTITIES,
        columns,
        (*pastes, *others),
        assumptions=tuple(
            _sentence(says) for key, says in found["formulas"].items() if key != "dowels"
        ),
        brief=(columns, *brief, *others),
    )


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def _pastes(found: Data) -> Iterator[Row]:
    for each in found["paste"]:
        left = f"of it {to_weigh(each['offcuts_g'])} comes back as offcuts"
        yield _whose(each), f"{each['kind']}, {each['colour']}", to_weigh(each["mass_g"]), left
    for each in found["paste_by_colour"]:
        number = each["packs"]
        bought = f"{counted(number, 'pack')} of {_value(found, 'pack')}"
        yield WHOLE, f"paste, {each['colour']}", to_weigh(each["mass_g"]), bought
    for each in found["gum"]:
        what = f"gum powder for modelling paste, {each['colour']}"
        yield WHOLE, what, spoons(each["tsp"] * TEASPOON), ""


def _poured(found: Data, key: str, name: str) -> Iterator[Row]:
    for each in found[key]:
        yield each["tier"], name, to_weigh(each["mass_g"]), millilitres(each["volume_ml"])


def _batch(found: Data, key: str, name: str) -> Iterator[Row]:
    if found[key]:
        yield WHOLE, name, to_weigh(found[key]), ""


def _paints(found: Data) -> Iterator[Row]:
    for each in found["paint"]:
        what = f"paint on {each['on']}, {counted(each['coats'], 'coat')}"
        edible = f"edible dust {dust(each['dust_g'])}"
        yield each["tier"], what, edible, f"clear alcohol {spoons(each['alcohol_ml'])}"


def _value(found: Data, name: str) -> str:
    each = next(each for each in found["estimates"] if each["name"] == name)
    return f"{decimal(each['value'])} {each['unit']}"


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
    says = (_sentence(found["formulas"]["dowels"]), DOWEL_RULE, _bound(found["dowels"]))
    return Section("Dowels", columns, rows, (*ways, NOT_STRUCTURAL), says)


DOWEL_RULE = (
    "How many: by rule of thumb, one for each 2 in across the tier above, three at least (from"
    " memory, no source). Published rules differ: 5 up to 8 in and 7 from 10 in (Orlando Sentinel,"
    " 6 June 1985); 3 to 8 by size (ehow 6156392)."
)
GRAVITY = 9.81


def _bound(dowels: Sequence[Data]) -> str:
    """Say what one ideal dowel could carry before it bends aside: a bound, not what is safe."""
    most = min(each["wooden_buckles_at_n"] for each in dowels) / GRAVITY
    return (
        f"A perfect upright wooden dowel bends aside beyond {decimal(most, 0)} kg (Euler, the"
        " weakest here): an upper bound, not advice. Cake, board and a leaning dowel give way long"
        " before."
    )


def _times(found: Data) -> Section:
    times = found["times"]
    rows = tuple(
        (_day_of(each), each["tier"], _says(each), _takes(each), _latest(each)) for each in times
    )
    cautions = dict.fromkeys(_caution(each) for each in times if each["caution"])
    says = (
        *cautions,
        f"{decimal(found['hours_of_work'], 1)} hours of work in all, one pair of hands. Minutes of"
        " work are estimates, waiting times are common practice.",
    )
    columns = ("when", "tier", "what", "takes", "latest start" if times[0]["latest"] else "")
    return Section(TIMES, columns, rows, tuple(found["time_warnings"]), says, brief=_brief(times))


def _brief(times: Sequence[Data]) -> tuple[Row, ...]:
    """Return a row for the steps of one stage that follow each other on a day."""
    rows: list[Row] = [("when", "what", "takes")]
    for (_, stage), each in groupby(times, lambda step: (step["days_before"], step["stage"])):
        steps = list(each)
        tiers = ", ".join(dict.fromkeys(step["tier"] for step in steps))
        takes = f"{sum(step['minutes'] for step in steps)} min"
        rows.append((_day_of(steps[0]), f"{stage.capitalize()}: {tiers}", takes))
    return tuple(rows)


def _caution(each: Data) -> str:
    return f"{each['stage'].capitalize()}: {each['caution']}"


def _day_of(each: Data) -> str:
    """Write when a step starts, or without a day how many days before that of the cake."""
    if each["start"]:
        return _when(each["start"])
    return f"{counted(each['days_before'], 'day')} before" if each["days_before"] else "on the day"


def _latest(each: Data) -> str:
    return _when(each["latest"]) if each["latest"] else ""


def _when(start: str) -> str:
    """Write a day and hour without words that depend on a country: ``Fri 18 Jun 16:50``."""
    when = datetime.fromisoformat(start)
    day = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")[when.weekday()]
    month = MONTHS[when.month - 1]
    return f"{day} {when.day} {month} {when.hour:02}:{when.minute:02}"


MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def _says(each: Data) -> str:
    return f"{each['step'].capitalize()}: {each['what']}"


def _takes(each: Data) -> str:
    wait = f", then wait {decimal(each['wait_h'], 1)} h" if each["wait_h"] else ""
    return f"{each['minutes']} min{wait}"


def _estimates(found: Data) -> Section:
    rows = tuple(
        (each["name"], f"{decimal(each['value'])} {each['unit']}".strip(), each["source"])
        for each in found["estimates"]
    )
    note = "Change these in the cake file under [estimates]."
    return Section("Assumptions", ("", "value", "from"), rows, assumptions=(note,), bench_only=True)


def bench_table(found: Data, terms: Terms = UK_TERMS) -> str:
    """Return a bench list as lines of text."""
    lines = [found["title"]]
    for part in sections(found, terms):
        lines += ["", part.title]
        rows = [part.columns, *part.rows]
        widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
        for row in rows:
            cells = (cell.ljust(width) for cell, width in zip(row, widths, strict=True))
            lines.append("  " + "  ".join(cells).rstrip())
        lines += [f"  {note}" for note in (*part.notes, *part.assumptions)]
    return "\n".join(lines)
