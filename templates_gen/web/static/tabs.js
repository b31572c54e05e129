// One tab edits a cake; others that show it follow. Who edits holds a lock of the browser. A page
// that is not served safely has no locks: there the tabs ask each other.

const channel = new BroadcastChannel("cake-templates");
const ANSWER = 200; // ms in which a tab says that it edits a cake
const PATIENCE = 2000; // ms after which a tab that does not let go has its lock taken

/** @typedef {{followed: (record: any) => void, givenUp: () => Promise<void>, lost: () => void, removed: (id: string) => void}} Hears */

/** @type {string | null} */
let held = null;
/** @type {(() => void) | null} */
let release = null;
/** @type {Hears | null} */
let hears = null;

/** @param {string} id */
const lockOf = (id) => `cake-templates-${id}`;

/** @param {Hears} listener */
export function hear(listener) {
  hears = listener;
}

channel.addEventListener("message", async ({ data }) => {
  if (data.kind === "record") hears?.followed(data.record);
  if (data.kind === "removed") hears?.removed(data.id);
  if (data.id !== held || held === null) return;
  if (data.kind === "who") channel.postMessage({ kind: "mine", id: held });
  if (data.kind === "give") {
    await hears?.givenUp();
    letGo();
    hears?.lost();
    channel.postMessage({ kind: "given", id: data.id });
  }
});

/** Wait for a word of another tab. @param {string} kind @param {string} id @param {number} most @returns {Promise<boolean>} */
function word(kind, id, most) {
  return new Promise((resolve) => {
    const end = (/** @type {boolean} */ heard) => {
      channel.removeEventListener("message", listen);
      resolve(heard);
    };
    const listen = (/** @type {MessageEvent} */ { data }) => {
      if (data.kind === kind && data.id === id) end(true);
    };
    channel.addEventListener("message", listen);
    setTimeout(end, most, false);
  });
}

/** @param {string} id @param {LockOptions} options @returns {Promise<boolean>} */
function lock(id, options) {
  return new Promise((resolve) => {
    navigator.locks.request(lockOf(id), options, (got) => {
      resolve(got !== null);
      return got && new Promise((done) => { release = () => done(undefined); });
    }).catch(() => { // another tab took it
      if (held === id) {
        held = null;
        hears?.lost();
      }
    });
  });
}

/** Try to be the tab that edits a cake. @param {string} id @returns {Promise<boolean>} */
export async function hold(id) {
  if (held === id) return true;
  letGo();
  if (navigator.locks) {
    if (!(await lock(id, { ifAvailable: true }))) return false;
  } else {
    const mine = word("mine", id, ANSWER);
    channel.postMessage({ kind: "who", id });
    if (await mine) return false;
  }
  held = id;
  return true;
}

/** Become the tab that edits a cake; the one that did so keeps its last change first. @param {string} id */
export async function take(id) {
  const given = word("given", id, PATIENCE);
  channel.postMessage({ kind: "give", id });
  await given;
  if (navigator.locks) await lock(id, { steal: true });
  held = id;
}

function letGo() {
  held = null;
  release?.();
  release = null;
}

/** Show others what the cake is now. @param {any} record */
export const show = (record) => channel.postMessage({ kind: "record", record });

/** @param {string} id */
export const sayRemoved = (id) => channel.postMessage({ kind: "removed", id });
