"""Panels: how many close round the side, how wide each is, and where their joins stand."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import cycle, pairwise

from templates_gen.cakefile.panels import Panels, follow_corners
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError, PlanWarning
from templates_gen.geometry.areas.booleans import clipped_area, region
from templates_gen.geometry.box import Box, Point, nearest_count
from templates_gen.geometry.offset import offset
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import line
from templates_gen.guides.faces import faces, places_on
from templates_gen.guides.guide import Guide
from templates_gen.guides.openings import Openings
from templates_gen.guides.repeats import repeat
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
    """One row of panels round a side: how many, and what is left of its girth, mm.

    ``widths`` has each width with the number of panels so wide; on faces of several lengths there
    are several, the most frequent first. ``band`` is from which v to which v the row stands; girth
    and widths are those half-way down it, ``ratio`` times as long as at the rim. ``per_face`` has
    how many there are on each face, if they are shared out face by face.
    """

    count: int
    girth: float
    widths: tuple[tuple[float, int], ...]
    band: tuple[float, float]
    ratio: float
    per_face: tuple[int, ...]

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


@dataclass(frozen=True, slots=True)
class PanelRows:
    """The rows of panels of a tier from the lowest up, each panel ``height`` mm tall."""

    rows: tuple[PanelRow, ...]
    height: float

    @property
    def count(self) -> int:
        """How many panels there are in all rows."""
        return sum(row.count for row in self.rows)

    @property
    def area(self) -> float:
        """The area of all panels, whole, mm2."""
        return self.height * sum(width * number for width, number in self.widths.items())

    @property
    def widths(self) -> Counter[float]:
        """How many panels there are of each width."""
        found: Counter[float] = Counter()
        for row in self.rows:
            found.update(dict(row.widths))
        return found


def panel_layer(tier: Solid, panels: Panels) -> Layer:
    """Return the surface the panels are measured on.

    Panels on the finished side lie with their backs on the covered surface. Panels that are the
    covering are the wrap cut into equal parts, and like it keep their length in mid-paste.
    """
    return tier.wrapped if panels.replace_wrap else tier.covered


def panel_rows(tier: Solid, panels: Panels) -> PanelRows:
    """Return the rows of panels that close round the tier, nearest to the width or count given.

    Rows of panels that are made to fit have one number, so that their joins can stand in line;
    those of a mould have as many as fit the girth of each. Raises CakeError when not one fits.
    """
    layer = panel_layer(tier, panels)
    side = layer.side
    height = panels.height.mm if panels.height else side.depth / panels.rows
    _refuse_without_faces(tier, panels, layer.rim)
    bands = list(_bands(height, panels, side.depth))
    ratios = [side.girth_ratio(sum(band) / 2) for band in bands]
    _refuse_too_long(tier, panels, side.girth * min(ratios))
    middle = side.girth_ratio((bands[0][1] + bands[-1][0]) / 2)
    # low panels are wider than tall: as wide as rows over the whole side would be tall
    wide = side.depth / panels.rows
    per_face = _per_face(tier, panels, layer.rim, wide / middle)
    rows = []
    for band, ratio in zip(bands, ratios, strict=True):
        girth = side.girth * ratio
        counted_at = girth if panels.mould else side.girth * middle
        count = sum(per_face) or _count(panels, counted_at, wide)
        row = PanelRow(count, girth, (), band, ratio, per_face)
        rows.append(replace(row, widths=_widths(row, panels, layer.rim)))
    return PanelRows(tuple(rows), height)


def _per_face(tier: Solid, panels: Panels, rim: Outline, wide: float) -> tuple[int, ...]:
    """Return how many panels each face has: as said, or each about ``wide`` mm; or no faces."""
    if not follow_corners(panels, tier.spec.shape):
        return ()
    return tuple(panels.per_face or nearest_count(face.length, wide) for face in faces(rim))


def area_beside(rows: PanelRows, layer: Layer, holes: Openings) -> float:
    """Return the area of panels on a surface but for what holes take of them, mm2."""
    taken = 0.0
    for row in rows.rows:
        top, foot = row.band
        for path in holes.ends.get(layer.surface, ()):
            box = path.bounds
            part = clipped_area(path, Box(box.x0, top, box.x1, foot))
            taken += region(part).area * row.ratio if part.commands else 0.0
    return rows.area - taken


def _refuse_too_long(tier: Solid, panels: Panels, girth: float) -> None:
    """Raise CakeError where not one panel of the length given goes round the shortest row."""
    for name in ("mould", "width"):
        length = getattr(panels, name)
        if length is not None and length.mm > girth + LARGEST_GAP:
            raise CakeError.at(
                tier.key("panels", name),
                f"“{length}” on a side {in_both(girth)} round",
                f"up to {at_most(girth)}",
                "use a shorter panel",
            )


def _refuse_without_faces(tier: Solid, panels: Panels, rim: Outline) -> None:
    """Raise CakeError where panels are to share out faces that a tier does not have."""
    if panels.per_face is not None and not rim.corners:
        raise CakeError.at(
            tier.key("panels", "per_face"),
            f"panels for each face of a tier of shape “{tier.spec.shape}”, which has no corners",
            "per_face on a tier with corners",
            "write count instead",
        )


def _places(row: PanelRow, rim: Outline, *, join_first: bool) -> tuple[float, ...]:
    """Return the places of the joins of a row on a rim, in order from the back join.

    With ``join_first`` a join stands at the front, or at every corner of panels set by faces.
    """
    if not row.per_face:
        return repeat(row.count, rim.girth, at_front=join_first).places
    found = faces(rim)
    # an own outline, of which each face has as many, may have other corners on another layer
    many = dict(zip(found, cycle(row.per_face), strict=False))
    return tuple(sorted(places_on(found, rim.girth, many.__getitem__, at_corner=join_first)))


def _widths(row: PanelRow, panels: Panels, rim: Outline) -> tuple[tuple[float, int], ...]:
    """Return the widths of the panels of a row, each with how many have it, the most first."""
    if panels.mould is not None:
        return ((panels.mould.mm, row.count),)
    places = _places(row, rim, join_first=_join_first(row, panels))
    widths = [(b - a) * row.ratio for a, b in pairwise((*places, places[0] + rim.girth))]
    found = Counter(round(width, 6) for width in widths)
    if len(found) == 1:
        return ((row.pitch, row.count),)
    return tuple(found.most_common())


def _join_first(row: PanelRow, panels: Panels) -> bool:
    """Tell whether two panels of the lowest row meet at the front, or at corners."""
    if not row.per_face:
        return panels.front == "join"
    return panels.per_face is None or panels.corners == "join"


def _count(panels: Panels, girth: float, wide: float) -> int:
    """Return how many panels go round: those given, nearest in size, or about ``wide`` mm."""
    if panels.mould is not None:
        return mould_count(girth, panels.mould.mm)
    if panels.width is not None:
        return nearest_count(girth, panels.width.mm)
    return panels.count or max(3, nearest_count(girth, wide))


def mould_count(girth: float, length: float) -> int:
    """Return how many panels of one length leave the least of the girth, more or less."""
    return max(1, math.floor(girth / length + 0.5))


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


def warnings(tier: Solid, panels: Panels, rows: PanelRows) -> tuple[PlanWarning, ...]:
    """Return warnings of a mould: rows of it that do not close, that it has no height."""
    if panels.mould is None:
        return ()
    found = list(_gaping(tier, panels, rows))
    if panels.height is None:
        text = f"{tier.name}: the mould has no height; it is drawn {in_both(rows.height)} tall."
        found.append(PlanWarning(tier.key("panels", "mould"), text))
    return tuple(found)


def _gaping(tier: Solid, panels: Panels, rows: PanelRows) -> Iterator[PlanWarning]:
    """Say in plain words of each row that does not close what to do; of rows alike once."""
    alike = len(set(rows.rows)) == 1 or not tier.bare.is_tapered
    for number, row in enumerate(rows.rows[:1] if alike else rows.rows, 1):
        if abs(row.per_join) <= LARGEST_GAP:
            continue
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
            *(_thinner(tier, panels, row) if alike else ()),
        ]
        sizes = closes_on(tier, panels, row.widths[0][0])
        if sizes:
            ways.append(f"use this panel on a tin of {', '.join(map(str, sizes))} in")
        where = "" if alike else f"row {number} from the bottom: "
        text = f"{tier.name}: {where}{says} at each join: {'; or '.join(ways)}."
        yield PlanWarning(tier.key("panels", "mould"), text)


def _thinner(tier: Solid, panels: Panels, row: PanelRow) -> list[str]:
    """Suggest the thickness of paste with which the panels close, if it is a usual one."""
    layers = 1 if panels.replace_wrap else 2
    change = row.left_over / math.pi / layers
    paste = tier.spec.paste_side_mm - change
    least, most = PASTE_RANGE
    usual = tier.spec.cover != "none" and least <= paste <= most
    return [f"roll the paste {in_both(paste)} thick"] if usual else []


def guides(tier: Solid, rows: PanelRows | None) -> Iterator[Guide]:
    """Yield joins and courses; of panels that are the covering, on the coating they are set on."""
    panels = tier.spec.panels
    if rows is None or panels is None:
        return
    layer = tier.coated if panels.replace_wrap else tier.covered
    top, foot = _band(rows.height, panels, layer.side.depth)
    yield Guide(layer, joins_drawing(rows, panels, layer), top, foot, key=tier.key("panels"))


def _band(height: float, panels: Panels, depth: float) -> tuple[float, float]:
    """Return from which v to which v all rows stand."""
    tall = min(height * panels.rows, depth)
    return (depth - tall, depth) if panels.place == "base" else (0.0, tall)


def _bands(height: float, panels: Panels, depth: float) -> Iterator[tuple[float, float]]:
    """Yield from which v to which v each row stands, from the lowest up."""
    top, foot = _band(height, panels, depth)
    for _ in range(panels.rows):
        high = max(foot - height, top)
        yield high, foot
        foot = high


@dataclass(frozen=True, slots=True)
class _Course:
    """A row of panels on a surface: from which v to which v, where its joins and edges stand."""

    high: float
    low: float
    places: tuple[float, ...]
    edges: tuple[float, ...]


def _courses(rows: PanelRows, panels: Panels, layer: Layer) -> Iterator[_Course]:
    """Yield the rows of panels on a surface from the lowest up."""
    bands = _bands(rows.height, panels, layer.side.depth)
    for number, (row, (high, low)) in enumerate(zip(rows.rows, bands, strict=True)):
        shifted = panels.joins == "staggered" and number % 2 == 1
        join_first = _join_first(row, panels) != shifted
        places = _places(row, layer.rim, join_first=join_first)
        yield _Course(high, low, places, row.edges)


def panel_boxes(rows: PanelRows, panels: Panels, layer: Layer) -> tuple[Box, ...]:
    """Return each panel on a surface, in (u, v); one over the back join ends beyond the girth."""
    girth = layer.side.girth
    return tuple(
        Box(a + course.edges[-1], course.high, b + course.edges[0], course.low)
        for course in _courses(rows, panels, layer)
        for a, b in pairwise((*course.places, course.places[0] + girth))
    )


def joins_drawing(rows: PanelRows, panels: Panels, layer: Layer) -> Drawing:
    """Draw joins and courses on a surface; panels keep their share of its girth."""
    girth = layer.side.girth
    _, foot = _band(rows.height, panels, layer.side.depth)
    drawn: list[tuple[Point, Point]] = [((0.0, foot), (girth, foot))]
    for course in _courses(rows, panels, layer):
        high, low, edges = course.high, course.low, course.edges
        drawn += [((u + edge, high), (u + edge, low)) for u in course.places for edge in edges]
        drawn.append(((0.0, high), (girth, high)))
    return Drawing(tuple(Stroke(line(a, b), Role.GUIDE) for a, b in drawn))
