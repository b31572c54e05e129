"""The plan by day: every step once, under its day, with a box to tick."""

from __future__ import annotations

from pathlib import Path

import pytest
from lxml import html

from templates_gen.bench.bench_list import bench
from templates_gen.bench.day_plan import BOX, as_html
from templates_gen.plan import make_plan
from tests.cakes import cake, sample_plan
from tests.cli.command import TIER, ask


@pytest.mark.parametrize("name", ["harbour-wedding", "naming-day"])
def test_every_step_is_on_the_page_once(name: str) -> None:
    """Each day has the steps of that day in their order, with or without a date."""
    found = bench(sample_plan(name))
    page = html.fromstring(as_html(found))
    days = [each["days_before"] for each in found["times"]]
    lists = page.findall(".//section")
    assert len(lists) == len(set(days))
    lines = [
        "".join(map(str, item.itertext())) for section in lists for item in section.findall(".//li")
    ]
    assert len(lines) == len(found["times"])
    for line, each in zip(lines, found["times"], strict=True):
        assert line.startswith(BOX)
        assert each["what"] in line
        assert (each["start"] or "T ")[11:16] in line


def test_what_is_written_in_a_cake_file_is_text(tmp_path: Path) -> None:
    """Signs of HTML in a title are shown, not read."""
    file = tmp_path / "plan.html"
    ask("bench", "-", "--plan", file, stdin=f"title = '<b>Ada & Joe'\n{TIER}")
    page = html.fromstring(file.read_text(encoding="utf-8"))
    assert page.findtext(".//h1") == "<b>Ada & Joe"


def test_like_steps_follow_the_cake_from_the_bottom_up() -> None:
    """Nothing says which tier is filled, coated, covered or dowelled first, so the lowest is."""
    text = "".join(
        f"[[tier]]\nname='{name}'\nsize='{size} in'\ndepth='5 in'\n"
        for name, size in (("bottom", 10), ("middle", 8), ("top", 6))
    )
    times = bench(make_plan(cake(text)))["times"]
    for stage in ("fill", "crumb coat", "coat", "cover", "prepare"):
        tiers = [each["tier"] for each in times if each["step"] == stage]
        assert tiers == ["bottom", "middle", "top"], stage
