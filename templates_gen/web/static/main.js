// What happens when.

import { showCakes } from "./cakes.js";
import { byId, draw, el, svg } from "./dom.js";
import { describe, render, showProblems } from "./form.js";
import { isLinked, linkTo, linked } from "./link.js";
import { CakeView } from "./scene.js";
import { ask, keep, latestOnly, reached, saveAs } from "./server.js";
import { begin, openNew } from "./session.js";
import { say } from "./status.js";
import * as store from "./store.js";
import { tomlOf } from "./toml.js";
import { goTo, knownPieces, noSheets, showAnswer, showBench, showMend, showSheets } from "./view.js";

const REST = 700; // ms without an edit, after which the bench list and the sheets are made
const EMPTY = { unit: "in" };
const body = () => ({ cake: store.current().cake, files: store.current().files });
let resting = null;

const askCake = latestOnly("cake", {
  beside: () => ({ known: knownPieces() }),
  done(answer, isNewest) {
    showProblems([]);
    showAnswer(answer, closeUp);
    if (!isNewest) return;
    clearTimeout(resting);
    resting = setTimeout(() => {
      askBench(body());
      askSheets(body());
    }, REST);
    document.body.dataset.settled = "yes";
  },
  failed(error) {
    clearTimeout(resting);
    document.body.classList.add("stale");
    document.body.dataset.settled = "yes";
    if (error.gone) return;
    showProblems(error.problems ?? []);
    showMend(error.message, error.problems ?? []);
  },
});
const view = new CakeView(byId("cake"), {
  onPick: (part) => part && goTo(part.split(".").map((key) => (/^\d+$/.test(key) ? Number(key) : key))),
  elevation: async (turn) => (await ask("front", body(), { turn })).json(),
});
const askScene = latestOnly("scene", {
  hasCoarse: true,
  done: (scene) => view.show(scene),
  failed: () => view.fade(true),
});
const askBench = latestOnly("bench", { done: showBench, failed() {} });
const askSheets = latestOnly("sheets", { done: (answer) => showSheets(answer, closeUpSheet), failed: (error) => { noSheets(error.message); showProblems(error.problems ?? []); } });

store.listen(({ redraw }) => {
  if (redraw) render(byId("form"));
  byId("undo").disabled = !store.canUndo();
  byId("redo").disabled = !store.canRedo();
  document.title = store.current().cake.title ? `${store.current().cake.title} – Cake templates` : "Cake templates";
  document.body.dataset.settled = "no";
  askCake(body());
  askScene(body());
});

// Do something that may fail, and say how it went.
async function attempt(doing, done, action) {
  say(doing);
  try {
    await action();
    say(done);
  } catch (error) {
    say(error.message);
  }
}

// Close-ups

const dialog = byId("close-up");
const stage = dialog.querySelector(".stage");
const about = dialog.querySelector(".about");

function look(title, picture, ...words) {
  byId("close-up-title").textContent = title;
  stage.replaceChildren(picture);
  about.replaceChildren(...words);
  byId("zoom").value = 100;
  zoom();
  dialog.showModal();
}

function zoom() {
  stage.firstElementChild.setAttribute("width", `${byId("zoom").value}%`);
}
byId("zoom").addEventListener("input", zoom);

function closeUp(piece) {
  const picture = svg("svg", { class: "drawing", role: "img", "aria-label": piece.title });
  draw(picture, piece.drawing, true);
  const save = (form, words) => el("button", { type: "button", onclick: () =>
    attempt("Making the piece…", `${piece.title} is saved.`, async () => keep(await ask("piece", body(), { id: piece.id, form }))) }, words);
  look(piece.title, picture,
    el("p", {}, `${piece.use} Cut ${piece.copies}. ${piece.measures}.`),
    el("dl", {}, ...piece.values.flatMap(([name, text]) => [el("dt", {}, name), el("dd", {}, text)])),
    piece.printed ? el("div", { class: "buttons" }, save("svg", "This piece as SVG"), save("pdf", "This piece as PDF"))
      : el("p", { class: "help" }, "It has no paper of its own: the swing strip and these figures give it."));
}

function closeUpSheet(name, address) {
  look(name, el("img", { src: address, alt: name, class: "sheet" }));
}

for (const each of document.querySelectorAll("dialog .close")) {
  each.addEventListener("click", () => each.closest("dialog").close());
}

// The cake file

async function openText(text, name) {
  const answer = await (await ask("open", { text, name })).json();
  await openNew({ cake: answer.cake, opened: text });
}

byId("undo").addEventListener("click", store.undo);
byId("redo").addEventListener("click", store.redo);
document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  const step = key === "z" ? (event.shiftKey ? store.redo : store.undo) : key === "y" ? store.redo : null;
  if (!step) return;
  event.preventDefault();
  step();
});
byId("new").addEventListener("click", () => {
  openNew({ cake: structuredClone(EMPTY) });
  say("A new cake is open. The one before is under My cakes.");
  byId("add-tier").focus();
});
byId("open").addEventListener("click", () => byId("file").click());
byId("file").addEventListener("change", async () => {
  const [chosen] = byId("file").files;
  if (!chosen) return;
  await attempt("Opening…", `${chosen.name} is open as a new cake. The one before is under My cakes.`, async () => openText(await chosen.text(), chosen.name));
  byId("file").value = "";
});
async function saveFile() {
  const { cake, opened } = store.current();
  try {
    await keep(await ask("save", { cake, opened }));
  } catch (error) {
    if (!error.gone) throw error;
    saveAs(new Blob([tomlOf(cake)], { type: "application/toml" }), "cake.toml");
  }
}
const save = () => attempt("Saving…", "The cake file is saved.", saveFile);
byId("save").addEventListener("click", save);
byId("my-cakes").addEventListener("click", showCakes);
byId("samples").addEventListener("change", async () => {
  const name = byId("samples").value;
  if (!name) return;
  await attempt("Opening…", "The sample is open as a new cake. The one before is under My cakes.", () => openSample(name));
  byId("samples").value = "";
});

async function openSample(name) {
  await openText(await (await reached(`samples/${name}`)).text(), `${name}.toml`);
}

byId("share").addEventListener("click", async () => {
  const { cake, files } = store.current();
  const link = await linkTo(cake);
  byId("link-text").value = link ?? "";
  byId("linked").hidden = link === null;
  byId("too-long").hidden = link !== null;
  byId("left-out").hidden = !Object.keys(files).length;
  byId("link").showModal();
  if (link) byId("link-text").select();
});
byId("save-instead").addEventListener("click", () => {
  byId("link").close();
  save();
});
byId("copy").addEventListener("click", () => attempt("", "The link is copied.", () => navigator.clipboard.writeText(byId("link-text").value)));

// The pack

for (const button of document.querySelectorAll("[data-paper]")) {
  button.addEventListener("click", async () => {
    const { paper } = button.dataset;
    const pages = paper === "both" ? ["a4", "letter"] : [paper];
    button.disabled = true;
    await attempt("Making the pack…", "The pack is saved. Print it at 100 %, and measure the bars first.", async () => {
      for (const page of pages) await keep(await ask("pack", body(), { paper, page }));
    });
    button.disabled = false;
    button.focus();
  });
}

// The beginning: a link, or what was here before, or a sample

byId("form").addEventListener("submit", (event) => event.preventDefault());
const form = await (await reached(new URL("form.json", import.meta.url).href)).json();
describe(form);

async function openLink() {
  try {
    const cake = await linked();
    await openNew({ cake });
    say(`The link is open as a new cake, “${store.titleOf(cake)}”. Your other cakes are under My cakes.`);
  } catch {
    say("This link holds no cake that can be read. Ask for it again, or for the cake file.");
  }
  history.replaceState(null, "", location.pathname + location.search);
}

addEventListener("hashchange", () => {
  if (isLinked()) openLink();
});
const wasHere = await begin(save);
if (isLinked()) await openLink();
if (!store.current().id && !wasHere) await openSample(form.first);
