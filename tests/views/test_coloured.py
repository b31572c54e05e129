"""The colours of the elevation and of the plan lie where the cake is, and are those in space."""

from __future__ import annotations

import io

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from PIL import Image

from templates_gen.cakefile.cake import Cake
from templates_gen.drawing.colour_words import from_hex
from templates_gen.drawing.drawing import Drawing, Fill
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import make_plan
from templates_gen.views.coloured import colours_above, front_colours
from templates_gen.views.colours import BOARD, colour_of
from templates_gen.views.picture import picture
from templates_gen.views.scene import scene
from templates_gen.writers.picture import picture_png, picture_svg
from tests.cakes import cake, sample
from tests.strategies import cakes

RED, BLUE = colour_of("red", ""), colour_of("blue", "")
PLAIN = "cover='none'\ncoating='0 mm'\ndummy=true\n"


def area(fills: tuple[Fill, ...], colour: tuple[int, int, int]) -> float:
    """Return the area of one colour, if nothing of it overlaps."""
    rings = [
        shapely.Polygon(points)
        for fill in fills
        if fill.colour == colour
        for points, _ in sampled(fill.path)
    ]
    return sum(ring.area for ring in rings)


def test_of_drips_all_round_half_is_seen() -> None:
    """Twelve drips round a tier: five whole ones and two halves, as narrow as they are seen."""
    spacing = 200 * np.pi / 12
    text = (
        f"[[tier]]\nsize='200 mm'\ndepth='100 mm'\n{PLAIN}colour='blue'\n[tier.drips]\n"
        f"spacing='{spacing} mm'\npattern='even'\nlongest='50 mm'\ncolour='red'\n"
    )
    stack = build_stack(cake(text))
    fills = front_colours(stack)
    red = [fill for fill in fills if fill.colour == RED]
    assert len(red) == 7
    one = area((next(iter(sorted(red, key=lambda fill: abs(fill.path.bounds.centre[0])))),), RED)
    # a drip turned by 30 or 60 degrees is seen by the cosine narrower: 1 + 2 cos 30 + 2 cos 60
    assert area(fills, RED) == pytest.approx(one * (1 + 3**0.5 + 1), rel=0.02)
    assert area(fills, BLUE) == pytest.approx(200 * 100)


def test_a_panel_over_the_edge_ends_there() -> None:
    """Panels all round are seen as a band as wide as the tier."""
    text = (
        f"[[tier]]\nsize='200 mm'\ndepth='100 mm'\n{PLAIN}[tier.panels]\ncount=7\n"
        "height='30 mm'\ncolour='red'\n"
    )
    fills = front_colours(build_stack(cake(text)))
    assert area(fills, RED) == pytest.approx(200 * 30, rel=0.002)


def test_from_above_every_tier_shows_its_colour() -> None:
    """The outline of each, and the ring that the drips come from."""
    text = (
        f"[[tier]]\nsize='200 mm'\ndepth='100 mm'\n{PLAIN}colour='blue'\n[tier.drips]\n"
        "width='10 mm'\ncolour='red'\n"
    )
    fills = colours_above(build_stack(cake(text)))
    assert [fill.colour for fill in fills[1:]] == [BLUE, RED]
    assert area(fills, BLUE) == pytest.approx(np.pi * 100**2, rel=1e-3)


@settings(max_examples=15, deadline=None)
@given(cakes())
def test_random_cakes(made: Cake) -> None:
    """Of any cake the colours lie within it, and are those of the scene."""
    stack = build_stack(made)
    found = scene(stack)
    known = {from_hex(BOARD), *(body.look.colour for body in found.bodies)}
    for body in found.bodies:
        known |= {mark.look.colour for mark in (*body.on_side, *body.on_top)}
        known |= {body.hole.look.colour} if body.hole else set()
    for fill in (*front_colours(stack), *colours_above(stack)):
        assert fill.colour in known
    for fill in front_colours(stack):
        box = fill.path.bounds
        assert max(abs(box.x0), abs(box.x1)) <= found.reach + 0.1
        assert box.y0 >= -stack.drum_thickness - 0.1
        assert box.y1 <= stack.height + 0.1


def test_pictures_are_in_colour() -> None:
    """The picture of a blue cake is blue where the cake is, as SVG and as PNG."""
    text = f"[[tier]]\nsize='200 mm'\ndepth='200 mm'\n{PLAIN}colour='blue'\n"
    drawing = picture(make_plan(cake(text)), 186.0, 260.0).drawing
    assert b'fill="#6f9fd8"' in picture_svg("Blue", drawing)
    image = Image.open(io.BytesIO(picture_png("Blue", drawing))).convert("RGB")
    seen = np.asarray(image).reshape(-1, 3)
    share = float(np.mean(np.all(np.abs(seen.astype(int) - np.array(BLUE)) < 4, axis=1)))
    assert share > 0.1


def test_what_has_no_colour_has_no_group() -> None:
    """A drawing of lines alone is written as before."""
    assert b"colours" not in picture_svg("Lines", Drawing(front(sample("naming-day")).strokes))


def front(made: Cake) -> Drawing:
    """Return the picture of a cake."""
    return picture(make_plan(made), 186.0, 260.0).drawing
