"""What people say for the words of a cake file, and the word that someone may have meant."""

from __future__ import annotations

import difflib
import re
from collections.abc import Collection

MEANT = {
    # keys
    "title": ("name", "heading"),
    "note": ("comment", "remark", "message"),
    "paper": ("page", "sheet size"),
    "drum": ("board", "cake board", "base", "base board"),
    "tier": ("layer", "layers"),
    "size": ("diameter", "width", "across", "wide", "tin", "tin size", "cake tin", "pan"),
    "depth": ("height", "tall", "high", "deep"),
    "dummy": ("polystyrene", "foam", "fake"),
    "coating": ("ganache", "buttercream", "crumb", "crumb coat"),
    "fondant": (
        "paste",
        "icing",
        "sugarpaste",
        "sugar paste",
        "marzipan",
        "fondant thickness",
        "paste thickness",
    ),
    "cover": ("finish",),
    "trim": ("excess", "spare", "allowance"),
    "board": ("card", "cake card", "thin board"),
    "strip": ("strip length",),
    "through_dowel": ("through dowel", "centre dowel", "center dowel", "spike"),
    "dowels": ("dowel", "supports", "pillars", "rods"),
    "inset": ("margin", "in from the edge"),
    "thickness": ("thick",),
    "colour": ("color", "shade"),
    "ribbon": ("tape",),
    "paint": ("lustre", "luster", "lustre paint"),
    "coats": ("layers",),
    "work": ("schedule", "times", "timetable"),
    "ready": ("date", "when", "due", "delivery", "deadline"),
    "estimates": ("densities", "assumptions"),
    "waste": ("offcuts",),
    "pack": ("packet", "pack size"),
    "position": ("offset", "placement", "where"),
    "place": ("align", "alignment"),
    "right": ("x", "sideways"),
    "back": ("y", "backwards", "behind", "rear"),
    "turn": ("angle", "rotate", "rotation", "turned"),
    "overhang": ("over", "overlap"),
    "centre": ("center", "middle", "centred", "centered"),
    "panels": ("border", "tiles"),
    "drips": ("drip", "drops"),
    "count": ("number", "pieces", "how many"),
    "width": ("wide", "across", "diameter", "size"),
    "mould": ("mold", "mould length"),
    "height": ("depth", "tall", "high"),
    "joins": ("seams", "joints"),
    "spacing": ("gap", "distance", "apart", "pitch"),
    "shortest": ("short", "min", "minimum"),
    "longest": ("long", "length", "max", "maximum"),
    "pattern": ("rhythm", "order", "sequence"),
    "shuffle": ("seed", "random number"),
    "guide": ("marks", "sheet", "score", "score sheet", "drip guide"),
    "short": ("narrow", "short side", "short diameter", "breadth"),
    "sides": ("edges", "faces", "number of sides"),
    "corner": ("corners", "corner radius", "radius"),
    "lobes": ("petals", "scallops"),
    "outline": ("path", "svg", "drawing"),
    # designs
    "design": ("designs", "decoration", "pattern", "motif"),
    "top": ("from",),
    "shallowest_depth": ("low depth", "shallow depth", "lowest depth"),
    "slopes_down_to": ("low side", "slope", "slopes to"),
    "rolling_out_circle": ("drape circle", "rolling circle"),
    "bottom": ("to", "foot", "end"),
    "lettering": ("letters", "writing", "words", "inscription"),
    "text": ("message", "name", "words"),
    "font": ("typeface", "face"),
    "cap_height": ("letter height", "letter size"),
    "curve_height": ("rise", "arch height", "bow"),
    "curve": ("arch", "arc", "curved", "bow"),
    "random": ("scatter", "irregular", "uneven", "natural"),
    "scatter": ("random", "irregular", "uneven", "natural", "sprinkle", "confetti"),
    "density": ("how dense", "per area"),
    "apart": ("distance", "gap", "clearance"),
    "turned": ("rotated", "rotation"),
    "letter_cake": ("number cake", "numbers", "characters", "figures"),
    "tin_width": ("sheet width",),
    "tin_length": ("sheet length",),
    "cascade": ("garland", "garlands", "cascades", "trail"),
    "start_turn": ("start angle", "from turn"),
    "end_turn": ("end angle", "to turn"),
    "sizes": ("piece sizes", "flower sizes"),
    "topper": ("toppers", "topping", "figure"),
    "flower": ("flowers", "bloom", "blooms", "sugar flower", "sugar flowers"),
    "leaves": ("foliage", "number of leaves"),
    "wired": ("wires", "wire"),
    "daisy": ("gerbera", "marguerite"),
    "wild rose": ("dog rose", "open rose"),
    "points": ("tips", "spikes"),
    "stick": ("dowel", "skewer", "support"),
    "blossom": ("flower", "blossoms", "flowers"),
    "leaf": ("leaves",),
    "butterfly": ("butterflies",),
    "heart": ("hearts", "love"),
    "star": ("stars",),
    "circle": ("round", "disc", "dot"),
    "sideways": ("aside", "offset", "right", "shift"),
    "mirror": ("mirrored", "reversed"),
    "script": ("cursive", "handwriting", "joined"),
    "drop": ("sag", "hang", "amplitude"),
    "rows": ("courses", "lines", "levels", "row", "layers"),
    "replace_wrap": ("covering", "replaces wrap", "instead of wrap"),
    "bands": ("band", "level bands", "horizontal stripes"),
    "stripes": ("stripe", "vertical stripes", "upright bands"),
    "scallops": ("scallop", "scalloped"),
    "swags": ("swag", "garlands", "festoons", "drapes", "strings", "loops"),
    "diamonds": ("diamond", "quilting", "quilt", "quilted", "lozenges"),
    "chevrons": ("chevron", "zigzag", "zig zag"),
    "waves": ("wave", "wavy"),
    "arches": ("arch", "windows"),
    "shells": ("shell", "shell border", "piped border", "border", "snail trail"),
    "pearls": ("pearl", "dots", "buttons", "beads", "lattice", "polka dots"),
    "artwork": ("svg", "own", "drawing", "picture", "image", "file"),
    "file": ("svg", "image", "picture", "drawing"),
    "fault": ("fault line", "faultline", "torn", "torn edge", "torn band"),
    "run_out": ("runout", "run-out", "run out collar", "icing collar"),
    "geode": ("geodes", "crystals", "rock"),
    "pleats": ("pleat", "folds", "box pleats", "knife pleats"),
    "fringe": ("fringes", "tassels"),
    "lace": ("lace mat", "lace mats"),
    "bows": ("bow", "ribbon bows"),
    "fullness": ("gather", "gathering", "ratio"),
    "ruffles": ("ruffle", "frills", "frill", "flounces"),
    # words for a value
    "drape": ("fondant", "icing", "sugarpaste", "sugar paste", "marzipan", "sheet", "all in one"),
    "panelled": ("wrap", "wrapped", "wrapping", "strip", "panels"),
    "none": ("buttercream", "ganache", "naked", "semi naked", "bare", "crumb", "no paste"),
    "round": ("circle", "circular"),
    "oval": ("ellipse", "elliptic"),
    "rectangle": ("oblong", "sheet", "slab"),
    "polygon": ("hexagon", "octagon", "pentagon", "triangle", "hexagonal", "octagonal"),
    "petal": ("flower", "scalloped", "blossom"),
    "custom": ("own", "free", "other", "svg"),
    "even": ("same", "equal", "regular", "uniform"),
    "alternate": ("by turns", "long and short"),
    "wave": ("up and down", "waves"),
    "front": ("longest at front", "from the front"),
    "listed": ("list", "typed", "given"),
    "drawn": ("line", "curve", "path", "own"),
    "wafer paper": ("wafer", "rice paper", "edible paper", "starch paper", "paper"),
    "staggered": ("brick", "bricks", "offset"),
    "in line": ("straight", "aligned", "stacked"),
    "base": ("bottom", "foot", "board"),
    "rim": ("top", "top edge", "edge"),
    "join": ("seam", "joint"),
    "gap": ("space", "between"),
    "top edge": ("rim ring", "ring", "top", "rim"),
    "collar": ("side",),
    "in": ("inch", "inches", '"'),
    "cm": ("centimetre", "centimetres", "centimeter", "centimeters"),
    "mm": ("millimetre", "millimetres", "millimeter", "millimeters"),
}
"""By the word of a cake file, what is said for it in the trade or in everyday speech."""

POLYGONS = {"pentagon": 5, "hexagon": 6, "octagon": 8}
"""Names of polygons, and how many sides each has."""


def hint(word: str, known: Collection[str], about: str = "") -> str:
    """Ask whether the known word was meant that ``word`` stands for or nearly spells, if any does.

    The question repeats what ``about`` says of that word in brackets; of a polygon with a name it
    gives the sides.
    """
    found = _meant(word, known)
    if not found:
        return ""
    if found == "polygon" and (sides := POLYGONS.get(word.strip().lower())):
        return f"did you mean “polygon” with sides = {sides}?"
    says = re.search(rf"\b{re.escape(found)} (\([^)]*\))", about)
    return f"did you mean “{found}”{f' {says[1]}' if says else ''}?"


def stands_for(word: str, known: Collection[str]) -> str:
    """Return the known word that is said so in the trade or in everyday speech, or nothing."""
    said = " ".join(re.split(r"[\s_-]+", word.strip().lower()))
    return next((each for each in known if said in MEANT.get(each, ())), "")


def _meant(word: str, known: Collection[str]) -> str:
    said = stands_for(word, known)
    if said:
        return said
    close = difflib.get_close_matches(word.lower(), list(known), n=1, cutoff=0.6)
    return close[0] if close else ""
