// What is seen of the cake: picture, sizes, warnings, pieces, sheets.

import { byId, draw, el, svg } from "./dom.js";
import { messageOf, nearest } from "./form.js";

const pictures = []; // addresses of sheets to be given back

// Go to the field of a key, and open what it is in.
export function goTo(key) {
  const target = nearest(key);
  for (let owner = target.closest("details"); owner; owner = owner.parentElement.closest("details")) owner.open = true;
  target.focus();
  target.scrollIntoView({ block: "center" });
}

const going = (key) => (event) => {
  event.preventDefault();
  goTo(key);
};

const entry = (key, place, text) =>
  el("li", {}, el("a", { href: "#plan", onclick: going(key) }, place || "the cake"), ` ${text}`);

// Show what must be mended before the cake can be made; nothing where it can.
export function showMend(message, problems) {
  const box = byId("mend");
  box.hidden = !message;
  document.body.classList.toggle("stale", Boolean(message));
  if (!message) return;
  const count = problems.length;
  const title = count ? `${count} ${count === 1 ? "thing" : "things"} to mend` : "This does not work";
  box.replaceChildren(
    el("h3", {}, title),
    count
      ? el("ul", {}, ...problems.map((each) => entry(each.key, each.place, messageOf(each))))
      : el("p", {}, message),
    el("p", { class: "help" }, "Until then, what is pale below is of the cake as it was before."));
}

export function showAnswer(answer, closeUp) {
  showMend("", []);
  const warnings = byId("warnings");
  warnings.hidden = !answer.warnings.length;
  warnings.replaceChildren(el("h3", {}, "Warnings"), el("ul", {}, ...answer.warnings.map((each) => entry(each.key, each.place, each.text))));
  byId("sizes").tBodies[0].replaceChildren(...answer.tiers.toReversed().flatMap((tier) =>
    tier.layers.map((layer, place) => el("tr", {},
      place ? null : el("th", { scope: "rowgroup", rowspan: tier.layers.length }, `${tier.name} (${tier.shape})`),
      el("td", {}, layer.surface), el("td", {}, layer.across), el("td", {}, layer.girth), el("td", {}, layer.depth)))));
  byId("cautions").replaceChildren(...answer.cautions.map((text) => el("li", {}, text)));
  showPieces(answer.pieces, closeUp);
}

const shown = new Map(); // list entries by the digest of the piece they show

export const knownPieces = () => [...shown.keys()];

function showPieces(pieces, closeUp) {
  const entries = pieces.map((piece) => [piece.digest, shown.get(piece.digest) ?? pieceItem(piece, closeUp)]);
  shown.clear();
  for (const [digest, item] of entries) shown.set(digest, item);
  fillList(byId("pieces"), [...shown.values()]);
}

// Make a list hold these entries; those that are in their place stay untouched.
function fillList(list, items) {
  const wanted = new Set(items);
  items.forEach((item, place) => {
    const there = list.children[place];
    if (there === item) return;
    if (there && !wanted.has(there)) there.replaceWith(item);
    else list.insertBefore(item, there ?? null);
  });
  while (list.children.length > items.length) list.lastElementChild.remove();
}

function pieceItem(piece, closeUp) {
  const picture = svg("svg", { class: "drawing", "aria-hidden": "true" });
  draw(picture, piece.drawing);
  const about = el("span", { class: "what" },
    el("b", {}, piece.title), el("span", {}, `${piece.measures}, cut ${piece.copies}`));
  return el("li", { class: piece.printed ? "" : "unprinted" },
    el("button", { type: "button", "data-piece": piece.id, onclick: () => closeUp(piece) }, picture, about));
}

export function showBench(answer) {
  const bench = byId("bench");
  const open = new Set([...bench.querySelectorAll("details[open] > summary")].map((each) => each.textContent));
  bench.replaceChildren(...answer.parts.map((part) => {
    const details = el("details", {}, el("summary", {}, part.title), tableOf(part),
      ...[...part.notes, ...part.assumptions].map((note) => el("p", { class: "help" }, note)));
    details.open = open.has(part.title);
    return details;
  }));
}

const tableOf = (part) =>
  el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": part.title },
    el("table", {},
      el("thead", {}, el("tr", {}, ...part.columns.map((name) => el(name ? "th" : "td", name ? { scope: "col" } : {}, name)))),
      el("tbody", {}, ...part.rows.map((row) => el("tr", {}, ...row.map((cell) => el("td", {}, cell)))))));

export function showSheets(answer, look) {
  for (const address of pictures.splice(0)) URL.revokeObjectURL(address);
  byId("count").textContent = `${answer.count} ${answer.count === 1 ? "sheet" : "sheets"} of ${answer.paper}.`;
  byId("sheets").replaceChildren(...answer.sheets.map((text, place) => {
    const address = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
    pictures.push(address);
    const name = `Sheet ${place + 1} of ${answer.count}`;
    return el("li", {}, el("button", { type: "button", onclick: () => look(name, address) },
      el("img", { src: address, alt: name, loading: "lazy" }), el("span", { "aria-hidden": "true" }, String(place + 1))));
  }));
}

export function noSheets(message) {
  byId("count").textContent = message;
  byId("sheets").replaceChildren();
}
