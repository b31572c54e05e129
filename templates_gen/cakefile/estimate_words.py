"""What people read for the keys of the estimates: on lists and on the page."""

from __future__ import annotations

import re
from collections.abc import Mapping

from templates_gen.cakefile.keeps import Keeps
from templates_gen.cakefile.keys import keys_of
from templates_gen.cakefile.minutes import Minutes
from templates_gen.cakefile.waits import Waits

WORDS: Mapping[str, str] = {
    "cake": "Kind of cake, or its density",
    "dummy": "Density of polystyrene",
    "coating": "Density of buttercream or ganache",
    "board": "Density of boards",
    "fondant": "Density of fondant",
    "drip_icing": "Density of royal icing",
    "dust": "Density of lustre dust",
    "waste": "Extra to roll, mix or colour (percent)",
    "pack": "Packs of fondant you buy (grams, or “2 lb”)",
    "tin": "Depth of your tins",
    "level": "Cut off to level a cake",
    "tins_at_once": "Tins that bake at once",
    "shelf_width": "Oven shelf width",
    "shelf_depth": "Oven shelf depth",
    "drip": "A drip stands out by",
    "piped_line": "Thickness of a piped line",
    "film": "Thickness of a coat of paint",
    "gum": "Paste to a teaspoon of gum powder (grams)",
    "batch": "Least icing you mix (grams)",
    "pace": "Your pace (percent of our minutes)",
    "grows": "Share of minutes that grows with a tier",
    "box_room": "Room beside a cake in its box",
    "box_headroom": "Room above a cake in its box",
    "one_drapes": "Most fondant one person drapes (grams)",
    "one_lifts": "Most that one person lifts (kg)",
    "reach": "Reach when you lift",
    "batter": "Specific gravity of batter",
    "rise": "Times its depth that batter rises",
    "filling": "Density of filling",
    "layer": "Depth of a layer of cake",
    "deepest": "Tiers are built up beyond a depth of",
    "inner_gap": "Inner boards stay from the side by",
    "drapes": "Depth at which a sheet pleats (percent of width)",
    "panelled": "Fondant of a panelled tier",
    "cut_gap": "Fondant left between cut shapes",
    "rough": "Most rolled beyond a shape (percent)",
    "dust_share": "Dust in paint (percent)",
    "ribbon_overlap": "Overlap of a ribbon",
    "below_top": "A dowel through all tiers ends below the top by",
    "into_drum": "It enters the drum by (percent)",
    "wood": "Stiffness of a dowel",
    "portions_used": "Used up by whole portions (percent)",
    "waits": "Hours to wait",
    "minutes": "Minutes of work",
    "keeps": "Days things keep",
}
"""By key, as the page labels its field; in brackets what one types there."""
_TABLES = {"waits": Waits, "minutes": Minutes, "keeps": Keeps}
_BRACKETS = re.compile(r" \([^)]*\)$")


def in_words(key: str) -> str:
    """Return an estimate in words, without what one types: ``density of royal icing``."""
    table, _, inner = key.partition(".")
    words = keys_of(_TABLES[table])[inner].description if inner else WORDS[key]
    words = _BRACKETS.sub("", words)
    said = f"{words[0].lower()}{words[1:]}"
    return f"kept, {said}" if table == "keeps" else said
