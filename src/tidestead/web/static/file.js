// The plan's file in an editor: faults while typing, line numbers, saved by button and Ctrl-S; never over another's change.
import {ask, base, faultWords, post, say, setBase} from "./door.js";

const PAUSE = 200;
const GONE = "The file is gone; nothing can be saved. The top of the page tells what to do.";
const desk = document.getElementById("desk");
const text = document.getElementById("text");
const gutter = document.getElementById("gutter");
const told = document.getElementById("file-told");
const list = document.getElementById("file-faults");
const saver = document.getElementById("file-save");
const over = document.getElementById("file-over");
const anew = document.getElementById("file-anew");
const back = document.getElementById("file-typed");
let was = text.value;
let seen = "";
let theirs = ""; // where another program has changed the file while something else was typed here, in words
let calm = "As saved.";
let timer = 0;
let number = 0;

const whole = () => (desk.dataset.ends === "crlf" ? text.value.replaceAll("\n", "\r\n") : text.value);
const isDirty = () => text.value !== was;
const isOld = () => desk.dataset.base !== base();
const isBehind = () => isDirty() && isOld();
const isGone = () => document.querySelector("[data-missing]") !== null;
const behindWords = () => `The file has been changed meanwhile${theirs}. What you typed is still here. Saving it over the file would undo that change.`;
const linesOf = (words) => words.replaceAll("\r\n", "\n").split("\n");

/** The lines of the file by now in which it is not as it was when typing began. */
async function tellTheirs() {
  const plan = await ask("/api/plan");
  if (!plan.ok) return;
  const [before, now] = [linesOf(was), linesOf(plan.text)];
  const first = now.findIndex((line, at) => line !== before[at]);
  const start = first < 0 ? now.length : first;
  let end = 0;
  while (end < Math.min(before.length, now.length) - start && before.at(-1 - end) === now.at(-1 - end)) end += 1;
  seen = plan.digest;
  const last = Math.max(now.length - end, start + 1);
  theirs = `, ${last > start + 1 ? `lines ${start + 1} to ${last}` : `line ${start + 1}`} of it`;
}

function mark() {
  desk.toggleAttribute("data-kept", isDirty());
  anew.hidden = !isDirty() || isGone();
  over.hidden = !isBehind() || isGone();
  saver.disabled = !isDirty() || isBehind() || isGone();
}

function count() {
  const lines = text.value.split("\n").length;
  while (gutter.children.length > lines) gutter.lastElementChild.remove();
  while (gutter.children.length < lines) {
    const line = document.createElement("span");
    line.id = `line-${gutter.children.length + 1}`;
    line.textContent = gutter.children.length + 1;
    gutter.append(line);
  }
  text.rows = lines;
}

function show(faults) {
  const items = faults.map((fault) => {
    const item = document.createElement("li");
    if (fault.line) {
      const link = document.createElement("a");
      link.href = `#line-${fault.line}`;
      link.textContent = `line ${fault.line}`;
      item.append(link, ", ");
    }
    const where = document.createElement("code");
    where.textContent = fault.where;
    item.append(where, `: ${faultWords(fault)}`);
    return item;
  });
  const found = document.createElement("ul");
  found.className = "faults";
  found.append(...items);
  list.replaceChildren(...(items.length ? [found] : []));
  const bad = new Set(faults.map((fault) => fault.line));
  [...gutter.children].forEach((line, at) => line.classList.toggle("bad", bad.has(at + 1)));
  text.setAttribute("aria-invalid", String(items.length > 0));
}

async function preview() {
  const mine = ++number;
  const reply = await post("/api/preview/text", {text: whole()});
  if (isBehind()) await tellTheirs();
  if (mine !== number) return false;
  mark();
  show(reply.faults);
  const amount = reply.faults.length === 1 ? "1 fault" : `${reply.faults.length} faults`;
  told.textContent = isGone() ? GONE : isBehind() ? behindWords() : !reply.ok ? reply.words : !isDirty() ? (reply.sound ? calm : `${amount}.`) : reply.sound ? "Sound; not saved yet." : `${amount}; not saved.`;
  return reply.ok && reply.sound;
}

async function save() {
  clearTimeout(timer);
  if (!isDirty()) return;
  if (isGone() || (isBehind() && desk.dataset.base !== seen)) return void say(`Not saved. ${isGone() ? GONE : behindWords()}`);
  if (!(await preview())) {
    document.getElementById(list.querySelector("a")?.hash.slice(1) ?? "")?.scrollIntoView({block: "center"});
    return void say("Not saved: the text has faults; they are listed above it.");
  }
  const sent = text.value;
  const reply = await post("/api/save/text", {text: whole(), base: desk.dataset.base});
  if (reply.ok) {
    was = sent;
    desk.dataset.base = reply.digest;
    setBase(reply);
    mark();
    if (isOld()) document.dispatchEvent(new CustomEvent("wanted")); // another change came after ours
    show([]);
    calm = "Saved.";
    told.textContent = isDirty() ? "Saved; you have typed since." : calm;
    say("The file is saved.");
  } else {
    if (reply.faults.length) show(reply.faults);
    told.textContent = reply.words;
    say(reply.words);
  }
}

function goTo(line) {
  const lines = text.value.split("\n");
  const start = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  text.focus({preventScroll: true});
  text.setSelectionRange(start, start + (lines[line - 1] ?? "").length);
  document.getElementById(`line-${line}`)?.scrollIntoView({block: "center"});
}

text.addEventListener("input", () => {
  calm = "As saved.";
  back.hidden = true;
  mark();
  count();
  clearTimeout(timer);
  timer = setTimeout(preview, PAUSE);
});

saver.addEventListener("click", save);
over.addEventListener("click", () => {
  desk.dataset.base = seen; // on purpose: what the other program changed, as it was told, is undone by it
  save();
});

/** Puts another text in the editor; the caret and the view stay where they were. */
function fill(words) {
  const {selectionStart, scrollLeft} = text;
  text.value = words;
  text.setSelectionRange(selectionStart, selectionStart);
  text.scrollLeft = scrollLeft;
  calm = "As saved.";
  mark();
  count();
  preview();
  text.focus({preventScroll: true});
}

anew.addEventListener("click", async () => {
  const plan = await ask("/api/plan");
  if (!plan.ok) return say(plan.words);
  setBase(plan);
  const typed = {words: text.value, was, base: desk.dataset.base, ends: desk.dataset.ends};
  was = plan.text.replaceAll("\r\n", "\n");
  Object.assign(desk.dataset, {base: plan.digest, ends: plan.text.includes("\r\n") ? "crlf" : "lf"});
  fill(was);
  back.hidden = false;
  back.onclick = () => { // with the text it was typed on: saved over another's change it would undo that
    back.hidden = true;
    was = typed.was;
    Object.assign(desk.dataset, {base: typed.base, ends: typed.ends});
    fill(typed.words);
  };
  return undefined;
});

document.addEventListener("keydown", (event) => {
  if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s") {
    event.preventDefault();
    save();
  }
});

document.addEventListener("click", (event) => {
  const link = event.target.closest?.("a[href^='#line-'], a[href^='/file#line-']");
  if (!link) return;
  event.preventDefault();
  goTo(Number(link.hash.slice(6)));
});

window.addEventListener("beforeunload", (event) => { if (isDirty()) event.preventDefault(); });

/* the page brings this part up to date when the file changes, unless something is typed here */
document.addEventListener("renewed", () => {
  if (desk.hasAttribute("data-kept")) return void preview();
  was = text.value;
  mark();
  count();
  preview();
});

mark();
count();
if (location.hash.startsWith("#line-")) goTo(Number(location.hash.slice(6)));
if (list.children.length) preview();
