"""What the page types for the decorator is what a cake file takes."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel

import templates_gen
from templates_gen.bench.bench_list import bench
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.cutting import Scatter, Topper
from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.keys import KeyInfo, keys_of, tables
from templates_gen.cakefile.lengths import UNITS, parse_length
from templates_gen.cakefile.reading import cake_from
from templates_gen.drawing.patterns import PATTERNS
from templates_gen.errors import CakeError, FileError
from templates_gen.plan import make_plan
from templates_gen.web.choices import ON_TIER, choices, pictures
from templates_gen.web.described import described
from templates_gen.web.examples import in_both_units
from templates_gen.web.files import opened
from templates_gen.web.form import FIRST, as_data, form
from templates_gen.web.labels import LABELS, name_of_word, place, worded
from templates_gen.web.lists import lists
from templates_gen.web.typed import converted, shaped, stack_of
from tests.cakes import SAMPLES
from tests.web.test_form import every

TIER = {"size": "8 in", "depth": "4 in"}
LINES: dict[str, list[tuple[str, str]]] = {
    "10x5, 8x6, 6x5, 4x4": [("10", "5"), ("8", "6"), ("6", "5"), ("4", "4")],
    "10x5,8 X 6": [("10", "5"), ("8", "6")],
    "4x4, 6×5": [("6", "5"), ("4", "4")],
    "20,5x10, 15,5 x 10": [("20,5", "10"), ("15,5", "10")],
    "25 x 10 cm; 20x10 cm": [("25 cm", "10 cm"), ("20 cm", "10 cm")],
    '8½ x 4"': [('8½ "', '4"')],
    "10 by 5,8by6": [("10", "5"), ("8", "6")],
    "10 by 5 8 by 5": [("10", "5"), ("8", "5")],
    "10x5 8x5 6x5": [("10", "5"), ("8", "5"), ("6", "5")],
    "10.5x5  8 1/2x5": [("10.5", "5"), ("8 1/2", "5")],
    "10 8 6": [("10", "4"), ("8", "4"), ("6", "4")],
    '10" 8" 6"': [('10"', '4"'), ('8"', '4"'), ('6"', '4"')],
    "8 1/2": [("8 1/2", "4")],
    "10, 8, 6 in": [("10 in", "4 in"), ("8 in", "4 in"), ("6 in", "4 in")],
    "10,8,6": [("10", "4"), ("8", "4"), ("6", "4")],
    "10, 8 and 6": [("10", "4"), ("8", "4"), ("6", "4")],
    "25 cm; 20,5 cm": [("25 cm", "10 cm"), ("20,5 cm", "10 cm")],
    "20,5": [("20,5", "4")],
    "10": [("10", "4")],
    "10x5, 8x6,": [("10", "5"), ("8", "6")],
    " ,10x5; 8x6 ;, ": [("10", "5"), ("8", "6")],
    "10, 8, ": [("10", "4"), ("8", "4")],
    "10, 8,": [("10", "4"), ("8", "4")],
    "25 cm x 12 cm; 20 cm": [("25 cm", "12 cm"), ("20 cm", "10 cm")],
    "10x5, 8, 6x5": [("10", "5"), ("8", "4"), ("6", "5")],
    "20,5x10, 15,5": [("20,5", "10"), ("15,5", "4")],
    "10in by 5in, 8in by 4in": [("10in", "5in"), ("8in", "4in")],
    "10 square, 8 heart, 6 in": [("10 in", "4 in"), ("8 in", "4 in"), ("6 in", "4 in")],
}


@pytest.mark.parametrize("line", LINES)
def test_a_line_makes_a_stack(line: str) -> None:
    """Sizes and depths from the bottom up, in any unit, with decimal commas or points."""
    tiers = stack_of(line, "in")
    assert [(each["size"], each["depth"]) for each in tiers] == LINES[line]
    cake_from({"unit": "in", "tier": tiers})


@pytest.mark.parametrize(
    ("line", "shapes"),
    [
        ("20 cm x 10 cm hexagon, 15 cm heart", [("polygon", 6), ("heart", None)]),
        ("octagon 10, circle 8", [("polygon", 8), ("round", None)]),
        ("14 sq, 12 in rd, 10x5 hex.", [("square", None), ("round", None), ("polygon", 6)]),
        ("10x5 pentagon, 8x5 rectangular", [("polygon", 5), ("rectangle", None)]),
    ],
)
def test_a_line_takes_the_names_of_shapes(line: str, shapes: list[tuple[str, int | None]]) -> None:
    """Also those of polygons by their sides, before a size or after it."""
    tiers = stack_of(line, "in")
    assert [(each["shape"], each.get("sides")) for each in tiers] == shapes
    cake_from({"unit": "in", "tier": tiers})


@pytest.mark.parametrize("word", ["hexogon", "furlongs", "qq"])
def test_a_word_that_says_nothing_of_a_tier_is_named(word: str) -> None:
    """With the units and shapes there are."""
    with pytest.raises(CakeError) as caught:
        stack_of(f"10x5 round, 8x5 {word}", "in")
    (problem,) = caught.value.problems
    assert problem.found == f"“{word}” is neither a unit nor a shape"
    assert "hexagon" in problem.allowed
    assert ("did you mean “hexagon”" in problem.advice) == (word == "hexogon")


@pytest.mark.parametrize(
    ("line", "short"),
    [
        ("24x18x10 oval", "18"),
        ("24 x 18 x 10 cm oval", "18 cm"),
        ("24x10 cm oval", "18 cm"),
        ("24 by 18 by 10 oval", "18"),
    ],
)
def test_the_short_side_is_typed_or_in_the_unit_of_the_long_one(line: str, short: str) -> None:
    """Between size and depth, where a shape has one."""
    (tier,) = stack_of(line, "in")
    assert tier["short"] == short
    assert tier["depth"].startswith("10")


@pytest.mark.parametrize(
    "line",
    [
        "",
        "a big one",
        "10 furlongs",
        "and",
        "10x",
        "10x5x4",
        "10 by 5 by 4",
        "10x5, x",
        "1x1," * 40,
        "5'' 1/2",
        "number 7",
        "10/8/6",
        "10, 8, 6, 5 in deep",
        "20/15",
    ],
)
def test_what_is_no_stack_is_refused(line: str) -> None:
    """With what would do, and in the words that were typed."""
    with pytest.raises(CakeError) as caught:
        stack_of(line, "in")
    (problem,) = caught.value.problems
    assert "10x5" in problem.allowed
    shown = problem.found.partition("“")[2].partition("”")[0]
    assert shown in line


@pytest.mark.parametrize("shape", ["oval", "square", "polygon", "petal", "heart", "custom", "ball"])
def test_a_shape_is_given_what_it_needs(shape: str) -> None:
    """A tier with it can be made."""
    tier: dict[str, Any] = {"size": "8", "depth": "4", "shape": shape}
    make_plan(cake_from({"unit": "in", "tier": [tier | shaped(tier, shape, "in")]}))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
def test_another_unit_is_the_same_cake(path: Path, unit: str) -> None:
    """Every length of every sample is as long as before."""
    data = opened(path.read_text("utf-8"), path.name)
    before, after = cake_from(data), cake_from(converted(data, unit))
    assert lengths(after) == pytest.approx(lengths(before), abs=1e-9)


def lengths(value: Any) -> list[float]:  # noqa: ANN401
    """Return all lengths of a cake, mm, in order."""
    if hasattr(value, "mm"):
        return [value.mm]
    if hasattr(value, "model_fields_set"):
        return [mm for name in type(value).model_fields for mm in lengths(getattr(value, name))]
    return [mm for each in value for mm in lengths(each)] if isinstance(value, tuple) else []


@given(st.integers(1, 4000), st.sampled_from(["in", "cm", "mm"]), st.sampled_from(["in", "cm"]))
def test_a_number_comes_back(sixteenths: int, unit: str, other: str) -> None:
    """From one unit to another and back it is as long as before."""
    data = {"unit": unit, "tier": [{"size": sixteenths / 16}]}
    back = converted(converted(data, other), unit)["tier"][0]["size"]
    before = sixteenths / 16 * float(UNITS[unit])
    assert parse_length(str(back), unit).mm == pytest.approx(before, abs=1e-9)


def test_artwork_has_a_picture_too() -> None:
    """A file of one's own is no example, and is yet seen among what there is to choose."""
    width, height = pictures()["artwork"]["size"]
    assert 0 < width < height


@pytest.mark.parametrize("unit", UNITS)
def test_every_choice_has_a_picture_and_can_be_made(unit: str) -> None:
    """Each example that is offered is drawn, and a tier with it, in any unit, is a cake."""
    drawn = pictures()
    for choice in choices():
        assert f"{choice.table}/{choice.name}" in drawn
        on_tier = choice.table not in ("topper", "cascade", "flower", "letter_cake")
        several = not on_tier or choice.table in ("design", "lettering", "scatter")
        found = choice.values_in(unit)
        assert all(found[key].endswith(f" {unit}") for key in choice.lengths)
        values: Any = [found] if several else found
        tier = ON_TIER | choice.beside | ({choice.table: values} if on_tier else {})
        make_plan(cake_from({"tier": [tier]} | ({} if on_tier else {choice.table: values})))


def test_examples_are_in_the_unit_of_the_cake() -> None:
    """None is in inches in a metric cake or in cm in another, and each is about as long."""
    lengths = [each for each in every(form()) if each.kind == "length"]
    for field, texts in zip(lengths, shown_examples(as_data(form())), strict=True):
        real = parse_length(field.example).mm
        for unit in UNITS:
            assert texts[unit].endswith(("mm", unit))
            assert parse_length(texts[unit]).mm == pytest.approx(real, rel=0.1)
        if abs(real) >= 20:  # thinner than that is in mm on any bench
            assert texts["in"].endswith("in")


@pytest.mark.parametrize(
    ("text", "unit", "words"),
    [
        ("30 mm", "in", "1 3/16 in (30 mm)"),
        ("30 mm", "cm", "30 mm"),
        ("3 in", "in", "3 in"),
        ("3 in", "cm", "76.2 mm (3 in)"),
        ("0.05 mm", "in", "0.05 mm"),
        ("", "in", ""),
    ],
)
def test_a_default_is_shown_in_the_unit_of_the_cake(text: str, unit: str, words: str) -> None:
    """With what it is in the file where that is another."""
    assert in_both_units(text, unit) == words


def test_what_has_no_default_is_not_called_automatic() -> None:
    """A note, a printer and prices say nothing where they are left out."""
    fields = {each.key: each for each in form()}
    assert not any(fields[key].automatic for key in ("note", "printer", "prices"))
    assert all(fields[key].automatic for key in ("paper", "drum", "estimates", "work"))


def shown_examples(fields: list[dict[str, Any]]) -> Iterator[dict[str, str]]:
    """Yield the examples of all fields of one length."""
    for field in fields:
        if field["kind"] == "length":
            yield field["example"]
        yield from shown_examples(field["fields"])


def test_labels_are_those_of_keys() -> None:
    """No label and no order is of a key that there is not; no two fields of a table look alike."""
    models: list[type[BaseModel]] = [Cake, *(table for _, table in tables())]
    known = {f"{model.__name__}.{key}" for model in models for key in keys_of(model)}
    assert set(LABELS) <= known | {name.partition(".")[2] for name in known}
    assert {f"{model.__name__}.{key}" for model, keys in FIRST.items() for key in keys} <= known
    for field in every(form()):
        labels = [each.label for each in field.fields if not each.only_by]
        assert len(set(labels)) == len(labels)


@pytest.mark.parametrize(("model", "table", "key"), [
    (Design, "design", "kind"), (Topper, "topper", "shape"), (Scatter, "scatter", "shape"),
])  # fmt: skip
def test_an_example_is_called_what_its_word_is(
    model: type[BaseModel], table: str, key: str
) -> None:
    """What is added as a fault line is not called a fault where it is changed."""
    for each in choices():
        if each.table == table:
            assert name_of_word(model, key, each.values[key]) == each.name


def test_assumptions_have_the_words_of_the_page() -> None:
    """No value of the list is called by a key, and no two alike, also in the words of the US."""
    for words in ("uk", "us"):
        plan = make_plan(cake_from({"words": words, "tier": [{"size": "8 in", "depth": "4 in"}]}))
        shown = lists(bench(plan), plan.terms)["bench"]
        (rows,) = (part["rows"] for part in shown if part["title"] == "Assumptions")
        names = [each.rsplit(": ", 1)[0] for row in rows for each in row[0].split("; ")]
        assert len(set(names)) == len(names) > 20
        assert not re.search(r"[a-z][_.][a-z]", " ".join(row[0] for row in rows))


def test_messages_have_the_words_of_the_page() -> None:
    """No key, no bracket and no sign of equality is left."""
    data = {"tier": [{"name": "bottom"}]}
    assert place(("tier", 0, "drips", "spacing"), data) == "Space between drips, Drips, bottom tier"
    assert place(("tier", 1, "depth"), data) == "Depth, tier 2"
    assert place(("tier", 0, "size"), {"tier": [{"name": "Tier 3"}]}) == "Size, Tier 3"
    told = worded('write cover = "panelled", or add [tier.drips]; not per_face', ("tier", 0))
    assert told == "write “Covering: top and side apart”, or add “Drips”; not “Panels on each face”"
    told = worded('write [tier.dowels] inset = "5 mm", count = 3: they', ("tier", 0, "size"))
    assert told == (
        "write “Distance in from the edge: 5 mm”, “Number of dowels: 3” under “Dowels”: they"
    )
    told = worded('write for example size = "8 in"', ("tier", 0, "size"))
    assert told == "write for example “8 in”"
    told = worded('write for example file = "leaf.svg"', ("tier", 0, "design", 0, "file"))
    assert told == "choose a file"
    told = worded('write for example depth = "4 in"', ("tier", 0, "depth"), "cm")
    assert told == "write for example “10 cm”"
    told = worded('write depth = "17 mm" or less', ("tier", 0, "depth"), "cm")
    assert told == "write “17 mm” or less"
    told = worded("write ready = 2027-06-19 14:00:00", ("work", "ready"))
    assert told == "write “2027-06-19 14:00:00”"
    assert worded("“drape”, “none”", ("tier", 0, "cover")) == "“draped in one sheet”, “no fondant”"
    depth = ("tier", 0, "depth")
    assert worded('write for example depth = "4 in"', depth) == "write for example “4 in”"
    sizes = ("cascade", 0, "sizes")
    assert worded('write sizes = ["2 cm", "9 mm"]', sizes) == "write “2 cm; 9 mm”"
    pattern = ("tier", 0, "drips", "pattern")
    assert worded(", ".join(PATTERNS), pattern).endswith("lengths you list, a line you draw")
    assert worded("did you mean “coating”?", ("tier", 0, "coatin")) == (
        "did you mean “Buttercream or ganache thickness”?"
    )


WRONG: tuple[object, ...] = (
    *("abc", "", "-3 mm", "900 m", -1e9, True, None),
    *([], {}, ["abc"], ["-3 mm"], [{}]),
)
"""What is right for hardly any key."""


def wrong_cakes() -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield cakes with each of these for each key of a cake file, and the name of that key."""

    def within(
        model: type[BaseModel], wrap: Callable[[dict[str, Any]], dict[str, Any]]
    ) -> Iterator[tuple[str, dict[str, Any]]]:
        for name, info in keys_of(model).items():
            for value in WRONG:
                yield name, wrap({name: value})
            if info.table is not None:

                def deeper(inner: dict[str, Any], info: KeyInfo = info) -> dict[str, Any]:
                    table = inner if info.name != "tier" else {**TIER, **inner}
                    return wrap({info.name: [table] if info.several else table})

                yield from within(info.table, deeper)

    return within(Cake, lambda cake: {"tier": [TIER], **cake})


def test_whatever_is_wrong_is_said_in_the_words_of_the_page() -> None:
    """For every key, in every unit: no fault of ours, no bracket, no sign of equality."""
    refused = set()
    for name, cake in wrong_cakes():
        try:
            cake_from(cake)
        except CakeError as error:
            refused.add(name)
            for each, unit in product(error.problems, ("", *UNITS)):
                for text in (each.found, each.allowed, each.advice):
                    told = worded(text, each.key, unit)
                    assert not {"[", "="} & set(told), (cake, told)
    models = (Cake, *(model for _, model in tables()))
    assert refused == {name for model in models for name in keys_of(model)}


def test_a_wrong_part_of_a_list_is_said_once() -> None:
    """A list of one wrong length is not said to be empty too, and the example has the key."""
    cake = {"tier": [TIER], "cascade": [{"shape": "leaf", "sizes": ["1 mm"]}]}
    with pytest.raises(CakeError) as error:
        cake_from(cake)
    (problem,) = (each for each in error.value.problems if "sizes" in each.key)
    assert problem.key == ("cascade", 0, "sizes", 0)
    assert problem.advice == 'write for example sizes = ["40 mm", "25 mm"]'
    assert worded(problem.advice, problem.key, "in") == "write for example “1½ in; 1 in”"


def test_a_line_in_an_unknown_unit_is_refused() -> None:
    """The unit is said, be it of a stack or of a shape."""
    for ask in (lambda: stack_of("10, 8", "q"), lambda: shaped(TIER, "heart", "q")):
        with pytest.raises(FileError, match="there is no unit “q”"):
            ask()


def test_help_has_the_words_of_the_page() -> None:
    """No help of a field has a key, a bracket or a sign of equality."""
    keys = "|".join({each for _, table in tables() for each in keys_of(table) if "_" in each})
    for field in every(form()):
        assert not re.search(rf"\b({keys})\b|\[|\b\w+ = ", field.help), field


@pytest.mark.parametrize("unit", UNITS)
def test_the_page_is_sent_what_it_writes_in_a_unit(unit: str) -> None:
    """A first tier that can be made, one on it that is smaller; examples of lists that are read."""
    known = described()["units"]
    assert isinstance(known, dict)
    first = known[unit]["first"]
    (tier,) = cake_from({"unit": unit, "tier": [first]}).tier
    assert 0 < known[unit]["smaller"] * known[unit]["mm"] < tier.size.mm / 2
    lists_of_lengths = [
        field["example"][unit] for field in _all(as_data(form())) if field["kind"] == "lengths"
    ]
    assert len(lists_of_lengths) > 1
    for example in lists_of_lengths:
        assert all(parse_length(part, unit).mm > 0 for part in example.split(";"))


def _all(fields: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    for field in fields:
        yield field
        yield from _all(field["fields"])


def test_scripts_know_no_unit_of_their_own() -> None:
    """Millimetres to a unit are sent by the server: no script has them."""
    static = Path(templates_gen.__file__).parent / "web" / "static"
    scripts = {file.name: file.read_text(encoding="utf-8") for file in static.glob("*.js")}
    assert "moving.js" in scripts
    assert not [name for name, text in scripts.items() if "25.4" in text]
