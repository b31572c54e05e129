// Asking the server. Of one job one question is under way at most, and only the newest of those that
// come meanwhile is sent after it. Each answer is newer than what is shown, so it is shown. Of what
// has a coarse answer and took long the last time, or was never done, that is shown first; it stays
// where the whole takes too long. The first whole answer for a cake does not count as long: an edit
// changes only a part of it, and the server may still have been starting. A newer question ends a
// long one of which something is shown, or whose job was shown shortly before: the server gives it
// up. What is sent beside the body is looked up as a question goes out. While no server answers, the
// newest question of each job waits and is sent again and again. What fails for a state that is past,
// where a job is not requested at every edit, is not said: it may be right by now.

import { clear, say, stand } from "./status.js";

const LONG = 250; // ms
const AGAIN = 2000; // ms between two tries
const STALE = 1000; // ms after which an answer is due, also to a question that is not the newest
const TAB = Array.from(crypto.getRandomValues(new Uint32Array(4)), (each) => each.toString(36)).join("");

let epoch = 0; // counts the cakes that were opened

/** Show no answer to an earlier question: another cake is open now. */
export function drop() {
  epoch += 1;
}

/** @typedef {Error & {problems?: any[], gone?: boolean, late?: boolean}} Refusal */

const TOO_LARGE = 413; // HTTP, from the program or from the server before it, which has no words for it

/** @param {string} job @param {any} body @param {Record<string, any>} options @param {AbortSignal} [signal] */
export async function ask(job, body, options = {}, signal) {
  const query = new URLSearchParams(options).toString();
  const response = await reached(query ? `${job}?${query}` : job, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(body),
    signal,
  });
  if (response.ok) return response;
  if (response.status === TOO_LARGE) throw Object.assign(new Error("This is more than the page takes at once, 1 MB: use a smaller file."), { problems: [] });
  let refusal = { message: `The server answers ${response.status}.`, problems: [] };
  try {
    refusal = { ...refusal, ...(await response.json()) };
  } catch {
    // the words above will do
  }
  throw Object.assign(new Error(refusal.message), { problems: refusal.problems, late: response.status === 503 });
}

let isGone = false;

/** Fail where the server was gone and still is: what the browser would open then is a page of its own. */
export async function answers() {
  if (isGone) await reached("alive");
}

/** Fetch from the server, and say whether there is one. @param {string} address @param {RequestInit} [init] */
export async function reached(address, init) {
  try {
    const response = await fetch(address, init);
    if (isGone) say("The server is back.");
    isGone = false;
    clear("server");
    return response;
  } catch (error) {
    if (init?.signal?.aborted) throw error;
    isGone = true;
    stand("server", {
      text: "The server has stopped: start it again as you did before. You can go on: your cake is kept here, and the picture follows when the server is back.",
    });
    throw Object.assign(new Error("The server does not answer. Start it again with templates-gen serve."), { gone: true });
  }
}

/**
 * @param {string} job
 * @param {{done: (answer: any, isNewest: boolean) => void, failed: (error: Refusal) => void,
 *   hasCoarse?: boolean, beside?: () => object, stateNow?: () => number}} how
 * @returns {(body: any, options?: Record<string, any>) => void}
 */
export function latestOnly(job, { done, failed, hasCoarse = false, beside = () => ({}), stateNow = () => 0 }) {
  let took = Infinity;
  let answeredFor = -1; // the cake of the last whole answer, as an epoch
  let busy = false;
  /** @type {any} */
  let waiting = null;
  let newest = 0;
  let answered = -Infinity; // when there was an answer, ms
  // of the question under way: since when, whether its coarse answer is shown, what ends it
  let since = 0;
  let isCoarse = false;
  let stop = new AbortController();
  async function send(/** @type {any} */ { body, options, turn, state }) {
    busy = true;
    const began = epoch;
    since = performance.now();
    isCoarse = false;
    stop = new AbortController();
    const get = async (/** @type {any} */ sent, /** @type {object} */ more = {}) =>
      (await ask(job, sent, { ...options, ...more, tab: TAB }, stop.signal)).json();
    const show = (/** @type {any} */ answer, /** @type {boolean} */ isNewest) => {
      answered = performance.now();
      if (began === epoch) done(answer, isNewest);
    };
    const showCoarse = async () => {
      show(await get(body, { coarse: 1 }), false);
      isCoarse = true;
    };
    try {
      if (hasCoarse && took > LONG) await showCoarse();
      const start = performance.now();
      const answer = await get({ ...body, ...beside() });
      took = answeredFor === began ? performance.now() - start : 0;
      answeredFor = began;
      show(answer, turn === newest && state === stateNow());
    } catch (caught) {
      const error = /** @type {Refusal} */ (caught);
      if (error.late) {
        took = Infinity;
        if (hasCoarse && !isCoarse) await showCoarse().catch(() => {});
      }
      if (turn === newest && began === epoch && state === stateNow()) failed(error);
      if (error.gone) {
        waiting ??= { body, options, turn, state };
        await new Promise((resolve) => { setTimeout(resolve, AGAIN); });
      }
    }
    busy = false;
    if (waiting) {
      const next = waiting;
      waiting = null;
      send(next);
    }
  }
  return (body, options) => {
    newest += 1;
    const question = { body, options, turn: newest, state: stateNow() };
    if (!busy) {
      send(question);
      return;
    }
    waiting = question;
    const now = performance.now();
    if (isCoarse || (now - since > LONG && now - answered < STALE)) stop.abort();
  };
}

/** Let the browser save what an answer holds, under the name it has there. @param {Response} response */
export async function keep(response) {
  const named = /filename="?([^";]+)"?/.exec(response.headers.get("Content-Disposition") || "");
  saveAs(await response.blob(), named ? named[1] : "cake");
}

/** @param {Blob} blob @param {string} name */
export function saveAs(blob, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}
