// Which of the kept cakes is open in this tab, and that every change of it is kept.

import * as documents from "./documents.js";
import { clear, say, stand } from "./status.js";
import * as store from "./store.js";
import * as tabs from "./tabs.js";

/** @typedef {import("./documents.js").CakeRecord} CakeRecord */

const HERE = "cake-templates-open"; // the cake of this tab, over reloads

let saving = false;
let unsaved = false;
/** @type {(() => void)} */
let saveFile = () => {};

/** Keep the newest state; one write at a time. */
async function keep() {
  unsaved = true;
  if (saving) return;
  saving = true;
  while (unsaved) {
    unsaved = false;
    const record = store.record();
    tabs.show(record);
    try {
      await documents.put(record);
      clear("storage");
    } catch (error) {
      notKept(error);
    }
  }
  saving = false;
}

/** @param {unknown} error */
function notKept(error) {
  const full = error instanceof DOMException && error.name === "QuotaExceededError";
  stand("storage", {
    text: full
      ? "Not saved: this browser has no room left. Save your cake as a file, or delete some under My cakes."
      : "Not saved: this browser does not let the page keep anything. Save your cake as a file.",
    action: "Save the file",
    act: saveFile,
  });
}

function here(/** @type {string} */ id) {
  try {
    sessionStorage.setItem(HERE, id);
  } catch {
    // the tab then opens the newest cake after a reload
  }
}

function lastHere() {
  try {
    return sessionStorage.getItem(HERE);
  } catch {
    return null;
  }
}

/** @param {CakeRecord} record */
async function show(record) {
  const mine = await tabs.hold(record.id);
  here(record.id);
  store.load(record, !mine);
  if (mine) clear("elsewhere");
  else openElsewhere();
}

function openElsewhere() {
  stand("elsewhere", {
    text: "This cake is open in another tab. You see its changes here, but cannot make any.",
    action: "Edit here",
    act: editHere,
  });
}

async function editHere() {
  const { id } = store.current();
  await tabs.take(id);
  let newest;
  try {
    newest = await documents.get(id);
  } catch {
    // nothing is kept here: what was followed is the newest
  }
  store.load(newest ?? store.record(), false);
  clear("elsewhere");
  say("You can edit this cake here now.");
}

tabs.hear({
  followed(record) {
    if (store.isReadOnly() && record.id === store.current().id) store.load(record, true);
  },
  givenUp: keep,
  lost() {
    store.setReadOnly(true);
    openElsewhere();
  },
  removed(id) {
    if (id === store.current().id && store.isReadOnly()) say("This cake was deleted in another tab.");
  },
});

store.listen(({ edited }) => {
  if (edited) keep();
  else if (store.isReadOnly()) document.body.dataset.readonly = "yes";
  if (!store.isReadOnly()) delete document.body.dataset.readonly;
});

/** Forget the cake that is open, where nothing was ever done with it. */
async function forgetEmpty() {
  const { id, cake, history } = store.record();
  if (!id || cake.tier?.length || history.past.length || store.isReadOnly()) return;
  try {
    await documents.remove(id);
  } catch {
    // what cannot be kept was not
  }
}

/** Open a new cake beside the others. @param {{cake: any, opened?: string, files?: Record<string, string>}} of */
export async function openNew(of) {
  await forgetEmpty();
  await show(store.freshRecord({ ...of, id: documents.freshId() }));
  await keep();
}

/** Open a cake that is kept. @param {string} id */
export async function openKept(id) {
  const record = await documents.get(id);
  if (!record) throw new Error("This cake is no longer here.");
  await forgetEmpty();
  await show(record);
}

/** Delete a cake that is kept. @param {string} id */
export async function removeKept(id) {
  await documents.remove(id);
  tabs.sayRemoved(id);
}

/** All cakes that are kept, the newest first; none where the browser keeps nothing. */
export async function kept() {
  try {
    return await documents.all();
  } catch (error) {
    notKept(error);
    return [];
  }
}

/**
 * Open the cake this tab had, or the newest; say whether there was one.
 * @param {() => void} saveAsFile
 */
export async function begin(saveAsFile) {
  saveFile = saveAsFile;
  const before = documents.keptBefore();
  if (before) {
    await openNew(before);
    return true;
  }
  const found = await kept();
  const record = found.find(({ id }) => id === lastHere()) ?? found[0];
  if (!record) return false;
  await show(record);
  return true;
}
