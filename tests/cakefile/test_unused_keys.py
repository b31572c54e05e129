"""Keys that change nothing: told where they were written, and no key that does change something."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.reading import parse_cake, read_cake
from templates_gen.cakefile.source import CakeText
from templates_gen.cakefile.unused_keys import USES, unused_keys
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.piece import Piece
from templates_gen.errors import CakeError, Key, Problem
from templates_gen.plan import make_plan
from tests.cakes import SAMPLES, cake, one_tier, pieces_of
from tests.strategies import any_cakes

PANELLED = "cover = 'panelled'\n"
NONE = "cover = 'none'\n"
COVERING = "[tier.panels]\nreplace_wrap = true\n"
PANELS = "[tier.panels]\nheight = '4 cm'\n"
DRIPS = "[tier.drips]\n"
SQUARE = "shape = 'square'\n"
UNUSED = (
    ("comb = {}", "comb has no effect on a draped tier: only buttercream and ganache are combed"),
    (NONE + "comb.line = 'M0 0 L 9 9'", "line has no effect on a comb without profile"),
    (
        NONE + "[tier.comb]\nprofile = 'contour'\nline = 'M0 0 L 9 9'\npitch = '8 mm'",
        "pitch has no effect on a contour",
    ),
    (
        "board_thickness = '0 mm'\nboard_template = true",
        "board_template has no effect on a tier without a board",
    ),
    ("separator.kind = 'spacer'", "separator has no effect on a tier that is not raised"),
    ("carving = {}", "carving has no effect on an upright round tier: it is baked in a tin"),
    ("top_size = '6 in'\ndummy = true\ncarving = {}", "carving has no effect on a dummy"),
    ("strip = '24 in'", "strip has no effect on a draped tier: only a panelled side has a wrap."),
    (NONE + "strip = '24 in'", "strip has no effect on a tier without paste"),
    (PANELLED + "strip = '24 in'\n" + COVERING, "on a tier whose panels are the wrap"),
    ("first = 'side'", "first has no effect on a draped tier: it has no top disc."),
    (NONE + "first = 'top'", "first has no effect on a tier without paste"),
    (NONE + "trim = '1 cm'", "trim has no effect on a tier without paste"),
    (PANELLED + "trim = '1 cm'\n" + COVERING, "trim has no effect on a tier whose panels are"),
    (PANELLED + "rolling_out_circle = true", "rolling_out_circle has no effect on a panelled tier"),
    ("corner = '1 cm'", "corner has no effect on the shape “round”."),
    ("short = '6 in'", "short has no effect on the shape “round”."),
    ("sides = 6", "sides has no effect on the shape “round”."),
    ("shape = 'square'\nlobes = 6", "lobes has no effect on the shape “square”."),
    ("outline = 'M0 0 H9 V9 Z'", "outline has no effect on the shape “round”."),
    (SQUARE + "[tier.panels]\nper_face = 3\nfront = 'join'", "front has no effect on panels face"),
    ("[tier.panels]\ncount = 3\ncorners = 'join'", "corners has no effect without per_face"),
    (SQUARE + DRIPS + "corners = true\nfront = 'gap'", "front has no effect with corners = true"),
    (PANELLED + COVERING + "thickness = '2 mm'", "they are as thick as the paste"),
    (PANELLED + COVERING + "colour = 'gold'", "they are of the colour of the tier"),
    (PANELLED + COVERING + "material = 'fondant'", "they are of the paste of the tier"),
    ("fondant_top = '3 mm'", "on a draped tier: only a disc and a wrap have thicknesses"),
    (PANELLED + "shape = 'ball'\nfondant_side = '3 mm'", "only a disc and a wrap have"),
    ("fondant_lining = '3 mm'", "fondant_lining has no effect on a tier without a hole"),
    ("dummy = true\n[tier.inside]\nlayers = 3", "inside has no effect on a dummy"),
    (PANELS + "joins = 'staggered'", "joins has no effect on one row"),
    ("shape = 'polygon'\nsides = 6\n[tier.panels]\nfront = 'join'", "on panels face by face"),
    ("[tier.panels]\ncount = 8\nplace = 'rim'", "place has no effect on panels without a height"),
    (DRIPS + "waves = 3", "waves has no effect with the pattern “random”: it is for “wave”."),
    (
        "dummy = true\n[tier.opening]\nradius = '20 mm'\ncut = 'before'",
        "cut has no effect on a draped tier: only a wrap can be cut before it goes on",
    ),
    (DRIPS + "pattern = 'wave'\nshuffle = 3", "shuffle has no effect with the pattern “wave”"),
    (DRIPS + "pattern = 'even'\nshortest = '2 cm'", "for “alternate”, “wave”, “random”, “front”"),
    (DRIPS + "lengths = ['2 cm']", "with the pattern “random”: it is for “listed”."),
    (DRIPS + "line = 'M0 0H1'", "with the pattern “random”: it is for “drawn”."),
    (DRIPS + "pattern = 'listed'\nlengths = ['2 cm']\nlongest = '4 cm'", "“front” and “drawn”."),
)
BUSY = (
    SQUARE + "corner = '1 cm'\n[tier.panels]\nper_face = 3\ncorners = 'join'",
    "shape = 'oval'\nshort = '6 in'",
    "shape = 'polygon'\nsides = 6\ncorner = '1 cm'",
    "shape = 'petal'\nlobes = 6",
    "shape = 'custom'\noutline = 'M0 0 H9 V9 Z'",
    "trim = '1 cm'\nrolling_out_circle = true",
    PANELLED + "trim = '1 cm'\nfirst = 'side'\nstrip = '24 in'\nrolling_out_circle = false",
    PANELLED + "first = 'side'\n" + COVERING,
    PANELLED + "fondant_top = '3 mm'\nfondant_side = '6 mm'",
    "dummy = true\nfondant_lining = '3 mm'\n[tier.opening]\nradius = '20 mm'",
    "dummy = true\n" + PANELLED + "[tier.opening]\nradius = '20 mm'\ncut = 'before'",
    PANELS + "material = 'fondant'",
    "colour = 'red'",
    NONE + "colour = 'red'\n" + PANELS,
    PANELS + "colour = 'gold'",
    PANELS + "thickness = '3 mm'\nplace = 'rim'\njoins = 'in line'",
    PANELS + "rows = 2\njoins = 'staggered'",
    DRIPS + "shuffle = 2\nshortest = '2 cm'",
    DRIPS + "pattern = 'wave'\nwaves = 3\nshortest = '2 cm'",
    DRIPS + "pattern = 'even'\nlongest = '4 cm'",
    DRIPS + "pattern = 'listed'\nlengths = ['2 cm']",
    DRIPS + "pattern = 'drawn'\nline = 'M0 0H1'\nshortest = '2 cm'",
)


UNUSED_ABOVE = (
    ("separator.spacer = '15 cm'", "spacer has no effect on pillars: write kind = “spacer”"),
    ("separator = { kind = 'spacer', pillar = '2 cm' }", "pillar has no effect on a spacer"),
)


def above(lines: str) -> Cake:
    """Return a cake whose upper tier is raised and has these lines."""
    tiers = [f"[[tier]]\nsize = '{size} in'\ndepth = '4 in'\n" for size in (10, 8)]
    return cake(f"{''.join(tiers)}raised = '5 cm'\n{lines}")


@pytest.mark.parametrize(("lines", "says"), UNUSED_ABOVE)
def test_unused_of_a_raised_tier(lines: str, says: str) -> None:
    """What does not hold a tier up has no effect."""
    (warning,) = unused_keys(above(lines))
    assert warning.key[:3] == ("tier", 1, "separator")
    assert says in warning.text


@pytest.mark.parametrize(("lines", "says"), UNUSED)
def test_unused(lines: str, says: str) -> None:
    """A key without effect is told at its place, with its tier and the reason."""
    (warning,) = unused_keys(one_tier(f"name = 'second'\n{lines}"))
    key = warning.text.split()[1]
    assert warning.text.startswith(f"second: {key} has no effect ")
    assert warning.key[:2] == ("tier", 0)
    assert warning.key[-1] == key
    assert says in warning.text


def test_every_use_is_shown() -> None:
    """The examples show every key of the table."""
    shown = {unused_keys(one_tier(lines))[0].key[2:] for lines, _ in UNUSED}
    shown |= {unused_keys(above(lines))[0].key[2:] for lines, _ in UNUSED_ABOVE}
    assert shown == {use.key for use in USES}


def test_the_slot_of_a_stencil_is_for_designs() -> None:
    """Letters are cut out whole; of a design the slot is how wide its lines are."""
    letters = "[[tier.lettering]]\ntext = 'Jo'\nstencil = {}\n"
    design = "[[tier.design]]\nkind = 'swags'\nstencil.slot = '3 mm'\n"
    assert not unused_keys(one_tier(letters + design))
    (warning,) = unused_keys(one_tier(letters.replace("{}", "{slot = '3 mm'}")))
    assert warning.key == ("tier", 0, "lettering", 0, "stencil", "slot")
    assert "slot has no effect on lettering" in warning.text


def test_a_bare_drum_has_no_colour() -> None:
    """What is not covered has no paste of any colour."""
    text = "drum.colour = 'ivory'\n[[tier]]\nsize='8 in'\ndepth='4 in'\n"
    assert [each.key for each in unused_keys(cake(text))] == [("drum", "colour")]
    assert not unused_keys(cake(f"drum.fondant = '3 mm'\n{text}"))


def test_dowels_of_the_top_tier_are_told() -> None:
    """They bear nothing and are not cut; below another tier they are."""
    text = "[[tier]]\nsize='8 in'\ndepth='4 in'\ndowels={count=4}\n"
    (warning,) = unused_keys(cake(text))
    assert warning.key == ("tier", 0, "dowels")
    assert "carries no other" in warning.text
    assert unused_keys(cake(f"{text}[[tier]]\nsize='4 in'\ndepth='4 in'\n")) == ()


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        (
            "[[tier.lettering]]\ntext = 'a'\ncurve_height = '1 cm'",
            "a: curve_height has no effect on the line “level”.",
        ),
        (
            "[[tier.lettering]]\ntext = 'a'\non = 'top'\npaper = 'strip'",
            "a: paper has no effect on the top.",
        ),
        (
            "[[tier.scatter]]\nfile = 'a.svg'",
            "a: file has no effect on the shape “blossom”: it is for “artwork”.",
        ),
        *(
            (
                f"[[{table}]]\nmaterial = 'wafer paper'\nthickness = '1 mm'",
                f"{whose}thickness has no effect on wafer paper: it is not rolled.",
            )
            for table, whose in (("tier.scatter", "a: "), ("cascade", ""), ("flower", ""))
        ),
        ("[[topper]]\npoints = 6", "points has no effect on the shape “heart”: it is for “star”."),
        ("[[topper]]\ntext = '40'", "text has no effect on the shape “heart”: it is for “text”."),
    ],
)
def test_unused_in_tables(lines: str, says: str, tmp_path: Path) -> None:
    """Keys of a table that matter to others only are told."""
    (tmp_path / "a.svg").write_text("<svg/>")
    text = f"[[tier]]\nname = 'a'\nsize = '8 in'\ndepth = '4 in'\n{lines}\n"
    spec = parse_cake(CakeText("test.toml", text, tmp_path))
    assert [warning.text for warning in unused_keys(spec)] == [says]


@pytest.mark.parametrize("kind", DESIGNS)
def test_keys_that_are_for_other_designs(kind: str) -> None:
    """A key that a design does not heed is told; of those it heeds none is."""
    lines = {
        "drop": "'20 mm'",
        "height": "'30 mm'",
        "breadth": "'5 mm'",
        "rows": "2",
        "width": "'30 mm'",
    }
    for key, value in lines.items():
        spec = one_tier(f"name = 'a'\n[[tier.design]]\nkind = '{kind}'\n{key} = {value}")
        told = [warning.text for warning in unused_keys(spec)]
        heeded = key in DESIGNS[kind].keys
        assert bool(told) != heeded
        for text in told:
            start, _, others = text.partition("; it is for ")
            assert start == f"a: {key} has no effect on the design “{kind}”: leave it out"
            named = set(re.findall(r"“(\w+)”", others))
            assert named == {name for name, design in DESIGNS.items() if key in design.keys}


@pytest.mark.parametrize("lines", ["", *BUSY])
def test_busy(lines: str) -> None:
    """A key that has an effect gives no warning, nor is one that was left out."""
    assert unused_keys(one_tier(lines)) == ()


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: str(path.stem))
def test_samples(path: Path) -> None:
    """The samples write nothing that has no effect."""
    assert unused_keys(read_cake(path)) == ()


def without(value: Any, key: Key) -> Any:  # noqa: ANN401 (a table of a cake, or several)
    """Return a cake, or a part of one, as it is with one key left out."""
    name, *rest = key
    if isinstance(name, int):
        return (*value[:name], without(value[name], tuple(rest)), *value[name + 1 :])
    field = type(value).model_fields[name]
    left = (
        without(getattr(value, name), tuple(rest))
        if rest
        else field.get_default(call_default_factory=True)
    )
    return value.model_copy(update={name: left})


@settings(max_examples=25)
@given(any_cakes())
def test_unused_keys_change_nothing(spec: Cake) -> None:
    """A cake without its unused keys has the same pieces, line for line and word for word."""
    plain = spec
    for warning in unused_keys(spec):
        plain = without(plain, warning.key)
    assert outcome(plain) == outcome(spec)


def outcome(spec: Cake) -> tuple[Piece | Problem, ...]:
    """Return the pieces of a cake, or what is wrong with it."""
    try:
        return pieces_of(spec)
    except CakeError as error:
        return error.problems


def test_told_first() -> None:
    """Of all warnings of a cake, keys without effect come first, tier by tier."""
    lines = "size = '8 in'\ndepth = '4 in'\nstrip = '24 in'\n"
    spec = cake(f"[[tier]]\n{lines}{PANELLED}[[tier]]\n{lines.replace('8', '6')}")
    found = make_plan(spec).warnings()
    assert [warning.key for warning in found] == [("tier", 1, "strip"), ("tier", 0, "strip")]
