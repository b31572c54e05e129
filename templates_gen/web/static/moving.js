// What is dragged on the picture, written into the cake: each value where its field shows it, in the
// unit of the cake.

import { change, current } from "./store.js";

/** @typedef {import("./scene_move.js").Change} Change */

/** @type {Record<string, number>} */
const MM = { in: 25.4, cm: 10, mm: 1 };
/** @type {Record<string, number>} */
const FINE = { in: 2, cm: 2, mm: 1 }; // decimals

/** A length as one writes it. @param {number} mm */
function lengthOf(mm) {
  const word = current().cake.unit;
  const unit = word === "in" || word === "cm" ? word : "mm";
  return `${Number((mm / MM[unit]).toFixed(FINE[unit]))} ${unit}`;
}

/**
 * Follow a drag: one step to undo for each part that is moved.
 * @param {string} part
 * @param {Change[]} changes
 */
export function follow(part, changes) {
  change((doc) => {
    for (const { key, value, unit } of changes) {
      let owner = doc.cake;
      for (const name of key.slice(0, -1)) owner = owner[name] ??= {};
      owner[key[key.length - 1]] = unit === "degrees" ? value : lengthOf(value);
    }
  }, { group: `move ${part}` });
}
