"""Broken cake files and command lines: refused with place, reason and way out, nothing written."""

from __future__ import annotations

import codecs
import os
import re
import shlex
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.cli.bad_cakes import BAD_CAKES, Bad
from tests.cli.bad_crafts import BAD_CRAFTS
from tests.cli.bad_designs import BAD_DESIGNS
from tests.cli.command import TIER, ask, call, process, snapshot
from tests.laws import reads_well

PROBLEM = re.compile(r"(.+)\n  problem   (.*)\n  accepted  (.*)\n  fix       (.*)\n")
"""A problem as it is printed: place, found, allowed, what to do."""
INCHES = re.compile(r"([\d /⅛¼⅜½⅝¾⅞]*[\d⅛¼⅜½⅝¾⅞] in) \((-?[\d.]+ mm)\)")
"""A length of a cake in inches, as the paper has it."""
HIDDEN = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069]")
"""Characters that would steer a terminal or turn the text of a message round."""


def problems_in(text: str) -> list[tuple[str, ...]]:
    """Return the problems that a message lists; it must consist of nothing else."""
    assert PROBLEM.sub("", text) == "", text
    return [found.groups() for found in PROBLEM.finditer(text)]


@pytest.fixture
def kitchen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Work in a folder with a sound cake file, other files, and an older pack."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "cake.toml").write_text(TIER)
    (tmp_path / "bad.toml").write_text(TIER.replace("8 in", "8 ft"))
    (tmp_path / "file.txt").write_text("keep me")
    (tmp_path / "folder.pdf").mkdir()
    os.mkfifo(tmp_path / "pipe.toml")
    (tmp_path / "loop.toml").symlink_to("loop.toml")
    (tmp_path / "nowhere").symlink_to("none")
    (tmp_path / "cake").mkdir()
    (tmp_path / "cake" / "cake-a4.pdf").write_text("an older pack")
    return tmp_path


def refused(*arguments: str, code: int, stdin: str = "") -> str:
    """Run a command that must fail with the code, and return its message; nothing may change."""
    before = snapshot(Path.cwd())
    done = call(*arguments, stdin=stdin)
    assert done.exit_code == code, done.output
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    assert snapshot(Path.cwd()) == before
    return done.stderr


def _mm_first(length: re.Match[str]) -> str:
    inches, mm = length.groups()
    blank = " " if inches.startswith(" ") else ""
    return f"{blank}{mm} ({inches.strip()})"


def test_a_message_has_the_unit_of_the_cake_first(kitchen: Path) -> None:
    """Of a cake in inches these come first, of any other the mm."""
    said = {"8 in": "of that, 4 in (101.6 mm)", "20 cm": "of that, 100 mm (3⅞ in)"}
    for size, text in said.items():
        bad = f"[[tier]]\nshape = 'square'\nsize = '{size}'\ndepth = '4 in'\ncorner = '9 in'\n"
        (kitchen / "cake.toml").write_text(bad)
        assert text in refused("pack", "cake.toml", code=1)


def test_what_is_said_of_broken_cake_files_reads_well() -> None:
    """In all that is said of them no word is doubled and no noun counted wrongly."""
    said = (Path(__file__).parent.parent / "reference_drawings" / "refusals.txt").read_text("utf-8")
    for line in said.splitlines():
        reads_well(line)
    for bad in ("tier tier 1 stands there", "1 dowels", "did you mean “heart”?."):
        with pytest.raises(AssertionError):
            reads_well(bad)


@pytest.mark.parametrize(
    "bad", [*BAD_CAKES, *BAD_DESIGNS, *BAD_CRAFTS], ids=lambda bad: str(bad.name).replace(" ", "-")
)
def test_cake_file(bad: Bad, kitchen: Path) -> None:
    """A broken cake file exits 1, says where and what, and leaves everything as it was."""
    (kitchen / "cake.toml").write_text(bad.text, newline="")
    (problem,) = problems_in(refused("pack", "cake.toml", code=1))
    # the rows of the tables have the mm first, whatever the unit of the cake
    place, found, allowed, do = (INCHES.sub(_mm_first, part) for part in problem)
    assert place == f"cake.toml, {bad.place}"
    assert bad.found in found
    assert bad.allowed in allowed
    assert bad.do in do
    assert all(problem), "found, allowed and do all say something"


class Broken(NamedTuple):
    """The content of something that is no readable cake file, and what its message says."""

    name: str
    content: bytes
    says: tuple[str, ...]


DEEP = ("line 1: nested too deeply", "Leave out brackets")
UTF_8 = ("not UTF-8 text", "encoding UTF-8")
PLAIN = "not a plain text file. Write the cake file in a plain text editor"
BROKEN = (
    Broken("Latin-1", TIER.encode() + "name = 'Zoë'".encode("latin-1"), ("line 4", *UTF_8)),
    Broken("UTF-16", TIER.encode("utf-16"), ("line 1", *UTF_8)),
    Broken("half a character", TIER.encode() + "name = 'Zoë'".encode()[:-2], ("line 4", *UTF_8)),
    Broken("a document", b"PK\x03\x04" + b"\0" * 200_000, ("document or an archive", PLAIN)),
    Broken("an old document", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", ("document", PLAIN)),
    Broken("rich text", rb"{\rtf1\ansi size = 8 in}", ("is rich text", PLAIN)),
    Broken("a PDF", b"%PDF-1.7\n", ("is a PDF", PLAIN)),
    Broken("a picture", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", ("line 1", *UTF_8)),
    Broken("huge", b"#" * 100_001, ("larger than 100 kB", "a short text")),
    Broken(
        "deep lists",
        b"x = " + b"[" * 9999 + b"]" * 9999,
        ("line 1: nested too deeply", "Leave out"),
    ),
    Broken(
        "deep tables",
        b"x = " + b"{a=" * 9999 + b"1" + b"}" * 9999,
        ("line 1: nested too deeply", "Leave out"),
    ),
    Broken(
        "5000 figures",
        f"{TIER}[tier.drips]\nshuffle = {'9' * 5000}\n".encode(),
        (": a number has too many figures", "line", "Write a length"),
    ),
    Broken(
        "5000 hexadecimal figures",
        f"unit = 'mm'\n{TIER}trim = 0x{'f' * 5000}\n".encode(),
        ("cake.toml, line 5: tier 1, trim", "a number of over 40 figures"),
    ),
)


@pytest.mark.parametrize("broken", BROKEN, ids=lambda broken: str(broken.name).replace(" ", "-"))
def test_no_cake_file(broken: Broken, kitchen: Path) -> None:
    """A file that is no text of a fitting size exits 1 and says what to save it as."""
    (kitchen / "cake.toml").write_bytes(broken.content)
    message = refused("pack", "cake.toml", code=1)
    assert message.startswith("cake.toml")
    for words in broken.says:
        assert words in message


class Line(NamedTuple):
    """A command line, its exit code and fragments of its message."""

    words: str
    code: int
    says: tuple[str, ...]


IN_QUOTES = 'or "8 in" in quotes'
ONE = "--size 8in --depth 4in"
LINES = (
    Line("", 2, ("Usage:", "pack", "figures")),
    Line("pakc cake.toml", 2, ("No such command 'pakc'. Did you mean “pack”?",)),
    Line("new a.toml --sample ruby-weding", 2, ("Did you mean “ruby-wedding”?",)),
    Line("--bogus", 2, ("No such option", "--bogus")),
    Line("portions 30.5", 2, ("'30.5' is not a valid whole number",)),
    Line("bake cake.toml", 2, ("No such command 'bake'",)),
    Line("pack", 2, ("Missing argument 'CAKE.toml'",)),
    Line("check", 2, ("Missing argument 'CAKE.toml'",)),
    Line("figures", 2, ("Missing argument 'CAKE.toml'",)),
    Line("new", 2, ("Missing argument 'FILE.toml'",)),
    Line("pack cake.toml more.toml", 2, ("unexpected extra argument (more.toml)",)),
    Line("pack cake.toml --papers a4", 2, ("No such option", "--papers", "--paper")),
    Line("pack cake.toml --paper", 2, ("'--paper' requires an argument",)),
    Line("pack cake.toml --paper a5", 2, ("'--paper'", "“a5”", "a4, letter, legal")),
    Line(
        "pack cake.toml --paper 210x297",
        2,
        ("“210” has no unit", "a4, letter, legal", "210 mm x 297 mm"),
    ),
    Line("pack cake.toml --paper 8cmx20cm", 2, ("80 by 200 mm", "from 100 mm to 5080 mm")),
    Line("pack cake.toml --paper a4 --paper a5", 2, ("“a5” is not a paper",)),
    Line(
        "pack cake.toml --out wedding.pdf",
        2,
        ("“wedding.pdf” is the name of a file; allowed: a folder", "Write for example wedding"),
    ),
    Line("pack cake.toml --format png", 2, ("'png' is not one of 'pdf', 'svg', 'both', 'dxf'",)),
    Line("pack none.toml", 1, ("none.toml", "No such file", "templates-gen new")),
    Line("check none.toml", 1, ("none.toml", "No such file", "templates-gen new")),
    Line("figures none.toml", 1, ("none.toml", "No such file", "templates-gen new")),
    Line("pack folder.pdf", 1, ("folder.pdf", "it is a folder", "Check the name")),
    Line("pack loop.toml", 1, ("loop.toml", "symbolic links")),
    Line("pack file.txt/cake.toml", 1, ("file.txt/cake.toml", "Not a directory")),
    Line("pack file.txt", 1, ("file.txt, line 1", "keep me")),
    Line("pack bad.toml", 1, ("bad.toml, line 2: tier 1, size", "“8 ft”")),
    Line("check bad.toml", 1, ("bad.toml, line 2: tier 1, size", "“8 ft”")),
    Line("figures bad.toml --json", 1, ("bad.toml, line 2: tier 1, size", "“8 ft”")),
    Line("pack cake.toml --out file.txt", 1, ("file.txt cannot be written", "another place")),
    Line("pack cake.toml --out file.txt/deep", 1, ("file.txt cannot be written", "no folder")),
    Line("pack cake.toml --out loop.toml", 1, ("loop.toml cannot be written",)),
    Line("pack -", 1, ("standard input, line 1: tier", "[[tier]]")),
    Line("pack pipe.toml", 1, ("pipe.toml cannot be read: it is a pipe or a device", "is -")),
    Line("pack /dev/null", 1, ("null cannot be read: it is a pipe or a device",)),
    Line("figures ''", 1, ("“” cannot be read",)),
    Line("new cake.toml", 1, ("cake.toml is already there", "another name")),
    Line("new folder.pdf", 1, ("folder.pdf is already there",)),
    Line("new file.txt/cake.toml", 1, ("file.txt cannot be written",)),
    Line(f"new {'x' * 260}", 1, ("xx cannot be written: File name too long. Nothing was",)),
    Line("pack cake.toml --out nowhere", 1, ("nowhere cannot be written: it is a link that",)),
    Line("new a.toml --sample b", 2, ("'b' is not one of", "starter")),
    Line("wrap", 2, ("Missing option '--size'",)),
    Line("wrap --size 8in", 2, ("Missing option '--depth'",)),
    Line("placement --size 8in", 2, ("Missing option '--above'",)),
    Line(
        "wrap --size 8 --depth 4",
        2,
        ("'--size'", "“8” has no unit", "in, cm or mm", f"Write 8in, {IN_QUOTES}", "--unit in"),
    ),
    Line("wrap --size 8 in --depth 4in", 2, ("“8 in” came as 2 words. Write 8in, " + IN_QUOTES,)),
    Line("wrap --depth 4in --size=8 in", 2, ("“8 in” came as 2 words. Write 8in, " + IN_QUOTES,)),
    Line(
        "wrap --unit in --size 8 1/2 inches --depth 4",
        2,
        ("“8 1/2 inches” came as 3 words", 'Write 8-1/2inches, or "8 1/2 inches"', "--unit in"),
    ),
    Line("wrap --size 8ft --depth 4in", 2, ("'--size'", "unknown unit “ft”")),
    Line("wrap --size nan --depth 4in", 2, ("“nan” is not a length",)),
    Line("wrap --size 1/0in --depth 4in", 2, ("“1/0in” divides by zero",)),
    Line("wrap --size 1,000mm --depth 4in", 2, ("decimal or thousands",)),
    Line("wrap --size 8 --depth 4 --unit ft", 2, ("'ft' is not one of 'in', 'cm', 'mm'",)),
    Line(f"wrap {ONE} --first left", 2, ("'left' is not one of 'top', 'side'",)),
    Line(f"wrap {ONE} --paper a5", 2, ("“a5” is not a paper",)),
    Line(f"wrap {ONE} --coat 5mm", 2, ("No such option", "--coat", "--coating")),
    Line(f"wrap {ONE} -o wrap.png", 2, ("“wrap.png” ends in none of .pdf, .svg, .dxf",)),
    Line(f"wrap {ONE} -o wrap", 2, ("“wrap” ends in none of .pdf, .svg, .dxf",)),
    Line(f"wrap {ONE} -o folder.pdf", 2, ("'folder.pdf' is a directory",)),
    Line(f"wrap {ONE} -o file.txt/a.pdf", 1, ("file.txt cannot be written",)),
    Line(
        "wrap --size -8in --depth 4in",
        1,
        ("option --size", "“-8in”", "1 in (25 mm) to", "write for example --size 8in\n"),
    ),
    Line("wrap --size 2000mm --depth 4in", 1, ("option --size", "to 1500 mm")),
    Line(f"wrap {ONE} --fondant 5in", 1, ("option --fondant", "“5in”", "to 1⅛ in (30 mm)")),
    Line("wrap --size 8in --unit in --depth 0.1", 1, ("option --depth", "“0.1”, read as 0.1 in")),
    Line("disc --size 0in", 1, ("option --size", "“0in”")),
    Line(f"panels {ONE} --count 0", 1, ("option --count", "from 1 to 400")),
    Line(f"panels {ONE} --count few", 2, ("'--count'", "'few'")),
    Line(f"panels {ONE} --count 8 --mould 6in", 1, ("option --mould", "count and mould")),
    Line(f"panels {ONE} --mould 900mm", 1, ("option --mould", "up to 27 5/16 in (694.9 mm)")),
    Line(f"panels {ONE} --height 9in", 1, ("option --height", "up to 4 in (101.6 mm)")),
    Line(f"panels {ONE} --joins zigzag", 2, ("'zigzag' is not one of 'in line', 'staggered'",)),
    Line(
        f"panels {ONE} --replace-wrap --cover drape",
        1,
        (
            "option --replace-wrap",
            "in place of the wrap of a tier with --cover drape\n",
            "--replace-wrap on a panelled tier only\n",
            "write --cover panelled, or leave replace-wrap out\n",
        ),
    ),
    Line(
        f"panels {ONE} --cover fondant", 2, ("'fondant' is not one of", "Did you mean “drape” (one")
    ),
    Line(
        f"drips {ONE} --pattern wavy",
        2,
        ("'wavy' is not one of 'even', 'alternate'", ". Did you mean “wave”?\n"),
    ),
    Line(
        f"drips {ONE} --spacing 8mm",
        1,
        ("option --spacing", "apart and touch", "15 mm", "write --spacing 16mm"),
    ),
    Line(f"drips {ONE} --longest 5in", 1, ("option --longest", "“5in” on a tier “4in” deep")),
    Line(f"drips {ONE} --shuffle 1.5", 2, ("'--shuffle'", "'1.5'")),
    Line(f"panels {ONE} --count 8 --width 6in", 1, ("option --width", "count and width")),
    Line(
        "placement --size 6in --above 8in",
        1,
        ("option --above", "“8in” on “6in”", "the size below to --size and the one above"),
    ),
    Line(
        "placement --drum --size 8in --above 8in",
        1,
        ("option --above", "221.2 mm", "a larger drum, 8¾ in"),
    ),
    Line("check cake.toml --paper a5", 2, ("'--paper'", "“a5”", "a4, letter, legal")),
    Line("check cake.toml --paper 100mmx100mm", 1, ("option --paper", "100x100mm")),
    Line("pack cake.toml --paper 100mmx100mm", 1, ("option --paper", "100x100mm")),
)


@pytest.mark.parametrize("line", LINES, ids=lambda line: str(line.words).replace(" ", "_"))
@pytest.mark.usefixtures("kitchen")
def test_command_line(line: Line) -> None:
    """A broken command line exits 2, an impossible cake 1; both say why, and nothing changes."""
    message = refused(*shlex.split(line.words), code=line.code)
    for words in line.says:
        assert words in message
    if line.code == 2 and line.words:
        assert "Error: " in message


@contextmanager
def no_rights() -> Iterator[None]:
    """Put off the rights that let root read and write everything."""
    mine = os.geteuid()
    if mine == 0:
        os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(mine)


def test_unreadable(kitchen: Path) -> None:
    """A cake file one may not read exits 1 and says so."""
    ask("check", "cake.toml")  # whatever is imported or read once, is by now
    (kitchen / "cake.toml").chmod(0)
    with no_rights():
        done = call("check", "cake.toml")
    assert done.exit_code == 1, done.stderr
    assert "cake.toml cannot be read: Permission denied" in done.stderr


def test_folder_that_may_not_be_looked_into(kitchen: Path) -> None:
    """A check of it exits 1 and says so."""
    ask("check", "cake.toml")  # whatever is imported is by now
    kitchen.chmod(0o755)
    (kitchen / "cake").chmod(0)
    with no_rights():
        done = call("check", "cake")
    assert done.exit_code == 1
    assert done.stderr == "cake cannot be read: Permission denied\n"


def test_folder_without_rights(kitchen: Path) -> None:
    """A folder one may not write to exits 1, says so, and stays empty."""
    shut = kitchen / "shut"
    shut.mkdir()
    ask("pack", "-", "--out", "open", stdin=TIER)  # whatever is imported or read once, is by now
    shut.chmod(0o555)
    kitchen.chmod(0o755)
    with no_rights():
        done = call("pack", "-", "--out", "shut", stdin=TIER)
    assert done.exit_code == 1
    assert "shut" in done.stderr
    assert "cannot be written: Permission denied" in done.stderr
    assert list(shut.iterdir()) == []


def test_the_folder_one_is_in_is_named_in_full(
    kitchen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A dot would not say which folder it is that may not be written to."""
    shut = kitchen / "shut"
    shut.mkdir()
    kitchen.chmod(0o755)
    shut.chmod(0o555)
    monkeypatch.chdir(shut)
    with no_rights():
        done = call("new", "cake.toml")
    assert done.exit_code == 1
    assert done.stderr.startswith(f"{shut} cannot be written: Permission denied")


TEN_FAULTS = """\
# A cake with a fault on every line that a note points at.
titel = "Wedding"                          # ! titel
paper = "a5"                               # ! paper
note = '''
one line
too many'''
[drum]
size = "14 inn"                            # ! drum.size

[[tier]]                                   # ! tier 1, depth
name = "bottom"
"size" = "-8 in"                           # ! tier 1, size
drips = { spacing = "3 cm", waves = 0 }    # ! tier 1, drips.waves

[[tier]]
size = '''6 in'''
depth = "4 in"
cover = "drapped"                          # ! tier 2, cover
panels.count = "8"                         # ! tier 2, panels.count
panels.rows = 0                         # ! tier 2, panels.rows

[[tier]]
size = "4 in"
depth = "4 in"
[tier.drips]
shortest = "5 cm"
longest = '4 cm'                           # ! tier 3, drips.longest
"""
TEN_FAULTS_IN_INLINE_TABLES = """\
unit = "in"
tier = [                                   # ! tier 1, depth ! tier 2, size ! tier 2, drips.shuffle
  { size = 8 },
  # the upper one
  { size = 600, depth = 4, drips = { shuffle = -1 } },
]
drum = { size = 9999, tint = "gold" }    # ! drum.size ! drum.tint
"""


def expected(text: str) -> list[str]:
    """Return the place of each fault that the notes in a cake file point at."""
    return [
        f"cake.toml, line {number}: {key.strip()}"
        for number, line in enumerate(text.splitlines(), 1)
        for key in line.split("!")[1:]
    ]


@pytest.mark.parametrize("text", [TEN_FAULTS, TEN_FAULTS_IN_INLINE_TABLES], ids=["ten", "inline"])
@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize("mark", [b"", codecs.BOM_UTF8], ids=["plain", "BOM"])
def test_all_at_once(text: str, end: str, mark: bytes, kitchen: Path) -> None:
    """All problems of a file are told at once, in the order of its lines, each with its own."""
    (kitchen / "cake.toml").write_bytes(mark + text.replace("\n", end).encode())
    problems = problems_in(refused("pack", "cake.toml", code=1))
    places = [place for place, *_ in problems]
    note = [place for place in places if place.endswith(": note")]
    assert note == (["cake.toml, line 4: note"] if text is TEN_FAULTS else [])
    assert sorted(set(places) - set(note)) == sorted(expected(text))
    lines = [int(place.partition("line ")[2].partition(":")[0]) for place in places]
    assert lines == sorted(lines)


def test_both_lengths_of_drips(kitchen: Path) -> None:
    """Two drip lengths beyond the depth of the tier are two problems."""
    (kitchen / "cake.toml").write_text(f"{TIER}[tier.drips]\nshortest = '5 in'\nlongest = '6 in'\n")
    problems = problems_in(refused("pack", "cake.toml", code=1))
    assert [place for place, *_ in problems] == [
        "cake.toml, line 5: tier 1, drips.shortest",
        "cake.toml, line 6: tier 1, drips.longest",
    ]


def test_stack_and_pieces(kitchen: Path) -> None:
    """A drum that is too small and drips that touch are told together."""
    (kitchen / "cake.toml").write_text(
        f"[drum]\nsize = '8 in'\n{TIER}[tier.drips]\nspacing = '12 mm'\n"
    )
    problems = problems_in(refused("pack", "cake.toml", code=1))
    assert [place for place, *_ in problems] == [
        "cake.toml, line 4: tier 1, size",
        "cake.toml, line 7: tier 1, drips.spacing",
    ]


@pytest.mark.parametrize(
    "line",
    [
        'cover = "a\\u0007b"',
        'trim = "\\u202e8 in"',
        '"a\\u0007b" = 1',
        pytest.param("cover = 'a\x07b'", id="raw"),
    ],
)
def test_no_control_characters(line: str, kitchen: Path) -> None:
    """A message never passes on characters that steer a terminal or turn text round."""
    (kitchen / "cake.toml").write_text(f"{TIER}{line}\n")
    assert not HIDDEN.search(refused("pack", "cake.toml", code=1))


@pytest.mark.parametrize("line", ["check cake.toml", "figures cake.toml", "--help"])
def test_no_room_for_output(line: str, kitchen: Path) -> None:
    """Output that cannot be written ends with a message, not with a traceback."""
    with Path("/dev/full").open("wb") as full:
        done = process(*line.split(), cwd=kitchen, stdout=full)
    assert done.returncode != 0
    assert b"Traceback" not in done.stderr


@pytest.mark.parametrize("stream", [1, 2])
@pytest.mark.parametrize("words", ["figures cake.toml", "check no.toml"])
def test_closed_stream(stream: int, words: str, kitchen: Path) -> None:
    """A command whose output goes nowhere does its work, and has the same exit status."""
    usual = call(*words.split())
    program = f"exec {shlex.quote(sys.executable)} -m templates_gen {words} {stream}>&-"
    done = subprocess.run(["bash", "-c", program], cwd=kitchen, capture_output=True, check=False)
    assert done.returncode == usual.exit_code
    said = {1: (done.stderr, usual.stderr), 2: (done.stdout, usual.stdout)}[stream]
    assert said[0].decode() == said[1]


LOCALES = {
    "ASCII": {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    "Latin-1": {"PYTHONIOENCODING": "latin-1"},
}


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("ASCII", "pack cake.toml --format svg"),
        ("ASCII", "picture cake.toml"),
        ("Latin-1", "check bad.toml"),
    ],
)
def test_locale(name: str, words: str, kitchen: Path) -> None:
    """Where the system knows few characters, a cake of any title is made or refused in words."""
    for file in ("cake.toml", "bad.toml"):
        text = (kitchen / file).read_text()
        (kitchen / file).write_text(f"title = 'Zoë’s κέικ'\n{text}name = 'ζω'\n", "utf-8")
    done = process(*words.split(), cwd=kitchen, environment=LOCALES[name])
    assert done.returncode == (1 if "bad" in words else 0), done.stderr
    assert b"Traceback" not in done.stderr


def test_reader_gone(kitchen: Path) -> None:
    """A reader that stops early, as `head` does, is no fault of the cake's."""
    reading, writing = os.pipe()
    os.close(reading)
    with os.fdopen(writing, "wb") as pipe:
        done = process("figures", "cake.toml", cwd=kitchen, stdout=pipe)
    assert b"Traceback" not in done.stderr


def test_a_folder_that_is_no_longer_there(tmp_path: Path) -> None:
    """Whoever works in a folder that was removed is told so."""
    gone = tmp_path / "gone"
    gone.mkdir()
    script = f'cd "{gone}" && rmdir "{gone}" && "{sys.executable}" -m templates_gen new a.toml'
    done = subprocess.run(["sh", "-c", script], capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert done.stderr == "The current folder no longer exists; change to another one\n"


@pytest.mark.parametrize("wait", [0.3, 0.7])
def test_interrupted(wait: float, tmp_path: Path) -> None:
    """Ctrl-C, whatever is just being imported, ends a run without a word and without a file."""
    (tmp_path / "cake.toml").write_text(TIER)
    command = [sys.executable, "-m", "templates_gen", "pack", "cake.toml"]
    with subprocess.Popen(command, cwd=tmp_path, stderr=subprocess.PIPE) as run:
        time.sleep(wait)
        run.send_signal(signal.SIGINT)
        _, said = run.communicate()
    assert said in (b"", b"\nAborted!\n")
    assert run.returncode in (-signal.SIGINT, 0, 1)
    assert set(tmp_path.iterdir()) <= {tmp_path / "cake.toml", tmp_path / "cake"}
