// Paths through points, which lie in rows: x and y by turns.

/** @typedef {import("./scene_camera.js").SeenFrame} SeenFrame */
/** @typedef {import("./scene_types.js").Mark} Mark */

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
