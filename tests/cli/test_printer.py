"""The command ``printer``: a check sheet, and the printers that are kept."""

from __future__ import annotations

import json
from pathlib import Path

import pypdfium2
import pytest

from templates_gen.cakefile import printer_store
from tests.cli.command import TIER, ask, call


@pytest.fixture(autouse=True)
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep printers in a folder of the test, and work in another one."""
    file = tmp_path / "config" / "templates-gen" / "printers.toml"
    monkeypatch.setattr(printer_store, "store_file", lambda: file)
    monkeypatch.setattr("templates_gen.cli.printer.store_file", lambda: file)
    monkeypatch.chdir(tmp_path)
    return file


def test_the_check_sheet() -> None:
    """Without an option it is one page that says what to type."""
    said = ask("printer")
    assert "Written: printer-check-a4.pdf" in said
    document = pypdfium2.PdfDocument(Path("printer-check-a4.pdf").read_bytes())
    assert len(document) == 1
    text = document[0].get_textpage().get_text_range()
    assert "--measured" in text
    assert text.count("150 mm (5.91 in)") == 2


@pytest.mark.parametrize("words", [["149.2 x 150.6"], ["149.2", "x", "150.6"], ["149.2x150.6"]])
def test_a_printer_is_kept_and_used(words: list[str]) -> None:
    """What was measured is kept by name; a pack for it says so, in quotes or not."""
    said = ask("printer", "--measured", *words, "--name", "kitchen", "--margin-sides", "5mm")
    assert "templates-gen pack CAKE.toml --printer kitchen" in said
    assert "149.2 mm across the page, 150.6 mm up the page" in ask("printer", "--list")
    ask("pack", "-", "--printer", "Kitchen", "--out", "out", stdin=TIER)
    manifest = json.loads(Path("out/cake-a4-kitchen.json").read_text())
    assert manifest["printer"]["across"] == pytest.approx(149.2 / 150)
    assert manifest["printer"]["margin_sides"] == 5


def test_a_cake_file_may_name_the_printer() -> None:
    """The key and the option give the same bytes; check and one-off commands know both."""
    ask("printer", "--measured", "149.2x150.6", "--name", "kitchen")
    ask("pack", "-", "--printer", "kitchen", "--out", "one", stdin=TIER)
    ask("pack", "-", "--out", "other", stdin=f"printer = 'kitchen'\n{TIER}")
    one, other = (Path(name, "cake-a4-kitchen.pdf").read_bytes() for name in ("one", "other"))
    assert one == other
    Path("cake.toml").write_text(f"printer = 'kitchen'\n{TIER}")
    assert "Ready: " in ask("check", "cake.toml")
    ask("disc", "--size", "6in", "--printer", "kitchen", "-o", "disc.pdf")
    text = pypdfium2.PdfDocument(Path("disc.pdf").read_bytes())[0].get_textpage()
    assert "for the printer “kitchen” only" in text.get_text_range()


def test_a_printer_that_is_not_kept_is_an_error() -> None:
    """It is refused at the option or at the line of the file, and nothing is written."""
    done = call("pack", "-", "--printer", "kitchen", stdin=TIER)
    assert done.exit_code == 1
    assert "option --printer" in done.stderr
    done = call("pack", "-", stdin=f"printer = 'kitchen'\n{TIER}")
    assert done.exit_code == 1
    assert "line 1" in done.stderr
    assert not list(Path().glob("cake*"))


def test_a_pack_without_a_printer_reads_no_store(store: Path) -> None:
    """A broken file of printers stops only those who name one."""
    store.parent.mkdir(parents=True)
    store.write_text("[")
    ask("check", "-", stdin=TIER)
    assert "printers.toml" in call("check", "-", "--printer", "home", stdin=TIER).stderr


def test_a_setting_that_was_wrong_is_not_kept(store: Path) -> None:
    """At 94 % “fit to page” was on: a usage error that says so."""
    done = call("printer", "--measured", "141x142")
    assert done.exit_code == 2
    assert "94 %" in done.stderr
    assert "fit to page" in done.stderr
    assert not store.exists()


def test_printers_are_removed() -> None:
    """A printer is forgotten by its name; one that is not there is an error."""
    ask("printer", "--measured", "150x150", "--name", "old")
    ask("printer", "--remove", "old")
    assert "No printer is saved" in ask("printer", "--list")
    assert call("printer", "--remove", "old").exit_code == 1


def test_the_check_sheet_of_a_kept_printer() -> None:
    """Its bars are longer in the file by what the printer takes off them."""
    ask("printer", "--measured", "147x150", "--name", "short")
    ask("printer", "--check", "short", "--paper", "letter")
    text = pypdfium2.PdfDocument(Path("printer-check-letter-short.pdf").read_bytes())[0]
    assert "must now read" in text.get_textpage().get_text_range().replace("\r\n", " ")


@pytest.mark.parametrize(
    "words",
    [
        ["--list", "--remove", "a"],
        ["--margin-sides", "5mm"],
        ["--measured", "150x150", "--name", " "],
        ["--measured", "150x150", "--name", "x" * 25],
        ["--measured"],
        ["--measured", "--list"],
    ],
)
def test_what_does_not_go_together_is_a_usage_error(words: list[str]) -> None:
    """The exit status is 2, and nothing is kept."""
    assert call("printer", *words).exit_code == 2
