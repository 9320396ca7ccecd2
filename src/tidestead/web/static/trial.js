// What is being tried: told at the top of the page, known to its fields, kept or left.
import {ask, base, inTurn, post, say, setBase} from "./door.js";

const LINES = 10;
const NONE = {number: 0, edits: [], fields: {}, at_work: false, questions: [], ended: "", ended_number: 0, words: ""};
let now = NONE;
let asked = 0;
let latest = Promise.resolve();
let aloud = false;
let ending = false;

/** What a field would show if the trial were kept; undefined where it is not tried. */
export const triedWords = (key) => now.fields[key];
export const trialNow = () => now;
export const triedKeys = () => now.edits.map((edit) => edit.key);
/** Whether a part that a key stands in is tried without. */
export const takenOut = (key) => now.edits.some((edit) => edit.value === null && key.startsWith(`${edit.key}.`));

/** Whether the page shows a trial, or knows of one. */
export const anyTrial = () => now.number > 0 || document.getElementById("trial") !== null;

/** Reads how the trial stands; a "trial" event tells it to fields. `news` says what is new aloud. Done when the latest look is. */
export function readTrial(news = false) {
  aloud ||= news;
  latest = look(++asked);
  return latest;
}

async function look(mine) {
  const reply = await ask("/api/trial");
  if (mine !== asked) return latest; // a later look is on its way
  if (!reply.ok) return undefined;
  const hasEnded = now !== NONE && reply.ended_number !== now.ended_number; // what ended before this page is no news
  const ended = hasEnded && !reply.number && !ending ? reply.words || (now.number ? "Nothing is being tried any more." : "") : "";
  now = reply;
  document.dispatchEvent(new CustomEvent("trial", {detail: now}));
  tell();
  if (ended) say(ended, {isNews: true});
  return undefined;
}

/** All it would change: verdicts first, then what would be worse. */
function changesOf(trial) {
  const weight = (change) => (change.check === "" ? 0 : change.better === false ? 1 : 2);
  const found = trial.questions.flatMap((question) => question.changes.map((change) => ({question: question.question, ...change})));
  return found.sort((one, other) => weight(one) - weight(other));
}

function lineOf(change) {
  const judged = change.better === null ? "" : change.better ? " (better)" : " (worse)";
  return `${change.question} ${change.what}: ${change.was} → ${change.now}${judged}`;
}

const element = (name, words) => Object.assign(document.createElement(name), {textContent: words});

function tell() {
  const place = document.getElementById("trial-told");
  if (!place || !now.number) return;
  const found = changesOf(now);
  const lines = found.slice(0, LINES).map(lineOf);
  if (found.length > LINES) lines.push(`and ${found.length - LINES} more`);
  const list = element("ul", "");
  list.className = "changes";
  list.append(...lines.map((words) => element("li", words)));
  const words = now.at_work ? "Being worked out." : lines.length ? "It would change:" : "It would change nothing that is checked.";
  place.replaceChildren(element("p", words), list);
  if (aloud && !now.at_work) {
    aloud = false;
    const worse = found.filter((change) => change.better === false).length;
    say(`Tried: ${found.length} ${found.length === 1 ? "thing" : "things"} would change, ${worse} for the worse.`);
  }
}

/**
 * Keeps the trial that the page shows, or leaves whatever is tried, once all typed before has been sent. Where that could
 * be done: what to do once the page shows it.
 */
export async function endTrial(button) {
  const keeping = button.dataset.act === "keep";
  const trial = Number(document.getElementById("trial").dataset.trial);
  const field = fieldTried();
  const byKey = button.matches(":focus-visible");
  ending = true;
  try {
    const reply = await inTurn(() => (keeping ? post("/api/trial/keep", {base: base(), trial}) : post("/api/trial/drop", {})));
    if (reply.ok) setBase(reply);
    say(!reply.ok ? reply.words : keeping ? "Saved." : "The plan is as it was.");
    await readTrial();
    return reply.ok ? () => goOnFrom(field, byKey) : undefined;
  } finally {
    ending = false;
  }
}

const fieldTried = () => [...document.querySelectorAll("#main [data-key]")].find((one) => one.dataset.key in now.fields)?.id;

/** The button goes with its notice: what was tried comes in sight, and who pressed by key goes on there. */
function goOnFrom(field, byKey) {
  const main = document.getElementById("main");
  if (!main.dataset.follows) document.getElementById("trial")?.remove();
  if (![document.body, main].includes(document.activeElement)) return; // its reader has gone on
  const place = field && document.getElementById(field);
  (place ?? main).scrollIntoView({block: place ? "center" : "start"});
  (byKey && place ? place : main).focus({preventScroll: true});
}
