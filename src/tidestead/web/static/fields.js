// Values of the plan typed in place: read back while typing, saved on change, put back by Escape.
import {base, faultWords, post, say, setBase} from "./door.js";

const PAUSE = 160;
const timers = new WeakMap();

const echoOf = (field) => document.querySelector(`[data-echo="${CSS.escape(field.dataset.key)}"]`);

function tell(field, words, bad) {
  const place = echoOf(field);
  if (place) {
    place.textContent = words;
    place.classList.toggle("bad", bad);
  }
  field.setAttribute("aria-invalid", String(bad));
}

function tellFaults(field, faults) {
  const own = faults.filter((fault) => fault.where === field.dataset.key || fault.where.startsWith(`${field.dataset.key}[`));
  const told = (own.length ? own : faults).map((fault) => (own.length ? "" : `${fault.where}: `) + faultWords(fault));
  tell(field, told.join(" "), true);
}

const editOf = (field) => ({key: field.dataset.key, value: field.value.trim() === "" ? null : field.value});

async function preview(field) {
  const typed = field.value;
  if (typed.trim() === "") return tell(field, "", false);
  const reply = await post("/api/preview", {edits: [editOf(field)]});
  if (field.value !== typed) return;
  if (reply.ok && reply.sound) tell(field, reply.echoes[field.dataset.key] || "", false);
  else tellFaults(field, reply.faults);
}

async function save(field, soon) {
  if (field.value === field.defaultValue) return delete field.dataset.dirty;
  const reply = await post("/api/save", {edits: [editOf(field)], base: base()});
  if (reply.ok) {
    setBase(reply.digest);
    delete field.dataset.dirty;
    say(`Saved: ${field.dataset.key} = ${field.value || "as assumed"}.`);
    soon("top", "main", "nav");
  } else {
    if (reply.faults.length) tellFaults(field, reply.faults);
    else tell(field, reply.words, true);
    say(`Not saved. ${reply.words}`);
  }
}

/** Watches every input that carries `data-field`. */
export function watchFields(root, soon) {
  root.addEventListener("input", (event) => {
    const field = event.target;
    if (!field.matches?.("[data-field]")) return;
    field.dataset.dirty = "yes";
    clearTimeout(timers.get(field));
    timers.set(field, setTimeout(() => preview(field), PAUSE));
  });
  root.addEventListener("change", (event) => { if (event.target.matches?.("[data-field]")) save(event.target, soon); });
  root.addEventListener("keydown", (event) => {
    const field = event.target;
    if (!field.matches?.("[data-field]") || event.key !== "Escape") return;
    field.value = field.defaultValue;
    delete field.dataset.dirty;
    tell(field, "", false);
  });
}
