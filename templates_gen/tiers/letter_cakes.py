"""Numbers and letters as cakes: each part with its walls, and how it is cut from sheet cakes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from templates_gen.cakefile.letter_cakes import LetterCake
from templates_gen.cakefile.tier import PLATE
from templates_gen.drawing.artwork import read_artwork
from templates_gen.errors import CakeError, GeometryError, Problem
from templates_gen.geometry.areas.booleans import clean, filled
from templates_gen.geometry.areas.parts import covered, outer_and_holes, parts_of
from templates_gen.geometry.areas.placement import deepest
from templates_gen.geometry.areas.sheet_cutting import Nested, nested
from templates_gen.geometry.areas.thickness import narrowest
from templates_gen.geometry.areas.walls import Wall, walls
from templates_gen.geometry.path import Path, together
from templates_gen.geometry.path_pen import FLIP
from templates_gen.units import at_least, decimal, in_both

LEAST = 30.0
"""What is narrower falls apart when it is lifted, mm: common practice, no source."""
STANDS = 0.5
"""The least width of a wall of cake over its depth: common practice, no source."""
THINNEST = 8.0
"""A thinner layer of cake tears, mm: common practice, no source."""
TIN_EDGE = 5.0
"""What is left of a sheet cake along its edges, mm: common practice, no source."""
BETWEEN = 8.0
"""Cake between two parts that are cut from one sheet, mm: room for a knife, our choice."""
BOARD = PLATE
"""Thickness of the board under letters, which must not bend: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part that is cut and lifted in one: of which character, its outline about (0, 0), mm.

    A character such as i has two. ``x`` and ``y`` are where its (0, 0) lies on the board, ``walls``
    those of the middle of its fondant, or of its coating where it has none.
    """

    text: str
    number: int
    outline: Path
    x: float
    y: float
    walls: tuple[Wall, ...]
    narrowest: float


@dataclass(frozen=True)
class Made:
    """A letter cake: its parts from the left, where they lie in sheet cakes, and its board, mm.

    ``narrowest`` of a part is what it has at the least where that is no more than ``least``.
    """

    spec: LetterCake
    parts: tuple[Part, ...]
    places: tuple[Nested, ...]
    board: tuple[float, float]
    least: float

    @property
    def sheets(self) -> int:
        """How many sheet cakes each layer is cut from."""
        return max(place.rectangle for place in self.places) + 1

    @property
    def layer_mm(self) -> float:
        """How thick a layer of cake is, mm."""
        return _layer(self.spec)

    @cached_property
    def area(self) -> float:
        """The area of all parts, bare, mm2."""
        return sum(filled(part.outline).area for part in self.parts)

    @cached_property
    def coated_area(self) -> float:
        """The area of all parts with their coating, mm2."""
        return sum(filled(off(part.outline, self.spec.coating.mm)).area for part in self.parts)

    @property
    def wall_height(self) -> float:
        """How tall the strips are: from the board to the upper face of the fondant, mm."""
        return self.spec.depth.mm + self.spec.coating.mm + self.spec.fondant.mm


def _layer(spec: LetterCake) -> float:
    return (spec.depth.mm - (spec.layers - 1) * spec.filling.mm) / spec.layers


def off(outline: Path, by: float) -> Path:
    """Return the outline of an area covered ``by`` mm thick."""
    return covered(outline, by)[0] if by else outline


def letter_cake(spec: LetterCake) -> Made:
    """Return a letter cake as it is made. Raises CakeError, keys within it."""
    least = max(LEAST, STANDS * spec.depth.mm)
    if _layer(spec) < THINNEST:
        found = f"{spec.layers} layers with “{spec.filling}” of filling in “{spec.depth}”"
        allowed = f"room for layers of {at_least(THINNEST)} or more"
        raise CakeError.at(("filling",), found, allowed, "use less filling or fewer layers")
    characters = list(_characters(spec))
    cut = [
        (number, name, part)
        for number, (text, path) in enumerate(characters)
        for name, part in _named_parts(text, path)
    ]
    widths = [narrowest(path, least) for *_, path in cut]
    thin = min(widths, default=least)
    if thin < least:
        raise CakeError([_too_thin(spec, thin, least)])
    places, board = _on_board(spec, characters)
    parts = tuple(
        Part(text, number, path, *places[character], _walls(spec, path), wide)
        for number, ((character, text, path), wide) in enumerate(zip(cut, widths, strict=True), 1)
    )
    return Made(spec, parts, _in_tins(spec, [path for *_, path in cut]), board, least)


def _named_parts(text: str, path: Path) -> Iterator[tuple[str, Path]]:
    """Yield what of a character hangs together, by its name: of several each has its number."""
    found = parts_of(path)
    for number, part in enumerate(found, 1):
        yield (f"{text}, piece {number}" if len(found) > 1 else text), part


def _characters(spec: LetterCake) -> Iterator[tuple[str, Path]]:
    """Yield each character with its outline on the baseline, or the shape of a file."""
    from templates_gen.drawing.typesetting import typeset

    if spec.file is not None:
        yield "shape", _artwork(spec, spec.file.content)
        return
    if spec.text is None:
        example = 'write for example text = "40"'
        raise CakeError.at(("text",), "neither text nor a file", "figures, letters", example)
    line = typeset(spec.text, spec.font)
    for letter in line.scaled(spec.cap_height.mm).inked:
        yield letter.text, clean(letter.path).moved(-letter.path.bounds.x0, 0.0)


def _artwork(spec: LetterCake, content: bytes) -> Path:
    allowed, advice = "an SVG file of one shape", "draw it as one filled shape"
    try:
        tall = spec.cap_height.mm
        paths = read_artwork(content).fitted(10 * tall, tall).placed(0.0, 0.0)
        path = together(paths).transformed(FLIP)
        box = path.bounds
        filled(path)
    except GeometryError as error:
        raise CakeError.at(("file",), str(error), allowed, advice) from None
    return path.moved(-box.x0, -box.y0)


def _too_thin(spec: LetterCake, thin: float, least: float) -> Problem:
    enough = math.ceil(spec.cap_height.mm * least / max(thin, 1.0))
    return Problem(
        ("cap_height",),
        f"“{spec.cap_height}”: its narrowest part is {in_both(thin)} wide",
        f"a part {at_least(least)} wide or more, so that it stands and can be lifted",
        f'write cap_height = "{enough} mm" or more, use a bolder typeface, or less depth',
    )


def _walls(spec: LetterCake, path: Path) -> tuple[Wall, ...]:
    """Return the walls of a part. Raises CakeError where a hole is too small for its lining."""
    covering = spec.coating.mm + spec.fondant.mm
    _, holes = outer_and_holes(path)
    far = min((deepest(filled(hole))[1] for hole in holes), default=math.inf)
    if far <= covering:
        raise CakeError([_closed(spec, covering, covering / far)])
    try:
        return walls(path, spec.coating.mm + spec.fondant.mm / 2)
    except GeometryError:  # a hole with a narrow place, at which it closes
        raise CakeError([_closed(spec, covering, 1.25)]) from None


def _closed(spec: LetterCake, covering: float, larger: float) -> Problem:
    enough = math.ceil(spec.cap_height.mm * larger + 1)
    return Problem(
        ("cap_height",),
        f"a hole that {in_both(covering)} of coating and fondant on each side closes",
        "holes that stay open",
        f'write cap_height = "{enough} mm" or more, or a thinner coating and fondant',
    )


def _on_board(
    spec: LetterCake, characters: Sequence[tuple[str, Path]]
) -> tuple[list[tuple[float, float]], tuple[float, float]]:
    """Return where each character lies on the board, side by side, and how large that is."""
    thick, edge = spec.coating.mm + spec.fondant.mm, spec.edge.mm
    boxes = [path.bounds for _, path in characters]
    low, high = min(box.y0 for box in boxes), max(box.y1 for box in boxes)
    x, places = edge + thick, []
    for box in boxes:
        places.append((x - box.x0, edge + thick - low))
        x += box.width + 2 * thick + spec.apart.mm
    return places, (x - thick - spec.apart.mm + edge, high - low + 2 * (thick + edge))


def _in_tins(spec: LetterCake, paths: Sequence[Path]) -> tuple[Nested, ...]:
    """Return where the parts lie in sheet cakes. Raises CakeError where one has no room."""
    sizes = sorted((spec.tin_width.mm, spec.tin_length.mm))
    found = nested(paths, sizes[0], sizes[1], BETWEEN, TIN_EDGE)
    if found is not None:
        return found
    boxes = [path.bounds for path in paths]
    usable = [size - 2 * TIN_EDGE for size in sizes]
    share = min(
        min(side / own for side, own in zip(usable, sorted(box.size), strict=True)) for box in boxes
    )
    lower = f'cap_height = "{math.floor(spec.cap_height.mm * share)} mm", '
    deep, widest = sorted(max(boxes, key=lambda box: max(box.size)).size)
    raise CakeError.at(
        ("tin_length",),
        f"a part {decimal(widest, 0)} × {decimal(deep, 0)} mm in a sheet cake of"
        f" {in_both(sizes[0])} by {in_both(sizes[1])}",
        "a sheet cake in which every part has room",
        f"write {lower}a larger tin, or join sheet cakes and give their size together",
    )
