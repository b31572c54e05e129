// The faces of a side in light and shade: all that are seen of an upright side at once, with the
// light flowing over soft edges; those of a leaning one face by face.

import { shaded } from "./scene_colours.js";

/** @typedef {import("./scene_painter.js").Painter} Painter */
/** @typedef {import("./scene_side.js").SeenSide} SeenSide */
/** @typedef {import("./scene_side.js").Run} Run */

const SEAM = 1; // px that a face reaches under the next, so that nothing shines through; on the far
// side of a leaning one the next lies to the left
const SOFT = Math.cos(0.12); // an edge that turns less is part of a round

/**
 * Fill the part of a side between two t and two shares of the way down.
 * @param {Painter} painter
 * @param {string} part
 * @param {string} colour
 * @param {SeenSide} seen
 * @param {number} from
 * @param {number} to
 * @param {number} high
 * @param {number} low
 */
export function fillSide(painter, part, colour, seen, from, to, high, low) {
  if (seen.side.isUpright && !painter.theme.forced && !painter.theme.isQuick) {
    painter.fillWith(part, strip(seen, from, to, high, low), flowing(painter, colour, seen, from, to));
    return;
  }
  for (let start = from; start < to;) {
    const level = levelAt(painter, seen, start);
    let end = Math.min(Math.floor(start) + 1, to);
    while (end < to && levelAt(painter, seen, end) === level) end = Math.min(end + 1, to);
    painter.fill(part, strip(seen, start, end, high, low, end < to ? SEAM : 0), colour, level);
    start = end;
  }
}

/** The level of light of the face at t. @param {Painter} painter @param {SeenSide} seen @param {number} t */
export const levelAt = (painter, seen, t) => painter.level(seen.frame.lit(seen.side.normals[seen.side.face(t)]));

/**
 * Light that changes from left to right: sharply at sharp edges.
 * @param {Painter} painter
 * @param {string} colour
 * @param {SeenSide} seen
 * @param {number} from
 * @param {number} to
 */
function flowing(painter, colour, seen, from, to) {
  const { side } = seen;
  const [left, right] = [seen.x(from, 0), seen.x(to - 1e-9, 0)];
  const light = painter.context.createLinearGradient(left, 0, Math.max(right, left + 0.01), 0);
  /** @param {number} t @param {number} level */
  const stop = (t, level) => {
    const share = (seen.x(t, 0) - left) / Math.max(right - left, 0.01);
    light.addColorStop(Math.min(1, Math.max(0, share)), shaded(colour, level));
  };
  for (let start = from; start < to; start = Math.floor(start) + 1) {
    const end = Math.min(Math.floor(start) + 1, to) - 1e-9;
    const level = levelAt(painter, seen, start);
    const next = levelAt(painter, seen, end + 1e-6);
    stop((start + end) / 2, level);
    const isSoft = end + 1e-6 < to && alike(side.normals[side.face(start)], side.normals[side.face(end + 1e-6)]);
    stop(end, isSoft ? Math.round((level + next) / 2) : level);
    if (!isSoft && end + 1e-6 < to) stop(end, next);
  }
  return light;
}

/** @param {import("./scene_camera.js").Vector} a @param {import("./scene_camera.js").Vector} b */
const alike = (a, b) => a.x * b.x + a.y * b.y + a.z * b.z > SOFT;

/** The part of a side between two t and two shares of the way down.
 * @param {SeenSide} seen @param {number} from @param {number} to @param {number} high @param {number} low @param {number} [more] px */
export function strip(seen, from, to, high, low, more = 0) {
  const path = new Path2D();
  const last = to - 1e-9; // the end of a face, not the start of the next
  path.moveTo(seen.x(from, high), seen.y(from, high));
  for (let t = Math.floor(from) + 1; t < last; t += 1) path.lineTo(seen.x(t, high), seen.y(t, high));
  for (const share of [high, low]) {
    const [x, y] = [seen.x(last, share), seen.y(last, share)];
    const before = Math.max(from, Math.ceil(last) - 1);
    const [dx, dy] = [x - seen.x(before, share), y - seen.y(before, share)];
    const on = more / (Math.hypot(dx, dy) || 1);
    path.lineTo(x + on * dx, y + on * dy);
  }
  for (let t = Math.ceil(last) - 1; t > from; t -= 1) path.lineTo(seen.x(t, low), seen.y(t, low));
  path.lineTo(seen.x(from, low), seen.y(from, low));
  path.closePath();
  return path;
}

/** The rim of what is seen of a side. @param {SeenSide} seen @param {Run} run */
export function rimOf(seen, run) {
  const path = new Path2D();
  const last = run.to - 1e-9;
  path.moveTo(seen.x(run.from, 0), seen.y(run.from, 0));
  for (let t = run.from + 1; t < last; t += 1) path.lineTo(seen.x(t, 0), seen.y(t, 0));
  path.lineTo(seen.x(last, 0), seen.y(last, 0));
  return path;
}

/** The outline of all that is seen of a side. @param {SeenSide} seen */
export function silhouette(seen) {
  const path = new Path2D();
  for (const run of seen.runs) path.addPath(strip(seen, run.from, run.to, 0, 1));
  return path;
}
