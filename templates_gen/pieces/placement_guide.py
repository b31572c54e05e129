"""Placement guide: where the next tier stands on a drum or on a covered top."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from templates_gen.cakefile.cascades import Cascade
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke, joined
from templates_gen.drawing.piece import Piece, Value
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, measure, text_block, title_lines
from templates_gen.errors import PlanWarning
from templates_gen.geometry.areas.booleans import Area, covers, region
from templates_gen.geometry.areas.lines import overlap, within
from templates_gen.geometry.box import Box
from templates_gen.geometry.outline import Outline
from templates_gen.guides.cascade import Laid, counted_by_size, drawn, named_counts
from templates_gen.guides.decorated import Ledge
from templates_gen.pieces.making import PRINT_UP
from templates_gen.pieces.marks import (
    MARK,
    axes_across,
    centre_cross,
    inwards,
    plan_quarters,
    strokes,
)
from templates_gen.pieces.upright import free_space, upright_marks, upright_places
from templates_gen.tiers import dowels
from templates_gen.tiers.dowels import Support
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.seat import TOUCHING, Seat
from templates_gen.tiers.widths import width_words
from templates_gen.units import counted, in_both

NARROW = 5.0
"""Clearance in mm that is worth a second look."""


def build(seat: Seat, ledge: Ledge) -> Iterable[Piece]:
    """Yield the sheet that lies on a drum or top, with the outline of the tier to set on it.

    Pieces of cascades are marked where they lie round that.
    """
    if not seat.scored:
        return
    upper, place = seat.upper, seat.place
    title = f"{seat.name}: placement guide"
    yield Piece(
        owner=seat.owner,
        kind="placement-guide",
        title=title,
        surface="drum" if seat.on_drum else "covered",
        use=_use(seat) + _around(ledge),
        outline=seat.edge,
        drawing=_drawing(seat, title) + cascade_places(ledge),
        values={
            "outline_across_mm": upper.covered.foot.across,
            "board_across_mm": upper.board.across,
            "clearance_mm": seat.clearance,
            "right_mm": place.right,
            "back_mm": place.back,
            "turn_deg": place.turn,
            **({} if seat.on_drum else _dowel_values(seat.support)),
            **_circles(seat, ledge),
        },
        warnings=(*_warnings(seat), *_hidden(seat, ledge)),
    )


def _use(seat: Seat) -> str:
    upper = seat.upper.name
    surface = "drum" if seat.on_drum else "covered top"
    where = f"Lay it on the {surface}, {PRINT_UP}, line up the edges, and"
    dowelled = seat.support is not None and seat.support.count
    dowels = " Prick the numbered crosses too: a dowel goes in at each." if dowelled else ""
    dowels += _dowel_choices(seat)
    if seat.separator is None:
        return f"{where} prick the outline named “{upper} covered”: “{upper}” stands there.{dowels}"
    if seat.separator.on_pillars:
        return f"{where} prick the numbered crosses: a dowel goes in at each, and a pillar over it."
    return (
        f"{where} prick the outline named “spacer”: it stands there, and carries “{upper}”.{dowels}"
    )


def _laid(ledge: Ledge) -> Iterator[tuple[Cascade, tuple[Laid, ...]]]:
    """Yield what each cascade has on a ledge."""
    for run in ledge.runs:
        laid = ledge.cascades.get(run.index)
        if laid:
            yield run.spec, laid


def _around(ledge: Ledge) -> str:
    """Say what is marked round the tier."""
    found = cascade_words(ledge)
    return f" Round it prick the places of the cascade: {found}." if found else ""


def cascade_words(ledge: Ledge) -> str:
    """Say how many pieces of each size the cascades have on a ledge."""
    return "; ".join(named_counts(spec, counted_by_size(spec, laid)) for spec, laid in _laid(ledge))


def cascade_places(ledge: Ledge) -> Drawing:
    """Draw the pieces of cascades where they lie on a ledge, in the frame of its seat."""
    return joined(drawn(*each) for each in _laid(ledge))


def _dowel_choices(seat: Seat) -> str:
    """Say how dowels would have room where too few do, and what each way brings with it."""
    support = seat.support
    if support is None or not support.choices:
        return ""
    number = f"Only {counted(support.count, 'dowel')} have" if support.count else "No dowel has"
    return f" {number} room below “{seat.upper.name}”: {'; or '.join(support.choices)}."


def _dowel_values(support: Support | None) -> dict[str, Value]:
    if support is None:
        return {}
    return {
        "dowel_count": support.count,
        "dowel_length_mm": support.length,
        **upright_places(support, "dowel"),
    }


def _circles(seat: Seat, ledge: Ledge) -> dict[str, Value]:
    """Return the radii of the edge and of the tier, if circles about one middle are all there is.

    A dowel through all tiers may stand in that middle.
    """
    edge, foot, support = seat.outline.radius, seat.upper.covered.foot.radius, seat.support
    through = support.through if support else None
    marked = (support and support.count) or seat.separator or any(_laid(ledge))
    if not edge or not foot or marked or seat.place != Pose() or seat.clearance < 0:
        return {}
    return {"radii_mm": (edge, foot)} if math.hypot(*(through or (0, 0))) < TOUCHING else {}


def _drawing(seat: Seat, title: str) -> Drawing:
    upper, place = seat.upper, seat.place
    covered, board = upper.covered.foot, upper.board
    block = title_lines(title, _for(seat), _clearance(seat), *_dowel_words(seat))
    on = region(seat.edge)
    # a raised tier does not stand there
    role = Role.SCORE if seat.separator is None else Role.GUIDE
    outlines = Drawing(
        (Stroke(seat.covered, role), Stroke(seat.board, Role.GUIDE)),
        (
            _along(f"{upper.name} covered", covered, place, on, 7),
            _along("board" if upper.board_thickness else "bare", board, place, on, 19 / 3),
            *text_block(block, _free_space(seat)),
        ),
    )
    outlines += _spacer(seat, on)
    marks = upright_marks(seat.support, _thick(seat)) if seat.support else Drawing()
    quarters = plan_quarters(seat.outline).transformed(seat.lies.transform)
    # what reaches over the edge has no paper to stand on
    upon = (outlines + marks + _middle(place, board)).cut(lambda path: within(path, on))
    return upon + axes_across(seat.edge) + quarters


def _spacer(seat: Seat, on: Area) -> Drawing:
    """Draw the spacer under a raised tier."""
    spacer = seat.separator.spacer if seat.separator else None
    if spacer is None:
        return Drawing()
    label = _along("spacer", spacer, seat.place, on, 20 / 3)
    return Drawing((Stroke(seat.stands, Role.SCORE),), (label,))


def _for(seat: Seat) -> str:
    """Say for which tier the guide is, and how high that is raised."""
    across = width_words(seat.upper.covered.foot, measure)
    raised = f", raised {measure(seat.raised)}" if seat.separator else ""
    return f"for {seat.upper.name}: {across}{raised}"


def _dowel_words(seat: Seat) -> list[str]:
    """Say how many dowels there are and how long."""
    support = seat.support
    if support is None:
        return []
    on_pillars = seat.separator is not None and seat.separator.on_pillars
    pillars = ", up through the pillars" if on_pillars else ""
    number = counted(support.count, "dowel")
    words = [f"{number}, each {measure(support.length)} long{pillars}"] if support.count else []
    through = ["T: one dowel through all tiers; drill each board there"]
    return [*words, *(through if support.through else [])]


def _thick(seat: Seat) -> float:
    """Return how wide what stands upright on the surface is, mm: a dowel or the pillar over it."""
    dowel = seat.support.thickness if seat.support else 0.0
    return max(dowel, seat.separator.thick if seat.separator else 0.0)


def _free_space(seat: Seat) -> Box:
    """Return the space for words round the upper tier's middle, free of dowels and marks."""
    smaller = min(seat.outline, seat.upper.board, key=lambda each: each.across)
    taken = tuple(label.box for label in _middle(seat.place, seat.upper.board).labels[-1:])
    return free_space(smaller, seat.place, seat.support, _thick(seat), taken)


def _clearance(seat: Seat) -> str:
    """Say how much of the surface is left round the tier, or how far the tier reaches over it."""
    if seat.clearance < -TOUCHING:
        return f"reaches over by up to {measure(-seat.clearance)}"
    if seat.place.distance or seat.outline.radius is None or seat.upper.covered.foot.radius is None:
        return f"least clearance {measure(max(seat.clearance, 0.0))}"
    return f"clearance all round {measure(seat.clearance)}"


def _middle(place: Pose, board: Outline) -> Drawing:
    """Mark the middle of an upper tier that does not stand in the middle, and its own front."""
    arm, front = 5.0, board.girth / 2
    marked = Drawing()
    if place.distance:
        marked += centre_cross(arm)
        marked += Drawing(labels=(Label("its middle", (1.5, 1.5), SMALL),))
    if place.turn:
        x, y = inner = inwards(board, front, MARK)
        marked += Drawing(
            strokes(Role.GUIDE, (board.at(front), inner)),
            (Label("its front", (x, y + 1.5), SMALL, Anchor.MIDDLE),),
        )
    return marked.transformed(place.transform)


def _along(text: str, outline: Outline, place: Pose, on: Area, first: float) -> Label:
    """Set a word inside an outline, along it, where that is ``on`` the surface.

    ``first`` is the place to try first, in twelfths of the girth from the back.
    """

    def at(twelfths: float) -> Label:
        s = twelfths / 12 % 1 * outline.girth
        turn = math.degrees(outline.heading_at(s)) % 360
        label = Label(text, inwards(outline, s, SMALL), SMALL, Anchor.MIDDLE, turn)
        return label.transformed(place.transform)

    tries = map(at, (first + step for step in range(12)))
    return next((label for label in tries if covers(on, label.box)), at(first))


def _warnings(seat: Seat) -> tuple[PlanWarning, ...]:
    """Return warnings of how a tier stands."""
    upper, found = seat.upper, []
    if TOUCHING < seat.clearance < NARROW:
        where = "beside" if seat.place.distance else "all round"
        left = f"only {in_both(seat.clearance)} is left {where} it on {seat.name}"
        text = f"{upper.name}: {left}."
        found.append(PlanWarning(upper.key("size"), text))
    if seat.clearance < -TOUCHING:
        text = (
            f"{upper.name}: it reaches {in_both(-seat.clearance)} over {seat.name}; nothing holds"
            " up what reaches over."
        )
        found.append(PlanWarning(upper.key("position", "overhang"), text))
    if upper.board.across > upper.covered.foot.across:
        text = f"{upper.name}: its board is wider than the covered tier and will show."
        found.append(PlanWarning(upper.key("board"), text))
    if upper.board.across < upper.bare.foot.across / 2:
        text = f"{upper.name}: its board is less than half as wide as the tier."
        found.append(PlanWarning(upper.key("board"), text))
    if seat.lower is not None and seat.support is not None:
        found += dowels.warnings(seat.lower, seat.support)
    return tuple(found)


def _hidden(seat: Seat, ledge: Ledge) -> Iterator[PlanWarning]:
    """Yield a warning for each lettering on a top that the tier over it hides."""
    lower, upper = ledge.lettered, seat.upper
    for index, lettered in lower.letterings_on_top.items() if lower else ():
        letters = [path.transformed(seat.lies.transform) for path in lettered.outlines]
        if lower and overlap([seat.covered], letters, (0.0,)):
            text = (
                f"{lower.name}: “{upper.name}” stands on the words “{lettered.spec.text}”; set them"
                " along the edge of the top, or on the side."
            )
            yield PlanWarning((*lower.key("lettering"), index), text)
