// Answers kept in this browser until the plan is written: one store for each plan's file, shared by every tab on it.
import {say} from "./door.js";

const NAME = `tidestead first ${document.getElementById("first").dataset.kept}`;
let warned = false;

const isTable = (value) => value !== null && typeof value === "object" && !Array.isArray(value);

/** What is kept, whatever else may lie under that name; null where nothing is. */
function understood(text) {
  try {
    const found = JSON.parse(text || "null");
    if (!isTable(found) || !isTable(found.answers)) return null;
    const answers = Object.fromEntries(Object.entries(found.answers).filter(([, words]) => typeof words === "string"));
    return {answers, at: typeof found.at === "string" ? found.at : "", reached: Array.isArray(found.reached) ? found.reached : []};
  } catch {
    return null;
  }
}

export function recall() {
  try {
    return understood(localStorage.getItem(NAME));
  } catch {
    return null;
  }
}

/** Keeps the answers that have changed here, beside those that another tab has kept meanwhile. */
export function keep(changed, at, reached) {
  const before = recall();
  const kept = {answers: {...before?.answers, ...changed}, at, reached: [...new Set([...(before?.reached ?? []), ...reached])]};
  try {
    localStorage.setItem(NAME, JSON.stringify(kept));
  } catch {
    if (!warned) say("This browser keeps nothing for this page: do not close or reload it before the plan is written.");
    warned = true;
  }
}

export function empty() {
  try {
    localStorage.removeItem(NAME);
  } catch {
    // nothing was kept
  }
}

/** What another tab keeps is told with `heard`, that it has emptied the store with `emptied`. */
export function follow(heard, emptied) {
  window.addEventListener("storage", (event) => {
    if (event.storageArea !== localStorage || (event.key !== NAME && event.key !== null)) return;
    const kept = event.key === null ? null : understood(event.newValue);
    if (kept) heard(kept);
    else emptied();
  });
}
