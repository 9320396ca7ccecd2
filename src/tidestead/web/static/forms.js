// Fields of the plan: read back while typing, saved on leaving a sound one, put back by Escape; parts added whole.
import {trying} from "./mode.js";
import {base, faultWords as fileWords, inTurn, post, say, setBase} from "./door.js";
import {readTrial, triedKeys, triedWords} from "./trial.js";

const PAUSE = 170;
const timers = new WeakMap();
const isField = (node) => node instanceof Element && node.matches("[data-words]");
const boxOf = (field) => field.closest(".field");
const within = (field, part) => document.getElementById(`${field.id}-${part}`);
const isNew = (field) => Boolean(field.closest("[data-new]"));
const labelOf = (field) => boxOf(field).querySelector("label").firstChild.textContent.trim();
const typedIn = (field) => ({key: field.dataset.key, words: field.value});
const fieldsIn = (root) => [...root.querySelectorAll("[data-words]")];
/** Whether what is typed in a field is what is being tried there. */
const isTried = (field) => triedWords(field.dataset.key)?.trim() === field.value.trim();
const dirtyFields = () => fieldsIn(document).filter((field) => "dirty" in field.dataset && !isNew(field));

function mark(field) {
  const dirty = field.value !== field.dataset.was;
  if (dirty) field.dataset.dirty = "yes"; else delete field.dataset.dirty;
  boxOf(field).toggleAttribute("data-kept", dirty);
  boxOf(field).classList.toggle("unsaved", dirty);
}

function paragraphs(place, lines) {
  place.replaceChildren(...lines.map((words) => {
    const line = document.createElement("p");
    line.textContent = words;
    return line;
  }));
}

function tell(field, echo, lines) {
  within(field, "echo").textContent = echo;
  paragraphs(within(field, "faults"), lines);
  field.setAttribute("aria-invalid", String(lines.length > 0));
  boxOf(field).classList.toggle("faulty", lines.length > 0);
}

const PICKED = ["of-choice", "of-catalogue", "of-yes_no"];
const isPicked = (field) => Boolean(field) && PICKED.some((kind) => boxOf(field).classList.contains(kind));

/** A fault in a whole sentence that speaks of fields and choices, not of the file. */
function faultWords(fault, field = null) {
  const allowed = fault.allowed.replace(" without quotes", "").replace(" in quotes", "");
  const added = /^Add \S+ = (.*)$/.exec(fault.advice);
  const advice = added ? (isPicked(field) ? "Choose one." : `Write it like ${added[1]}`) : fault.advice.replace(", in quotes", "");
  return fileWords({given: fault.given || "This", allowed, advice});
}

const sentencesOf = (faults) => faults.slice(0, 4).map((fault) => `${fault.words}: ${fileWords({...fault, given: fault.given || "it"})}`);

/** Says beside a button why it did nothing, in a place that stays. */
function tellBeside(button, reply) {
  const lines = [reply.words, ...sentencesOf(reply.faults)];
  const near = button.closest("li, .part-head, .all-of-it, form") ?? button;
  let place = near.parentElement.querySelector(":scope > .refused");
  if (!place) {
    place = document.createElement(near.tagName === "LI" ? "li" : "div");
    place.className = "refused wrong";
    place.setAttribute("role", "alert");
    place.dataset.kept = "";
    near.after(place);
  }
  paragraphs(place, [...lines, ...(reply.faults.length ? ["Change or remove that first."] : [])]);
}

/** What is wrong: with the field itself, else with what it would break elsewhere. */
function linesOf(reply, key) {
  const own = (reply.fields?.[key]?.faults ?? []).map((fault) => faultWords(fault, fieldsIn(document).find((one) => one.dataset.key === key)));
  const elsewhere = (reply.others ?? reply.faults ?? []).slice(0, 4).map((fault) => `${fault.words}: ${faultWords(fault)}`);
  return [...own, ...(own.length ? [] : elsewhere)];
}

/** A value that was changed elsewhere is told before it can be typed over. */
function meanwhile(field, told) {
  if (!told || told.now === field.dataset.was) return [];
  const untouched = field.value === field.dataset.was;
  field.dataset.was = told.now;
  if (untouched) field.value = told.now;
  mark(field);
  if (untouched) return [];
  const enter = trying() ? "Enter tries yours in its place" : "Enter saves yours over it";
  return [`Changed elsewhere meanwhile: the plan has ${told.now ? `“${told.now}”` : "nothing here"} now. ${enter}, Escape takes that.`];
}

const refusedLines = (reply) => [reply.words, ...reply.faults.slice(0, 4).map((fault) => `${fault.words}: ${faultWords(fault)}`)];

let last = {sent: "", reply: null};

/** How fields would be understood; what was looked at last is not asked again. */
async function lookAt(fields) {
  const sent = JSON.stringify([base(), fields]);
  if (last.sent === sent) return last.reply;
  const reply = await post("/api/forms/preview", {fields});
  if (reply.ok) last = {sent, reply};
  return reply;
}

async function preview(field) {
  const words = field.value;
  const fields = dirtyFields().includes(field) ? dirtyFields().map(typedIn) : [typedIn(field)];
  let reply = await lookAt(fields);
  if (reply.ok && !reply.sound && fields.length > 1) reply = await lookAt([typedIn(field)]);
  if (field.value !== words) return;
  const told = reply.fields?.[field.dataset.key];
  tell(field, told?.echo ?? "", [...meanwhile(field, told), ...(reply.ok ? linesOf(reply, field.dataset.key) : refusedLines(reply))]);
}

/** Saves one after another: what is sent always builds on what was saved before it. */
function save(field) {
  mark(field);
  clearTimeout(timers.get(field));
  if ("dirty" in field.dataset) inTurn(() => saveNow(field));
}

async function saveNow(field) {
  mark(field);
  if (!("dirty" in field.dataset)) return;
  if (trying() && isTried(field)) return preview(field); // leaving a field that is being tried asks nothing new
  const together = dirtyFields().filter((one) => one === field || trying() || !isTried(one)); // what is tried is saved by keeping it alone
  let sent = together;
  let look = await lookAt(sent.map(typedIn));
  if (!look.sound && together.length > 1) look = await lookAt((sent = [field]).map(typedIn));
  if (!look.sound) return notSaved(field, look.ok ? linesOf(look, field.dataset.key) : refusedLines(look), look);
  const fields = sent.map((one) => ({...typedIn(one), was: one.dataset.was}));
  if (trying()) return tryNow(field, sent, look);
  const reply = await post("/api/forms/save", {fields, base: base()});
  if (reply.status === 409) return conflict(field, reply);
  if (!reply.ok) return notSaved(field, refusedLines(reply), reply);
  for (const one of sent) {
    one.dataset.was = fields.find((other) => other.key === one.dataset.key).words;
    mark(one);
    tell(one, look.fields[one.dataset.key]?.echo ?? "", []);
  }
  setBase(reply.digest);
  say(`Saved: ${labelOf(field)} ${field.value || "left out"}.`);
}

/** Answers for what is typed and saves nothing; what it would change is told at the top of the page. */
async function tryNow(field, sent, look) {
  const fields = sent.map(typedIn);
  const instead = triedKeys().some((key) => !fields.some((one) => one.key === key)) ? " in place of what was tried before" : "";
  const reply = await post("/api/forms/try", {fields, base: base()});
  if (!reply.ok) return notSaved(field, refusedLines(reply), reply);
  sent.forEach((one, at) => {
    one.dataset.tried = fields[at].words; // until that trial ends
    tell(one, look.fields[one.dataset.key]?.echo ?? "", []);
  });
  await readTrial();
  say(`Trying ${labelOf(field)} ${field.value || "left out"}${instead}; nothing is saved.`);
}

/** What is being tried in a field is told under it, in every tab. */
function tellTried(field) {
  const words = triedWords(field.dataset.key);
  const place = within(field, "tried");
  if (words === undefined) return place.replaceChildren();
  const told = `Being tried, not saved: ${words.split("\n").join(", ") || "left out"}. `;
  if (place.firstChild?.textContent === told) return undefined; // its link may have the focus
  const link = document.createElement("a");
  link.href = "#trial";
  link.textContent = "Keep it or leave it";
  return place.replaceChildren(told, link);
}

/** Once a trial has ended, here or in another tab, its fields show what the plan has; what was typed since stays. */
async function trialTold(trial) {
  const fields = fieldsIn(document).filter((field) => !isNew(field));
  fields.forEach(tellTried);
  const asked = fields.filter((field) => "tried" in field.dataset && triedWords(field.dataset.key) === undefined);
  const ended = asked.filter((field) => !trial.number && field.value === field.dataset.tried);
  asked.forEach((field) => { delete field.dataset.tried; });
  if (!ended.length) return;
  if (trial.ended !== "overtaken") {
    for (const field of ended) {
      if (trial.ended === "kept") field.dataset.was = field.value;
      putBack(field);
    }
    return;
  }
  const look = await post("/api/forms/preview", {fields: ended.map(typedIn)});
  for (const field of ended) {
    const told = look.fields?.[field.dataset.key];
    tell(field, told?.echo ?? "", [...meanwhile(field, told), ...linesOf(look, field.dataset.key)]);
  }
}

/** Somebody else was first: what stands there now is told, and nothing is written over it unasked. */
async function conflict(field, reply) {
  const look = await post("/api/forms/preview", {fields: [typedIn(field)]});
  const told = look.fields?.[field.dataset.key];
  const lines = meanwhile(field, told);
  tell(field, told?.echo ?? "", lines.length ? lines : [reply.words, "Enter saves it now."]);
  say(`Not saved: ${labelOf(field)}. ${lines[0] ?? reply.words}`, {stands: true});
}

function notSaved(field, lines, reply) {
  tell(field, reply.fields?.[field.dataset.key]?.echo ?? "", lines.length ? lines : [reply.words]);
  const line = document.createElement("p");
  line.className = "not-saved";
  const now = reply.fields?.[field.dataset.key]?.now ?? field.dataset.was;
  line.textContent = `Not saved: ${now ? `the plan still has “${now}”. Escape puts that back` : "the plan still says nothing here. Escape empties the field"}.`;
  within(field, "faults").append(line);
  say(`Not saved: ${labelOf(field)}. ${lines[0] ?? reply.words}`, {stands: true});
}

async function putBack(field) {
  clearTimeout(timers.get(field));
  field.value = field.dataset.was;
  mark(field);
  if (isNew(field)) return previewNew(field);
  return field.value ? preview(field) : tell(field, "", []);
}

// A part that is added whole

function partOf(form) {
  const copy = Boolean(form.dataset.like);
  const fields = fieldsIn(form).filter((field) => (copy ? field.value !== field.dataset.was : field.value.trim() !== ""));
  return {key: form.dataset.new, like: form.dataset.like, fields: fields.map(typedIn)};
}

async function previewNew(field) {
  const form = field.closest("[data-new]");
  const words = field.value;
  const body = partOf(form);
  if (!body.fields.some((one) => one.key === field.dataset.key)) body.fields.push(typedIn(field));
  if ("saving" in form.dataset) return;
  const reply = await post("/api/forms/new/preview", body);
  if (field.value !== words || "saving" in form.dataset) return;
  const told = reply.fields?.[field.dataset.key];
  tell(field, told?.echo ?? "", reply.ok ? (told?.faults ?? []).map((fault) => faultWords(fault, field)) : refusedLines(reply));
}

async function saveNew(form) {
  const button = form.querySelector("[data-act-new]");
  button.disabled = true;
  form.dataset.saving = "yes";
  fieldsIn(form).forEach((field) => clearTimeout(timers.get(field)));
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
  const left = [];
  fieldsIn(form).forEach((field) => tell(field, within(field, "echo").textContent, []));
  for (const fault of reply.faults) {
    const field = fieldsIn(form).find((one) => fault.where === one.dataset.key || fault.where.startsWith(`${one.dataset.key}[`));
    if (field) tell(field, within(field, "echo").textContent, [...[...within(field, "faults").children].map((line) => line.textContent), faultWords(fault, field)]);
    else left.push(`${fault.words}: ${faultWords(fault)}`);
  }
  paragraphs(document.getElementById("new-faults"), [reply.words, ...left]);
  const first = form.querySelector("[aria-invalid=true]");
  if (first) {
    const folded = first.closest("details");
    if (folded) folded.open = true;
    first.focus();
  }
  say(reply.words);
}

/** Leaves for another page, which says what was done. */
function goAndSay(url, words) {
  sessionStorage.setItem("tidestead-said", words);
  location.assign(url);
}

// Whole parts

async function removePart(button) {
  const key = button.dataset.remove;
  const reply = await post("/api/forms/remove", {key, base: base()});
  if (!reply.ok) return tellBeside(button, reply);
  setBase(reply.digest);
  const page = document.querySelector("[data-page-of]");
  const words = `${reply.words}. Undo puts it back.`;
  return page?.dataset.pageOf === key ? goAndSay(page.dataset.up, words) : say(words);
}

async function renamePart(form) {
  const name = form.elements.name.value.trim();
  const key = form.dataset.rename;
  const reply = await post("/api/forms/rename", {key, name, base: base()});
  if (!reply.ok) return tellBeside(form, reply);
  const above = key.slice(0, key.length - key.split(".").pop().length);
  return goAndSay(`/plan/part/${encodeURIComponent(above + name)}`, `${reply.words}.`);
}

document.addEventListener("input", (event) => {
  const field = event.target;
  if (!isField(field)) return;
  mark(field);
  clearTimeout(timers.get(field));
  timers.set(field, setTimeout(() => (isNew(field) ? previewNew(field) : preview(field)), PAUSE));
});

document.addEventListener("change", (event) => { if (isField(event.target) && !isNew(event.target)) save(event.target); });

document.addEventListener("keydown", (event) => {
  const field = event.target;
  if (!isField(field) || event.isComposing) return;
  if (event.key === "Escape") {
    event.preventDefault();
    putBack(field);
  } else if (event.key === "Enter" && !isNew(field) && (field.tagName === "INPUT" || event.ctrlKey || event.metaKey)) {
    event.preventDefault();
    save(field);
  }
});

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

document.addEventListener("trial", (event) => trialTold(event.detail));
document.addEventListener("renewed", () => fieldsIn(document).forEach((field) => { if (!isNew(field)) tellTried(field); }));

window.addEventListener("beforeunload", (event) => {
  if (fieldsIn(document).some((field) => "dirty" in field.dataset && !isTried(field))) event.preventDefault();
});

const aimed = location.hash && document.getElementById(location.hash.slice(1));
if (aimed) {
  const folded = aimed.closest("details");
  if (folded) folded.open = true;
  aimed.scrollIntoView({block: "center"});
}
