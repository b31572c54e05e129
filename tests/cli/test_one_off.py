"""One template without a cake file: the same piece as that of a cake file, on paper or as SVG."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import click
import pikepdf
import pytest
from lxml import etree

from templates_gen.cli.one_off import COMMANDS, ONE_OFFS
from templates_gen.cli.params import LengthType
from tests.cli.command import ask, call, snapshot
from tests.pdf_content import forms_shown


class Pair(NamedTuple):
    """A command line and the tiers of a cake file that say the same, and whose pieces both make."""

    words: str
    cake: str
    kinds: tuple[str, ...]
    owner: str = "8-in"


TIER = "[[tier]]\nname = '8 in'\nsize = '8in'\ndepth = '4 in'\n"
PANELLED = f"{TIER}cover = 'panelled'\n"
SIZE = "--size 8in --depth '4 in'"
PAIRS = (
    Pair(f"wrap {SIZE}", PANELLED, ("wrap",)),
    Pair(
        f"wrap {SIZE} --coating 4mm --fondant '3,5 mm' --first side --trim 0 --strip '24 in'",
        f"{PANELLED}coating = '4 mm'\nfondant = '3.5 mm'\nfirst = 'side'\ntrim = 0\n"
        "strip = '24 in'\n",
        ("wrap",),
    ),
    Pair(f"wrap {SIZE} --dummy", f"{PANELLED}dummy = true\n", ("wrap",)),
    Pair(
        f"wrap {SIZE} --shape polygon --sides 6 --corner 1cm --top-size 7in",
        f"{PANELLED}shape = 'polygon'\nsides = 6\ncorner = '1 cm'\ntop_size = '7 in'\n",
        ("wrap",),
    ),
    Pair("disc --size 8in --shape heart", f"{PANELLED}shape = 'heart'\n", ("disc",)),
    Pair("disc --size 8in", PANELLED, ("disc",)),
    Pair(
        "disc --size 8in --first side --fondant 3mm",
        f"{PANELLED}first = 'side'\nfondant = '3 mm'\n",
        ("disc",),
    ),
    Pair(
        f"panels {SIZE} --count 8 --height 2in --rows 2 --joins staggered --place rim",
        f"{TIER}[tier.panels]\ncount = 8\nheight = '2 in'\nrows = 2\njoins = 'staggered'\n"
        "place = 'rim'\n",
        ("panel", "collar"),
    ),
    Pair(
        f"panels {SIZE} --cover panelled --replace-wrap --width 6cm --front join",
        f"{PANELLED}[tier.panels]\nreplace_wrap = true\nwidth = '6 cm'\nfront = 'join'\n",
        ("panel", "collar", "marking-band"),
    ),
    Pair(
        f"panels {SIZE} --replace-wrap --count 6",
        f"{PANELLED}[tier.panels]\nreplace_wrap = true\ncount = 6\n",
        ("panel", "collar", "marking-band"),
    ),
    Pair(
        f"panels {SIZE} --mould 16cm",
        f"{TIER}[tier.panels]\nmould = '16 cm'\n",
        ("panel", "collar"),
    ),
    Pair(f"drips {SIZE}", f"{TIER}[tier.drips]\n", ("collar",)),
    Pair(
        f"drips {SIZE} --cover none --spacing 1in --width 8mm --shortest 15mm --longest 2in"
        " --pattern wave --waves 3 --front gap --guide both",
        f"{TIER}cover = 'none'\n[tier.drips]\nspacing = '1 in'\nwidth = '8 mm'\n"
        "shortest = '15 mm'\nlongest = '2 in'\npattern = 'wave'\nwaves = 3\nfront = 'gap'\n"
        "guide = 'both'\n",
        ("collar", "top-edge-guide"),
    ),
    Pair(
        f"drips {SIZE} --pattern random --shuffle 9 --guide 'top edge'",
        f"{TIER}[tier.drips]\nshuffle = 9\nguide = 'top edge'\n",
        ("top-edge-guide",),
    ),
    Pair(f"design {SIZE}", f"{TIER}[[tier.design]]\n", ("collar",)),
    Pair(
        f"design {SIZE} --kind swags --width 7cm --drop 2cm --form double --top 1cm --start join",
        f"{TIER}[[tier.design]]\nkind = 'swags'\nwidth = '7 cm'\ndrop = '2 cm'\n"
        "form = 'double'\ntop = '1 cm'\nstart = 'join'\n",
        ("collar",),
    ),
    Pair(
        "placement --size 8in --depth 4in --above 6in --cover panelled",
        f"{PANELLED}[[tier]]\nsize = '6 in'\ndepth = '4 in'\ncover = 'panelled'\n",
        ("placement-guide",),
    ),
    Pair(
        "placement --drum --size 14in --above 8in --coating 3mm",
        f"drum.size = '14 in'\n{TIER}coating = '3 mm'\n",
        ("placement-guide",),
        "drum",
    ),
)


@pytest.fixture(autouse=True)
def _desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def unmarked(svg: bytes) -> bytes:
    """Return an SVG without its pack mark, which a cake of another title does not share."""
    return re.sub(rb" \(pack mark \w+\)", b"", svg)


def lines(content: bytes) -> list[tuple[str, str]]:
    """Return the role and the path data of every line of an SVG."""
    svg = "{http://www.w3.org/2000/svg}"
    return [
        (str(group.get("id")), str(path.get("d")))
        for group in etree.fromstring(content).iter(f"{svg}g")
        for path in group.findall(f"{svg}path")
    ]


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: str(pair.words).replace(" ", "_"))
def test_same_as_in_a_pack(pair: Pair) -> None:
    """A one-off has the same lines at the same places as the piece of a cake file."""
    ask("pack", "-", "--out", "pack", "--format", "svg", stdin=pair.cake)
    ask(*shlex.split(pair.words), "-o", "one/one.svg")
    made = snapshot(Path("one"))
    assert len(made) == len(pair.kinds) + 1
    assert "one-check-square.svg" in made
    for kind in pair.kinds:
        one = made["one.svg" if len(pair.kinds) == 1 else f"one-{kind}.svg"]
        assert one is not None
        whole = Path(f"pack/pieces/{pair.owner}-{kind}.svg").read_bytes()
        assert lines(one) == lines(whole) != []
        if kind != "placement-guide":  # its words name the tier above, which has no name here
            assert unmarked(one) == unmarked(whole)


def test_every_command_is_compared() -> None:
    """The pairs compare every kind of piece that any one-off command makes."""
    compared = {(shlex.split(pair.words)[0], kind) for pair in PAIRS for kind in pair.kinds}
    assert compared == {(name, kind) for name, one in ONE_OFFS.items() for kind in one.kinds}


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("wrap --size 8in --depth 4in", "wrap-8-in"),
        ("disc --size 20,5cm", "disc-20-5-cm"),
        ("panels --size 8 --depth 4 --unit in", "panels-8-in"),
        ("drips --size 8inches --depth 4in", "drips-8-in"),
        ("placement --size 8in --depth 4in --above 6in", "placement-8-in-6-in"),
    ],
)
def test_pdf(words: str, name: str) -> None:
    """Without -o, a PDF named after command and size; it and its figures are reported."""
    said = ask(*words.split())
    assert list(snapshot(Path())) == [f"{name}.pdf"]
    with pikepdf.open(f"{name}.pdf") as pdf:
        cover, *sheets = pdf.pages
        assert not forms_shown(cover)
        assert sheets
        assert all(forms_shown(page) for page in sheets)
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
    assert said.startswith(f"Written: {name}.pdf\n")
    assert re.search(r"^(8 in|20,5 cm): ", said, re.MULTILINE)
    assert "actual size" in said


@pytest.mark.parametrize(
    ("words", "sums"),
    [
        # 203.2 + 2 * 5 + 2 * 4 = 221.2
        (
            "drips --size 8in --depth 4in",
            ["8 in + 2 × 5 mm coating + 2 × 4 mm fondant = 8 11/16 in (221.2 mm) across"],
        ),
        # 200 + 2 * 2.5 + 2 * 5 = 215
        (
            "wrap --size 20cm --depth 4in --coating 2.5mm",
            ["20 cm + 2 × 2.5 mm coating + 2 × 5 mm fondant = 215 mm (8 7/16 in) across"],
        ),
        ("disc --size 8in --dummy", ["8 in + 2 × 5 mm fondant = 8⅜ in (213.2 mm) across"]),
        (
            "placement --size 8in --depth 4in --above 6in --cover none --coating 0",
            ["8 in = 8 in (203.2 mm) across", "6 in = 6 in (152.4 mm) across"],
        ),
    ],
)
def test_assumed(words: str, sums: list[str]) -> None:
    """The layers a size was worked out with are named, the assumed ones too, one line a tier."""
    said = ask(*words.split())
    assert [line for line in said.splitlines() if line.endswith(" across")] == sums


def test_papers() -> None:
    """--paper names the paper of the PDF; both writes one file for each."""
    ask("wrap", "--size", "8in", "--depth", "4in", "--paper", "both", "-o", "w.pdf")
    sizes = {"w-a4.pdf": (210, 297), "w-letter.pdf": (215.9, 279.4)}
    assert snapshot(Path()).keys() == sizes.keys()
    pages = set()
    for name, (width, height) in sizes.items():
        with pikepdf.open(name) as pdf:
            pages.add(len(pdf.pages))
            corner = [float(side) / 72 * 25.4 for side in list(pdf.pages[0].mediabox)[2:]]
            assert corner == pytest.approx([width, height], abs=0.01)
    assert len(pages) == 1


@pytest.mark.parametrize("ending", ["SVG", "PDF", "DXF"])
def test_ending_in_capitals(ending: str) -> None:
    """An ending may be in capitals; beside a file for machines lies the check square."""
    ask("disc", "--size", "8in", "-o", f"x.{ending}")
    square = [f"x-check-square.{ending}"] if ending != "PDF" else []
    assert list(snapshot(Path())) == [*square, f"x.{ending}"]


def test_lines_solid_and_words_outlined() -> None:
    """A file for a machine has solid lines and no text where this is chosen."""
    ask("panels", "--size", "8in", "--depth", "4in", "-o", "a.svg")
    ask(
        "panels", "--size", "8in", "--depth", "4in", "--solid", "--words", "outlines", "-o", "b.svg"
    )
    dashed, solid = (Path(f"{name}-collar.svg").read_text() for name in "ab")
    assert "dasharray" in dashed
    assert "<text" in dashed
    assert "dasharray" not in solid
    assert "<text" not in solid


@pytest.mark.parametrize(
    "words",
    ["--unit cm --size 20 --depth 10 --trim 1,5", "--size 20 --depth 10 --trim 1,5 --unit cm"],
)
def test_bare_numbers(words: str) -> None:
    """--unit, wherever it stands, says what bare numbers mean."""
    ask("wrap", *words.split(), "-o", "bare.svg")
    ask("wrap", *shlex.split("--size '20 cm' --depth 10cm --trim 15mm -o with-units.svg"))
    assert Path("bare.svg").read_bytes() == Path("with-units.svg").read_bytes()


def test_strip_falls_short() -> None:
    """A 24 in strip is 44.5 mm short of an 8 in dummy's girth in the middle of 5 mm of paste."""
    words = "wrap --size 8in --depth 4in --dummy --fondant 5mm --strip 24in"
    said = ask(*words.split())
    # pi * (203.2 + 5) - 24 * 25.4 = 44.48
    assert "44.5 mm" in said
    assert "Warning (" in said


def test_warning_of_a_mould() -> None:
    """Five lengths of a 159.6 mm mould leave 25.1 mm open on 10 in under 4 mm of paste."""
    words = "panels --size 10in --depth 4in --dummy --fondant 4mm --mould 159.6mm"
    said = ask(*words.split())
    # pi * (254 + 8) - 5 * 159.6 = 25.1, a fifth of it at each join
    assert "25.1 mm" in said
    assert "5 panels would leave 3/16 in (5 mm) open" in said


BASE = {"size": "8in", "depth": "4in", "above": "6in"}


def values(param: click.Parameter) -> Iterator[list[str]]:
    """Yield ways to give an option: each of its words, or a value that is seldom right."""
    name = param.opts[-1]
    if isinstance(param, click.Option) and param.is_flag:
        yield [name]
    elif isinstance(param.type, click.Choice):
        yield from ([name, word] for word in param.type.choices)
    elif isinstance(param.type, LengthType):
        yield [name, "1mm"]
    elif param.type is click.INT:
        yield [name, "399"]


@pytest.mark.parametrize("name", COMMANDS)
def test_messages_name_options_that_the_command_has(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever an option says, what is said of it names options of the command, and no key."""
    monkeypatch.setattr("templates_gen.cli.one_off.write_and_say", lambda files: None)
    monkeypatch.setattr("templates_gen.cli.one_off._files", lambda *of: {})
    params = COMMANDS[name].params
    known = {word for param in params for word in param.opts}
    for param in params:
        for given in values(param):
            base = [
                word
                for other in params
                if other.name in BASE and other is not param
                for word in (other.opts[-1], BASE[str(other.name)])
            ]
            done = call(name, *base, *given)
            said = [line for line in done.output.splitlines() if not line.endswith("across")]
            named = set(re.findall(r"--[a-z-]+", "\n".join(said)))
            assert named <= known, (given, said)
            settings = re.findall(r"\b\w+ = |\[\w+\]|\b[a-z]+_[a-z_]+\b", "\n".join(said))
            assert not settings, (given, said)


def test_a_ball_is_no_shape_of_these_templates() -> None:
    """A ball has none of them: nothing is written, and the shapes that have are listed."""
    done = call("wrap", "--size", "8in", "--depth", "4in", "--shape", "ball")
    assert done.exit_code == 2
    assert "'ball' is not one of 'round', 'oval'" in done.stderr
    assert not snapshot(Path())


def test_a_polygon_is_not_summed_up_from_flat_to_flat(tmp_path: Path) -> None:
    """Its width from corner to corner is told as what it is."""
    words = shlex.split(f"wrap {SIZE} --shape polygon --sides 6")
    said = ask(*words, "-o", tmp_path / "wrap.svg")
    assert "8 in, 2 × 5 mm coating, 2 × 5 mm fondant: covered 10 in (254.6 mm) across" in said


def test_dowels_of_a_placement_guide_are_as_long_as_the_tier_is_deep(tmp_path: Path) -> None:
    """4 in and 9 mm of layers on top: 110.6 mm. Without a depth there is no length to print."""
    said = ask(*shlex.split("placement --size 8in --depth 4in --above 6in -o"), tmp_path / "s.svg")
    assert "110.6 mm" in said
    done = call("placement", "--size", "8in", "--above", "6in", "-o", str(tmp_path / "no.svg"))
    assert done.exit_code == 1
    assert "--depth" in done.stderr
    assert not (tmp_path / "no.svg").exists()


def test_panels_say_how_thick_they_are(tmp_path: Path) -> None:
    """The thickness of panels set on the covering is on their paper."""
    for thick in ("3", "7"):
        words = f"panels {SIZE} --count 8 --thickness {thick}mm -o"
        assert f"({thick} mm)" in ask(*shlex.split(words), tmp_path / f"{thick}.svg")
    made = [(tmp_path / f"{thick}-panel.svg").read_text() for thick in ("3", "7")]
    assert "thick" in made[0]
    assert made[0] != made[1]
