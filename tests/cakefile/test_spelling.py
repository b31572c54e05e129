"""Words of the trade for those of a cake file: what was meant is asked for by its own name."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import pytest
from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.cascades import Cascade
from templates_gen.cakefile.cutting import Scatter, Topper
from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.drips import Drips
from templates_gen.cakefile.drum import Drum
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.flowers import Flower
from templates_gen.cakefile.gores import Gores
from templates_gen.cakefile.keys import keys_of
from templates_gen.cakefile.letter_cakes import LetterCake
from templates_gen.cakefile.lettering import FACES, Lettering
from templates_gen.cakefile.opening import Opening
from templates_gen.cakefile.paint import Paint
from templates_gen.cakefile.panels import Panels
from templates_gen.cakefile.portions import Portions
from templates_gen.cakefile.position import Position
from templates_gen.cakefile.shape_keys import BALL
from templates_gen.cakefile.spelling import MEANT, hint
from templates_gen.cakefile.supports import Dowels
from templates_gen.cakefile.tier import Tier
from templates_gen.cakefile.work import Work
from templates_gen.drawing.cutouts import CUTOUTS
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.patterns import PATTERNS
from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import CakeError
from tests.cakes import one_tier

MODELS: dict[str, type[BaseModel]] = {
    "cake": Cake,
    "drum": Drum,
    "tier": Tier,
    "position": Position,
    "dowels": Dowels,
    "panels": Panels,
    "drips": Drips,
    "opening": Opening,
    "gores": Gores,
    "flower": Flower,
    "design": Design,
    "lettering": Lettering,
    "paint": Paint,
    "portions": Portions,
    "estimates": Estimates,
    "work": Work,
    "scatter": Scatter,
    "topper": Topper,
    "cascade": Cascade,
    "letter_cake": LetterCake,
}
KEYS = {name: list(model.model_fields) for name, model in MODELS.items()}
SAID = (
    *(("tier", word, "size") for word in ("diameter", "width", "across", "Tin", "tin_size")),
    *(("tier", word, "depth") for word in ("height", "tall")),
    *(("tier", word, "fondant") for word in ("paste", "icing", "sugarpaste", "sugar-paste")),
    *(("tier", word, "fondant") for word in ("marzipan", "Icing")),
    *(("tier", word, "coating") for word in ("ganache", "buttercream", "crumb")),
    ("cake", "name", "title"),
    ("cake", "board", "drum"),
    ("cake", "garland", "cascade"),
    ("cake", "number_cake", "letter_cake"),
    ("panels", "depth", "height"),
    ("panels", "courses", "rows"),
    ("drips", "gap", "spacing"),
)


def choices() -> Iterator[list[str]]:
    """Yield every list of words that can stand side by side: keys of a table, words of a value."""
    yield from KEYS.values()
    yield list(PATTERNS)
    yield [*SHAPES, BALL]
    yield list(DESIGNS)
    yield list(FACES)
    yield list(CUTOUTS)
    for model in MODELS.values():
        for info in keys_of(model).values():
            yield list(info.words)


@pytest.mark.parametrize(("table", "word", "key"), SAID)
def test_said_for_a_key(table: str, word: str, key: str) -> None:
    """A word that is said for a key leads to the key, however it is spelt."""
    assert hint(word, KEYS[table]) == f"did you mean “{key}”?"


@pytest.mark.parametrize(
    ("shape", "word", "key"),
    [
        *(("oval", "width", "short"), ("rectangle", "Wide", "short"), ("oval", "length", "size")),
        *(("round", "width", "size"), ("square", "width", "size")),
    ],
)
def test_the_sides_of_an_oval_are_its_own_keys(shape: str, word: str, key: str) -> None:
    """Its width is the shorter side; the width of a round tier is its size."""
    with pytest.raises(CakeError, match=f"did you mean “{key}”"):
        one_tier(f"shape = '{shape}'\n{word} = '6 in'")


def test_no_word_is_known_already() -> None:
    """Nothing is said for a word where it is itself one of the words to choose from."""
    for known in choices():
        said = [word for each in known for word in MEANT.get(each, ())]
        assert not set(said) & set(known), known


def test_one_meaning() -> None:
    """Among the words to choose from, no two are meant by the same."""
    for known in choices():
        for one, other in combinations(known, 2):
            assert not set(MEANT.get(one, ())) & set(MEANT.get(other, ())), (one, other)


def test_every_word_of_the_table_exists() -> None:
    """The table leads to nothing but words of a cake file."""
    assert MEANT.keys() <= {word for known in choices() for word in known}


@pytest.mark.parametrize("word", ["zzz", "", "zebra", "swags"])
def test_nothing_meant(word: str) -> None:
    """Where nothing is near, nothing is asked."""
    assert hint(word, KEYS["tier"]) == ""


@pytest.mark.parametrize(("name", "sides"), [("pentagon", 5), ("Hexagon", 6), ("octagon", 8)])
def test_advice_for_a_named_polygon_gives_its_sides(name: str, sides: int) -> None:
    """What is advised is a shape that can be made: the word alone would lack its sides."""
    assert hint(name, ("round", "polygon")) == f"did you mean “polygon” with sides = {sides}?"
    assert hint("triangle", ("round", "polygon")) == "did you mean “polygon”?"
