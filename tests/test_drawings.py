"""What the program draws is what it drew: any change of a drawing is seen and can be read."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.shapes import SHAPES
from templates_gen.pieces.table import KINDS
from tests import drawings
from tests.drawings import COMMAND, FOLDER, SHOWN_LINES, changes, kept, left_over, renew

DRAWINGS = drawings.drawings()


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_is_the_one_that_is_kept(name: str) -> None:
    """Made again it is the same, to a hundredth of a mm."""
    found = changes(name, kept(name), DRAWINGS[name]())
    if found:
        more = [f"and {len(found) - SHOWN_LINES} lines more"] * (len(found) > SHOWN_LINES)
        advice = f"If this is what you want, run “{COMMAND}” and commit what it writes."
        pytest.fail("\n".join([*found[:SHOWN_LINES], *more, advice]), pytrace=False)


def test_every_drawing_kept_is_made() -> None:
    """No file is left over from a drawing that is no longer made."""
    assert not left_over(DRAWINGS), f"run “{COMMAND}”"


def test_every_kind_shape_and_design_is_drawn() -> None:
    """Each line of the tables of kinds, shapes and designs has its drawing."""
    drawn = {re.sub(r"-.*", "", name) for text in map(kept, DRAWINGS) for name in _kinds(text)}
    assert {re.sub(r"-.*", "", kind) for kind in KINDS} <= drawn
    assert {f"shape-{shape}.svg" for shape in SHAPES} <= {*DRAWINGS}
    assert {f"design-{kind}.svg" for kind in DESIGNS} <= {*DRAWINGS}


def _kinds(text: str) -> list[str]:
    return re.findall(r'<g id="[^"/]*/([^"]*)"', text)


def test_a_tenth_of_a_millimetre_is_seen_and_rounding_is_not() -> None:
    """A number may differ by its rounding, no more, and words not at all."""
    before = '<path class="cut" d="M0 0\nL10.12 -3"/>\n'
    assert not changes("a", before, before.replace("10.12", "10.13"))
    found = changes("a", before, before.replace("10.12", "10.22"))
    assert "-L10.12 -3" in "\n".join(found)
    assert "+L10.22 -3" in "\n".join(found)
    assert changes("a", before, before.replace("cut", "trim"))
    assert changes("a", before, before + "M0 0\n")
    assert changes("a", "", before)


def test_only_what_has_changed_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The command writes what is new or differs, removes what is no longer made, names both."""
    monkeypatch.setattr(drawings, "FOLDER", tmp_path)
    for name, text in {"same.svg": "L1.01 0", "other.svg": "L1.1 0", "old.svg": "L0 0"}.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    made = {"same.svg": lambda: "L1.02 0", "other.svg": lambda: "L1.2 0", "new.svg": lambda: "L2 0"}
    assert list(renew(made)) == ["other.svg", "new.svg", "old.svg (removed)"]
    assert {path.name: path.read_text(encoding="utf-8") for path in tmp_path.iterdir()} == {
        "same.svg": "L1.01 0",
        "other.svg": "L1.2 0",
        "new.svg": "L2 0",
    }


def test_reference_drawings_are_small() -> None:
    """All together they take no more than 2 MB of the repository."""
    assert sum(path.stat().st_size for path in FOLDER.glob("*.svg")) < 2_000_000
