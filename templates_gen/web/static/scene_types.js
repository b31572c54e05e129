// What a scene is made of, as the server sends it (job "scene"). Lengths in mm. A body stands in its
// own frame: x to the right, y to the back, z up from its foot.

/**
 * @typedef {object} Move A value of the cake file, at a key after that of its part.
 * @property {string[]} key
 * @property {"along" | "down" | "up" | "turn" | "right" | "back"} way
 * @property {number} value mm or degrees
 */
/**
 * @typedef {object} Look What may be picked: a part, its name and size in words, its colour.
 * @property {string} part keys of the cake file: "drum", "tier.1", "tier.1.drips", "topper.0"
 * @property {string} name
 * @property {string} size
 * @property {string} colour "#rrggbb"
 * @property {Move[]} moves values that follow where it is dragged
 */
/**
 * @typedef {object} Repeated One shape about 0, 0 that lies at many places.
 * @property {number[][]} shape
 * @property {number[]} places x, y and degrees of turn of each, from x to y
 */
/**
 * @typedef {object} MarkData On a side in (u, v), on a top in x and y; points as flat rows.
 * @property {number[][][]} shapes contours that are filled together
 * @property {Repeated[]} repeated filled too
 * @property {number[][]} lines
 * @property {number[]} bands u0, v0, u1, v1 of each box
 * @property {number} width of the lines
 * @property {number} raised how far it stands out
 */
/** @typedef {Look & MarkData} Mark */
/** @typedef {Look & {front: number[], back: number[]}} Hole */
/**
 * @typedef {object} BodyData
 * @property {[number, number, number, number]} at to the right, to the back, up; degrees of turn
 * @property {number} girth
 * @property {number[]} columns u, depth, rim x y z, foot x y z of each
 * @property {number} top height of the top over the middle
 * @property {[number, number]} slope
 * @property {[number, number, number] | null} sphere radius, height of the middle, radius of the foot
 * @property {Mark[]} side
 * @property {Mark[]} above
 * @property {Hole | null} hole
 * @property {number[]} board x and y round the board under it
 * @property {number} thick of that board
 * @property {string} digest of all but where it is
 */
/** @typedef {Look & BodyData} Body */
/**
 * @typedef {object} StandingData A flat thing that stands upright, facing the front.
 * @property {[number, number, number, number]} at
 * @property {number[][][]} shapes x and y up
 * @property {number} thickness
 * @property {number[]} sticks x and height of each
 */
/** @typedef {Look & StandingData} Standing */
/**
 * @typedef {object} LyingData Upright walls and a level top.
 * @property {[number, number, number, number]} at
 * @property {number[][][]} shapes x and y of its plan, holes turning the other way
 * @property {number} tall
 */
/** @typedef {Look & LyingData} Lying */
/**
 * @typedef {object} Scene
 * @property {number} height of the cake above its drum
 * @property {number} reach of the whole about its middle
 * @property {number} middle how far that is behind the middle of the drum
 * @property {boolean} coarse whether something is left out
 * @property {Body[]} bodies from the drum up
 * @property {Standing[]} standing
 * @property {Lying[]} lying boards before the drum, then what is on them
 */
/** @typedef {{digest: string, at: [number, number, number, number]}} KnownBody one that the page has */
/** @typedef {Omit<Scene, "bodies"> & {bodies: (Body | KnownBody)[]}} SentScene */

export {};
