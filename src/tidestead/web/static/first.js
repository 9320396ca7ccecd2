// The first questions: a screen each, read back and judged while typing, kept over a reload, written at the end.
import {base, faultWords, post, say, setBase} from "./door.js";

const PAUSE = 180;
const form = document.getElementById("first");
const sections = [...form.querySelectorAll("[data-question]")];
const blanks = [...form.querySelectorAll("[data-blank]")];
const back = document.getElementById("back");
const next = document.getElementById("next");
const KEPT = `tidestead first ${form.dataset.file}`;
const untouched = form.dataset.untouched === "yes";

let looked = {asked: blanks.map((one) => one.dataset.blank), offered: {}, faults: {}, echoes: {}, assumed: [], text: "", sound: false};
let reached = new Set();
let at = sections[0].dataset.question;
let timer = 0;
let counted = 0;
let looking = Promise.resolve();
let done = false;

const inputsOf = (blank) => [...blank.querySelectorAll("input, select")];

/** What is typed and picked, by blank. */
function answers() {
  const found = {};
  for (const blank of blanks) {
    const inputs = inputsOf(blank);
    const chosen = inputs[0].type === "radio" ? inputs.find((one) => one.checked) : inputs[0];
    found[blank.dataset.blank] = chosen ? chosen.value : "";
  }
  return found;
}

function fill(kept) {
  for (const blank of blanks) {
    const value = kept[blank.dataset.blank];
    if (typeof value !== "string") continue;
    for (const input of inputsOf(blank)) {
      if (input.type === "radio") input.checked = input.value === value;
      else input.value = value;
    }
  }
}

function keep() {
  if (done) return;
  try {
    sessionStorage.setItem(KEPT, JSON.stringify({answers: answers(), at, reached: [...reached]}));
  } catch {
    say("This browser keeps nothing for this page: do not reload it before the plan is written.");
  }
}

function recall() {
  try {
    return JSON.parse(sessionStorage.getItem(KEPT) || "null");
  } catch {
    return null;
  }
}

// Looking at the answers

async function look() {
  const number = ++counted;
  const reply = await post("/api/first/preview", {answers: answers()});
  if (number !== counted) return;
  if (!reply.ok) return void say(reply.words);
  looked = reply;
  paint();
}

function soon() {
  clearTimeout(timer);
  timer = setTimeout(() => { looking = look(); }, PAUSE);
}

/** The answers as they stand now have been looked at. */
async function settled() {
  clearTimeout(timer);
  looking = look();
  await looking;
}

// Showing

const askedIn = (section) => [...section.querySelectorAll("[data-blank]")].filter((one) => looked.asked.includes(one.dataset.blank));
const shownSections = () => sections.filter((one) => one.dataset.question === "review" || askedIn(one).length);
const faulty = (section) => askedIn(section).filter((one) => (looked.faults[one.dataset.blank] || []).length);
const sectionOf = (name) => sections.find((one) => one.dataset.question === name);
const empty = (blank) => !(answers()[blank.dataset.blank] || "").trim();

function paint() {
  const us = answers().show === "us";
  for (const span of form.querySelectorAll(".such [data-system]")) span.hidden = (span.dataset.system === "us") !== us;
  const taken = new Map(looked.assumed.filter((one) => one.blank).map((one) => [one.blank, one.value]));
  for (const blank of blanks) paintBlank(blank, taken);
  for (const fold of form.querySelectorAll("details.known")) paintFold(fold);
  paintSteps();
  if (at === "review") paintReview();
}

/** Details nobody is asked for with these answers are not there; those with a fault that is told stand open. */
function paintFold(fold) {
  const inside = [...fold.querySelectorAll("[data-blank]")];
  fold.hidden = inside.every((one) => one.hidden);
  if (inside.some((one) => !one.hidden && one.querySelector("[data-fault]").textContent)) fold.open = true;
}

function focusOn(blank) {
  const fold = blank.closest("details");
  if (fold) fold.open = true;
  const inputs = inputsOf(blank);
  (inputs.find((one) => one.checked) || inputs[0]).focus();
}

function paintBlank(blank, taken) {
  const name = blank.dataset.blank;
  blank.hidden = !looked.asked.includes(name);
  const offered = looked.offered[name];
  for (const option of blank.querySelectorAll("option")) {
    const out = Boolean(offered) && option.value !== "" && !offered.includes(option.value);
    option.hidden = out;
    option.disabled = out;
  }
  const known = reached.has(blank.closest("[data-question]").dataset.question);
  const faults = (looked.faults[name] || []).filter(() => known || !empty(blank));
  blank.querySelector("[data-fault]").textContent = faults.map(faultWords).join(" ");
  blank.querySelector("[data-echo]").textContent = faults.length ? "" : looked.echoes[name] || "";
  for (const input of inputsOf(blank)) {
    if (input.type !== "radio") input.setAttribute("aria-invalid", String(faults.length > 0));
    if (input.type === "text" && blank.dataset.optional) input.placeholder = taken.has(name) ? `assumed: ${plainly(taken.get(name))}` : "left open";
  }
}

function paintSteps() {
  const shown = shownSections();
  const place = shown.findIndex((one) => one.dataset.question === at);
  const total = shown.length - 1;
  document.getElementById("progress").textContent = at === "review" ? `All ${total} questions are behind you.` : `Question ${place + 1} of ${total}`;
  back.hidden = place <= 0;
  next.hidden = at === "review" && (!looked.sound || done);
  next.textContent = at === "review" ? "Write the plan" : "Next";
  const list = document.getElementById("overview");
  const held = list.contains(document.activeElement) ? document.activeElement.dataset.to : "";
  list.replaceChildren(...shown.map(overviewLine));
  if (held) list.querySelector(`[data-to="${CSS.escape(held)}"]`)?.focus();
}

function overviewLine(section) {
  const line = document.createElement("li");
  const button = document.createElement("button");
  button.type = "button";
  button.dataset.to = section.dataset.question;
  button.textContent = section.querySelector("h2").textContent;
  if (section.dataset.question === at) button.setAttribute("aria-current", "step");
  const word = document.createElement("small");
  word.textContent = section.dataset.question === "review" ? "" : faulty(section).length ? "open" : "answered";
  line.append(button, word);
  return line;
}

/** A value of the plan without the marks it is written with. */
function plainly(value) {
  if (Array.isArray(value)) return value.join(", ");
  if (value && typeof value === "object") return Object.entries(value).map(([key, inner]) => `${key} ${inner}`).join(", ");
  return value === true ? "yes" : value === false ? "no" : String(value);
}

function paintReview() {
  const open = shownSections().filter((one) => faulty(one).length);
  document.getElementById("ready").hidden = !looked.sound;
  const place = document.getElementById("open-faults");
  place.replaceChildren();
  if (!looked.sound) {
    const words = document.createElement("p");
    words.textContent = "The plan can be written when these are answered:";
    const list = document.createElement("ul");
    for (const section of open) {
      for (const blank of faulty(section)) {
        const line = document.createElement("li");
        const button = document.createElement("button");
        button.type = "button";
        button.dataset.to = section.dataset.question;
        button.dataset.blankTo = blank.dataset.blank;
        const fault = looked.faults[blank.dataset.blank][0];
        button.textContent = fault.where;
        line.append(button, ` ${faultWords(fault)}`);
        list.append(line);
      }
    }
    for (const fault of looked.faults.plan || []) list.append(Object.assign(document.createElement("li"), {textContent: `${fault.where} ${faultWords(fault)}`}));
    place.append(words, list);
  }
  document.getElementById("taken").replaceChildren(...looked.assumed.map((one) => {
    const row = document.createElement("tr");
    const key = document.createElement("td");
    key.append(Object.assign(document.createElement("code"), {textContent: one.key}));
    for (const words of [one.why, plainly(one.value)]) row.append(Object.assign(document.createElement("td"), {textContent: words}));
    row.append(key);
    return row;
  }));
  document.getElementById("text").textContent = looked.text;
}

function show(name, {focus = true, remember = true} = {}) {
  const wanted = shownSections().find((one) => one.dataset.question === name) || shownSections()[0];
  at = wanted.dataset.question;
  for (const section of sections) section.hidden = section !== wanted;
  if (at === "review") sections.forEach((one) => reached.add(one.dataset.question));
  paint();
  keep();
  if (remember) history.pushState({at}, "", `#${at}`);
  if (!focus) return;
  wanted.querySelector("h2").focus({preventScroll: true});
  document.getElementById("progress").scrollIntoView({block: "nearest"});
}

// Moving

async function onward() {
  const section = sectionOf(at);
  reached.add(at);
  await settled();
  const wrong = faulty(section);
  if (wrong.length) {
    focusOn(wrong[0]);
    const fault = looked.faults[wrong[0].dataset.blank][0];
    return say(`${fault.where}: ${faultWords(fault)}`);
  }
  const shown = shownSections();
  show(shown[shown.indexOf(section) + 1].dataset.question);
}

function backward() {
  const shown = shownSections();
  const place = shown.findIndex((one) => one.dataset.question === at);
  if (place > 0) show(shown[place - 1].dataset.question);
}

async function write() {
  next.disabled = true;
  const place = document.getElementById("beside");
  const reply = await post("/api/first", {answers: answers(), base: base(), beside: untouched ? "" : place.value.trim()});
  next.disabled = false;
  if (!reply.ok) return void refused(reply);
  done = true;
  sessionStorage.removeItem(KEPT);
  if (reply.opened) {
    setBase(reply.digest);
    location.assign("/");
    return;
  }
  const told = document.getElementById("written");
  told.textContent = reply.words;
  told.focus();
  next.hidden = true;
}

function refused(reply) {
  const words = [reply.words, ...reply.faults.map((fault) => `${fault.where}: ${faultWords(fault)}`)].join(" ");
  const place = document.getElementById("fault-beside");
  if (place) {
    place.textContent = words;
    document.getElementById("beside").focus();
  } else {
    document.getElementById("written").textContent = `${words} Load this page again: what you typed is kept.`;
    document.getElementById("written").focus();
  }
  say(words);
}

form.addEventListener("input", () => { keep(); soon(); });
form.addEventListener("change", () => { keep(); soon(); });
form.addEventListener("submit", (event) => {
  event.preventDefault();
  if (next.disabled || next.hidden) return;
  if (at === "review") write();
  else onward();
});
back.addEventListener("click", backward);
document.addEventListener("click", async (event) => {
  const button = event.target.closest("[data-to]");
  if (!button) return;
  await settled();
  show(button.dataset.to);
  const blank = button.dataset.blankTo && form.querySelector(`[data-blank="${CSS.escape(button.dataset.blankTo)}"]`);
  if (blank) focusOn(blank);
});
window.addEventListener("popstate", (event) => show(event.state?.at || sections[0].dataset.question, {remember: false}));

async function begin() {
  const kept = recall();
  if (kept) {
    fill(kept.answers || {});
    reached = new Set(kept.reached || []);
    at = kept.at || at;
  }
  await settled();
  show(at, {focus: false, remember: false});
  history.replaceState({at}, "", `#${at}`);
  form.dataset.ready = "yes";
}

begin();
