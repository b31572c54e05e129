// A whole cake on a canvas: the drum first and what stands on it later, so that what is nearer to
// the eye covers what is farther.

import { between, common, hull, partsBetween } from "./scene_clip.js";
import { deeper, levelOf, towards } from "./scene_colours.js";
import { SeenSide, Side } from "./scene_side.js";

/** @typedef {import("./scene_types.js").Scene} Scene */
/** @typedef {import("./scene_types.js").Body} Body */
/** @typedef {import("./scene_types.js").Mark} Mark */
/** @typedef {import("./scene_types.js").Standing} Standing */
/** @typedef {import("./scene_camera.js").Camera} Camera */
/** @typedef {import("./scene_camera.js").Extent} Extent */
/** @typedef {import("./scene_camera.js").SeenFrame} SeenFrame */
/** @typedef {import("./scene_painter.js").Painter} Painter */
/** @typedef {import("./scene_side.js").OnSide} OnSide */
/** @typedef {import("./scene_side.js").Run} Run */
/** @typedef {{body: Body, side: Side | null, marks: OnSide[], extent: Extent}} Prepared */

const FLAT = { x: 0, y: 0, z: 1 };
const SEAM = 1; // px that a face reaches under the next, so that nothing shines through
const SHADE = 9; // mm of shade about the foot of a tier
const ROUND = 72; // points of the outline of a ball

/** What is worked out once for a cake. @param {Scene} scene */
export function prepare(scene) {
  const bodies = scene.bodies.map(preparedBody);
  const extents = bodies.map((each) => each.extent);
  for (const each of scene.standing) extents.push(extentOf(each));
  return { bodies, standing: scene.standing, extents };
}

/** @typedef {ReturnType<typeof prepare>} Cake */

/** @param {Body} body @returns {Prepared} */
function preparedBody(body) {
  const side = body.columns.length ? new Side(body) : null;
  const marks = side ? body.side.map((mark) => side.prepared(mark)) : [];
  const aside = Math.hypot(body.at[0], body.at[1]);
  const ends = side ? [...side.rim, ...side.foot] : [];
  const [radius, middle] = body.sphere ?? [0, 0];
  return {
    body, side, marks,
    extent: {
      reach: aside + ends.reduce((most, end) => Math.max(most, Math.hypot(end.x, end.y)), radius),
      low: body.at[2],
      high: body.at[2] + ends.reduce((most, end) => Math.max(most, end.z), middle + radius),
    },
  };
}

/** @param {Standing} each @returns {Extent} */
function extentOf(each) {
  const points = each.shapes.flat(2);
  const xs = points.filter((_, index) => index % 2 === 0).map(Math.abs);
  const ys = points.filter((_, index) => index % 2);
  const reach = Math.hypot(each.at[0], each.at[1]) + Math.max(...xs);
  return { reach, low: each.at[2], high: each.at[2] + Math.max(...ys) };
}

/** @param {Painter} painter @param {Cake} cake @param {Camera} camera */
export function draw(painter, cake, camera) {
  let below = null;
  for (const prepared of cake.bodies) {
    const frame = camera.frame(prepared.body.at);
    stand(painter, prepared, frame, below);
    below = prepared.side ? solid(painter, prepared, prepared.side, frame) : ball(painter, prepared.body, frame);
  }
  const frames = cake.standing.map((each) => ({ each, frame: camera.frame(each.at) }));
  frames.sort((a, b) => b.frame.depth(0, 0) - a.frame.depth(0, 0));
  for (const { each, frame } of frames) standing(painter, each, frame);
}

/**
 * A closed path through points.
 * @param {number[]} row x and y by turns
 */
function closed(row) {
  const path = new Path2D();
  addRing(path, row);
  return path;
}

/** @param {Path2D} path @param {number[]} row */
function addRing(path, row) {
  for (let index = 0; index < row.length; index += 2) {
    if (index) path.lineTo(row[index], row[index + 1]);
    else path.moveTo(row[0], row[1]);
  }
  path.closePath();
}

/** What is seen under a tier: its board, and its shade on what it stands on.
 * @param {Painter} painter @param {Prepared} prepared @param {SeenFrame} frame @param {Path2D | null} below */
function stand(painter, { body, side }, frame, below) {
  const { context } = painter;
  const { scale } = frame.camera;
  const foot = side ? side.foot : circle(body.sphere ? Math.max(body.sphere[2], body.sphere[0] / 2) : 0);
  context.save();
  if (below) context.clip(below);
  painter.shade(closed(foot.flatMap(({ x, y }) => [frame.x(x, y), frame.y(x, y, 0)])), SHADE * scale);
  context.restore();
  if (!body.board.length) return;
  painter.fill(body.part, closed(flat(body.board, frame, () => 0)), "#cfd2d6", painter.level(frame.lit(FLAT)));
}

/** Points round a circle. @param {number} radius */
function circle(radius) {
  return Array.from({ length: ROUND }, (_, step) => {
    const turn = (step / ROUND) * 2 * Math.PI;
    return { x: radius * Math.cos(turn), y: radius * Math.sin(turn), z: 0 };
  });
}

/** A row of x and y that lies at heights, as it is seen.
 * @param {number[]} row @param {SeenFrame} frame @param {(x: number, y: number) => number} height */
function flat(row, frame, height) {
  const found = [];
  for (let index = 0; index < row.length; index += 2) {
    const [x, y] = [row[index], row[index + 1]];
    found.push(frame.x(x, y), frame.y(x, y, height(x, y)));
  }
  return found;
}

/** Draw a tier with a side, and return the path of its top.
 * @param {Painter} painter @param {Prepared} prepared @param {Side} side @param {SeenFrame} frame */
function solid(painter, { body, marks }, side, frame) {
  const { context } = painter;
  const seen = new SeenSide(side, frame);
  const holes = body.hole ? ends(seen, body.hole) : [];
  context.save();
  for (const hole of holes) leaveOut(context, hole.through);
  for (const run of seen.runs) {
    faces(painter, body, seen, run);
    painter.edge(strip(seen, run.from, run.to, 0, 0, 0), towards(body.colour, 0.5), levelOf(1), 1.2);
    for (const mark of marks) drawMark(painter, mark, seen, run);
    painter.deepen(strip(seen, run.from, run.to, 0, 1, 0), Math.min(...seen.ry), Math.max(...seen.fy));
  }
  for (const hole of holes) inside(painter, body, hole);
  context.restore();
  const top = closed(side.rim.slice(0, -1).flatMap((_, index) => [seen.rx[index], seen.ry[index]]));
  drawTop(painter, body, top, frame);
  const whole = silhouette(seen);
  if (frame.camera.fall > 0) whole.addPath(top);
  painter.mark(body.part, whole);
  return top;
}

/** @param {CanvasRenderingContext2D} context @param {number[]} ring */
function leaveOut(context, ring) {
  if (ring.length < 6) return;
  const path = new Path2D();
  path.rect(0, 0, context.canvas.width, context.canvas.height);
  addRing(path, ring);
  context.clip(path, "evenodd");
}

/** The faces of a run; those of one level of light side by side as one.
 * @param {Painter} painter @param {Body} body @param {SeenSide} seen @param {Run} run */
function faces(painter, body, seen, run) {
  const { side, frame } = seen;
  /** @param {number} t */
  const level = (t) => painter.level(frame.lit(side.normals[side.face(t)]));
  for (let start = run.from; start < run.to;) {
    let end = start + 1;
    while (end < run.to && level(end) === level(start)) end += 1;
    painter.fill(body.part, strip(seen, start, end, 0, 1, end < run.to ? SEAM : 0), body.colour, level(start));
    start = end;
  }
  painter.outline(strip(seen, run.from, run.to, 0, 1, 0));
}

/** The part of a side between two t and two shares of the way down.
 * @param {SeenSide} seen @param {number} from @param {number} to @param {number} high @param {number} low @param {number} more px */
function strip(seen, from, to, high, low, more) {
  const row = [];
  const last = to - 1e-9; // the end of a face, not the start of the next
  for (let t = from; t < last; t = Math.floor(t) + 1) row.push(seen.x(t, high), seen.y(t, high));
  row.push(seen.x(last, high) + more, seen.y(last, high), seen.x(last, low) + more, seen.y(last, low));
  for (let t = Math.ceil(last) - 1; t > from; t -= 1) row.push(seen.x(t, low), seen.y(t, low));
  row.push(seen.x(from, low), seen.y(from, low));
  return closed(row);
}

/** The outline of all that is seen of a side. @param {SeenSide} seen */
function silhouette(seen) {
  const path = new Path2D();
  for (const run of seen.runs) path.addPath(strip(seen, run.from, run.to, 0, 1, 0));
  return path;
}

/** @param {Painter} painter @param {OnSide} onSide @param {SeenSide} seen @param {Run} run */
function drawMark(painter, { mark, shapes, lines, bands }, seen, run) {
  const { side, frame } = seen;
  const { scale } = frame.camera;
  const whole = new Path2D();
  /** @param {number} from @param {number} to */
  const level = (from, to) => painter.level(frame.lit(side.normals[side.face((from + to) / 2)]));
  for (const band of bands) drawBand(painter, mark, band, seen, run, whole);
  for (const { contours, from, to } of shapes) {
    for (const [start, end, shift] of shown(side, run, from, to)) {
      const path = new Path2D();
      for (const contour of contours) {
        const whole_ = start <= from + shift && end >= to + shift;
        const places = whole_ ? contour : between(contour, start - shift, end - shift);
        if (places.length > 4) addPlaces(path, places, shift, seen, true);
      }
      painter.relief(mark.part, path, mark.colour, level(start, end), mark.raised * scale);
      whole.addPath(path);
    }
  }
  for (const { contours, from, to } of lines) {
    for (const [start, end, shift] of shown(side, run, from, to)) {
      for (const places of partsBetween(contours[0], start - shift, end - shift)) {
        const path = new Path2D();
        addPlaces(path, places, shift, seen, false);
        painter.line(mark.part, path, mark.colour, level(start, end), mark.width * scale);
        whole.addPath(path);
      }
    }
  }
  painter.mark(mark.part, whole);
}

/** Where something from one t to another is seen in a run, and how many t farther on.
 * @param {Side} side @param {Run} run @param {number} from @param {number} to @returns {number[][]} */
function shown(side, run, from, to) {
  const found = [];
  for (const turns of [-1, 0, 1, 2]) {
    const shift = turns * side.count;
    const start = Math.max(from + shift, run.from);
    const end = Math.min(to + shift, run.to);
    if (end > start || (from === to && start === end)) found.push([start, end, shift]);
  }
  return found;
}

/** @param {Path2D} path @param {ArrayLike<number>} places @param {number} shift @param {SeenSide} seen @param {boolean} isClosed */
function addPlaces(path, places, shift, seen, isClosed) {
  for (let index = 0; index < places.length; index += 2) {
    const [t, s] = [places[index] + shift, places[index + 1]];
    if (index) path.lineTo(seen.x(t, s), seen.y(t, s));
    else path.moveTo(seen.x(t, s), seen.y(t, s));
  }
  if (isClosed) path.closePath();
}

/** A band or panel, face by face, with a light upper edge and dark joins.
 * @param {Painter} painter @param {Mark} mark @param {import("./scene_side.js").Band} band @param {SeenSide} seen @param {Run} run @param {Path2D} whole */
function drawBand(painter, mark, band, seen, run, whole) {
  const { side, frame } = seen;
  for (const [start, end] of shown(side, run, band.from, band.to)) {
    /** @param {number} t */
    const level = (t) => painter.level(frame.lit(side.normals[side.face(t)]));
    for (let from = start; from < end;) {
      let to = Math.min(Math.floor(from) + 1, end);
      while (to < end && level(to) === level(from)) to = Math.min(to + 1, end);
      const path = strip(seen, from, to, band.high, band.low, to < end ? SEAM : 0);
      painter.fill(mark.part, path, mark.colour, level(from));
      from = to;
    }
    const edges = strip(seen, start, end, band.high, band.low, 0);
    painter.edge(edges, deeper(mark.colour, 2.4), level((start + end) / 2), 0.9);
    whole.addPath(edges);
  }
}

/** @param {Painter} painter @param {Body} body @param {Path2D} top @param {SeenFrame} frame */
function drawTop(painter, body, top, frame) {
  const [right, back] = body.slope;
  const size = Math.hypot(right, back, 1);
  const normal = { x: -right / size, y: -back / size, z: 1 / size };
  if (frame.faces(normal) <= 0) return;
  const level = painter.level(frame.lit(normal));
  painter.fill(body.part, top, body.colour, level);
  painter.outline(top);
  for (const mark of body.above) drawOnTop(painter, mark, body, frame, level);
}

/** @param {Painter} painter @param {Mark} mark @param {Body} body @param {SeenFrame} frame @param {number} level */
function drawOnTop(painter, mark, body, frame, level) {
  const { scale } = frame.camera;
  /** @param {number} x @param {number} y */
  const height = (x, y) => body.top + body.slope[0] * x + body.slope[1] * y;
  const whole = new Path2D();
  for (const shape of mark.shapes) {
    const path = new Path2D();
    for (const ring of shape) addRing(path, flat(ring, frame, height));
    painter.relief(mark.part, path, mark.colour, level, mark.raised * scale * frame.camera.fall);
    whole.addPath(path);
  }
  painter.mark(mark.part, whole);
}

/** @typedef {{mouth: number[], near: number[], far: number[], through: number[]}} Tunnel as it is seen */

/** The ends of a hole that are seen, each with the other and with what is seen through.
 * @param {SeenSide} seen @param {import("./scene_types.js").Hole} hole @returns {Tunnel[]} */
function ends(seen, hole) {
  const { side } = seen;
  const [front, back] = [hole.front, hole.back].map((row) => side.ring(row));
  /** @type {Tunnel[]} */
  const found = [];
  for (const [one, other] of [[front, back], [back, front]]) {
    for (const run of seen.runs) {
      for (const [start, end, shift] of shown(side, run, one.from, one.to)) {
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
 * @param {Painter} painter @param {Body} body @param {Tunnel} tunnel_ */
function inside(painter, body, { mouth, near, far }) {
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
    addQuad(wall, [near, far].flatMap((ring, place) => [place ? next : index, place ? index : next].flatMap((at) => [ring[at * 2], ring[at * 2 + 1]])));
    const up = -Math.sin(((index + 0.5) / count) * 2 * Math.PI);
    painter.fill(hole.part, wall, hole.colour, levelOf(0.3 * up + 0.05));
    painter.edge(wall, hole.colour, levelOf(0.3 * up + 0.05), 0.7);
  }
  context.restore();
  painter.edge(edge, deeper(body.colour, 2.4), levelOf(0.5), 1);
  painter.mark(hole.part, edge);
}

/** Draw a ball, and return its outline.
 * @param {Painter} painter @param {Body} body @param {SeenFrame} frame */
function ball(painter, body, frame) {
  const { context } = painter;
  const { rise, scale } = frame.camera;
  const [radius, middle, foot] = body.sphere ?? [0, 0, 0];
  const [x, y] = [frame.x(0, 0), frame.y(0, 0, middle)];
  const points = circle(foot).map((at) => [frame.x(at.x, at.y), frame.y(at.x, at.y, 0)]);
  for (const at of circle(radius)) {
    // the edge that is seen: a circle square to the way one looks
    if (!foot || middle + at.y * rise >= 0) points.push([x + at.x * scale, y - at.y * scale]);
  }
  const path = closed(hull(points));
  if (painter.theme.forced) painter.fill(body.part, path, body.colour, levelOf(1));
  else {
    const light = context.createRadialGradient(
      x - radius * scale * 0.4, y - radius * scale * 0.5, radius * scale * 0.1, x, y, radius * scale * 1.15);
    light.addColorStop(0, towards(body.colour, 0.5));
    light.addColorStop(0.45, body.colour);
    light.addColorStop(1, towards(body.colour, -0.34));
    context.fillStyle = light;
    context.fill(path);
    painter.hits.push({ part: body.part, path, width: 0 });
  }
  painter.outline(path);
  painter.mark(body.part, path);
  return path;
}

/** Draw a flat thing that stands: its stick, its far face, its edges, its near face.
 * @param {Painter} painter @param {Standing} each @param {SeenFrame} frame */
function standing(painter, each, frame) {
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

/** Add a quadrangle that turns one way, so that those that lie on each other fill too.
 * @param {Path2D} path @param {number[]} row */
function addQuad(path, row) {
  let twice = 0;
  for (let index = 0; index < 8; index += 2) {
    const next = (index + 2) % 8;
    twice += row[index] * row[next + 1] - row[next] * row[index + 1];
  }
  addRing(path, twice < 0 ? [row[6], row[7], row[4], row[5], row[2], row[3], row[0], row[1]] : row);
}
