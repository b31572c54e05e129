// Asking the server. Of one job one question is under way at most, and only the newest of those that
// come meanwhile is sent after it. Each answer is newer than what is shown, so it is shown. Of what
// has a coarse answer and took long the last time, or was never done, that is shown first. What is
// sent beside the body is looked up as a question goes out.

const LONG = 250; // ms

export async function ask(job, body, options = {}) {
  const query = new URLSearchParams(options).toString();
  const response = await fetch(query ? `${job}?${query}` : job, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(body),
  });
  if (response.ok) return response;
  let refusal = { message: `The server answers ${response.status}.`, problems: [] };
  try {
    refusal = { ...refusal, ...(await response.json()) };
  } catch {
    // the words above will do
  }
  throw Object.assign(new Error(refusal.message), { problems: refusal.problems });
}

export function latestOnly(job, { done, failed, hasCoarse = false, beside = () => ({}) }) {
  let took = Infinity;
  let busy = false;
  let waiting = null;
  let newest = 0;
  async function send({ body, options, turn }) {
    busy = true;
    try {
      if (hasCoarse && took > LONG) done(await (await ask(job, body, { ...options, coarse: 1 })).json(), false);
      const start = performance.now();
      const answer = await (await ask(job, { ...body, ...beside() }, options)).json();
      took = performance.now() - start;
      done(answer, turn === newest);
    } catch (error) {
      if (turn === newest) failed(error);
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
    const question = { body, options, turn: newest };
    if (busy) waiting = question;
    else send(question);
  };
}

// Let the browser save what an answer holds, under the name it has there.
export async function keep(response) {
  const named = /filename="?([^";]+)"?/.exec(response.headers.get("Content-Disposition") || "");
  const link = document.createElement("a");
  link.href = URL.createObjectURL(await response.blob());
  link.download = named ? named[1] : "cake";
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}
