// Talks to the door: posts changes, remembers which text of the plan the page shows, says things to the reader.
let digest = document.body.dataset.digest;

export const base = () => digest;

export function setBase(fresh) {
  digest = fresh;
  document.body.dataset.digest = fresh;
}

/** Posts JSON. The reply's fields with `ok`, `status`, `words` and `faults`, whatever happens. */
export async function post(url, body) {
  try {
    const reply = await fetch(url, {method: "POST", headers: {"Content-Type": "application/json"}, body: JSON.stringify(body)});
    const told = await reply.json().catch(() => ({}));
    const words = typeof told.words === "string" ? told.words : reply.ok ? "" : "That could not be done.";
    return {faults: [], ...told, words, ok: reply.ok, status: reply.status};
  } catch {
    return {ok: false, status: 0, words: "Tidestead cannot be reached. Is it still running?", faults: []};
  }
}

let turn = Promise.resolve();

/** Makes one change after another: each builds on what was saved before it. What the work returns. */
export function inTurn(work) {
  const mine = turn.then(work);
  turn = mine.catch(() => {});
  return mine;
}

/** Says something to the reader, and to a screen reader; only to the latter where it already `stands` on the page. */
export function say(words, {stands = false} = {}) {
  const place = document.getElementById("said");
  place.textContent = words;
  place.classList.toggle("shown", !stands);
  clearTimeout(say.timer);
  say.timer = setTimeout(() => place.classList.remove("shown"), 7000);
}

/** A fault in a line of words. */
export const faultWords = (fault) => [fault.given, fault.allowed, fault.advice].filter(Boolean).join(" ");
