"""The table of broken designs: each with its place and fragments of the message it gets."""

from __future__ import annotations

from tests.cli.bad_cakes import COUNT, TABLE, Bad, in_drips
from tests.cli.command import TIER


def in_table(
    table: str, name: str, lines: str, found: str, allowed: str = "", do: str = "", key: str = ""
) -> Bad:
    """Give a tier a table of a kind it may have several of; the last line is wrong.

    Or the line of ``key``, counted from the last.
    """
    above = f"{TIER}[[tier.{table}]]\n{lines}\n"
    keys = [line.partition("=")[0].strip() for line in lines.splitlines()]
    wrong = key or keys[-1]
    # a key that is not there is told where its table begins
    after = len(keys) - 1 - keys.index(wrong) if wrong in keys else len(keys)
    number = above.count("\n") - after
    place = f"line {number}: tier 1, {table} 1, {wrong}"
    return Bad(f"{table}: {name}", above, place, found, allowed, do)


def in_design(
    name: str, lines: str, found: str, allowed: str = "", do: str = "", key: str = ""
) -> Bad:
    """Give a tier a wrong design."""
    return in_table("design", name, lines, found, allowed, do, key)


BAND = "up to 108 mm"
"""A draped tier 4 in deep is 110.6 mm deep when covered."""
DESIGNS = (
    in_design("unknown kind", "kind = 'swagz'", "“swagz”", "swags", "mean “swags”?"),
    in_design("said otherwise", "kind = 'quilting'", "“quilting”", "diamonds", "“diamonds”?"),
    in_design("kind is no word", "kind = 3", "3", "a text in quotes", "kind ="),
    in_design("unknown key", "sparkle = 'red'", "“sparkle”", "kind, width", "leave it out"),
    in_design("size without unit", "width = 60", "no unit", "a number and a unit", "60 mm"),
    in_design("tiny size", "width = '1 mm'", "“1 mm”", "4 mm", "width ="),
    in_design("negative size", "width = '-30 mm'", "“-30 mm”", "4 mm", "width ="),
    in_design("width and count", "width = '30 mm'\ncount = 8", "width and count", "one of", "one"),
    in_design("no repeats", "count = 0", "0", COUNT, "count ="),
    in_design("count not whole", "count = 2.5", "2.5", "a whole number", "count ="),
    in_design("crowded", "count = 400", "400 repeats, 1.7 mm each", "4 mm", "write count ="),
    in_design("top below the side", "top = '20 cm'", "“20 cm”", "107.6 mm", "move the design up"),
    in_design(
        "end below the side", "bottom = '12 cm'", "“12 cm”", "110.6 mm", "move the design up"
    ),
    in_design("upside down", "top = '8 cm'\nbottom = '2 cm'", "“2 cm”, not below", "", "swap"),
    in_design("no band", "top = '110 mm'", "0.6 mm (1/32 in) tall", "3 mm", "farther apart"),
    in_design(
        "thin band",
        "top = '20 mm'\nbottom = '22 mm'",
        "2 mm (3/32 in) tall",
        "3 mm",
        "set top and bottom",
    ),
    in_design(
        "swags too deep",
        "bottom = '30 mm'\nkind = 'swags'\ndrop = '50 mm'",
        "50 mm (1 15/16 in) in the band",
        "up to 30 mm",
        "fit",
    ),
    in_design(
        "double swags too deep",
        "bottom = '30 mm'\nkind = 'swags'\nform = 'double'\ndrop = '25 mm'",
        "25 mm",
        "up to 20 mm",
    ),
    in_design("form of another", "kind = 'swags'\nform = 'pointed'", "“pointed”", "single"),
    in_design("unknown form", "kind = 'arches'\nform = 'gothic'", "“gothic”", "pointed", ""),
    in_design(
        "wide stripes",
        "kind = 'stripes'\nwidth = '20 mm'\nbreadth = '50 mm'",
        "in a repeat",
        "19.8 mm",
    ),
    in_design(
        "arches in a low band",
        "bottom = '20 mm'\nkind = 'arches'\nwidth = '80 mm'\nbreadth = '60 mm'",
        "60 mm",
        "up to 40 mm",
    ),
    in_design(
        "crowded pearls",
        "kind = 'pearls'\nwidth = '12 mm'\nbreadth = '10 mm'\nrows = 40",
        "40 rows of pearls",
        "do not overlap",
        "fewer rows",
    ),
    in_design(
        "pearls wider than apart", "kind = 'pearls'\nwidth = '9 mm'\nbreadth = '2 cm'", "20 mm"
    ),
    in_design("faces of a round tier", "per = 'face'", "without corners", "“round”", "leave per"),
    in_design("unknown start", "start = 'back'", "“back”", "“front”", ""),
    in_design("rows not whole", "kind = 'waves'\nrows = '3'", "“3”", "a whole number", "rows = 3"),
    in_design("too many rows", "kind = 'waves'\nrows = 61", "61", COUNT, "rows ="),
    in_design(
        "artwork without a file", "kind = 'artwork'", "no file", "an SVG file", "file =", "file"
    ),
    Bad(
        "design is no list of tables",
        f"{TIER}design = 3\n",
        "line 4: tier 1, design",
        "3",
        "one or more tables [[tier.design]]",
        "[[tier.design]]",
    ),
    Bad(
        "design as one table",
        f"{TIER}[tier.design]\nkind = 'swags'\n",
        "line 4: tier 1, design",
        "a table",
        "one or more tables [[tier.design]]",
        "[[tier.design]]",
    ),
    Bad(
        "design among words",
        f"{TIER}design = ['swags']\n",
        "line 4: tier 1, design 1",
        "“swags”",
        TABLE,
        "[[tier.design]]",
    ),
)


def in_lettering(
    name: str, lines: str, found: str, allowed: str = "", do: str = "", key: str = ""
) -> Bad:
    """Give a tier wrong lettering."""
    return in_table("lettering", name, lines, found, allowed, do, key)


LETTERING = (
    Bad(
        "no text",
        f"{TIER}[[tier.lettering]]\nwidth = '5 cm'\n",
        "line 4: tier 1, lettering 1, text",
        "no text",
        "the name or message",
        "add text",
    ),
    in_lettering("empty text", "text = ' '", "0 characters", "1 to 80", "text ="),
    in_lettering("long text", f"text = '{'x' * 81}'", "81 characters", "1 to 80", "text ="),
    in_lettering("control character", 'text = "a\\u0007b"', "U+0007", "one line", "text ="),
    in_lettering("text is no text", "text = 40", "40", "a text in quotes", "text ="),
    in_lettering(
        "Devanagari", "text = 'केक'", "DEVANAGARI LETTER KA", "characters that", "typeface"
    ),
    in_lettering(
        "emoji", "text = 'a 🎂'", "(U+1F382 BIRTHDAY CAKE)", "typeface", "another typeface"
    ),
    in_lettering(
        "Cyrillic in bold", "font = 'bold'\ntext = 'Аня'", "CYRILLIC CAPITAL LETTER A", "typeface"
    ),
    in_lettering("unknown face", "text = 'a'\nfont = 'scrpt'", "“scrpt”", "script, bold", "script"),
    in_lettering("face is no word", "text = 'a'\nfont = 3", "3", ".ttf", "font ="),
    in_lettering(
        "two sizes",
        "text = 'a'\ncap_height = '2 cm'\nwidth = '5 cm'",
        "cap_height and width",
        "one of",
        "leave one",
    ),
    in_lettering("tiny", "text = 'a'\ncap_height = '1 mm'", "“1 mm”", "3 mm", "cap_height ="),
    in_lettering("wide", "text = 'abc'\nwidth = '80 cm'", "800 mm", "694.9 mm", "write width ="),
    in_lettering("tall", "text = 'Jy'\ncap_height = '10 cm'", "tall with all", "110.6 mm", "mm"),
    in_lettering("above the rim", "text = 'A'\nlevel = '5 mm'", "beyond the rim", "", "move"),
    in_lettering("below the foot", "text = 'y'\nlevel = '108 mm'", "beyond the foot", "", "move"),
    in_lettering(
        "steep curve",
        "text = 'Joy'\nline = 'curve'\ncurve_height = '60 mm'",
        "“60 mm”",
        "half a",
        "flat",
    ),
    in_lettering("rim of a side", "text = 'Joy'\nline = 'rim'", "“rim”", "level, curve", "on ="),
    in_lettering(
        "beyond the top",
        "on = 'top'\ntext = 'Joy'\nwidth = '40 cm'",
        "reaches over the edge",
        "221.2 mm",
        "or less, or move it",
    ),
    in_lettering(
        "rim too far in",
        "text = 'Joy'\non = 'top'\nline = 'rim'\nlevel = '15 cm'",
        "150 mm",
        "one that goes round",
        "move it out",
    ),
    in_lettering("cut is no yes or no", "text = 'a'\ncut = 'yes'", "“yes”", "true or false", ""),
)
LINE = "one line from left to right"


def in_pattern(name: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Give a tier drips with a pattern of a list or a line; the last line is wrong."""
    return in_drips(f"pattern {name}", lines, found, allowed, do)


def of_line(name: str, line: str, found: str) -> Bad:
    """Give a tier drips that follow a wrong line."""
    return in_pattern(name, f"pattern = 'drawn'\nline = '{line}'", found, LINE, "write for example")


PATTERNS = (
    Bad(
        "pattern listed without lengths",
        f"{TIER}[tier.drips]\npattern = 'listed'\n",
        "line 4: tier 1, drips.lengths",
        "no lengths",
        "one or more lengths",
        "write lengths one after the other",
    ),
    Bad(
        "pattern drawn without a line",
        f"{TIER}[tier.drips]\npattern = 'drawn'\n",
        "line 4: tier 1, drips.line",
        "no line",
        LINE,
        "write for example line =",
    ),
    of_line("of no path data", "hello", "no SVG path data"),
    of_line("of a point", "M0 0", "without turning back"),
    of_line("of a closed line", "M0 0L9 9L5 0Z", "without turning back"),
    of_line("of an upright line", "M0 0V9", "without turning back"),
    of_line("of a line that turns back", "M0 0H9L5 5H20", "without turning back"),
    of_line("of two lines", "M0 0H5M6 0H9", "not one stroke"),
    of_line("of a line out of all measure", "M0 0L1e9 5", "out of all measure"),
    in_pattern("of an empty line", "pattern = 'drawn'\nline = ''", "“”", "a character", "line ="),
    in_pattern("of a list of nothing", "pattern = 'listed'\nlengths = []", "a list", "one or", ""),
    in_pattern("of one length", "pattern = 'listed'\nlengths = '2 cm'", "“2 cm”", "a list", ""),
    in_pattern(
        "of a long length",
        "pattern = 'listed'\nlengths = ['3 cm', '15 cm']",
        "150 mm long on a side 110.6 mm deep",
        "up to",
        "shorter",
    ),
    in_pattern(
        "of a short length",
        "pattern = 'listed'\nlengths = ['3 cm', '6 mm']",
        "a drip 6 mm long",
        "15 mm",
        "longer",
    ),
    Bad(
        "pattern of a length without unit",
        f"{TIER}[tier.drips]\npattern = 'listed'\nlengths = ['3 cm', 20]\n",
        "line 6: tier 1, drips.lengths 2",
        "no unit",
        "a number and a unit",
        "20 mm",
    ),
)


def in_scatter(
    name: str, lines: str, found: str, allowed: str = "", do: str = "", key: str = ""
) -> Bad:
    """Give a tier a wrong scatter."""
    return in_table("scatter", name, lines, found, allowed, do, key)


def in_topper(
    name: str, lines: str, found: str, allowed: str = "", do: str = "", key: str = ""
) -> Bad:
    """Give a cake a wrong topper; the last line is wrong, or the table lacks ``key``."""
    text = f"{TIER}[[topper]]\n{lines}\n"
    number = text.count("\n") - (len(lines.splitlines()) if key else 0)
    wrong = key or lines.splitlines()[-1].partition("=")[0].strip()
    return Bad(f"topper: {name}", text, f"line {number}: topper 1, {wrong}", found, allowed, do)


SCATTER = (
    in_scatter("unknown shape", "shape = 'bee'", "“bee”", "butterfly"),
    in_scatter("count and density", "count = 8\ndensity = 3", "count and density", "one of", "one"),
    in_scatter("none", "count = 0", "0", COUNT, "count ="),
    in_scatter("far too many", "count = 401", "401", COUNT, "count ="),
    in_scatter("too many", "size = '6 cm'\ncount = 50", "50 pieces of 6 cm", "room", "write count"),
    in_scatter("too dense", "size = '2 cm'\ndensity = 100", "of 2 cm", "room for", "smaller"),
    in_scatter("too large", "top = '8 cm'\nsize = '5 cm'", "on a band 30.6 mm", "fit", "smaller"),
    in_scatter("tiny", "size = '1 mm'", "“1 mm”", "4 mm", "size ="),
    in_scatter("below the side", "top = '15 cm'", "“15 cm”", "110.6 mm", "move the pieces up"),
    in_scatter("upside down", "top = '8 cm'\nbottom = '2 cm'", "“2 cm”, not below", "", "swap"),
    in_scatter("no file", "shape = 'artwork'", "no file", "one closed outline", "file =", "file"),
    in_scatter("shuffle not whole", "shuffle = 1.5", "1.5", "a whole number", "shuffle ="),
    Bad(
        "scatter: drips leave no room",
        f"{TIER}[tier.drips]\npattern = 'even'\nlongest = '10 cm'\n"
        "[[tier.scatter]]\nsize = '20 mm'\n",
        "line 8: tier 1, scatter 1, size",
        "pieces of 20 mm 3 mm apart",
        "0 were placed",
        "clear of all else",
    ),
)
TOPPERS = (
    in_topper("unknown shape", "shape = 'hart'", "“hart”", "heart", "mean “heart”?"),
    in_topper("unknown key", "stik = 'tab'", "“stik”", "shape, text", "mean “stick”?"),
    in_topper("unknown stick", "stick = 'wire'", "“wire”", "“line”, “tab”", ""),
    in_topper("tiny", "height = '1 cm'", "“1 cm”", "15 mm", "height ="),
    in_topper("thin paste", "thickness = '3 mm'", "“3 mm”", "5 mm", "thickness ="),
    in_topper("three points", "shape = 'star'\npoints = 3", "3", COUNT, "points ="),
    in_topper("no text", "shape = 'text'", "none", "letters", 'text = "40"', "text"),
    in_topper(
        "a loose dot", "shape = 'text'\ntext = 'i'", "hang loose", "one part", "without dots"
    ),
    in_topper(
        "emoji", "shape = 'text'\ntext = '🎂'", "BIRTHDAY CAKE", "typeface", "another typeface"
    ),
    in_topper("no file", "shape = 'artwork'", "no file", "one closed outline", "file =", "file"),
    in_topper(
        "breaks",
        "shape = 'text'\nfont = 'script'\ntext = 'A'\nheight = '2 cm'",
        "mm wide at its thinnest",
        "5 mm (7/32 in) wide or more everywhere",
        "write height =",
    ),
    in_topper("none cut", "count = 0", "0", COUNT, "count ="),
)
BAD_DESIGNS = (*DESIGNS, *LETTERING, *PATTERNS, *SCATTER, *TOPPERS)
"""Every broken design of one problem."""
