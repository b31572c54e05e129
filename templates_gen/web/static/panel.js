// One panel at a time: the whole cake, a tier (size, decoration, support), one thing on it, or the list
// of what is wrong. What is open is a path of keys of the cake.

import { controls } from "./controls.js";
import { byId, el } from "./dom.js";
import { at, cakeFields, description, fieldAt, fieldsAt, idOf, isNothing, put, sentence, textOf, tierName, tiers, unitOf } from "./model.js";
import { picture } from "./pictures.js";
import { problemList, showAtFields } from "./problems.js";
import { say } from "./status.js";
import { showStack, silhouette } from "./stack.js";
import { invitation, unitSwitch } from "./start.js";
import { change, current, isReadOnly } from "./store.js";
import { addTier, copyTier, moveTier, removeTier } from "./tiers.js";
import { showTins } from "./tins.js";

/** @typedef {import("./model.js").Field} Field @typedef {import("./model.js").Path} Path */

const TABS = { size: "Size and covering", decorate: "Decorate", support: "Support and position" };

/** @type {Path} */
let here = [];
/** @type {keyof typeof TABS} */
let tab = "size";
let listed = false;
let shownId = ""; // of the cake
/** @type {Set<string>} */
const unfolded = new Set();
/** @type {(part: string | null) => void} */
let picked = () => {};

/** @param {(part: string | null) => void} listener told which part of the picture is open */
export function onOpen(listener) {
  picked = listener;
}

/** Open the panel that has a key, and its control. @param {Path} path */
export function open(path) {
  listed = false;
  if (path[0] === "tier" && path.length > 2) {
    tab = /** @type {keyof typeof TABS} */ (fieldsAt(path.slice(0, 2)).find((each) => each.key === path[2])?.tab || "size");
  }
  here = panelOf(path);
  render();
  focus(path);
}

/** The path of the panel that has a key. @param {Path} path @returns {Path} */
function panelOf(path) {
  const owner = path[0] === "tier" && typeof path[1] === "number" ? path.slice(0, 2) : [];
  const inner = path.slice(owner.length);
  const field = fieldsAt(owner).find((each) => each.key === inner[0]);
  if (!field?.fields.length) return owner;
  if (field.kind === "table") return [...owner, inner[0]];
  return typeof inner[1] === "number" ? [...owner, inner[0], inner[1]] : owner;
}

export function openList() {
  listed = true;
  render();
  byId("panel-title").focus();
  bringUp(byId("panel-title"));
}

export function renderStack() {
  const focused = document.activeElement?.id;
  showStack(byId("stack"), listed ? "" : here[0] === "tier" ? `tier.${here[1]}` : "cake", open, newTier);
  byId("stack").hidden = isNothing();
  document.querySelector(".tier-head .silhouette")?.replaceWith(silhouette(Number(here[1]), tiers()[Number(here[1])]?.shape));
  if (focused?.startsWith("go-") || focused === "add-tier") byId(focused)?.focus({ preventScroll: true });
}

/** Show the list anew, where it is open. */
export function refreshList() {
  if (listed) render();
}

/** @param {Path} path */
function focus(path) {
  let found = null;
  for (let part = path; part.length > here.length && !found; part = part.slice(0, -1)) found = byId(idOf(part));
  const target = found ?? byId("panel-title");
  for (let owner = target.closest("details"); owner; owner = owner.parentElement?.closest("details") ?? null) owner.open = true;
  const radio = target.matches("fieldset") ? target.querySelector("input:checked, input") : null;
  (radio ?? target).focus();
  bringUp(target);
}

const stage = /** @type {HTMLElement} */ (document.querySelector(".stage-side"));

/** Say how much of the top the picture covers, on a phone, of what scrolls below it. */
const cover = () => document.documentElement.style.setProperty("--covered", `${stage.offsetHeight}px`);
new ResizeObserver(cover).observe(stage);

/** Scroll what was chosen into view, with its heading; below the picture, on a phone, as far up as it can go. @param {Element} target */
function bringUp(target) {
  const isTitle = target.id === "panel-title";
  cover();
  if (matchMedia("(max-width: 55.99rem)").matches) {
    const above = isTitle ? byId(listed || here.length > 2 ? "panel" : "stack") : target.closest(".field, .tabs") ?? target;
    above.scrollIntoView({ block: "start" });
    return;
  }
  byId("panel").firstElementChild?.scrollIntoView({ block: "nearest" });
  target.scrollIntoView({ block: "nearest" });
}

export function render() {
  const root = byId("panel");
  const focused = document.activeElement?.id;
  if (shownId !== current().id) {
    shownId = current().id;
    here = [];
    tab = "size";
    listed = false;
  }
  if (typeof here.at(-1) === "number" && at(here) === undefined) here = here[0] === "tier" ? here.slice(0, 2) : [];
  if (here[0] === "tier" && !tiers()[Number(here[1])]) here = [];
  const isEmpty = isNothing() && !listed && !here.length;
  renderStack();
  document.body.classList.toggle("empty", isNothing());
  const elsewhere = isReadOnly() ? el("p", { class: "standing" }, "Open in another tab: to edit it here, press “Edit here” at the top.") : null;
  root.replaceChildren(...[elsewhere, ...(isEmpty ? invitation() : content())].filter((each) => each !== null));
  /** @type {HTMLElement} */ (root).inert = isReadOnly();
  showAtFields();
  picked(here.length ? here.join(".") : null);
  if (focused) byId(focused)?.focus({ preventScroll: true });
}

function content() {
  if (listed) return list();
  if (!here.length) return cake();
  return here[0] === "tier" && here.length === 2 ? tier(Number(here[1])) : detail();
}

/** @param {string} text */
const title = (text) => el("h2", { id: "panel-title", tabindex: "-1" }, text);

const list = () => [back("Whole cake", []), title("Check"), ...problemList(open)];

/** @param {string} name @param {Path} owner */
const back = (name, owner) => el("button", { type: "button", class: "back", id: "back", onclick: () => open(owner) }, `‹ ${name}`);

/** @param {Field[]} fields @param {Path} path */
function sorted(fields, path) {
  const plain = fields.filter((each) => !each.fields.length);
  const first = plain.filter((each) => each.rank).sort((one, other) => one.rank - other.rank);
  const rest = plain.filter((each) => !each.rank);
  const [inSight, below] = first.length ? [first, rest] : [rest, []];
  return [el("div", { class: "fields" }, ...controls(inSight, path)), more(path, controls(below, path))];
}

/** @param {Path} path @param {HTMLElement[]} children */
function more(path, children) {
  if (!children.length) return null;
  const id = `${idOf(path)}-${tab}`;
  const details = el("details", { ontoggle: () => (details.open ? unfolded.add(id) : unfolded.delete(id)) },
    el("summary", {}, "More"), el("div", { class: "fields" }, ...children));
  details.open = unfolded.has(id);
  return details;
}

/** A button to the panel of a table. @param {Field} field @param {Path} path */
function way(field, path) {
  const key = [...path, field.key];
  const value = at(key);
  const { currency, ...set } = value ?? {}; // a sign without any price says nothing else
  const says = value === undefined ? (field.automatic ? "automatic" : "none") : Object.keys(set).length || !currency ? "set" : currency;
  return el("button", { type: "button", class: "way", id: idOf(key), onclick: () => open(key) },
    el("b", {}, field.label), el("span", {}, says), el("p", { class: "problem", id: `${idOf(key)}-problem` }));
}

function cake() {
  const own = cakeFields().filter((each) => !["tier", "unit", "paper", "print", "margin_sides", "margin_ends", "printer"].includes(each.key));
  const tables = own.filter((each) => each.kind === "table");
  const several = own.filter((each) => each.kind === "tables");
  const [named, rest] = sorted(own, []);
  return [title("Whole cake"), named, unitSwitch(), rest,
    ...several.map((each) => decoration(each, [])),
    el("div", { class: "ways" }, ...tables.map((each) => way(each, [])),
      el("button", { type: "button", class: "way", id: "other-tins", onclick: showTins }, el("b", {}, "Same design, other tins…")))];
}

/** @param {number} index */
function tier(index) {
  const path = ["tier", index];
  const name = tierName(index);
  const count = tiers().length;
  const fields = fieldsAt(path).filter((each) => each.tab === tab);
  const button = (/** @type {string} */ word, /** @type {() => void} */ onclick, disabled = false) =>
    el("button", { type: "button", disabled, id: `tier-${word.toLowerCase()}`, "aria-label": `${word}: ${name}`, onclick }, word);
  return [
    el("div", { class: "tier-head" }, silhouette(index, tiers()[index].shape), title(sentence(name)),
      el("div", { class: "buttons" },
        button("Up", () => arrange(index + 1, () => moveTier(index, index + 1)), index === count - 1),
        button("Down", () => arrange(index - 1, () => moveTier(index, index - 1)), index === 0),
        button("Copy", () => arrange(index + 1, () => copyTier(index))),
        button("Remove", () => {
          here = [];
          removeTier(index);
          say(`Removed: ${name}.`);
          byId("add-tier").focus();
        }))),
    el("p", { class: "problem", id: `${idOf(path)}-problem` }),
    el("div", { class: "tabs", role: "group", "aria-label": `Parts of ${name}` }, ...Object.entries(TABS).map(([key, word]) =>
      el("button", { type: "button", id: `tab-${key}`, "aria-pressed": String(tab === key), onclick: () => {
        tab = /** @type {keyof typeof TABS} */ (key);
        render();
        bringUp(byId(`tab-${key}`));
      } }, word))),
    ...(tab === "decorate" ? fields.sort((one, other) => one.rank - other.rank).map((each) => decoration(each, path))
      : [...sorted(fields, path), el("div", { class: "ways" }, ...fields.filter((each) => each.fields.length && isVisible(each, path)).map((each) => way(each, path)))]),
  ];
}

/** @param {Field} field @param {Path} path */
const isVisible = (field, path) => !field.only_by || field.only.includes(at([...path, field.only_by]) ?? "");

/** What there is of a kind of decoration, and what can be added. @param {Field} field @param {Path} path */
function decoration(field, path) {
  const key = [...path, field.key];
  const value = at(key);
  const several = field.kind === "tables";
  const entries = several ? (Array.isArray(value) ? value.map((each, index) => ({ key: [...key, index], each })) : []) : value === undefined ? [] : [{ key, each: value }];
  const offered = description.choices.filter((each) => each.table === field.key);
  const isFull = !several && value !== undefined;
  return el("section", { class: "decoration", "aria-labelledby": `${idOf(key)}-title` },
    el("h3", { id: `${idOf(key)}-title` }, field.label),
    el("p", { class: "problem", id: `${idOf(key)}-problem` }),
    ...entries.map((entry) => el("div", { class: "entry" },
      el("button", { type: "button", class: "way", id: idOf(entry.key), onclick: () => open(entry.key) },
        el("b", {}, called(field, entry.each)), el("span", {}, "change")),
      el("button", { type: "button", "aria-label": `Remove ${called(field, entry.each)}`, onclick: () => {
        put(entry.key, undefined);
        say(`Removed: ${called(field, entry.each)}.`);
        byId(`tab-${tab}`)?.focus();
      } }, "Remove"))),
    isFull ? null : offered.length
      ? el("div", { class: "choices drawn" }, ...offered.map((choice) =>
        el("button", { type: "button", class: "card", "aria-label": `Add ${field.label.toLowerCase()}: ${choice.name}`, onclick: () => add(choice, path, several) },
          picture(`${choice.table}/${choice.name}`), el("span", {}, sentence(nameOf(choice.name, field))))))
      : addOne(field, path));
}

/** @param {string} word @param {Field} field */
function nameOf(word, field) {
  for (const each of field.fields) {
    const index = each.choices.indexOf(word);
    if (index >= 0) return each.names[index];
  }
  return word;
}

/** What an entry is called. @param {Field} field @param {any} value */
function called(field, value) {
  const main = field.fields.find((each) => ["text", "kind", "pattern", "shape"].includes(each.key) && each.rank);
  const word = main ? textOf(value?.[main.key] ?? main.usual) : "";
  return word ? sentence(nameOf(word, field)) : field.label;
}

/** @type {Record<string, {key: string, word: string, words: string}>} what a tier has to be for a decoration, and what adds both */
const ONLY_ON = { comb: { key: "cover", word: "none", words: "Take off the fondant and comb the sides" } };

/** A button that adds the one thing there is of its kind; where a tier has to be otherwise for it, it says so and does that too. @param {Field} field @param {Path} path */
function addOne(field, path) {
  const first = ONLY_ON[field.key];
  const needs = first && at([...path, first.key]) !== first.word ? first : null;
  return el("button", { type: "button", onclick: () => {
    change((doc) => {
      const owner = at(path, doc.cake);
      if (needs) owner[needs.key] = needs.word;
      owner[field.key] = {};
    });
    open([...path, field.key]);
  } }, needs ? needs.words : `Add ${field.label.toLowerCase()}`);
}

/** @type {Record<string, number>} how many panels a face begins with, on shapes with corners: they meet there */
const PER_FACE = { square: 2, rectangle: 2, polygon: 1 };

/** What a choice brings to its owner: bricks go round corners, other panels meet at them. @param {import("./model.js").Choice} choice @param {Path} path */
function freshOf(choice, path) {
  const fresh = structuredClone(choice.values[unitOf()]);
  const faces = choice.table === "panels" && fresh.joins !== "staggered" && PER_FACE[at(path)?.shape];
  return faces ? { ...fresh, per_face: faces, corners: "join" } : fresh;
}

/** @param {import("./model.js").Choice} choice @param {Path} path @param {boolean} several */
function add(choice, path, several) {
  const others = several ? at([...path, choice.table]) ?? [] : null;
  const fresh = freshOf(choice, path);
  change((doc) => {
    const owner = at(path, doc.cake);
    Object.assign(owner, choice.beside);
    owner[choice.table] = several ? [...others, fresh] : fresh;
  });
  const key = [...path, choice.table, ...(several ? [others.length] : [])];
  open("text" in fresh ? [...key, "text"] : key);
  if ("text" in fresh) /** @type {HTMLInputElement} */ (document.activeElement)?.select?.();
}

/** Add the first there is of what belongs to no tier. @param {string} table */
export function addFirst(table) {
  const choice = description.choices.find((each) => each.table === table);
  if (choice) add(choice, [], true);
}

function detail() {
  const field = /** @type {Field} */ (fieldAt(here));
  const owner = here[0] === "tier" ? ["tier", here[1]] : [];
  const name = here[0] === "tier" ? sentence(tierName(Number(here[1]))) : "Whole cake";
  const several = field.kind === "tables";
  const whole = here;
  const there = at(here) !== undefined;
  const inner = field.fields.filter((each) => each.fields.length);
  return [
    back(name, owner),
    el("div", { class: "tier-head" }, title(several ? sentence(description.one_of[field.key] ?? field.label) : field.label),
      there && (several || field.optional) ? el("button", { type: "button", id: "remove", onclick: () => {
        const what = called(field, at(whole));
        here = owner;
        put(whole, undefined);
        say(`Removed: ${what}.`);
        byId("panel-title").focus();
      } }, "Remove") : null),
    el("p", { class: "problem", id: `${idOf(here)}-problem` }),
    ...(there || !field.optional ? [...sorted(field.fields, here), ...inner.map((each) => way(each, here))]
      : [el("p", {}, sentence(field.help)), el("button", { type: "button", class: "main", onclick: () => put(here, {}) },
        field.automatic ? `Choose the ${field.label.toLowerCase()} yourself` : `Add ${field.label.toLowerCase()}`)]),
  ];
}

/** Open the tier of a place once it is there. @param {number} place @param {() => void} act */
function arrange(place, act) {
  here = ["tier", place];
  act();
  byId("panel-title").focus();
}

function newTier() {
  tab = "size";
  here = ["tier", tiers().length];
  addTier();
  focus([...here, "size"]);
}
