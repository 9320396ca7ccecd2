// Parts of the plan: added whole, taken out, called by another name.
import {base, goAndSay, inTurn, post, say, setBase} from "./door.js";
import {fieldsIn, isNew, mark, paragraphs, refusedLines, saidLines, stopLooking, tell, typedIn, within} from "./fields.js";
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

function partOf(form) {
  const copy = Boolean(form.dataset.like);
  const fields = fieldsIn(form).filter((field) => (copy ? field.value !== field.dataset.was : field.value.trim() !== ""));
  return {key: form.dataset.new, like: form.dataset.like, fields: fields.map(typedIn)};
}

/** Tells how a field of a new part is understood. */
export async function previewNew(field) {
  const form = field.closest("[data-new]");
  const words = field.value;
  const body = partOf(form);
  if (!body.fields.some((one) => one.key === field.dataset.key)) body.fields.push(typedIn(field));
  if ("saving" in form.dataset) return;
  const reply = await post("/api/forms/new/preview", body);
  if (field.value !== words || "saving" in form.dataset) return;
  const told = reply.fields?.[field.dataset.key];
  tell(field, told?.echo ?? "", reply.ok ? (told?.faults ?? []).map((fault) => fault.said) : refusedLines(reply));
}

/** Puts back what the form began with. */
export function putBackNew(field) {
  stopLooking(field);
  field.value = field.dataset.was;
  mark(field);
  return previewNew(field);
}

async function saveNew(form) {
  const button = form.querySelector("[data-act-new]");
  button.disabled = true;
  form.dataset.saving = "yes";
  fieldsIn(form).forEach(stopLooking);
  try {
    const body = partOf(form);
    const look = await post("/api/forms/new/preview", body);
    const found = [...Object.values(look.fields ?? {}).flatMap((one) => one.faults), ...(look.others ?? look.faults)];
    if (!look.sound) return showFaults(form, {words: look.words || "Nothing is saved yet.", faults: found});
    const reply = await post("/api/forms/new", {...body, base: base()});
    if (!reply.ok) return showFaults(form, reply);
    fieldsIn(form).forEach((field) => delete field.dataset.dirty);
    return goAndSay(form.dataset.to, `${reply.words}.`);
  } finally {
    button.disabled = false;
    delete form.dataset.saving;
  }
}

function showFaults(form, reply) {
  const rest = [];
  fieldsIn(form).forEach((field) => tell(field, within(field, "echo").textContent, []));
  for (const fault of reply.faults) {
    const field = fieldsIn(form).find((one) => fault.where === one.dataset.key || fault.where.startsWith(`${one.dataset.key}[`));
    if (field) tell(field, within(field, "echo").textContent, [...[...within(field, "faults").children].map((line) => line.textContent), fault.said]);
    else rest.push(`${fault.words}: ${fault.said}`);
  }
  paragraphs(document.getElementById("new-faults"), [reply.words, ...rest]);
  const first = form.querySelector("[aria-invalid=true]");
  if (first) {
    const folded = first.closest("details");
    if (folded) folded.open = true;
    first.focus();
  }
  say(reply.words);
}

// Whole parts

async function removePart(button) {
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
