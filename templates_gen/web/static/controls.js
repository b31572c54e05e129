// One control for each field: native, labelled, its help on demand, its problem below it.

import { byId, el } from "./dom.js";
import { at, description, exampleOf, fieldsAt, idOf, matters, put, sentence, textOf, unitOf, usualOf, valueOf } from "./model.js";
import { contentOf } from "./own_files.js";
import { exampleWith, picture, pictureOf } from "./pictures.js";
import { ask } from "./server.js";
import { say } from "./status.js";
import { change, current } from "./store.js";

/** @typedef {import("./model.js").Field} Field @typedef {import("./model.js").Path} Path */

const MOST_RADIOS = 4; // words without pictures that are shown as radios
const SWATCHES = ["white", "ivory", "blush", "pink", "peach", "lemon", "mint", "sage", "sky", "lavender", "gold", "chocolate"];

/** The controls of those fields that matter now. @param {Field[]} fields @param {Path} path */
export const controls = (fields, path) => fields
  .map((field) => ({ field, key: [...path, field.key] }))
  .filter(({ field, key }) => matters(field, key))
  .map(({ field, key }) => control(field, key));

/** @param {Field} field @param {Path} path @returns {HTMLElement} */
export function control(field, path) {
  const id = idOf(path);
  const about = { id, "data-key": JSON.stringify(path), "aria-describedby": `${id}-help ${id}-problem` };
  if (field.kind === "yes") return yes(field, path, about);
  const table = String(path.filter((key) => typeof key === "string").at(-2) ?? "");
  if (field.kind === "words" && field.usual) {
    const drawn = field.choices.some((word) => pictureOf(table, field.key, word));
    if (drawn || field.choices.length <= MOST_RADIOS) return radios(field, path, table, drawn);
  }
  const make = { words, file, date }[/** @type {"words" | "file" | "date"} */ (field.kind)] ?? (field.choices.length ? suggested : line);
  return el("div", { class: `field ${field.kind}` },
    el("div", { class: "label" }, el("label", { for: id }, field.label), helper(field, id)),
    make(field, path, about),
    field.key === "colour" ? swatches(field, path) : null, problem(id));
}

/** A button that shows and hides the help of a field. @param {Field} field @param {string} id */
function helper(field, id) {
  const help = el("span", { class: "help", id: `${id}-help`, hidden: true }, sentence(field.help));
  const button = el("button", {
    type: "button", class: "ask", "aria-label": `About ${field.label}`, "aria-expanded": "false", "aria-controls": `${id}-help`,
    onclick: () => {
      help.hidden = !help.hidden;
      button.setAttribute("aria-expanded", String(!help.hidden));
    },
  }, "?");
  return el("span", { class: "helper" }, button, help);
}

/** @param {string} id */
const problem = (id) => el("p", { class: "problem", id: `${id}-problem` });

/** @param {Field} field @param {Path} path @param {any} about */
function yes(field, path, about) {
  const usual = field.usual === "yes";
  const box = el("input", {
    ...about, type: "checkbox",
    onchange: () => put(path, box.checked === usual ? undefined : box.checked),
  });
  box.checked = at(path) ?? usual;
  return el("div", { class: "field yes" },
    el("div", { class: "label" }, el("label", { class: "tick" }, box, field.label), helper(field, about.id)), problem(about.id));
}

/** @param {Field} field @param {Path} path @param {string} table @param {boolean} drawn */
function radios(field, path, table, drawn) {
  const id = idOf(path);
  const value = textOf(at(path) ?? field.usual);
  const choices = field.choices.map((word, index) => {
    const name = drawn && pictureOf(table, field.key, word);
    const radio = el("input", {
      type: "radio", name: id, id: `${id}-${word}`, value: word, "aria-describedby": `${id}-problem`,
      onchange: () => choose(field, path, table, word),
    });
    radio.checked = word === value;
    return el("label", { class: drawn ? "card" : "tick" }, radio,
      name ? picture(name) : null, el("span", {}, sentence(field.names[index])));
  });
  return el("fieldset", { class: `field choice${drawn ? " drawn" : ""}`, id, tabindex: "-1" },
    el("legend", {}, field.label), helper(field, id), el("div", { class: "choices" }, ...choices), problem(id));
}

/** @type {Map<string, any>} what tiers had for other shapes: with those they have it again */
const aside = new Map();

/** Choose a word; what it needs beside it is given in the same step. @param {Field} field @param {Path} path @param {string} name of the table @param {string} word */
async function choose(field, path, name, word) {
  const owner = path.slice(0, -1);
  let needed = exampleWith(name, field.key, word)?.values[unitOf()] ?? {};
  /** @type {Field[]} those that only some shapes have */
  let shaped = [];
  if (field.key === "shape" && owner[0] === "tier" && owner.length === 2) {
    shaped = fieldsAt(owner).filter((each) => each.only_by === "shape");
    try {
      needed = await (await ask("shape", { tier: at(owner) }, { shape: word, unit: unitOf() })).json();
    } catch {
      // what is missing is said at its field
    }
  }
  if (!shaped.length && !Object.keys(needed).length) {
    put(path, word === field.usual ? undefined : word); // which makes a table that is not there yet
    return;
  }
  change((doc) => {
    const table = at(owner, doc.cake);
    for (const { key, only } of shaped) {
      const place = `${current().id} ${owner.join(".")}.${key}`;
      if (only.includes(word)) table[key] ??= aside.get(place);
      else if (table[key] !== undefined) aside.set(place, table[key]);
      if (!only.includes(word) || table[key] === undefined) delete table[key];
    }
    for (const [key, value] of Object.entries(needed)) table[key] ??= value;
    if (word === field.usual) delete table[field.key];
    else table[field.key] = word;
  });
}

/** @param {Field} field @param {Path} path @param {any} about */
function words(field, path, about) {
  const value = at(path);
  const known = value === undefined || field.choices.includes(value);
  const select = el("select", {
    ...about, onchange: () => put(path, select.value === "" ? undefined : select.value),
  },
  el("option", { value: "" }, field.usual ? `${field.usual} (default)` : "automatic"),
  ...(known ? [] : [el("option", { value: textOf(value) }, textOf(value))]),
  ...field.choices.map((word, index) => [word, field.names[index]]).filter(([word]) => word !== field.usual || value === word)
    .map(([word, name]) => el("option", { value: word }, name)));
  select.value = value === undefined ? "" : textOf(value);
  return select;
}

const OTHER = "other";

/** Words of which one is likely, or another text. @param {Field} field @param {Path} path @param {any} about */
function suggested(field, path, about) {
  const value = textOf(at(path) ?? field.usual);
  const isKnown = field.choices.includes(value);
  const other = el("input", {
    id: `${about.id}-other`, type: "text", hidden: isKnown, "aria-label": `${field.label}: another`, placeholder: `such as ${exampleOf(field)}`,
    oninput: () => put(path, valueOf(field, other.value), { group: about.id, redraw: false }),
  });
  other.value = isKnown ? "" : value;
  const select = el("select", { ...about, onchange: () => {
    other.hidden = select.value !== OTHER;
    if (other.hidden) put(path, select.value === field.usual ? undefined : select.value);
    else other.focus();
  } }, ...field.choices.map((word, index) => el("option", { value: word }, sentence(field.names[index]))), el("option", { value: OTHER }, "Another…"));
  select.value = isKnown ? value : OTHER;
  return el("div", { class: "chosen" }, select, other);
}

/** @param {Field} field @param {Path} path @param {any} about */
function line(field, path, about) {
  const input = el("input", {
    ...about, type: "text", spellcheck: "false",
    placeholder: usualOf(field) || (field.needed ? "" : `${field.automatic ? "automatic, or" : "such as"} ${exampleOf(field)}`),
    inputmode: field.kind === "count" ? "numeric" : null,
    "aria-required": field.needed ? "true" : null,
    oninput: () => put(path, valueOf(field, input.value), { group: about.id, redraw: false }),
  });
  input.value = textOf(at(path));
  return input;
}

/** A day and an hour, chosen; what the browser cannot show as one stays a text. @param {Field} field @param {Path} path @param {any} about */
function date(field, path, about) {
  const [first, last] = description.years;
  const input = el("input", {
    ...about, type: "datetime-local", min: `${first}-01-01T00:00`, max: `${last}-12-31T23:59`,
    oninput: () => put(path, input.value.replace("T", " ") || undefined, { group: about.id, redraw: false }),
  });
  const value = textOf(at(path));
  input.value = value.replace(" ", "T");
  return value && !input.value ? line(field, path, about) : input;
}

/** @param {Field} field @param {Path} path */
function swatches(field, path) {
  const value = textOf(at(path) ?? field.usual);
  return el("div", { class: "swatches", role: "group", "aria-label": `${field.label}: common ones` }, ...SWATCHES.map((word) => {
    const button = el("button", {
      type: "button", class: "swatch", id: `${idOf(path)}-${word}`, "aria-label": sentence(word), title: word, "aria-pressed": String(word === value),
      onclick: () => put(path, word === field.usual ? undefined : word),
    });
    button.style.backgroundColor = `#${description.colours[word]}`;
    return button;
  }));
}

/** @param {Field} field @param {Path} path @param {any} about */
function file(field, path, about) {
  const value = textOf(at(path));
  const chooser = el("input", {
    id: `${about.id}-file`, type: "file", accept: field.endings.join(","),
    "aria-label": `${field.label}: a file of your own`,
    onclick: () => { // a file that was mended is chosen again under its name
      chooser.value = "";
    },
    onchange: () => attach(chooser.files[0], path, about.id),
  });
  const options = ["", ...new Set([...field.choices.filter((word) => word !== field.usual), ...(value ? [value] : [])])];
  const select = el("select", {
    ...about, onchange: () => put(path, select.value === "" ? undefined : select.value),
  }, ...options.map((word) => el("option", { value: word }, word || (field.usual ? `${field.usual} (default)` : "no file"))));
  select.value = value === field.usual ? "" : value;
  return el("div", { class: "chosen" }, select, el("label", { class: "help", for: chooser.id }, "Or a file of your own:"), chooser);
}

/** @param {File | undefined} chosen @param {Path} path @param {string} id */
async function attach(chosen, path, id) {
  if (!chosen) return;
  let content = "";
  try {
    content = await contentOf(chosen);
  } catch (error) {
    byId(`${id}-problem`).textContent = error.message;
    say(error.message);
    return;
  }
  change((doc) => {
    doc.files[chosen.name] = content;
    const owner = path.slice(0, -1).reduce((/** @type {any} */ value, key) => value[key], doc.cake);
    owner[path[path.length - 1]] = chosen.name;
  });
}
