// The cake being planned, its past, and where the browser keeps it. A document is
// {cake, opened, files}: the data of a cake file, the text it was opened from, files by name.

const PLACE = "cake-templates";
const MOST_STEPS = 200;
const PAUSE = 1200; // ms after which typing on in a field is a step of its own

let doc = { cake: {}, opened: "", files: {} };
let past = [];
let future = [];
let latest = { group: null, at: 0 };
const listeners = [];

const copy = (value) => JSON.parse(JSON.stringify(value));

export const current = () => doc;

export function listen(listener) {
  listeners.push(listener);
}

function tell(redraw) {
  try {
    localStorage.setItem(PLACE, JSON.stringify(doc));
  } catch {
    // no room, or none allowed: the work goes on without
  }
  for (const listener of listeners) listener(redraw);
}

// Change the cake by a function. Changes of one group that follow each other at once are one step.
export function change(edit, { group = null, redraw = true } = {}) {
  const now = Date.now();
  if (group === null || group !== latest.group || now - latest.at > PAUSE) {
    past.push(JSON.stringify(doc));
    past = past.slice(-MOST_STEPS);
  }
  latest = { group, at: now };
  future = [];
  edit(doc);
  tell(redraw);
}

export function replace(next) {
  change(() => { doc = { opened: "", files: {}, ...copy(next) }; });
}

export const canUndo = () => past.length > 0;
export const canRedo = () => future.length > 0;

function step(from, to) {
  if (!from.length) return;
  to.push(JSON.stringify(doc));
  doc = JSON.parse(from.pop());
  latest = { group: null, at: 0 };
  tell(true);
}

export const undo = () => step(past, future);
export const redo = () => step(future, past);

// Return what was kept, or null.
export function kept() {
  try {
    const found = JSON.parse(localStorage.getItem(PLACE));
    return found && typeof found.cake === "object" ? found : null;
  } catch {
    return null;
  }
}

export function start(first) {
  doc = { opened: "", files: {}, ...copy(first) };
  past = [];
  future = [];
  tell(true);
}
