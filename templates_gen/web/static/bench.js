// The lists to work by, the sizes of the tiers and the templates, as words and tables.

import { byId, draw, el, svg } from "./dom.js";
import { sentence } from "./model.js";

/** @typedef {{title: string, columns: string[], rows: string[][], notes: string[], assumptions: string[], folded: boolean}} Part */
/** @typedef {{name: string, steps: {hour: string, what: string, caution: string}[]}} Day */
/** @typedef {{bench: Part[], shopping: Part[], portions: Part[], days: Day[], notes: string[]}} Lists */

const NONE = { bench: [], shopping: [], portions: [], days: [], notes: [] };
/** @type {Record<string, string>} */
const CALLED = { bench: "Bench list", days: "Plan by day", shopping: "Shopping list", portions: "Portions" };
let listed = "bench";
let titled = "";

/** @param {string} title @param {Lists} lists */
export function showLists(title = "", lists = NONE) {
  titled = title;
  for (const [id, folded] of /** @type {const} */ ([["bench", false], ["assumptions", true]])) {
    byId(id).replaceChildren(...lists.bench.filter((part) => part.folded === folded).map(partOf));
  }
  byId("list-days").replaceChildren(...lists.notes.map((note) => el("p", { class: "warnings" }, note)), ...lists.days.map(dayOf));
  byId("list-shopping").replaceChildren(...lists.shopping.map(partOf));
  byId("list-portions").replaceChildren(...(lists.portions.length ? lists.portions.map(partOf) : [el("p", {}, "No tier of this cake is eaten.")]));
  showList(listed);
}

/** Show one list, which is then what is printed. @param {string} name */
export function showList(name) {
  listed = name;
  for (const each of Object.keys(CALLED)) byId(`list-${each}`).hidden = each !== name;
  for (const each of document.querySelectorAll("[data-list]")) {
    each.setAttribute("aria-pressed", String(/** @type {HTMLElement} */ (each).dataset.list === name));
  }
  for (const each of document.querySelectorAll("[data-with]")) /** @type {HTMLElement} */ (each).hidden = /** @type {HTMLElement} */ (each).dataset.with !== name;
  byId("list-title").textContent = `${titled}: ${CALLED[name].toLowerCase()}`;
}

/** A part under its title; what is long and seldom read is folded away on screen, and there on paper. @param {Part} part */
function partOf(part) {
  const inside = [tableOf(part), ...[...part.notes, ...part.assumptions].map((note) => el("p", { class: "help" }, note))];
  return el("section", { class: "part" }, ...(part.folded
    ? [el("details", {}, el("summary", {}, el("h3", {}, part.title)), ...inside)]
    : [el("h3", {}, part.title), ...inside]));
}

/** @type {HTMLDetailsElement[]} */
let unfolded = []; // for paper
addEventListener("beforeprint", () => {
  unfolded = [...document.querySelectorAll(".part details:not([open])")].map((each) => /** @type {HTMLDetailsElement} */ (each));
  for (const each of unfolded) each.open = true;
});
addEventListener("afterprint", () => {
  for (const each of unfolded) each.open = false;
});

/** A day with a box to tick for each step, on paper. @param {Day} day */
const dayOf = (day) => el("section", { class: "day" }, el("h3", {}, day.name), el("ul", {}, ...day.steps.map((step) =>
  el("li", {}, el("span", { class: "box", "aria-hidden": "true" }), el("span", {}, step.hour ? el("b", {}, step.hour) : null, step.hour ? " " : null,
    ...unbroken(step.what), step.caution ? el("em", {}, ` ${step.caution}`) : null)))));

const AMOUNT = /(\(?(?:\d+ )?[\d.,:/¼½¾⅛⅜⅝⅞]+ (?:[ap]m|mm|cm|m|in|kg|g|lb|oz|mL|tsp|h|min)(?![\p{L}\d])\)?)/u;
/** A text in which no line ends within an amount, such as “21 15/16 in” or “(558 mm)”. @param {string} text */
const unbroken = (text) => text.split(AMOUNT).map((part, index) => (index % 2 ? el("span", { class: "amount" }, part) : part));

const tableOf = (/** @type {any} */ part) =>
  el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": part.title },
    el("table", {},
      el("thead", {}, el("tr", {}, ...part.columns.map((/** @type {string} */ name) => el(name ? "th" : "td", name ? { scope: "col" } : {}, name)))),
      el("tbody", {}, ...part.rows.map((/** @type {string[]} */ row) => el("tr", {}, ...row.map((cell) => el("td", {}, ...unbroken(cell))))))));

/** @param {any[]} tiers */
export function showSizes(tiers) {
  byId("sizes").tBodies[0].replaceChildren(...tiers.toReversed().flatMap((tier) =>
    tier.layers.map((/** @type {any} */ layer, /** @type {number} */ index) => el("tr", {},
      index ? null : el("th", { scope: "rowgroup", rowspan: tier.layers.length }, `${tier.name} (${tier.shape})`),
      el("td", {}, layer.surface), el("td", {}, layer.across), el("td", {}, layer.girth), el("td", {}, layer.depth)))));
}

/** @param {string[]} cautions */
export function showCautions(cautions) {
  byId("cautions").replaceChildren(...cautions.map((text) => el("li", {}, text)));
}

/** @type {Map<string, HTMLElement>} */
const itemOf = new Map(); // list entries by the digest of the piece they show

export const knownPieces = () => [...itemOf.keys()];

/** @param {any[]} pieces @param {(piece: any) => void} closeUp */
export function showPieces(pieces, closeUp) {
  const entries = pieces.map((piece) => /** @type {[string, HTMLElement]} */ ([piece.digest, itemOf.get(piece.digest) ?? pieceItem(piece, closeUp)]));
  itemOf.clear();
  for (const [digest, item] of entries) itemOf.set(digest, item);
  fillList(byId("pieces"), [...itemOf.values()]);
}

/** Make a list hold these entries; those that are in their place stay untouched. @param {HTMLElement} list @param {HTMLElement[]} items */
function fillList(list, items) {
  const wanted = new Set(items);
  items.forEach((item, index) => {
    const there = list.children[index];
    if (there === item) return;
    if (there && !wanted.has(/** @type {HTMLElement} */ (there))) there.replaceWith(item);
    else list.insertBefore(item, there ?? null);
  });
  while (list.children.length > items.length) list.lastElementChild?.remove();
}

/** @param {any} piece @param {(piece: any) => void} closeUp */
function pieceItem(piece, closeUp) {
  const picture = svg("svg", { class: "drawing", "aria-hidden": "true" });
  draw(picture, piece.drawing);
  const about = el("span", { class: "what" },
    el("b", {}, sentence(piece.title)), el("span", {}, `${piece.measures}, cut ${piece.copies}`));
  return el("li", { class: piece.printed ? "" : "unprinted" },
    el("button", { type: "button", "data-piece": piece.id, onclick: () => closeUp(piece) }, picture, about));
}
