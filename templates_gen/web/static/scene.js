// The cake to look at: turned by hand, seen from above too, its parts picked.
//
//   const view = new CakeView(element, {
//     onPick(part) {},            // clicked: a part such as "tier.1.drips", or null beside the cake
//     onHover(look) {},           // {part, name, size} under the pointer, or null
//     onMove(part, changes, isDone) {},  // the part that is selected is dragged: the values that
//                                 // follow, [{key: ["tier", 1, "lettering", 0, "level"], value: 41.5,
//                                 // unit: "mm" or "degrees"}]; at the end once more with isDone
//     async elevation(turn) {},   // where there is no canvas: the answer of the job "front"
//   });
//   view.show(scene);             // the answer of the job "scene"; again after every edit
//   view.turnTo(degrees, tilt);   // tilt 0 level, 90 from above; either may be left out
//   view.select(part);            // set a part off, null for none
//   view.fade(true);              // grey: the cake shown is no longer the one that is planned
//
// A part names keys of the cake file with points between them: "drum", "tier.0", "tier.0.panels",
// "tier.2.lettering.0", "topper.0". The element gets a canvas and, below it, controls for the
// keyboard. It needs scene.css. Its height is that of the element, less the controls.

import { draw as drawElevation, el, svg } from "./dom.js";
import { Camera } from "./scene_camera.js";
import { Controls, facing } from "./scene_controls.js";
import { changes } from "./scene_move.js";
import { draw, prepare } from "./scene_draw.js";
import { Painter } from "./scene_painter.js";

/** @typedef {import("./scene_types.js").Body} Body */
/** @typedef {import("./scene_types.js").Scene} Scene */
/** @typedef {import("./scene_types.js").SentScene} SentScene */
/** @typedef {import("./scene_types.js").Look} Look */
/**
 * @typedef {object} Options
 * @property {(part: string | null) => void} [onPick]
 * @property {(look: Look | null) => void} [onHover]
 * @property {(part: string, changes: import("./scene_move.js").Change[], isDone: boolean) => void} [onMove]
 * @property {(turn: number) => Promise<import("./dom.js").DrawingData>} [elevation]
 */

const HEARD = 400; // ms without a turn, after which it is announced
const TILT = 14; // degrees at first
const AHEAD = 1000; // ms in which a key that moves a part goes on from the one before
const TURNED = 5; // degrees that it turns for an arrow key
const NOWHERE = { along: 0, down: 0, up: 0, turn: 0, right: 0, back: 0 };
const LOOKED = 0.45; // degrees that the cake turns for each px of a drag
const STILL = 5; // px that a click may stray
const SHARPEST = 2; // px of the canvas for each of the screen, at the most
const REST = 160; // ms without a turn, after which it is drawn in full
const SLOW = 24; // ms between frames, above which it turns in less detail
const WATCHED = 6; // frames that are looked at for that
const ROUGH = 0.6; // px of the canvas for each of the screen on a slow computer, while it turns
const EDGE = 12; // px round the cake

export class CakeView {
  /** @param {HTMLElement} element @param {Options} [options] */
  constructor(element, options = {}) {
    this.options = options;
    this.turn = 0;
    this.tilt = TILT;
    this.sharp = 1;
    this.isMoving = false;
    this.isSlow = false;
    /** @type {{look: Look, at: number} | null} the part that a key moved, as it is then */
    this.nudged = null;
    /** @type {number[]} when the last frames of a turn were */
    this.frames = [];
    this.frameId = 0;
    /** @type {import("./scene_draw.js").Cake | null} */
    this.cake = null;
    /** @type {Map<string, Look>} */
    this.looks = new Map();
    /** @type {string | null} */
    this.selected = null;
    /** @type {string | null} */
    this.hovered = null;
    /** @type {Painter | null} */
    this.painter = null;
    /** @type {Omit<import("./scene_painter.js").Theme, "isQuick" | "isRough"> | null} */
    this.colours = null;
    this.canvas = /** @type {HTMLCanvasElement} */ (el("canvas", { class: "cake-canvas", role: "img", tabindex: "0" }));
    this.context = this.canvas.getContext("2d");
    this.tip = el("p", { class: "cake-tip", hidden: true, "aria-hidden": "true" });
    this.heard = el("p", { class: "cake-heard", role: "status" });
    this.hearing = 0;
    this.stage = el("div", { class: "cake-stage" }, this.canvas, this.tip);
    this.controls = new Controls((turn, tilt) => this.turnTo(turn, tilt));
    element.classList.add("cake-view");
    element.append(this.stage, this.controls.element, this.heard);
    if (this.context) this.listen();
    else this.standIn();
    this.describe();
  }

  /** Digests of the bodies that are shown: they need not be sent again. */
  known() {
    return this.scene?.bodies.map((body) => body.digest) ?? [];
  }

  /** @param {SentScene} sent */
  show(sent) {
    const scene = completed(sent, this.scene);
    this.cake = prepare(scene, this.cake);
    this.looks = new Map(looksOf(scene).map((look) => [look.part, look]));
    this.scene = scene;
    this.isNew = true;
    if (this.held?.move) [this.held.move.x, this.held.move.y] = [this.held.move.toX, this.held.move.toY];
    this.fade(false);
    this.describe();
    this.paintNow();
  }

  /** Show no cake, and the next from the front. */
  clear() {
    this.turnTo(0, TILT);
    this.cake = null;
    this.scene = undefined;
    this.looks = new Map();
    this.hover(null);
    this.fade(false);
    this.describe();
    this.ask();
  }

  /** @param {number} [turn] @param {number} [tilt] */
  turnTo(turn = this.turn, tilt = this.tilt) {
    this.turn = ((((turn + 180) % 360) + 360) % 360) - 180;
    this.tilt = Math.min(90, Math.max(0, tilt));
    this.controls.show(this.turn, this.tilt);
    this.describe();
    this.isMoving = true;
    clearTimeout(this.resting);
    this.resting = setTimeout(() => {
      this.isMoving = false;
      this.ask();
    }, REST);
    this.ask();
  }

  /** @param {string | null} part */
  select(part) {
    this.selected = part;
    this.describe();
    this.ask();
  }

  /** @param {boolean} isOld */
  fade(isOld) {
    this.stage.classList.toggle("old", isOld);
  }

  /** Draw before the next frame of the screen, once however often this is called. */
  ask() {
    if (this.frameId) return;
    this.frameId = requestAnimationFrame((now) => {
      this.frameId = 0;
      this.watch(now);
      this.paint();
    });
  }

  /** Draw at once what is new, so that the next frame of the screen has nothing left to draw. */
  paintNow() {
    if (document.hidden) {
      this.ask();
      return;
    }
    cancelAnimationFrame(this.frameId);
    this.frameId = 0;
    this.paint();
  }

  /** Notice where this computer is too slow to turn the cake in full detail. @param {number} now ms */
  watch(now) {
    this.frames = this.isMoving ? [...this.frames.slice(1 - WATCHED), now] : [];
    if (this.frames.length === WATCHED && now - this.frames[0] > SLOW * (WATCHED - 1)) this.isSlow = true;
  }

  paint() {
    if (!this.context) {
      this.paintStandIn();
      return;
    }
    const { canvas, context } = this;
    const sharp = this.sharp = Math.min(devicePixelRatio || 1, this.isMoving ? (this.isSlow ? ROUGH : 1) : SHARPEST);
    const { width, height } = this.stage.getBoundingClientRect();
    const [wide, tall] = [Math.round(width * sharp), Math.round(height * sharp)];
    if (canvas.width !== wide || canvas.height !== tall) [canvas.width, canvas.height] = [wide, tall];
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, wide, tall);
    if (!this.cake || wide < 2 * EDGE || tall < 2 * EDGE) return;
    context.setTransform(sharp, 0, 0, sharp, EDGE * sharp, EDGE * sharp);
    const camera = new Camera(this.turn, this.tilt, this.cake.middle);
    camera.fit(this.cake.extents, width - 2 * EDGE, height - 2 * EDGE);
    this.camera = camera;
    this.painter = new Painter(context, this.theme(), [this.selected, this.hovered]);
    this.painter.ghost = this.ghost();
    draw(this.painter, this.cake, camera);
    // so that one can wait for the picture of an edit
    if (this.isNew) canvas.dataset.shown = String(Number(canvas.dataset.shown ?? 0) + 1);
    this.isNew = false;
  }

  /** The colours of the page, looked up once: that is slow. */
  theme() {
    if (!this.colours) {
      const style = getComputedStyle(this.canvas);
      this.colours = {
        forced: matchMedia("(forced-colors: active)").matches,
        accent: style.getPropertyValue("--main").trim() || "#0b5cad",
        ground: style.getPropertyValue("--card").trim() || "#ffffff",
      };
    }
    return { ...this.colours, isQuick: this.isMoving, isRough: this.isMoving && this.isSlow };
  }

  /** Say in words what is seen. */
  describe() {
    const tiers = this.scene?.bodies.filter((body) => /^tier\.\d+$/.test(body.part)) ?? [];
    const letters = new Set(this.scene?.lying.map((each) => each.part));
    const made = [[tiers.length, "tier"], [letters.size, "letter cake"]].filter(([count]) => count);
    const title = this.scene ? ` of ${made.map(([count, word]) => `${count} ${word}${count === 1 ? "" : "s"}`).join(" and ")}` : "";
    const height = this.tilt >= 75 ? "above" : facing(this.turn);
    const can = this.selected !== null && this.looks.get(this.selected)?.moves.length && this.options.onMove;
    const how = can ? ". Shift and an arrow key move what is open" : "";
    this.canvas.setAttribute("aria-label", `Picture of the cake${title}, seen from ${height}${how}`);
    clearTimeout(this.hearing); // a turn is announced when it has ended
    this.hearing = setTimeout(() => {
      const text = `Seen from ${height}`;
      if (this.cake && this.heard.textContent !== text) this.heard.textContent = text;
    }, HEARD);
  }

  listen() {
    const { canvas } = this;
    new ResizeObserver(() => this.ask()).observe(this.stage);
    for (const query of ["(forced-colors: active)", "(prefers-color-scheme: dark)"]) {
      matchMedia(query).addEventListener("change", () => {
        this.colours = null;
        this.ask();
      });
    }
    canvas.addEventListener("pointerdown", (event) => this.press(event));
    canvas.addEventListener("pointermove", (event) => this.move(event));
    canvas.addEventListener("pointerup", (event) => this.release(event));
    canvas.addEventListener("pointercancel", () => this.let());
    canvas.addEventListener("pointerleave", () => this.hover(null));
    canvas.addEventListener("keydown", (event) => this.key(event));
  }

  /** @param {PointerEvent} event */
  press(event) {
    if (event.button !== 0) return;
    this.canvas.setPointerCapture(event.pointerId);
    this.held = { x: event.clientX, y: event.clientY, turn: this.turn, tilt: this.tilt, isDrag: false, move: this.moving(event) };
  }

  /** What is moved by a drag that begins here: the part that is selected, if that can be.
   * @param {PointerEvent} event */
  moving(event) {
    const look = this.selected === null ? undefined : this.looks.get(this.selected);
    if (!look?.moves.length || !this.options.onMove || this.partAt(event) !== look.part) return null;
    const surface = this.painter?.surfaces.get(look.part);
    const from = surface?.(...this.placeOf(event));
    if (!surface || !from) return null;
    const [x, y] = this.placeOf(event);
    return { look, surface, from, x, y, toX: x, toY: y };
  }

  /** A place of the pointer in the picture, px. @param {PointerEvent} event @returns {[number, number]} */
  placeOf(event) {
    const box = this.canvas.getBoundingClientRect();
    return [event.clientX - box.left - EDGE, event.clientY - box.top - EDGE];
  }

  /** How far what is moved is ahead of its picture. */
  ghost() {
    const move = this.held?.isDrag ? this.held.move : null;
    return move ? { part: move.look.part, x: move.toX - move.x, y: move.toY - move.y } : null;
  }

  /** Let values follow what is dragged. @param {boolean} isDone */
  follow(isDone) {
    const move = this.held?.move;
    const to = move?.surface(move.toX, move.toY);
    if (move && to) this.options.onMove?.(move.look.part, changes(move.look, move.from, to), isDone);
    this.ask();
  }

  /** @param {PointerEvent} event */
  move(event) {
    const { held } = this;
    if (!held) {
      if (event.pointerType !== "touch") this.hover(this.partAt(event), event);
      return;
    }
    const [dx, dy] = [event.clientX - held.x, event.clientY - held.y];
    held.isDrag ||= Math.hypot(dx, dy) > STILL;
    if (!held.isDrag) return;
    this.hover(null);
    if (held.move) {
      [held.move.toX, held.move.toY] = this.placeOf(event);
      this.follow(false);
      return;
    }
    this.stage.classList.add("turning");
    this.turnTo(held.turn - dx * LOOKED, held.tilt + dy * LOOKED);
  }

  /** @param {PointerEvent} event */
  release(event) {
    const isClick = this.held && !this.held.isDrag;
    if (this.held?.isDrag) this.follow(true);
    this.let();
    if (isClick) this.options.onPick?.(this.partAt(event));
  }

  let() {
    this.held = undefined;
    this.stage.classList.remove("turning");
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    const [turn, tilt] = { ArrowLeft: [TURNED, 0], ArrowRight: [-TURNED, 0], ArrowUp: [0, TURNED], ArrowDown: [0, -TURNED] }[event.key] ?? [0, 0];
    if (!turn && !tilt) return;
    event.preventDefault();
    if (event.shiftKey) this.nudge(-turn / TURNED, tilt / TURNED);
    else this.turnTo(this.turn + turn, this.tilt + tilt);
  }

  /** Move the part that is selected by a step to the right or up, if that can be. @param {number} right @param {number} up */
  nudge(right, up) {
    const last = this.nudged;
    const isMore = last && last.look.part === this.selected && Date.now() - last.at < AHEAD;
    const look = isMore ? last.look : this.selected === null ? undefined : this.looks.get(this.selected);
    if (!look?.moves.length) return;
    const to = { along: right, down: -up, up, turn: right, right, back: up };
    // keys come sooner than their pictures, so values go on from the last step
    const moves = look.moves.map((each) => ({ ...each, value: each.value + to[each.way] }));
    this.nudged = { look: { ...look, moves }, at: Date.now() };
    this.options.onMove?.(look.part, changes(look, NOWHERE, to), true);
  }

  /** The part under a pointer. @param {PointerEvent} event */
  partAt(event) {
    const { sharp } = this;
    const box = this.canvas.getBoundingClientRect();
    return this.painter?.at((event.clientX - box.left) * sharp, (event.clientY - box.top) * sharp) ?? null;
  }

  /** @param {string | null} part @param {PointerEvent} [event] */
  hover(part, event) {
    const look = part === null ? null : this.looks.get(part) ?? null;
    this.tip.hidden = !look;
    if (look && event) {
      const box = this.stage.getBoundingClientRect();
      this.tip.replaceChildren(el("b", {}, look.name), ` ${look.size}`);
      this.tip.style.left = `${Math.min(event.clientX - box.left + 14, box.width - this.tip.offsetWidth - 4)}px`;
      this.tip.style.top = `${Math.max(event.clientY - box.top - this.tip.offsetHeight - 8, 0)}px`;
    }
    if (part === this.hovered) return;
    this.hovered = part;
    this.canvas.classList.toggle("pick", Boolean(look));
    this.canvas.classList.toggle("move", Boolean(look?.moves.length && this.selected === part && this.options.onMove));
    this.options.onHover?.(look);
    this.ask();
  }

  /** Without a canvas the elevation stands in for the picture. */
  standIn() {
    this.drawing = svg("svg", { class: "drawing cake-stand-in", role: "img", "aria-label": "The cake from the side, to scale" });
    this.canvas.replaceWith(this.drawing);
  }

  async paintStandIn() {
    const found = await this.options.elevation?.(Math.round(this.turn));
    if (found && this.drawing) drawElevation(this.drawing, found);
  }
}

/** A scene with the bodies that were not sent again, as the one before it has them.
 * @param {SentScene} sent @param {Scene} [before] @returns {Scene} */
function completed(sent, before) {
  const known = new Map(before?.bodies.map((body) => [body.digest, body]));
  const bodies = sent.bodies.map((body) => /** @type {Body} */ ({ ...known.get(body.digest), ...body }));
  return { ...sent, bodies };
}

/** Everything that can be picked. @param {Scene} scene @returns {Look[]} */
const looksOf = (scene) => [
  ...scene.bodies.flatMap((body) => [body, ...body.side, ...body.above, ...(body.hole ? [body.hole] : [])]),
  ...scene.standing,
  ...scene.lying,
];
