"""Broken cake files of what is carved, cut in strips, piped and sawn."""

from __future__ import annotations

from tests.cli.bad_cakes import UNITS, Bad, in_cake, in_tier
from tests.cli.command import TIER


def _ruffles(name: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Give a tier ruffles; the last line is wrong."""
    return _design(name, "ruffles", lines, found, allowed, do)


def _design(name: str, kind: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Give a tier a design; the last line is wrong."""
    above = f"{TIER}[[tier.design]]\nkind = '{kind}'\n"
    line = above.count("\n") + 1
    key = lines.split(" ")[0]
    place = f"line {line}: tier 1, design 1, {key}"
    return Bad(name, f"{above}{lines}\n", place, found, allowed, do)


CARVING = (
    in_tier("carving without a table", "carving = true", "true", "a table", "[tier.carving]"),
    in_tier("tins of no shape", "carving.tins = 'oval'", "“oval”", "round", "tins"),
    in_tier("too much to spare", "carving.spare = '60 mm'", "“60 mm”", "0 to 50 mm", "spare"),
    in_tier("spare cake in no unit", "carving.spare = 5", "5", UNITS, "unit"),
    in_tier("tin misspelt", "carving.tin = 'round'", "tin", "tins", "tins"),
)
STRIPS = (
    _ruffles("less than its length", "fullness = 0.5", "0.5", "1 to 6", "fullness"),
    _ruffles("fullness as a length", "fullness = '2 in'", "“2 in”", "a number", "fullness"),
    _ruffles("strip of a crumb", "strip = '10 mm'", "“10 mm”", "40 mm", "strip"),
    _ruffles("frills as thick as a board", "thickness = '1 in'", "“1 in”", "10 mm", "1 mm"),
    _ruffles("form of pleats on ruffles", "form = 'box'", "“box”", "even, falling", "one"),
)
TRANSFERS = (
    _design("copies of none", "swags", "transfer.copies = 0", "0", "1 to 400", "12"),
    _design("sheet turned round", "swags", "transfer.sheet = 'back'", "“back”", "mirrored", "both"),
    _design("copies a league apart", "swags", "transfer.apart = '1 m'", "“1 m”", UNITS, "15 mm"),
    _design("transfer switched on", "swags", "transfer = true", "true", "a table", "transfer"),
    _design("piping sheet of level lines", "bands", "transfer = {}", "bands", "repeats", "leave"),
)
BOARDS = (
    in_cake("drum of no shape", "drum.shape = 'star'", "“star”", "scalloped", "square"),
    in_cake("template of a size", "drum.template = '12 in'", "12 in", "true", "template"),
    in_cake("drum covered in part", "drum.covering = 'half'", "“half”", "ring", "covering"),
    in_tier("board as a template", "board_template = 'yes'", "yes", "true", "true"),
    Bad(
        "ring with no room",
        f"drum = {{ size = '8.9 in', covering = 'ring', fondant = '3 mm' }}\n{TIER}",
        "line 1: drum.covering",
        "a ring",
        "5 mm",
        "larger drum",
    ),
)
EDGES = (
    _design("edges past each other", "fault", "drop = '60 mm'", "60 mm", "up to", "fit"),
    _design("edge of no form", "fault", "form = 'box'", "“box”", "torn, stepped", "one of"),
    _design("torn at every crumb", "fault", "breadth = '0.5 mm'", "“0.5 mm”", "1 mm", "breadth"),
    _design("shuffled by name", "fault", "shuffle = 'ruby'", "“ruby”", "whole number", "shuffle"),
    _design("band below the tier", "fault", "bottom = '9 in'", "“9 in”", "up to", "move"),
    _design("geode shuffled below nought", "geode", "shuffle = -1", "-1", "0 to 999999", "shuffle"),
    _design("geode wider than its place", "geode", "breadth = '90 cm'", "90", "up to", "fit"),
    _design("geode of a crumb", "geode", "breadth = '2 mm'", "2 mm", "10 mm", "larger"),
    _design("geode that is none", "geode", "count = 0", "0", "1 to 400", "count"),
    _design("half a shuffle", "geode", "shuffle = 1.5", "1.5", "a whole number", "shuffle"),
    _design("geode below the tier", "geode", "bottom = '9 in'", "“9 in”", "up to", "move"),
)
PRACTICE = (
    _design("row joined by a number", "swags", "transfer.joined = 1", "1", "true", "joined"),
    _design("row misspelt", "swags", "transfer.join = true", "“join”", "joined", "“joined”"),
    _design(
        "row of none", "swags", "transfer.copies = 0\ntransfer.joined = true", "0", "1 to", "12"
    ),
    _design(
        "row far apart",
        "swags",
        "transfer.apart = '1 m'\ntransfer.joined = true",
        "“1 m”",
        UNITS,
        "15 mm",
    ),
    _design("row of no unit", "swags", "transfer.apart = 4", "“4”", UNITS, "unit"),
    Bad(
        "row on a side that leans",
        f"{TIER}top_size = '6 in'\n[[tier.design]]\nkind = 'swags'\ntransfer.joined = true\n",
        "line 7: tier 1, design 1, transfer.joined",
        "leans",
        "an upright side",
        "leave joined out",
    ),
)
_HOLE = "dummy = true\nopening.radius = '20 mm'\n"
OPENINGS = (
    in_tier(
        "hole too large", "dummy = true\nopening.radius = '6 cm'", "“6 cm”", "30.8 mm", "20 mm"
    ),
    *(
        Bad(
            f"hole {what}",
            f"{TIER}dummy = true\n[tier.opening]\nradius = '20 mm'\n{lines}\n",
            f"line 7: tier 1, opening.{lines.partition(' ')[0]}",
            found,
            allowed,
            "a smaller radius",
        )
        for what, lines, found, allowed in (
            ("too far sideways", "sideways = '70 mm'", "“70 mm” sideways", "61.6 mm"),
            ("too far to the left", "sideways = '70 mm'\nto = 'left'", "“70 mm”", "61.6 mm"),
            ("too high", "height = '80 mm'", "“80 mm” above the base", "from 40 mm"),
        )
    ),
    in_tier("hole to the sky", f"{_HOLE}opening.to = 'up'", "“up”", "“left”, “right”", "right"),
    in_tier(
        "hole switched on", "dummy = true\nopening = true", "true", "a table", "[tier.opening]"
    ),
    in_tier("hole in no unit", "dummy = true\nopening.radius = 20", "“20”", UNITS, "unit"),
    in_tier("hole at the board", f"{_HOLE}opening.height = '2 mm'", "“2 mm”", "10 mm", "height"),
    in_tier("hole misspelt", f"{_HOLE}opening.trun = 9", "“trun”", "turn", "“turn”"),
)
_PETAL = "shape = 'petal'\n"
PETALS = (
    in_tier("two petals", f"{_PETAL}lobes = 2", "2", "5 to 12", "lobes = 6"),
    in_tier("petals by the dozen", f"{_PETAL}lobes = 40", "40", "5 to 12", "lobes = 6"),
    in_tier("half a petal", f"{_PETAL}lobes = 5.5", "5.5", "a whole number", "lobes = 6"),
    in_tier("petals in words", f"{_PETAL}lobes = 'six'", "“six”", "a whole number", "lobes = 6"),
    in_tier("petal misspelt", f"{_PETAL}lobe = 6", "“lobe”", "lobes", "“lobes”"),
    Bad(
        "tier over the edge of petals",
        f"{TIER}{_PETAL}lobes = 6\n{TIER}position.back = '60 mm'\n",
        "line 9: tier 2, position",
        "reaches",
        "inside",
        "overhang =",
    ),
)
RUN_OUTS = (
    in_tier("collar without a table", "run_out = true", "true", "a table", "[tier.run_out]"),
    in_tier("collar of three", "run_out.sections = 3", "3", "1 or 2 or 4", "sections"),
    in_tier("collar as wide as a drum", "run_out.width = '9 cm'", "“9 cm”", "80 mm", "width"),
    in_tier("collar as thin as lace", "run_out.thickness = '0.4 mm'", "“0.4 mm”", "1 mm", "3 mm"),
    in_tier("collar that rests on nothing", "run_out.overlap = '1 mm'", "“1 mm”", "3 mm", "10 mm"),
    Bad(
        "collar under the tier above",
        f"{TIER}run_out.overlap = '40 mm'\n{TIER.replace('8 in', '6 in')}",
        "line 4: tier 1, run_out.overlap",
        "the tier above",
        "up to",
        "less",
    ),
    _design("joined by hand", "swags", "transfer.joined = 'yes'", "yes", "true", "joined"),
)
_FLOWER = f"{TIER}[[flower]]\n"


def _flower(name: str, line: str, found: str, allowed: str, do: str) -> Bad:
    """Give a cake a wrong flower."""
    place = f"line {_FLOWER.count(chr(10)) + 1}: flower 1, {line.split(' ')[0]}"
    return Bad(f"flower: {name}", f"{_FLOWER}{line}\n", place, found, allowed, do)


FLOWER = (
    _flower("kind unknown", "kind = 'dasy'", "“dasy”", "anemone, poppy, daisy", "“daisy”"),
    _flower("wide as a drum", "width = '30 cm'", "“30 cm”", "200 mm", "width"),
    _flower("sepals that tear", "width = '20 mm'", "“20 mm”", "3 mm", "width = "),
    _flower("half a flower", "count = 0.5", "0.5", "whole number", "count"),
    _flower("wires by gauge", "wired = 28", "28", "true", "wired"),
    _flower("leaves by the dozen", "leaves = 24", "24", "0 to 20", "leaves"),
)
_SOFT = "cover = 'none'\n"
COMBS = (
    in_tier("edge unknown", f"{_SOFT}comb.profile = 'saw'", "“saw”", "scallops", "waves"),
    in_tier("teeth too fine", f"{_SOFT}comb.pitch = '1 mm'", "“1 mm”", "2 mm", "pitch"),
    in_tier("grooves to the cake", f"{_SOFT}comb.groove = '5 mm'", "“5 mm”", "4 mm", "6 mm"),
    in_tier("contour of nothing", f"{_SOFT}comb.profile = 'contour'", "no line", "SVG", "add"),
    in_tier(
        "contour that turns back",
        f"{_SOFT}comb.profile = 'contour'\ncomb.line = 'M0 0 L 9 9 L 5 20'",
        "turning back",
        "from left to right",
        "line =",
    ),
)


def _cascade(name: str, lines: str, found: str, allowed: str, do: str) -> Bad:
    """Give a cake a cascade; the last line is wrong."""
    text = f"{TIER}[[cascade]]\n{lines}\n"
    key = lines.splitlines()[-1].split(" ")[0]
    place = f"line {text.count(chr(10))}: cascade 1, {key}"
    return Bad(name, text, place, found, allowed, do)


CASCADES = (
    _cascade("cascade from no tier", "start = 'attic'", "“attic”", "“tier 1”", "start ="),
    _cascade(
        "cascade of the smallest first", "sizes = ['9 mm', '2 cm']", "“9 mm”", "largest", "2 cm"
    ),
    _cascade("cascade too narrow for its flowers", "width = '1 cm'", "“1 cm”", "40 mm", "wider"),
    _cascade("cascade round and round", "end_turn = 2000", "2000", "1080", "end_turn ="),
    _cascade("cascade off the drum", "on_drum = '9 in'", "“9 in”", "up to", "less far"),
    Bad(
        "cascade over letters alone",
        "[[letter_cake]]\ntext = '0'\n[[cascade]]\n",
        "line 3: cascade",
        "without tiers",
        "over the tiers",
        "[[tier]]",
    ),
    Bad(
        "cascade of artwork without a file",
        f"{TIER}[[cascade]]\nshape = 'artwork'\n",
        "line 4: cascade 1, file",
        "no file",
        "SVG",
        "file =",
    ),
)


def _letters(name: str, lines: str, key: str, found: str, allowed: str, do: str) -> Bad:
    """Give a cake a letter cake; the last line is wrong."""
    text = f"{TIER}[[letter_cake]]\n{lines}\n"
    place = f"line {text.count(chr(10))}: letter_cake 1, {key}"
    return Bad(name, text, place, found, allowed, do)


_THIN = "text = 'W'\ncap_height = '9 cm'"
_FULL = "text = '1'\ndepth = '3 in'\nlayers = 4\nfilling = '25 mm'"
_LONG = "text = 'Once upon a time'"
LETTERS = (
    Bad(
        "letter cake of nothing",
        f"{TIER}[[letter_cake]]\n",
        "line 4: letter_cake 1, text",
        "neither",
        "figures",
        "text =",
    ),
    Bad(
        "tier named as a letter cake",
        f"{TIER}name = 'Letter Cake 2'\n[[letter_cake]]\ntext = '4'\n[[letter_cake]]\ntext = '0'\n",
        "line 4: tier 1, name",
        "“Letter Cake 2”",
        "no letter cake",
        "another name",
    ),
    _letters("letter cake of a novel", _LONG, "text", "16", "1 to 12", "short"),
    _letters(
        "letter cake of crumbs", "cap_height = '1 cm'", "cap_height", "“1 cm”", "80 mm", "10 in"
    ),
    _letters("letter cake too thin", _THIN, "cap_height", "narrowest", "lifted", "or more"),
    _letters("letter cake all filling", _FULL, "filling", "4 layers", "room", "less"),
    _letters("letter cake of no glyph", "text = '東'", "text", "not have", "typeface", "typeface"),
)
BAD_CRAFTS: tuple[Bad, ...] = (
    *CARVING,
    *STRIPS,
    *TRANSFERS,
    *BOARDS,
    *COMBS,
    *CASCADES,
    *FLOWER,
    *EDGES,
    *PRACTICE,
    *OPENINGS,
    *PETALS,
    *LETTERS,
    *RUN_OUTS,
)
"""Every broken cake file of one problem."""
