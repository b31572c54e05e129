"""A whole cake drawn at random, as the values of a cake file."""

from __future__ import annotations

from typing import get_args

from templates_gen.cakefile.drum import DRUMS
from templates_gen.cakefile.estimates import CAKES
from templates_gen.cakefile.keeps import Keeps
from templates_gen.cakefile.kinds import Amount, Templates
from templates_gen.cakefile.minutes import Minutes
from templates_gen.cakefile.papers import PAPERS, ROLLS
from templates_gen.cakefile.prices import Prices
from templates_gen.cakefile.printers import Printer
from templates_gen.cakefile.waits import Waits
from tests.random_cakes.chance import Chance, Table
from tests.random_cakes.sides import COLOURS, cascade, flower, letter_cake, topper
from tests.random_cakes.tiers import Made, largest, shape_for, tier

TITLES = ("Cake", "Ada & Joe’s <wedding>", "Größe 40", "A long title that says who, when, and why")
NAMES = ("bottom", "middle", "Top & tail", "zwölf", "<crown>", "the tier with the longest name")
NOTES = ("", "Delivery Saturday", "Nuts & eggs: none of either; the hall opens at 9 <sharp>.")
PRINTERS = (Printer("kitchen", 0.985, 1.012), Printer("Büro 2", 1.0, 0.97, 4.0, 12.0))
"""What is known of the printers of random cakes."""
SMALL = ("144 mm x 204 mm", "148 mm x 210 mm", "150 mm x 600 mm", "6 in x 9 in", "13 x 18 in")
"""Papers of one's own."""


def cake_data(chance: Chance) -> Table:
    """Draw a cake over every key of the cake file; two of three can be made."""
    chance.unit = chance.pick((None, None, "in", "cm", "mm"))
    data: Table = {"title": chance.pick(TITLES), **_paper(chance)}
    if chance.unit:
        data["unit"] = chance.unit
    if chance.odds(15):
        data["printer"] = chance.pick(PRINTERS).name
    if chance.odds(20):
        data["note"] = chance.pick(NOTES)
    data |= _whole(chance)
    data["tier"] = _tiers(chance)
    data |= _on_top(chance)
    data |= _beside(chance, data["tier"])
    if len(data["tier"]) > 1 and chance.odds(30):
        data["through_dowel"] = chance.odds(80)
    if chance.odds(40):
        data["print"] = chance.pick(("few", "whole"))
    if chance.odds(30):
        kinds = {key: chance.pick(get_args(Amount)) for key in Templates.model_fields}
        data["templates"] = chance.some(kinds, 30)
    if "letter_cake" in data and chance.odds(30):
        # letters need no tiers
        data = {key: value for key, value in data.items() if key not in ("tier", "cascade")}
    _in_wafer_paper(chance, data)
    return data | chance.some({"guests": chance.pick((1, 60, 2000))}, 20)


def _in_wafer_paper(chance: Chance, data: Table) -> None:
    """Draw what petals and small pieces are cut from, and a price of it."""
    scattered = [each for tier in data.get("tier", ()) for each in tier.get("scatter", ())]
    for each in (*scattered, *data.get("cascade", ()), *data.get("flower", ())):
        if chance.odds(40):
            each["material"] = chance.pick(("wafer paper", "wafer paper", "modelling paste"))
    if "prices" in data:
        data["prices"] |= chance.some({"wafer_paper": chance.pick((0.5, 0.0))})


def _beside(chance: Chance, tiers: list[Table]) -> Table:
    """Draw garlands over some tiers, and letter cakes beside them."""
    made: Table = {}
    names = [str(each.get("name", f"tier {number}")) for number, each in enumerate(tiers, 1)]
    if chance.odds(20):
        made["cascade"] = [cascade(chance, names) for _ in range(chance.pick((1, 1, 2)))]
    if chance.odds(8):
        made["letter_cake"] = [letter_cake(chance)]
    return made


def _on_top(chance: Chance) -> Table:
    """Draw toppers and flowers."""
    made: Table = {}
    for key, draw, odds in (("topper", topper, 20), ("flower", flower, 12)):
        if chance.odds(odds):
            made[key] = [draw(chance) for _ in range(chance.pick((1, 1, 2)))]
    return made


def _paper(chance: Chance) -> Table:
    """Draw a paper with room for pieces, and margins, and the words on it."""
    made: Table = {"words": chance.pick(("uk", "us"))} if chance.odds(30) else {}
    if chance.odds(70):
        made["paper"] = chance.pick(("a4", *PAPERS, "both", *ROLLS, *SMALL))
    if made.get("paper") not in SMALL and chance.odds(30):
        made |= {"margin_sides": chance.length(0, 25), "margin_ends": chance.length(0, 25)}
    elif made.get("paper") in SMALL:
        made |= {"margin_sides": chance.length(0, 7), "margin_ends": chance.length(0, 15)}
    return made


def _tiers(chance: Chance) -> list[Table]:
    """Draw the tiers from the bottom up, each with room on the one below."""
    count = chance.pick((1,) * 5 + (2,) * 3 + (3, 4))
    names = list(NAMES)
    shape = shape_for(chance, None)
    size = chance.mm(*chance.pick(((80, 260), (80, 260), (150, 340), (40, 420))))
    made: list[Made] = []
    for place in range(count):
        if made:
            below, like = shape, False
            shape = shape_for(chance, shape)
            like = shape == below
            size = largest(shape, made[-1], like) - chance.mm(36, 70)
            if size < 40:
                break
        carries = place < count - 1
        made.append(tier(chance, size, shape, carries, names, place > 0))
    return [each.table for each in made]


def _whole(chance: Chance) -> Table:
    """Draw what is said of the whole cake."""
    made: Table = {}
    if chance.odds(25):
        drum: Table = {
            "size": chance.length(420, 700),
            "shape": chance.pick(tuple(DRUMS)),
            "template": chance.odds(40),
            "covering": chance.pick(("whole", "ring")),
            "guide": chance.odds(60),
            "ribbon": chance.length(5, 20),
            "thickness": chance.length(3, 25),
            "fondant": chance.length(2, 5),
            "colour": chance.pick(COLOURS),
        }
        made["drum"] = chance.some(drum, 50)
    if chance.odds(20):
        portions: Table = {
            "width": chance.length(20, 50),
            "length": chance.length(25, 60),
            "cuts": chance.pick(("grid", "rings")),
        }
        made["portions"] = chance.some(portions, 60)
    if chance.odds(25):
        made["estimates"] = chance.some(_estimates(chance))
    if chance.odds(20):
        drawn_last = ("currency", "wafer_paper")
        priced = [name for name in Prices.model_fields if name not in drawn_last]
        own = {name: chance.pick((1.5, 0.0, 20.0)) for name in priced}
        made["prices"] = chance.some({"currency": chance.pick(("£", "€")), **own}, 60)
    if chance.odds(25):
        made["work"] = _work(chance)
    if "estimates" in made:
        made["estimates"] |= chance.some({"grows": chance.pick((50.0, 0.0, 100.0))})
    return made


def _estimates(chance: Chance) -> Table:
    return {
        "cake": chance.pick((*CAKES, 0.7)),
        "dummy": chance.pick((0.03, 0.015)),
        "coating": chance.pick((1.0, 0.92)),
        "fondant": chance.pick((1.35, 1.4)),
        "board": chance.pick((0.7, 0.5)),
        "drip_icing": chance.pick((1.3, 1.1)),
        "dust": chance.pick((0.5, 0.8)),
        "waste": chance.pick((15.0, 0.0, 33.5)),
        "pack": chance.pick((1000, 250, 2500)),
        "tin": chance.length(45, 90),
        "level": chance.length(0, 15),
        "tins_at_once": chance.whole(1, 3),
        "shelf_width": chance.length(250, 900),
        "shelf_depth": chance.length(250, 600),
        "drip": chance.length(1, 6),
        "piped_line": chance.length(1, 5),
        "gum": chance.pick((250.0, 200.0)),
        "batch": chance.pick((150.0, 0.0, 300.0)),
        "pace": chance.pick((100.0, 60.0, 150.0)),
        "box_room": chance.length(5, 30),
        "box_headroom": chance.length(5, 60),
        "one_drapes": chance.pick((2000.0, 1500.0)),
        "waits": chance.some(_waits(chance), 40),
        "film": chance.length(0.02, 0.1),
        "one_lifts": chance.pick((16.0, 8.0)),
        "reach": chance.length(100, 300),
        "batter": chance.pick((0.8, 1.0)),
        "rise": chance.pick((1.2, 2.0)),
        "filling": chance.pick((0.7, 1.2)),
        "layer": chance.length(15, 60),
        "deepest": chance.length(100, 200),
        "inner_gap": chance.length(0, 8),
        "drapes": chance.pick((50.0, 120.0)),
        "panelled": chance.length(3, 6),
        "cut_gap": chance.length(0, 10),
        "rough": chance.pick((0.0, 50.0)),
        "dust_share": chance.pick((30.0, 60.0)),
        "ribbon_overlap": chance.length(0, 40),
        "below_top": chance.length(0, 40),
        "into_drum": chance.pick((0.0, 50.0, 100.0)),
        "wood": chance.pick((7000.0, 12000.0)),
        "portions_used": chance.pick((80.0, 100.0)),
        "minutes": chance.some(_minutes(chance), 20),
        "keeps": chance.some({name: float(chance.whole(1, 40)) for name in Keeps.model_fields}, 30),
    }


def _minutes(chance: Chance) -> Table:
    return {name: chance.pick((0.0, 7.5, 90.0)) for name in Minutes.model_fields}


def _waits(chance: Chance) -> Table:
    return {name: float(chance.whole(0, 30)) for name in Waits.model_fields}


def _work(chance: Chance) -> Table:
    starts = chance.whole(0, 12)
    ready = f"2027-0{chance.whole(1, 9)}-{chance.whole(10, 28)} {chance.whole(8, 20):02}:30"
    own: Table = {
        "ready": ready,
        "spare_days": chance.whole(0, 2),
        "travel": chance.pick((0, 45, 200)),
        "setup": chance.whole(0, 90),
        "meal_at": chance.whole(10, 16),
        "meal": chance.pick((0, 30, 60)),
        "round_to": chance.pick((5, 15)),
        "stretch": chance.pick((30, 90, 150)),
        "together": chance.whole(0, 4),
        "alarm": chance.pick((0, 15, 60)),
        "day_starts": starts,
        "day_ends": starts + chance.whole(9, 12),
    }
    made = chance.some(own, 60)
    return {**made, "day_ends": own["day_ends"]} if "day_starts" in made else made
