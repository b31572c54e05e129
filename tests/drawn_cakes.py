"""The cakes whose drawings are kept for reference: every shape, every kind of piece, every design.

What a table of the program names is here by that table: a new line of it is a new drawing.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.reading import parse_cake
from templates_gen.cakefile.shape_keys import shape_keys
from templates_gen.cakefile.source import CakeText
from templates_gen.drawing.cutouts import CUTOUTS
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.patterns import PATTERNS
from templates_gen.drawing.shapes import SHAPES

KEYS = {
    "short": "'4 in'",
    "corner": "'12 mm'",
    "sides": "6",
    "lobes": "5",
    "outline": "'M0 0 C 0 -60 100 -60 100 0 L 50 110 Z'",
}
"""What the keys of a shape say."""
ARTWORK = Path(__file__).resolve().parent / "reference_drawings" / "artwork"
PANELLED = "cover = 'panelled'\n"
DRIPS = "[tier.drips]\nspacing = '32 mm'\nguide = 'both'\npattern = 'wave'\n"


@cache
def drawn_cakes() -> dict[str, Cake]:
    """Return every cake by the name of its drawing."""
    texts = {**dict(_shapes()), **dict(_designs()), **dict(_drips()), **SOLIDS, **ON_TIERS, **WHOLE}
    return {name: _cake(text) for name, text in sorted(texts.items())}


def _cake(text: str) -> Cake:
    return parse_cake(CakeText("drawn.toml", text, folder=ARTWORK))


def tier(lines: str = "", size: str = "6 in", depth: str = "3 in") -> str:
    """Return the text of a cake file of one tier without a drum sheet."""
    return f"drum.guide = false\n[[tier]]\nsize = '{size}'\ndepth = '{depth}'\n{lines}"


def _plan(shape: str) -> str:
    keys = [f"{key} = {KEYS[key]}\n" for key in shape_keys(shape) if key in KEYS]
    return f"shape = '{shape}'\n{''.join(keys)}"


def _shapes() -> Iterator[tuple[str, str]]:
    """Yield each shape panelled with drips, and draped with panels and portions."""
    for shape in SHAPES:
        plan = _plan(shape)
        yield f"shape-{shape}", tier(PANELLED + plan + DRIPS)
        draped = f"rolling_out_circle = true\n{plan}[tier.panels]\nheight = '30 mm'\nrows = 2\n"
        yield f"shape-{shape}-draped", f"{tier(draped)}[portions]\n"


def _designs() -> Iterator[tuple[str, str]]:
    """Yield each design in all its forms: on strips of a round tier, once on its collar."""
    for kind, design in DESIGNS.items():
        more = "file = 'sprig.svg'\nmirror = true\n" if "file" in design.keys else ""
        rows = [
            f"[[tier.design]]\nkind = '{kind}'\n{more}top = '8 mm'\nbottom = '66 mm'\n{form}{paper}"
            for form, paper in _forms(design.forms)
        ]
        yield f"design-{kind}", tier("cover = 'none'\n" + "".join(rows), "4 in")


def _forms(forms: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    """Yield each form, and on which paper: the first on the collar."""
    for index, form in enumerate(forms or ("",)):
        yield f"form = '{form}'\n" if form else "", "paper = 'strip'\n" if index else ""


def _drips() -> Iterator[tuple[str, str]]:
    """Yield each pattern of drips."""
    more = {
        "listed": "lengths = ['20 mm', '35 mm']\n",
        "drawn": "line = 'M0 0 C 30 40 70 40 100 0'\n",
    }
    for pattern in PATTERNS:
        drips = f"[tier.drips]\npattern = '{pattern}'\nwidth = '8 mm'\n{more.get(pattern, '')}"
        yield f"drips-{pattern}", tier("cover = 'none'\n" + drips, "5 in")


_SCALLOPS = "[[tier.design]]\nkind = 'scallops'\ntop = '6 mm'\n"
_SWAGS = "[[tier.design]]\nkind = 'swags'\ntop = '20 mm'\nform = 'double'\n"
_STENCILS = (
    "[[tier.design]]\nkind = 'swags'\nstencil.bridge = '4 mm'\n"
    "[[tier.design]]\nkind = 'diamonds'\ntop = '40 mm'\nstencil = {}\n"
    "[[tier.lettering]]\ntext = 'B&8'\nfont = 'bold'\npaper = 'strip'\nstencil.bridges = 3\n"
)
_LETTERS = "[[tier.lettering]]\ntext = 'HEy'\nfont = 'bold'\ncap_height = '18 mm'\n"
_CIRCLE = "rolling_out_circle = true\n"
_SQUARE = "shape = 'square'\n"
SOLIDS = {
    "boards": "drum = { shape = 'scalloped', size = '9 in', template = true, covering = 'ring',"
    " fondant = '3 mm', guide = false }\nthrough_dowel = true\n"
    + "[[tier]]\nsize = '5 in'\ndepth = '3 in'\nshape = 'heart'\nboard_template = true\n"
    "[[tier]]\nsize = '2.5 in'\ndepth = '2 in'\n",
    "scraper-scallops": tier("cover = 'none'\n[tier.comb]\nprofile = 'scallops'\n", "4 in", "2 in"),
    "scraper-contour": tier(
        "cover = 'none'\ncoating = '9 mm'\ntop_size = '3 in'\n[tier.comb]\nprofile = 'contour'\n"
        "groove = '8 mm'\nline = 'M0 0 L 20 12 L 60 3 L 100 0'\n",
        "4 in",
    ),
    "taper-in": tier("top_size = '5 in'\n" + PANELLED + DRIPS),
    "taper-out": tier("top_size = '6 in'\n" + _CIRCLE + _SCALLOPS + _LETTERS, "5 in"),
    "taper-square": tier("top_size = '5 in'\nshape = 'square'\n" + PANELLED + DRIPS),
    "taper-oval": tier("top_size = '5 in'\nshape = 'oval'\nshort = '4 in'\n" + PANELLED + _SWAGS),
    "taper-panels": tier("top_size = '5 in'\n" + PANELLED + "[tier.panels]\ncount = 9\n"),
    "slope": tier("shallowest_depth = '2 in'\n" + PANELLED + _SCALLOPS),
    "slope-left": tier(
        "shallowest_depth = '45 mm'\nslopes_down_to = 'left'\n" + _SQUARE + PANELLED
    ),
    "slope-draped": tier("shallowest_depth = '2 in'\nslopes_down_to = 'back'\n" + _CIRCLE),
    "opening": tier(
        "dummy = true\n" + PANELLED + "[tier.opening]\nradius = '20 mm'\n" + DRIPS, depth="4 in"
    ),
    "opening-turned": tier(
        "dummy = true\n"
        + PANELLED
        + "[tier.opening]\nradius = '15 mm'\nturn = 20\nsideways = '10 mm'\n"
        "height = '40 mm'\nto = 'left'\n",
        depth="4 in",
    ),
    "opening-square": tier(
        "dummy = true\nshape = 'square'\ncorner = '10 mm'\n[tier.opening]\nradius = '20 mm'\n"
        "drips = 'leave out'\n" + DRIPS,
        depth="4 in",
    ),
    "carved-taper": tier("top_size = '4.5 in'\nshape = 'square'\ncarving = {}\n", depth="4 in"),
    "carved-slope": tier("shallowest_depth = '1.5 in'\nshape = 'square'\ncarving = {}\n", "4 in"),
    "carved-ball": tier("shape = 'ball'\ncarving.tins = 'round'\n", "5 in", "5 in"),
    "ball": tier("shape = 'ball'\n" + PANELLED + "[tier.gores]\ncount = 6\n", "4 in", "4 in"),
    "ball-cut": tier("shape = 'ball'\nrolling_out_circle = true\n", "4 in", "60 mm"),
    "ball-half": tier(
        "shape = 'ball'\n" + PANELLED + "[tier.gores]\njoins = 'overlapping'\n", "5 in", "2.5 in"
    ),
}
"""Tapers, slopes, holes and balls."""
ON_TIERS = {
    "face-by-face": tier(
        "shape = 'square'\n" + PANELLED + "[tier.panels]\nper_face = 3\ncorners = 'join'\n"
        "[tier.drips]\ncorners = true\n[[tier.design]]\nkind = 'swags'\nper = 'face'\n"
        "[[tier.design]]\nkind = 'waves'\nper = 'face'\npaper = 'strip'\nstart = 'between'\n"
    ),
    "panels-covering": tier(PANELLED + "[tier.panels]\nreplace_wrap = true\nwidth = '60 mm'\n"),
    "panels-staggered": tier(
        "cover = 'none'\n[tier.panels]\nmould = '55 mm'\nrows = 2\nheight = '25 mm'\n"
        "joins = 'staggered'\nplace = 'rim'\nfront = 'join'\n"
    ),
    "stencil": tier(_STENCILS),
    "lettering": 'title = "A long title that ends before the number of the sheet begins"\n'
    + tier(
        "cover = 'none'\n"
        + _LETTERS
        + "cut = true\nmirror = true\n[[tier.lettering]]\ntext = 'Ada & Joe'\nwidth = '70 mm'\n"
        "on = 'top'\nline = 'rim'\n[[tier.lettering]]\ntext = 'ivy'\nline = 'curve'\n"
        "curve_height = '6 mm'\nsideways = '60 mm'\npaper = 'strip'\n"
        "[[tier.lettering]]\ntext = '<8>'\nfont = 'bold'\n"
        "on = 'top'\nsideways = '10 mm'\n"
    ),
    "piping-sheets": tier(
        "cover = 'none'\n[[tier.design]]\nkind = 'swags'\n"
        "transfer = { copies = 2, sheet = 'both' }\n"
        "[[tier.scatter]]\nshape = 'heart'\ncount = 3\ntransfer.copies = 3\n"
        "[[topper]]\nshape = 'star'\ntransfer.copies = 1\n",
        "4 in",
    ),
    "run-outs": tier("cover = 'none'\nshape = 'square'\n[tier.run_out]\nsections = 2\n", "4 in"),
    "flowers": tier("cover = 'none'\n")
    + "[[flower]]\nkind = 'wild rose'\nwidth = '50 mm'\ncount = 2\n"
    "[[flower]]\nkind = 'lily'\nwidth = '70 mm'\nleaves = 1\nwired = false\n",
    "scatter": tier(
        "cover = 'none'\n"
        + "".join(
            f"[[tier.scatter]]\nshape = '{shape}'\ncount = 5\nsize = '14 mm'\n"
            for shape in ("star", "butterfly")
        )
        + "[[tier.scatter]]\nshape = 'artwork'\nfile = 'bee.svg'\ndensity = 2\nturned = false\n"
        + DRIPS
    ),
    "toppers": tier("cover = 'none'\n")
    + "".join(
        f"[[topper]]\nshape = '{shape}'\nheight = '40 mm'\nstick = '{stick}'\n"
        for shape, stick in zip(CUTOUTS, ["line", "tab"] * len(CUTOUTS), strict=False)
    )
    + "[[topper]]\nshape = 'text'\ntext = '40'\nfont = 'bold'\nheight = '50 mm'\n",
}
"""What is set on tiers."""
_STACK = """through_dowel = true
title = "Flour & <sugar>"
[drum]
size = "13 in"
ribbon = "15 mm"
[[tier]]
name = "foot"
size = "10 in"
depth = "4 in"
cover = "panelled"
ribbon = "15 mm"
[tier.dowels]
inset = "30 mm"
[[tier]]
name = "square"
shape = "square"
size = "6 in"
depth = "3 in"
[tier.position]
turn = 20
right = "10 mm"
[tier.drips]
longest = "40 mm"
[[tier]]
name = "oval"
shape = "oval"
size = "4 in"
short = "3 in"
depth = "60 mm"
[tier.position]
place = "back"
[[topper]]
height = "60 mm"
"""
_RAISED = """[[tier]]
name = "low"
size = "10 in"
depth = "8 in"
[tier.inside]
inner_boards = 1
[[tier]]
name = "on pillars"
size = "7 in"
depth = "3 in"
raised = "3 in"
[tier.position]
turn = 30
right = "10 mm"
[[tier]]
name = "on a spacer"
size = "5 in"
depth = "3 in"
raised = "40 mm"
[tier.separator]
kind = "spacer"
spacer = "80 mm"
"""
_CASCADES = """[drum]
size = "10 in"
[[tier]]
size = "7 in"
depth = "3 in"
shape = "square"
[[tier]]
size = "4 in"
depth = "3 in"
cover = "none"
[[tier.lettering]]
text = "Bo"
[[cascade]]
shape = "circle"
sizes = ["28 mm", "14 mm"]
start_turn = -30
end_turn = 60
[[cascade]]
shape = "leaf"
sizes = ["16 mm"]
end = "tier 2"
end_turn = 300
width = "60 mm"
density = 15
"""
_LETTER_CAKES = """[[tier]]
size = "4 in"
depth = "3 in"
[[letter_cake]]
text = "11"
cap_height = "120 mm"
depth = "40 mm"
[[letter_cake]]
file = "bee.svg"
cap_height = "130 mm"
depth = "40 mm"
fondant = 0
"""
WHOLE = {
    "letter-cakes": _LETTER_CAKES,
    "cascades": _CASCADES,
    "raised": _RAISED,
    "stack": _STACK,
    "stack-dummy": """[portions]
cuts = "rings"
[[tier]]
size = "9 in"
depth = "4 in"
[[tier]]
size = "7 in"
depth = "4 in"
dummy = true
cover = "panelled"
[tier.opening]
radius = "25 mm"
[[tier]]
size = "4 in"
depth = "3 in"
board = "3 in"
""",
    "warnings": """through_dowel = true
[[tier]]
size = "8 in"
depth = "4 in"
cover = "panelled"
strip = "26 in"
board = "9 in"
[tier.panels]
mould = "53 mm"
[[tier]]
size = "7.5 in"
depth = "3 in"
cover = "panelled"
strip = "20 in"
[tier.position]
right = "12 mm"
overhang = "9 mm"
[[tier]]
shape = "square"
size = "4 in"
depth = "3 in"
board = "1 in"
cover = "none"
""",
}
"""Whole cakes, also shown from the front and from above."""
ON_SHEETS = ("taper-in", "lettering")
"""Cakes whose sheets are kept too."""
