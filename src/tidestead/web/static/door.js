// Talks to the door: posts changes, remembers which text of the plan the page shows, says things to the reader.
let digest = document.body.dataset.digest;
let count = Number(document.body.dataset.count);
let reached = 0;

export const base = () => digest;

/** How often Tidestead was reached again after it had been away. */
export const connections = () => reached;

/** The plan's text by now; news of an earlier one that comes late is passed over, but not `anew`. */
export function setBase(fresh, {anew = false} = {}) {
  if (!anew && !(fresh.count >= count)) return;
  if (anew) reached += 1;
  ({digest, count} = fresh);
  Object.assign(document.body.dataset, {digest, count});
}

const AWAY = "Tidestead cannot be reached. Is it still running?";

async function asked(url, settings) {
  try {
    const reply = await fetch(url, settings);
    const told = await reply.json().catch(() => ({}));
    const words = typeof told.words === "string" ? told.words : reply.ok ? "" : "That could not be done.";
    return {faults: [], ...told, words, ok: reply.ok, status: reply.status};
  } catch {
    return {ok: false, status: 0, words: AWAY, faults: []};
  }
}

/** Posts JSON. The reply's fields with `ok`, `status`, `words` and `faults`, whatever happens. */
export const post = (url, body) => asked(url, {method: "POST", headers: {"Content-Type": "application/json"}, body: JSON.stringify(body)});

/** What stands at an address, as `post` tells it. */
export const ask = (url) => asked(url, {});

let turn = Promise.resolve();

/** Makes one change after another: each builds on what was saved before it. What the work returns. */
export function inTurn(work) {
  const mine = turn.then(work);
  turn = mine.catch((error) => {
    say("Something went wrong on this page. What you typed is still here; read the page anew before you go on.");
    reportError(error);
  });
  return mine;
}

/** Takes back what was said: something under a field or in its place says otherwise now. */
export function hush() {
  document.getElementById("said").classList.remove("shown");
  lastSaid = {words: "", at: -Infinity, isNews: false};
}

const AT_ONCE = 1500; // milliseconds in which news belong to what was just done; own choice
let lastSaid = {words: "", at: -Infinity, isNews: false};

/**
 * Says something to the reader, and to a screen reader. What one has done oneself and news that come with it are said
 * together, one's own first.
 */
export function say(words, {isNews = false} = {}) {
  const place = document.getElementById("said");
  const before = performance.now() - lastSaid.at < AT_ONCE && lastSaid.isNews !== isNews ? lastSaid.words : "";
  place.textContent = (isNews ? [before, words] : [words, before]).filter(Boolean).join(" ");
  place.classList.add("shown");
  lastSaid = {words, at: performance.now(), isNews};
  clearTimeout(say.timer);
  say.timer = setTimeout(() => place.classList.remove("shown"), 7000);
}

const STAYS = 2500; // milliseconds after which a page that is still here was not left; own choice
let going = false;

/** Whether the page is being left for another. */
export const isGoing = () => going;

/** Leaves for another page, which says what was done; before that, what has just been said here. */
export function goAndSay(url, words, {isNews = false} = {}) {
  if (going) return;
  going = true;
  const before = isNews && performance.now() - lastSaid.at < AT_ONCE ? `${lastSaid.words} ` : "";
  sessionStorage.setItem("tidestead-said", before + words);
  location.assign(url);
  setTimeout(() => { // its reader was asked, and stays
    going = false;
    sessionStorage.removeItem("tidestead-said");
    say(before + words);
    document.dispatchEvent(new CustomEvent("wanted"));
  }, STAYS);
}

/** A fault in a line of words, for who reads the file. */
export const faultWords = (fault) => [fault.given, fault.allowed, fault.advice].filter(Boolean).join(" ");
