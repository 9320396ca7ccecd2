// Fields of the plan: read back while typing, saved or tried on leaving a sound one, put back by Escape.
import {ask, base, hush, inTurn, post, say, setBase} from "./door.js";
import {dirtyFields, isDirty, isDisputed, isField, isNew, isTried, labelOf, linesOf, lookAt, lookSoon, mark, meanwhile, preview, putBack, recordOf, refusedLines, sending, showSaved, stopLooking, tell, together, typedIn} from "./fields.js";
import {trying} from "./mode.js";
import {fieldsOfNew, previewNew, putBackNew} from "./parts.js";
import {readTrial, triedKeys, triedWords} from "./trial.js";
import {escape, outOfTrial, setTried} from "./tried.js";

/**
 * Saves or tries, as is chosen now, what stands in a field now. One goes after another: what is sent builds on what was
 * saved before it. What another changed, as far as it was told, is written over `onPurpose` only.
 */
function save(field, onPurpose) {
  const record = recordOf(field);
  mark(field);
  stopLooking(field);
  record.touched = false;
  if (!isDirty(field)) return void (triedWords(field.dataset.key) === undefined ? preview(field) : outOfTrial(field));
  if (onPurpose) record.seen = field.dataset.was;
  if (isDisputed(field)) return void preview(field);
  const order = {way: trying() ? "try" : "save", words: field.value};
  Object.assign(record, {left: order.way, order});
  inTurn(() => send(field, order));
}

async function send(field, order) {
  try {
    while ((await sent(field, order)) === "again");
  } finally {
    if (recordOf(field).order === order) recordOf(field).order = null;
    const typedOn = [...sending].filter(([one, words]) => isDirty(one) && one.value !== words && !recordOf(one).order);
    sending.clear();
    typedOn.forEach(([one]) => preview(one));
  }
}

/** Sends what was ordered, unless it was put back or ordered otherwise meanwhile. "again": on what the plan has by now. */
async function sent(field, order) {
  const record = recordOf(field);
  const isOff = () => record.order !== order || order.words === field.dataset.was;
  if (isOff()) return undefined;
  if (order.way === "try" && record.tried?.text === order.words && isTried(field)) return preview(field); // it is being tried as it is
  let all = together(field, order.way).map((one) => ({field: one, typed: {...typedIn(one), ...(one === field ? {words: order.words} : {})}}));
  let look = await lookAt(all.map(({typed}) => typed));
  if (!look.sound && all.length > 1) {
    all = all.slice(0, 1);
    look = await lookAt(all.map(({typed}) => typed));
  }
  if (isOff()) return undefined;
  if (all.some(({field: one, typed}) => one !== field && one.value !== typed.words)) return "again"; // it is typed on, and not left
  all.forEach(({field: one, typed}) => meanwhile(one, look.fields?.[typed.key]));
  if (isDisputed(field)) return tellIf(field, order, look.fields?.[field.dataset.key]?.echo ?? "", linesOf(look, field.dataset.key));
  if (!look.sound) return notSaved(field, order, look.ok ? linesOf(look, field.dataset.key) : refusedLines(look), look);
  const meant = all.filter(({field: one}) => one === field || !isDisputed(one)).map(({field: one, typed}) => ({field: one, typed: {...typed, was: one.dataset.was}}));
  const [same, other] = [true, false].map((wanted) => meant.filter(({typed}) => (look.fields[typed.key].shows === look.fields[typed.key].now) === wanted));
  same.forEach(({field: one, typed}) => isUnchanged(one, typed.words, look.fields[typed.key]));
  if (!other.length) return undefined;
  other.forEach(({field: one, typed}) => sending.set(one, typed.words));
  return order.way === "try" ? tryNow(field, order, other, look) : saveNow(field, order, other, look);
}

/** What was typed is what the plan has, if in other words: there is nothing to save, nor to try any more. */
function isUnchanged(field, words, told) {
  showSaved(field, told.now, words);
  if (isDirty(field)) return;
  tell(field, told.echo, []);
  if (triedWords(field.dataset.key) !== undefined) outOfTrial(field);
}

const tellIf = (field, order, ...told) => { if (field.value === order.words) tell(field, ...told); };
const toldOf = (meant, shown) => meant.map(({field}, at) => `${labelOf(field)} ${shown[at] || "left out"}`).join("; ");

async function saveNow(field, order, meant, look) {
  const reply = await post("/api/forms/save", {fields: meant.map(({typed}) => typed), base: base()});
  if (reply.status === 409) return behind(field, order, reply);
  if (!reply.ok) return notSaved(field, order, refusedLines(reply), reply);
  const shown = meant.map(({typed}) => reply.fields[typed.key]);
  meant.forEach(({field: one, typed}, at) => {
    const isAsSent = one.value === typed.words;
    showSaved(one, shown[at], typed.words);
    if (isAsSent) tell(one, look.fields[typed.key].echo, []);
  });
  setBase(reply);
  return void say(`Saved: ${toldOf(meant, shown)}.`);
}

/** Answers for what is typed and saves nothing; what it would change is told at the top of the page. */
async function tryNow(field, order, meant, look) {
  const keys = meant.map(({typed}) => typed.key);
  const instead = triedKeys().some((key) => !keys.includes(key)) ? " in place of what was tried before" : "";
  const reply = await post("/api/forms/try", {fields: meant.map(({typed}) => typed), base: base()});
  if (reply.status === 409) return behind(field, order, reply);
  if (!reply.ok) return notSaved(field, order, refusedLines(reply), reply);
  const shown = keys.map((key) => reply.fields[key]);
  meant.forEach(({field: one, typed}, at) => {
    setTried(one, {text: typed.words, words: shown[at], number: reply.trial});
    recordOf(one).seen = one.dataset.was;
  });
  meant.forEach(({field: one, typed}) => { if (one.value === typed.words) tell(one, look.fields[typed.key].echo, []); });
  say(`Trying ${toldOf(meant, shown)}${instead}; nothing is saved.`);
  return readTrial();
}

/** Somebody else was first. Where the field itself was left alone it goes once more, on the plan as it is now. */
async function behind(field, order, reply) {
  const plan = await ask("/api/plan");
  if (plan.ok) setBase(plan);
  if (!plan.ok || order.isSecond) return notSaved(field, order, [reply.words], reply);
  order.isSecond = true;
  return "again"; // what was changed in the field itself is found on the way
}

/** Says under a field why nothing was saved; it is read out from there. */
function notSaved(field, order, lines, reply) {
  hush();
  if (document.querySelector("[data-missing]")) return tellIf(field, order, "", [], "Not saved: the plan's file is gone. The top of the page tells what to do.");
  const told = reply.fields?.[field.dataset.key];
  const now = told?.now ?? field.dataset.was;
  const words = now ? `Not saved: the plan still has “${now.split("\n").join(", ")}”; Escape puts that back.` : "Not saved: the plan still says nothing here; Escape empties the field.";
  return tellIf(field, order, told?.echo ?? "", lines.length ? lines : [reply.words], words);
}

document.addEventListener("input", (event) => {
  const field = event.target;
  if (!isField(field)) return;
  Object.assign(recordOf(field), {touched: true, left: "", note: ""});
  mark(field);
  lookSoon(field, isNew(field) ? previewNew : preview);
});

document.addEventListener("change", (event) => {
  const field = event.target;
  if (event.target.closest?.("[data-mode]")) dirtyFields().filter(isDisputed).forEach(preview); // what may be decided is called otherwise
  if (isField(field) && !isNew(field) && recordOf(field).touched) save(field, false);
});

// What is typed again after Enter, back to what it was before, is no change to the browser
document.addEventListener("focusout", (event) => {
  const field = event.target;
  if (isField(field) && !isNew(field) && recordOf(field).touched && document.activeElement !== field) save(field, false);
});

document.addEventListener("keydown", (event) => {
  const field = event.target;
  if (!isField(field) || event.isComposing) return;
  if (event.key === "Escape") {
    event.preventDefault();
    if (isNew(field)) putBackNew(field); else escape(field);
  } else if (event.key === "Enter" && !isNew(field) && (field.tagName !== "TEXTAREA" || event.ctrlKey || event.metaKey)) {
    event.preventDefault();
    save(field, true);
  }
});

// To press one of these is not to leave the field: it would be sent first, and the button made anew under the pointer
document.addEventListener("mousedown", (event) => { if (event.target.closest?.(".decide button")) event.preventDefault(); });
document.addEventListener("click", (event) => {
  const button = event.target.closest?.(".decide button");
  const field = button && button.closest(".field").querySelector("[data-words]");
  if (!field) return;
  field.focus({preventScroll: true});
  if (button.name === "mine") save(field, true); else putBack(field);
});

window.addEventListener("beforeunload", (event) => {
  if ([...dirtyFields().filter((field) => !isTried(field)), ...fieldsOfNew().filter(isDirty)].length) event.preventDefault();
});

const aimed = location.hash && document.getElementById(location.hash.slice(1));
if (aimed) {
  const folded = aimed.closest("details");
  if (folded) folded.open = true;
  aimed.scrollIntoView({block: "center"});
}
