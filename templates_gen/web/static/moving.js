// What is dragged on the picture, written into the cake: each value where its field shows it, in the
// unit of the cake.

import { description } from "./model.js";
import { change, current } from "./store.js";

/** @typedef {import("./scene_move.js").Change} Change */

/** A length as one writes it. @param {number} mm */
function lengthOf(mm) {
  const unit = current().cake.unit in description.units ? current().cake.unit : "mm";
  const { mm: one, decimals } = description.units[unit];
  return `${Number((mm / one).toFixed(decimals))} ${unit}`;
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
