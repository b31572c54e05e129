// The form, made from the server's description of the cake file: a key that the program learns
// appears here by itself.

import { el, byId } from "./dom.js";
import { change, current, isReadOnly } from "./store.js";

let fields = [];
let bare = /^$/; // a length without a unit
let largestFile = 0; // bytes

export function describe(found) {
  fields = found.fields;
  bare = new RegExp(`^${found.bare}$`);
  largestFile = found.largest_file;
}

export const idOf = (path) => `f-${path.join("-")}`;
const at = (path) => path.reduce((value, key) => value?.[key], current().cake);

function put(path, value, options) {
  change((doc) => {
    let owner = doc.cake;
    for (const key of path.slice(0, -1)) owner = owner[key];
    const key = path[path.length - 1];
    if (value === undefined) delete owner[key];
    else owner[key] = value;
  }, options);
}

// The value of a text as a cake file has it; a text that is no number goes as it is, to be refused.
function valueOf(field, text) {
  const trimmed = text.trim();
  if (trimmed === "" && !field.needed) return undefined;
  if (field.kind === "count" && /^[-+]?\d{1,15}$/.test(trimmed)) return Number(trimmed);
  if (field.kind === "number" && /^[-+]?\d{1,15}([.,]\d*)?$/.test(trimmed)) {
    return Number(trimmed.replace(",", "."));
  }
  if (field.kind === "lengths") return text.split(";").map((part) => part.trim()).filter(Boolean);
  return text;
}

const textOf = (value) => (Array.isArray(value) ? value.join("; ") : value ?? "").toString();

function matters(field, path) {
  if (!field.only_by || at(path) !== undefined) return true;
  const beside = [...path.slice(0, -1), field.only_by];
  const siblings = fieldsAt(path.slice(0, -1));
  const usual = siblings.find((each) => each.key === field.only_by)?.usual;
  return field.only.includes(at(beside) ?? usual);
}

function fieldsAt(path) {
  return path.reduce(
    (found, key) => (typeof key === "number" ? found : found.find((each) => each.key === key).fields),
    fields,
  );
}

function control(field, path) {
  const id = idOf(path);
  const about = { id, "data-key": JSON.stringify(path), "aria-describedby": `${id}-help ${id}-problem` };
  if (field.kind === "yes") return yes(field, path, about);
  const label = el("label", { for: id }, field.label, field.needed ? el("span", { class: "needed" }, " needed") : null);
  const make = { words, file }[field.kind] ?? line;
  return el("div", { class: `field ${field.kind}` }, label, make(field, path, about), ...below(field, id));
}

const below = (field, id) => [
  el("p", { class: "help", id: `${id}-help` }, sentence(field.help)),
  el("p", { class: "problem", id: `${id}-problem` }),
];

const sentence = (text) => text.charAt(0).toUpperCase() + text.slice(1);

function yes(field, path, about) {
  const usual = field.usual === "yes";
  const box = el("input", {
    ...about, type: "checkbox",
    onchange: () => put(path, box.checked === usual ? undefined : box.checked, { redraw: false }),
  });
  box.checked = at(path) ?? usual;
  return el("div", { class: "field yes" }, el("label", { class: "tick" }, box, field.label), ...below(field, about.id));
}

function words(field, path, about) {
  const value = at(path);
  const known = value === undefined || field.choices.includes(value);
  const usual = field.usual ? `${field.usual} (usual)` : "—";
  const choices = field.choices.filter((word) => word !== field.usual || value === word);
  const select = el("select", {
    ...about,
    onchange: () => {
      put(path, select.value === "" ? undefined : select.value, { redraw: false });
      hideIdle();
    },
  },
  el("option", { value: "" }, usual),
  ...(known ? [] : [el("option", { value: textOf(value) }, textOf(value))]),
  ...choices.map((word) => el("option", { value: word }, word)));
  select.value = value === undefined ? "" : textOf(value);
  return select;
}

function line(field, path, about) {
  const list = field.choices.length ? `${about.id}-list` : null;
  const example = field.kind === "lengths" ? "20 mm; 35 mm" : field.example;
  const input = el("input", {
    ...about, type: "text", list, spellcheck: "false",
    placeholder: field.usual || (field.needed ? "" : `such as ${example}`),
    inputmode: field.kind === "count" ? "numeric" : null,
    "aria-required": field.needed ? "true" : null,
    oninput: () => put(path, valueOf(field, input.value), { group: about.id, redraw: false }),
  });
  input.value = textOf(at(path));
  if (!list) return input;
  return el("div", {}, input, el("datalist", { id: list }, ...field.choices.map((word) => el("option", { value: word }))));
}

function file(field, path, about) {
  const value = textOf(at(path));
  const chooser = el("input", {
    id: `${about.id}-file`, type: "file", accept: field.endings.join(","),
    "aria-label": `${field.label}: choose a file`,
    onchange: () => choose(chooser.files[0], path, about.id),
  });
  const options = ["", ...new Set([...field.choices.filter((word) => word !== field.usual), ...(value ? [value] : [])])];
  const select = el("select", {
    ...about, onchange: () => put(path, select.value === "" ? undefined : select.value),
  }, ...options.map((word) => el("option", { value: word }, word || (field.usual ? `${field.usual} (usual)` : "no file"))));
  select.value = value === field.usual ? "" : value;
  return el("div", { class: "chosen" }, select, chooser);
}

async function choose(chosen, path, id) {
  if (!chosen) return;
  if (chosen.size > largestFile) {
    byId(`${id}-problem`).textContent =
      `“${chosen.name}” is larger than ${largestFile / 1000} kB. Use a smaller file, or the command line.`;
    return;
  }
  const bytes = new Uint8Array(await chosen.arrayBuffer());
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  change((doc) => {
    doc.files[chosen.name] = btoa(binary);
    let owner = doc.cake;
    for (const key of path.slice(0, -1)) owner = owner[key];
    owner[path[path.length - 1]] = chosen.name;
  });
}

// A table that may be there or not, or any number of them.
function part(field, path) {
  const value = at(path);
  if (field.kind === "tables") return several(field, path, Array.isArray(value) ? value : []);
  if (value === undefined) return add(field, path, `Add ${field.label.toLowerCase()}`, () => put(path, {}));
  return box(field, path, field.label, () => put(path, undefined));
}

function several(field, path, list) {
  const name = field.label.toLowerCase();
  return el("div", { class: "several" },
    ...list.map((_, place) => box(field, [...path, place], `${field.label} ${place + 1}`, () =>
      put(path, list.length > 1 ? list.filter((__, other) => other !== place) : undefined))),
    add(field, path, list.length ? `Add more ${name}` : `Add ${name}`, () => {
      const fresh = Object.fromEntries(field.fields.filter((each) => each.needed).map((each) => [each.key, each.example]));
      put(path, [...list, fresh]);
      byId(idOf([...path, list.length, field.fields[0].key]))?.focus();
    }));
}

function add(field, path, words_, onclick) {
  const id = idOf(path);
  return el("div", { class: "add" },
    el("button", { type: "button", id, "aria-describedby": `${id}-help ${id}-problem`, onclick: () => {
      onclick();
      const first = field.fields.find((each) => each.kind !== "table" && each.kind !== "tables");
      if (field.kind === "table") byId(idOf([...path, first.key]))?.focus();
    } }, words_),
    ...below(field, id));
}

function box(field, path, title, remove) {
  const owner = path[0] === "tier" ? ` of ${tierName(path[1])}` : "";
  return el("fieldset", { class: "part", id: `${idOf(path)}-box` },
    el("legend", {}, title),
    el("button", { type: "button", class: "remove", "aria-label": `Remove ${title.toLowerCase()}${owner}`, onclick: () => {
      remove();
      byId(idOf(typeof path.at(-1) === "number" ? path.slice(0, -1) : path))?.focus();
    } }, "Remove"),
    el("p", { class: "problem", id: `${idOf(path)}-problem` }),
    el("div", { class: "fields" }, ...rows(field.fields, path)));
}

let conditional = []; // fields that matter only beside some words, with their elements

function rows(found, path) {
  return found.map((field) => {
    const key = [...path, field.key];
    const element = (field.fields.length ? part : control)(field, key);
    if (field.only_by) conditional.push({ field, key, element });
    return element;
  });
}

// Hide what does not matter beside the words chosen now. No control is made anew, so that whoever
// is typing in one is not disturbed.
function hideIdle() {
  for (const { field, key, element } of conditional) element.hidden = !matters(field, key);
}

const opened = new Set();

function more(id, title, children) {
  if (!children.length) return null;
  const details = el("details", { ontoggle: () => (details.open ? opened.add(id) : opened.delete(id)) },
    el("summary", {}, title), el("div", { class: "fields" }, ...children));
  details.open = opened.has(id);
  return details;
}

export const tierName = (place) => current().cake.tier?.[place]?.name || `tier ${place + 1}`;

function tierCard(field, place, count) {
  const path = ["tier", place];
  const name = tierName(place);
  const move = (to) => () => {
    change((doc) => doc.cake.tier.splice(to, 0, ...doc.cake.tier.splice(place, 1)));
    byId(`${idOf(["tier", to])}-title`)?.focus();
  };
  const button = (words_, onclick, disabled = false) =>
    el("button", { type: "button", disabled, "aria-label": `${words_}: ${name}`, onclick }, words_);
  const main = field.fields.filter((each) => each.always || (each.only_by && !each.fields.length));
  const tables = field.fields.filter((each) => each.fields.length);
  const rest = field.fields.filter((each) => !main.includes(each) && !tables.includes(each));
  return el("section", { class: "tier", "aria-labelledby": `${idOf(path)}-title` },
    el("div", { class: "tier-head" },
      el("h3", { id: `${idOf(path)}-title`, tabindex: "-1" }, sentence(name)),
      el("div", { class: "tier-tools" },
        button("Up", move(place + 1), place === count - 1),
        button("Down", move(place - 1), place === 0),
        button("Copy", () => {
          change((doc) => {
            const twin = JSON.parse(JSON.stringify(doc.cake.tier[place]));
            if (twin.name) twin.name = freshName(doc.cake.tier, twin.name);
            doc.cake.tier.splice(place + 1, 0, twin);
          });
          byId(`${idOf(["tier", place + 1])}-title`)?.focus();
        }),
        button("Remove", () => {
          change((doc) => doc.cake.tier.splice(place, 1));
          byId("add-tier")?.focus();
        }))),
    el("p", { class: "problem", id: `${idOf(path)}-problem` }),
    el("div", { class: "fields" }, ...rows(main, path)),
    more(`${place}-rest`, "Layers, board, trim", rows(rest, path)),
    more(`${place}-parts`, `On it: ${tables.map((each) => each.label.toLowerCase()).join(", ")}`, rows(tables, path)));
}

function freshName(tiers, name) {
  const taken = new Set(tiers.map((tier) => tier.name));
  const stem = name.replace(/ \d+$/, "");
  for (let number = 2; ; number += 1) {
    if (!taken.has(`${stem} ${number}`)) return `${stem} ${number}`;
  }
}

// A tier to go on top: as the one below, 2 in or 5 cm smaller where that is known.
function nextTier(tiers, unit) {
  const below_ = tiers.at(-1);
  if (!below_) return { size: unit === "cm" ? "20 cm" : "8 in", depth: unit === "cm" ? "10 cm" : "4 in" };
  const found = /^(\d+(?:\.\d+)?)\s*(in|cm|mm)?$/.exec(textOf(below_.size).trim());
  const less = { in: 2, cm: 5, mm: 50 }[found?.[2] ?? unit];
  const size = found && Number(found[1]) > 2 * less ? `${Number(found[1]) - less} ${found[2] ?? unit}` : below_.size;
  return { size, depth: below_.depth };
}

// What bare numbers meant so far is written beside them, so that the cake stays as it is.
function switchUnit(unit) {
  change((doc) => {
    const before = doc.cake.unit;
    if (before) spell(doc.cake, fields, before);
    doc.cake.unit = unit;
  });
  byId(`unit-${unit}`)?.focus();
}

function spell(table, found, unit) {
  for (const field of found) {
    const value = table[field.key];
    if (value === undefined) continue;
    if (field.kind === "length") table[field.key] = spelt(value, unit);
    else if (field.kind === "lengths" && Array.isArray(value)) table[field.key] = value.map((each) => spelt(each, unit));
    else if (field.kind === "table") spell(value, field.fields, unit);
    else if (field.kind === "tables" && Array.isArray(value)) value.forEach((each) => spell(each, field.fields, unit));
  }
}

function spelt(value, unit) {
  const text = textOf(value).trim();
  return text && bare.test(text) ? `${text} ${unit}` : value;
}

function units(field) {
  const value = current().cake.unit;
  return el("fieldset", { class: "units" }, el("legend", {}, "A bare number is in"),
    ...field.choices.map((word) => {
      const radio = el("input", { type: "radio", name: "unit", id: `unit-${word}`, value: word, onchange: () => switchUnit(word) });
      radio.checked = value === word;
      return el("label", { class: "tick" }, radio, { in: "inches", cm: "cm", mm: "mm" }[word] ?? word);
    }),
    el("p", { class: "help" }, "8 1/2, 8.5 and 8½ are all read. Any field may say its own unit: 5 mm."),
    el("p", { class: "problem", id: "f-unit-problem" }));
}

export function render(root) {
  const focused = document.activeElement?.id;
  conditional = [];
  const tierField = fields.find((each) => each.key === "tier");
  const unitField = fields.find((each) => each.key === "unit");
  const own = fields.filter((each) => each !== tierField && each !== unitField);
  const main = own.filter((each) => each.always);
  const tiers = Array.isArray(current().cake.tier) ? current().cake.tier : [];
  root.replaceChildren(...[
    el("section", { class: "whole", "aria-label": "The whole cake" },
      el("div", { class: "fields" }, ...rows(main, [])),
      units(unitField),
      more("cake", "Board, margins, day, toppers, estimates", rows(own.filter((each) => !main.includes(each)), []))),
    el("div", { class: "add" },
      el("button", { type: "button", id: "add-tier", class: "main", "aria-describedby": "f-tier-problem", onclick: () => {
        change((doc) => {
          const list = Array.isArray(doc.cake.tier) ? doc.cake.tier : [];
          doc.cake.tier = [...list, nextTier(list, doc.cake.unit ?? "in")];
        });
        byId(idOf(["tier", current().cake.tier.length - 1, "name"]))?.focus();
      } }, tiers.length ? "Add a tier on top" : "Add the bottom tier"),
      el("p", { class: "problem", id: "f-tier-problem" })),
    ...tiers.map((_, place) => tierCard(tierField, place, tiers.length)).reverse(),
  ]);
  root.inert = isReadOnly();
  hideIdle();
  if (focused) byId(focused)?.focus();
}

// Show each problem at its field, or the nearest thing round it that is on the page.
export function showProblems(problems) {
  for (const element of document.querySelectorAll("#form .problem")) element.textContent = "";
  for (const element of document.querySelectorAll("#form [aria-invalid]")) element.removeAttribute("aria-invalid");
  for (const problem of problems) {
    let path = problem.key;
    while (path.length && !byId(`${idOf(path)}-problem`)) path = path.slice(0, -1);
    const place = byId(`${idOf(path)}-problem`);
    if (!place) continue;
    place.append(el("span", {}, messageOf(problem)));
    byId(idOf(path))?.setAttribute("aria-invalid", "true");
    for (let owner = place.closest("details"); owner; owner = owner.parentElement.closest("details")) owner.open = true;
  }
}

export const messageOf = (problem) =>
  [`Found ${problem.found}`, `Allowed: ${problem.allowed}`, `What to do: ${problem.advice}`]
    .map((part) => (/[.?!…]$/.test(part) ? part : `${part}.`)).join(" ");

// The element of a key, or of the nearest key above it that has one.
export function nearest(key) {
  for (let path = key; path.length; path = path.slice(0, -1)) {
    const found = byId(idOf(path)) ?? byId(`${idOf(path)}-title`);
    if (found) return found;
  }
  return byId("add-tier");
}
