"""The command check: problems and warnings, without writing anything."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cakes import SAMPLES
from tests.cli.command import TIER, ask, call, snapshot


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: str(path.stem))
def test_sample(path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Check counts what pack then makes, repeats its warnings, and writes nothing."""
    monkeypatch.chdir(tmp_path)
    checked = ask("check", path).splitlines()
    assert snapshot(tmp_path) == {}
    packed = ask("pack", path).splitlines()
    made = f"Ready: {packed[0].replace(':', ',', 1)}."
    assert checked[-1] == made
    warnings = [line for line in packed if line.startswith("Warning (")]
    assert checked[:-1] == warnings


def test_each_paper() -> None:
    """A cake for both papers is checked on both."""
    *_, a4, letter = ask("check", "-", stdin=f"paper = 'both'\n{TIER}").splitlines()
    assert a4.endswith("A4 pages.")
    assert letter == a4.replace("A4", "Letter")


def test_paper_of_the_command_line() -> None:
    """The papers of the command line take the place of the cake file's."""
    options = ("--paper", "US Letter", "--paper", "a3")
    *_, letter, a3 = ask("check", "-", *options, stdin=TIER).splitlines()
    assert letter.endswith("Letter pages.")
    assert a3.endswith("A3 pages.")


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ("cover = 'panelled'\nstrip = '24 in'\n", "24 in"),
        ("[tier.panels]\nmould = '160 mm'\n", "at each join"),
        ("strip = '24 in'\n", "(standard input, line 4: tier 1, strip): tier 1: strip has no"),
    ],
    ids=["strip", "mould", "unused"],
)
def test_warnings(lines: str, says: str) -> None:
    """A cake that can be made with warnings exits 0 and says them."""
    warning, *_ = ask("check", "-", stdin=TIER + lines).splitlines()
    assert warning.startswith("Warning (")
    assert says in warning


def test_no_warning() -> None:
    """A cake without warnings is said to be so in one line."""
    (line,) = ask("check", "-", stdin=TIER).splitlines()
    assert line.startswith("Ready: Cake, 1 piece on ")


def test_every_stage() -> None:
    """What only the sheets find out is found by check too: a margin that leaves no room."""
    narrow = "paper = '110 mm x 200 mm'\nmargin_sides = '30 mm'\n"
    done = call("check", "-", stdin=narrow + TIER)
    assert done.exit_code == 1
    assert done.stderr.startswith("standard input, line 1: paper\n")


@pytest.mark.parametrize(
    ("text", "key", "says"),
    [
        ("[[tier]]\nsize = '16 in'\ndepth = '4 in'\n", "tier 1, size", "tier 1: a tin of its size"),
        (
            "[[letter_cake]]\ntext = '5'\ntin_length = '50 cm'\n",
            "letter_cake 1, tin_length",
            "letter cake 1: a tin of its size",
        ),
        (
            "guests = 60\n[[tier]]\nsize = '8 in'\ndepth = '4 in'\n",
            "guests",
            "24 wedding portions for 60 guests, 36 too few",
        ),
    ],
    ids=["tier", "letters", "guests"],
)
def test_what_the_kitchen_cannot_do_is_told(
    text: str, key: str, says: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A tin too large for a shelf of 45 × 36 cm, too few portions: by check, pack and bench."""
    monkeypatch.chdir(tmp_path)
    for command in ("check", "pack"):
        (warning,) = (each for each in ask(command, "-", stdin=text).splitlines() if says in each)
        assert warning.startswith("Warning (")
        assert f" {key})" in warning
    assert says in ask("bench", "-", stdin=text)


@pytest.mark.parametrize(("guests", "is_told"), [(24, False), (25, True)])
def test_guests_of_the_command_line(guests: int, is_told: bool) -> None:
    """A number of guests given beside the file takes the place of the one in it.

    An 8 in round has 24 portions of 1 by 2 in: bakewithsarah.com, servings; huppahsblog, 2010/12.
    """
    text = "guests = 500\n[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"
    said = ask("check", "-", "--set", f"guests={guests}", stdin=text)
    assert ("too few" in said) == is_told
