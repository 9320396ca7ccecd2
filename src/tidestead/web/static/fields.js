// A field of the plan: what is typed in it, how that is understood, what is wrong, what the plan has instead.
import {base, connections, hush, post} from "./door.js";
import {trying} from "./mode.js";
import {takenOut, triedWords} from "./trial.js";

const PAUSE = 170;
const timers = new WeakMap();
const records = new WeakMap();

export const isField = (node) => node instanceof Element && node.matches("[data-words]");
export const boxOf = (field) => field.closest(".field");
export const within = (field, part) => document.getElementById(`${field.id}-${part}`);
export const isNew = (field) => Boolean(field.closest("[data-new]"));
export const labelOf = (field) => boxOf(field).querySelector("label").firstChild.textContent.trim();
export const typedIn = (field) => ({key: field.dataset.key, words: field.value, there: "there" in field.dataset});
export const fieldsIn = (root) => [...root.querySelectorAll("[data-words]")];
export const planFields = () => fieldsIn(document).filter((field) => !isNew(field));
export const isDirty = (field) => "dirty" in field.dataset;
export const dirtyFields = () => planFields().filter(isDirty);

/**
 * What is known of a field beside its words and what the plan has (`data-was`).
 *
 * `seen` is what the plan had when its writer last saw or accepted it; another value there is disputed. `gone`: the part
 * it stands in is not in the plan now. `left`: how it was left, "save" or "try", and not sent yet. `touched`: something
 * was typed since it was left. `order` is the sending that is on its way. `tried` is what is being tried in it: its
 * `text`, the `words` the plan would have, the trial's `number`, whether it was only `shown`; `untried` are words that it stopped to try before the trial is read. `note` is told until something else is typed.
 */
export function recordOf(field) {
  if (!records.has(field)) records.set(field, {seen: field.dataset.was, gone: false, left: "", touched: false, order: null, tried: null, untried: null, note: ""});
  return records.get(field);
}

/** Whether what stands in a field is what is being tried there. */
export function isTried(field) {
  const {tried} = recordOf(field);
  return tried !== null && tried.text === field.value && tried.words === triedWords(field.dataset.key);
}

/** Whether the plan has something else than its writer saw, or no such part; nothing is saved then but on purpose. */
export const isDisputed = (field) => isDirty(field) && (recordOf(field).gone || recordOf(field).seen !== field.dataset.was);

/** Puts words into a field; a choice that is not offered is offered then. */
function put(field, words) {
  field.value = words;
  if (field.value === words || field.tagName !== "SELECT") return;
  field.add(new Option(`${words} (not known)`, words));
  field.value = words;
}

/** Marks a field that does not show what the plan has. */
export function mark(field) {
  const dirty = field.value !== field.dataset.was;
  const record = recordOf(field);
  if (!dirty || !isDirty(field)) record.seen = field.dataset.was;
  if (!dirty) Object.assign(record, {left: "", note: ""});
  const hadWords = isDirty(field);
  if (dirty) field.dataset.dirty = "yes"; else delete field.dataset.dirty;
  boxOf(field).toggleAttribute("data-kept", dirty);
  boxOf(field).classList.toggle("unsaved", dirty);
  if (hadWords && !dirty) document.dispatchEvent(new CustomEvent("settled"));
}

/** The plan has `words` by now, and its writer knows; what was typed since stays, unless it was `sent`. */
export function showSaved(field, words, sent = field.value) {
  field.dataset.was = words;
  recordOf(field).seen = words;
  if (field.value === sent) put(field, words);
  mark(field);
}

export function paragraphs(place, lines) {
  place.replaceChildren(...lines.map((words) => Object.assign(document.createElement("p"), {textContent: words})));
}

/** What is to be said of a field whatever its words are. */
function linesOfRecord(field) {
  const record = recordOf(field);
  if (!isDirty(field)) return [];
  const note = record.note ? [record.note] : [];
  if (record.gone) return [...note, "The part that this stands in is no longer in the plan, or has another name. It cannot be saved here; copy what you typed if you need it."];
  if (!isDisputed(field)) return note;
  const now = field.dataset.was;
  return [...note, `Changed meanwhile: the plan has ${now ? `“${now}”` : "nothing here"} now.`];
}

const choice = (name, words) => Object.assign(document.createElement("button"), {type: "button", textContent: words, className: "quiet", name});

/** What its writer may decide: by button, for a phone has neither Enter nor Escape. */
function choicesOf(field, isSound, refused) {
  if (recordOf(field).gone && isDirty(field)) return [choice("take", "Let it go")];
  if (isDisputed(field)) return [...(isSound ? [choice("mine", trying() ? "Try mine in its place" : "Save mine over it")] : []), choice("take", "Take that")];
  return refused && isDirty(field) ? [choice("take", field.dataset.was ? "Put that back" : "Empty it")] : [];
}

/** Tells how a field is understood, what is wrong with it, why nothing was saved. One that has left the page is told nothing. */
export function tell(field, echo, faults, refused = "") {
  if (!field.isConnected) return;
  const lines = isNew(field) ? faults : [...linesOfRecord(field), ...faults];
  const choices = isNew(field) ? [] : choicesOf(field, !faults.length, refused);
  within(field, "echo").textContent = echo;
  const place = within(field, "faults");
  if (place.textContent !== [...lines, refused, ...choices.map((one) => one.textContent)].join("")) { // read out once only
    const held = place.contains(document.activeElement) && document.activeElement.name;
    paragraphs(place, lines);
    if (refused) place.append(Object.assign(document.createElement("p"), {className: "not-saved", textContent: refused}));
    if (choices.length) {
      const row = Object.assign(document.createElement("p"), {className: "row decide"});
      row.append(...choices);
      place.append(row);
    }
    if (held) (choices.find((one) => one.name === held) ?? field).focus({preventScroll: true});
  }
  field.setAttribute("aria-invalid", String(lines.length > 0));
  boxOf(field).classList.toggle("faulty", lines.length > 0);
}

export const saidLines = (faults) => faults.slice(0, 4).map((fault) => `${fault.words}: ${fault.said}`);
export const refusedLines = (reply) => [reply.words, ...saidLines(reply.faults)];

/** What is wrong: with the field itself, else with what it would break elsewhere. */
export function linesOf(reply, key) {
  const own = (reply.fields?.[key]?.faults ?? []).map((fault) => fault.said);
  return own.length ? own : saidLines(reply.others ?? reply.faults ?? []);
}

/** Takes note of what the plan has by now: a value changed elsewhere is disputed until its writer has decided. */
export function meanwhile(field, told) {
  if (!told) return;
  const record = recordOf(field);
  record.gone = told.gone;
  if (told.gone || told.now === field.dataset.was) {
    if (told.gone) record.left = "";
    return;
  }
  if (!isDirty(field)) return void showSaved(field, told.now);
  field.dataset.was = told.now;
  record.left = "";
  mark(field);
}

/** Words by field that are in a save or a trial on its way: what the plan has of them is told with the reply. */
export const sending = new Map();

let last = {sent: "", reply: null};

/** How fields would be understood; what was looked at last is not asked again. */
export async function lookAt(fields) {
  const sent = JSON.stringify([base(), document.body.dataset.system, fields]);
  if (last.sent === sent) return last.reply;
  const reply = await post("/api/forms/preview", {fields});
  if (reply.ok) last = {sent, reply};
  return reply;
}

/** The field and those that were left the same way and are not saved yet: they may fit only together. */
export function together(field, way) {
  return [field, ...dirtyFields().filter((one) => one !== field && recordOf(one).left === way && !isDisputed(one))];
}

/** Tells how a field is understood by now. */
export async function preview(field) {
  const words = field.value;
  const fields = isDirty(field) ? together(field, trying() ? "try" : "save") : [field];
  let reply = await lookAt(fields.map(typedIn));
  if (reply.ok && !reply.sound && fields.length > 1) reply = await lookAt([typedIn(field)]);
  if (field.value !== words) return undefined;
  const told = reply.fields?.[field.dataset.key];
  if (!sending.has(field)) meanwhile(field, told);
  if (field.value !== words) return preview(field);
  return tell(field, told?.echo ?? "", reply.ok ? linesOf(reply, field.dataset.key) : refusedLines(reply));
}

export function stopLooking(field) {
  clearTimeout(timers.get(field));
  timers.delete(field);
}

/** Looks once its writer has paused. */
export function lookSoon(field, look) {
  stopLooking(field);
  timers.set(field, setTimeout(() => { timers.delete(field); look(field); }, PAUSE));
}

const planNow = () => `${base()} ${connections()} ${document.body.dataset.system} ${document.getElementById("faulty")?.textContent ?? ""}`;
let told = planNow();

/** What stands under fields that are not saved speaks of the plan, and is told anew when that has changed. */
export function renewLines() {
  if (told === planNow()) return;
  told = planNow();
  dirtyFields().filter((field) => !timers.has(field) && !recordOf(field).order).forEach(preview);
}

/** Puts back what the plan has. What was on its way is not sent. */
export async function putBack(field) {
  stopLooking(field);
  if (isDirty(field)) hush();
  put(field, field.dataset.was);
  if (recordOf(field).gone) document.dispatchEvent(new CustomEvent("wanted")); // it may leave the page with its part
  Object.assign(recordOf(field), {order: null, tried: null, gone: false, touched: false});
  mark(field);
  return field.value ? preview(field) : tell(field, "", []);
}

/** What is being tried in a field, or with the part it stands in, is told under it, in every tab. */
export function tellTried(field) {
  const words = triedWords(field.dataset.key);
  const isOut = takenOut(field.dataset.key);
  const place = within(field, "tried");
  if (words === undefined && !isOut) {
    if (place.contains(document.activeElement)) field.focus({preventScroll: true});
    return place.replaceChildren();
  }
  const now = `Being tried, not saved: ${isOut ? "taken out with its part" : words.split("\n").join(", ") || "left out"}. `;
  if (place.firstChild?.textContent === now) return undefined; // its link may have the focus
  const link = Object.assign(document.createElement("a"), {href: "#trial", textContent: "Keep it or leave it"});
  if (place.contains(document.activeElement)) setTimeout(() => link.focus({preventScroll: true}));
  return place.replaceChildren(now, link);
}
