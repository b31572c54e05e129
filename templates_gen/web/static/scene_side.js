// The side of a body as flat faces between columns, and what lies on it. A place on a side is t, the
// number of its column and a share of the way to the next, and s, its share of the way down.

import { shapesOf } from "./scene_paths.js";

/** @typedef {import("./scene_types.js").Body} Body */
/** @typedef {import("./scene_types.js").Mark} Mark */
/** @typedef {import("./scene_camera.js").Vector} Vector */
/** @typedef {import("./scene_camera.js").SeenFrame} SeenFrame */

/** @typedef {Float64Array} Places t and s by turns */
/** @typedef {Float64Array} Spots x, y and z by turns, in the frame of the body */
/** @typedef {{contours: Places[], spots: Spots[], from: number, to: number}} Outline each contour on the side and in space, from which t to which t */
/** @typedef {{from: number, to: number, high: number, low: number}} Band */
/** @typedef {{mark: Mark, shapes: Outline[], lines: Outline[], bands: Band[]}} OnSide */
/** @typedef {{from: number, to: number, depth: number}} Run faces that are seen side by side */

const STRIDE = 8;
const EDGE_ON = 1e-4; // what rounding alone turns to the eye

export class Side {
  /** @param {Body} body */
  constructor(body) {
    const { columns } = body;
    this.count = columns.length / STRIDE - 1; // faces
    this.girth = body.girth;
    this.u = new Float64Array(this.count + 1);
    this.depth = new Float64Array(this.count + 1);
    /** @type {Vector[]} */
    this.rim = [];
    /** @type {Vector[]} */
    this.foot = [];
    for (let index = 0; index <= this.count; index += 1) {
      const [u, depth, x, y, z, fx, fy, fz] = columns.slice(index * STRIDE, (index + 1) * STRIDE);
      this.u[index] = u;
      this.depth[index] = depth;
      this.rim.push({ x, y, z });
      this.foot.push({ x: fx, y: fy, z: fz });
    }
    this.isUpright = this.rim.every((rim, index) =>
      Math.hypot(rim.x - this.foot[index].x, rim.y - this.foot[index].y) < 0.05);
    this.normals = Array.from({ length: this.count }, (_, face) => this.normal(face));
  }

  /** Which way a face looks, length 1. @param {number} face @returns {Vector} */
  normal(face) {
    const [a, b, c, d] = [this.rim[face], this.rim[face + 1], this.foot[face], this.foot[face + 1]];
    const along = less(b, a);
    const down = { x: c.x + d.x - a.x - b.x, y: c.y + d.y - a.y - b.y, z: c.z + d.z - a.z - b.z };
    // rim and foot of a tier that tapers to a point have no length: then the foot says it
    return unit(cross(down, Math.hypot(along.x, along.y) > 1e-6 ? along : less(d, c)));
  }

  /** The place t of a u, also beyond the ends. @param {number} u */
  t(u) {
    const turns = Math.floor(u / this.girth);
    const rest = u - turns * this.girth;
    let [low, high] = [0, this.count];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (this.u[middle] <= rest) low = middle;
      else high = middle;
    }
    const step = this.u[high] - this.u[low];
    return turns * this.count + low + (step ? (rest - this.u[low]) / step : 0);
  }

  /** How deep the side is at t. @param {number} t */
  depthAt(t) {
    const face = this.face(t);
    const share = t - Math.floor(t);
    return this.depth[face] + (this.depth[face + 1] - this.depth[face]) * share;
  }

  /** The face at t, which may lie beyond the ends. @param {number} t */
  face(t) {
    const face = Math.floor(t) % this.count;
    return face < 0 ? face + this.count : face;
  }

  /** The u of a place t, which goes on beyond the ends. @param {number} t */
  uAt(t) {
    const face = this.face(t);
    const share = t - Math.floor(t);
    const turns = Math.floor(t / this.count);
    return turns * this.girth + this.u[face] + (this.u[face + 1] - this.u[face]) * share;
  }

  /**
   * A row of (u, v) as places, and more of them where it goes over an edge between two faces.
   * @param {number[]} row
   * @param {boolean} closed
   * @returns {Outline}
   */
  outline(row, closed) {
    const found = [];
    const count = row.length / 2;
    let [from, to] = [Infinity, -Infinity];
    for (let index = 0; index < count + (closed ? 1 : 0); index += 1) {
      const at = (index % count) * 2;
      const t = this.t(row[at]);
      const s = row[at + 1] / this.depthAt(t);
      if (index) bridge(found, t, s);
      if (index < count) found.push(t, s);
      from = Math.min(from, t);
      to = Math.max(to, t);
    }
    const places = Float64Array.from(found);
    return { contours: [places], spots: [this.spots(places)], from, to };
  }

  /** A closed row of (u, v) as places, point by point. @param {number[]} row @returns {Outline} */
  ring(row) {
    const places = new Float64Array(row.length);
    for (let index = 0; index < row.length; index += 2) {
      places[index] = this.t(row[index]);
      places[index + 1] = row[index + 1] / this.depthAt(places[index]);
    }
    const ts = places.filter((_, index) => index % 2 === 0);
    return { contours: [places], spots: [], from: Math.min(...ts), to: Math.max(...ts) };
  }

  /** Where places lie in space. @param {Places} places @returns {Spots} */
  spots(places) {
    const spots = new Float64Array((places.length / 2) * 3);
    for (let index = 0, at = 0; index < places.length; index += 2, at += 3) {
      const [t, s] = [places[index], places[index + 1]];
      const face = this.face(t);
      const share = t - Math.floor(t);
      const [a, b, c, d] = [this.rim[face], this.rim[face + 1], this.foot[face], this.foot[face + 1]];
      spots[at] = mixed(mixed(a.x, b.x, share), mixed(c.x, d.x, share), s);
      spots[at + 1] = mixed(mixed(a.y, b.y, share), mixed(c.y, d.y, share), s);
      spots[at + 2] = mixed(mixed(a.z, b.z, share), mixed(c.z, d.z, share), s);
    }
    return spots;
  }

  /** What lies on the side, ready to be drawn. @param {Mark} mark @returns {OnSide} */
  prepared(mark) {
    return {
      mark,
      shapes: shapesOf(mark).map((shape) => joined(shape.map((ring) => this.outline(ring, true)))),
      lines: mark.lines.map((line) => this.outline(line, false)),
      bands: Array.from({ length: mark.bands.length / 4 }, (_, index) => {
        const [u0, v0, u1, v1] = mark.bands.slice(index * 4, index * 4 + 4);
        const from = this.t(u0);
        // a band all round ends where it begins
        const to = u1 - u0 >= this.girth - 0.05 ? from + this.count : this.t(u1);
        return { from, to, high: v0 / this.depthAt(from), low: v1 / this.depthAt(from) };
      }),
    };
  }
}

/** @param {number} from @param {number} to @param {number} share */
const mixed = (from, to, share) => from + (to - from) * share;

/** Put points between the last of a row and the next where whole numbers of t lie between them.
 * @param {number[]} row @param {number} t @param {number} s */
function bridge(row, t, s) {
  const [t0, s0] = [row[row.length - 2], row[row.length - 1]];
  const way = Math.sign(t - t0);
  if (!way) return;
  const first = way > 0 ? Math.floor(t0) + 1 : Math.ceil(t0) - 1;
  for (let edge = first; (t - edge) * way > 1e-9; edge += way) {
    row.push(edge, s0 + ((s - s0) * (edge - t0)) / (t - t0));
  }
}

/** @param {Outline[]} outlines @returns {Outline} */
const joined = (outlines) => ({
  contours: outlines.flatMap((each) => each.contours),
  spots: outlines.flatMap((each) => each.spots),
  from: Math.min(...outlines.map((each) => each.from)),
  to: Math.max(...outlines.map((each) => each.to)),
});

/** @param {Vector} a @param {Vector} b */
const less = (a, b) => ({ x: a.x - b.x, y: a.y - b.y, z: a.z - b.z });

/** @param {Vector} a @param {Vector} b */
const cross = (a, b) => ({
  x: a.y * b.z - a.z * b.y, y: a.z * b.x - a.x * b.z, z: a.x * b.y - a.y * b.x,
});

/** @param {Vector} vector */
function unit({ x, y, z }) {
  const size = Math.hypot(x, y, z) || 1;
  return { x: x / size, y: y / size, z: z / size };
}

/** A side as it is seen in one frame: where its columns are, and which faces look to the eye. */
export class SeenSide {
  /** @param {Side} side @param {SeenFrame} frame */
  constructor(side, frame) {
    this.side = side;
    this.frame = frame;
    const size = side.count + 1;
    this.rx = new Float64Array(size);
    this.ry = new Float64Array(size);
    this.fx = new Float64Array(size);
    this.fy = new Float64Array(size);
    for (let index = 0; index < size; index += 1) {
      const rim = side.rim[index];
      const foot = side.foot[index];
      this.rx[index] = frame.x(rim.x, rim.y);
      this.ry[index] = frame.y(rim.x, rim.y, rim.z);
      this.fx[index] = frame.x(foot.x, foot.y);
      this.fy[index] = frame.y(foot.x, foot.y, foot.z);
    }
    this.runs = this.seen();
  }

  /** The faces that look to the eye, side by side, those far away first. @returns {Run[]} */
  seen() {
    const { count, normals, rim } = this.side;
    const looks = normals.map((normal) => this.frame.faces(normal) > EDGE_ON);
    const start = looks.indexOf(false);
    if (start < 0) return [{ from: 0, to: count, depth: 0 }];
    /** @type {Run[]} */
    const runs = [];
    for (let step = 1; step <= count; step += 1) {
      const face = (start + step) % count;
      if (!looks[face]) continue;
      const last = runs[runs.length - 1];
      const depth = this.frame.depth(rim[face].x, rim[face].y);
      if (last && last.to === start + step) {
        last.to += 1;
        last.depth = Math.min(last.depth, depth);
      } else runs.push({ from: start + step, to: start + step + 1, depth });
    }
    return runs.sort((a, b) => b.depth - a.depth);
  }

  /** The rim all round. */
  top() {
    const path = new Path2D();
    path.moveTo(this.rx[0], this.ry[0]);
    for (let index = 1; index < this.side.count; index += 1) path.lineTo(this.rx[index], this.ry[index]);
    path.closePath();
    return path;
  }

  /** The (u, v) that is seen at a place, px, or next to it at the edge; and the depth there.
   * @param {number} px @param {number} py */
  placeAt(px, py) {
    const { side } = this;
    let best = null;
    for (const run of this.runs) {
      let s = 0.5;
      let t = run.from;
      // a leaning side: t depends on s a little, and s on t
      for (let round = 0; round < 3; round += 1) {
        t = this.tAt(run, px, s);
        const [high, low] = [this.y(t, 0), this.y(t, 1)];
        s = Math.min(1, Math.max(0, (py - high) / (low - high)));
      }
      const off = Math.hypot(this.x(t, s) - px, this.y(t, s) - py);
      if (!best || off <= best.off) best = { off, t, s };
    }
    if (!best) return null;
    const depth = side.depthAt(best.t);
    return { u: side.uAt(best.t), v: best.s * depth, depth };
  }

  /** The t of a run at which x is seen at a share of the way down. @param {Run} run @param {number} px @param {number} s */
  tAt(run, px, s) {
    for (let face = run.from; face < run.to; face += 1) {
      const [left, right] = [this.x(face, s), this.x(face + 1 - 1e-9, s)];
      if (px < right) return face + Math.max(0, (px - left) / (right - left || 1)) * (1 - 1e-9);
    }
    return run.to - 1e-9;
  }

  /** @param {number} t @param {number} s */
  x(t, s) {
    const face = this.side.face(t);
    const share = t - Math.floor(t);
    const high = this.rx[face] + (this.rx[face + 1] - this.rx[face]) * share;
    return high + (this.fx[face] + (this.fx[face + 1] - this.fx[face]) * share - high) * s;
  }

  /** @param {number} t @param {number} s */
  y(t, s) {
    const face = this.side.face(t);
    const share = t - Math.floor(t);
    const high = this.ry[face] + (this.ry[face + 1] - this.ry[face]) * share;
    return high + (this.fy[face] + (this.fy[face + 1] - this.fy[face]) * share - high) * s;
  }
}
