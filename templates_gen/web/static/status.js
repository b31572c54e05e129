// One line says how things stand: what lasts (not kept, no server, open elsewhere), and the last
// thing that happened.

import { byId, el } from "./dom.js";

/** @typedef {{text: string, action?: string, act?: () => void}} Condition */

/** @type {Map<string, Condition>} */
const standing = new Map();
/** @type {string} */
let happened = "";
/** @type {ReturnType<typeof setTimeout>} */
let until;
const LONG_ENOUGH = 20_000; // ms to read the longest of these lines, twice

function show() {
  byId("standing").replaceChildren(...[...standing.values()].map(({ text }) => el("span", {}, text)));
  byId("standing").hidden = !standing.size;
  byId("remedies").replaceChildren(...[...standing.values()].filter(({ act }) => act).map(({ action, act }) =>
    el("button", { type: "button", onclick: act }, action)));
  byId("said").textContent = happened.replaceAll(" %", "\u00a0%");
}

/** Say what lasts until it is cleared. @param {string} name @param {Condition} condition */
export function stand(name, condition) {
  if (standing.get(name)?.text === condition.text) return;
  standing.set(name, condition);
  show();
}

/** @param {string} name */
export function clear(name) {
  if (standing.delete(name)) show();
}

/** Announce what has changed elsewhere in view; nothing where it is as before. @param {string} text */
export function announce(text) {
  const place = byId("announced");
  if (place.textContent !== text) place.textContent = text;
}

/** Say what has just happened, for a while. @param {string} text */
export function say(text) {
  happened = text;
  show();
  clearTimeout(until);
  if (text) until = setTimeout(() => say(""), LONG_ENOUGH);
}
