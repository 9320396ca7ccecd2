// The plan's file in an editor: faults while typing, line numbers, saved by button and Ctrl-S; never over another's change.
import {ask, base, faultWords, post, say, setBase} from "./door.js";

const PAUSE = 200;
const BEHIND = "The file has been changed meanwhile. What you typed is still here; copy it, then put back what is in the file.";
const desk = document.getElementById("desk");
const text = document.getElementById("text");
const gutter = document.getElementById("gutter");
const told = document.getElementById("file-told");
const list = document.getElementById("file-faults");
const saver = document.getElementById("file-save");
const anew = document.getElementById("file-anew");
const back = document.getElementById("file-typed");
let was = text.value;
let calm = "As saved.";
let timer = 0;
let number = 0;

const whole = () => (desk.dataset.ends === "crlf" ? text.value.replaceAll("\n", "\r\n") : text.value);
const isDirty = () => text.value !== was;
const isOld = () => desk.dataset.base !== base();
const isBehind = () => isDirty() && isOld();

function mark() {
  desk.toggleAttribute("data-kept", isDirty());
  anew.hidden = !isDirty();
  saver.disabled = !isDirty();
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
  if (mine !== number) return false;
  show(reply.faults);
  const amount = reply.faults.length === 1 ? "1 fault" : `${reply.faults.length} faults`;
  const first = reply.faults[0] ? ` First: ${reply.faults[0].line ? `line ${reply.faults[0].line}, ` : ""}${reply.faults[0].where}: ${faultWords(reply.faults[0])}` : "";
  told.textContent = isBehind() ? BEHIND : !reply.ok ? reply.words : !isDirty() ? (reply.sound ? calm : `${amount}.`) : reply.sound ? "Sound; not saved yet." : `${amount}; not saved.${first}`;
  return reply.ok && reply.sound;
}

async function save() {
  clearTimeout(timer);
  if (!isDirty()) return;
  if (isBehind()) return void say(`Not saved. ${BEHIND}`);
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
  if (desk.hasAttribute("data-kept")) {
    if (isBehind()) told.textContent = BEHIND;
    return;
  }
  was = text.value;
  mark();
  count();
  preview();
});

mark();
count();
if (location.hash.startsWith("#line-")) goTo(Number(location.hash.slice(6)));
if (list.children.length) preview();
