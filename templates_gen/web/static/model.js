// What the page knows of cake files, as the server describes them, and the cake's values by path.

import { change, current } from "./store.js";

/**
 * @typedef {{key: string, label: string, help: string, example: Record<string, string>, usual_in: Record<string, string>, kind: string, needed: boolean,
 *   rank: number, tab: string, usual: string, choices: string[], names: string[], endings: string[],
 *   fields: Field[], optional: boolean, automatic: boolean, only_by: string, only: string[]}} Field
 * @typedef {(string | number)[]} Path
 * @typedef {{table: string, name: string, values: Record<string, any>, beside: any}} Choice
 */

export const description = {
  /** @type {Field[]} */
  fields: [],
  /** What a place calls what the fields say, by the UK's words. @type {Record<string, Record<string, string>>} */
  said: {},
  /** @type {Choice[]} */
  choices: [],
  /** @type {Record<string, string>} */
  colours: {},
  bare: "",
  largest_file: 0,
  largest_cake: 0,
  /** @type {Record<string, {mm: number, decimals: number, first: {size: string, depth: string}, smaller: number}>} */
  units: {},
  /** @type {number[]} */
  years: [],
  /** What one of several is called, by its table. @type {Record<string, string>} */
  one_of: {},
};

/** @param {typeof description} found */
export const describe = (found) => Object.assign(description, found);

/** @param {Field[]} fields @param {Record<string, string>} said @returns {Field[]} */
const spelled = (fields, said) => fields.map((each) => ({
  ...each,
  label: said[each.label] ?? each.label,
  help: said[each.help] ?? each.help,
  names: each.names.map((name) => said[name] ?? name),
  fields: spelled(each.fields, said),
}));

/** @type {Map<string, Field[]>} */
const inWords = new Map();

/** The fields of a cake, in the words of the cake that is open. */
export function cakeFields() {
  const place = String(current().cake.words ?? "");
  const said = description.said[place];
  if (!said) return description.fields;
  if (!inWords.has(place)) inWords.set(place, spelled(description.fields, said));
  return inWords.get(place) ?? description.fields;
}

/** What numbers without a unit are in. @returns {string} */
export const unitOf = () => current().cake.unit ?? "in";

/** @param {Field} field */
export const exampleOf = (field) => field.example[unitOf()] ?? field.example.in;

/** What holds where a field is left empty, in the unit of the cake. @param {Field} field */
export const usualOf = (field) => field.usual_in[unitOf()] ?? field.usual_in.in;

/** @param {Path} path */
export const idOf = (path) => `f-${path.join("-")}`;

/** @param {Path} path @param {any} [cake] @returns {any} */
export const at = (path, cake = current().cake) => path.reduce((value, key) => value?.[key], cake);

/** The fields of the table at a path. @param {Path} path @returns {Field[]} */
export const fieldsAt = (path) => path.reduce(
  (found, key) => (typeof key === "number" ? found : found.find((each) => each.key === key)?.fields ?? []),
  cakeFields(),
);

/** @param {Path} path @returns {Field | undefined} */
export function fieldAt(path) {
  const names = path.filter((key) => typeof key === "string");
  return fieldsAt(names.slice(0, -1)).find((each) => each.key === names.at(-1));
}

/** Set a value, or take it away with undefined; tables on the way are made. @param {Path} path @param {any} value @param {object} [options] */
export function put(path, value, options) {
  change((doc) => {
    const owners = [doc.cake];
    for (const [index, key] of path.slice(0, -1).entries()) {
      owners.push(owners[index][key] ??= {});
    }
    const key = path[path.length - 1];
    const owner = owners[path.length - 1];
    if (value === undefined && Array.isArray(owner)) owner.splice(Number(key), 1);
    else if (value === undefined) delete owner[key];
    else owner[key] = value;
    if (value === undefined) tidy(owners, path);
  }, options);
}

/** Take away what has become empty and says nothing by being there. @param {any[]} owners @param {Path} path */
function tidy(owners, path) {
  const owner = owners[path.length - 1];
  const inner = path.slice(0, -1);
  const isEmpty = Array.isArray(owner) ? !owner.length : !Object.keys(owner).length;
  if (!inner.length || !isEmpty || typeof inner.at(-1) === "number" || fieldAt(inner)?.optional) return;
  delete owners[path.length - 2][inner[inner.length - 1]];
}

/** The value of a text as a cake file has it; a text that is no number goes as it is, to be refused. @param {Field} field @param {string} text */
export function valueOf(field, text) {
  const trimmed = text.trim();
  if (trimmed === "" && !field.needed) return undefined;
  if (field.kind === "count" && /^[-+]?\d{1,15}$/.test(trimmed)) return Number(trimmed);
  // a comma before three figures may mean thousands: the server says what it reads it as
  if (field.kind === "number" && /^[-+]?\d{1,15}([.,]\d*)?$/.test(trimmed) && !/^[1-9]\d{0,2},\d{3}$/.test(trimmed)) {
    return Number(trimmed.replace(",", "."));
  }
  // a comma with a figure right after it is that of a number: 20,5 cm
  if (field.kind === "lengths") return text.split(/;|,\s+/).map((part) => part.trim()).filter(Boolean);
  return text;
}

/** @param {any} value @returns {string} */
export const textOf = (value) => (Array.isArray(value) ? value.join("; ") : value ?? "").toString();

/** @returns {any[]} */
export const tiers = () => (Array.isArray(current().cake.tier) ? current().cake.tier : []);

/** Whether there is nothing to make: no tier, and no letter cake. */
export const isNothing = () => !tiers().length && !current().cake.letter_cake?.length;

/** @param {number} index */
export const tierName = (index) => textOf(tiers()[index]?.name) || `tier ${index + 1}`;

/** A text with a capital; the name of a file stays as it is. @param {string} text */
export const sentence = (text) => (/^\S+\.[a-z]+\b/.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1));

/** Whether a field matters beside the words chosen now. @param {Field} field @param {Path} path */
export function matters(field, path) {
  if (!field.only_by || at(path) !== undefined) return true;
  const beside = [...path.slice(0, -1), field.only_by];
  return field.only.includes(at(beside) ?? fieldAt(beside)?.usual);
}
