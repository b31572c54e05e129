"""The handout: every step of the bench list, in order, on few pages."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2
import pytest

from templates_gen.bench.bench_list import bench
from templates_gen.cakefile.papers import parse_paper
from templates_gen.handout.contents import HandoutStep, handout
from templates_gen.handout.page import MARGIN, RULE, handout_pdf
from templates_gen.plan import make_plan
from templates_gen.printing.templates import by_piece, templates
from templates_gen.writers.pdf import POINTS_PER_MM
from tests.cakes import SAMPLES, cake, one_tier, sample, sample_plan
from tests.cli.command import ask, call
from tests.judges import run

TWO = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n[[tier]]\nsize = '6 in'\ndepth = '4 in'\n"
NAMES = [path.stem for path in SAMPLES]


def words(file: Path) -> str:
    """Return all words of a PDF."""
    document = pypdfium2.PdfDocument(file)
    texts = (page.get_textpage().get_text_bounded() for page in document)
    return " ".join(" ".join(texts).split())


def work_minutes(step: HandoutStep) -> int:
    """Return the minutes of work of a step: what it takes says the day, the work and the wait."""
    work = step.takes.split(" · ")[1].split(", then")[0]
    found = re.fullmatch(r"(?:(\d+) h)?\x20?(?:(\d+) min)?", work)
    assert found
    return 60 * int(found[1] or 0) + int(found[2] or 0)


@pytest.mark.parametrize("name", NAMES)
def test_every_step_is_there_once(name: str) -> None:
    """Steps done alike to several tiers are one, as are the bakes of a tier on a day.

    No minute and no template is lost.
    """
    plan = sample_plan(name)
    found, times, printed = handout(plan), bench(plan)["times"], by_piece(plan)
    assert [step.number for step in found.steps] == list(range(1, len(found.steps) + 1))
    assert sum(map(work_minutes, found.steps)) == sum(each["minutes"] for each in times)
    for each in times:
        (step,) = [
            step
            for step in found.steps
            if plan.terms.text(each["what"]) in step.words
            and step.title.startswith(
                "Bake" if each["stage"] == "bake" else each["step"].capitalize()
            )
            and each["tier"] in step.title
            and (f"{each['days_before']} day" in step.takes or not each["days_before"])
        ]
        said = [said for _, said in step.pieces]
        for piece in each["templates"]:
            for template in printed.get(piece, ()):
                title = template.title.partition(", ")[0]
                assert any(words.startswith(title) for words in said)
    assert set(plan.cautions) <= set(found.cautions)


def test_more_than_two_bakes_on_a_day_are_one_step_and_each_is_told() -> None:
    """Three tins of which one bakes at a time: the step names the first bake and the last."""
    hours = "[work]\nday_starts = 6\nday_ends = 23\n"
    plan = make_plan(one_tier(f"{hours}[estimates]\ntins_at_once = 1\n", "8 in", "6 in"))
    first, *others = handout(plan).steps
    assert first.title.startswith("Bake 1 to 3 of 3: ")
    assert first.words.count("bake 1 tin") == 3
    assert not any(step.title.startswith("Bake") for step in others)


@pytest.mark.parametrize("name", NAMES)
def test_notes_fill_what_is_left_of_the_last_page(name: str) -> None:
    """Ruled lines go from side to side, and on down to where one more has no room."""
    found = sample_plan(name)
    document = pypdfium2.PdfDocument(handout_pdf(found, handout(found), parse_paper("a4")))
    page = document[len(document) - 1]
    width, margin = page.get_width(), MARGIN * POINTS_PER_MM
    lines = [
        each.get_bounds()
        for each in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH])
        if each.get_bounds()[3] - each.get_bounds()[1] < 2
    ]
    x0, y0, x1, _ = min(lines, key=lambda bounds: bounds[1])
    assert (x0, x1) == pytest.approx((margin, width - margin), abs=2)
    assert margin - 2 < y0 < margin + (RULE + 1) * POINTS_PER_MM


@pytest.mark.parametrize("name", NAMES)
def test_it_fits_on_two_pages(name: str, tmp_path: Path) -> None:
    """Title, steps, cautions and room for notes, all on the paper."""
    out = tmp_path / "handout.pdf"
    (file,) = (path for path in SAMPLES if path.stem == name)
    ask("handout", file, "-o", out)
    assert "No syntax or stream encoding errors" in run("qpdf", "--check", out)
    document = pypdfium2.PdfDocument(out)
    assert len(document) <= 2
    said = words(out)
    for text in ("Have ready", "Steps", "Take care", "Notes", sample(name).title):
        assert text in said
    for page in document:
        width, height = page.get_size()
        text = page.get_textpage()
        for index in range(text.count_chars()):
            x0, y0, x1, y1 = text.get_charbox(index, loose=True)
            assert 0 <= x0 <= x1 <= width
            assert 0 <= y0 <= y1 <= height


TIER = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"


@pytest.mark.parametrize(
    ("paper", "size"),
    [
        ("Letter", (216, 279)),
        ("US Letter", (216, 279)),
        ("Both", (210, 297)),
        ("200 mm x 300 mm", (200, 300)),
        ("roll 610 mm", (210, 297)),
    ],
)
def test_it_is_on_the_paper_of_the_cake(paper: str, size: tuple[int, int], tmp_path: Path) -> None:
    """However the cake file writes it; beside a roll, which takes no words, it is A4."""
    output = tmp_path / "handout.pdf"
    ask("handout", "-", "-o", output, stdin=f'paper = "{paper}"\n{TIER}')
    width, height = pypdfium2.PdfDocument(output)[0].get_size()
    assert (round(width / POINTS_PER_MM), round(height / POINTS_PER_MM)) == size


def test_the_web_page_says_the_same(tmp_path: Path) -> None:
    """Every step, with the picture in the file, and signs of a title are no tags."""
    cake = tmp_path / "cake.toml"
    cake.write_text(
        'title = "A & B <i>"\n[[tier]]\nsize = "8 in"\ndepth = "4 in"\n', encoding="utf-8"
    )
    out = tmp_path / "handout.html"
    ask("handout", cake, "-o", out)
    page = out.read_text(encoding="utf-8")
    assert "<svg" in page
    assert "A &amp; B &lt;i&gt;" in page
    assert "<i>" not in page
    assert page.count("<li><strong>") >= 5


def test_another_ending_is_refused(tmp_path: Path) -> None:
    """The message says which there are."""
    done = call("handout", SAMPLES[0], "-o", tmp_path / "handout.docx")
    assert done.exit_code == 2
    assert ".pdf, .html" in done.output


def test_words_of_the_us(tmp_path: Path) -> None:
    """Where a cake says so, nothing of the handout is in words of the UK."""
    cake = tmp_path / "cake.toml"
    cake.write_text(
        'words = "us"\n[[tier]]\nsize = "8 in"\ndepth = "4 in"\ncover = "panelled"\n'
        '[tier.panels]\nmould = "60 mm"\nheight = "30 mm"\n',
        encoding="utf-8",
    )
    ask("handout", cake, "-o", tmp_path / "us.pdf")
    ask("handout", cake, "--set", "words=uk", "-o", tmp_path / "uk.pdf")
    assert re.search("mould|colour|centre|panelled", words(tmp_path / "uk.pdf"))
    assert not re.search("mould|colour|centre|panelled|sugar paste", words(tmp_path / "us.pdf"))


def test_a_student_is_told_of_the_papers_there_are() -> None:
    """Tape, repeat and each petal once, as in the pack: no collar, and no sheet for each flower."""
    spec = one_tier(
        '[[tier.design]]\nkind = "swags"\ncount = 8\n[[flower]]\nkind = "daisy"\ncount = 5\n'
        "wired = false\n"
    )
    plan = make_plan(spec)
    said = [words for step in handout(plan).steps for _, words in step.pieces]
    assert not [words for words in said if "collar" in words or "cut 5" in words]
    titles = {piece.title for piece in templates(plan) if piece.printed}
    assert {"tier 1: tape, quarter on the fold", "tier 1: repeat"} <= titles
    assert [words for words in said if words.startswith("tier 1: repeat, cut 1")]
    assert [words for words in said if words.startswith("flower 1: daisy, petals, cut 1")]


def test_a_guide_for_the_drum_is_used_where_tiers_are_stacked() -> None:
    """And that of a tier where its dowels are set."""
    plan = make_plan(cake(TWO))
    steps = {step.title: [words for _, words in step.pieces] for step in handout(plan).steps}
    (dowel,) = (words for title, words in steps.items() if title.startswith("Dowel"))
    (stack,) = (words for title, words in steps.items() if title.startswith("Stack"))
    assert [words for words in dowel if words.startswith("tier 1: placement guide")]
    assert [words for words in stack if words.startswith("drum: placement guide")]
    assert not [words for words in dowel if words.startswith("drum")]
