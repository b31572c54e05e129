// Templates for a class: a list of people in, the table of their pages out, one PDF to print, and
// everything as a ZIP.

import { byId, el } from "./dom.js";
import { sentence } from "./model.js";
import { working } from "./print.js";
import { inWords, messageOf } from "./problems.js";
import { ask, keep, saveAs } from "./server.js";
import { say } from "./status.js";
import { current } from "./store.js";

const LARGEST = 500000; // bytes of a list

/** @typedef {{row: number, name: string, pages: string[], warnings: string[]}} Person */
/** @typedef {{name: string, pages: string, pdf: string}} Print all pages on one paper */
/** @typedef {{people: Person[], problems: any[], note: string, name: string, zip: string, prints: Print[]}} Answer */

export function showClass() {
  byId("class-problem").textContent = "";
  byId("class-answer").replaceChildren();
  byId("class-file").value = "";
  offerColumns();
  /** @type {HTMLDialogElement} */ (byId("class")).showModal();
}

/** Offer a column for each thing that is on the cake. */
async function offerColumns() {
  byId("class-columns").replaceChildren();
  byId("class-texts").replaceChildren();
  try {
    const { columns, texts } = await (await ask("class-columns", { cake: current().cake, files: current().files })).json();
    byId("class-columns").replaceChildren(...columns.map((/** @type {{heading: string, label: string}} */ each) =>
      el("label", { class: "tick" }, el("input", { type: "checkbox", value: each.heading }), each.label)));
    byId("class-texts").replaceChildren(...texts.map((/** @type {{heading: string, value: string}} */ each) =>
      el("label", { class: "tick" }, el("input", { type: "checkbox", value: each.heading }), `On the cake too, in place of “${each.value}”`)));
  } catch (error) {
    byId("class-problem").textContent = inWords(error);
  }
}

/** The headings that are ticked. @param {string} id */
const ticked = (id) => [...byId(id).querySelectorAll("input:checked")].map((each) => /** @type {HTMLInputElement} */ (each).value);

/** The list to fill in, with the columns that are ticked. */
const fetchList = () => working("Making the list…", "The list is saved. Fill it in, and choose it below.", async (signal) => {
  const { cake, files } = current();
  await keep(await ask("class-list", { cake, files, columns: ticked("class-columns"), names: byId("class-names").value }, {}, signal));
}, byId("class-working"));

/** @param {File | undefined} file */
async function read(file) {
  if (!file) return;
  if (file.size > LARGEST) {
    byId("class-problem").textContent = `“${file.name}” is larger than ${LARGEST / 1000} kB. A list of people is not: choose the CSV file.`;
    return;
  }
  let binary = "";
  for (const byte of new Uint8Array(await file.arrayBuffer())) binary += String.fromCharCode(byte);
  await make({ list: btoa(binary), name: file.name });
}

/** @param {{list: string, name: string} | {names: string, written: string[]}} people */
async function make(people) {
  byId("class-answer").replaceChildren();
  byId("class-problem").textContent = "";
  const { cake, files } = current();
  await working("Making the pages of the class…", "The pages of the class are made.", async (signal) => {
    try {
      const answer = await (await ask("class", { cake, files, ...people }, {}, signal)).json();
      show(answer);
      return answer.problems.length ? "Some rows have errors: see below." : "";
    } catch (error) {
      if (!signal.aborted) byId("class-problem").textContent = sentence(inWords(error));
      throw error;
    }
  }, byId("class-working"));
}

/** @param {Answer} answer */
function show({ people, problems, note, name, zip, prints }) {
  const parts = note ? [el("ul", { class: "warnings" }, el("li", {}, note))] : [];
  if (problems.length) {
    parts.push(el("h3", {}, "Things to fix in the list"), el("ul", { class: "mend" }, ...problems.map((each) =>
      el("li", {}, el("b", {}, each.place), ` ${messageOf(each)}`))));
  }
  if (people.length) parts.push(table(people), ...downloads(people, problems, name, zip, prints));
  byId("class-answer").replaceChildren(...parts);
  byId("class-answer").scrollIntoView({ block: "nearest" });
}

/** @param {Person[]} people */
const table = (people) => el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": "People and their pages" }, el("table", {},
  el("thead", {}, el("tr", {}, ...["Name", "Pages", "Please check"].map((word) => el("th", { scope: "col" }, word)))),
  el("tbody", {}, ...people.map((each) => el("tr", {}, el("th", { scope: "row" }, each.name), el("td", {}, each.pages.join(", ")),
    el("td", { class: "long" }, each.warnings.join(" ")))))));

/** @param {Person[]} people @param {any[]} problems @param {string} name @param {string} zip @param {Print[]} prints */
function downloads(people, problems, name, zip, prints) {
  const some = problems.length ? ` for ${people.length === 1 ? "the one" : `the ${people.length}`} without errors` : "";
  const button = (/** @type {object} */ about, /** @type {string} */ words, /** @type {() => void} */ onclick) => el("button", { type: "button", ...about, onclick }, words);
  return [
    el("div", { class: "buttons" },
      ...prints.map((each) => button({ class: some ? "class-print" : "main class-print" }, `Download one PDF to print${some}: ${each.pages}`, () => {
        save(each.pdf, "application/pdf", each.name);
        say("The PDF is saved. Print it at 100 %, and measure the bars first.");
      })),
      button({ id: "class-download" }, `Download a folder for each (ZIP)${some}`, () => {
        save(zip, "application/zip", name);
        say("The ZIP is saved.");
      })),
    el("p", { class: "help" }, "The PDF has everybody’s pages one after another, each with their name. The ZIP has them apart, with a register and a shopping list for the class."),
  ];
}

/** @param {string} content as base64 @param {string} type @param {string} name */
function save(content, type, name) {
  saveAs(new Blob([Uint8Array.from(atob(content), (char) => char.charCodeAt(0))], { type }), name);
}

byId("class-list").addEventListener("click", fetchList);
byId("class-make").addEventListener("click", () => make({ names: byId("class-names").value, written: ticked("class-texts") }));
byId("class-file").addEventListener("click", () => { // a list that was mended is chosen again under its name
  byId("class-file").value = "";
});
byId("class-file").addEventListener("change", () => read(byId("class-file").files[0]));
byId("class-drop").addEventListener("dragover", (/** @type {DragEvent} */ event) => event.preventDefault());
byId("class-drop").addEventListener("drop", (/** @type {DragEvent} */ event) => {
  event.preventDefault();
  read(event.dataTransfer?.files[0]);
});
