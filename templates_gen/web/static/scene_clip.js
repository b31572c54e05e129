// What of an outline on a side lies between two places of it, and what two areas have in common.

/** @typedef {import("./scene_side.js").Places} Places */

/**
 * The part of a closed contour on one side of t = edge (Sutherland and Hodgman 1974).
 * @param {ArrayLike<number>} places t and s by turns
 * @param {number} edge
 * @param {number} way 1 keeps what lies beyond the edge, -1 what lies before it
 * @returns {number[]}
 */
function beyond(places, edge, way) {
  const found = [];
  const size = places.length;
  for (let index = 0; index < size; index += 2) {
    const [t, s] = [places[index], places[index + 1]];
    const before = (index + size - 2) % size;
    const [t0, s0] = [places[before], places[before + 1]];
    const [here, there] = [(t - edge) * way >= 0, (t0 - edge) * way >= 0];
    if (here !== there) found.push(edge, s0 + ((s - s0) * (edge - t0)) / (t - t0));
    if (here) found.push(t, s);
  }
  return found;
}

/**
 * The part of a closed contour between two t.
 * @param {Places} places
 * @param {number} from
 * @param {number} to
 */
export const between = (places, from, to) => beyond(beyond(places, from, 1), to, -1);

/**
 * The parts of an open line between two t.
 * @param {Places} places
 * @param {number} from
 * @param {number} to
 * @returns {number[][]}
 */
export function partsBetween(places, from, to) {
  /** @type {number[][]} */
  const parts = [];
  let part = null;
  for (let index = 2; index < places.length; index += 2) {
    const [t0, s0, t1, s1] = places.slice(index - 2, index + 2);
    if (Math.max(t0, t1) < from || Math.min(t0, t1) > to) {
      part = null;
      continue;
    }
    /** @param {number} t */
    const at = (t) => [t, t1 === t0 ? s0 : s0 + ((s1 - s0) * (t - t0)) / (t1 - t0)];
    const start = Math.min(Math.max(t0, from), to);
    const end = Math.min(Math.max(t1, from), to);
    if (!part || start !== t0) parts.push((part = start === t0 ? [t0, s0] : at(start)));
    if (end === t1) part.push(t1, s1);
    else {
      part.push(...at(end));
      part = null;
    }
  }
  return parts.filter((each) => each.length > 2);
}

/**
 * What a polygon has in common with a convex one, both as rows of x and y.
 * @param {number[]} polygon
 * @param {number[]} convex
 * @returns {number[]}
 */
export function common(polygon, convex) {
  const way = Math.sign(area(convex)) || 1;
  let found = polygon;
  for (let index = 0; index < convex.length; index += 2) {
    const [x0, y0] = [convex[index], convex[index + 1]];
    const next = (index + 2) % convex.length;
    const [dx, dy] = [convex[next] - x0, convex[next + 1] - y0];
    /** @param {number} x @param {number} y */
    const inside = (x, y) => ((y - y0) * dx - (x - x0) * dy) * way;
    const kept = [];
    for (let other = 0; other < found.length; other += 2) {
      const before = (other + found.length - 2) % found.length;
      const [x, y, px, py] = [found[other], found[other + 1], found[before], found[before + 1]];
      const [here, there] = [inside(x, y), inside(px, py)];
      if (here >= 0 !== there >= 0) {
        const share = there / (there - here);
        kept.push(px + (x - px) * share, py + (y - py) * share);
      }
      if (here >= 0) kept.push(x, y);
    }
    found = kept;
  }
  return found;
}

/** The area of a polygon, negative one way round. @param {ArrayLike<number>} row */
function area(row) {
  let twice = 0;
  for (let index = 0; index < row.length; index += 2) {
    const next = (index + 2) % row.length;
    twice += row[index] * row[next + 1] - row[next] * row[index + 1];
  }
  return twice / 2;
}

/**
 * The smallest convex polygon round points (Andrew's monotone chain).
 * @param {number[][]} points
 * @returns {number[]}
 */
export function hull(points) {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  /** @param {number[][]} row */
  const half = (row) => {
    /** @type {number[][]} */
    const kept = [];
    for (const point of row) {
      while (kept.length > 1 && turn(kept[kept.length - 2], kept[kept.length - 1], point) <= 0) kept.pop();
      kept.push(point);
    }
    return kept.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())].flat();
}

/** @param {number[]} a @param {number[]} b @param {number[]} c */
const turn = (a, b, c) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
