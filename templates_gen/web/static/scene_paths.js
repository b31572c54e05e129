// Paths through points, which lie in rows: x and y by turns.

/** @typedef {import("./scene_camera.js").SeenFrame} SeenFrame */

const ROUND = 72; // points round a circle

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
