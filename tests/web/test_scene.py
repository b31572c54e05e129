"""The picture of the cake in a real browser: turned, seen from above, its parts picked."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from playwright.sync_api import Browser, Page

from templates_gen.cakefile.cake import Cake
from templates_gen.guides.decorated import build_stack
from templates_gen.views.scene import scene
from templates_gen.views.scene.parts import Repeated
from templates_gen.web import live
from templates_gen.web.assets import digest
from tests.cakes import SAMPLES, cake, sample
from tests.web.conftest import script, settle, until
from tests.web.server import Server

PLAIN = "cover='none'\ncoating='0 mm'\ndummy=true\ncolour='#3366ff'\nboard_thickness='0 mm'\n"
"""A tier without layers and board, in blue."""
TWO = (
    f"[[tier]]\nsize='300 mm'\ndepth='100 mm'\n{PLAIN}"
    "[tier.drips]\nspacing='60 mm'\nwidth='20 mm'\npattern='even'\nlongest='80 mm'\n"
    f"[[tier]]\nsize='100 mm'\ndepth='100 mm'\n{PLAIN}"
)


def in_space(spec: Cake) -> dict[str, Any]:
    """Return a cake in space as the browser has it."""
    found: dict[str, Any] = json.loads(live.in_space(spec))
    return found


@pytest.fixture
def view(server: Server, chromium: Browser) -> Iterator[Page]:
    """Show a cake of two tiers in a picture 600 px wide and 520 px tall, on an empty page."""
    context = chromium.new_context(viewport={"width": 700, "height": 640})
    page = context.new_page()
    said: list[str] = []
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(f"{server.address}static/{digest()}/scene.css")
    page.evaluate(
        """async () => {
          const style = document.createElement("link");
          style.rel = "stylesheet";
          style.href = location;
          const box = document.createElement("div");
          const isStyled = new Promise((resolve) => style.addEventListener("load", resolve));
          document.head.append(style);
          await isStyled;
          document.body.replaceChildren(box);
          box.style.width = "600px";
          box.style.height = "520px";
          const { CakeView } = await import(new URL("scene.js", location));
          window.picked = [];
          window.hovered = [];
          window.moved = [];
          window.view = new CakeView(box, {
            onPick: (part) => picked.push(part), onHover: (look) => hovered.push(look),
            onMove: (part, changes, isDone) => moved.push({ part, changes, isDone }),
          });
        }"""
    )
    show(page, in_space(cake(TWO)))
    yield page
    context.close()
    assert said == []


def show(page: Page, scene: dict[str, Any]) -> None:
    """Show a scene, and wait until it is drawn in full."""
    page.evaluate("scene => view.show(scene)", json.loads(json.dumps(scene)))
    rest(page)


def rest(page: Page) -> None:
    """Wait until the picture is drawn in full."""
    until(page, "!view.frameId && !view.isMoving && Boolean(view.painter)")


def turn(page: Page, degrees: float, tilt: float) -> None:
    """Look from somewhere."""
    page.evaluate("([turn, tilt]) => view.turnTo(turn, tilt)", [degrees, tilt])
    rest(page)


def place(page: Page, x: float, z: float) -> tuple[float, float]:
    """Return where something at x and z is on the screen, of a cake seen from the front, level."""
    box = page.locator(".cake-canvas").bounding_box()
    scale = page.evaluate("view.camera.scale")
    middle = page.evaluate("view.camera.top")
    assert box is not None
    return box["x"] + box["width"] / 2 + x * scale, box["y"] + 12 + middle - z * scale


def found(page: Page, at: tuple[float, float]) -> str | None:
    """Return the part that a click at a place picks."""
    rest(page)  # while the picture is yet to be drawn a click may find what was there before
    page.mouse.click(*at)
    part: str | None = page.evaluate("picked[picked.length - 1]")
    return part


def test_a_click_finds_what_lies_there(view: Page) -> None:
    """Seen level from the front: tiers, the drip in front and its neighbour, the drum, nothing."""
    turn(view, 0, 0)
    assert found(view, place(view, 0, 150)) == "tier.1"
    assert found(view, place(view, 30, 50)) == "tier.0"
    assert found(view, place(view, 0, 60)) == "tier.0.drips"
    assert found(view, place(view, 150 * 0.3827, 60)) == "tier.0.drips"
    assert found(view, place(view, 170, -6)) == "drum"
    assert found(view, place(view, 140, 150)) is None


def test_what_is_read_aloud_takes_no_room_from_the_picture(view: Page) -> None:
    """The picture is as tall once it has been announced as before: a click stays where it is."""
    tall = "view.canvas.getBoundingClientRect().height"
    view.evaluate("view.heard.textContent = ''")
    before = view.evaluate(tall)
    turn(view, 30, 0)
    until(view, "view.heard.textContent !== ''")
    assert view.evaluate(tall) == before


def test_from_above_what_is_on_top_is_found(view: Page) -> None:
    """The upper tier covers the middle of the lower, whose drips come from its rim."""
    turn(view, 0, 90)
    box = view.locator(".cake-canvas").bounding_box()
    assert box is not None
    scale = view.evaluate("view.camera.scale")
    middle = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    parts = [found(view, (middle[0] + x * scale, middle[1])) for x in (0, 80, 140, 180)]
    assert parts == ["tier.1", "tier.0", "tier.0.drips", "drum"]


def test_a_shape_at_many_places_lies_there_in_the_browser(view: Page) -> None:
    """The page lays a shape as the scene means it: turned from x to y, then moved."""
    repeated = Repeated(
        (((0.0, 0.0), (4.0, 1.0), (2.0, 3.0)),), ((10.0, 20.0, 0.0), (5.0, -3.0, 130.0))
    )
    mark: dict[str, Any] = {
        "shapes": [[[7, 7, 8, 7, 8, 8]]],
        "repeated": [
            {"shape": [[0, 0, 4, 1, 2, 3]], "places": [x for at in repeated.places for x in at]}
        ],
    }
    first, *found = view.evaluate(
        "async (mark) => (await import(new URL('scene_paths.js', location))).shapesOf(mark)", mark
    )
    assert first == mark["shapes"][0]
    expected = [[[x for point in ring for x in point] for ring in each] for each in repeated.shapes]
    assert np.allclose(found, expected, atol=1e-9)


def test_a_new_cake_is_drawn_before_the_next_frame(view: Page) -> None:
    """What is shown is on the canvas at once, and only once, so that the next frame has it."""
    scene_ = in_space(cake(TWO))
    now = "Number(view.canvas.dataset.shown)"
    before = view.evaluate(now)
    after = view.evaluate(f"scene => {{ view.show(scene); return [{now}, view.frameId] }}", scene_)
    assert after == [before + 1, 0]


def test_a_body_that_was_not_sent_again_stays(view: Page) -> None:
    """Bodies that the page says it knows are drawn as before, where the new picture has them."""
    wider = cake(TWO.replace("300 mm", "320 mm"))
    known = view.evaluate("view.known()")
    sent = json.loads(live.in_space(wider, known))
    assert len(known) == len(sent["bodies"]) == 3
    assert sum("part" in body for body in sent["bodies"]) < 3
    show(view, sent)
    parts = view.evaluate("view.scene.bodies.map((body) => body.part)")
    assert parts == ["drum", "tier.0", "tier.1"]
    turn(view, 0, 0)
    assert found(view, place(view, 0, 150)) == "tier.1"


def test_shade_lies_as_far_out_on_every_side(view: Page) -> None:
    """A square as seen from above, right way round, grows by 5 px, a hole in it shrinks by that."""
    outer, hole = [[0, 40], [40, 40], [40, 0], [0, 0]], [[10, 10], [30, 10], [30, 30], [10, 30]]
    grown = view.evaluate(
        "async (rings) => { const { grown } = await import(new URL('scene_paths.js', location));"
        " return rings.map((ring) => grown(ring.flat(), 5)) }",
        [outer, hole],
    )
    assert grown[0] == [-5, 45, 45, 45, 45, -5, -5, -5]
    assert grown[1] == [15, 15, 25, 15, 25, 25, 15, 25]


SIXTY = (
    "[[letter_cake]]\ntext='0'\ncap_height='240 mm'\ncolour='#3366ff'\ntin_length='400 mm'\n"
    "[[letter_cake]]\ntext='6'\ncap_height='240 mm'\ncolour='#3366ff'\ntin_length='400 mm'\n"
)


def test_letters_lie_on_their_boards_with_open_holes(view: Page) -> None:
    """From above 0 and board are found, and the board shows through the hole, drum or none."""
    for text in (SIXTY, f"{TWO}{SIXTY}"):
        spec = cake(text)
        show(view, in_space(spec))
        board, _, letter, _ = scene(build_stack(spec)).lying
        outer, hole = sorted(letter.shapes[0], key=lambda ring: -max(x for x, _ in ring))
        ring = (max(x for x, _ in outer) + max(x for x, _ in hole)) / 2
        turn(view, 0, 90)
        box = view.locator(".cake-canvas").bounding_box()
        assert box is not None
        frame = (
            "camera => { const f = view.camera.frame(camera); return [f.x(0, 0), f.y(0, 0, 0)]; }"
        )
        x, y = view.evaluate(frame, list(letter.at))
        scale = view.evaluate("view.camera.scale")
        at = box["x"] + 12 + x, box["y"] + 12 + y
        colours = []
        for aside in (0.0, ring):
            assert found(view, (at[0] + aside * scale, at[1])) == "letter_cake.0"
            pixel = f"view.context.getImageData({(x + aside * scale + 12)}, {y + 12}, 1, 1).data"
            colours.append(view.evaluate(f"Array.from({pixel}.slice(0, 3))"))
        assert colours[0][2] - colours[0][0] < 40  # grey: the board
        assert colours[1][2] - colours[1][0] > 90  # blue: the letter
        assert board.look.part == letter.look.part
        # from behind, what lies before the drum is hidden by a tall tier in front of it
        turn(view, 180, 5)
        if "tier" in text:
            assert found(view, place(view, 0, 30)) in ("tier.0", "tier.0.drips")


def test_a_topper_on_letters_is_seen_before_them(view: Page) -> None:
    """With no tier a topper stands on the letters: from wherever one looks down, over them."""
    spec = cake(f"{SIXTY}[[topper]]\nshape = 'heart'\nheight = '60 mm'\nstick = 'tab'\n")
    show(view, in_space(spec))
    (topper,) = scene(build_stack(spec)).standing
    ups = [up for shape in topper.shapes for ring in shape for _, up in ring]
    seen = """([at, up]) => {
      const f = view.camera.frame(at), sharp = view.sharp;
      return view.painter.at((f.x(0, 0) + 12) * sharp, (f.y(0, 0, up) + 12) * sharp);
    }"""
    for turned, tilt in ((0, 20), (30, 50), (160, 35)):
        turn(view, turned, tilt)
        assert view.evaluate(seen, [list(topper.at), max(ups) / 2]) == "topper.0"


DRAWN = """() => {
  const { canvas, context } = view;
  const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
  let [left, right, top, bottom] = [canvas.width, 0, canvas.height, 0];
  for (let at = 3; at < data.length; at += 4) {
    if (data[at] < 250) continue;
    const [x, y] = [((at - 3) / 4) % canvas.width, Math.floor((at - 3) / 4 / canvas.width)];
    [left, right] = [Math.min(left, x), Math.max(right, x)];
    [top, bottom] = [Math.min(top, y), Math.max(bottom, y)];
  }
  return [left / canvas.width, right / canvas.width, top / canvas.height, bottom / canvas.height];
}"""
"""How far what is drawn reaches, as shares of the picture."""


def test_letters_before_a_cake_leave_the_picture_full(view: Page) -> None:
    """Nothing is cut off, from any side, and from the front they take no more room than needed."""
    show(view, in_space(cake(f"{TWO}{SIXTY}")))
    for turned in (0, 45, 90, 135, 180):
        turn(view, turned, 20)
        left, right, top, bottom = view.evaluate(DRAWN)
        assert min(left, top) > 0.005
        assert max(right, bottom) < 0.995
    turn(view, 0, 20)
    left, right, top, bottom = view.evaluate(DRAWN)
    assert max(right - left, bottom - top) > 0.8


def test_a_board_lies_under_its_letters_wherever_they_are(view: Page) -> None:
    """The foot of a wall that faces the front is seen, of the farther letter too."""
    spec = cake(
        "[[letter_cake]]\ntext = '10'\ncap_height = '240 mm'\ncolour = '#3366ff'\n"
        "tin_length = '400 mm'\n"
    )
    show(view, in_space(spec))
    turn(view, 0, 20)
    at_foot = """([at, px, py]) => {
      const f = view.camera.frame(at), [x, y] = [f.x(px, py), f.y(px, py, 5)];
      return Array.from(view.context.getImageData(x + 12, y + 12, 1, 1).data.slice(0, 3));
    }"""
    _, *letters = scene(build_stack(spec)).lying
    for each in letters:
        ring = max(each.shapes[0], key=lambda ring: max(x for x, _ in ring))
        front = min(y for _, y in ring)
        along = [x for x, y in ring if y < front + 0.1]
        colour = view.evaluate(at_foot, [list(each.at), sum(along) / len(along), front])
        assert colour[2] - colour[0] > 60, (each.look.name, colour)


def test_the_picture_is_to_scale(view: Page) -> None:
    """Seen level, the blue of the tiers is as wide and as high as they are, to 2 mm."""
    turn(view, 0, 0)
    blue = """() => {
      const { canvas, context, camera } = view;
      const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
      let [left, right, top] = [canvas.width, 0, canvas.height];
      for (let at = 0; at < data.length; at += 4) {
        if (data[at + 2] < 120 || data[at] > 90) continue;
        const [x, y] = [(at / 4) % canvas.width, Math.floor(at / 4 / canvas.width)];
        [left, right, top] = [Math.min(left, x), Math.max(right, x), Math.min(top, y)];
      }
      return [(right - left + 1) / camera.scale, (camera.top - (top - 12)) / camera.scale];
    }"""
    wide, tall = view.evaluate(blue)
    assert wide == pytest.approx(300, abs=2)
    assert tall == pytest.approx(200, abs=2)


def test_dragging_turns_and_tilts_and_picks_nothing(view: Page) -> None:
    """To the right the front goes to the right, downwards one sees more from above."""
    view.mouse.move(350, 250)
    view.mouse.down()
    view.mouse.move(450, 290, steps=4)
    view.mouse.up()
    degrees, tilt = view.evaluate("[view.turn, view.tilt]")
    assert degrees == pytest.approx(-45)
    assert tilt == pytest.approx(14 + 18)
    assert view.evaluate("picked.length") == 0


def test_keys_and_controls_do_the_same(view: Page) -> None:
    """Arrow keys on the picture, buttons and the range, each says in words where one looks from."""
    view.locator(".cake-canvas").focus()
    for key in ("ArrowLeft", "ArrowLeft", "ArrowUp"):
        view.keyboard.press(key)
    assert view.evaluate("[view.turn, view.tilt]") == [10, 19]
    slider = view.get_by_role("slider", name="Turn the cake")
    assert (
        slider.get_attribute("aria-valuetext") == "seen from 10 degrees to the right of the front"
    )
    slider.focus()
    view.keyboard.press("End")
    assert slider.get_attribute("aria-valuetext") == "seen from the back"
    view.get_by_role("button", name="From above").click()
    assert view.evaluate("view.tilt") == 90
    assert "from above" in (view.locator(".cake-canvas").get_attribute("aria-label") or "")
    view.get_by_role("button", name="Front").click()
    assert view.evaluate("[view.turn, view.tilt]") == [0, 14]


def test_the_pointer_is_told_what_it_is_over(view: Page) -> None:
    """Name and size of a tier, and nothing beside the cake."""
    turn(view, 0, 0)
    view.mouse.move(*place(view, 0, 150))
    view.mouse.move(*place(view, 140, 150))
    looks = view.evaluate("hovered")
    assert looks[0]["part"] == "tier.1"
    assert "100 mm" in looks[0]["size"]
    assert looks[-1] is None
    assert view.locator(".cake-tip").is_hidden()


def test_a_part_that_is_selected_is_set_off(view: Page) -> None:
    """It has an outline in the colour of the page's controls, which goes again."""
    count = """() => {
      const { data } = view.context.getImageData(0, 0, view.canvas.width, view.canvas.height);
      let found = 0;
      for (let at = 0; at < data.length; at += 4) found += data[at] === 11 && data[at + 1] === 92;
      return found;
    }"""
    assert view.evaluate(count) == 0
    view.evaluate("view.select('tier.0')")
    rest(view)
    assert view.evaluate(count) > 100
    view.evaluate("view.select(null)")
    rest(view)
    assert view.evaluate(count) == 0


def test_without_a_canvas_the_elevation_stands_in(view: Page) -> None:
    """Where no canvas can be drawn on, an SVG shows the cake from the side that is asked for."""
    view.evaluate(
        """async () => {
          HTMLCanvasElement.prototype.getContext = () => null;
          const { CakeView } = await import(new URL("scene.js", location));
          const box = document.createElement("div");
          document.body.replaceChildren(box);
          window.asked = [];
          window.view = new CakeView(box, { elevation: async (turn) => {
            asked.push(turn);
            return { size: [20, 10], parts: [{ at: [0, 0], lines: { guide: "M0 0L20 10" } }] };
          } });
        }"""
    )
    view.evaluate("scene => view.show(scene)", in_space(cake(TWO)))
    until(view, "document.querySelectorAll('.cake-stand-in path').length === 1")
    view.get_by_role("button", name="Turn the cake to the left").click()
    until(view, "asked[asked.length - 1] === 15")
    assert view.locator("canvas").count() == 0


def test_in_forced_colours_there_are_only_colours_of_the_system(view: Page) -> None:
    """The picture is of two colours, apart from the softened edges of lines."""
    view.emulate_media(forced_colors="active")
    show(view, in_space(cake(TWO)))
    share = view.evaluate("""() => {
      const { data } = view.context.getImageData(0, 0, view.canvas.width, view.canvas.height);
      let [drawn, grey] = [0, 0];
      for (let at = 0; at < data.length; at += 4) {
        if (!data[at + 3]) continue;
        drawn += 1;
        grey += data[at] === data[at + 1] && data[at + 1] === data[at + 2];
      }
      return drawn && grey / drawn;
    }""")
    assert share == 1


MOVED = (
    f"[[tier]]\nsize='300 mm'\ndepth='100 mm'\n{PLAIN}"
    "[tier.opening]\nradius='15 mm'\nheight='60 mm'\n"
    "[[tier.lettering]]\ntext='Ada'\nlevel='92 mm'\ncap_height='15 mm'\n"
    "[[tier.lettering]]\ntext='X'\non='top'\nlevel='40 mm'\ncap_height='30 mm'\nfont='bold'\n"
    f"[[tier]]\nsize='100 mm'\ndepth='100 mm'\n{PLAIN}"
)
"""A tier with a hole, letters below it on the side and others on its top, and a tier on it."""


def drag(page: Page, part: str, start: tuple[float, float], end: tuple[float, float]) -> Any:  # noqa: ANN401
    """Drag the part that is selected from one place to another; return the values that followed."""
    page.evaluate("part => view.select(part)", part)
    rest(page)
    page.mouse.move(*start)
    page.mouse.down()
    page.mouse.move(*end, steps=3)
    page.mouse.up()
    until(page, "moved.length > 0 && moved[moved.length - 1].isDone")
    said = page.evaluate("moved")
    assert [each["isDone"] for each in said] == [False] * (len(said) - 1) + [True]
    page.evaluate("moved.length = 0")
    assert {each["part"] for each in said} == {part}
    return {each["key"][-1]: each["value"] for each in said[-1]["changes"]}


def test_what_is_selected_is_moved_by_dragging_it(view: Page) -> None:
    """Values follow the pointer over the surface: round and down a side, on a top, in plan."""
    show(view, in_space(cake(MOVED)))
    turn(view, 0, 0)
    # to where the round of radius 150 mm is turned by 30 degrees
    found_ = drag(view, "tier.0.opening", place(view, 10, 60), place(view, 75 + 10 * 0.866, 50))
    assert found_ == {"turn": pytest.approx(30, abs=2), "height": pytest.approx(50, abs=1)}
    hit = next(
        at
        for x in range(-30, 30)
        for at in (place(view, x, 15),)
        # twice, as a loaded browser may answer with the part that was found before
        if all(found(view, at) == "tier.0.lettering.0" for _ in range(2))
    )
    found_ = drag(view, "tier.0.lettering.0", hit, (hit[0], hit[1] - 20 * scale(view)))
    assert found_["level"] == pytest.approx(72, abs=1)
    assert found_["sideways"] == pytest.approx(0, abs=1)
    assert view.evaluate("view.turn") == 0


def scale(page: Page) -> float:
    """Return how many px a mm is."""
    return float(page.evaluate("view.camera.scale"))


def test_a_tier_is_moved_from_above(view: Page) -> None:
    """To the right and to the back as seen from the front, however the cake is turned."""
    show(view, in_space(cake(MOVED)))
    turn(view, 90, 90)
    box = view.locator(".cake-canvas").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    # turned clockwise by a quarter, the front of the cake lies to the left
    found_ = drag(view, "tier.1", (x, y), (x - 10 * scale(view), y - 20 * scale(view)))
    assert found_ == {
        "right": pytest.approx(-20, abs=0.3),
        "back": pytest.approx(-10, abs=0.3),
    } or (found_ == {"right": pytest.approx(20, abs=0.3), "back": pytest.approx(-10, abs=0.3)})


def test_small_pieces_and_words_on_a_top_are_moved(view: Page) -> None:
    """Pieces go down the side with the pointer, words over the top, both where they are seen."""
    scattered = MOVED.replace(
        "[[tier.lettering]]\ntext='X'",
        "[[tier.scatter]]\nshape='circle'\nsize='16 mm'\ncount=24\ntop='20 mm'\nbottom='60 mm'\n"
        "[[tier.lettering]]\ntext='X'",
        1,
    )
    show(view, in_space(cake(scattered)))
    turn(view, 0, 0)
    hits = (place(view, x, z) for x in range(-60, 60, 5) for z in range(45, 75, 5))
    hit = next(at for at in hits if found(view, at) == "tier.0.scatter.0")
    moved = drag(view, "tier.0.scatter.0", hit, (hit[0], hit[1] + 10 * scale(view)))
    assert moved == {"top": pytest.approx(30, abs=1), "bottom": pytest.approx(70, abs=1)}
    turn(view, 0, 90)
    box = view.locator(".cake-canvas").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    tops = ((x + dx, y + dy * scale(view)) for dx in range(-20, 21, 2) for dy in range(60, 140, 3))
    hit = next(at for at in tops if found(view, at) == "tier.0.lettering.1")
    moved = drag(
        view, "tier.0.lettering.1", hit, (hit[0] + 10 * scale(view), hit[1] - 5 * scale(view))
    )
    assert moved == {"sideways": pytest.approx(10, abs=1), "level": pytest.approx(45, abs=1)}


def test_a_board_under_a_tier_is_seen(view: Page) -> None:
    """Seen level, between the tiers is the board of the upper one, as thick and wide as it is."""
    boards = TWO.replace("board_thickness='0 mm'", "board_thickness='10 mm'\nboard='80 mm'")
    show(view, in_space(cake(boards.replace("size='300 mm'", "size='90 mm'", 1))))
    turn(view, 0, 0)
    colour = """([x, y]) => {
      const box = view.canvas.getBoundingClientRect();
      return [...view.context.getImageData(x - box.left, y - box.top, 1, 1).data];
    }"""

    def is_blue(x: float, z: float) -> bool:
        red, _, blue, alpha = view.evaluate(colour, list(place(view, x, z)))
        return bool(alpha == 255 and blue - red > 60)

    assert is_blue(0, 5 + 10)
    assert not is_blue(0, 5)  # the board on the drum
    assert not is_blue(0, 10 + 100 + 5)  # that of the upper tier
    assert found(view, place(view, 0, 115)) == "tier.1"
    assert found(view, place(view, 43, 115)) is None


def test_on_the_page_the_cake_follows(page: Page) -> None:
    """A tier that is open is dragged from above, and one undo brings it back."""
    until(page, "document.body.dataset.picture === 'yes'")
    page.get_by_role("button", name="From above").click()
    page.wait_for_timeout(600)
    canvas = page.locator(".cake-canvas")
    canvas.click()
    settle(page)
    box = canvas.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 30, y - 20, steps=6)
    page.mouse.up()
    settle(page)
    store = f"import('{script(page, 'store.js')}').then((store) => store.current().cake.tier[3])"
    position = page.evaluate(store)["position"]
    assert float(position["right"].removesuffix(" in")) > 0.3
    assert float(position["back"].removesuffix(" in")) > 0.2
    page.locator("#undo").click()
    assert "position" not in page.evaluate(store)


def test_a_slow_computer_turns_in_less_detail(view: Page) -> None:
    """Where frames come late it is drawn on fewer pixels while it turns, and in full at rest."""
    late = """(apart) => {
      view.isMoving = true;
      for (let frame = 0; frame < 6; frame += 1) view.watch(frame * apart);
      view.paint();
      return view.sharp;
    }"""
    assert view.evaluate(late, 17) == 1
    assert view.evaluate(late, 40) < 1
    view.evaluate("view.turnTo(10)")
    rest(view)
    assert view.evaluate("view.sharp") == 1
    assert view.locator(".cake-canvas").evaluate("c => c.width") == 600


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_sample_is_drawn_from_all_round(view: Page, path: Any) -> None:  # noqa: ANN401
    """From eight sides and three heights there is a picture, and every tier in it."""
    made = sample(path.stem)
    show(view, in_space(made))
    for tilt in (0, 20, 90):
        for degrees in range(0, 360, 45):
            turned = "([turn, tilt]) => { view.turnTo(turn, tilt); view.paint() }"
            view.evaluate(turned, [degrees, tilt])
            parts = set(view.evaluate("view.painter.hits.map((hit) => hit.part)"))
            assert {"drum", *(f"tier.{index}" for index in range(len(made.tier)))} <= parts


def test_nothing_shines_through_a_leaning_side(view: Page) -> None:
    """From high up all of a taper is blue, its far side too, and no gap between two faces."""
    taper = f"[[tier]]\nsize='260 mm'\ntop_size='180 mm'\ndepth='90 mm'\n{PLAIN}"
    show(view, in_space(cake(taper)))
    missed = """() => {
      const { at, columns } = view.scene.bodies.find((body) => body.part === "tier.0");
      const f = view.camera.frame(at), many = columns.length / 8;
      let missed = 0;
      for (let step = 8; step < 8 * (many - 2); step += 1) { // but for the line of the join
        const [one, share] = [Math.floor(step / 8), (step % 8) / 8];
        const middle = [0, 1, 2].map((axis) => [one, (one + 1) % many].map((column) =>
          (columns[8 * column + 2 + axis] + columns[8 * column + 5 + axis]) / 2));
        const [x, y, z] = middle.map(([from, to]) => from + (to - from) * share);
        const place = [(f.x(x, y) + 12) * view.sharp, (f.y(x, y, z) + 12) * view.sharp];
        const [red, , blue] = view.context.getImageData(...place.map(Math.floor), 1, 1).data;
        missed += Number(blue - red < 90); // grey: its board
      }
      return missed;
    }"""
    for turned in (45, 155):
        turn(view, turned, 85)
        assert view.evaluate(missed) == 0
