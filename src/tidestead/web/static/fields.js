// A field of the plan: what is typed in it, how that is understood, what is wrong, what the plan has instead.
import {base, post} from "./door.js";
import {trying} from "./mode.js";
import {triedWords} from "./trial.js";

const PAUSE = 170;
const timers = new WeakMap();

export const isField = (node) => node instanceof Element && node.matches("[data-words]");
export const boxOf = (field) => field.closest(".field");
export const within = (field, part) => document.getElementById(`${field.id}-${part}`);
export const isNew = (field) => Boolean(field.closest("[data-new]"));
export const labelOf = (field) => boxOf(field).querySelector("label").firstChild.textContent.trim();
export const typedIn = (field) => ({key: field.dataset.key, words: field.value});
export const fieldsIn = (root) => [...root.querySelectorAll("[data-words]")];
export const planFields = () => fieldsIn(document).filter((field) => !isNew(field));
export const isDirty = (field) => "dirty" in field.dataset;
export const dirtyFields = () => planFields().filter(isDirty);

/** What is being tried in a field: its `text` there, the `words` the plan would have, the trial's `number`, and whether it was only `shown`. */
export const tries = new WeakMap();
/** Whether what stands in a field is what is being tried there. */
export const isTried = (field) => tries.has(field) && tries.get(field).text === field.value && tries.get(field).words === triedWords(field.dataset.key);

/** Marks a field that does not show what the plan has. */
export function mark(field) {
  const dirty = field.value !== field.dataset.was;
  if (dirty) field.dataset.dirty = "yes"; else delete field.dataset.dirty;
  boxOf(field).toggleAttribute("data-kept", dirty);
  boxOf(field).classList.toggle("unsaved", dirty);
}

/** The field shows what the plan has, which is `words`. */
export function showSaved(field, words) {
  field.dataset.was = words;
  field.value = words;
  mark(field);
}

export function paragraphs(place, lines) {
  place.replaceChildren(...lines.map((words) => Object.assign(document.createElement("p"), {textContent: words})));
}

/** Tells how a field is understood and what is wrong with it. A field that has gone is told nothing. */
export function tell(field, echo, lines) {
  if (!field.isConnected) return;
  within(field, "echo").textContent = echo;
  paragraphs(within(field, "faults"), lines);
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

/** A value that was changed elsewhere is told until its writer has decided; until then it is saved by itself alone. */
export function meanwhile(field, told) {
  if (told && told.now !== field.dataset.was) {
    if (field.value === field.dataset.was) field.value = told.now;
    field.dataset.was = told.now;
    field.dataset.disputed = "yes";
    delete field.dataset.left;
    mark(field);
  }
  if (!isDirty(field)) delete field.dataset.disputed;
  if (!("disputed" in field.dataset)) return [];
  const enter = trying() ? "Enter tries yours in its place" : "Enter saves yours over it";
  const now = field.dataset.was;
  return [`Changed meanwhile: the plan has ${now ? `“${now}”` : "nothing here"} now. ${enter}, Escape takes that.`];
}

let last = {sent: "", reply: null};

/** How fields would be understood; what was looked at last is not asked again. */
export async function lookAt(fields) {
  const sent = JSON.stringify([base(), fields]);
  if (last.sent === sent) return last.reply;
  const reply = await post("/api/forms/preview", {fields});
  if (reply.ok) last = {sent, reply};
  return reply;
}

/** The field and those that were left the same way and are not saved yet: they may fit only together. */
export function together(field, way) {
  return [field, ...dirtyFields().filter((one) => one !== field && one.dataset.left === way)];
}

/** Tells how a field is understood by now. */
export async function preview(field) {
  const words = field.value;
  const fields = isDirty(field) ? together(field, trying() ? "try" : "save") : [field];
  let reply = await lookAt(fields.map(typedIn));
  if (reply.ok && !reply.sound && fields.length > 1) reply = await lookAt([typedIn(field)]);
  if (field.value !== words) return undefined;
  const told = reply.fields?.[field.dataset.key];
  const lines = meanwhile(field, told);
  if (field.value !== words) return preview(field);
  return tell(field, told?.echo ?? "", [...lines, ...(reply.ok ? linesOf(reply, field.dataset.key) : refusedLines(reply))]);
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

/** Fields whose words are on their way to the plan; what is said of them comes with the reply. */
export const sending = new Set();

let told = base();

/** What stands under fields that are not saved speaks of the plan, and is told anew when that has changed. */
export function renewLines() {
  if (told === base()) return;
  told = base();
  dirtyFields().filter((field) => !timers.has(field) && !sending.has(field)).forEach(preview);
}

/** Puts back what the plan has. */
export async function putBack(field) {
  stopLooking(field);
  tries.delete(field);
  delete field.dataset.left;
  delete field.dataset.disputed;
  field.value = field.dataset.was;
  mark(field);
  return field.value ? preview(field) : tell(field, "", []);
}

/** What is being tried in a field is told under it, in every tab. */
export function tellTried(field) {
  const words = triedWords(field.dataset.key);
  const place = within(field, "tried");
  if (words === undefined) {
    if (place.contains(document.activeElement)) field.focus({preventScroll: true});
    return place.replaceChildren();
  }
  const now = `Being tried, not saved: ${words.split("\n").join(", ") || "left out"}. `;
  if (place.firstChild?.textContent === now) return undefined; // its link may have the focus
  const link = Object.assign(document.createElement("a"), {href: "#trial", textContent: "Keep it or leave it"});
  if (place.contains(document.activeElement)) setTimeout(() => link.focus({preventScroll: true}));
  return place.replaceChildren(now, link);
}
