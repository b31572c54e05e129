// What lies on sides and tops: panels and ribbons, filled shapes, lines.

import { between, partsBetween } from "./scene_clip.js";
import { deeper } from "./scene_colours.js";
import { fillSide, levelAt, strip } from "./scene_faces.js";
import { ofLevel, ofSide } from "./scene_move.js";
import { addRing, flat } from "./scene_paths.js";

/** @typedef {import("./scene_painter.js").Painter} Painter */
/** @typedef {import("./scene_types.js").Mark} Mark */
/** @typedef {import("./scene_types.js").Body} Body */
/** @typedef {import("./scene_camera.js").SeenFrame} SeenFrame */
/** @typedef {import("./scene_side.js").OnSide} OnSide */
/** @typedef {import("./scene_side.js").Run} Run */
/** @typedef {{mark: Mark, shapes: number[][][]}} OnTop */
/** @typedef {import("./scene_side.js").Side} Side */
/** @typedef {import("./scene_side.js").SeenSide} SeenSide */
/** @typedef {import("./scene_side.js").Band} Band */

/** @param {Painter} painter @param {OnSide} onSide @param {SeenSide} seen @param {Run} run */
export function drawMark(painter, { mark, shapes, lines, bands }, seen, run) {
  const { side, frame } = seen;
  const { scale } = frame.camera;
  const whole = new Path2D();
  /** @type {Lit} */
  const filled = new Map();
  /** @type {Lit} */
  const drawn = new Map();
  for (const band of bands) drawBand(painter, mark, band, seen, run, whole);
  for (const { contours, spots, from, to } of shapes) {
    for (const [start, end, shift] of visibleParts(side, run, from, to)) {
      const path = litBy(filled, levelAt(painter, seen, (start + end) / 2));
      const isWhole = start <= from + shift && end >= to + shift;
      contours.forEach((contour, index) => {
        if (isWhole) {
          frame.trace(path, spots[index], true);
          return;
        }
        const places = between(contour, start - shift, end - shift);
        if (places.length > 4) addPlaces(path, places, shift, seen, true);
      });
    }
  }
  for (const { contours, spots, from, to } of lines) {
    for (const [start, end, shift] of visibleParts(side, run, from, to)) {
      const path = litBy(drawn, levelAt(painter, seen, (start + end) / 2));
      if (start <= from + shift && end >= to + shift) frame.trace(path, spots[0], false);
      else for (const places of partsBetween(contours[0], start - shift, end - shift)) addPlaces(path, places, shift, seen, false);
    }
  }
  painter.surfaces.set(mark.part, ofSide(seen));
  if (painter.marked.has(mark.part)) {
    for (const path of [...filled.values(), ...drawn.values()]) whole.addPath(path);
    // below the fills, so that small letters can still be read
    painter.mark(mark.part, whole, mark.width * scale, !bands.length);
  }
  for (const [level, path] of filled) painter.relief(mark.part, path, mark.colour, level, mark.raised * scale);
  for (const [level, path] of drawn) painter.line(mark.part, path, mark.colour, level, mark.width * scale);
}

/** @typedef {Map<number, Path2D>} Lit paths by the level of their light: few are sooner filled than many */

/** @param {Lit} lit @param {number} level */
function litBy(lit, level) {
  let path = lit.get(level);
  if (!path) lit.set(level, path = new Path2D());
  return path;
}

/** Where something from one t to another is seen in a run, and how many t farther on.
 * @param {Side} side @param {Run} run @param {number} from @param {number} to @returns {number[][]} */
export function visibleParts(side, run, from, to) {
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
 * @param {Painter} painter @param {Mark} mark @param {Band} band @param {SeenSide} seen @param {Run} run @param {Path2D} whole */
function drawBand(painter, mark, band, seen, run, whole) {
  for (const [start, end] of visibleParts(seen.side, run, band.from, band.to)) {
    fillSide(painter, mark.part, mark.colour, seen, start, end, band.high, band.low);
    const edges = strip(seen, start, end, band.high, band.low);
    painter.edge(edges, deeper(mark.colour, 2.4), levelAt(painter, seen, (start + end) / 2), 0.9);
    whole.addPath(edges);
  }
}

/** @param {Painter} painter @param {OnTop} onTop @param {Body} body @param {SeenFrame} frame @param {number} level */
export function drawOnTop(painter, { mark, shapes }, body, frame, level) {
  const { scale } = frame.camera;
  /** @param {number} x @param {number} y */
  const height = (x, y) => body.top + body.slope[0] * x + body.slope[1] * y;
  const paths = shapes.map((shape) => {
    const path = new Path2D();
    for (const ring of shape) addRing(path, flat(ring, frame, height));
    return path;
  });
  const whole = new Path2D();
  for (const path of paths) whole.addPath(path);
  if (!painter.surfaces.has(mark.part)) painter.surfaces.set(mark.part, ofLevel(frame, body.top));
  // below the fills, so that small letters can still be read
  painter.mark(mark.part, whole, 0, true);
  for (const path of paths) painter.relief(mark.part, path, mark.colour, level, mark.raised * scale * frame.camera.fall);
}
