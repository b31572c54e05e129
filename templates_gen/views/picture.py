"""A picture of the cake to scale: from the front with its sizes, and from above."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import count

from fontTools.misc.transform import Transform

from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.flow import BODY, TITLE, Block, stacked, text
from templates_gen.drawing.fonts import fitted, text_width
from templates_gen.drawing.once import lines_once
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEADING, SMALL, Line, height, set_lines
from templates_gen.geometry.areas.thinning import thinned
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import line, rectangle
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.plan import Plan
from templates_gen.tiers.widths import width_words
from templates_gen.units import decimal, in_both
from templates_gen.views.coloured import colours_above, front_colours
from templates_gen.views.elevation import elevation, from_above, views
from templates_gen.views.letter_boards import LetterBoard, from_front, letter_boards
from templates_gen.views.standing import standing_seen
from templates_gen.views.view import FINE

SCALES = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0)
GAP = 4.0
"""Between a drawing and its sizes, mm on paper."""
TICK = 1.2
LEFT, BELOW = 9.0, 9.0
"""Room left of the cake for its height, and below it for the drum, mm on paper."""
SEEN = 0.03
"""How far a line of a picture may be off, mm on paper: less than a dot of a fine printer."""
ABOVE_ROW = 3.0
"""Above each letter cake that is drawn under the tiers, mm on paper."""
LEAST_ROW, LEAST_REST = 16.0, 45.0
"""Room for a letter cake that is small in a picture, and for all else there, mm on paper."""
BETWEEN_VIEWS = 10.0
"""Between the two drawings beside each other, mm on paper."""


def scales() -> Iterator[float]:
    """Yield how many times larger the cake may be than the picture, from the least."""
    yield from SCALES
    yield from (step * 5.0 for step in count(2))


@dataclass(frozen=True)
class Views:
    """Both drawings of a cake at true size, and the box round each.

    They are fine enough for pictures at most ``height`` mm tall. Letter cakes are ``beside`` the
    tiers from the front, each for itself. Beside a cake that is only ``named`` are no sizes.
    """

    stack: DecoratedStack
    height: float
    front: Drawing
    front_box: Box
    above: Drawing
    above_box: Box
    beside: tuple[tuple[LetterBoard, Drawing], ...] = ()
    named: bool = False

    @cached_property
    def words_beside(self) -> float:
        """The width of the words on both sides of the cake, which no scale makes less, mm."""
        labels = [label for entry in _sizes(self) for label in entry]
        labels += (label for each, _ in self.beside for label in _said(self, each))
        return LEFT + GAP * 2 + max(text_width(each, SMALL, bold=True) for each in labels)


def both_views(stack: DecoratedStack, height: float) -> Views:
    """Return a cake from the front and from above, for pictures up to ``height`` mm tall.

    Many letter cakes, of which each takes some room however small, may make it taller.
    """
    boards = tuple(letter_boards(stack))
    height = max(height, LEAST_REST + LEAST_ROW * len(boards)) if boards else height
    # a picture is at least as small as its height has it, and fine enough on paper
    fine = FINE * max(1.0, stack.height / height)
    front = elevation(stack, fine) + Drawing(fills=front_colours(stack)) + standing_seen(stack)
    above = from_above(stack) + Drawing(fills=colours_above(stack))
    beside = tuple((each, from_front(each)) for each in boards)
    front_box = _front_box(front, [drawing for _, drawing in beside])
    return Views(stack, height, front, front_box, above, above.bounds, beside)


def _front_box(front: Drawing, beside: Sequence[Drawing]) -> Box:
    """Return the box round the tiers from the front, as wide as what stands beside them too."""
    boxes = [each.bounds for each in beside]
    own = front.bounds if front.strokes else Box(boxes[0].x0, 0.0, boxes[0].x1, 0.0)
    whole = union_box([own, *boxes])
    return Box(whole.x0, own.y0, whole.x1, own.y1)


def picture(plan: Plan, width: float, height: float) -> Block:
    """Return a picture up to ``width`` by ``height`` mm, with title, note and scale."""
    words = [text(plan.title, width, TITLE, bold=True)]
    words += [text(plan.note, width, BODY)] if plan.note else []
    words.append(Block(GAP, Drawing()))
    available = height - sum(block.height for block in words)
    found = drawn(both_views(plan.stack, available), width)
    said = replace(found, drawing=found.drawing.reworded(plan.terms.text))
    return stacked([*words, said])


def drawn(found: Views, width: float) -> Block:
    """Return both drawings with sizes and scale, up to ``width`` mm wide.

    The scale is the first of ``scales`` at which they have room, beside or under each other.
    """
    fits = (_fitted(found, scale, width) for scale in scales())
    return at_scale(next(fit for fit in fits if fit))


@dataclass(frozen=True, slots=True)
class Fit:
    """Views at a scale at which they have room in a ``width``, mm, and how wide and tall they are.

    The left top of the drawing from the front is (0, 0), that of the one from above ``above``.
    """

    views: Views
    scale: float
    width: float
    above: Point
    size: Point


def room_for(ways: Sequence[tuple[Views, float]], least: float) -> Iterator[Fit]:
    """Yield views at every scale that has room for them, the largest picture first.

    ``ways`` are views, each with a width, mm. The last scale is the first that has room for any and
    at which the tiers are at most ``least`` mm tall.
    """
    is_found = False
    for scale in scales():
        for found, width in ways:
            if fit := _fitted(found, scale, width):
                is_found = True
                yield fit
        if is_found and ways[0][0].front_box.height / scale <= least:
            return


def _fitted(found: Views, scale: float, width: float) -> Fit | None:
    """Return views at one scale, or None where they have no room."""
    wide, tall = (side / scale for side in (found.front_box.width, found.front_box.height))
    across, deep = (side / scale for side in (found.above_box.width, found.above_box.height))
    front_wide = wide + found.words_beside
    front_tall = tall + BELOW + sum(_row_height(seen, scale) for _, seen in found.beside)
    above_tall = deep + 2 * SMALL * LEADING
    for x, y in (
        (front_wide + BETWEEN_VIEWS, -max(0.0, front_tall - BELOW - above_tall) / 2),
        (LEFT + max(0.0, wide - across) / 2, -front_tall - GAP),
    ):
        whole = max(front_wide, x + across), max(front_tall, above_tall - y)
        if whole[0] <= width and whole[1] + _note(scale, width).height <= found.height:
            return Fit(found, scale, width, (x, y), whole)
    return None


def at_scale(fit: Fit) -> Block:
    """Return both drawings at their scale, with their sizes."""
    drawing = _front(fit.views, fit.scale) + _above(fit.views, fit.scale).moved(*fit.above)
    thin = _thinned(drawing)
    once = replace(thin, strokes=lines_once(thin.strokes))
    return stacked([Block(fit.size[1], once), _note(fit.scale, fit.width)])


def outline(fit: Fit) -> Block:
    """Return a rectangle as large as what ``at_scale`` returns, which takes long to draw."""
    wide, tall = fit.size
    box = Box(0.0, -tall, wide, 0.0)
    around = Block(tall, Drawing((Stroke(rectangle(box), Role.NOTE),)))
    return stacked([around, _note(fit.scale, fit.width)])


def _note(scale: float, width: float) -> Block:
    said = f"Scale 1 : {decimal(scale)}. Sizes are those of the finished tiers, without boards."
    return text(said, width, SMALL)


def _thinned(drawing: Drawing) -> Drawing:
    """Return a drawing without the points that nobody sees on paper."""
    return replace(
        drawing,
        strokes=tuple(replace(each, path=thinned(each.path, SEEN)) for each in drawing.strokes),
        fills=tuple(replace(each, path=thinned(each.path, SEEN)) for each in drawing.fills),
    )


def _row_height(drawing: Drawing, scale: float) -> float:
    return ABOVE_ROW + drawing.bounds.height / scale + BELOW


def _placed(drawing: Drawing, box: Box, scale: float, left: float, top: float) -> Drawing:
    """Return a drawing at a scale with the left top of its box at a place."""
    small = 1 / scale
    onto = Transform(small, 0, 0, small, left - box.x0 * small, top - box.y1 * small)
    return Drawing(
        tuple(stroke.transformed(onto) for stroke in drawing.strokes),
        fills=tuple(fill.transformed(onto) for fill in drawing.fills),
    )


def _front(found: Views, scale: float) -> Drawing:
    """Draw the elevation with the sizes of drum and tiers."""
    stack, box = found.stack, found.front_box

    def on_paper(x: float, z: float) -> tuple[float, float]:
        return LEFT + (x - box.x0) / scale, (z - box.y1) / scale

    drawing = _placed(found.front, box, scale, LEFT, 0.0)
    if stack.drum is not None:
        drawing += _height(stack, on_paper) + _drum(stack, stack.drum, on_paper)
    right = on_paper(box.x1, 0)[0] + GAP
    for view, sizes in zip(views(stack), _sizes(found), strict=True):
        foot = on_paper(0, view.foot)[1]
        top = on_paper(0, view.foot + view.tier.covered.depth)[1]
        words = _beside(sizes, right + GAP / 2, (foot + top) / 2, top - foot)
        drawing += Drawing(_upright(right, foot, top) if words else (), words)
    top = on_paper(0, box.y0)[1] - (BELOW if stack.tiers else 0.0)
    for each, seen in found.beside:
        said = _said(found, each)
        drawing += _row(each, seen, said, on_paper, (right, top - ABOVE_ROW), scale)
        top -= _row_height(seen, scale)
    return drawing


def _said(found: Views, each: LetterBoard) -> tuple[str, ...]:
    """Return what is said beside a letter cake."""
    return (each.name,) if found.named else (each.name, each.sizes[0])


def _row(
    each: LetterBoard,
    seen: Drawing,
    said: tuple[str, ...],
    on_paper: OnPaper,
    corner: tuple[float, float],
    scale: float,
) -> Drawing:
    """Draw a letter cake from the front with its sizes, its top and what is said at a corner."""
    right, top = corner
    own, (left, _) = seen.bounds, on_paper(each.board.x0, 0)
    _, board = each.sizes
    low = top - each.cake.made.wall_height / scale
    words = _beside(said, right + GAP / 2, (low + top) / 2, top - low)
    ends = (left, on_paper(each.board.x1, 0)[0], top - own.height / scale)
    return (
        _placed(seen, own, scale, left, top)
        + Drawing(_upright(right, low, top), words)
        + _across(*ends, board)
    )


OnPaper = Callable[[float, float], tuple[float, float]]


WIDEST = 60.0
"""The most room that the name of a tier takes beside the cake, mm: a cake needs some too."""


def _sizes(of: Views) -> list[tuple[str, ...]]:
    """Return what is said of each tier: its name, and unless that is all its width and depth."""
    found: list[tuple[str, ...]] = []
    for tier in of.stack.tiers:
        layer = tier.covered
        widths = [width_words(layer.rim)]
        if layer.is_tapered:
            widths = [f"top {width_words(layer.rim)}", f"base {width_words(layer.foot)}"]
        name = fitted(tier.name, WIDEST, SMALL, bold=True)
        lines = ", ".join(widths).split(", ")  # those of a polygon are long beside each other
        sizes = (*lines, f"{in_both(layer.depth)} deep")
        found.append((name, *(() if of.named else sizes)))
    return found


def _upright(x: float, foot: float, top: float) -> tuple[Stroke, ...]:
    """Draw an upright line from foot to top with a tick at each end."""
    ends = ((x, foot), (x, top))
    ticks = [((x - TICK, y), (x + TICK, y)) for y in (foot, top)]
    return tuple(Stroke(line(a, b), Role.NOTE) for a, b in (ends, *ticks))


def _beside(words: Sequence[str], x: float, y: float, available: float) -> tuple[Label, ...]:
    """Set lines beside a place: all of them, or as many as have room, the name first."""
    count = max(0, int((available + 0.5) / (SMALL * LEADING)))
    lines = [Line(entry, SMALL, bold=not index) for index, entry in enumerate(words[:count])]
    return set_lines(lines, (x, y + height(lines) / 2))


def _height(stack: DecoratedStack, on_paper: OnPaper) -> Drawing:
    """Give the height of the cake above the drum, left of it."""
    foot, top = on_paper(0, 0)[1], on_paper(0, stack.height)[1]
    x = LEFT - GAP
    length = in_both(stack.height)
    ways = (f"{length} tall", length, f"{decimal(stack.height, 1)} mm")
    said = next((way for way in ways if text_width(way, SMALL) <= top - foot), "")
    if not said:
        return Drawing()
    words = Label(said, (x - TICK - 0.6, (foot + top) / 2), SMALL, Anchor.MIDDLE, turn=90)
    return Drawing(_upright(x, foot, top), (words,))


def _drum(stack: DecoratedStack, drum: Outline, on_paper: OnPaper) -> Drawing:
    """Give the width of the drum below it."""
    half = drum.bounds.width / 2
    (x0, y), (x1, _) = on_paper(-half, -stack.drum_thickness), on_paper(half, -stack.drum_thickness)
    # of a hexagon, whose flat side is in front, the line shows the larger of its sizes
    many = drum.across_flats is not None
    size = f"{in_both(2 * half)} corner to corner" if many else width_words(drum)
    return _across(x0, x1, y, f"drum {size}")


def _across(x0: float, x1: float, y: float, label: str) -> Drawing:
    """Draw a level line below something that ends at a height, with its size below it."""
    y -= GAP / 2
    ends = ((x0, y), (x1, y))
    ticks = [((x, y - TICK), (x, y + TICK)) for x in (x0, x1)]
    # a small drum is narrower than its words, which stay in the picture
    middle = max((x0 + x1) / 2, text_width(label, SMALL) / 2)
    words = Label(label, (middle, y - SMALL - 0.6), SMALL, Anchor.MIDDLE)
    return Drawing(tuple(Stroke(line(a, b), Role.NOTE) for a, b in (ends, *ticks)), (words,))


def _above(found: Views, scale: float) -> Drawing:
    """Draw the plan, with its back and front."""
    pitch = SMALL * LEADING
    drawing = _placed(found.above, found.above_box, scale, 0.0, -pitch)
    middle, foot = found.above_box.width / scale / 2, found.above_box.height / scale
    labels = (
        Label("back", (middle, -SMALL), SMALL, Anchor.MIDDLE),
        Label("front", (middle, -foot - 2 * pitch + 0.8), SMALL, Anchor.MIDDLE),
    )
    return drawing + Drawing(labels=labels)
