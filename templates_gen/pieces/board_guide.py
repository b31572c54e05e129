"""Board guides: where pillars stand under a raised tier, and dowels under a board inside one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import Line, measure, text_block, title_lines
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Outline
from templates_gen.pieces.marks import axes_across, plan_quarters
from templates_gen.pieces.upright import free_space, upright_marks, upright_places
from templates_gen.tiers.dowels import Support
from templates_gen.tiers.inner_boards import inner_boards
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.seat import Seat
from templates_gen.tiers.solid import Solid
from templates_gen.units import NO_BREAK, counted, in_trade


def build(seat: Seat) -> Iterable[Piece]:
    """Yield the guide of a board that stands on pillars: a circle for each of them."""
    found, upper = seat.separator, seat.upper
    if found is None or not found.on_pillars or seat.support is None or not seat.support.count:
        return
    support = _under_board(seat.support, seat.place)
    title = f"{upper.name}: board guide"
    edge = upper.board.path()
    block = title_lines(
        title,
        f"{counted(support.count, 'pillar')}, each {measure(found.height)} tall",
        f"{in_trade(found.thick)} thick".replace(" ", NO_BREAK),
    )
    yield Piece(
        owner=upper.owner,
        kind="board-guide",
        title=title,
        surface="board",
        use=(
            "Lay it face down on the underside of the board, front to front, line up the edges, and"
            " mark each circle: a pillar stands there. Lay it face up to cut the board itself."
        ),
        outline=edge,
        drawing=_drawing(upper.board, block, support, found.thick),
        values={
            "pillar_count": support.count,
            "pillar_height_mm": found.height,
            "pillar_thickness_mm": found.thick,
            **upright_places(support, "pillar"),
        },
    )


def build_inner(tier: Solid, through: Point | None) -> Iterable[Piece]:
    """Yield the guide of each board inside a tier: a cross for each dowel below it."""
    boards = inner_boards(tier, through)
    for number, board in enumerate(boards, 1):
        support = board.support
        numbered = f" {number}" if len(boards) > 1 else ""
        title = f"{tier.name}: inner board{numbered}"
        edge = board.outline.path()
        count = counted(support.count, "dowel")
        block = title_lines(title, f"{count} below it, each {measure(support.length)} long")
        yield Piece(
            owner=tier.owner,
            kind="inner-board",
            part=str(number) if len(boards) > 1 else "",
            title=title,
            surface="board",
            use=(
                "Cut the board by its edge. Then lay it on the cake below the board, and prick the"
                " numbered crosses: a dowel goes in at each, and the board lies on them."
            ),
            outline=edge,
            drawing=_drawing(board.outline, block, support, support.thickness),
            values={
                "dowel_count": support.count,
                "dowel_length_mm": support.length,
                **upright_places(support, "dowel"),
            },
        )


def _drawing(board: Outline, words: Sequence[Line], support: Support, thick: float) -> Drawing:
    """Draw what is printed on a board: words, what stands upright on it, axes and quarters."""
    labels = text_block(words, free_space(board, Pose(), support, thick))
    drawing = Drawing(labels=labels) + upright_marks(support, thick)
    return drawing + axes_across(board.path()) + plan_quarters(board)


def _under_board(support: Support, place: Pose) -> Support:
    """Return the dowels below a board in the frame of the tier that stands so on its seat."""
    back = place.transform.inverse()

    def at(point: Point) -> Point:
        x, y = back.transformPoint(point)
        return x, y

    through = at(support.through) if support.through is not None else None
    return replace(support, places=tuple(map(at, support.places)), through=through)
