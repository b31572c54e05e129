// Small pictures of what can be chosen, drawn by the program: fetched once, filled in when they come.

import { draw, svg } from "./dom.js";
import { description } from "./model.js";
import { ask } from "./server.js";

/** @type {Promise<Record<string, any>> | null} */
let loading = null;

/** @returns {Promise<Record<string, any>>} */
const all = () => (loading ??= ask("choices", {}).then((response) => response.json()).catch(() => {
  loading = null; // the words are enough meanwhile
  return {};
}));

/** Return a picture that says nothing to a screen reader: the word beside it does. @param {string} name */
export function picture(name) {
  const element = svg("svg", { class: "drawing small", "aria-hidden": "true", viewBox: "0 0 100 66" });
  all().then((found) => {
    if (found[name]) draw(element, found[name]);
  });
  return element;
}

/** The example of a word of a field, if there is one. @param {string} table @param {string} key @param {string} word */
export const exampleWith = (table, key, word) =>
  description.choices.find((each) => each.table === table && each.values.in[key] === word);

/** The name of the picture of a word, or null where it has none. @param {string} table @param {string} key @param {string} word */
export function pictureOf(table, key, word) {
  if (table === "tier" && key === "shape") return `shape/${word}`;
  const drawn = { drips: "pattern", design: "kind", scatter: "shape", topper: "shape", cascade: "shape", flower: "kind" };
  if (/** @type {Record<string, string>} */ (drawn)[table] !== key) return null;
  if (word === "artwork") return word; // a file of one's own is no example
  const choice = exampleWith(table, key, word);
  return choice ? `${table}/${choice.name}` : null;
}
