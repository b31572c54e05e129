"""How a printed sheet reads: words crossed by lines, lines on each other, match lines too near.

``python -m tests.legibility --cakes 300 --seed 0`` counts them over the packs of random cakes.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
import shapely
from fontTools.misc.transform import Transform
from shapely.geometry.base import BaseGeometry

from templates_gen.cakefile.reading import cake_from
from templates_gen.cover.pack import make_packs
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.lines import as_lines
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.path import Path
from templates_gen.plan import make_plan
from templates_gen.sheets.pack import Pack, Sheet
from tests.laws import frame_of
from tests.random_cakes.cakes import cake_data
from tests.random_cakes.chance import Seeded
from tests.random_cakes.files import at_hand
from tests.whole_way import printer_of

Segments = npt.NDArray[np.float64]
"""Start and end of each of n straight lines: n by 2 by 2, mm."""
ON = 0.05
"""Lines nearer to each other lie on each other, mm."""
SHARED = 0.5
"""What two lines have in common at the least, to be drawn twice, mm."""
PARALLEL = 0.01
"""By how much to a mm lines that lie on each other may part: a curve touches another line."""
BESIDE = 8.0
"""How far a match line keeps from a line parallel to it, mm."""
LONG = 10.0
"""A line so long beside a match line could be taken for it, mm."""
BEFORE = 1.0
"""How far the words of a line keep from others before and after them, mm."""
LEVEL = 1e-3
"""Shorter is as good as nothing, mm."""
LEAN = 0.01
"""What a line may lean, mm in a mm, to be taken for one along an axis: half a degree and more."""


class Lines(NamedTuple):
    """Everything that is drawn on a sheet as straight lines, with the stroke that each is of."""

    segments: Segments
    strokes: list[int]
    roles: list[Role]

    def only(self, *roles: Role) -> Segments:
        """Return the lines of some roles."""
        return self.segments[[role in roles for role in self.roles]]


def lines_of(sheet: Sheet) -> Lines:
    """Return the lines of a sheet as they are seen: those of pieces through their windows."""
    segments: list[Segments] = []
    strokes: list[int] = []
    roles: list[Role] = []
    for number, (role, found) in enumerate(_drawn(sheet)):
        segments.append(found)
        strokes += [number] * len(found)
        roles += [role] * len(found)
    return Lines(np.concatenate([np.empty((0, 2, 2)), *segments]), strokes, roles)


def _drawn(sheet: Sheet) -> Iterator[tuple[Role, Segments]]:
    for window in sheet.windows:
        for stroke in window.piece.drawing.strokes:
            lines = shapely.clip_by_rect(_lines(stroke.path), *window.box)
            yield stroke.role, _moved(_segments(shapely.get_parts(lines)), window.to_sheet)
    for stroke in sheet.drawing.strokes:
        yield stroke.role, _segments(shapely.get_parts(_lines(stroke.path)))


def _lines(path: Path) -> shapely.MultiLineString:
    return shapely.MultiLineString([points for points, _ in sampled(path)])


def _segments(lines: Iterable[BaseGeometry]) -> Segments:
    found = [shapely.get_coordinates(line) for line in lines if line.geom_type == "LineString"]
    pairs = [np.stack([each[:-1], each[1:]], axis=1) for each in found]
    made: Segments = np.concatenate([np.empty((0, 2, 2)), *pairs])
    kept: Segments = made[np.hypot(*(made[:, 1] - made[:, 0]).T) > LEVEL]
    return kept


def _moved(segments: Segments, move: Transform) -> Segments:
    xx, xy, yx, yy, dx, dy = move
    moved = segments @ np.array([[xx, xy], [yx, yy]]) + np.array((dx, dy))
    return np.asarray(moved, dtype=np.float64)


def crossings(pack: Pack) -> list[tuple[int, str, str]]:
    """Return each word that a line runs through, but for the grid: sheet, words, role."""
    found = []
    for sheet in pack.sheets:
        lines = lines_of(sheet)
        labels = sheet.drawing.labels
        tree = shapely.STRtree(as_lines(lines.segments))
        pairs = tree.query([frame_of(label) for label in labels], "intersects").T
        for word, role in dict.fromkeys((w, lines.roles[n]) for w, n in pairs.tolist()):
            if role is not Role.GRID:
                found.append((sheet.number, labels[word].text, role.word))
    return found


def doubled(pack: Pack) -> list[tuple[int, str, str]]:
    """Return each pair of lines of which one lies on the other for a stretch: sheet, both roles.

    An opening at the back join has its edge on that of the piece: it is one cut.
    """
    found = []
    for sheet in pack.sheets:
        lines = lines_of(sheet)
        made = as_lines(lines.segments)
        pairs = shapely.STRtree(made).query(made, "dwithin", distance=ON).T
        for one, other in pairs[pairs[:, 0] < pairs[:, 1]].tolist():
            if lines.strokes[one] != lines.strokes[other] and _shared(
                lines.segments[one], lines.segments[other]
            ):
                roles = lines.roles[one].word, lines.roles[other].word
                found += [(sheet.number, *roles)] if roles != ("cut", "cut") else []
    return found


def _shared(one: Segments, other: Segments) -> bool:
    """Tell whether two straight lines run on each other for a stretch."""
    way = (one[1] - one[0]) / np.hypot(*(one[1] - one[0]))
    along, across = (other - one[0]) @ way, (other - one[0]) @ (-way[1], way[0])
    start, end = max(0.0, along.min()), min(np.hypot(*(one[1] - one[0])), along.max())
    if end - start < SHARED or along.max() - along.min() < LEVEL:
        return False
    # how far off the other is where they run beside each other
    slope = (across[1] - across[0]) / (along[1] - along[0])
    off = across[0] + (np.array([start, end]) - along[0]) * slope
    return bool(np.abs(off).max() < ON and abs(slope) < PARALLEL)


def near_match_lines(pack: Pack) -> list[tuple[int, str, float]]:
    """Return each long line beside a match line that could be taken for it: sheet, role, mm."""
    found = []
    # on the cover are only maps, much smaller
    for sheet in (each for each in pack.sheets if each.windows):
        lines = lines_of(sheet)
        match = lines.only(Role.MATCH)
        for axis in (0, 1):
            level = np.flatnonzero(_upright(lines.segments, axis))
            others = [n for n in level if lines.roles[n] not in (Role.MATCH, Role.GRID)]
            for one in match[_upright(match, axis)]:
                for other in others:
                    away = np.abs(lines.segments[other, :, axis] - one[0, axis]).min()
                    common = _common(lines.segments[other, :, 1 - axis], one[:, 1 - axis])
                    if away < BESIDE - LEVEL and common > LONG:
                        found.append((sheet.number, lines.roles[other].word, float(away)))
    return found


def _common(one: Segments, other: Segments) -> float:
    """Return how long two stretches of an axis run beside each other, mm."""
    return float(min(one.max(), other.max()) - max(one.min(), other.min()))


def _upright(segments: Segments, axis: int) -> npt.NDArray[np.bool_]:
    """Tell which lines run across an axis: upright ones for 0, level ones for 1."""
    ways = np.abs(segments[:, 0] - segments[:, 1])
    upright: npt.NDArray[np.bool_] = ways[:, axis] < LEAN * ways[:, 1 - axis]
    return upright


def run_together(pack: Pack) -> list[tuple[int, str, str]]:
    """Return the words of lines that other words on their sheet nearly touch, before or after."""
    found = []
    words = {role.says for role in Role if role.says}
    for sheet in pack.sheets:
        labels = sheet.drawing.labels
        frames = [frame_of(label) for label in labels]
        tree = shapely.STRtree(frames)
        for number, label in enumerate(labels):
            if label.text in words:
                middle = label.size / 3
                ends = [(-BEFORE, middle), (label.width + BEFORE, middle)]
                along = shapely.LineString([label.frame.transformPoint(end) for end in ends])
                near = (each for each in tree.query(along, "intersects") if each != number)
                found += [(sheet.number, label.text, labels[each].text) for each in near]
    return found


def no_word_is_crossed(pack: Pack) -> None:
    """Check: no line but those of the grid runs through a word."""
    assert not crossings(pack)


def no_line_is_drawn_twice(pack: Pack) -> None:
    """Check: no line lies on another for a stretch."""
    assert not doubled(pack)


def match_lines_stand_clear(pack: Pack) -> None:
    """Check: no long line runs beside a match line so near that one is taken for the other."""
    assert not near_match_lines(pack)


OF_PACKS: tuple[Callable[[Pack], None], ...] = (
    no_word_is_crossed,
    no_line_is_drawn_twice,
    match_lines_stand_clear,
)


def random_pack(seed: int) -> Pack:
    """Return the pack of the random cake of a seed, on its paper. Raises CakeError."""
    plan = make_plan(cake_from(cake_data(Seeded(seed)), folder=at_hand()))
    return make_packs(plan, [plan.paper], printer=printer_of(plan))[0]


FAULTS: dict[str, Callable[[Pack], list[tuple[int, str, str]] | list[tuple[int, str, float]]]] = {
    "words crossed": crossings,
    "lines drawn twice": doubled,
    "match lines near others": near_match_lines,
}


def main() -> None:
    """Print every fault of the packs of random cakes as it is found, then the counts."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("--cakes", type=int, default=300)
    parser.add_argument("--seed", type=int, default=0)
    asked = parser.parse_args()
    counts, packs = dict.fromkeys(FAULTS, 0), 0
    for seed in range(asked.seed, asked.seed + asked.cakes):
        try:
            pack = random_pack(seed)
        except CakeError:
            continue
        packs += 1
        for name, find in FAULTS.items():
            found = find(pack)
            counts[name] += len(found)
            for each in found:
                print(f"cake {seed}: {name}: {each}", flush=True)
    said = ", ".join(f"{name} {count}" for name, count in counts.items())
    print(f"{asked.cakes} cakes from seed {asked.seed}, {packs} packs: {said}")


if __name__ == "__main__":
    main()
