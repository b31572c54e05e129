// What is always in view: pages, fondant, portions, height, and how much is wrong or doubtful.

import { byId, el } from "./dom.js";
import { counts, firstProblem } from "./problems.js";
import { announce } from "./status.js";

/** @type {{pages: string, fondant: string, portions: string, height: string}} */
const now = { pages: "", fondant: "", portions: "", height: "" };
/** @type {{print: () => void, bench: () => void, list: () => void}} */
let acts = { print: () => {}, bench: () => {}, list: () => {} };

/** @param {typeof acts} found */
export function onFigures(found) {
  acts = found;
}

/** @param {Partial<typeof now>} found */
export function setFigures(found) {
  Object.assign(now, found);
  showFigures();
}

/** @param {number} count @param {string} one @param {string} many */
const counted = (count, one, many) => `${count} ${count === 1 ? one : many}`;

export function showFigures() {
  const { problems, warnings } = counts();
  const button = (/** @type {string} */ id, /** @type {string} */ name, /** @type {string} */ value, /** @type {() => void} */ onclick) => (value
    ? el("button", { type: "button", id, onclick }, el("span", {}, name), " ", el("b", {}, value)) : null);
  const parts = [
    problems ? el("button", { type: "button", id: "figure-problems", class: "bad", onclick: acts.list }, counted(problems, "thing to fix", "things to fix")) : null,
    warnings ? el("button", { type: "button", id: "figure-warnings", class: "doubtful", onclick: acts.list }, counted(warnings, "thing to check", "things to check")) : null,
    button("figure-pages", "Pages", now.pages, acts.print),
    button("figure-fondant", "Fondant", now.fondant, acts.bench),
    button("figure-portions", "Portions", now.portions, acts.bench),
    button("figure-height", "Height", now.height, acts.bench),
  ];
  const focused = document.activeElement?.id;
  byId("figures").replaceChildren(...parts.filter((each) => each !== null));
  if (focused?.startsWith("figure-")) byId(focused)?.focus();
  byId("bar-pages").textContent = now.pages ? counted(Number(now.pages), "page", "pages") : "Pages";
  announce(inShort(problems, warnings));
}

/** What is in view, for those who do not see it. @param {number} problems @param {number} warnings */
function inShort(problems, warnings) {
  if (problems) return `${counted(problems, "thing to fix", "things to fix")}. ${firstProblem()}`;
  return [
    warnings && counted(warnings, "thing to check", "things to check"),
    now.pages && counted(Number(now.pages), "page", "pages"),
    now.fondant && `fondant ${now.fondant}`,
    now.portions && `portions ${now.portions}`,
    now.height && `height ${now.height}`,
  ].filter(Boolean).join(", ");
}
