// Checks point at their part of the drawing, and parts of the drawing point at their checks.
import {say} from "./door.js";

let held = "";
let over = "";

const starts = (long, short) => long === short || long.startsWith(`${short}.`);

/** The keys among `keys` that mean the part, or the nearest that holds it. */
function nearest(part, keys) {
  const inside = keys.filter((key) => starts(key, part));
  if (inside.length) return inside;
  return keys.filter((key) => starts(part, key)).sort((one, other) => other.length - one.length).slice(0, 1);
}

/** Asks for the drawing that shows a pressed check best, where another stands there; a view in the round shows all. */
function askFor(button) {
  const figure = document.querySelector("figure.picture");
  const better = button.dataset.picture && button.dataset.picture !== figure?.dataset.picture;
  if (figure?.querySelector("[data-round]") || !better) {
    const isComing = figure !== null && !figure.querySelector(".drawn svg, canvas"); // it is lit when it is there
    if (!isComing && !document.querySelector(".drawn .lit")) say("No drawing shows this part by itself.");
    return;
  }
  document.dispatchEvent(new CustomEvent("picture", {detail: button.dataset.picture}));
}

/** Lights what the pointer, the focus or a pressed check means. */
export function lightUp() {
  const part = over || held;
  const drawn = [...document.querySelectorAll(".drawn [data-part]")];
  const rows = [...document.querySelectorAll("tr[data-part]")];
  const lit = part ? new Set(nearest(part, [...new Set(drawn.map((one) => one.dataset.part))])) : new Set();
  drawn.forEach((one) => one.classList.toggle("lit", lit.has(one.dataset.part)));
  const told = part ? new Set(nearest(part, [...new Set(rows.map((one) => one.dataset.part))])) : new Set();
  rows.forEach((one) => one.classList.toggle("lit", told.has(one.dataset.part)));
  document.querySelectorAll("[data-points]").forEach((one) => one.setAttribute("aria-pressed", String(!!held && one.dataset.points === held)));
  document.dispatchEvent(new CustomEvent("lit", {detail: part}));
}

function partOf(target) {
  const found = target.closest?.("[data-points], tr[data-part], .drawn [data-part]");
  return found ? found.dataset.points || found.dataset.part : "";
}

/** Begins to listen in a document. */
export function pointing(root) {
  const set = (part) => { if (part !== over) { over = part; lightUp(); } };
  root.addEventListener("pointerover", (event) => set(partOf(event.target)));
  root.addEventListener("focusin", (event) => set(partOf(event.target)));
  root.addEventListener("focusout", () => set(""));
  root.addEventListener("part", (event) => set(event.detail || ""));
  root.addEventListener("click", (event) => {
    const button = event.target.closest("[data-points]");
    const drawn = event.target.closest(".drawn [data-part]");
    if (!button && !drawn) return;
    const part = button ? button.dataset.points : drawn.dataset.part;
    held = held === part ? "" : part;
    lightUp();
    if (button && held) askFor(button);
    if (drawn && held) {
      const row = document.querySelector("tr.lit");
      row?.closest("details")?.setAttribute("open", "");
      row?.scrollIntoView({block: "nearest"});
    }
  });
}
