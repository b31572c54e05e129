"""Reading a cake file: on which line a key stands, and what is read from where."""

from __future__ import annotations

import io
import re
import sys
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.reading import cake_from, decoded, parse_cake, read_cake, read_text
from templates_gen.cakefile.source import CakeText
from templates_gen.errors import CakeError, FileError, Key, key_text
from tests.cakes import cake

TIER = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"


@dataclass(frozen=True)
class Statement:
    """A statement of a cake file: its lines, and the keys it introduces on the first of them."""

    lines: tuple[str, ...]
    keys: tuple[Key, ...]


FILLERS = st.lists(
    st.sampled_from(
        ["", "   ", "# size = '1 in'", "# [[tier]]", "\t# '''", '# """ "', "# \u2028[tier]"]
    ),
    max_size=4,
)
VALUES = st.sampled_from(
    [
        ("'8 in'",),
        ("8",),
        ('"8 in # not a comment"',),
        ("'''", "size = '9 in'", "[[tier]]'''"),
        ('"""', "depth = 3 \\", "", '[tier.panels]"""'),
        ("[", "  1,", "  # note", "  [2, '''", "]''']", "]"),
        ("{ a = 1, b = { c = 2 } }",),
        ("1979-05-27T07:32:00Z",),
    ]
)


def assigned(owner: Key, name: str, value: tuple[str, ...], spelling: str) -> Statement:
    """Return the statement that gives a key of ``owner`` a value."""
    first = f"{spelling.format(name)} = {value[0]}"
    key = (*owner, name)
    inner = [(*key, "a"), (*key, "b"), (*key, "b", "c")] if value[0].startswith("{") else []
    return Statement((first, *value[1:]), (key, *inner))


@st.composite
def statements(draw: st.DrawFn) -> list[Statement]:
    """Return the statements of a document with tiers and tables, each key once."""
    made: list[Statement] = []

    def fill(owner: Key, names: str) -> None:
        for name in draw(st.lists(st.sampled_from(names.split()), unique=True, max_size=3)):
            spelling = draw(st.sampled_from(["{}", "'{}'", '"{}"', "  {}"]))
            made.append(assigned(owner, name, draw(VALUES), spelling))

    fill((), "title note unit")
    if draw(st.booleans()):
        made.append(Statement(("drum.size = 1",), (("drum",), ("drum", "size"))))
        made.append(Statement(("drum.colour = 2",), (("drum", "colour"),)))
    for place in range(draw(st.integers(0, 3))):
        owner: Key = ("tier", place)
        made.append(Statement(("[[tier]]",), (("tier",), owner) if place == 0 else (owner,)))
        fill(owner, "size depth name")
        for part in draw(st.lists(st.sampled_from(["panels", "drips"]), unique=True)):
            made.append(Statement((f"[ tier . {part} ]",), ((*owner, part),)))
            fill((*owner, part), "count width shuffle")
    return made


@given(statements(), st.data(), st.sampled_from(["\n", "\r\n"]), st.booleans())
def test_line_of_a_key(
    document: list[Statement], data: st.DataObject, end: str, ended: bool
) -> None:
    """The line of a key is the first of its statement, whatever stands above it."""
    lines: list[str] = []
    places: dict[Key, int] = {}
    for statement in document:
        lines += data.draw(FILLERS)
        places.update(dict.fromkeys(statement.keys, len(lines) + 1))
        lines += statement.lines
    text = end.join(lines) + (end if ended else "")
    tomllib.loads(text)
    source = CakeText("cake.toml", text)
    assert {key: source.line(key) for key in places} == places


@pytest.mark.parametrize(
    ("key", "line"),
    [
        (("tier", 0, "trim"), 2),
        (("tier", 0, "panels", "count"), 2),
        (("tier", 1, "depth"), 5),
        (("tier", 1, "drips", "shuffle"), 7),
        (("tier", 2), 2),
        (("drum", "size"), 1),
        ((), 1),
    ],
)
def test_line_of_what_is_missing(key: Key, line: int) -> None:
    """A key that is not there is shown where its table starts, or at the top."""
    text = f"# a cake\n{TIER}[[tier]]\nsize = '6 in'\n[tier.drips]\n"
    assert CakeText("cake.toml", text).line(key) == line


@pytest.mark.parametrize("text", ["", "\n", "# only a comment", "title = 'a'"])
def test_line_in_next_to_nothing(text: str) -> None:
    """A file of next to nothing has line 1."""
    assert CakeText("cake.toml", text).line(("tier",)) == 1


@pytest.mark.parametrize(
    ("key", "place"),
    [
        (("tier", 0, "size"), "cake.toml, line 2: tier 1, size"),
        (("tier", 0), "cake.toml, line 1: tier 1"),
        (("title",), "cake.toml, line 1: title"),
        ((), "cake.toml, line 1"),
    ],
)
def test_place(key: Key, place: str) -> None:
    """A place is told as file, line and key, tiers counted from 1."""
    assert CakeText("cake.toml", TIER).where(key) == place


@pytest.mark.parametrize(
    "text",
    [
        "".join(f"k{number} = 1\n" for number in range(1000)) + TIER,
        "k = '''\n" + "a = 1\n[[tier]]\n" * 500 + "'''\n" + TIER,
        "k = [\n" + "  '[', # [\n" * 500 + "]\n" + TIER,
        "".join(f"[[tier]]\nname = 't{n}'\n[tier.drips]\nshuffle = -1\n" for n in range(500)),
    ],
    ids=["lines", "long text", "long list", "tiers"],
)
def test_read_once(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """All lines of a file are found in one reading of it, however many keys are looked up."""
    source = CakeText("cake.toml", text)
    read: list[str] = []
    real = tomllib.loads

    def counted(part: str) -> object:
        read.append(part)
        return real(part)

    monkeypatch.setattr(tomllib, "loads", counted)
    for place in range(500):
        source.line(("tier", place, "depth"))
        source.line(("tier", place, "drips", "shuffle"))
    assert "".join(read) == text + "\n"


@pytest.mark.parametrize(
    ("above", "lines"),
    [
        ("'a.b'.c = 1", 1),
        ('"""a\\""" # [""" ', 1),
        ("k = '''\n[[tier]]'''''", 2),
        ('k = """\n\\"""\n""""" # \'\'\'', 3),
        ("k = {a = '}', \"b\" = [{}, ['[']]}", 1),
    ],
)
def test_line_below_odd_texts(above: str, lines: int) -> None:
    """Quotes, brackets and comment signs in texts do not move what stands below them."""
    above = above if "=" in above else f"k = {above}"
    assert CakeText("cake.toml", f"{above}\n{TIER}").line(("tier", 0, "depth")) == lines + 3


def test_line_in_lists_of_lists() -> None:
    """Each list of tables counts for itself, and begins anew in the next tier."""
    text = "[[tier]]\n[[tier.mark]]\na = 1\n[[tier.mark]]\n[tier.mark.at]\nb.c = 2\n" * 2
    keys: list[Key] = [
        ("tier", 1),
        ("tier", 1, "mark", 0, "a"),
        ("tier", 1, "mark", 1),
        ("tier", 1, "mark", 1, "at"),
        ("tier", 1, "mark", 1, "at", "b", "c"),
    ]
    assert [CakeText("cake.toml", text).line(key) for key in keys] == [7, 9, 10, 11, 12]


@pytest.mark.parametrize(
    ("key", "text"),
    [
        (("tier", 1, "drips", "width"), "tier 2, drips.width"),
        (("tier", 1, "designs", 0, "width"), "tier 2, designs 1, width"),
        (("tier", 0, "designs", 2, "at", 1), "tier 1, designs 3, at 2"),
        (("tier", 0), "tier 1"),
        (("drum", "size"), "drum.size"),
        ((), ""),
    ],
)
def test_key_in_words(key: Key, text: str) -> None:
    """Every list of a key counts from 1, as people do."""
    assert key_text(key) == text


@pytest.mark.parametrize("key", ['"a"' + ".b" * 4000, "x = { a" + ".b" * 4000])
def test_deep_key(key: str) -> None:
    """A key of thousands of parts is refused with its line, also behind a quote and in a table."""
    with pytest.raises(FileError, match=r"cake.toml, line 5: a key of too many parts"):
        parse_cake(CakeText("cake.toml", f"a = '''\r\n\r\n'''\r\n\r\n{key} = 1\r\n"))


def test_problems_in_order() -> None:
    """The problems of a file come in the order of its lines, each with its key."""
    text = "[[tier]]\ndepth = 'x'\nzzz = 1\nsize = 'y'\n"
    with pytest.raises(CakeError) as caught:
        cake(text)
    assert [problem.key[-1] for problem in caught.value.problems] == ["depth", "zzz", "size"]
    assert [line for line in str(caught.value).splitlines() if line.startswith("test.toml")] == [
        "test.toml, line 2: tier 1, depth",
        "test.toml, line 3: tier 1, zzz",
        "test.toml, line 4: tier 1, size",
    ]


def test_path_or_text(tmp_path: Path) -> None:
    """A cake is the same from a path, from the name of a file, and from its text."""
    path = tmp_path / "cake.toml"
    path.write_text(TIER)
    assert read_cake(path) == read_cake(str(path)) == cake(TIER)


def test_standard_input(monkeypatch: pytest.MonkeyPatch) -> None:
    """A dash is standard input, and its problems say so."""
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(b"tier = 1")))
    with pytest.raises(CakeError, match="standard input, line 1: tier"):
        read_cake("-")


def test_no_standard_input(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where standard input is closed, that is a file that cannot be read."""
    monkeypatch.setattr(sys, "stdin", None)
    with pytest.raises(FileError, match="standard input"):
        read_text("-")


@pytest.mark.parametrize("name", ["none.toml", ".", "a\0b", "x" * 5000])
def test_no_file(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is no file, or cannot be one, is a FileError that says how to start."""
    monkeypatch.chdir(tmp_path)
    with pytest.raises(FileError, match=r"cannot be read.*templates-gen new"):
        read_cake(name)


@pytest.mark.parametrize("name", ["cake", "caek.toml", "in/cake.tmol", "Cake.toml.toml"])
def test_a_name_that_is_nearly_that_of_a_file(name: str, tmp_path: Path) -> None:
    """The message suggests it, with its folder; a file that cannot be read gets no suggestion."""
    (tmp_path / "in").mkdir()
    for each in ("cake.toml", "in/cake.toml", "other.toml"):
        (tmp_path / each).write_text(TIER)
    meant = (tmp_path / name).with_name("cake.toml")
    with pytest.raises(FileError, match=rf"Did you mean {re.escape(str(meant))}\? Check the name"):
        read_cake(tmp_path / name)
    (tmp_path / "cakes.toml").mkdir()
    for far in ("wedding.toml", "cakes.toml"):
        with pytest.raises(FileError) as caught:
            read_cake(tmp_path / far)
        assert "Did you mean" not in str(caught.value)


def test_byte_order_mark() -> None:
    """A byte order mark is taken off, so line 1 is line 1 of the text."""
    assert decoded(b"\xef\xbb\xbf" + TIER.encode(), "cake.toml") == CakeText("cake.toml", TIER)


@given(st.binary(max_size=80) | st.text("[]{}='\"#.\n tier8in\0é", max_size=80).map(str.encode))
def test_nothing_else_is_raised(content: bytes) -> None:
    """Any bytes are a cake, or an error on purpose that names the file."""
    try:
        parse_cake(decoded(content, "cake.toml"))
    except (CakeError, FileError) as error:
        message = str(error)
    else:
        message = "cake.toml"
    assert message.startswith("cake.toml")


def test_drum_without_a_sheet() -> None:
    """A drum has a placement guide unless the cake file says it needs none."""
    assert cake(TIER).drum.guide is True
    assert cake(f"drum.guide = false\n{TIER}").drum.guide is False


PLAIN = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8) | st.binary()
DATA = st.recursive(
    PLAIN,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["tier", "size", "depth", "unit", "drum", "drips"]), inner
        )
    ),
    max_leaves=12,
)


@given(DATA | st.fixed_dictionaries({"tier": st.lists(st.dictionaries(st.text(), PLAIN))}))
def test_values_from_anywhere(data: Any) -> None:  # noqa: ANN401 (that is the test)
    """Values that come from no file are a cake, or an error that tells each problem by its key."""
    message, problems = "", []
    try:
        cake_from(data)
    except CakeError as error:
        message, problems = str(error), list(error.problems)
    assert bool(message) == bool(problems)
    keys = [key_text(problem.key).replace("\n", "\\n") for problem in problems]
    assert all(key in message for key in keys)


def test_values_with_a_problem() -> None:
    """Without a source, a problem is told by its key alone."""
    with pytest.raises(CakeError, match=r"^tier 2, size\n  problem +“8 ft”"):
        cake_from({"tier": [{"size": "8 in", "depth": "4 in"}, {"size": "8 ft", "depth": "4 in"}]})


def test_a_top_edge_guide_on_a_sloped_top_is_refused_at_its_key() -> None:
    """The problem is said of the key that is wrong, which is one of the table."""
    text = "shallowest_depth = '3 in'\n[tier.drips]\nguide = 'both'\n"
    with pytest.raises(CakeError) as caught:
        cake(TIER + text)
    assert [problem.key for problem in caught.value.problems] == [("tier", 0, "drips", "guide")]
