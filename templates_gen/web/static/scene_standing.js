// Flat things that stand up on a cake: their sticks, their edges, their faces.

import { levelOf, towards } from "./scene_colours.js";
import { addQuad, addRing } from "./scene_paths.js";

/** @typedef {import("./scene_painter.js").Painter} Painter */
/** @typedef {import("./scene_types.js").Standing} Standing */
/** @typedef {import("./scene_camera.js").SeenFrame} SeenFrame */

/** Draw a flat thing that stands: its stick, its far face, its edges, its near face.
 * @param {Painter} painter @param {Standing} each @param {SeenFrame} frame */
export function standing(painter, each, frame) {
  const half = each.thickness / 2;
  const front = { x: 0, y: -1, z: 0 };
  const way = frame.faces(front) >= 0 ? -1 : 1;
  /** @param {number} x @param {number} y @param {number} up */
  const seen = (x, y, up) => [frame.x(x, y), frame.y(x, y, up)];
  for (let index = 0; index < each.sticks.length; index += 2) {
    const stick = new Path2D();
    stick.moveTo(frame.x(each.sticks[index], 0), frame.y(each.sticks[index], 0, 0));
    stick.lineTo(...pair(seen(each.sticks[index], 0, each.sticks[index + 1])));
    painter.line(each.part, stick, "#e4d9c8", levelOf(0.6), 3 * frame.camera.scale);
  }
  const edges = new Path2D();
  const near = new Path2D();
  for (const shape of each.shapes) {
    for (const ring of shape) {
      const row = [];
      for (let index = 0; index < ring.length; index += 2) {
        const next = (index + 2) % ring.length;
        const [x, y, nx, ny] = [ring[index], Math.max(ring[index + 1], 0), ring[next], Math.max(ring[next + 1], 0)];
        row.push(...seen(x, way * half, y));
        addQuad(edges, [...seen(x, way * half, y), ...seen(nx, way * half, ny), ...seen(nx, -way * half, ny), ...seen(x, -way * half, y)]);
      }
      addRing(near, row);
    }
  }
  painter.fill(each.part, edges, towards(each.colour, -0.25), levelOf(0.4));
  painter.fill(each.part, near, each.colour, painter.level(frame.lit({ x: 0, y: way, z: 0 })));
  painter.outline(near);
  painter.mark(each.part, near);
}

/** @param {number[]} row @returns {[number, number]} */
const pair = (row) => [row[0], row[1]];
