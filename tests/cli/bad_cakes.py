"""The table of broken cake files: each with its place and fragments of the message it gets."""

from __future__ import annotations

from typing import NamedTuple

from tests.cli.command import TIER

UPPER = TIER.replace("8 in", "6 in")


class Bad(NamedTuple):
    """A broken cake file of one problem, and fragments of what its message says."""

    name: str
    text: str
    place: str
    found: str
    allowed: str = ""
    do: str = ""


def in_cake(name: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Put lines above a sound tier; the last of them is wrong."""
    return _bad(name, "", "", lines, TIER, (found, allowed, do))


def in_size(name: str, value: str, found: str, allowed: str = "") -> Bad:
    """Give a tier a wrong size."""
    told = (found, allowed or UNITS, 'size = "8 in"')
    return _bad(name, "[[tier]]\n", "tier 1, ", f"size = {value}", "depth = '4 in'\n", told)


def in_tier(name: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Add lines to a sound tier; the last of them is wrong."""
    return _bad(name, TIER, "tier 1, ", lines, "", (found, allowed, do))


def in_panels(name: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Give a draped tier panels; the last line is wrong."""
    above = f"{TIER}[tier.panels]\n"
    return _bad(name, above, "tier 1, panels.", lines, "", (found, allowed, do))


def in_position(name: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Give a tier a position; the last line is wrong."""
    above = f"{TIER}[tier.position]\n"
    return _bad(name, above, "tier 1, position.", lines, "", (found, allowed, do))


def in_dowels(name: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Give a tier dowels; the last line is wrong."""
    return _bad(name, f"{TIER}[tier.dowels]\n", "tier 1, dowels.", lines, "", (found, allowed, do))


def in_work(name: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Say when a sound cake is ready; the last line is wrong."""
    return _bad(name, f"{TIER}[work]\n", "work.", lines, "", (found, allowed, do))


def in_drips(name: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Give a tier drips; the last line is wrong."""
    above = f"{TIER}[tier.drips]\n"
    return _bad(name, above, "tier 1, drips.", lines, "", (found, allowed, do))


def _bad(
    name: str, above: str, owner: str, lines: str, below: str, told: tuple[str, str, str]
) -> Bad:
    """Return a cake file whose last of ``lines`` is wrong, with where that is."""
    number = (above + lines).count("\n") + 1
    key = lines.splitlines()[-1].partition("=")[0].strip()
    return Bad(name, f"{above}{lines}\n{below}", f"line {number}: {owner}{key}", *told)


UNITS = "a number and a unit (in, cm or mm)"
WIDTHS = "25 mm (1 in) to 1500 mm"
BELL = "M0 0 H80 V35 H120 V0 H200 V80 H120 V45 H80 V80 H0 Z"
"""A plan of two squares joined by a bar, as SVG path data."""
COUNT = "a whole number from "
YES_NO = "true or false"
TABLE = "a table of its own"
ONE_MEASURE = "one of count, per_face, width and mould"
INSIDE = "inside what it stands on"
PAPERS = "a4, letter, legal, a3, tabloid, a2"
OTHER_NAME = "another name"
TOML = "[[tier]] or # a comment"
CURLY = "curly quotes: type straight ones, \" or ', in a plain text editor"
QUOTES = "check quotes, brackets and the equals sign"


def no_toml(name: str, lines: str, do: str = QUOTES, found: str = "") -> Bad:
    """Add lines to a sound tier; the last of them is no TOML, and is shown."""
    last = lines.splitlines()[-1]
    number = (TIER + lines).count("\n") + 1
    return Bad(name, f"{TIER}{lines}\n", f"line {number}", found or last, TOML, do)


SYNTAX = (
    no_toml("length without quotes", "trim = 8 in", "trim = '8 in'"),
    no_toml("inch sign without quotes", 'trim = 8"', "trim = '8\"'"),
    no_toml("fraction without quotes", "trim = 1/2 in", "trim = '1/2 in'"),
    no_toml("bracket missing", "[[tier]"),
    no_toml("quote missing", "trim = '8 in"),
    no_toml("inch sign ends the text", 'trim = "8""', "single quotes: trim = '8\"'"),
    no_toml("two single quotes end the text", "trim = '8 1/2'' # in", "quotes: trim = '8 1/2\"'"),
    no_toml("value missing", "trim ="),
    no_toml("colon for equals sign", "name: 'a'"),
    no_toml("key twice", "size = '9 in'", "a second time: leave one of them out"),
    no_toml("table twice", "[drum]\n[drum]", "a second time"),
    no_toml("list of no table twice", "drips = [1]\n[[tier.drips]]", "a second time"),
    no_toml("table in one line and below", "drips = {}\ndrips.shuffle = 1", "a second time"),
    no_toml("single brackets", "[tier]", "head every tier with [[tier]], in double brackets"),
    Bad(
        "single brackets first",
        f"[tier]\nname = 'a'\n{TIER}",
        "line 3",
        "[[tier]]",
        TOML,
        "head every tier with [[tier]]",
    ),
    Bad(
        "table of a tier above it",
        f"# two drips\n[ tier.drips ]\nshuffle = 2\n{TIER}",
        "line 4",
        "[[tier]]",
        TOML,
        "write [tier.drips] below the [[tier]] it belongs to",
    ),
    no_toml("zero byte", "name = 'a\0b'", found="name = 'a"),
    no_toml("unknown escape", 'name = "a\\q"'),
    no_toml("curly quotes", "trim = “8 in”", CURLY),
    no_toml("curly quote at the end", 'trim = "8 in”', CURLY),
    no_toml("curly single quotes", "trim = ‘8 in’", CURLY),
    no_toml("an apostrophe is no quote", "name = 'Zoë’s cake"),
    Bad("text never closed", TIER + "name = '''a", "line 4", "name = '''a", TOML, QUOTES),
    Bad(
        "line ends of old Macs",
        TIER.replace("\n", "\r"),
        "line 1",
        "[[tier]]",
        TOML,
        "with the line ends LF or CRLF",
    ),
    no_toml("blank that is not plain", "name\u00a0= 'a'", "NO-BREAK SPACE) is not seen", "name"),
    no_toml("two marks of the byte order", "\ufeffname = 'a'", "(U+FEFF", "name = 'a'"),
)
KEYS = (
    in_cake(
        "unknown in the cake", "titel = 'a'", "“titel”", "title, note", "did you mean “title”?"
    ),
    in_tier("unknown in a tier", "coatin = '5 mm'", "“coatin”", "coating", "mean “coating”?"),
    in_panels("unknown in panels", "cuont = 8", "“cuont”", "count, width", "mean “count”?"),
    in_drips("unknown in drips", "spaceing = '3 cm'", "“spaceing”", "spacing", "mean “spacing”?"),
    in_tier("key in capitals", "Dummy = true", "“Dummy”", "dummy", "mean “dummy”?"),
    in_tier("key like no other", "zzz = 1", "“zzz”", "name, shape, size", "leave it out"),
    in_tier("unknown table", "swags = {}", "“swags”", "panels, drips", "leave it out"),
    Bad(
        "unknown in the drum",
        f"[drum]\nsizes = '14 in'\n{TIER}",
        "line 2: drum.sizes",
        "“sizes”",
        "size",
        "did you mean “size”?",
    ),
    Bad(
        "unknown in the second tier",
        f"{TIER}{UPPER}nmae = 'b'\n",
        "line 7: tier 2, nmae",
        "“nmae”",
        "name, shape",
        "did you mean “name”?",
    ),
    Bad(
        "line separator in a comment",
        f"# a\u2028b\n{TIER}zebra = 1\n",
        "line 5: tier 1, zebra",
        "“zebra”",
        "coating",
        "leave it out",
    ),
    Bad(
        "line end in a key",
        f'"a\\nb" = 1\n{TIER}',
        "line 1: a\\nb",
        "the unknown key “a\\nb”",
        "title",
        "leave it out",
    ),
    Bad(
        "more designs than a tier takes",
        TIER + "[[tier.design]]\n" * 51,
        "line 4: tier 1, design",
        "51 designs",
        "up to 50",
        "leave some out",
    ),
    Bad(
        "a key of a table below",
        TIER + "turn = 45\n",
        "line 4: tier 1, turn",
        "the unknown key “turn”",
        "position",
        "write it under [tier.opening] or [tier.position]",
    ),
    Bad(
        "a key of tables below that stands for another",
        TIER + "height = '4 in'\n",
        "line 4: tier 1, height",
        "the unknown key “height”",
        "depth",
        "did you mean “depth”?",
    ),
    Bad("empty key", f'"" = 1\n{TIER}', "line 1", "the unknown key “”", "title", "leave it out"),
    Bad("empty file", "", "line 1: tier", "nothing", "1 to 30 tiers", "[[tier]]"),
    Bad("only comments", "# a\n\n# b\n", "line 1: tier", "nothing", "tiers", "[[tier]]"),
    Bad("no tier", "title = 'a'\n", "line 1: tier", "nothing", "tiers", "[[tier]]"),
    Bad("empty list of tiers", "title = 'a'\ntier = []", "line 2: tier", "no tier", "1 to", "size"),
    Bad(
        "size missing",
        "# a\n[[tier]]\ndepth = '4 in'\n",
        "line 2: tier 1, size",
        "no size",
        "width of the bare",
        'add size = "8 in"',
    ),
    Bad(
        "depth missing above",
        f"{TIER}[[tier]]\nsize = '6 in'\n",
        "line 4: tier 2, depth",
        "no depth",
        "depth of the bare",
        'add depth = "4 in"',
    ),
)
LENGTHS = (
    in_size("unknown unit", "'8 ft'", "“8 ft” has the unknown unit “ft”"),
    in_size("metres", "'0.2 m'", "“0.2 m” has the unknown unit “m”"),
    in_size("foot sign", '"1\'"', "“1'” has the unknown unit “'”"),
    in_size("no unit in a text", "'8'", "“8” has no unit")._replace(do='unit = "in"'),
    in_size("no unit", "8.5", "“8.5” has no unit")._replace(do='"8.5 in"'),
    in_size("no number", "'in'", "“in” is not a length"),
    in_size("words", "'eight inches'", "“eight inches” is not a length"),
    in_size("empty text", "''", "no length"),
    in_size("two lengths", "'8 in 2 in'", "“8 in 2 in”"),
    in_size("two units", "'8 in mm'", "“8 in mm”"),
    in_size("negative", "'-8 in'", "“-8 in”", WIDTHS),
    in_size("true minus sign", "'−8 in'", "“−8 in”", WIDTHS),
    in_size("zero", "'0 in'", "“0 in”", WIDTHS),
    in_size("zero without unit", "0", "“0”", WIDTHS),
    in_size("nan", "nan", "“nan” is not a length"),
    in_size("nan with a unit", "'nan in'", "“nan in” is not a length"),
    in_size("infinite", "-inf", "“-inf” is not a length"),
    in_size("too large for a float", "1e400", "“inf” is not a length"),
    in_size("thousands", "'1,000 mm'", "comma can mean a decimal or thousands", "1.250 or 1250"),
    in_size("millions", "'1,000,000 mm'", "“1,000,000 mm”"),
    in_size("over zero", "'8 1/0 in'", "“8 1/0 in” divides by zero"),
    in_size("half a fraction", "'8 1/ in'", "“8 1/ in”"),
    in_size("figures of another script", "'٨ in'", "“٨ in” is not a length"),
    in_size("endless number", f"'{'8' * 900} in'", "“888"),
    in_size("over 1.5 m", "'1501 mm'", "“1501 mm”", WIDTHS),
    in_size("table", "{ inches = 8 }", "a table"),
    in_size("list", "['8 in']", "a list"),
    in_size("yes", "true", "true"),
    in_size("date", "2024-02-29", "2024"),
    in_tier("coating like a tier", "coating = '4 in'", "“4 in”", "0 to 50 mm", '"5 mm"'),
    in_tier("paste in cm for mm", "fondant = '4 cm'", "“4 cm”", "to 30 mm", '"5 mm"'),
    in_tier("no paste at all", "fondant = '0 mm'", "“0 mm”", "0.5 mm (1/32 in) to 30 mm", '"5 mm"'),
    in_tier(
        "paste on none", "cover = 'none'\nfondant = '4 mm'", "“4 mm”", "no fondant", "leave fondant"
    ),
    in_tier("trim of two lengths", "trim = '2 in 3'", "“2 in 3”", UNITS, '"15 mm"'),
    in_tier("strip of nothing", "strip = '0 cm'", "“0 cm”", "10 mm (13/32 in) to 6000", '"24 in"'),
    in_drips("spacing of nothing", "spacing = '0 mm'", "“0 mm”", "4 mm (3/16 in) to", '"30 mm"'),
    in_cake("wide margin", "margin_sides = '105 mm'", "“105 mm”", "0 to 40 mm", "margin_sides ="),
    in_cake("negative margin", "margin_ends = '-1 mm'", "“-1 mm”", "0 to 40 mm", "margin_ends ="),
    Bad(
        "number in quotes",
        f"unit = 'in'\n{TIER}coating = '5'\n",
        "line 5: tier 1, coating",
        "“5”, read as 5 in",
        "0 to 50 mm",
        "coating =",
    ),
    Bad(
        "paste as deep as the tier, in bare numbers",
        "unit = 'in'\n[[tier]]\nsize = 8\ndepth = 1\nfondant = 1\n",
        "line 5: tier 1, fondant",
        "“1” of fondant on a tier of depth “1”",
        "thinner than half the tier",
        "check the unit",
    ),
    Bad(
        "negative number in quotes",
        f"unit = 'in'\n{TIER}coating = '-3'\n",
        "line 5: tier 1, coating",
        "“-3”, read as -3 in",
        "0 to 50 mm",
        "coating =",
    ),
    Bad(
        "negative number",
        f"unit = 'cm'\n{TIER}trim = -2\n",
        "line 5: tier 1, trim",
        "“-2”, read as -2 cm",
        "0 to 150 mm",
        "trim =",
    ),
    Bad(
        "paste thicker than the tier",
        "[[tier]]\nsize = '8 in'\ndepth = '2 cm'\nfondant = '25 mm'\n",
        "line 4: tier 1, fondant",
        "“25 mm” of fondant on a tier of depth “2 cm”",
        "thinner than half the tier",
        "check the unit",
    ),
    Bad(
        "deeper than 1.5 m",
        TIER.replace("4 in", "60 in"),
        "line 3: tier 1, depth",
        "“60 in”",
        "to 1500 mm",
        'depth = "4 in"',
    ),
    Bad(
        "drum over 1.5 m",
        f"[drum]\nsize = '2000 mm'\n{TIER}",
        "line 2: drum.size",
        "“2000 mm”",
        WIDTHS,
        '"14 in"',
    ),
)
KINDS = (
    in_cake("length for a table", "drum = '14 in'", "“14 in”", TABLE, "[drum]"),
    in_tier("number for a table", "panels = 8", "8", TABLE, "[tier.panels]"),
    in_tier("yes for a table", "drips = true", "true", TABLE, "[tier.drips]"),
    in_tier("list for a table", "drips = [{}]", "a list", TABLE, "[tier.drips]"),
    in_cake("number for a title", "title = 3", "3", "a text in quotes", 'title = "'),
    in_cake("list for a note", "note = ['a']", "a list", "a text in quotes", 'note = "'),
    in_cake("list for a unit", "unit = ['in']", "a list", "“in”, “cm”, “mm”", "unit ="),
    in_cake("number for a paper", "paper = 4", "4", "a text in quotes", 'paper = "'),
    in_tier("word for yes", "dummy = 'yes'", "“yes”", YES_NO, "dummy = true"),
    in_tier("one for yes", "rolling_out_circle = 1", "1", YES_NO, "rolling_out_circle = true"),
    in_panels("text for a number", "count = '8'", "“8”", "a whole number", "count = 8"),
    in_panels("part of a panel", "count = 8.5", "8.5", "a whole number", "count = 8"),
    in_drips("yes for a number", "waves = true", "true", "a whole number", "waves = 5"),
    in_tier("number for a word", "cover = 1", "1", "“drape”, “panelled”, “none”", "cover ="),
    Bad(
        "table of one tier",
        "[tier]\nsize = '8 in'\n",
        "line 1: tier",
        "a table",
        "tables",
        "[[tier]]",
    ),
    Bad("number for tiers", "tier = 3\n", "line 1: tier", "3", "tables [[tier]]", "[[tier]]"),
    Bad("size for a tier", "tier = [8]\n", "line 1: tier 1", "8", TABLE, "[[tier]]"),
)
WORDS = (
    in_tier("cover", "cover = 'drapped'", "“drapped”", "“drape”, “panelled”", "mean “drape” (one"),
    in_tier("cover far off", "cover = 'zzz'", "“zzz”", "“drape”", 'cover = "panelled"'),
    in_tier(
        "cover of fondant", "cover = 'fondant'", "“fondant”", "“drape”", "“drape” (one sheet)?"
    ),
    in_tier(
        "cover of ganache",
        "cover = 'Ganache'",
        "“Ganache”",
        "“none”",
        "did you mean “none” (buttercream or ganache only)?",
    ),
    in_tier("first", "first = 'sides'", "“sides”", "“top”, “side”", "mean “side”?"),
    in_tier("shape", "shape = 'rond'", "“rond”", "round, oval, square", "mean “round”?"),
    in_drips("pattern", "pattern = 'wavy'", "“wavy”", "even, alternate, wave", "mean “wave”?"),
    in_drips("pattern of chance", "pattern = 'scatter'", "“scatter”", "random", "mean “random”?"),
    in_drips("pattern far off", "pattern = 'x'", "“x”", "random", 'pattern = "wave"'),
    in_drips(
        "guide",
        "guide = 'top-edge-guide'",
        "“top-edge-guide”",
        "“top edge”, “both”",
        "mean “top edge”",
    ),
    in_drips("front of drips", "front = 'gaps'", "“gaps”", "“drip”, “gap”", "mean “gap”?"),
    in_panels("front of panels", "front = 'joint'", "“joint”", "“panel”, “join”", "mean “join”?"),
    in_panels("joins", "joins = 'stagger'", "“stagger”", "“in line”", "mean “staggered”?"),
    in_panels("place", "place = 'bottom'", "“bottom”", "“base”, “rim”", "mean “base”"),
    in_panels("place far off", "place = 'zzz'", "“zzz”", "“base”, “rim”", 'place = "base"'),
    in_cake("unit", "unit = 'inch'", "“inch”", "“in”, “cm”, “mm”", "mean “in”?"),
    in_cake("paper", "paper = 'a5'", "“a5”", PAPERS, "paper ="),
    in_cake("paper without unit", "paper = '210 x 297'", "“210” has no unit", PAPERS, "paper ="),
    in_cake("paper of one side", "paper = '210 mm'", "“210 mm”", "210 mm x 297 mm", "paper ="),
)
OUTLINES = (
    in_tier(
        "outline that crosses itself",
        "shape = 'custom'\noutline = 'M0 0 L10 10 L10 0 L0 10 Z'",
        "crosses itself",
        "one simple closed curve",
        "does not cross itself",
    ),
    in_tier(
        "outline of too many lines",
        f"shape = 'custom'\noutline = 'M0 0 H101 v101 {'h-1v-1' * 100} Z'",
        "lines and curves, more than 200",
        "up to 200 lines and curves",
        "simplify it",
    ),
    Bad(
        "top-edge guide where the top has a neck",
        f"{TIER}shape = 'custom'\noutline = '{BELL}'\n[tier.drips]\nguide = 'top edge'\n",
        "line 7: tier 1, drips.guide",
        "cannot be grown by -",
        "wide enough everywhere for a ring",
        'guide = "collar"',
    ),
    Bad("too many tiers", 31 * TIER, "line 1: tier", "31 tiers", "up to 30", "leave some out"),
    Bad("far too many tiers", 51 * TIER, "line 1: tier", "51 tiers", "up to 30", "leave some out"),
)
NUMBERS = (
    in_panels("no panels", "count = 0", "0", COUNT + "1", "count = 8"),
    in_panels("too many panels", "count = 9999", "9999", COUNT + "1", "count = 8"),
    in_panels("no rows", "rows = 0", "0", COUNT + "1", "rows = 2"),
    in_drips("negative shuffle", "shuffle = -1", "-1", COUNT + "0", "shuffle = 7"),
    in_drips("no waves", "waves = 0", "0", COUNT + "1", "waves = 5"),
    in_cake("paper too small", "paper = '80 mm x 200 mm'", "80 by 200", "from 100 mm", "paper ="),
    in_cake("paper too long", "paper = '210 mm x 6000 mm'", "6000 mm", "to 5080 mm", "paper ="),
    in_cake("paper of negative width", "paper = '-210 x 297 mm'", "-210", "", "paper ="),
    in_cake(
        "margins leave no room",
        "margin_sides = '40 mm'\npaper = '120 mm x 200 mm'",
        "40 by 170 mm",
        " or more",
        "smaller margin_sides",
    ),
)
PANELS = (
    in_panels(
        "count, mould", "count = 5\nmould = '16 cm'", "count and mould", ONE_MEASURE, "all but"
    ),
    in_panels(
        "width, mould", "width = '5 cm'\nmould = '16 cm'", "width and mould", ONE_MEASURE, ""
    ),
    in_panels(
        "on a draped tier", "replace_wrap = true", "“drape”", "a panelled tier", '"panelled"'
    ),
    in_panels(
        "taller than the tier",
        "height = '5 in'",
        "“5 in” on a tier “4 in” deep",
        "101.6 mm",
        "lower",
    ),
    in_panels("rows too tall", "rows = 3\nheight = '4 cm'", "3 of “4 cm”", "33.8 mm", "fewer rows"),
    in_panels("mould beyond the girth", "mould = '900 mm'", "900 mm", "up to 694.9 mm", "shorter"),
    Bad(
        "in place of the wrap of a tier without fondant",
        f"{TIER}cover = 'none'\n[tier.panels]\nreplace_wrap = true\n",
        "line 6: tier 1, panels.replace_wrap",
        "“none”",
        "on a panelled tier only",
        'cover = "panelled"',
    ),
    in_panels(
        "count, width", "count = 5\nwidth = '5 cm'", "count and width", ONE_MEASURE, "all but"
    ),
)
DRIPS = (
    in_drips("too long", "longest = '5 in'", "“5 in” on a tier “4 in” deep", "101.6 mm", "shorten"),
    in_drips("all too long", "shortest = '5 in'", "“5 in” on a tier “4 in”", "101.6 mm", "shorten"),
    in_drips("too short", "shortest = '8 mm'", "8 mm long and 10 mm wide", "15 mm", "narrower"),
    in_drips("all too short", "longest = '8 mm'", "8 mm long and 10 mm wide", "15 mm", "narrower"),
    in_drips("swapped", "shortest = '5 cm'\nlongest = '3 cm'", "shorter than", "50 mm", "swap"),
    in_drips("touching", "spacing = '12 mm'", "apart and touch", "more than 15 mm", '"16 mm"'),
    Bad(
        "touching at the usual spacing",
        f"{TIER}[tier.drips]\nwidth = '22 mm'\nlongest = '8 cm'\n",
        "line 4: tier 1, drips.spacing",
        "22 mm wide, 33 mm at their roots, would stand 30.2 mm apart and touch",
        "more than 33 mm",
        'spacing = "34 mm"',
    ),
)
STACK = (
    Bad(
        "drum too small",
        f"[drum]\nsize = '8 in'\n{TIER}",
        "line 4: tier 1, size",
        "covered 221.2 mm (8 11/16 in) across, on the drum, 203.2 mm (8 in) across",
        INSIDE,
        "larger drum",
    ),
    Bad(
        "square on a round drum",
        f"[drum]\nsize = '10 in'\nshape = 'round'\n{TIER}shape = 'square'\ncorner = 0\n",
        "line 5: tier 1, size",
        # 203.2 * sqrt(2) and 2 * 9 of layers round its corners = 305.4
        "221.2 mm (8 11/16 in) across and 305.4 mm (12 in) from corner to corner, on the drum",
        INSIDE,
        "larger drum",
    ),
    Bad(
        "board beyond the drum",
        f"[drum]\nsize = '12 in'\n{TIER}board = '13 in'\n",
        "line 6: tier 1, board",
        "330.2 mm (13 in)",
        INSIDE,
        "smaller board",
    ),
    Bad(
        "board beyond the tier below",
        f"{TIER}{UPPER}board = '9 in'\n",
        "line 7: tier 2, board",
        "228.6 mm (9 in)",
        INSIDE,
        "smaller board",
    ),
    Bad(
        "upper tier larger",
        UPPER + TIER,
        "line 5: tier 2, size",
        "covered 221.2 mm",
        INSIDE,
        "bottom up",
    ),
)
TEXTS = (
    in_cake(
        "Devanagari", "title = 'केक'", "“क” (U+0915 DEVANAGARI LETTER KA)", "Latin, Greek", "“क”"
    ),
    in_cake("emoji", "note = 'a 🎂'", "(U+1F382 BIRTHDAY CAKE)", "Latin, Greek", "without “🎂”"),
    in_tier("Arabic", "name = 'كعكة'", "ARABIC LETTER KAF", "Latin, Greek", "no such character"),
    in_cake("control character", 'title = "a\\u0007b"', "U+0007", "letters", "title ="),
    in_cake("turning text round", 'title = "a\\u202Eb"', "RIGHT-TO-LEFT OVERRIDE", "letters", ""),
    in_cake("two lines", 'title = "a\\nb"', "U+000A", "one line", "title ="),
    in_cake("long title", f"title = '{'x' * 61}'", "61 characters", "1 to 60", "shorten it"),
    in_cake("long note", f"note = '{'x' * 401}'", "401 characters", "0 to 400", "shorten it"),
    in_tier("long name", f"name = '{'x' * 61}'", "61 characters", "1 to 60", "shorten it"),
    in_cake("blank title", "title = '  '", "0 characters", "1 to 60", "write a letter"),
    in_cake("empty title", "title = ''", "0 characters", "1 to 60", "write a letter"),
    in_tier("name taken", "name = 'drum'", "“drum”", "pack and whole cake are taken", OTHER_NAME),
    in_tier("name of all", "name = 'Whole cake'", "too like “whole cake”", "are taken", OTHER_NAME),
    *(
        Bad(
            f"name twice, {what}",
            f"{TIER}name = '{one}'\n{UPPER}name = '{other}'\n",
            "line 8: tier 2, name",
            found,
            "a name of its own for each tier, whatever its capitals, accents and signs",
            OTHER_NAME,
        )
        for what, one, other, found in (
            ("the same", "a", "a", "“a”, which is taken"),
            ("in capitals", "a", "A", "“A”, which is too like “a”"),
            ("without accents", "Zoë", "Zoe", "“Zoe”, which is too like “Zoë”"),
            ("with other signs", "a & b", "a + b", "“a + b”, which is too like “a & b”"),
        )
    ),
)
POSITIONS = (
    in_position("unknown in a position", "left = '5 mm'", "“left”", "place, right", "leave it out"),
    in_position("place unknown", "place = 'middle'", "“middle”", "“centre”, “back”", "“centre”?"),
    in_position("turn with a unit", "turn = '5 deg'", "“5 deg”", "a number", "turn = 45"),
    in_position("turn too far", "turn = 400", "400", "from -360 to 360", "turn = 45"),
    in_position("overhang below zero", "overhang = '-1 mm'", "“-1 mm”", "0 to 1000 mm", "overhang"),
)
DOWELS = (
    in_dowels("no dowel", "count = 0", "0", "a whole number from 1 to 60", "count = 5"),
    in_dowels("dowels at the edge", "inset = '1 mm'", "“1 mm”", "5 mm (7/32 in) to", "inset"),
    in_dowels("unknown in dowels", "number = 4", "“number”", "count, inset", "“count”?"),
    Bad(
        "dowels far in",
        f"{TIER}[tier.dowels]\ninset = '80 mm'\n{UPPER}",
        "line 5: tier 1, dowels.inset",
        "3 dowels 80 mm (3⅛ in) in from the edge",
        "up to 0",
        "a smaller inset",
    ),
    in_cake("through dowel in words", "through_dowel = 'yes'", "“yes”", YES_NO, "= true"),
)
QUANTITIES = (
    Bad(
        "kind of cake unknown",
        f"{TIER}[estimates]\ncake = 'spong'\n",
        "line 5: estimates.cake",
        "“spong”",
        "butter cake, chocolate cake, sponge",
        "did you mean “sponge”?",
    ),
    Bad(
        "density of a cake in kg",
        f"{TIER}[estimates]\ncake = 600\n",
        "line 5: estimates.cake",
        "600",
        "a number from 0.005 to 5",
        "cake = ",
    ),
    Bad(
        "packs of nothing",
        f"{TIER}[estimates]\npack = 0\n",
        "line 5: estimates.pack",
        "0",
        "from 10 to 100000",
        "pack = 500",
    ),
    Bad(
        "packs of cups",
        f"{TIER}[estimates]\npack = '3 cups'\n",
        "line 5: estimates.pack",
        "“3 cups”",
        "a weight such as 2 lb, 24 oz or 1 kg",
        "pack = 500",
    ),
    Bad(
        "paint on no drips",
        f"{TIER}[tier.paint]\ncoats = 2\non = 'drips'\n",
        "line 6: tier 1, paint.on",
        "a tier without drips",
        "that the tier has",
        "add [tier.drips]",
    ),
    Bad(
        "portions of a crumb",
        f"{TIER}[portions]\nwidth = '1 mm'\n",
        "line 5: portions.width",
        "“1 mm”",
        "10 mm (13/32 in) to 300 mm",
        'width = "1 in"',
    ),
    in_tier("ribbon without a width", "ribbon = true", "true", UNITS, 'ribbon = "15 mm"'),
)
TIMES = (
    in_work("day without an hour", "ready = 2027-06-19", "2027-06-19 without", "an hour", "hour"),
    in_work("day of no calendar", "ready = '31 June'", "“31 June”", "such as 2027", "ready ="),
    in_work("day in a time zone", "ready = 2027-06-19T14:00:00Z", "+00:00", "clock", "leave out"),
    in_work("day long past", "ready = 1027-06-19T14:00:00", "the year 1027", "2000 to", "ready ="),
    in_work("short day", "day_starts = 9\nday_ends = 10", "from 9 to 10", "3 hours", "8 and 20"),
    in_cake("price below nothing", "prices.fondant = -1.0", "-1", "0 to 100000", "9.5"),
    in_cake("price in words", "prices.hour = 'much'", "“much”", "a number", "18"),
    in_cake("price of no thing", "prices.sugar = 2.0", "the unknown key", "fondant", ""),
    in_cake("no currency", "prices.currency = ''", "0 characters", "1 to 5", ""),
    in_cake("drum of no thickness", "drum.thickness = '-1 mm'", "“-1 mm”", "0 to 60 mm", ""),
    in_tier("board too thick", "board_thickness = '3 in'", "“3 in”", "0 to 60 mm", ""),
    in_tier("layers of none", "inside.layers = 0", "0", "1 to 40", "3"),
    in_tier("layers in parts", "inside.layers = 2.5", "2.5", "whole number", "3"),
    in_tier("filling unknown", "inside.filling = 'custard'", "“custard”", "buttercream", ""),
    in_tier("cake unknown", "inside.cake = 'spong'", "“spong”", "sponge", "“sponge”"),
    in_tier("thick filling", "inside.filling_thickness = '90 mm'", "“90 mm”", "40 mm", ""),
    in_tier("filling as an amount", "inside.filling = 3", "3", "", ""),
    in_tier("thin top", "fondant_top = '0.1 mm'", "“0.1 mm”", "0.5 mm", ""),
    in_tier("thin lining", "fondant_lining = '0 mm'", "“0 mm”", "0.5 mm", ""),
    in_tier(
        "top without fondant", "cover = 'none'\nfondant_top = '3 mm'", "without", "no", "cover"
    ),
    in_work("spare days below none", "spare_days = -1", "-1", "0 to 14", "spare_days = 2"),
    in_work("two weeks to spare", "spare_days = 15", "15", "0 to 14", "spare_days = 2"),
    in_work("days in words", "spare_days = 'two'", "“two”", "whole number", "spare_days = 2"),
    in_work("road as a length", "travel = '45 mm'", "“45 mm”", "whole number", "travel = 45"),
    in_work("more than a day on the road", "travel = 2000", "2000", "0 to 1440", "travel = 45"),
    in_work("setup in parts of a minute", "setup = 0.5", "0.5", "whole number", "setup = 60"),
    in_work("setup of a day", "setup = 1000", "1000", "0 to 600", "setup = 60"),
    in_work("rounded to tens", "round_to = 10", "10", "5 or 15", "round_to = 5"),
    in_work("round_to misspelt", "roundto = 5", "roundto", "", "round_to"),
    in_work("day as a number", "ready = 19", "19", "a day and an hour", "ready ="),
)
BUILT = (
    in_tier("raised on the drum", "raised = '3 in'", "bottom tier", "stands on another", "drum"),
    in_tier("raised by words", "raised = 'high'", "“high”", UNITS, 'raised = "3 in"'),
    in_tier("raised by nothing", "raised = '0 mm'", "“0 mm”", "10 mm", 'raised = "3 in"'),
    in_tier("columns", "separator.kind = 'columns'", "“columns”", "pillars", "spacer"),
    in_tier("thin pillar", "separator.pillar = '1 mm'", "“1 mm”", "5 mm", 'pillar = "1 in"'),
    in_tier(
        "boards in words", "inside.inner_boards = 'one'", "“one”", "whole number", "inner_boards"
    ),
    in_tier("boards too near", "inside.inner_boards = 5", "5 boards", "25 mm", "fewer"),
    in_work("meal of ten minutes", "meal = 10", "10", "0 or 15", "meal = 45"),
    in_work("meal at a clock time", "meal_at = '13:00'", "“13:00”", "whole number", "meal_at"),
    in_cake("pace of nothing", "estimates.pace = 0", "0", "20 to 500", "150"),
    in_cake("wait of a month", "estimates.waits.drips = 700", "700", "0 to 336", "12"),
    in_cake("minutes of a day", "estimates.minutes.cover = 1440", "1440", "0 to 600", "60"),
    in_cake("minutes below none", "estimates.minutes.each_drip = -1.0", "-1", "0 to 600", "0.5"),
    in_cake("minutes for no work", "estimates.minutes.tea = 5.0", "unknown key", "cover", ""),
    in_cake("minutes in words", "estimates.minutes.coat = 'long'", "“long”", "a number", "60"),
    in_cake("keeps no time", "estimates.keeps.jam = 0", "0", "0.5 to 365", "3"),
    in_cake("keeps for ever", "estimates.keeps.dummy = 1e9", "1000000000", "0.5 to 365", "60"),
    in_cake("keeps in words", "estimates.keeps.sponge = '3 days'", "“3 days”", "a number", "2"),
    in_cake("no thing that keeps", "estimates.keeps.tea = 1.0", "unknown key", "sponge", ""),
    in_cake("waste of more than all", "estimates.waste = 101", "101", "0 to 100", "12"),
    in_cake("weightless board", "estimates.board = 0", "0", "0.005 to 5", "0.6"),
    in_cake("tin of a shelf", "estimates.tin = '2 ft'", "“2 ft”", "in, cm", "2 in"),
    in_cake("drip of no unit", "estimates.drip = '4'", "“4”", "in, cm", ""),
    in_cake("tins in parts", "estimates.tins_at_once = 1.5", "1.5", "whole number", "= 1"),
    in_cake("gum by the pinch", "estimates.gum = 5", "5", "20 to 5000", "200"),
    in_cake("batter that sinks", "estimates.rise = 0.5", "0.5", "1 to 4", "1.8"),
    in_cake("more than whole portions", "estimates.portions_used = 120", "120", "20 to 100", "90"),
    in_cake("dowel below the drum", "estimates.into_drum = 150", "150", "0 to 100", "50"),
    in_cake("nobody lifts", "estimates.one_lifts = 0", "0", "1 to 100", "12"),
    in_cake("paint without dust", "estimates.dust_share = 0", "0", "1 to 100", "40"),
    in_work("short stretch", "stretch = 10", "10", "30 to 150", "stretch = 90"),
    in_work("alarm of a week", "alarm = 9999", "9999", "0 to 1440", "alarm = 30"),
    in_work("together for a month", "together = 30", "30", "0 to 14", "together = 1"),
    in_cake("wait for no thing", "estimates.waits.tea = 1.0", "unknown key", "cooling", ""),
)
BAD_CAKES = (
    *SYNTAX,
    *KEYS,
    *LENGTHS,
    *KINDS,
    *WORDS,
    *OUTLINES,
    *NUMBERS,
    *PANELS,
    *DRIPS,
    *STACK,
    *TEXTS,
    *POSITIONS,
    *DOWELS,
    *QUANTITIES,
    *TIMES,
    *BUILT,
)
"""Every broken cake file of one problem."""
