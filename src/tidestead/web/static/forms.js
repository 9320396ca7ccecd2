// Fields of the plan: read back while typing, saved or tried on leaving a sound one, put back by Escape.
import {ask, base, inTurn, post, say, setBase} from "./door.js";
import {dirtyFields, isDirty, isField, isNew, isTried, labelOf, linesOf, lookAt, lookSoon, mark, meanwhile, preview, refusedLines, sending, stopLooking, tell, together, typedIn, within} from "./fields.js";
import {trying} from "./mode.js";
import {fieldsOfNew, previewNew, putBackNew} from "./parts.js";
import {readTrial, triedKeys} from "./trial.js";
import {escape, setTried} from "./tried.js";

/** Saves or tries, as is chosen now, one after another: what is sent builds on what was saved before it. */
function save(field) {
  const way = trying() ? "try" : "save";
  mark(field);
  stopLooking(field);
  field.dataset.sent = field.value;
  if (!isDirty(field)) return;
  field.dataset.left = way;
  delete field.dataset.disputed;
  inTurn(() => send(field, way));
}

async function send(field, way) {
  sending.add(field);
  try {
    return await sent(field, way);
  } finally {
    sending.delete(field);
  }
}

async function sent(field, way) {
  mark(field);
  if (!isDirty(field)) return undefined;
  if (way === "try" && isTried(field)) return preview(field); // it is being tried as it is
  let all = together(field, way);
  let typed = all.map(typedIn);
  const was = all.map((one) => one.dataset.was);
  let look = await lookAt(typed);
  if (!look.sound && all.length > 1) {
    [all, typed] = [[field], typed.slice(0, 1)];
    look = await lookAt(typed);
  }
  if (!isDirty(field)) return undefined; // put back meanwhile
  if (!look.sound) return notSaved(field, look.ok ? linesOf(look, field.dataset.key) : refusedLines(look), look);
  const fields = typed.map((one, at) => ({...one, was: was[at]}));
  return way === "try" ? tryNow(field, all, typed, look) : saveNow(field, all, fields, look);
}

const toldOf = (sent, shown) => sent.map((one, at) => `${labelOf(one)} ${shown[at] || "left out"}`).join("; ");

/** Tells what was understood under each field that was sent and not changed since. */
function tellSent(sent, typed, look) {
  sent.forEach((one, at) => {
    if (one.value === typed[at].words) tell(one, look.fields[one.dataset.key]?.echo ?? "", []);
  });
}

async function saveNow(field, sent, fields, look) {
  const reply = await post("/api/forms/save", {fields, base: base()});
  if (reply.status === 409) return conflict(field, sent, reply);
  if (!reply.ok) return notSaved(field, refusedLines(reply), reply);
  tellSent(sent, fields, look);
  const shown = sent.map((one) => reply.fields[one.dataset.key]);
  sent.forEach((one, at) => {
    one.dataset.was = shown[at];
    if (one.value === fields[at].words) one.value = shown[at];
    if (one.value === shown[at]) delete one.dataset.left;
    mark(one);
  });
  setBase(reply);
  return say(`Saved: ${toldOf(sent, shown)}.`);
}

/** Answers for what is typed and saves nothing; what it would change is told at the top of the page. */
async function tryNow(field, sent, typed, look) {
  const keys = typed.map((one) => one.key);
  const instead = triedKeys().some((key) => !keys.includes(key)) ? " in place of what was tried before" : "";
  const reply = await post("/api/forms/try", {fields: typed, base: base()});
  if (!reply.ok) return notSaved(field, refusedLines(reply), reply);
  tellSent(sent, typed, look);
  const shown = keys.map((key) => reply.fields[key]);
  sent.forEach((one, at) => setTried(one, {text: typed[at].words, words: shown[at], number: reply.trial}));
  say(`Trying ${toldOf(sent, shown)}${instead}; nothing is saved.`);
  return readTrial();
}

/** Somebody else was first: what stands there now is told, and nothing is written over it unasked. */
async function conflict(field, sent, reply) {
  const plan = await ask("/api/plan");
  if (plan.ok) setBase(plan);
  const look = await post("/api/forms/preview", {fields: sent.map(typedIn)});
  const found = sent.map((one) => [one, look.fields?.[one.dataset.key]]).map(([one, told]) => [one, told, meanwhile(one, told)]);
  found.filter(([, , lines]) => lines.length).forEach(([one, told, lines]) => tell(one, told.echo, lines));
  if (found[0][2].length) return;
  tell(field, found[0][1]?.echo ?? "", [reply.words, `Enter ${trying() ? "tries" : "saves"} it now.`]);
}

/** Says under a field why nothing was saved; it is read out from there. */
function notSaved(field, lines, reply) {
  tell(field, reply.fields?.[field.dataset.key]?.echo ?? "", lines.length ? lines : [reply.words]);
  const now = reply.fields?.[field.dataset.key]?.now ?? field.dataset.was;
  const words = `Not saved: ${now ? `the plan still has “${now}”. Escape puts that back` : "the plan still says nothing here. Escape empties the field"}.`;
  const line = Object.assign(document.createElement("p"), {className: "not-saved", textContent: words});
  if (field.isConnected) within(field, "faults").append(line);
}

document.addEventListener("input", (event) => {
  const field = event.target;
  if (!isField(field)) return;
  delete field.dataset.sent;
  delete field.dataset.left;
  mark(field);
  lookSoon(field, isNew(field) ? previewNew : preview);
});

document.addEventListener("change", (event) => {
  const field = event.target;
  if (isField(field) && !isNew(field) && field.dataset.sent !== field.value) save(field);
});

document.addEventListener("keydown", (event) => {
  const field = event.target;
  if (!isField(field) || event.isComposing) return;
  if (event.key === "Escape") {
    event.preventDefault();
    if (isNew(field)) putBackNew(field); else escape(field);
  } else if (event.key === "Enter" && !isNew(field) && (field.tagName === "INPUT" || event.ctrlKey || event.metaKey)) {
    event.preventDefault();
    save(field);
  }
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
