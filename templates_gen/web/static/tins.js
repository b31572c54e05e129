// The same design on other tins: a new cake beside the others, and what of it has changed.

import { byId, el } from "./dom.js";
import { textOf, tiers } from "./model.js";
import { inWords } from "./problems.js";
import { ask } from "./server.js";
import { openNew } from "./session.js";
import { current } from "./store.js";

const dialog = () => /** @type {HTMLDialogElement} */ (byId("tins"));

export function showTins() {
  byId("tins-line").value = tiers().map((tier) => `${textOf(tier.size)} x ${textOf(tier.depth)}`).join(", ");
  byId("tins-problem").textContent = "";
  byId("tins-changes").replaceChildren();
  dialog().showModal();
  byId("tins-line").select();
}

/** @param {Event} event */
async function make(event) {
  event.preventDefault();
  const { cake, files, opened } = current();
  byId("tins-problem").textContent = "";
  try {
    const answer = await (await ask("resize", { cake, files, line: byId("tins-line").value })).json();
    await openNew({ cake: answer.cake, files, opened });
    const { changes } = answer;
    byId("tins-changes").replaceChildren(
      el("p", {}, el("b", {}, "It is open as a new cake.")),
      changes.length ? el("h3", {}, "What changed") : el("p", {}, "Nothing had to change but the sizes."),
      el("ul", {}, ...changes.map((/** @type {string} */ text) => el("li", {}, text))));
  } catch (error) {
    byId("tins-changes").replaceChildren();
    byId("tins-problem").textContent = inWords(error).replace(/^The cake: /, "");
  }
}

byId("tins-form").addEventListener("submit", make);
