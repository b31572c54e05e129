// Paths through points, which lie in rows: x and y by turns.

/** @typedef {import("./scene_camera.js").SeenFrame} SeenFrame */
/** @typedef {import("./scene_types.js").Mark} Mark */

const ROUND = 72; // points round a circle
const SPIKE = 0.4; // of a corner that turns back: it would reach far out

/**
 * A closed path through points.
 * @param {number[]} row x and y by turns
 */
export function closed(row) {
  const path = new Path2D();
  addRing(path, row);
  return path;
}

/** @param {Path2D} path @param {number[]} row */
export function addRing(path, row) {
  for (let index = 0; index < row.length; index += 2) {
    if (index) path.lineTo(row[index], row[index + 1]);
    else path.moveTo(row[0], row[1]);
  }
  path.closePath();
}

/** All that is filled of a mark, each shape where it lies. @param {Mark} mark @returns {number[][][]} */
export function shapesOf({ shapes, repeated }) {
  const found = [...shapes];
  for (const { shape, places } of repeated) {
    for (let index = 0; index < places.length; index += 3) {
      const [x, y, turn] = places.slice(index, index + 3);
      const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
      found.push(shape.map((ring) => ring.map((_, at) => at % 2
        ? y + sin * ring[at - 1] + cos * ring[at]
        : x + cos * ring[at] - sin * ring[at + 1])));
    }
  }
  return found;
}

/** Points round a circle. @param {number} radius */
export function circle(radius) {
  return Array.from({ length: ROUND }, (_, step) => {
    const turn = (step / ROUND) * 2 * Math.PI;
    return { x: radius * Math.cos(turn), y: radius * Math.sin(turn), z: 0 };
  });
}

/** A row of x and y that lies at heights, as it is seen.
 * @param {number[]} row @param {SeenFrame} frame @param {(x: number, y: number) => number} height */
export function flat(row, frame, height) {
  const found = [];
  for (let index = 0; index < row.length; index += 2) {
    const [x, y] = [row[index], row[index + 1]];
    found.push(frame.x(x, y), frame.y(x, y, height(x, y)));
  }
  return found;
}

/** A ring moved to its right as seen from above, with corners that stay sharp unless very sharp.
 * @param {number[]} row px @param {number} by px */
export function grown(row, by) {
  const found = [];
  let [x0, y0] = rightOf(row, row.length - 2);
  for (let index = 0; index < row.length; index += 2) {
    const [x1, y1] = rightOf(row, index);
    const far = by / Math.max(1 + x0 * x1 + y0 * y1, SPIKE);
    found.push(row[index] + (x0 + x1) * far, row[index + 1] + (y0 + y1) * far);
    [x0, y0] = [x1, y1];
  }
  return found;
}

/** The way to the right of a line from a point of a ring to the next, length 1, or 0 as it has.
 * @param {number[]} row @param {number} index */
function rightOf(row, index) {
  const next = (index + 2) % row.length;
  const [dx, dy] = [row[next] - row[index], row[next + 1] - row[index + 1]];
  const size = Math.hypot(dx, dy) || 1;
  return [-dy / size, dx / size]; // y goes down
}

/** The outline of all that a convex ring, counter-clockwise as seen, goes over while it drops.
 * @param {number[]} row @param {number} drop px */
export function dropped(row, drop) {
  const found = [];
  for (let index = 0; index < row.length; index += 2) {
    const next = (index + 2) % row.length;
    const down = row[next] > row[index] ? drop : 0; // its lower half runs to the right
    found.push(row[index], row[index + 1] + down, row[next], row[next + 1] + down);
  }
  return found;
}

/** Add a quadrangle that turns one way, so that those that lie on each other fill too.
 * @param {Path2D} path @param {number[]} row */
export function addQuad(path, row) {
  let twice = 0;
  for (let index = 0; index < 8; index += 2) {
    const next = (index + 2) % 8;
    twice += row[index] * row[next + 1] - row[next] * row[index + 1];
  }
  addRing(path, twice < 0 ? [row[6], row[7], row[4], row[5], row[2], row[3], row[0], row[1]] : row);
}
