// What happens when.

import { knownPieces, showCautions, showList, showLists, showPieces, showSizes } from "./bench.js";
import { showCakes } from "./cakes.js";
import { showClass } from "./class.js";
import { closeUp } from "./close_up.js";
import { byId } from "./dom.js";
import { onFigures, setFigures, showFigures } from "./figures.js";
import { isFile, isLinked, linkTo, linked } from "./link.js";
import { describe, isNothing } from "./model.js";
import { follow } from "./moving.js";
import { besides, cakeAmong, cakeText } from "./own_files.js";
import { pannable } from "./pan.js";
import { addFirst, onOpen, open, openList, refreshList, render, renderStack } from "./panel.js";
import { awaitSheets, chosen, download, noSheets, oldSheets, onPrint, print, showOptions, showSheets, working, zoom } from "./print.js";
import { counts, inWords, setProblems, setWarnings, showAtFields } from "./problems.js";
import { CakeView } from "./scene.js";
import { keyOf } from "./scene_move.js";
import { ask, drop, keep, latestOnly, reached, saveAs } from "./server.js";
import { begin, openNew } from "./session.js";
import { setSizes } from "./stack.js";
import { freshCake, onStart } from "./start.js";
import { say } from "./status.js";
import * as store from "./store.js";
import { tomlOf } from "./toml.js";

const AFTER = 150; // ms to wait for the picture before sizes and warnings are requested without it
const REST = 700; // ms without an edit, after which the bench list and the pages are made
const NOTHING = { pages: "", fondant: "", portions: "", height: "" };
const body = () => ({ cake: store.current().cake, files: store.current().files });
/** @type {number | undefined} */
let resting;
let edits = 0;

// The picture

const view = new CakeView(byId("cake"), {
  onPick(part) {
    if (part === null) return;
    open(keyOf(part));
  },
  onMove: follow,
  elevation: async (turn) => (await ask("front", body(), { turn: Math.round(turn) })).json(),
});

const askScene = latestOnly("scene", { hasCoarse: true, beside: () => ({ known: view.known() }), done: showScene, failed(error) {
  if (error.late) say(`The picture is without decoration: ${error.message}`);
  else view.fade(true);
  askNext();
} });

/** @param {any} scene */
function showScene(scene) {
  document.body.dataset.picture = "yes";
  view.show(scene);
  requestAnimationFrame(() => setTimeout(askNext)); // once it is painted: that takes both cores
}

/** @type {number | undefined} */
let next; // the timer of a request that waits for the picture

/** Ask for all but the picture, once that is drawn: both at a time would make it wait. */
function askNext() {
  if (next === undefined) return;
  clearTimeout(next);
  next = undefined;
  askCake(body());
}

// An edit

let isFresh = false; // a file or link was just opened: its errors are listed at once
const askCake = latestOnly("cake", {
  stateNow: () => edits, // it is requested only once the picture is painted
  beside: () => ({ known: knownPieces() }),
  done(answer, isNewest) {
    setWarnings(answer.warnings);
    if (isNewest) setSizes(answer.across);
    renderStack();
    showSizes(answer.tiers);
    showCautions(answer.cautions);
    showPieces(answer.pieces, closeUp);
    document.body.classList.remove("stale");
    said();
    isFresh = false;
    if (!isNewest) return;
    document.body.dataset.settled = "yes";
    clearTimeout(resting);
    resting = setTimeout(rest, REST);
  },
  failed(error) {
    clearTimeout(resting);
    document.body.classList.add("stale");
    renderStack();
    if (!error.gone) setProblems(error.message, error.problems ?? []);
    oldSheets(error.gone);
    said();
    if (isFresh && !error.gone) openList();
    isFresh = false;
    document.body.dataset.settled = "yes";
  },
});

/** Say what is wrong or doubtful wherever that is said. */
function said() {
  showAtFields();
  showFigures();
  refreshList();
}

function rest() {
  askBench(body());
  askSheets(body(), chosen());
}

const askBench = latestOnly("bench", {
  done(answer) {
    showLists(answer.title, answer.lists);
    setFigures(answer.summary);
  },
  failed() {},
});
const askSheets = latestOnly("sheets", {
  stateNow: () => edits,
  done(answer, isNewest) {
    showSheets(answer);
    if (counts().problems) oldSheets(); // it comes late: something is wrong by now
    else if (!isNewest) awaitSheets();
  },
  failed(error) {
    if (error.gone) return;
    noSheets(inWords(error));
    if (error.problems?.length) setProblems(error.message, error.problems);
    showAtFields();
    showFigures();
  },
});

let shownId = ""; // of the cake

/** Take away all that was of another cake. */
function forget() {
  shownId = store.current().id;
  drop();
  view.clear();
  document.body.dataset.picture = "no";
  document.body.classList.remove("stale");
  setProblems("", []);
  setFigures(NOTHING);
  setSizes([]);
  showSizes([]);
  showCautions([]);
  showPieces([], closeUp);
  showLists();
  noSheets(isNothing() ? "There is nothing to print yet: make a cake first." : "");
}

store.listen(({ redraw }) => {
  edits += 1;
  if (shownId !== store.current().id) forget();
  if (redraw) {
    render();
    showOptions();
  }
  for (const [id, can] of /** @type {[string, boolean][]} */ ([["undo", store.canUndo()], ["redo", store.canRedo()], ["bar-undo", store.canUndo()]])) {
    byId(id).disabled = !can;
  }
  for (const each of document.querySelectorAll(".print-now, #download, #for-class, #print-bench, #handout, [data-opens]")) /** @type {HTMLButtonElement} */ (each).disabled = isNothing();
  clearTimeout(next);
  next = undefined;
  document.title = store.current().cake.title ? `${store.current().cake.title} – Cake templates` : "Cake templates";
  if (isNothing()) {
    setProblems("", []);
    setFigures(NOTHING);
    document.body.dataset.settled = "yes";
    return;
  }
  document.body.dataset.settled = "no";
  awaitSheets();
  next = setTimeout(askNext, AFTER);
  askScene(body());
});

onOpen((part) => view.select(part));
function list() {
  show("plan");
  openList();
}
onFigures({ print: () => show("print"), bench: () => show("bench-view"), list });
onPrint(body, () => askSheets(body(), chosen()), list);
onStart({ sample: openSample, file: () => byId("file").click(), letters: () => addFirst("letter_cake"), made: () => open(["tier", 0]) });

// Views

/** Show a view, one step of the browser's history further on. @param {string} id */
function show(id) {
  if (history.state?.view !== id) history[history.state?.view ? "pushState" : "replaceState"]({ view: id }, "");
  bring(id);
}

/** @param {string} id */
function bring(id) {
  for (const each of document.querySelectorAll("main > section")) /** @type {HTMLElement} */ (each).hidden = each.id !== id;
  for (const each of document.querySelectorAll("[data-view]")) {
    if (/** @type {HTMLElement} */ (each).dataset.view === id) each.setAttribute("aria-current", "page");
    else each.removeAttribute("aria-current");
  }
  document.body.dataset.shown = id;
}
for (const each of document.querySelectorAll("[data-view]")) {
  each.addEventListener("click", () => {
    show(/** @type {HTMLElement} */ (each).dataset.view ?? "plan");
    scrollTo(0, 0);
  });
}

addEventListener("popstate", (event) => bring(event.state?.view ?? "plan"));

/** Do something that may fail, and say how it went. @param {string} doing @param {string} done @param {() => Promise<string | void>} action what is done; it may return what to say of it */
async function attempt(doing, done, action) {
  say(doing);
  try {
    say(await action() || done);
  } catch (error) {
    say(inWords(error));
  }
}

byId("page-zoom").addEventListener("input", zoom);

for (const each of document.querySelectorAll("dialog .close")) {
  each.addEventListener("click", () => /** @type {HTMLDialogElement} */ (each.closest("dialog")).close());
}

// The cake file

/** @param {string} text @param {string} name @param {Record<string, string>} [files] */
async function openText(text, name, files = {}) {
  const answer = await (await ask("open", { text, name })).json();
  await openNew({ cake: answer.cake, opened: text, files });
  lookAt();
}

/** Show the cake that was just opened, and list its errors now or as soon as they arrive. */
function lookAt() {
  show("plan");
  open([]);
  isFresh = document.body.dataset.settled !== "yes";
  if (!isFresh && document.body.classList.contains("stale")) openList();
}

function undo() {
  store.undo();
  say("Undone.");
}
function redo() {
  store.redo();
  say("Redone.");
}
for (const id of ["undo", "bar-undo"]) byId(id).addEventListener("click", undo);
byId("redo").addEventListener("click", redo);
document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  const step = key === "z" ? (event.shiftKey ? redo : undo) : key === "y" ? redo : null;
  if (!step) return;
  event.preventDefault();
  step();
});
byId("new").addEventListener("click", async () => {
  const { unit } = store.current().cake;
  await openNew({ cake: freshCake(unit) });
  show("plan");
  open([]);
  byId("stack-line").focus();
  say("A new cake is open. The one before is under My cakes.");
});
byId("open").addEventListener("click", () => byId("file").click());
byId("file").addEventListener("change", async () => {
  const all = [...byId("file").files];
  if (all.length) await attempt("Opening…", `${cakeAmong(all).name} is open as a new cake. The one before is under My cakes.`, async () =>
    openText(await cakeText(cakeAmong(all)), cakeAmong(all).name, await besides(all)));
  byId("file").value = "";
});

async function saveFile() {
  const { cake, opened } = store.current();
  try {
    await keep(await ask("save", { cake, opened }));
  } catch (error) {
    if (!error.gone) throw error;
    saveAs(new Blob([tomlOf(cake)], { type: "application/toml" }), "my.cake.toml");
  }
  const own = store.filesInUse().map((name) => `“${name}”`).join(" and ");
  if (own) return `The cake file is saved. Keep ${own} with it, and open them together.`;
}
const save = () => attempt("Saving…", "The cake file is saved.", saveFile);
byId("save").addEventListener("click", save);
byId("my-cakes").addEventListener("click", showCakes);

/** @param {string} name */
function openSample(name) {
  return attempt("Opening…", "The sample is open as a new cake. Your other cakes are under My cakes.", async () =>
    openText(await (await reached(`samples/${name}`)).text(), `${name}.toml`));
}

byId("share").addEventListener("click", async () => {
  const link = await linkTo(store.current().cake);
  byId("link-text").value = link ?? "";
  byId("linked").hidden = link === null;
  byId("too-long").hidden = link !== null;
  byId("left-out").hidden = !store.filesInUse().length;
  byId("link").showModal();
  if (link) byId("link-text").select();
});
byId("save-instead").addEventListener("click", () => {
  byId("link").close();
  save();
});
byId("copy").addEventListener("click", () => attempt("", "The link is copied.", () => navigator.clipboard.writeText(byId("link-text").value)));

// Paper

/** Print what is as the cake is now; where something is wrong with that, show what. @param {() => void} act */
const printed = (act) => () => {
  if (!counts().problems) return act();
  list();
  say("Fix this first, then print.");
};
for (const each of document.querySelectorAll(".print-now")) each.addEventListener("click", printed(print));
byId("download").addEventListener("click", () => working("Making the pages…", "The PDF is saved. Print it at 100 %, and measure the bars first.", async (signal) => {
  const paper = store.current().cake.paper ?? "a4";
  for (const page of paper === "both" ? ["a4", "letter"] : [""]) {
    await keep(await ask("pack", body(), { ...chosen(), ...(page ? { page } : {}) }, signal));
  }
}));
pannable(byId("sheets"));
byId("for-class").addEventListener("click", showClass);
byId("calendar").addEventListener("click", () => download("calendar", "The calendar is saved.", byId("list-working")));
byId("handout").addEventListener("click", () => download("handout", "The handout is saved.", byId("list-working")));
byId("chart").addEventListener("click", () => download("chart", "The wall chart is saved.", byId("list-working")));
for (const each of document.querySelectorAll("[data-list]")) {
  each.addEventListener("click", () => showList(/** @type {HTMLElement} */ (each).dataset.list ?? "bench"));
}
for (const each of document.querySelectorAll("[data-opens]")) {
  each.addEventListener("click", () => {
    show("plan");
    open([/** @type {HTMLElement} */ (each).dataset.opens ?? ""]);
  });
}
byId("print-bench").addEventListener("click", printed(() => window.print()));

// The end of a program that a double-click started

byId("quit")?.addEventListener("click", async () => {
  try {
    await ask("quit", {});
    byId("ended").showModal();
  } catch (error) {
    say(error.message);
  }
});

// The beginning: a link, or what was here before, or an empty cake

describe(await (await reached("form.json")).json());
show(history.state?.view ?? "plan");

async function openLink() {
  if (isFile()) return attempt("Opening…", "The file is open as a new cake. Your other cakes are under My cakes.", openLinkedFile);
  try {
    const cake = await linked();
    await openNew({ cake });
    lookAt();
    say(`The link is open as a new cake, “${store.titleOf(cake)}”. Your other cakes are under My cakes.`);
  } catch {
    say("This link holds no cake that can be read. Ask for it again, or for the cake file.");
  }
  history.replaceState(history.state, "", location.pathname + location.search);
}

async function openLinkedFile() {
  const found = linked();
  history.replaceState(history.state, "", location.pathname + location.search);
  const { text, name } = await found;
  await openText(text, name);
}

addEventListener("hashchange", () => {
  if (isLinked()) openLink();
});
const wasHere = await begin(save);
if (isLinked()) await openLink();
if (!store.current().id && !wasHere) await openNew({ cake: freshCake() });
