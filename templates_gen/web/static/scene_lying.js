// Things with upright walls and a level top, such as letters cut from cake, and their boards.

import { addQuad, addRing, closed, flat } from "./scene_paths.js";

/** @typedef {import("./scene_painter.js").Painter} Painter */
/** @typedef {import("./scene_types.js").Lying} Lying */
/** @typedef {import("./scene_camera.js").SeenFrame} SeenFrame */

const SHADE = 6; // mm of shade about its foot
const FLAT = { x: 0, y: 0, z: 1 };
const EDGE_ON = 1e-4; // what rounding alone turns to the eye

/** Draw one: the walls that look to the eye, those far away first, then its top.
 * @param {Painter} painter @param {Lying} each @param {SeenFrame} frame */
export function lying(painter, each, frame) {
  painter.shade(() => rings(each, frame, 0), SHADE * frame.camera.scale * wayOf(each.shapes.flat()));
  const walls = each.shapes.flatMap((shape) => wallsOf(shape, each.tall, frame));
  walls.sort((a, b) => b.depth - a.depth);
  // all at once below, so that nothing shines through between two walls
  const whole = new Path2D();
  for (const { row } of walls) addQuad(whole, row);
  painter.mark(each.part, whole); // only what lies outside is seen
  painter.fill(each.part, whole, each.colour, painter.level(frame.lit({ x: 0, y: -1, z: 0 })));
  for (const { row, lit } of walls) painter.fill(each.part, closed(row), each.colour, painter.level(lit));
  if (frame.faces(FLAT) <= 0) return;
  const top = outline(each, frame, each.tall);
  painter.fill(each.part, top, each.colour, painter.level(frame.lit(FLAT)));
  painter.outline(top);
  painter.mark(each.part, top);
}

/** @param {Lying} each @param {SeenFrame} frame @param {number} height */
function outline(each, frame, height) {
  const path = new Path2D();
  for (const ring of rings(each, frame, height)) addRing(path, ring);
  return path;
}

/** @param {Lying} each @param {SeenFrame} frame @param {number} height */
const rings = ({ shapes }, frame, height) => shapes.flat().map((ring) => flat(ring, frame, () => height));

/** The walls of a shape that look to the eye: as seen, how far away, how brightly lit.
 * @param {number[][]} shape @param {number} tall @param {SeenFrame} frame */
function wallsOf(shape, tall, frame) {
  const way = wayOf(shape);
  const found = [];
  for (const ring of shape) {
    for (let index = 0; index < ring.length; index += 2) {
      const next = (index + 2) % ring.length;
      const [x, y, nx, ny] = [ring[index], ring[index + 1], ring[next], ring[next + 1]];
      const length = Math.hypot(nx - x, ny - y) || 1;
      const normal = { x: (way * (ny - y)) / length, y: (way * (x - nx)) / length, z: 0 };
      if (frame.faces(normal) <= EDGE_ON) continue;
      const [left, right] = [frame.x(x, y), frame.x(nx, ny)];
      const row = [left, frame.y(x, y, 0), right, frame.y(nx, ny, 0), right, frame.y(nx, ny, tall), left, frame.y(x, y, tall)];
      found.push({ row, depth: frame.depth((x + nx) / 2, (y + ny) / 2), lit: frame.lit(normal) });
    }
  }
  return found;
}

/** 1 where what rings enclose together lies to their left, else -1. @param {number[][]} rings_ */
const wayOf = (rings_) => (rings_.reduce((sum, ring) => sum + twice(ring), 0) < 0 ? -1 : 1);

/** Twice the area of a ring, above 0 counter-clockwise. @param {number[]} ring */
function twice(ring) {
  let sum = 0;
  for (let index = 0; index < ring.length; index += 2) {
    const next = (index + 2) % ring.length;
    sum += ring[index] * ring[next + 1] - ring[next] * ring[index + 1];
  }
  return sum;
}
