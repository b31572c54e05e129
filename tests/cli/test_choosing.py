"""A part of a pack: by tier, by kind, by the numbers of its sheets."""

from __future__ import annotations

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
    (["--tier", "lower", "--tier", "uper"], "Did you mean “upper”?"),
    (["--kind", "wrp"], "Did you mean “wrap”?"),
    (["--kind", "topper"], "this cake has none"),
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
