"""Printers that were measured: what is read, what is refused, what is kept."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.cakefile import printer_store
from templates_gen.cakefile.lengths import LengthError, length_of
from templates_gen.cakefile.papers import Margins
from templates_gen.cakefile.printer_store import printer_named, printers_text, stored_printers
from templates_gen.cakefile.printers import Printer, measured
from templates_gen.errors import CakeError, FileError

READ = st.integers(145_500, 154_500).map(lambda micrometres: micrometres / 1000)


@pytest.mark.parametrize(
    "text",
    ["149.2 x 150.6", "149.2x150.6", "149,2 × 150,6", "149.2 mm x 150.6 mm", "14.92 x 15.06 cm"],
)
def test_two_bars_are_two_scales(text: str) -> None:
    """Across the page comes first; bare numbers are mm."""
    printer = measured("kitchen", text, None, None)
    assert (printer.across, printer.up) == pytest.approx((149.2 / 150, 150.6 / 150))


@pytest.mark.parametrize(
    ("text", "cause"),
    [
        ("141 x 141.2", "“fit to page”"),
        ("149 x 145", "“fit to page”"),
        ("156 x 157", "borderless"),
        ("14.92 x 15.06", "another unit"),
        ("5.9 x 5.9", "another unit"),
        ("99.3 x 99.6", "a bar of 100 mm: measure both bars of 150 mm on page 1"),
    ],
)
def test_a_wrong_setting_is_refused_with_its_cause(text: str, cause: str) -> None:
    """Outside 97 to 103 % no printer is to blame, and the likely setting is named."""
    with pytest.raises(LengthError) as caught:
        measured("kitchen", text, None, None)
    assert cause in caught.value.advice
    assert "%" in caught.value.found


@pytest.mark.parametrize("text", ["", "149.2", "149.2 x", "x 150", "149 x 150 x 151", "nan x 150"])
def test_what_is_no_two_lengths_is_refused(text: str) -> None:
    """The message shows how two bars are written."""
    with pytest.raises(LengthError, match=r"149.2 x 150.6"):
        measured("kitchen", text, None, None)


@settings(max_examples=25)
@given(st.dictionaries(st.sampled_from(["home", "Büro 2", 'a "b"']), st.tuples(READ, READ)))
def test_what_is_kept_is_read_back(
    tmp_path_factory: pytest.TempPathFactory, kept: dict[str, tuple[float, float]]
) -> None:
    """The file of printers holds all of them as they were measured."""
    file = tmp_path_factory.mktemp("config") / "printers.toml"
    margin = length_of(4.5)
    printers = {
        name: measured(name, f"{across} x {up}", margin, None)
        for name, (across, up) in kept.items()
    }
    file.write_text(printers_text(printers), encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(printer_store, "store_file", lambda: file)
        assert stored_printers() == printers
        for name in printers:
            assert printer_named(name.upper()) == printers[name]


def test_two_bars_stand_for_a_printer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Who has no name for a printer writes what its two bars read; a wrong setting is refused."""
    monkeypatch.setattr(printer_store, "store_file", lambda: tmp_path / "printers.toml")
    assert printer_named("147.75mm x 14,78cm") == Printer("147.75 x 147.8 mm", 0.985, 147.8 / 150)
    with pytest.raises(CakeError, match="“fit to page”") as caught:
        printer_named("141x141")
    assert caught.value.problems[0].key == ("printer",)
    with pytest.raises(CakeError, match=r"149.2 x 150.6"):
        printer_named("98.5 %")
    for one in ("148.95", "148.95 mm", "99.3"):
        with pytest.raises(CakeError, match="one length of two") as caught:
            printer_named(one)
        assert "across the page first" in caught.value.problems[0].advice


def test_a_printer_that_is_not_known_is_an_error(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is refused at the key printer, with the names there are and what to do."""
    monkeypatch.setattr(printer_store, "store_file", lambda: tmp_path / "printers.toml")
    assert printer_named(None) is None
    with pytest.raises(CakeError, match="templates-gen printer"):
        printer_named("kitchen")
    (tmp_path / "printers.toml").write_text("[kitchen]\nmeasured = '150 x 150'\n")
    with pytest.raises(CakeError, match=r"accepted .*kitchen\n.*did you mean “kitchen”"):
        printer_named("kitchn")


@pytest.mark.parametrize(
    "text",
    ["[", "kitchen = 3", "[kitchen]", "[kitchen]\nmeasured = 'x'", "[kitchen]\nmeasured = '1 x 2'",
     "[kitchen]\nmeasured = '150 x 150'\nmargin_sides = 'wide'"],
)  # fmt: skip
def test_a_broken_file_of_printers_is_an_error(
    text: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The message names the file and what to do; nothing is scaled by guess."""
    file = tmp_path / "printers.toml"
    file.write_text(text)
    monkeypatch.setattr(printer_store, "store_file", lambda: file)
    with pytest.raises(FileError, match=r"printers\.toml .* measure again"):
        printer_named("kitchen")


def test_margins_of_the_printer_come_first() -> None:
    """Of a margin that was not measured the cake's own holds."""
    assert Printer("a", 1, 1, 4.0).margins(Margins(7, 15)) == Margins(4, 15)
