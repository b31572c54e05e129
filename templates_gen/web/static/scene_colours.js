// Colours in light and shade.

const AMBIENT = 0.72; // what is seen of a face that looks away from the light
const DIRECT = 0.33;
const LEVELS = 160;

/** @type {Map<string, string[]>} */
const shades = new Map();

/** @param {string} colour "#rrggbb" @returns {number[]} */
const channels = (colour) => [1, 3, 5].map((index) => parseInt(colour.slice(index, index + 2), 16));

/** @param {number[]} rgb */
const css = (rgb) => `rgb(${rgb.map((each) => Math.round(Math.min(255, Math.max(0, each)))).join(" ")})`;

/** Shadow takes more of green and blue than of red, so that it looks warm. */
const WARM = [1, 1.1, 1.06];

/**
 * The level of light of a face, a whole number: faces of one level have one colour.
 * @param {number} lit 0 to 1
 */
export const levelOf = (lit) => Math.round((AMBIENT + DIRECT * lit) * LEVELS);

/**
 * A colour at a level of light.
 * @param {string} colour
 * @param {number} level
 */
export function shaded(colour, level) {
  let known = shades.get(colour);
  if (!known) shades.set(colour, (known = []));
  if (!known[level]) {
    const light = level / LEVELS;
    known[level] = css(channels(colour).map((each, index) =>
      light > 1 ? each + (255 - each) * (light - 1) : each * light ** WARM[index]));
  }
  return known[level];
}

/**
 * A deeper colour: pale ones become fuller, where plain black in them would make them grey.
 * @param {string} colour
 * @param {number} power above 1
 */
export const deeper = (colour, power) =>
  hex(channels(colour).map((each) => 255 * (0.97 * each / 255) ** power));

/** @param {number[]} rgb */
const hex = (rgb) => `#${rgb.map((each) => Math.round(each).toString(16).padStart(2, "0")).join("")}`;

/**
 * A colour a share of the way to white, or below 0 to black.
 * @param {string} colour
 * @param {number} share
 */
export function towards(colour, share) {
  const end = share > 0 ? 255 : 0;
  return hex(channels(colour).map((each) => each + (end - each) * Math.abs(share)));
}
