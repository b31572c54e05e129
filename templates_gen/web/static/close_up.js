// A template close up: its drawing, what to do with it, its files, and last its figures, which may
// be many.

import { byId, draw, el, svg } from "./dom.js";
import { sentence } from "./model.js";
import { inWords } from "./problems.js";
import { ask, keep } from "./server.js";
import { current } from "./store.js";

const dialog = /** @type {HTMLDialogElement} */ (byId("close-up"));
const stage = /** @type {Element} */ (dialog.querySelector(".stage"));
const about = /** @type {Element} */ (dialog.querySelector(".about"));

/** @param {any} piece */
export function closeUp(piece) {
  const picture = svg("svg", { class: "drawing", role: "img", "aria-label": piece.title });
  draw(picture, piece.drawing, true);
  byId("close-up-title").textContent = sentence(piece.title);
  stage.replaceChildren(picture);
  about.replaceChildren(
    el("p", {}, `${piece.use} Cut ${piece.copies}. ${piece.measures}.`),
    ...(piece.printed ? files(piece) : [el("p", { class: "help" }, "No template: draw it with the circle guide and these figures.")]),
    el("dl", {}, ...piece.values.flatMap((/** @type {[string, string]} */ [name, text]) => [el("dt", {}, name), el("dd", {}, text)])));
  byId("zoom").value = 100;
  zoomed();
  dialog.showModal();
}

/** Its files, and how it went with them: the line of the page is behind this dialog. @param {any} piece */
function files(piece) {
  const status = el("p", { class: "help", role: "status" });
  const save = (/** @type {string} */ form, /** @type {string} */ words) => el("button", { type: "button", onclick: async () => {
    status.textContent = "Making the template…";
    const { cake, files: own } = current();
    try {
      await keep(await ask("piece", { cake, files: own }, { id: piece.id, form }));
      status.textContent = `${sentence(piece.title)} is saved.`;
    } catch (error) {
      status.textContent = sentence(inWords(error));
    }
  } }, words);
  return [el("div", { class: "buttons" }, save("pdf", "This template as PDF"), save("svg", "As SVG"), save("dxf", "As DXF, for a cutting machine")), status];
}

function zoomed() {
  stage.firstElementChild?.setAttribute("width", `${byId("zoom").value}%`);
}
byId("zoom").addEventListener("input", zoomed);
