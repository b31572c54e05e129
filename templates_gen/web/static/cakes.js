// My cakes: those that this browser keeps, each to open, copy or delete.

import { byId, el } from "./dom.js";
import { textOf } from "./model.js";
import { kept, openKept, openNew, removeKept } from "./session.js";
import { say } from "./status.js";
import { current } from "./store.js";

/** @typedef {import("./documents.js").CakeRecord} CakeRecord */

const dialog = () => /** @type {HTMLDialogElement} */ (byId("cakes"));

export async function showCakes() {
  await list();
  dialog().showModal();
}

async function list() {
  const records = await kept();
  byId("cakes-list").replaceChildren(...records.map(entry));
  byId("no-cakes").hidden = records.length > 0;
}

/** What tells cakes of one name apart: the sizes of the tiers, from the bottom up. @param {any} cake */
const sizesOf = (cake) => (Array.isArray(cake.tier) ? cake.tier : [])
  .map((/** @type {any} */ tier) => [tier?.size, tier?.depth].map(textOf).filter(Boolean).join(" × ")).filter(Boolean).join(", ");

/** @param {number} time ms */
const dayAndTime = (time) => new Date(time).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });

/** @param {CakeRecord} record */
function entry(record) {
  const isHere = record.id === current().id;
  const button = (/** @type {string} */ word, /** @type {(event: Event) => void} */ onclick, disabled = false) =>
    el("button", { type: "button", "aria-label": `${word}: ${record.title}`, onclick, disabled }, word);
  return el("li", {},
    el("span", { class: "what" }, el("b", {}, record.title),
      el("span", {}, sizesOf(record.cake)),
      el("span", {}, isHere ? "open now" : `changed ${dayAndTime(record.changed)}`)),
    el("span", { class: "buttons" },
      button("Open", () => opened(record), isHere),
      button("Duplicate", () => duplicate(record)),
      button("Delete", (event) => remove(record, /** @type {HTMLButtonElement} */ (event.currentTarget)), isHere)));
}

/** @param {CakeRecord} record */
async function opened(record) {
  dialog().close();
  await openKept(record.id);
  say(`“${record.title}” is open.`);
}

/** @param {CakeRecord} record */
async function duplicate({ cake, opened: text, files, title }) {
  dialog().close();
  await openNew({ cake: { ...cake, title: `${title} copy` }, opened: text, files });
  say(`A copy of “${title}” is open as a new cake.`);
}

/** Delete on the second press. @param {CakeRecord} record @param {HTMLButtonElement} button */
async function remove(record, button) {
  if (!button.dataset.sure) {
    button.dataset.sure = "yes";
    button.textContent = "Delete for good";
    button.setAttribute("aria-label", `Delete for good: ${record.title}`);
    say(`Press again to delete “${record.title}” for good.`);
    return;
  }
  await removeKept(record.id);
  say(`“${record.title}” is deleted.`);
  await list();
  byId("cakes-close").focus();
  say(`“${record.title}” is deleted.`);
}
