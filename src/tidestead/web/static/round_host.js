// Offers to turn the view in the round where there is one; the still drawing stays where it cannot be shown.
import {say} from "./door.js";

const live = new WeakMap();

async function turn(place, button) {
  button.disabled = true;
  try {
    const [{show}, data] = await Promise.all([import("./round.js"), fetch(place.dataset.round).then((reply) => reply.json())]);
    const host = document.createElement("div");
    host.className = "round-host";
    host.dataset.kept = "yes";
    place.dataset.kept = "yes";
    const still = place.querySelector("svg");
    place.append(host);
    const view = show(host, data);
    if (!view) throw new Error("no view");
    still?.classList.add("still");
    live.set(place, view);
    document.addEventListener("lit", (event) => view.highlight(event.detail));
    const focused = document.activeElement === button;
    button.remove();
    if (focused) host.querySelector("canvas")?.focus();
  } catch {
    button.disabled = false;
    say("The view in the round cannot be shown here; the drawing stays.");
  }
}

/** Puts a button beside each still drawing that can be turned. */
export function wakeRound(root) {
  for (const place of root.querySelectorAll(".drawn[data-round]")) {
    if (live.has(place) || place.parentElement.querySelector(".turn")) continue;
    const button = document.createElement("button");
    button.type = "button";
    button.className = "turn act";
    button.textContent = "Turn it round";
    button.addEventListener("click", () => turn(place, button));
    place.after(button);
  }
}
