// The cakes that this browser keeps, in its own database. A record is
// {id, title, changed, cake, opened, files, history}; history is {schema, past, future}.

/**
 * @typedef {{schema: number, past: string[], future: string[]}} History
 * @typedef {{id: string, title: string, changed: number, cake: any, opened: string,
 *   files: Record<string, string>, history: History}} CakeRecord
 */

const DATABASE = "cake-templates";
const STORE = "documents";
const BEFORE = "cake-templates"; // where an earlier version kept its only cake

/** @type {Promise<IDBDatabase> | null} */
let opening = null;

/** @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
const answered = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

/** @returns {Promise<IDBDatabase>} */
function database() {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 1); // throws where storage is forbidden
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: "id" });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error("blocked"));
  });
  return opening;
}

/** @param {IDBTransactionMode} mode */
const store = async (mode) => (await database()).transaction(STORE, mode).objectStore(STORE);

/** @param {CakeRecord} record @returns {Promise<void>} */
export async function put(record) {
  const objects = await store("readwrite");
  const done = new Promise((resolve, reject) => {
    objects.transaction.oncomplete = () => resolve(undefined);
    objects.transaction.onabort = () => reject(objects.transaction.error ?? new Error("not kept"));
  });
  objects.put(record);
  await done; // only now is it on the disk
}

/** @param {string} id @returns {Promise<CakeRecord | undefined>} */
export const get = async (id) => answered((await store("readonly")).get(id));

/** Return all records, the newest first. @returns {Promise<CakeRecord[]>} */
export async function all() {
  const found = /** @type {CakeRecord[]} */ (await answered((await store("readonly")).getAll()));
  return found.sort((one, other) => other.changed - one.changed);
}

/** @param {string} id */
export const remove = async (id) => answered((await store("readwrite")).delete(id));

/** A name for a new cake, which also a page that is not served safely can make. */
export const freshId = () =>
  [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

/** Return the only cake that an earlier version kept, and forget that place; or null. */
export function keptBefore() {
  try {
    const found = JSON.parse(localStorage.getItem(BEFORE) ?? "null");
    localStorage.removeItem(BEFORE);
    return found && typeof found.cake === "object" ? found : null;
  } catch {
    return null;
  }
}
