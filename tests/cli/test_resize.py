"""The command resize: a cake file for other tins."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cakes import SAMPLES
from tests.cli.command import ask, call

(HARBOUR,) = (path for path in SAMPLES if path.stem == "harbour-wedding")


def test_a_new_cake_file_is_written_and_its_changes_shown(tmp_path: Path) -> None:
    """Counts before and after; the file can be made, and keeps its comments."""
    new = tmp_path / "larger.toml"
    said = ask("resize", HARBOUR, "--to", "12x5, 9 x 6, 6 by 5, 4", "-o", new)
    assert "drip count 27 → 30" in said
    assert "set like bricks" in new.read_text(encoding="utf-8")
    assert "9 in" in ask("figures", new) or "228.6 mm" in ask("figures", new)


@pytest.mark.parametrize(
    ("sizes", "words"),
    [
        ("12x5", ("1 size", "4 tiers")),
        ("12, 9, 6, 4, 3", ("5 sizes", "4 tiers")),
        ("12x5x4, 9, 6, 4", ("“12x5x4”", "a size and a depth")),
        ("12 miles, 9, 6, 4", ("unknown unit", "miles", "--to")),
        ("", ("--to",)),
        ("12,,6,4", ("--to", "no length")),
        ("12x, 9, 6, 4", ("--to",)),
        ("large, 9, 6, 4", ("“large” is not a length",)),
    ],
)
def test_sizes_that_cannot_be_read_are_wrong_usage(
    sizes: str, words: tuple[str, ...], tmp_path: Path
) -> None:
    """The message says what was found and how it is written; nothing is written."""
    done = call("resize", HARBOUR, "--to", sizes, "-o", tmp_path / "new.toml")
    assert done.exit_code == 2
    assert all(word in done.output for word in words), done.output
    assert not list(tmp_path.iterdir())


def test_a_design_that_cannot_be_made_on_the_tins_is_refused(tmp_path: Path) -> None:
    """An upper tier wider than the one below: at the line of the new file, which is not written."""
    done = call("resize", HARBOUR, "--to", "6x5, 9, 6, 4", "-o", tmp_path / "new.toml")
    assert done.exit_code == 1
    assert "new.toml, line" in done.output
    assert not list(tmp_path.iterdir())
