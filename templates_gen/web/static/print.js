// From the cake to paper: which pages, as they will print, and their files.

import { control } from "./controls.js";
import { byId, el } from "./dom.js";
import { setFigures } from "./figures.js";
import { cakeFields, sentence } from "./model.js";
import { counts, inWords, showAtFields } from "./problems.js";
import { answers, ask, keep } from "./server.js";
import { say } from "./status.js";

const OPTIONS = ["paper", "print", "margin_sides", "margin_ends", "printer"];

/** @type {{tiers: Set<string>, kinds: Set<string>}} what is left out */
const without = { tiers: new Set(), kinds: new Set() };
/** @type {{tiers: string[], kinds: string[]}} */
let offered = { tiers: [], kinds: [] };
/** @type {Map<Element, string>} */
const texts = new Map(); // of pages that nobody has looked at yet
const seen = new IntersectionObserver((entries) => {
  for (const { target, isIntersecting } of entries) if (isIntersecting) draw(target);
}, { rootMargin: "50%" });
/** @type {() => {cake: any, files: any}} */
let body = () => ({ cake: {}, files: {} });
/** @type {() => void} */
let changed = () => {};
/** @type {() => void} */
let list = () => {};

/** @param {typeof body} found @param {() => void} listener told that other pages are wanted @param {() => void} opensList */
export function onPrint(found, listener, opensList) {
  body = found;
  changed = listener;
  list = opensList;
}

/** Which tiers and kinds are printed: nothing said where all are. */
export function chosen() {
  const left = (/** @type {"tiers" | "kinds"} */ key) =>
    (offered[key].some((word) => without[key].has(word)) ? offered[key].filter((word) => !without[key].has(word)).join("|") : "");
  return Object.fromEntries(Object.entries({ tiers: left("tiers"), kinds: left("kinds") }).filter(([, words]) => words));
}

export function showOptions() {
  const fields = OPTIONS.map((key) => cakeFields().find((each) => each.key === key)).filter((each) => each !== undefined);
  const focused = document.activeElement?.id;
  const [paper, few, ...margins] = fields.map((each) => control(each, [each.key]));
  const more = el("details", {}, el("summary", {}, "Your printer"), el("div", { class: "fields" }, ...margins));
  more.open = byId("paper-options").querySelector("details")?.open ?? false;
  byId("paper-options").replaceChildren(el("div", { class: "fields" }, paper, few), more);
  if (focused) byId(focused)?.focus({ preventScroll: true });
  showAtFields();
}

/** @param {"tiers" | "kinds"} key @param {string} legend */
function ticks(key, legend) {
  return el("fieldset", { class: "part-of" }, el("legend", {}, legend), ...offered[key].map((word) => {
    const box = el("input", { type: "checkbox", id: `${key}-${word}`, onchange: () => {
      if (box.checked) without[key].delete(word);
      else without[key].add(word);
      changed();
    } });
    box.checked = !without[key].has(word);
    return el("label", { class: "tick" }, box, sentence(word === "pack" ? "whole cake" : word.replaceAll("-", " ")));
  }));
}

/** @param {{paper: string, count: number, sheets: string[], tiers: string[], kinds: string[]}} answer */
export function showSheets(answer) {
  const pages = `${answer.count} ${answer.paper} ${answer.count === 1 ? "page" : "pages"}`;
  const { warnings } = counts();
  byId("count").replaceChildren(`${pages}. Print at 100\u00a0%. `, warnings
    ? el("button", { type: "button", class: "link warned", onclick: list }, `${warnings === 1 ? "1 thing" : `${warnings} things`} to check first`) : "");
  setFigures({ pages: String(answer.count) });
  offered = { tiers: answer.tiers, kinds: answer.kinds };
  const focused = document.activeElement?.id;
  byId("parts").replaceChildren(ticks("tiers", "Tiers"), ticks("kinds", "Kinds of template"));
  if (focused) byId(focused)?.focus({ preventScroll: true });
  seen.disconnect();
  texts.clear();
  byId("sheets").replaceChildren(...answer.sheets.map((text, index) => {
    const page = el("div", { class: "page", role: "img", "aria-label": `Page ${index + 1} of ${answer.count}` });
    texts.set(page, text);
    seen.observe(page);
    return el("li", {}, page, el("span", { "aria-hidden": "true" }, `${index + 1} of ${answer.count}`));
  }));
  zoom();
}

/** Draw a page, apart from the names in all others. @param {Element} page */
function draw(page) {
  const text = texts.get(page);
  if (text === undefined) return;
  texts.delete(page);
  seen.unobserve(page);
  const drawing = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  drawing.setAttribute("width", "100%");
  drawing.removeAttribute("height");
  page.attachShadow({ mode: "open" }).append(document.importNode(drawing, true));
}

/** Say that pages are on their way: those in view are of the cake as it was. */
export function awaitSheets() {
  byId("count").textContent = "Making the pages…";
}

/** Say that the pages in view, if there are any, are of the cake as it was before something was wrong, or the server was gone. @param {boolean} [gone] */
export function oldSheets(gone = false) {
  if (!byId("sheets").children.length) noSheets(gone ? "The pages appear once the server is back." : "The pages appear once the cake can be made: see Cake.");
  else byId("count").textContent = `${gone ? "The server has stopped." : "Something has to be fixed first."} Greyed out: the pages of your last working version.`;
}

/** @param {string} message */
export function noSheets(message) {
  byId("count").textContent = message;
  byId("sheets").replaceChildren();
  setFigures({ pages: "" });
}

/** Show pages as wide as the range says; wider than the view, they scroll. */
export function zoom() {
  const wide = Number(/** @type {HTMLInputElement} */ (byId("page-zoom")).value);
  byId("sheets").style.setProperty("--page", `${wide}rem`);
}

/** Open the PDF in a tab of its own, where the browser prints it. */
export async function print() {
  try {
    await answers();
  } catch {
    say("Print again when it is back.");
    return;
  }
  const form = byId("print-form");
  byId("print-body").value = JSON.stringify(body());
  form.action = `print?${new URLSearchParams(chosen())}`;
  form.submit();
  say("The pages open in a new tab. Print them at 100 %, and measure the bars first.");
}

/** Do what may take long: it shows, and can be cancelled. @param {string} doing @param {string} done @param {(signal: AbortSignal) => Promise<string | void>} action what is done; it may return what to say of it @param {HTMLElement} progress */
export async function working(doing, done, action, progress = byId("working")) {
  const stop = new AbortController();
  say(doing);
  const cancel = el("button", { type: "button", onclick: () => stop.abort() }, "Cancel");
  progress.replaceChildren(el("progress", { "aria-label": doing }), cancel);
  progress.hidden = false;
  progress.scrollIntoView({ block: "nearest" });
  try {
    say(await action(stop.signal) || done);
  } catch (error) {
    say(stop.signal.aborted ? "Cancelled." : inWords(error));
  }
  progress.hidden = true;
}

/** Save a file that stands beside the pack. @param {string} job @param {string} done @param {HTMLElement} progress */
export const download = (job, done, progress) => working("Making the file…", done, async (signal) => {
  await keep(await ask(job, body(), {}, signal));
}, progress);
