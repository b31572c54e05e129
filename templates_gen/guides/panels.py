"""Panels: how many close round the side, how wide each is, and where their joins stand."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.panels import Panels
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError, Key, PlanWarning, Problem
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.offset import offset
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import line
from templates_gen.guides.faces import faces, places_on
from templates_gen.guides.guide import Guide
from templates_gen.guides.repeats import closing_count, repeat
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.units import MM_PER_INCH, at_most, counted, in_both

LARGEST_GAP = 2.0
"""Left over at a join, mm, up to which panels count as closing: common practice, no source."""
SEEN_GAP = 0.5
"""A gap that is drawn as two lines, mm."""
TINS = range(4, 17)
"""Tin sizes in inches on which a mould is tried."""
PASTE_RANGE = (2.0, 6.0)
"""Thickness of paste, mm, worth suggesting."""


@dataclass(frozen=True, slots=True)
class PanelRow:
    """Panels round a girth: their number, width and height in mm, and what is left over.

    ``widths`` has each width with the number of panels so wide; on faces of several lengths there
    are several, and ``width`` is the most frequent. ``band`` is from which v to which v they stand;
    girth and widths are those half-way down it, ``ratio`` times as long as at the rim.
    """

    count: int
    width: float
    height: float
    rows: int
    girth: float
    widths: tuple[tuple[float, int], ...]
    band: tuple[float, float]
    ratio: float

    @property
    def left_over(self) -> float:
        """The girth that the panels do not cover; negative when they are too long."""
        return self.girth - sum(width * many for width, many in self.widths)

    @property
    def per_join(self) -> float:
        """What is left over at each join."""
        return self.left_over / self.count

    @property
    def pitch(self) -> float:
        """From one panel to the next round the girth."""
        return self.girth / self.count

    @property
    def edges(self) -> tuple[float, ...]:
        """Where the edges of two panels stand, as seen from the middle of their join, in u."""
        gap = self.per_join / 2
        return (-gap / self.ratio, gap / self.ratio) if gap > SEEN_GAP / 2 else (0.0,)


def panel_layer(tier: Solid, panels: Panels) -> Layer:
    """Return the surface the panels are measured on.

    Panels on the finished side lie with their backs on the covered surface. Panels that are the
    covering are the wrap cut into equal parts, and like it keep their length in mid-paste.
    """
    return tier.wrapped if panels.replace_wrap else tier.covered


def panel_row(tier: Solid, panels: Panels) -> PanelRow:
    """Return the panels that close round the tier, nearest to the width or count given.

    Raises CakeError when not one panel fits.
    """
    layer = panel_layer(tier, panels)
    side = layer.side
    height = panels.height.mm if panels.height else side.depth / panels.rows
    band = _band(height * panels.rows, panels, side.depth)
    ratio = side.girth_ratio(sum(band) / 2)
    girth = side.girth * ratio
    for name in ("mould", "width"):
        length = getattr(panels, name)
        if length is not None and length.mm > girth + LARGEST_GAP:
            raise CakeError([_too_long(tier.key("panels", name), length, girth)])
    _refuse_without_faces(tier, panels, layer.rim)
    count = _count(panels, girth, side.depth)
    places = _places(panels, count, layer.rim, join_first=panels.corners == "join")
    count = len(places)
    widths = ((panels.mould.mm, count),) if panels.mould else _widths(places, side.girth, ratio)
    return PanelRow(count, widths[0][0], height, panels.rows, girth, widths, band, ratio)


def _refuse_without_faces(tier: Solid, panels: Panels, rim: Outline) -> None:
    """Raise CakeError where panels are to share out faces that a tier does not have."""
    if panels.per_face is not None and not rim.corners:
        problem = Problem(
            tier.key("panels", "per_face"),
            f"panels for each face of a tier of shape “{tier.spec.shape}”, which has no corners",
            "per_face on a tier with corners",
            "write count instead",
        )
        raise CakeError([problem])


def _places(panels: Panels, count: int, rim: Outline, *, join_first: bool) -> tuple[float, ...]:
    """Return the places of the joins of a row, in order from the back join.

    With ``join_first`` a join stands at the front, or at every corner of panels set by faces.
    """
    per_face = panels.per_face
    if per_face is None:
        return repeat(count, rim.girth, at_front=join_first).places
    found = places_on(faces(rim), rim.girth, lambda _: per_face, at_corner=join_first)
    return tuple(sorted(found))


def _widths(places: Sequence[float], girth: float, ratio: float) -> tuple[tuple[float, int], ...]:
    """Return the widths between joins, each with how many panels have it, the most first."""
    widths = [(b - a) * ratio for a, b in pairwise((*places, places[0] + girth))]
    found = Counter(round(width, 6) for width in widths)
    if len(found) == 1:
        return ((girth * ratio / len(places), len(places)),)
    return tuple(found.most_common())


def _count(panels: Panels, girth: float, depth: float) -> int:
    """Return how many panels go round: those given, nearest in size, or about square."""
    if panels.mould is not None:
        return mould_count(girth, panels.mould.mm)
    if panels.width is not None:
        return closing_count(girth, panels.width.mm)
    return panels.count or max(3, closing_count(girth, depth / panels.rows))


def mould_count(girth: float, length: float) -> int:
    """Return how many panels of one length leave the least of the girth, more or less."""
    return max(1, math.floor(girth / length + 0.5))


def _too_long(key: Key, length: Length, girth: float) -> Problem:
    return Problem(
        key,
        f"“{length}” on a side {in_both(girth)} round",
        f"up to {at_most(girth)}",
        "use a shorter panel",
    )


def closes_on(tier: Solid, panels: Panels, width: float) -> tuple[int, ...]:
    """Return the tin sizes in inches on which such panels close, with this tier's layers.

    None for a taper: tins have upright sides.
    """
    if tier.bare.is_tapered:
        return ()
    bare = tier.bare.rim
    layers = (panel_layer(tier, panels).rim.girth - bare.girth) / math.tau
    tins = ((inches, bare.scaled(inches * MM_PER_INCH / bare.across)) for inches in TINS)
    return tuple(inches for inches, tin in tins if _closes(offset(tin, layers).girth, width))


def _closes(girth: float, width: float) -> bool:
    count = mould_count(girth, width)
    return abs(girth - count * width) / count <= LARGEST_GAP


def warnings(tier: Solid, panels: Panels, row: PanelRow) -> tuple[PlanWarning, ...]:
    """Return warnings of a mould: that it does not close, that it has no height."""
    if panels.mould is None:
        return ()
    found = [] if abs(row.per_join) <= LARGEST_GAP else [_gaping(tier, panels, row)]
    if panels.height is None:
        text = f"{tier.name}: the mould has no height; it is drawn {in_both(row.height)} tall."
        found.append(PlanWarning(tier.key("panels", "mould"), text))
    return tuple(found)


def _gaping(tier: Solid, panels: Panels, row: PanelRow) -> PlanWarning:
    """Say in plain words what to do when the panels do not close."""
    gap = in_both(abs(row.per_join))
    opens = row.per_join > 0
    says = (
        f"{counted(row.count, 'panel')} would leave {gap} open"
        if opens
        else f"{counted(row.count, 'panel')} would be {gap} too long"
    )
    ways = [
        f"spread them evenly and pipe over the joins (they stand {in_both(row.pitch)} apart)"
        if opens
        else f"cut each down to {in_both(row.pitch)}",
        *_thinner(tier, panels, row),
    ]
    sizes = closes_on(tier, panels, row.width)
    if sizes:
        ways.append(f"use this panel on a tin of {', '.join(map(str, sizes))} in")
    text = f"{tier.name}: {says} at each join: {'; or '.join(ways)}."
    return PlanWarning(tier.key("panels", "mould"), text)


def _thinner(tier: Solid, panels: Panels, row: PanelRow) -> list[str]:
    """Suggest the thickness of paste with which the panels close, if it is a usual one."""
    layers = 1 if panels.replace_wrap else 2
    change = row.left_over / math.pi / layers
    paste = tier.spec.paste_side_mm - change
    least, most = PASTE_RANGE
    usual = tier.spec.cover != "none" and least <= paste <= most
    return [f"roll the paste {in_both(paste)} thick"] if usual else []


def guides(tier: Solid, row: PanelRow | None) -> Iterator[Guide]:
    """Yield joins and courses; of panels that are the covering, on the coating they are set on."""
    panels = tier.spec.panels
    if row is None or panels is None:
        return
    layer = tier.coated if panels.replace_wrap else tier.covered
    top, foot = _band(row.height * row.rows, panels, layer.side.depth)
    yield Guide(layer, joins_drawing(row, panels, layer), top, foot, key=tier.key("panels"))


def _band(tall: float, panels: Panels, depth: float) -> tuple[float, float]:
    """Return from which v to which v the rows stand."""
    tall = min(tall, depth)
    return (depth - tall, depth) if panels.place == "base" else (0.0, tall)


@dataclass(frozen=True, slots=True)
class _Course:
    """A row of panels on a surface: from which v to which v, and where its joins stand."""

    high: float
    low: float
    places: tuple[float, ...]


def _rows(row: PanelRow, panels: Panels, layer: Layer) -> Iterator[_Course]:
    """Yield the rows of panels from the lowest up."""
    top, foot = _band(row.height * row.rows, panels, layer.side.depth)
    for course in range(row.rows):
        low = foot - course * row.height
        high = max(low - row.height, top)
        shifted = panels.joins == "staggered" and course % 2 == 1
        first = panels.front if panels.per_face is None else panels.corners
        join_first = (first == "join") != shifted
        yield _Course(high, low, _places(panels, row.count, layer.rim, join_first=join_first))


def panel_boxes(row: PanelRow, panels: Panels, layer: Layer) -> tuple[Box, ...]:
    """Return each panel on a surface, in (u, v); one over the back join ends beyond the girth."""
    girth = layer.side.girth
    first, last = row.edges[0], row.edges[-1]
    return tuple(
        Box(a + last, course.high, b + first, course.low)
        for course in _rows(row, panels, layer)
        for a, b in pairwise((*course.places, course.places[0] + girth))
    )


def joins_drawing(row: PanelRow, panels: Panels, layer: Layer) -> Drawing:
    """Draw joins and courses on a surface; panels keep their share of its girth."""
    girth = layer.side.girth
    _, foot = _band(row.height * row.rows, panels, layer.side.depth)
    drawn: list[tuple[Point, Point]] = [((0.0, foot), (girth, foot))]
    for course in _rows(row, panels, layer):
        high, low = course.high, course.low
        drawn += [((u + edge, high), (u + edge, low)) for u in course.places for edge in row.edges]
        drawn.append(((0.0, high), (girth, high)))
    return Drawing(tuple(Stroke(line(a, b), Role.GUIDE) for a, b in drawn))
