"""The pieces of garlands and cascades in their places, on the sides of tiers and on ledges.

They are thrown over the line, the largest first, and stay where they are clear of each other and of
all that has its place there. On both a line is followed on the paper, where distances are true.
"""

from __future__ import annotations

import math
import random
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial
from itertools import accumulate, islice, pairwise

from fontTools.misc.transform import Transform

from templates_gen.cakefile.cascades import Cascade
from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.piece import Value
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.geometry.areas.placement import clear_of, inside
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path
from templates_gen.guides import keep_clear
from templates_gen.guides.cascade_line import Run
from templates_gen.guides.guide import Guide
from templates_gen.guides.spread import Circles
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.rigid import set_at
from templates_gen.tiers.seat import Seat
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.units import in_both

HAIR = 1e-6
THROWS = 80
"""Throws for each piece that is wanted."""
LETTERS = "ABCDEF"
"""What pieces of each size are called, the largest first."""

Fit = Callable[[Point, float, float], Point | None]
"""Where a round thing of a radius stands that is thrown on a point of the paper, so far along the
line, counted in its points; None where it has no room."""


@dataclass(frozen=True)
class Laid:
    """A piece in its place: its size by number, its shape, its middle and its turn, radians.

    The shape has y up about (0, 0). The place is in (u, v) of a ``side``, else on a level ledge.
    """

    size: int
    shape: Path
    at: Point
    turn: float
    side: Side | None

    @cached_property
    def outline(self) -> Path:
        """Its outline where it lies; a picture of many takes the shape and the places instead."""
        turned = self.shape.transformed(Transform().rotate(self.turn))
        return set_at(self.side, turned, self.at) if self.side else turned.moved(*self.at)


def letter_of(spec: Cascade, size: int) -> str:
    """Return what the pieces of a size are called on paper."""
    return LETTERS[size] if len(spec.sizes) > 1 else ""


@dataclass(frozen=True)
class _Line:
    """A line on paper, measured along itself, and how wide the cascade is at its ends."""

    points: tuple[Point, ...]
    widths: tuple[float, float]

    @cached_property
    def _ends(self) -> list[float]:
        return list(accumulate((math.dist(a, b) for a, b in pairwise(self.points)), initial=0.0))

    def thrown(self, draw: random.Random, radius: float) -> Iterator[tuple[Point, float]]:
        """Yield places on the line for a piece of a radius, and which share of the way each is."""
        ends = self._ends
        long, wide, last = ends[-1], max(self.widths), len(ends) - 1
        first, growth = self.widths[0], (self.widths[1] - self.widths[0]) / long
        while True:
            along, aside = draw.random() * long, (draw.random() - 0.5) * wide
            index = min(bisect_right(ends, along), last)
            (x0, y0), (x1, y1) = self.points[index - 1], self.points[index]
            step = ends[index] - ends[index - 1]
            share = (along - ends[index - 1]) / step
            spare = max((first + growth * along) / 2 - radius, 0.0)
            out = max(-spare, min(spare, aside)) / step
            dx, dy = x1 - x0, y1 - y0
            yield (x0 + dx * share - dy * out, y0 + dy * share + dx * out), index - 1 + share


def _placed(run: Run, line: _Line, fit: Fit, side: Side | None = None) -> Iterator[Laid]:
    """Yield the pieces that have room."""
    draw = random.Random(f"{run.spec.shuffle} {run.index} {run.tier} {run.on_ledge}")
    if math.dist(line.points[0], line.points[-1]) < HAIR:
        return
    for size, (shape, count) in enumerate(zip(run.shapes, run.counts, strict=True)):
        thrown = line.thrown(draw, shape.radius)
        places = (fit(at, along, shape.radius) for at, along in islice(thrown, count * THROWS))
        for place in islice((each for each in places if each is not None), count):
            turn = draw.random() * math.tau if run.spec.turned else 0.0
            yield Laid(size, shape.outline, place, turn, side)


def on_side(
    layer: Layer, runs: Sequence[Run], taken: Sequence[Path], memo: Memo = NOTHING_KEPT
) -> dict[int, tuple[Laid, ...]]:
    """Return the pieces of each cascade on the finished side of a tier, in (u, v).

    They are clear of the closed areas that are ``taken``, of corners, rim and foot.
    """
    others = Circles(_farthest(runs))
    return _by_cascade((run, _laid_on_side(layer, run, taken, others, memo)) for run in runs)


def _farthest(runs: Sequence[Run]) -> float:
    """Return how far from the middle of a piece others are kept at the most, mm."""
    return max(each.radius + run.spec.apart.mm for run in runs for each in run.shapes)


def _by_cascade(laid: Iterable[tuple[Run, Iterator[Laid]]]) -> dict[int, tuple[Laid, ...]]:
    """Return the pieces of each run that has any, by its index in the cake file."""
    found = {run.index: tuple(pieces) for run, pieces in laid}
    return {index: pieces for index, pieces in found.items() if pieces}


def _laid_on_side(
    layer: Layer, run: Run, taken: Sequence[Path], others: Circles, memo: Memo
) -> Iterator[Laid]:
    side, apart = layer.side, run.spec.apart.mm
    girth = side.girth
    line = _Line(tuple(side.flat(u, v) for u, v in run.points), run.widths)
    band = (0.0, side.depth)
    most = max(shape.radius for shape in run.shapes)
    kept = tuple((path, apart) for path in taken)
    made_from = (keep_clear.clear_on, layer.side, layer.rim, kept, band, most)
    is_clear = memo.get(made_from, partial(keep_clear.clear_on, layer, kept, band, most))

    def fit(at: Point, along: float, radius: float) -> Point | None:
        # most throws are too near to one before, and are not looked at further
        far = radius + apart
        if not others.is_clear(at, far):
            return None
        u, v = side.place_at(at, run.points[int(along)][0])
        place = u % girth, v
        if not radius <= v <= side.foot_at(u) - radius:
            return None
        spots = [side.flat(place[0] + turn, v) for turn in (0.0, girth, -girth)]
        if not all(others.is_clear(each, far) for each in spots) or not is_clear(place, radius):
            return None
        others.add(spots[0], radius)
        return place

    return _placed(run, line, fit, side)


def on_ledge(
    seat: Seat, runs: Sequence[Run], letters: Sequence[Path], memo: Memo
) -> dict[int, tuple[Laid, ...]]:
    """Return the pieces of each cascade on the surface below a tier, in the frame of its seat.

    They are clear of the tier, of the edge, and of the outlines of ``letters``.
    """
    others = Circles(_farthest(runs))
    foot = seat.upper.covered.foot
    lies_clear = memo.of(_clear_between, foot, seat.place, seat.outline, seat.lies)
    clear_of_letters = clear_of([(each, 0.0) for each in letters], [])

    def has_room(at: Point, radius: float, apart: float) -> bool:
        far = radius + apart
        is_apart = others.is_clear(at, far) and clear_of_letters(at, far)
        return is_apart and lies_clear(at, radius)

    def laid(run: Run) -> Iterator[Laid]:
        def fit(at: Point, along: float, radius: float) -> Point | None:
            if not has_room(at, radius, run.spec.apart.mm):
                return None
            others.add(at, radius)
            return at

        return _placed(run, _Line(run.points, run.widths), fit)

    return _by_cascade((run, laid(run)) for run in runs)


def _clear_between(
    tier: Outline, place: Pose, under: Outline, lies: Pose
) -> Callable[[Point, float], bool]:
    """Return a function that tells whether a disc lies beside a tier and within what is under it.

    Of circles it is exact.
    """
    inner, outer, middle = tier.radius, under.radius, place.at((0.0, 0.0))
    if inner is None or outer is None:
        edge = lies.of(under)
        within, clear_of_edges = inside(edge), clear_of([(place.of(tier), 0.0)], [(edge, 0.0)])
        return lambda at, radius: within(at) and clear_of_edges(at, radius)
    return lambda at, radius: (
        math.dist(at, middle) >= inner + radius
        and math.dist(at, lies.at((0.0, 0.0))) <= outer - radius
    )


def drawn(spec: Cascade, laid: Sequence[Laid]) -> Drawing:
    """Draw pieces where they lie, y up, each with the letter of its size."""
    drop = LEAST_TEXT * fonts.CAP_HEIGHT / 2
    labels = (
        Label(
            letter_of(spec, each.size), (each.at[0], each.at[1] - drop), LEAST_TEXT, Anchor.MIDDLE
        )
        for each in laid
        if len(spec.sizes) > 1
    )
    return Drawing(tuple(Stroke(each.outline, Role.GUIDE) for each in laid), tuple(labels))


def counted_by_size(spec: Cascade, laid: Sequence[Laid]) -> tuple[int, ...]:
    """Return how many pieces there are of each size, the largest first."""
    sizes = [each.size for each in laid]
    return tuple(sizes.count(size) for size in range(len(spec.sizes)))


def named_counts(spec: Cascade, counts: Sequence[int]) -> str:
    """Say how many pieces there are of each size: ``3 × A, 5 × B``."""
    named = (
        f"{count} × {letter_of(spec, size) or spec.shape}"
        for size, count in enumerate(counts)
        if count
    )
    return ", ".join(named)


def guides(
    tier: Solid, runs: Sequence[Run], laid: Mapping[int, tuple[Laid, ...]]
) -> Iterator[Guide]:
    """Yield the outlines of pieces where they belong on a side."""
    for run in runs:
        some, spec = laid.get(run.index, ()), run.spec
        if not some:
            continue
        on_paper = drawn(spec, some)
        drop = LEAST_TEXT * fonts.CAP_HEIGHT
        labels = (replace(each, at=(each.at[0], each.at[1] + drop)) for each in on_paper.labels)
        boxes = [each.outline.bounds for each in some]
        counts = counted_by_size(spec, some)
        name = "cascade" if run.index == 0 else f"cascade_{run.index + 1}"
        values: dict[str, Value] = {
            name: spec.shape,
            f"{name}_pieces": counts,
            f"{name}_sizes_mm": tuple(size.mm for size in spec.sizes),
        }
        yield Guide(
            tier.covered,
            Drawing(on_paper.strokes, tuple(labels)),
            min(box.y0 for box in boxes),
            max(box.y1 for box in boxes),
            values,
            note=f"cascade {run.index + 1}: {named_counts(spec, counts)}",
            name=f"cascade {run.index + 1}",
            key=("cascade", run.index),
            is_placed=True,
        )


def size_words(spec: Cascade) -> str:
    """Say which letter stands for which size: ``A 40 mm (1 9/16 in)``."""
    named = (
        f"{letter_of(spec, number)} {in_both(size.mm)}".strip()
        for number, size in enumerate(spec.sizes)
    )
    return ", ".join(named)
