"""What is weighed and mixed, in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from templates_gen.bench.amounts import (
    TEASPOON,
    dust,
    grams,
    left_over,
    millilitres,
    spoons,
    to_weigh,
)
from templates_gen.bench.packs import Packs, in_words
from templates_gen.bench.published import TABLES
from templates_gen.bench.section import QUANTITIES, WHOLE, Data, Row, Section, whose
from templates_gen.units import about_metres, capital, counted


def quantities(found: Data) -> Section:
    """Return what is weighed and mixed, with what it is estimated from."""
    columns = ("tier", "what", "to weigh", "")
    pastes = list(_pastes(found))
    others = (
        *_coatings(found),
        *_drips(found),
        *(
            row
            for each in found["icing_batches"]
            for row in _batch(each["mass_g"], f"{each['what']}: one batch")
        ),
        *_piped(found),
        *_batch(found["piping_batch_g"], "icing for piping: one batch"),
        *_paints(found),
    )
    # the cover says nothing of packs and offcuts: the bench list does
    brief = tuple((*row[:-1], "") for row in pastes)
    return Section(
        QUANTITIES,
        columns,
        (*pastes, *others),
        assumptions=(
            *(sentence(says) for key, says in found["formulas"].items() if key != "dowels"),
            *_published(found),
        ),
        brief=(columns, *brief, *others),
    )


def _published(found: Data) -> Iterator[str]:
    """Say how the fondant of tiers compares with published tables."""
    said = []
    for each in found["paste_published"]:
        given = dict.fromkeys(to_weigh(each[key]) for key in ("least", "most"))
        said.append(
            f"{each['tier']} ({each['inches']} in) {' to '.join(given)}, here"
            f" {to_weigh(each['weighed'])} with trim and waste, of which"
            f" {grams(left_over(each['left']))} comes back"
        )
    if said:
        tables = "; ".join(TABLES)
        yield f"Published weights of fondant for rounds 4 in deep ({tables}): {'; '.join(said)}."


def sentence(words: str) -> str:
    """Return words as a sentence."""
    return f"{capital(words)}."


def _pastes(found: Data) -> Iterator[Row]:
    rows = Counter(each["colour"] for each in found["paste"])
    bought = {
        each["colour"]: in_packs(each["packs"]) if each["packs"] else "coloured from white"
        for each in found["paste_by_colour"]
    }
    for each in found["paste"]:
        offcuts, colour = left_over(each["offcuts_g"]), each["colour"]
        said = [bought[colour]] if rows[colour] == 1 else []  # it is all there is of its colour
        said += [f"of it {grams(offcuts)} comes back as offcuts"] if offcuts else []
        yield whose(each), f"{each['kind']}, {colour}", to_weigh(each["mass_g"]), "; ".join(said)
    for each in found["paste_by_colour"]:
        colour = each["colour"]
        kinds = dict.fromkeys(p["kind"] for p in found["paste"] if p["colour"] == colour)
        if rows[colour] > 1:
            what = f"{' and '.join(kinds)}, {colour}, in all"
            yield WHOLE, what, to_weigh(each["mass_g"]), bought[colour]
    for each in found["gum"]:
        what = f"gum powder for modelling paste, {each['colour']}"
        yield WHOLE, what, spoons(each["tsp"] * TEASPOON), ""


def _drips(found: Data) -> Iterator[Row]:
    for each in found["icing"]:
        yield each["tier"], each["what"], to_weigh(each["mass_g"]), millilitres(each["volume_ml"])


def _coatings(found: Data) -> Iterator[Row]:
    for each in found["coating"]:
        off = each["scraped_off_g"]
        left = f"; the comb takes off {to_weigh(off)}" if off else ""
        volume = millilitres(each["volume_ml"])
        yield each["tier"], each["what"], to_weigh(each["mass_g"]), f"{volume}{left}"


def _piped(found: Data) -> Iterator[Row]:
    for each in found["piping"]:
        metres = each["length_m"]  # none of what is flooded
        lines = f", if piped: {about_metres(metres)}" if metres else ""
        what = f"icing for {each['what']}{lines}"
        yield each["tier"], what, to_weigh(each["mass_g"]), millilitres(each["volume_ml"])


def _batch(mass: float, name: str) -> Iterator[Row]:
    if mass:
        yield WHOLE, name, to_weigh(mass), ""


def _paints(found: Data) -> Iterator[Row]:
    for each in found["paint"]:
        what = f"paint on {each['on']}, {counted(each['coats'], 'coat')}"
        edible = f"edible dust {dust(each['dust_g'])}"
        yield each["tier"], what, edible, f"clear alcohol {spoons(each['alcohol_ml'])}"


def in_packs(found: Iterable[Data]) -> str:
    """Write the packs that something is bought in."""
    return in_words(Packs(**each) for each in found)
