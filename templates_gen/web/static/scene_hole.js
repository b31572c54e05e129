// A hole right through a tier: what is seen of its inside, and through it.

import { between, common } from "./scene_clip.js";
import { deeper, levelOf } from "./scene_colours.js";
import { visibleParts } from "./scene_marks.js";
import { ofSide } from "./scene_move.js";
import { addQuad, addRing, closed } from "./scene_paths.js";

/** @typedef {import("./scene_painter.js").Painter} Painter */
/** @typedef {import("./scene_types.js").Body} Body */
/** @typedef {import("./scene_types.js").Hole} Hole */
/** @typedef {import("./scene_side.js").SeenSide} SeenSide */

/** @param {CanvasRenderingContext2D} context @param {number[]} ring */
export function leaveOut(context, ring) {
  if (ring.length < 6) return;
  const path = new Path2D();
  path.rect(0, 0, context.canvas.width, context.canvas.height);
  addRing(path, ring);
  context.clip(path, "evenodd");
}

/** @typedef {{mouth: number[], near: number[], far: number[], through: number[]}} Tunnel as it is seen */

/** The ends of a hole that are seen, each with the other and with what is seen through.
 * @param {SeenSide} seen @param {Hole} hole @returns {Tunnel[]} */
export function ends(seen, hole) {
  const { side } = seen;
  const [front, back] = [hole.front, hole.back].map((row) => side.ring(row));
  /** @type {Tunnel[]} */
  const found = [];
  for (const [one, other] of [[front, back], [back, front]]) {
    for (const run of seen.runs) {
      for (const [start, end, shift] of visibleParts(side, run, one.from, one.to)) {
        const mouth = seenRing(between(one.contours[0], start - shift, end - shift), seen);
        const [near, far] = [one, other].map((each) => seenRing(each.contours[0], seen));
        if (mouth.length > 5) found.push({ mouth, near, far, through: common(far, mouth) });
      }
    }
  }
  return found;
}

/** @param {ArrayLike<number>} places @param {SeenSide} seen */
function seenRing(places, seen) {
  const row = [];
  for (let index = 0; index < places.length; index += 2) {
    row.push(seen.x(places[index], places[index + 1]), seen.y(places[index], places[index + 1]));
  }
  return row;
}

/** The inside of a hole, its floor in the light and its ceiling in the dark.
 * @param {Painter} painter @param {Body} body @param {SeenSide} seen @param {Tunnel} tunnel_ */
export function inside(painter, body, seen, { mouth, near, far }) {
  const { context } = painter;
  const { hole } = body;
  if (!hole) return;
  const edge = closed(mouth);
  painter.fill(hole.part, edge, hole.colour, levelOf(0.1));
  context.save();
  context.clip(edge);
  const count = near.length / 2;
  for (let index = 0; index < count; index += 1) {
    const next = (index + 1) % count;
    const wall = new Path2D();
    addQuad(wall, [near, far].flatMap((ring, isFar) => [isFar ? next : index, isFar ? index : next].flatMap((at) => [ring[at * 2], ring[at * 2 + 1]])));
    const up = -Math.sin(((index + 0.5) / count) * 2 * Math.PI);
    painter.fill(hole.part, wall, hole.colour, levelOf(0.3 * up + 0.05));
    painter.edge(wall, hole.colour, levelOf(0.3 * up + 0.05), 0.7);
  }
  context.restore();
  painter.edge(edge, deeper(body.colour, 2.4), levelOf(0.5), 1);
  painter.surfaces.set(hole.part, ofSide(seen));
  painter.mark(hole.part, edge);
}
