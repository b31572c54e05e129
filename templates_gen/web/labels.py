"""What the page calls the keys of a cake file: a decorator's words, and where something is wrong.

A key without a line here is shown by its own name, so a new one appears by itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.estimate_words import WORDS
from templates_gen.cakefile.keys import keys_of, table_at, tables
from templates_gen.cakefile.lengths import UNITS
from templates_gen.cakefile.papers import PAPERS, title_of
from templates_gen.drawing.designs import DESIGNS, design_word
from templates_gen.errors import Key
from templates_gen.terms import Terms, place_of
from templates_gen.units import capital
from templates_gen.web.examples import near

LABELS: Mapping[str, str] = {
    "apart": "Least space between",
    "bottom": "Ends below the top edge by",
    "count": "How many",
    "font": "Typeface",
    "front": "At the front",
    "paper": "Print on",
    "ribbon": "Ribbon width",
    "shuffle": "Shuffle number",
    "top": "Starts below the top edge by",
    "transfer": "Piping sheet",
    "turn": "Turned by (degrees)",
    "turned": "Turned at random",
    "Cake.title": "Name of the cake",
    "Cake.note": "Note on the cover page",
    "Cake.unit": "Numbers without a unit are in",
    "Cake.paper": "Paper",
    "Cake.margin_sides": "Unprintable margin at the sides",
    "Cake.margin_ends": "Unprintable margin top and bottom",
    "Cake.printer": "Your 150 mm bars, measured",
    "Cake.print": "Templates",
    "Cake.drum": "Drum (the board under the cake)",
    "Cake.portions": "Portion guides",
    "Cake.estimates": "Assumptions",
    "Cake.work": "Day and hours",
    "Cake.through_dowel": "One dowel through all tiers",
    "Cake.topper": "Toppers",
    "Cake.flower": "Sugar or paper flowers, cut petal by petal",
    "Flower.width": "Width of the open flower",
    "Flower.count": "How many flowers",
    "Flower.leaves": "Leaves for each flower",
    "Flower.wired": "On wires",
    "Flower.thickness": "Thickness of the petals",
    "Flower.colour": "Colour of the petals",
    "Flower.leaf_colour": "Colour of the leaves",
    "Flower.centre_colour": "Colour of the middle",
    "Drum.guide": "Print a drum guide",
    "Drum.template": "Print a template to saw it",
    "Drum.covering": "Covered",
    "Tier.board_template": "Print a template to saw the board",
    "Tier.name": "Name of the tier",
    "Tier.short": "Size, front to back",
    "Tier.sides": "Number of sides",
    "Tier.corner": "Corner radius",
    "Tier.lobes": "Number of petals",
    "Tier.outline": "Custom outline",
    "Tier.top_size": "Size of the top (tapered)",
    "Tier.shallowest_depth": "Shallowest depth (sloped top)",
    "Tier.opening": "Hole through the tier",
    "Tier.gores": "Gores of the ball",
    "Tier.dummy": "Polystyrene dummy",
    "Tier.coating": "Buttercream or ganache thickness",
    "Tier.cover": "Covering",
    "Tier.fondant": "Fondant thickness",
    "Tier.fondant_top": "Fondant thickness, top",
    "Tier.fondant_side": "Fondant thickness, side",
    "Tier.fondant_lining": "Fondant thickness in the hole",
    "Tier.first": "Goes on first",
    "Tier.trim": "Spare fondant to trim",
    "Tier.strip": "Fondant strip length",
    "Tier.board": "Board under the tier",
    "Tier.raised": "Raised above the tier below by",
    "Tier.separator": "Pillars or spacer",
    "Separator.kind": "Stands on",
    "Separator.pillar": "Pillar thickness",
    "Separator.spacer": "Spacer width",
    "Inside.inner_boards": "Boards inside a deep tier",
    "Tier.rolling_out_circle": "Print the rolling-out circle",
    "Tier.print": "Templates of this tier",
    "Tier.carving": "Carving guides",
    "Carving.tins": "Tins to bake in",
    "Carving.spare": "Cake to spare all round",
    "Tier.design": "Designs",
    "Tier.scatter": "Small pieces",
    "Tier.paint": "Lustre paint",
    "Panels.count": "Panels round the tier",
    "Panels.width": "Panel width",
    "Panels.mould": "Length of your mould",
    "Panels.height": "Panel height",
    "Panels.per_face": "Panels on each face",
    "Panels.corners": "At the corners",
    "Panels.place": "Start at",
    "Panels.replace_wrap": "Panels replace the wrap",
    "Drips.spacing": "Space between drips",
    "Drips.width": "Drip width",
    "Drips.shortest": "Shortest drip",
    "Drips.longest": "Longest drip",
    "Drips.pattern": "Drip pattern",
    "Drips.waves": "Number of waves",
    "Drips.corners": "A drip at each corner",
    "Drips.lengths": "Lengths in order",
    "Drips.line": "Drawn line",
    "Drips.guide": "Print the drip guide on",
    "Opening.height": "Height of its middle",
    "Opening.to": "To the",
    "Opening.cut": "Cut out of the wrap",
    "Opening.drips": "Drips above the hole",
    "Gores.count": "Number of gores",
    "Design.kind": "Design",
    "Design.width": "Width of a repeat",
    "Design.count": "Number of repeats",
    "Design.breadth": "Width of one",
    "Design.form": "Style",
    "Tier.comb": "Combed sides",
    "Comb.profile": "Edge of the scraper",
    "Comb.pitch": "Height of a ridge and groove",
    "Comb.groove": "Depth of the grooves",
    "Comb.line": "Drawn contour",
    "Transfer.copies": "Copies on the sheet",
    "Transfer.sheet": "Print it",
    "Transfer.apart": "Space between copies",
    "Tier.run_out": "Run-out collar",
    "RunOut.width": "Reaches out beyond the rim by",
    "RunOut.overlap": "Rests on the top by",
    "RunOut.sections": "Number of sections",
    "RunOut.thickness": "Thickness of the icing",
    "RunOut.colour": "Colour of the icing",
    "Transfer.joined": "Copies join, to practise a border",
    "Design.strip": "Length of a strip or mat",
    "Design.thickness": "Thickness of the strips",
    "Design.mirror": "Mirror every other one",
    "Design.start": "At the front",
    "Design.per": "Repeats close",
    "Lettering.text": "Words",
    "Lettering.cap_height": "Height of capitals",
    "Lettering.width": "Width of the words",
    "Lettering.on": "Where",
    "Lettering.line": "Set on",
    "Lettering.curve_height": "Rise of the curve",
    "Lettering.level": "Distance from the edge",
    "Lettering.cut": "Print the letters to cut out",
    "Lettering.thickness": "Thickness of the letters",
    "Lettering.colour": "Colour of the letters",
    "Lettering.mirror": "Print mirrored too",
    "Scatter.size": "Size of a piece",
    "Scatter.density": "How many to 10 × 10 cm",
    "Cake.letter_cake": "Number and letter cakes",
    "LetterCake.text": "Number or letters",
    "LetterCake.file": "Shape of your own",
    "LetterCake.cap_height": "Height of a character",
    "LetterCake.depth": "Depth of the cake",
    "LetterCake.filling": "Filling between layers",
    "LetterCake.tin_width": "Sheet tin, shorter side",
    "LetterCake.tin_length": "Sheet tin, longer side",
    "LetterCake.coating": "Buttercream or ganache thickness",
    "LetterCake.fondant": "Fondant thickness",
    "LetterCake.apart": "Space between characters",
    "LetterCake.edge": "Board all round",
    "Cake.cascade": "Flowers, garlands and cascades",
    "Cascade.sizes": "Sizes of the pieces",
    "Cascade.start": "Starts at the top edge of",
    "Cascade.end": "Ends at the base of",
    "Cascade.start_turn": "Starts at (degrees right of front)",
    "Cascade.end_turn": "Ends at (degrees right of front)",
    "Cascade.width": "Width where it starts",
    "Cascade.end_width": "Width where it ends",
    "Cascade.density": "Covered with pieces (percent)",
    "Cascade.on_drum": "Runs out over the drum by",
    "Topper.text": "Words or number",
    "Topper.points": "Number of points",
    "Dowels.count": "Number of dowels",
    "Dowels.inset": "Distance in from the edge",
    "Dowels.thickness": "Dowel thickness",
    "Position.place": "Stands",
    "Position.right": "Moved to the right",
    "Position.back": "Moved to the back",
    "Position.overhang": "Overhang allowed",
    "Portions.width": "Portion width",
    "Portions.length": "Portion length",
    "Prices.currency": "Sign of the currency",
    "Prices.fondant": "Fondant, for a pack",
    "Prices.modelling_paste": "Modelling paste, for a pack",
    "Prices.batter": "Batter, for 1 kg (or write per lb)",
    "Prices.filling": "Filling, for 1 kg (or write per lb)",
    "Prices.coating": "Buttercream or ganache, for 1 kg (or write per lb)",
    "Prices.almond_paste": "Almond paste, for 1 kg (or write per lb)",
    "Prices.icing": "Royal icing, for 1 kg (or write per lb)",
    "Prices.board": "Board, for each",
    "Prices.drum": "Drum, for each",
    "Prices.dowel": "Dowel, for each",
    "Prices.pillar": "Pillar, for each",
    "Prices.spacer": "Spacer, for each",
    "Prices.ribbon": "Ribbon, for 1 m (or write per yd)",
    "Prices.wire": "Flower wire, for each",
    "Prices.holder": "Stem holder, for each",
    "Prices.wafer_paper": "Wafer paper, for a sheet",
    "Prices.hour": "Your work, for an hour",
    "Work.ready": "Ready on (day and hour)",
    "Work.meal_at": "Meal break at (hour, 0 to 23)",
    "Work.meal": "Meal break (minutes)",
    "Work.day_starts": "You work from (hour, 0 to 23)",
    "Work.day_ends": "You work until (hour, 1 to 24)",
    **{f"Estimates.{key}": words for key, words in WORDS.items()},
}
"""By key, and by table and key where one table has another word for it."""
NAMES: Mapping[str, str] = {
    "drape": "draped in one sheet",
    "panelled": "top and side apart",
    "none": "no fondant",
    "custom": "custom outline",
    "rim": "top edge",
    "few": "few pages",
    "whole": "full size",
    **{name: title_of(name) for name in PAPERS},
}
"""What the page calls a word of a cake file, where that says too little."""
NAMES_OF: Mapping[str, Mapping[str, str]] = {
    "Cake.paper": {"both": "A4 and Letter"},
    "Drips.pattern": {
        "front": "longest at the front",
        "listed": "lengths you list",
        "drawn": "a line you draw",
    },
    "Design.kind": {word: design_word(word) for word in DESIGNS},
    "Topper.shape": {"text": "number or letters"},
}
"""What it calls a word of one key, by table and key."""


def name_of_word(model: type[BaseModel], key: str, word: str) -> str:
    """Return what the page calls a word that a key of a table takes."""
    return NAMES_OF.get(f"{model.__name__}.{key}", {}).get(word) or NAMES.get(word, word)


ONE_OF: Mapping[str, str] = {
    "tier": "tier",
    "design": "design",
    "lettering": "lettering",
    "scatter": "small pieces",
    "topper": "topper",
    "cascade": "cascade",
    "flower": "flowers",
    "letter_cake": "letter cake",
}
"""What one of several is called."""


def label(model: type[BaseModel], key: str) -> str:
    """Return what the page calls a key of a table."""
    found = LABELS.get(f"{model.__name__}.{key}") or LABELS.get(key)
    return found or capital(key.replace("_", " "))


def place(key: Key, data: object) -> str:
    """Say where something is on the page: ``Depth, top tier`` of the key ``tier, 2, depth``.

    ``data`` is the cake, which has the names of tiers. An unknown key is quoted.
    """
    return ", ".join(reversed(list(_parts(key, data)))) or "The cake"


def _parts(key: Key, data: object) -> Iterator[str]:
    """Yield the words for each part of a key, from the outside in."""
    model: type[BaseModel] | None = Cake
    names = [*enumerate(key)]
    for index, part in names:
        if isinstance(part, int):
            continue
        info = keys_of(model).get(part) if model else None
        number = key[index + 1] if index + 1 < len(key) else None
        if info is None or model is None:
            yield f"“{part}”"
        elif isinstance(number, int) and part in ONE_OF:
            yield _numbered(part, number, data)
        else:
            yield _terms(data).spelled(label(model, part))
        model = info.table if info else None


def _terms(data: object) -> Terms:
    """Return the words of the place that a cake is in."""
    return Terms(place_of(data.get("words") if isinstance(data, Mapping) else None))


def _numbered(part: str, number: int, data: object) -> str:
    name = _name_of(data, number) if part == "tier" else ""
    if "tier" in name.lower().split():
        return name
    return f"{name} tier" if name else f"{ONE_OF[part]} {number + 1}"


def _name_of(data: object, number: int) -> str:
    """Return the name of a tier, as far as there is one."""
    tiers = data.get("tier") if isinstance(data, Mapping) else None
    if not isinstance(tiers, Sequence) or number >= len(tiers):
        return ""
    tier = tiers[number]
    name = tier.get("name") if isinstance(tier, Mapping) else None
    return name if isinstance(name, str) else ""


_TABLE = re.compile(r"\[+([a-z]\w*(?:\.\w+)*)\]+")
_DAY = r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d"
_VALUE = re.compile(rf"(?:\[[^\]]*\]|“[^”]*”|\"[^\"]*\"|true|false|{_DAY}|-?\d+(?:\.\d+)?)")
_SET = re.compile(rf"\b([a-z]\w*) = ({_VALUE.pattern})")
_IN_TABLE = re.compile(rf"({_TABLE.pattern})((?:,? {_SET.pattern})+)")
_TEXT = re.compile(r'"([^"]*)"')
_QUOTED = re.compile(r"“([^”]*)”")
_IN_FILE = re.compile(r"; in a cake file [^;.]*| (?:in|beside) (?:a|the) cake file\b")
_SNAKE = re.compile(r"\b[a-z]+(?:_[a-z]+)+\b")
QUOTES = '“”"'
_YES = {"true": "yes", "false": "no"}


def worded(text: str, key: Key, unit: str = "") -> str:
    """Return a message about a key in the words of the page, as ``worded_in`` does.

    What the key itself is set to stands alone: the page says it at the field. An example of a
    length is in the ``unit`` of the cake, where that is known.
    """
    model = table_at(key)
    info = keys_of(model).get(next((part for part in reversed(key) if isinstance(part, str)), ""))
    names = {word: name_of_word(model, info.name, word) for word in info.words} if info else {}
    if names:
        text = text.replace(", ".join(names), ", ".join(names.values()))
    if info:
        if info.kind == "length" and unit in UNITS:
            example = "; ".join(near(each, unit) for each in _TEXT.findall(info.example))
            text = text.replace(f"{info.name} = {info.example}", f"“{example}”")
        if info.kind == "file":
            text = re.sub(rf"\bwrite for example {info.name} = \"[^\"]*\"", "choose a file", text)
        own = rf"\b{info.name} = ({_VALUE.pattern})"
        text = re.sub(own, lambda found: f"“{_value_called(found[1])}”", text)
    text = worded_in(text, model)
    names |= known_keys(key)
    return _QUOTED.sub(lambda found: f"“{names.get(found[1], found[1])}”", text)


def worded_in(text: str, model: type[BaseModel]) -> str:
    """Return a text about a table in the words of the page: no keys, brackets, ``=`` or file."""

    def in_table(found: re.Match[str]) -> str:
        inner = table_at(tuple(found[2].split(".")))
        return f"{_sets_called(found[3].strip(', '), inner)} under “{_table_called(found[2])}”"

    text = _IN_TABLE.sub(in_table, _IN_FILE.sub("", text))
    text = _TABLE.sub(lambda found: f"“{_table_called(found[1])}”", text)
    text = _sets_called(text, model)
    return _SNAKE.sub(lambda found: f"“{_called(found[0], model)}”", text)


def _sets_called(text: str, model: type[BaseModel]) -> str:
    """Return a text with ``key = value`` as the page shows it."""

    def set_(found: re.Match[str]) -> str:
        word = _value_called(found[2])
        return f"“{_called(found[1], model)}: {NAMES.get(word, word)}”"

    return _SET.sub(set_, text)


def _value_called(value: str) -> str:
    """Return a value as one types it on the page: a list as its items, no quotes."""
    if value.startswith("["):
        return "; ".join(_TEXT.findall(value))
    return _YES.get(value, value.strip(QUOTES))


def _table_called(path: str) -> str:
    model: type[BaseModel] = Cake
    found = path
    for part in path.split("."):
        info = keys_of(model).get(part)
        if info is None or info.table is None:
            return path
        found, model = label(model, part), info.table
    return found


def _called(key: str, model: type[BaseModel]) -> str:
    """Return what the page calls a key: of this table, else of the first that has it."""
    every: list[type[BaseModel]] = [model, Cake, *(table for _, table in tables())]
    for each in every:
        if key in keys_of(each):
            return label(each, key)
    return key


def known_keys(key: Key) -> dict[str, Any]:
    """Return for an unknown key which keys its table has, with what the page calls them."""
    model = table_at(key[:-1])
    if not key or key[-1] in keys_of(model) or isinstance(key[-1], int):
        return {}
    return {name: label(model, name) for name in keys_of(model)}
