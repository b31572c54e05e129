"""Words that differ by place: a cake of the US reads so on paper, in its lists and in messages."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen import PAPERS, make_pack, make_plan
from templates_gen.bench.bench_list import bench
from templates_gen.bench.day_plan import as_html
from templates_gen.bench.report import bench_table
from templates_gen.cakefile.reading import cake_from
from templates_gen.drawing.fonts import text_width
from templates_gen.errors import CakeError
from templates_gen.sheets.pack import Pack
from templates_gen.terms import US, Terms
from tests.cakes import cake

CAKE = """
words = "{}"
title = "The centre of Grantham"
[[tier]]
name = "colour wheel"
size = "9 in"
depth = "4 in"
[tier.panels]
mould = "160 mm"
"""
SPELLINGS = re.compile(rf"\b({'|'.join(map(re.escape, US))})\b", re.IGNORECASE)


def written(pack: Pack) -> Iterator[str]:
    """Yield all that is written on the sheets of a pack and their pieces."""
    for sheet in pack.sheets:
        drawings = [sheet.drawing, *(window.piece.drawing for window in sheet.windows)]
        yield from (label.text for drawing in drawings for label in drawing.labels)


def without_own_words(text: str) -> str:
    """Return a text without the title and the name that the decorator gave."""
    return text.replace("The centre of Grantham", "").replace("colour wheel", "")


def test_paper_and_lists_of_the_us() -> None:
    """Sheets, pieces, warnings and the bench list have its spelling; names stay as they are."""
    uk, us = (make_plan(cake(CAKE.format(place))) for place in ("uk", "us"))
    texts = []
    for plan in (uk, us):
        said = list(written(make_pack(plan, PAPERS["a4"])))
        said += [each.text for each in plan.warnings()]
        said += [f"{piece.title} {piece.use} {piece.instead}" for piece in plan.pieces]
        texts.append("\n".join([*said, bench_table(bench(plan), plan.terms)]))
    assert {"mould", "centre"} <= set(SPELLINGS.findall(without_own_words(texts[0])))
    assert ["(sugar" in text for text in texts] == [True, False]
    assert not SPELLINGS.findall(without_own_words(texts[1]))
    assert {"mold", "center"} <= set(re.findall(r"\w+", texts[1]))
    assert texts[1].count("colour wheel") == texts[0].count("colour wheel") > 3


def test_messages_of_the_us() -> None:
    """What goes wrong is told in its words, with keys and values as the file has them."""
    data = {
        "words": "us",
        "tier": [{"size": "8 in", "depth": "4 in", "panels": {"replace_wrap": True}, "mold": 1}],
    }
    with pytest.raises(CakeError) as caught:
        cake_from(data)
    wrap, unknown = sorted(caught.value.problems, key=lambda problem: "mold" in problem.key)
    assert wrap.allowed == "replace_wrap = true on a paneled tier only"
    assert wrap.advice == 'write cover = "panelled", or leave replace_wrap out'
    assert "colour" in unknown.allowed


DATED = """
words = "{}"
title = "Party on 15 June at 16:30"
[work]
ready = 2027-06-15 16:30:00
[[tier]]
size = "8 in"
depth = "4 in"
"""


def test_days_hours_and_weights_of_the_us() -> None:
    """Lists there have June 13 at 1:45 pm and pounds first; a calendar and the title stay."""
    uk, us = (make_plan(cake(DATED.format(place))) for place in ("uk", "us"))
    lists = [bench_table(bench(plan), plan.terms) for plan in (uk, us)]
    pages = [as_html(bench(plan), plan.terms) for plan in (uk, us)]
    for text in (*lists, *pages):
        assert "Party on 15 June at 16:30" in text
    said, page = (text.replace("Party on 15 June at 16:30", "") for text in (lists[1], pages[1]))
    assert "Sun 13 Jun 12:15" in lists[0]
    assert "Sun Jun 13 12:15 pm" in said
    assert "Sunday 13 June 2027, 2 days before" in pages[0]
    assert "Sunday, June 13, 2027, 2 days before" in page
    assert "<b>8:00 am</b>" in page
    assert not re.search(r"\b[012]\d:\d\d\b(?! [ap]m)", said + page)
    assert "of it 410 g (14½ oz) comes back" in lists[0]
    assert "of it 14½ oz (410 g) comes back" in said


@pytest.mark.parametrize(
    ("uk", "us"),
    [
        ("00:00", "12:00 am"),
        ("12:05", "12:05 pm"),
        ("Start by Friday 23:59.", "Start by Friday, 11:59 pm."),
        ("1 May 2027", "May 1, 2027"),
        ("carry 8 kg (17 lb 10 oz)", "carry 17 lb 10 oz (8 kg)"),
    ],
)
def test_a_day_an_hour_or_a_weight_is_turned_once(uk: str, us: str) -> None:
    """Said twice it is as said once, and what a cake file takes, a ratio or a scale stays."""
    terms = Terms("us", ("tier 14:00",))
    assert terms.text(uk) == us == terms.text(us)
    assert Terms().text(uk) == uk
    for kept in ("2027-06-19 14:00:00", "2027-06-19 14:00", "1:35", "tier 14:00", "part 1 may be"):
        assert terms.text(kept) == kept


def test_a_word_of_the_us_has_room() -> None:
    """None is wider on paper, so what was laid out for the UK's words fits."""
    for bold in (False, True):
        for uk, us in US.items():
            assert text_width(us, 3.0, bold=bold) <= text_width(uk, 3.0, bold=bold)


@given(st.lists(st.sampled_from([*US, "Colour", "dummy", "“centre”", "recentred"])))
def test_a_text_said_twice_is_said_once(words: list[str]) -> None:
    """What is in the words of a place stays; whole words alone are put into them."""
    terms = Terms("us")
    said = terms.text(" ".join(words))
    assert terms.text(said) == said
    assert Terms().text(" ".join(words)) == " ".join(words)
    for word in ("“centre”", "recentred", "dummy"):
        assert said.split().count(word) == words.count(word)


@pytest.mark.parametrize("word", ["centre", "Centre", "CENTRE"])
def test_a_word_keeps_its_capitals(word: str) -> None:
    """What is written along a line in capitals is so in the spelling of the US too."""
    assert Terms("us").text(f"{word} line") == f"{word[:-2]}{'ER' if word.isupper() else 'er'} line"
