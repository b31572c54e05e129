"""The pack mark: the same for the same pack, another for anything else that was asked."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

import pypdfium2
import pytest

from templates_gen import PAPERS, cake_from, write_manifest, write_pdf
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.papers import parse_papers
from templates_gen.cover.pack import make_pack, make_packs
from templates_gen.plan import make_plan
from templates_gen.sheets.pack_mark import CHARACTERS, pack_mark
from templates_gen.writers.svg import write_svg
from templates_gen.writers.svg_sheet import write_sheet_svg

LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M0 0h{}v9z"/></svg>'
TIER = {"size": "8 in", "depth": "4 in"}


def marked(data: Mapping[str, object], *papers: str, folder: Path | None = None) -> str:
    """Return the pack mark of a cake on papers."""
    return of(cake_from({"tier": [TIER], **data}, folder=folder), *papers)


def of(cake: Cake, *papers: str) -> str:
    """Return the pack mark of all pieces of a cake."""
    plan = make_plan(cake)
    return pack_mark(plan.digest, plan.pieces, parse_papers(papers or ["a4"]))


def test_written_otherwise() -> None:
    """A default that is written out, another spelling and the paper's other name change nothing."""
    plain = marked({})
    assert plain == marked({"title": "Cake", "unit": "in", "tier": [{**TIER, "size": "203.2mm"}]})
    assert plain == marked({"paper": "letter"}, "A4")


@pytest.mark.parametrize(
    "other",
    [
        {"note": "For Saturday"},
        {"margin_ends": "16 mm"},
        {"work": {"ready": "2027-06-19 14:00"}},
        {"tier": [{**TIER, "depth": "101.61 mm"}]},
        {"tier": [{**TIER, "lettering": [{"text": "Ann"}]}]},
    ],
)
def test_anything_else_that_is_asked(other: Mapping[str, object]) -> None:
    """Whatever is asked otherwise gives another pack mark."""
    assert marked({}) != marked(other)


def test_another_title_is_the_same_cake() -> None:
    """In a class many people have the same sheets, each under their own name."""
    assert marked({}) == marked({"title": "Other"})


def test_papers() -> None:
    """Each choice of papers has its own pack mark, as their sheets are laid out otherwise."""
    choices = (["a4"], ["letter"], ["both"], ["a4", "letter"], ["200.1x250.2mm"], ["200.1x250mm"])
    assert len({marked({}, *papers) for papers in choices}) == len(choices)


def test_attached_file(tmp_path: Path) -> None:
    """Another content of an attached file gives another pack mark, under the same name too."""
    topper = {"topper": [{"shape": "artwork", "file": "logo.svg"}]}
    found = set()
    for width in (8, 9, 8):
        (tmp_path / "logo.svg").write_text(LOGO.format(width))
        found.add(marked(topper, folder=tmp_path))
    assert len(found) == 2


def test_version(monkeypatch: pytest.MonkeyPatch) -> None:
    """Another version of the program gives another pack mark."""
    before = marked({})
    monkeypatch.setattr("templates_gen.sheets.pack_mark.VERSION", "99")
    assert marked({}) != before


def test_easily_compared() -> None:
    """It is five capitals or figures, none of which is taken for another, and spells no word."""
    for alike in ("O0DQ", "1IL", "2Z", "5S", "8B", "6G", "UV", "AEIOU"):
        assert len(set(alike) & set(CHARACTERS)) <= (alike != "AEIOU"), alike
    assert len(marked({})) == 5
    assert set(marked({})) <= set(CHARACTERS)


def test_everywhere() -> None:
    """Every sheet, the cover's words, the files of each form and the manifest have the mark."""
    cake = cake_from({"tier": [TIER]})
    plan = make_plan(cake)
    packs = make_packs(plan, ["both"])
    mark = of(cake, "both")
    for pack in packs:
        document = pypdfium2.PdfDocument(write_pdf(pack))
        texts = [page.get_textpage().get_text_range() for page in document]
        assert len(texts) == len(pack.sheets) > 1
        assert all(f"pack mark {mark}" in text for text in texts)
        assert f"All sheets of this pack carry the pack mark {mark}." in texts[0]
        assert json.loads(write_manifest(pack))["pack_mark"] == mark
        for sheet in pack.sheets:
            assert write_sheet_svg(pack, sheet).decode().count(f"pack mark {mark}") >= 2
    assert write_svg(plan.pieces[0], mark).decode().count(f"pack mark {mark}") == 1
    assert make_pack(plan, PAPERS["a4"]).pack_mark == of(cake, "a4")


def test_part_of_the_pieces() -> None:
    """Sheets with some of the pieces have another mark than those with all."""
    plan = make_plan(cake_from({"tier": [TIER]}))
    packs = [make_pack(plan, PAPERS["a4"], pieces=plan.pieces[:count]) for count in (0, 1, 2)]
    marks = {pack.pack_mark for pack in packs}
    assert len(marks) == 3
