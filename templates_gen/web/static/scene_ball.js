// A ball, or what is left of one above a flat foot.

import { hull } from "./scene_clip.js";
import { levelOf, towards } from "./scene_colours.js";
import { circle, closed } from "./scene_paths.js";

/** @typedef {import("./scene_painter.js").Painter} Painter */
/** @typedef {import("./scene_types.js").Body} Body */
/** @typedef {import("./scene_camera.js").SeenFrame} SeenFrame */

/** Draw a ball, and return its outline.
 * @param {Painter} painter @param {Body} body @param {SeenFrame} frame */
export function ball(painter, body, frame) {
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
    painter.fillWith(body.part, path, light);
  }
  painter.outline(path);
  painter.mark(body.part, path);
  return path;
}
