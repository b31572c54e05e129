// Moving a part over the surface it lies on: what of the cake file follows, and by how much.

/** @typedef {import("./scene_types.js").Look} Look */
/** @typedef {{along: number, down: number, up: number, turn: number, right: number, back: number}} Spot
 *   mm round and down a side, and above its foot; degrees round it; mm in plan */
/** @typedef {(x: number, y: number) => Spot | null} Surface the spot that is seen at a place, px */
/** @typedef {{key: (string | number)[], value: number, unit: "mm" | "degrees"}} Change */

/**
 * The values of the cake file that follow a move from one spot to another.
 * @param {Look} look
 * @param {Spot} from
 * @param {Spot} to
 * @returns {Change[]}
 */
export function changes(look, from, to) {
  const part = keyOf(look.part);
  return look.moves.map(({ key, way, value }) => {
    const moved = value + to[way] - from[way];
    const unit = way === "turn" ? "degrees" : "mm";
    return { key: [...part, ...key], value: unit === "mm" ? Math.round(moved * 10) / 10 : Math.round(moved), unit };
  });
}

/** The key of the cake file that a part names. @param {string} part */
export const keyOf = (part) => part.split(".").map((name) => (/^\d+$/.test(name) ? Number(name) : name));

/**
 * The surface of a side: also beside it, where it goes on from its edge.
 * @param {import("./scene_side.js").SeenSide} seen
 * @returns {Surface}
 */
export const ofSide = (seen) => (x, y) => {
  const found = seen.placeAt(x, y);
  if (!found) return null;
  const { side } = seen;
  const { u, v, depth } = found;
  return { along: u, down: v, up: depth - v, turn: (u / side.girth) * 360, right: 0, back: 0 };
};

/**
 * A level surface at a height in a frame, in the axes of that.
 * @param {import("./scene_camera.js").SeenFrame} frame
 * @param {number} height
 * @returns {Surface}
 */
export const ofLevel = (frame, height) => (x, y) => {
  const { x: right, y: back } = frame.onLevel(x, y, height);
  return { along: 0, down: 0, up: 0, turn: 0, right, back };
};
