// A whole cake on a canvas: the drum first and what stands on it later, so that what is nearer to
// the eye covers what is farther.

import { ball } from "./scene_ball.js";
import { hull } from "./scene_clip.js";
import { levelOf, towards } from "./scene_colours.js";
import { fillSide, rimOf, silhouette, strip } from "./scene_faces.js";
import { ends, inside, leaveOut } from "./scene_hole.js";
import { lying } from "./scene_lying.js";
import { drawMark, drawOnTop } from "./scene_marks.js";
import { ofLevel } from "./scene_move.js";
import { circle, closed, dropped, flat, shapesOf } from "./scene_paths.js";
import { SeenSide, Side } from "./scene_side.js";
import { standing } from "./scene_standing.js";

/** @typedef {import("./scene_types.js").Scene} Scene */
/** @typedef {import("./scene_types.js").Body} Body */
/** @typedef {import("./scene_types.js").Standing} Standing */
/** @typedef {import("./scene_types.js").Lying} Lying */
/** @typedef {import("./scene_camera.js").Camera} Camera */
/** @typedef {import("./scene_camera.js").Extent} Extent */
/** @typedef {import("./scene_camera.js").SeenFrame} SeenFrame */
/** @typedef {import("./scene_painter.js").Painter} Painter */
/** @typedef {import("./scene_side.js").OnSide} OnSide */
/** @typedef {import("./scene_marks.js").OnTop} OnTop */
/** @typedef {{side: Side | null, marks: OnSide[], above: OnTop[], board: number[], reach: number, high: number}} Form
 *   of a body wherever it is: the board without its hollows, how far it reaches out and up */
/** @typedef {{body: Body, form: Form}} Prepared */

const FLAT = { x: 0, y: 0, z: 1 };
const BOARD = "#cfd2d6";
const SHADE = 9; // mm of shade about the foot of a tier

/** What is worked out once for a cake; bodies that the cake before it had are not again.
 * @param {Scene} scene @param {Cake | null} before @returns {Cake} */
export function prepare(scene, before) {
  const { middle } = scene;
  const known = new Map(before?.bodies.map(({ body, form }) => [body.digest, form]));
  const bodies = scene.bodies.map((body) => ({ body, form: known.get(body.digest) ?? formOf(body) }));
  const extents = bodies.map(({ body, form }) => extentOfBody(body, form, middle));
  for (const each of scene.standing) extents.push(extentOf(each, middle));
  for (const each of scene.lying) extents.push(extentLying(each, middle));
  return { bodies, standing: scene.standing, lying: scene.lying, middle, extents };
}

/** @typedef {{bodies: Prepared[], standing: Standing[], lying: Lying[], middle: number, extents: Extent[]}} Cake */

/** @param {Body} body @returns {Form} */
function formOf(body) {
  const side = body.columns.length ? new Side(body) : null;
  const marks = side ? body.side.map((mark) => side.prepared(mark)) : [];
  const corners = side ? [...side.rim, ...side.foot] : [];
  const [radius, middle] = body.sphere ?? [0, 0];
  return {
    side, marks, above: body.above.map((mark) => ({ mark, shapes: shapesOf(mark) })), board: hull(points(body.board)),
    reach: corners.reduce((most, end) => Math.max(most, Math.hypot(end.x, end.y)), radius),
    high: corners.reduce((most, end) => Math.max(most, end.z), middle + radius),
  };
}

/** How far a body reaches about the upright of the stack, whichever way that is turned. @param {Body} body @param {Form} form @param {number} middle @returns {Extent} */
function extentOfBody({ at }, { reach, high }, middle) {
  return { right: 0, back: -middle, reach: Math.hypot(at[0], at[1]) + reach, low: at[2], high: at[2] + high };
}

/** @param {Standing} each @param {number} middle @returns {Extent} */
function extentOf(each, middle) {
  const points = each.shapes.flat(2);
  const xs = points.filter((_, index) => index % 2 === 0).map(Math.abs);
  const ys = points.filter((_, index) => index % 2);
  const reach = Math.hypot(each.at[0], each.at[1]) + Math.max(...xs);
  return { right: 0, back: -middle, reach, low: each.at[2], high: each.at[2] + Math.max(...ys) };
}

/** @param {Lying} each @param {number} middle @returns {Extent} */
function extentLying({ at, shapes, tall }, middle) {
  let reach = 0;
  for (const ring of shapes.flat()) {
    for (let index = 0; index < ring.length; index += 2) {
      reach = Math.max(reach, Math.hypot(ring[index], ring[index + 1]));
    }
  }
  return { right: at[0], back: at[1] - middle, reach, low: at[2], high: at[2] + tall };
}

/** @param {Painter} painter @param {Cake} cake @param {Camera} camera */
export function draw(painter, cake, camera) {
  let below = null;
  const beside = cake.lying.map((each) => ({ each, frame: camera.frame(each.at) }));
  beside.sort((a, b) => a.each.at[2] - b.each.at[2] || b.frame.depth(0, 0) - a.frame.depth(0, 0));
  // all of it lies before the drum: seen from the back it is behind the cake, boards and all; with
  // no tiers what stands is on top of it
  const about = camera.frame([0, 0, 0, 0]);
  const isBehind = !cake.bodies.length || about.depth(0, -1) > about.depth(0, 0);
  if (isBehind) for (const { each, frame } of beside) lying(painter, each, frame);
  for (const prepared of cake.bodies) {
    const frame = camera.frame(prepared.body.at);
    stand(painter, prepared, frame, below);
    painter.surfaces.set(prepared.body.part, ofLevel(camera.frame([0, 0, 0, 0]), prepared.body.at[2]));
    below = prepared.form.side ? solid(painter, prepared, prepared.form.side, frame) : ball(painter, prepared.body, frame);
  }
  const frames = cake.standing.map((each) => ({ each, frame: camera.frame(each.at) }));
  frames.sort((a, b) => b.frame.depth(0, 0) - a.frame.depth(0, 0));
  for (const { each, frame } of frames) standing(painter, each, frame);
  if (!isBehind) for (const { each, frame } of beside) lying(painter, each, frame);
}

/** What is seen under a tier: its board, and its shade on what it stands on.
 * @param {Painter} painter @param {Prepared} prepared @param {SeenFrame} frame @param {Path2D | null} below */
function stand(painter, { body, form }, frame, below) {
  const { side, board } = form;
  const foot = side ? side.foot : circle(body.sphere ? Math.max(body.sphere[2], body.sphere[0] / 2) : 0);
  const ring = () => foot.flatMap(({ x, y }) => [frame.x(x, y), frame.y(x, y, -body.thick)]);
  painter.shade(() => [ring()], SHADE * frame.camera.scale, below);
  if (!board.length) return;
  const drop = frame.y(0, 0, -body.thick) - frame.y(0, 0, 0);
  painter.fill(body.part, closed(dropped(flat(board, frame, atFoot), drop)), BOARD, painter.level(0.3));
  painter.fill(body.part, closed(flat(body.board, frame, atFoot)), BOARD, painter.level(frame.lit(FLAT)));
}

const atFoot = () => 0;

/** @param {number[]} row */
const points = (row) => Array.from({ length: row.length / 2 }, (_, index) => row.slice(index * 2, index * 2 + 2));

/** Draw a tier with a side, and return the path of its top.
 * @param {Painter} painter @param {Prepared} prepared @param {Side} side @param {SeenFrame} frame */
function solid(painter, { body, form }, side, frame) {
  const { context } = painter;
  const seen = new SeenSide(side, frame);
  const holes = body.hole ? ends(seen, body.hole) : [];
  context.save();
  for (const hole of holes) leaveOut(context, hole.through);
  for (const run of seen.runs) {
    const face = strip(seen, run.from, run.to, 0, 1);
    fillSide(painter, body.part, body.colour, seen, run.from, run.to, 0, 1);
    painter.outline(face);
    painter.edge(rimOf(seen, run), towards(body.colour, 0.5), levelOf(1), 1.2);
    for (const mark of form.marks) drawMark(painter, mark, seen, run);
    if (!painter.theme.isQuick) painter.deepen(face, Math.min(...seen.ry), Math.max(...seen.fy));
  }
  for (const hole of holes) inside(painter, body, seen, hole);
  context.restore();
  const top = seen.top();
  drawTop(painter, body, form.above, top, frame);
  if (painter.marked.has(body.part)) {
    const whole = silhouette(seen);
    if (frame.camera.fall > 0) whole.addPath(top);
    painter.mark(body.part, whole);
  }
  return top;
}

/** @param {Painter} painter @param {Body} body @param {OnTop[]} above @param {Path2D} top @param {SeenFrame} frame */
function drawTop(painter, body, above, top, frame) {
  const [right, back] = body.slope;
  const size = Math.hypot(right, back, 1);
  const normal = { x: -right / size, y: -back / size, z: 1 / size };
  if (frame.faces(normal) <= 0) return;
  const level = painter.level(frame.lit(normal));
  painter.fill(body.part, top, body.colour, level);
  painter.outline(top);
  for (const each of above) drawOnTop(painter, each, body, frame, level);
}
