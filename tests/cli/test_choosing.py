"""A part of a pack: by tier, by kind, by the numbers of its sheets."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.command import ask, call
from tests.raster import by_pdfium

CAKE = (
    "title = 'Two'\n[[tier]]\nname = 'lower'\nsize = '8 in'\ndepth = '4 in'\ncover = 'panelled'\n"
    "[[tier]]\nname = 'upper'\nsize = '6 in'\ndepth = '4 in'\n[tier.drips]\n"
)
BAD = [
    (["--tier", "lowr"], "Did you mean “lower”?"),
    (["--tier", "Lower"], "Did you mean “lower”?"),
    (["--tier", "middle"], "Choose from drum, lower, upper"),
    (["--tier", ""], "this cake has none"),
    (["--tier", "wrap"], "“wrap”: this cake has none"),
    (["--tier", "lower", "--tier", "uper"], "Did you mean “upper”?"),
    (["--kind", "wrp"], "Did you mean “wrap”?"),
    (["--kind", "topper"], "“topper”: this cake needs no such template. Choose from"),
    (["--kind", "bord"], "“bord”: this cake has none"),
    (["--kind", "wraps"], "Did you mean “wrap”?"),
    (["--kind", "disc"], "add --whole"),
    (["--tier", "upper", "--kind", "wrap"], "Nothing of that is printed"),
    (["--sheets", "0"], "from 1 up"),
    (["--sheets", "5-3"], "the lower one first"),
    (["--sheets", ""], "such as 7 or 7,12-14"),
    (["--sheets", "two"], "“two”"),
    (["--sheets", "1,,2"], "such as 7"),
    (["--sheets", "1-"], "“1-”"),
    (["--sheets", "-1"], "“-1”"),
    (["--sheets", "1..3"], "“1..3”"),
    (["--sheets", "1.5"], "“1.5”"),
    (["--sheets", "99"], "Choose from 1 to"),
    (["--sheets", "1-99"], "--sheets 99"),
    (["--sheets", "1", "--tier", "lower"], "leave out --tier and --kind"),
    (["--sheets", "1", "--kind", "wrap"], "leave out --tier and --kind"),
    (["--sheets", "1", "--format", "svg"], "leave out --format svg"),
    (["--tier", "lower", "--format", "svg"], "leave out --format svg"),
    (["--sheets", "1", "--by-tier", "--kind", "wrap"], "leave out --tier and --kind"),
    (["--sheets", "99", "--by-tier"], "Choose from 1 to"),
    (["--by-tier", "lower"], "unexpected extra argument"),
    (["--by-tier=yes"], "does not take a value"),
    (["--whole=few"], "does not take a value"),
    (["--few"], "No such option"),
]


def pages(path: Path) -> int:
    """Return how many pages a PDF has."""
    return len(by_pdfium(path.read_bytes(), 10))


@pytest.mark.parametrize(("options", "says"), BAD, ids=str)
def test_a_choice_that_cannot_be(options: list[str], says: str, tmp_path: Path) -> None:
    """It exits 2, says what there is to choose from, and writes nothing."""
    out = tmp_path / "out"
    done = call("pack", "-", "--out", out, *options, stdin=CAKE)
    assert done.exit_code == 2, done.output
    assert says in done.stderr
    assert not out.exists()


def test_a_part_leaves_the_pack_alone(tmp_path: Path) -> None:
    """A tier, a kind or sheets of a pack are PDFs of their own beside it."""
    ask("pack", "-", "--out", tmp_path, "--format", "pdf", stdin=CAKE)
    (whole,) = tmp_path.glob("*.pdf")
    before, count = whole.read_bytes(), pages(whole)
    ask("pack", "-", "--out", tmp_path, "--sheets", f"1,2-{count - 1}", stdin=CAKE)
    assert pages(tmp_path / "two-a4-sheets.pdf") == count - 1
    ask("pack", "-", "--out", tmp_path, "--tier", "lower", "--kind", "wrap", stdin=CAKE)
    few = pages(tmp_path / "two-a4-part.pdf")
    ask("pack", "-", "--out", tmp_path, "--kind", "wrap", "--whole", stdin=CAKE)
    assert few < pages(tmp_path / "two-a4-part.pdf")
    assert whole.read_bytes() == before


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ("[templates]\nwrap = 'whole'", "did you mean “wraps”?"),
        ("[templates]\nwraps = 'half'", "“few”, “whole”, “none”"),
        ("[templates]\nwraps = ''", "“few”, “whole”, “none”"),
        ("[templates]\nwraps = 2", "“few”, “whole”, “none”"),
        ("[templates]\nwraps = ['whole']", "“few”, “whole”, “none”"),
        ("[templates]\ntopper = 'none'", "the unknown key “topper”"),
        ("templates = 'whole'", "templates"),
        ("[[templates]]\nwraps = 'few'", "templates"),
        ("print = 'none'", "“few”, “whole”"),
        ("print = 'wraps'", "“few”, “whole”"),
        ("[print]\nwraps = 'whole'", "print"),
        ("print = true", "“few”, “whole”"),
    ],
    ids=str,
)
def test_how_much_is_printed_in_words_that_cannot_be(lines: str, says: str, tmp_path: Path) -> None:
    """It exits 1, names the key and says what can be written; nothing is written."""
    out = tmp_path / "out"
    done = call("pack", "-", "--out", out, stdin=f"{lines}\n{CAKE.partition(chr(10))[2]}")
    assert done.exit_code == 1, done.output
    assert says in done.stderr
    assert not out.exists()


def test_a_roll_has_no_sheets_to_start_tiers_on(tmp_path: Path) -> None:
    """What contradicts itself is refused, with both ways out."""
    done = call(
        "pack", "-", "--out", tmp_path / "out", "--by-tier", "--paper", "roll 610 mm", stdin=CAKE
    )
    assert done.exit_code != 0
    assert "leave out --by-tier" in done.stderr


def test_each_tier_on_sheets_of_its_own(tmp_path: Path) -> None:
    """It is another version of the pack, with its own mark, and takes as many sheets or more."""
    for folder, more in (("one", []), ("other", ["--by-tier"])):
        ask("pack", "-", "--out", tmp_path / folder, "--format", "pdf", *more, stdin=CAKE)
    one, other = (
        json.loads((tmp_path / folder / "two-a4.json").read_bytes()) for folder in ("one", "other")
    )
    tiers = [{w["piece"].partition("/")[0] for w in s["windows"]} for s in other["sheets"]]
    assert all(len(each) <= 1 for each in tiers)
    assert len(other["sheets"]) >= len(one["sheets"])
    assert one["pack_mark"] != other["pack_mark"]


@pytest.mark.parametrize("command", ["wrap --size 8in --depth 4in", "disc --size 8in"])
def test_a_single_template_on_few_sheets(command: str, tmp_path: Path) -> None:
    """It is a part on the fold; a file of the whole piece cannot be few."""
    output = tmp_path / "one.pdf"
    assert "on the fold" in ask(*command.split(), "--few", "-o", output)
    assert pages(output) == 2
    for ending in ("svg", "dxf"):
        done = call(*command.split(), "--few", "-o", tmp_path / f"one.{ending}")
        assert done.exit_code == 2
        assert "leave out --few" in done.stderr
