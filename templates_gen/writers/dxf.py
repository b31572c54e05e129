"""DXF of one piece, for cutting machines and drafting programs, in true mm.

One layer a role; arcs are arcs, other curves are splines through the same points as the cubics.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from io import StringIO
from itertools import groupby

import ezdxf
from ezdxf._options import options
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.layout import Modelspace

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.word_outlines import word_outlines
from templates_gen.geometry.as_arcs import Arc, Contour, Cubic, Line, Segment, with_arcs
from templates_gen.geometry.path import Path
from templates_gen.units import NO_BREAK

VERSION = "R2000"
"""Old enough for every cutting machine that knows splines."""
MILLIMETRES = 4
"""The value of $INSUNITS, from the DXF reference of Autodesk."""
COMMENT = 999
"""The group code of a comment, from the same reference."""
LABELS = "labels"
_LABEL_COLOUR = 8
_PLACES = {
    Anchor.START: TextEntityAlignment.LEFT,
    Anchor.MIDDLE: TextEntityAlignment.CENTER,
    Anchor.END: TextEntityAlignment.RIGHT,
}
_SAME = 1e-6


def write_dxf(
    piece: Piece, pack_mark: str = "", *, solid: bool = False, outlined: bool = False
) -> bytes:
    """Return one piece as a DXF file; the same piece gives the same bytes.

    With ``solid`` every line is continuous, as machines want it that would cut each dash; with
    ``outlined`` words are outlines of letters, not text.
    """
    with _unchanging():
        document = ezdxf.new(VERSION)  # type: ignore[attr-defined]  # exported without saying so
        document.units = MILLIMETRES
        document.header["$MEASUREMENT"] = 1
        _add_layers(document, {stroke.role for stroke in piece.drawing.strokes}, solid)
        space = document.modelspace()
        for stroke in piece.drawing.strokes:
            _add_path(space, stroke.path, stroke.role.word)
        labels = piece.drawing.labels
        if outlined:
            for path in word_outlines(labels):
                _add_path(space, path, LABELS)
        else:
            for label in labels:
                _add_text(space, label)
        stream = StringIO()
        document.write(stream)
        said = f"{piece.title}, {pack_mark}" if pack_mark else piece.title
        text = f"{COMMENT}\n{said}\n{stream.getvalue()}"
        return text.encode(document.output_encoding, errors="dxfreplace")


@contextmanager
def _unchanging() -> Iterator[None]:
    """Have ezdxf write no time of day and no random mark."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _add_layers(document: Document, used: Iterable[Role], solid: bool) -> None:
    """Add a layer with the colour, weight and dashes of each role that is used, and the labels'."""
    for number, role in enumerate(Role, 1):
        if role not in used:
            continue
        dashes = () if solid else role.dashes
        if dashes:
            signed = [-each if index % 2 else each for index, each in enumerate(dashes)]
            document.linetypes.add(role.word, [sum(dashes), *signed], description=role.meaning)
        layer = document.layers.add(role.word, color=number)
        layer.dxf.linetype = role.word if dashes else "Continuous"
        layer.dxf.lineweight = round(100 * role.weight)
    document.layers.add(LABELS, color=_LABEL_COLOUR)


def _add_path(space: Modelspace, path: Path, layer: str) -> None:
    for contour in with_arcs(path):
        if contour.segments:
            _add_contour(space, contour, {"layer": layer})


def _add_contour(space: Modelspace, contour: Contour, attributes: dict[str, str]) -> None:
    """Add a circle, or one polyline of lines and arcs, or parts where there are other curves."""
    segments = contour.segments
    if contour.closed and _is_circle(segments):
        arc = segments[0]
        assert isinstance(arc, Arc)
        space.add_circle(arc.centre, arc.radius, attributes)
        return
    runs = [list(run) for _, run in groupby(segments, lambda each: isinstance(each, Cubic))]
    for run in runs:
        if isinstance(run[0], Cubic):
            _add_spline(space, run, attributes)
        else:
            _add_flat(space, run, contour.closed and len(runs) == 1, attributes)


def _is_circle(segments: Sequence[Segment]) -> bool:
    first = segments[0]
    if not isinstance(first, Arc):
        return False
    arcs = [each for each in segments if isinstance(each, Arc)]
    same = all(math.dist(each.centre, first.centre) < _SAME * first.radius for each in arcs)
    whole = abs(abs(sum(each.sweep for each in arcs)) - math.tau) < _SAME
    return len(arcs) == len(segments) and same and whole


def _add_flat(
    space: Modelspace, run: Sequence[Segment], closed: bool, attributes: dict[str, str]
) -> None:
    """Add lines and arcs as what they are: one line, one arc, or a polyline with its bulges."""
    first = run[0]
    if len(run) == 1 and isinstance(first, Line):
        space.add_line(first.start, first.end, attributes)
        return
    if len(run) == 1 and isinstance(first, Arc):
        ends = [math.degrees(_angle(first, point)) for point in (first.start, first.end)]
        start, end = ends if first.sweep > 0 else ends[::-1]
        space.add_arc(first.centre, first.radius, start, end, dxfattribs=attributes)
        return
    points = [(*each.start, _bulge(each)) for each in run]
    if not closed:
        points.append((*run[-1].end, 0.0))
    space.add_lwpolyline(points, "xyb", close=closed, dxfattribs=attributes)


def _angle(arc: Arc, point: tuple[float, float]) -> float:
    return math.atan2(point[1] - arc.centre[1], point[0] - arc.centre[0])


def _bulge(segment: Segment) -> float:
    """Return the bulge of a part of a polyline: the tangent of a quarter of its arc's angle."""
    return math.tan(segment.sweep / 4) if isinstance(segment, Arc) else 0.0


def _add_spline(space: Modelspace, run: Sequence[Segment], attributes: dict[str, str]) -> None:
    """Add cubics that follow each other as one spline whose knots are triple where they meet."""
    cubics = [each for each in run if isinstance(each, Cubic)]
    controls = [cubics[0].start]
    for each in cubics:
        controls += (each.first, each.second, each.end)
    count = len(cubics)
    knots = [0, *(knot for knot in range(count + 1) for _ in range(3)), count]
    space.add_open_spline(
        [(x, y, 0) for x, y in controls], degree=3, knots=knots, dxfattribs=attributes
    )


def _add_text(space: Modelspace, label: Label) -> None:
    height = fonts.CAP_HEIGHT * label.size
    attributes = {"layer": LABELS}
    written = label.text.replace(NO_BREAK, " ")
    text = space.add_text(written, height=height, rotation=label.turn, dxfattribs=attributes)
    text.set_placement(label.at, align=_PLACES[label.anchor])
