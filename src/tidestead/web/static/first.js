// The first questions: a screen each, read back and judged while typing, kept until they are written.
import {base, faultWords, post, say, setBase} from "./door.js";
import {empty as emptyKept, follow, keep, recall} from "./first_kept.js";
import {answered, faultLine, leads, made, openFaults, plainly, taken} from "./first_review.js";

const PAUSE = 180;
const STILL = 900; // after so long without a keystroke a fault is read out
const form = document.getElementById("first");
const sections = [...form.querySelectorAll("[data-question]")];
const blanks = [...form.querySelectorAll("[data-blank]")];
const back = document.getElementById("back");
const next = document.getElementById("next");
const anew = document.getElementById("anew");
const problems = document.getElementById("faults-told");
const untouched = form.dataset.untouched === "yes";

let looked = {asked: blanks.map((one) => one.dataset.blank), offered: {}, faults: {}, echoes: {}, assumed: [], text: "", sound: false};
let reached = new Set();
let at = sections[0].dataset.question;
let timer = 0;
let still = 0;
let counted = 0;
let looking = Promise.resolve();
let done = false;
let told = new Map();

const inputsOf = (blank) => [...blank.querySelectorAll("input, select")];

/** What is typed or picked in one blank. */
function answerIn(blank) {
  const inputs = inputsOf(blank);
  const chosen = inputs[0].type === "radio" ? inputs.find((one) => one.checked) : inputs[0];
  return chosen ? chosen.value : "";
}

/** What is typed and picked, by blank. */
const answers = () => Object.fromEntries(blanks.map((one) => [one.dataset.blank, answerIn(one)]));

function fill(kept) {
  for (const blank of blanks) {
    const value = kept[blank.dataset.blank];
    if (typeof value !== "string") continue;
    for (const input of inputsOf(blank)) {
      if (input.type === "radio") input.checked = input.value === value;
      else if (input.value !== value) input.value = value;
    }
  }
}

/** Keeps what was changed in one blank, or only which question is the one that is shown. */
function kept(blank) {
  if (done && !blank) return;
  keep(done ? answers() : blank ? {[blank.dataset.blank]: answerIn(blank)} : {}, at, reached);
  done = false;
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
const empty = (blank) => !answerIn(blank).trim();
const labelOf = (blank) => blank.querySelector("label, legend").textContent;

/** A fault as a whole sentence where the blank itself stands beside it. */
const sentence = (fault) => (fault.given ? faultWords(fault) : `This ${faultWords(fault)}`);

function paint() {
  const us = answers().show === "us";
  for (const span of form.querySelectorAll(".such [data-system]")) span.hidden = (span.dataset.system === "us") !== us;
  const assumed = new Map(looked.assumed.filter((one) => one.blank).map((one) => [one.blank, one.value]));
  for (const blank of blanks) paintBlank(blank, assumed);
  for (const fold of form.querySelectorAll("details.known")) paintFold(fold);
  paintSteps();
  paintProblems();
  anew.hidden = done || !recall();
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

function paintBlank(blank, assumed) {
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
  blank.querySelector("[data-fault]").textContent = faults.map(sentence).join(" ");
  const echo = blank.querySelector("[data-echo]");
  if (echo) echo.textContent = faults.length ? "" : looked.echoes[name] || "";
  const left = blank.querySelector("[data-left]");
  if (left) left.hidden = !empty(blank);
  for (const input of inputsOf(blank)) {
    if (input.type === "radio") continue;
    input.setAttribute("aria-invalid", String(faults.length > 0));
    const about = input.dataset.told.split(" ").filter((id) => !document.getElementById(id).hidden);
    input.setAttribute("aria-describedby", about.join(" "));
    if (input.type === "text" && blank.dataset.optional) input.placeholder = assumed.has(name) ? `assumed: ${plainly(assumed.get(name))}` : "left open";
  }
}

function paintSteps() {
  const shown = shownSections();
  const place = shown.findIndex((one) => one.dataset.question === at);
  const total = shown.length - 1;
  document.getElementById("progress").textContent = at === "review" ? (looked.sound ? `All ${total} questions are behind you.` : "The questions are behind you; some are still open.") : `Question ${place + 1} of ${total}`;
  back.hidden = place <= 0;
  next.hidden = at === "review" && (!looked.sound || done);
  next.textContent = at === "review" ? "Write the plan" : "Next";
  const list = document.getElementById("overview");
  const held = list.contains(document.activeElement) ? document.activeElement.dataset.to : "";
  list.replaceChildren(...shown.map(overviewLine));
  if (held) list.querySelector(`[data-to="${CSS.escape(held)}"]`)?.focus();
}

function overviewLine(section) {
  const line = made("li");
  const button = leads(section.querySelector("h2").textContent, section);
  if (section.dataset.question === at) button.setAttribute("aria-current", "step");
  line.append(button, made("small", section.dataset.question === "review" ? "" : faulty(section).length ? "open" : "answered"));
  return line;
}

/** What holds the step, said once at the top of its screen; each line goes when it is mended or has become another. */
function paintProblems() {
  const now = [...told].filter(([name, words]) => problemWords(name) === words);
  if (now.length === told.size && problems.childElementCount === Number(told.size > 0)) return;
  told = new Map(now);
  problems.replaceChildren();
  if (!told.size) return;
  const list = made("ul");
  list.append(...now.map(([name]) => faultLine(looked.faults[name][0], sectionOf(at), name)));
  const box = made("div", "", {className: "problems"});
  box.append(made("p", told.size === 1 ? "One thing holds this step:" : `${told.size} things hold this step:`), list);
  problems.append(box);
}

function problemWords(name) {
  const fault = (looked.faults[name] || [])[0];
  return fault ? faultWords(fault) : "";
}

function paintReview() {
  document.getElementById("ready").hidden = !looked.sound;
  document.getElementById("taken-part").hidden = !looked.assumed.length;
  const shown = shownSections();
  document.getElementById("open-faults").replaceChildren(...(looked.sound ? [] : openFaults(looked, shown, faulty)));
  document.getElementById("answered").replaceChildren(...answered(shown, askedIn));
  document.getElementById("taken-told").textContent = `${looked.assumed.length} values, what carries the load first. Once the plan is written they stand on a page of their own, “Assumed for you”, each in a field to be typed over.`;
  document.getElementById("taken").replaceChildren(...taken(looked.assumed));
  document.getElementById("text").textContent = looked.text;
}

function show(name, {focus = true, remember = true} = {}) {
  const shown = shownSections();
  const wanted = shown.find((one) => one.dataset.question === name) || shown.find((one) => one.dataset.question === at) || shown[0];
  if (wanted.dataset.question !== at) told = new Map();
  at = wanted.dataset.question;
  for (const section of sections) section.hidden = section !== wanted;
  form.classList.toggle("wide", at === "review");
  document.querySelector(".lead").hidden = wanted !== sections[0];
  if (at === "review") sections.forEach((one) => reached.add(one.dataset.question));
  paint();
  if (recall()) kept();
  history[remember && history.state?.at !== at ? "pushState" : "replaceState"]({at}, "", `#${at}`);
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
    told = new Map(wrong.map((one) => [one.dataset.blank, problemWords(one.dataset.blank)]));
    problems.replaceChildren();
    paintProblems();
    return focusOn(wrong[0]);
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
  emptyKept();
  const taking = looked.assumed.length ? ` ${looked.assumed.length} values in it are assumed; look at them under “Assumed for you”.` : "";
  if (reply.opened) {
    setBase(reply);
    sessionStorage.setItem("tidestead-said", reply.words + taking);
    location.assign("/");
    return;
  }
  const written = document.getElementById("written");
  written.textContent = reply.words + taking;
  written.focus();
  next.hidden = true;
  anew.hidden = true;
}

function refused(reply) {
  const words = [reply.words, ...reply.faults.map((fault) => `${fault.where}: ${faultWords(fault)}`)].join(" ");
  const place = document.getElementById("fault-beside");
  const written = document.getElementById("written");
  written.textContent = place ? "" : `${words} Load this page again: what you typed is kept.`;
  if (place) place.textContent = words;
  (place ? document.getElementById("beside") : written).focus();
}

/** Reads out what is wrong with a blank once its writer has paused. */
function readOutSoon(blank) {
  clearTimeout(still);
  still = setTimeout(() => {
    const words = blank.querySelector("[data-fault]").textContent;
    document.getElementById("announced").textContent = words ? `${labelOf(blank)}: ${words}` : "";
  }, STILL);
}

function changed(event) {
  const blank = event.target.closest("[data-blank]");
  if (!blank) return;
  if (done) document.getElementById("written").textContent = "";
  kept(blank);
  soon();
  readOutSoon(blank);
}

form.addEventListener("input", changed);
form.addEventListener("change", changed);
form.addEventListener("submit", (event) => {
  event.preventDefault();
  if (next.disabled || next.hidden) return;
  if (at === "review") write();
  else onward();
});
back.addEventListener("click", backward);
anew.addEventListener("click", () => {
  if (!confirm("Empty every answer and begin with the first question? No plan is changed.")) return;
  emptyKept();
  location.replace(location.pathname);
});
document.addEventListener("click", async (event) => {
  const button = event.target.closest("[data-to]");
  if (!button) return;
  event.preventDefault();
  const {to, blankTo} = button.dataset;
  await settled();
  if (to !== at || !blankTo) show(to);
  const blank = blankTo && form.querySelector(`[data-blank="${CSS.escape(blankTo)}"]`);
  if (blank) focusOn(blank);
});
window.addEventListener("pageshow", (event) => { if (event.persisted && done) location.reload(); });
window.addEventListener("popstate", (event) => show(event.state?.at || location.hash.slice(1) || sections[0].dataset.question, {remember: false}));

async function begin() {
  const found = recall();
  if (found) {
    fill(found.answers);
    reached = new Set(found.reached);
    at = sectionOf(found.at) ? found.at : at;
  }
  await settled();
  const loose = document.activeElement === document.body;
  show(location.hash.slice(1) || at, {focus: loose, remember: false});
  follow((other) => {
    fill(other.answers);
    other.reached.forEach((one) => reached.add(one));
    soon();
  }, () => { if (!done) location.reload(); });
  form.dataset.ready = "yes";
}

begin();
