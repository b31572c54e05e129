// The cake being planned and its past. A step is the data of the cake and the text it was opened
// from; files that were chosen stay beside the steps, by name.

/** @typedef {import("./documents.js").CakeRecord} CakeRecord */

const SCHEMA = 1; // of the steps: those of another number are left behind
const MOST_STEPS = 200;
const PAUSE = 1200; // ms after which typing on in a field is a step of its own

/** @type {{id: string, cake: any, opened: string, files: Record<string, string>}} */
let doc = { id: "", cake: {}, opened: "", files: {} };
/** @type {string[]} */
let past = [];
/** @type {string[]} */
let future = [];
/** @type {{group: string | null, at: number}} */
let latest = { group: null, at: 0 };
let changed = 0;
let readOnly = false;
/** @type {((what: {redraw: boolean, edited: boolean}) => void)[]} */
const listeners = [];

export const current = () => doc;
export const titleOf = (/** @type {any} */ cake) => (typeof cake?.title === "string" && cake.title.trim()) || "Cake without a name";
/** The names of those files that the cake has now, of all that were ever chosen. */
export const filesInUse = () => Object.keys(doc.files).filter((name) => JSON.stringify(doc.cake).includes(JSON.stringify(name)));
export const isReadOnly = () => readOnly;
export const canUndo = () => !readOnly && past.length > 0;
export const canRedo = () => !readOnly && future.length > 0;

/** @param {(what: {redraw: boolean, edited: boolean}) => void} listener */
export function listen(listener) {
  listeners.push(listener);
}

/** @param {boolean} redraw @param {boolean} edited */
function notify(redraw, edited) {
  for (const listener of listeners) listener({ redraw, edited });
}

const stepNow = () => JSON.stringify({ cake: doc.cake, opened: doc.opened });

/**
 * Change the cake by a function. Changes of one group that follow each other at once are one step.
 * @param {(doc: {cake: any, opened: string, files: Record<string, string>}) => void} edit
 * @param {{group?: string | null, redraw?: boolean}} options
 */
export function change(edit, { group = null, redraw = true } = {}) {
  if (readOnly) {
    notify(true, false);
    return;
  }
  const now = Date.now();
  if (group === null || group !== latest.group || now - latest.at > PAUSE) {
    past.push(stepNow());
    past = past.slice(-MOST_STEPS);
  }
  latest = { group, at: now };
  changed = now;
  future = [];
  edit(doc);
  notify(redraw, true);
}

/** @param {string[]} from @param {string[]} to */
function step(from, to) {
  const next = from.pop();
  if (readOnly || next === undefined) return;
  to.push(stepNow());
  Object.assign(doc, JSON.parse(next));
  latest = { group: null, at: 0 };
  changed = Date.now();
  notify(true, true);
}

export const undo = () => step(past, future);
export const redo = () => step(future, past);

/** Show a cake that is kept, with its past. @param {CakeRecord} record @param {boolean} toRead */
export function load(record, toRead) {
  const { id, cake, opened, files } = structuredClone(record);
  doc = { id, cake, opened, files };
  const known = record.history?.schema === SCHEMA;
  past = known ? [...record.history.past] : [];
  future = known ? [...record.history.future] : [];
  latest = { group: null, at: 0 };
  changed = record.changed;
  readOnly = toRead;
  notify(true, false);
}

/** @param {boolean} toRead */
export function setReadOnly(toRead) {
  readOnly = toRead;
  notify(true, false);
}

/** Return the cake as it is kept. @returns {CakeRecord} */
export const record = () =>
  structuredClone({ ...doc, title: titleOf(doc.cake), changed, history: { schema: SCHEMA, past, future } });

/** Return a cake with no past. @param {{id: string, cake: any, opened?: string, files?: Record<string, string>}} of @returns {CakeRecord} */
export const freshRecord = ({ id, cake, opened = "", files = {} }) =>
  ({ id, title: titleOf(cake), changed: Date.now(), cake, opened, files, history: { schema: SCHEMA, past: [], future: [] } });
