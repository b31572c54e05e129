// What is wrong or doubtful: said at its field, counted in view of the picture, listed in the panel.

import { byId, el } from "./dom.js";
import { at, idOf, sentence } from "./model.js";
import { change } from "./store.js";

/**
 * @typedef {import("./model.js").Path} Path
 * @typedef {{key: Path, place: string, found: string, allowed: string, advice: string, keys: Record<string, string>}} Problem
 * @typedef {{key: Path, place: string, text: string}} Warning
 */

/** @type {{message: string, problems: Problem[], warnings: Warning[]}} */
const now = { message: "", problems: [], warnings: [] };

/** @param {string} message @param {Problem[]} problems */
export function setProblems(message, problems) {
  now.message = message;
  now.problems = problems;
}

/** @param {Warning[]} warnings */
export function setWarnings(warnings) {
  now.message = "";
  now.problems = [];
  now.warnings = warnings;
}

export const counts = () => ({
  problems: now.problems.length || (now.message ? 1 : 0),
  warnings: now.problems.length ? 0 : now.warnings.length,
});

/** @param {Problem} problem */
const isUnknown = (problem) => Object.keys(problem.keys ?? {}).length > 0;

/** @param {string} text */
const ended = (text) => (/[.?!…]$/.test(text) ? text : `${text}.`);

/** @param {Problem} problem */
export function messageOf(problem) {
  if (isUnknown(problem)) return `This name is not known here. ${ended(sentence(problem.advice))}`;
  return [sentence(problem.found), `Accepted: ${problem.allowed}`, sentence(problem.advice)].map(ended).join(" ");
}

/** What went wrong, in the words of the page. @param {Error & {problems?: Problem[]}} error */
export const inWords = (error) => (error.problems?.length
  ? error.problems.map((each) => `${each.place}: ${messageOf(each)}`).join(" ") : error.message);

/** The first thing to fix, with its place. */
export const firstProblem = () => (now.problems.length ? `${now.problems[0].place}: ${messageOf(now.problems[0])}` : now.message);

/** Show each problem at its field, where that is in view. */
export function showAtFields() {
  for (const element of document.querySelectorAll(".problem")) element.textContent = "";
  for (const element of document.querySelectorAll("[aria-invalid]")) element.removeAttribute("aria-invalid");
  for (const problem of now.problems) {
    let path = problem.key;
    while (path.length && !byId(`${idOf(path)}-problem`)) path = path.slice(0, -1);
    const place = byId(`${idOf(path)}-problem`);
    if (!place || isUnknown(problem)) continue;
    place.append(el("span", {}, messageOf(problem)));
    if (byId(idOf(path))?.matches("input, select")) byId(idOf(path)).setAttribute("aria-invalid", "true");
    for (let owner = place.closest("details"); owner; owner = owner.parentElement?.closest("details") ?? null) owner.open = true;
  }
  const typed = byId(`${document.activeElement?.id}-problem`);
  if (typed?.textContent) typed.scrollIntoView({ block: "nearest" });
}

/** The list of all of them. @param {(path: Path) => void} open */
export function problemList(open) {
  const link = (/** @type {Path} */ key, /** @type {string} */ place) =>
    el("button", { type: "button", class: "link", onclick: () => open(key) }, place);
  const parts = [];
  if (now.message && !now.problems.length) parts.push(el("p", { class: "mend" }, now.message));
  if (now.problems.length) {
    parts.push(el("h3", {}, "Things to fix"), el("ul", { class: "mend" }, ...now.problems.map((each) =>
      el("li", {}, isUnknown(each) ? el("b", {}, each.place) : link(each.key, each.place), " ", el("span", {}, messageOf(each)), isUnknown(each) ? repair(each) : null))),
    el("p", { class: "help" }, document.body.dataset.picture === "yes"
      ? "Until they are fixed, the picture shows your last working version." : "The picture appears once they are fixed."));
  } else if (now.warnings.length) {
    parts.push(el("h3", {}, "Please check"), el("ul", { class: "warnings" }, ...now.warnings.map((each) =>
      el("li", {}, link(each.key, each.place), " ", el("span", {}, each.text)))));
  }
  return parts.length ? parts : [el("p", {}, "Nothing to fix, nothing to check.")];
}

/** Remove or rename a key that an opened file has and a cake has not. @param {Problem} problem */
function repair(problem) {
  const { key } = problem;
  const last = key[key.length - 1];
  const owner = key.slice(0, -1);
  const meant = /“([^”]+)”/.exec(problem.advice)?.[1];
  const free = Object.entries(problem.keys).filter(([name]) => !(name in (at(owner) ?? {})));
  const select = el("select", { "aria-label": `New name of “${last}”` },
    ...free.map(([name, label]) => el("option", { value: name, selected: name === meant || label === meant }, label)));
  const edit = (/** @type {(table: any) => void} */ action) => () => change((doc) => action(at(owner, doc.cake)));
  return el("div", { class: "buttons" },
    el("div", { class: "rename" }, el("label", {}, "It means ", select), el("button", { type: "button", onclick: edit((table) => {
      table[select.value] = table[last];
      delete table[last];
    }) }, "Rename")),
    el("button", { type: "button", onclick: edit((table) => { delete table[last]; }) }, `Remove “${last}”`));
}
