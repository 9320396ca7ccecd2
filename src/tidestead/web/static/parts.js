// Parts of the plan: added whole, taken out, called by another name.
import {ask, base, goAndSay, inTurn, post, say, setBase} from "./door.js";
import {fieldsIn, isNew, mark, paragraphs, refusedLines, saidLines, stopLooking, tell, within} from "./fields.js";
import {trying} from "./mode.js";
import {anyTrial, readTrial} from "./trial.js";

export const fieldsOfNew = () => fieldsIn(document).filter(isNew);

/** Says beside a button why it did nothing, in a place that stays. */
function tellBeside(button, lines) {
  const near = button.closest("li, .part-head, .all-of-it, form") ?? button;
  let place = near.parentElement.querySelector(":scope > .refused");
  if (!place) {
    place = document.createElement(near.tagName === "LI" ? "li" : "div");
    place.className = "refused wrong";
    place.setAttribute("role", "alert");
    place.dataset.kept = "";
    near.after(place);
  }
  paragraphs(place, lines);
}

const refusal = (reply) => [reply.words, ...saidLines(reply.faults), ...(reply.faults.length ? ["Change or remove that first."] : [])];

// A part that is added whole

/** The key by the name that is given now. */
const keyOf = (form) => form.dataset.new.slice(0, -nameOf(form.dataset.new).length) + (form.elements.name?.value.trim() || nameOf(form.dataset.new));
const nameOf = (key) => key.split(".").pop();

/** All that a copy shows, for its original may be changed meanwhile; of an empty form what is filled in. */
function partOf(form) {
  const [was, key] = [form.dataset.new, keyOf(form)];
  const shown = fieldsIn(form).filter((field) => form.dataset.like || field.value.trim() !== "");
  return {key, like: form.dataset.like, fields: shown.map((field) => ({key: key + field.dataset.key.slice(was.length), words: field.value}))};
}

/** Tells how a field of a new part is understood. */
export async function previewNew(field) {
  const form = field.closest("[data-new]");
  const words = field.value;
  const body = partOf(form);
  const key = body.key + field.dataset.key.slice(form.dataset.new.length);
  if (!body.fields.some((one) => one.key === key)) body.fields.push({key, words});
  if ("saving" in form.dataset) return;
  const reply = await post("/api/forms/new/preview", body);
  if (field.value !== words || "saving" in form.dataset) return;
  const told = reply.fields?.[key];
  tell(field, told?.echo ?? "", reply.ok ? (told?.faults ?? []).map((fault) => fault.said) : refusedLines(reply));
}

/** Puts back what the form began with. */
export function putBackNew(field) {
  stopLooking(field);
  field.value = field.dataset.was;
  mark(field);
  return previewNew(field);
}

/** Looks at a new part and saves it; where another changed the plan meanwhile it goes once more, on the plan as it is now. */
async function sentNew(body, {isSecond}) {
  const look = await post("/api/forms/new/preview", body);
  const found = [...Object.values(look.fields ?? {}).flatMap((one) => one.faults), ...(look.others ?? look.faults)];
  if (!look.sound) return {ok: false, words: look.words || "Nothing is saved yet.", faults: found, taken: look.taken};
  const reply = await post("/api/forms/new", {...body, base: base()});
  if (reply.status !== 409 || isSecond) return reply;
  const plan = await ask("/api/plan");
  if (!plan.ok) return reply;
  setBase(plan);
  return sentNew(body, {isSecond: true});
}

async function saveNew(form) {
  const button = form.querySelector("[data-act-new]");
  button.disabled = true;
  form.dataset.saving = "yes";
  form.inert = true; // what is typed from here on would not be in it
  fieldsIn(form).forEach(stopLooking);
  try {
    const body = partOf(form);
    const reply = await sentNew(body, {isSecond: false});
    if (!reply.ok) return showFaults(form, reply);
    fieldsIn(form).forEach((field) => delete field.dataset.dirty);
    return goAndSay(`/plan/part/${encodeURIComponent(body.key)}`, `${reply.words}.`);
  } finally {
    button.disabled = false;
    form.inert = false;
    delete form.dataset.saving;
    const first = form.querySelector("[aria-invalid=true], #new-called:not([hidden]) input");
    if (first) first.focus();
  }
}

function showFaults(form, reply) {
  const rest = [];
  const key = keyOf(form);
  const called = document.getElementById("new-called");
  if (called && reply.taken) called.hidden = false;
  fieldsIn(form).forEach((field) => tell(field, within(field, "echo").textContent, []));
  for (const fault of reply.faults) {
    const field = fieldsIn(form).find((one) => [fault.where, fault.where.replace(/\[.*/, "")].includes(key + one.dataset.key.slice(form.dataset.new.length)));
    if (field) tell(field, within(field, "echo").textContent, [...[...within(field, "faults").children].map((line) => line.textContent), fault.said]);
    else rest.push(`${fault.words}: ${fault.said}`);
  }
  paragraphs(document.getElementById("new-faults"), [reply.words, ...rest]);
  const first = form.querySelector("[aria-invalid=true]");
  if (first) {
    const folded = first.closest("details");
    if (folded) folded.open = true;
  }
  say(reply.words);
}

// Whole parts

const forgetRefusals = () => document.querySelectorAll(".refused").forEach((one) => one.remove());

async function removePart(button) {
  forgetRefusals();
  const key = button.dataset.remove;
  if (trying()) {
    const instead = anyTrial() ? " in place of what was tried before" : "";
    const reply = await inTurn(() => post("/api/try", {edits: [{key, value: null}], base: base()}));
    if (!reply.ok) return tellBeside(button, refusal(reply));
    say(`Trying the plan without it${instead}; nothing is saved.`);
    return readTrial();
  }
  const reply = await inTurn(() => post("/api/forms/remove", {key, base: base()}));
  if (!reply.ok) return tellBeside(button, refusal(reply));
  setBase(reply);
  const page = document.querySelector("[data-page-of]");
  const words = `${reply.words}. Undo puts it back.`;
  return page?.dataset.pageOf === key ? goAndSay(page.dataset.up, words) : say(words);
}

async function renamePart(form) {
  forgetRefusals();
  if (trying()) return tellBeside(form, ["A new name changes nothing else, so there is nothing to try. To give it, choose “Save a change at once” first."]);
  const name = form.elements.name.value.trim();
  const key = form.dataset.rename;
  const reply = await inTurn(() => post("/api/forms/rename", {key, name, base: base()}));
  if (!reply.ok) return tellBeside(form, refusal(reply));
  const above = key.slice(0, key.length - key.split(".").pop().length);
  return goAndSay(`/plan/part/${encodeURIComponent(above + name)}`, `${reply.words}.`);
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (form.matches("[data-new]")) {
    event.preventDefault();
    saveNew(form);
  } else if (form.matches("[data-rename]")) {
    event.preventDefault();
    renamePart(form);
  }
});

document.addEventListener("click", (event) => {
  const button = event.target.closest?.("[data-remove]");
  if (button) removePart(button);
});

// A name that no part can have is told in our own words
document.addEventListener("input", (event) => { if (event.target.name === "name") event.target.setCustomValidity(""); });
document.addEventListener("invalid", (event) => {
  const field = event.target;
  if (field.name !== "name" || !field.pattern) return;
  const plain = field.value.trim().toLowerCase().replace(/[^a-z0-9_-]+/g, "-").replace(/^-+|-+$/g, "");
  const asked = "A name has only small letters, digits, - and _.";
  field.setCustomValidity(field.value.trim() ? `${asked}${plain ? ` Write ${plain}.` : ""}` : "Give it a name first, in small letters.");
}, true);
