// What stands round the picture: tools, legend, words on it, and every part as a button for those who cannot point.
import {css, legendOf, sample, stepOf} from "./round_looks.js";

export const WORDS = {
  keys: "Drag to turn it. With the keys: arrows turn, + and \u2212 come nearer and go back, 0 begins again.",
  stuff: "what it is made of",
  use: "how much of its limit is used",
  colour: "Colour shows",
  through: "See through the walls",
  nearer: "Nearer",
  farther: "Farther",
  again: "Begin again",
  left: "Turn left",
  right: "Turn right",
  parts: "Every part in words",
  nothing: "This browser cannot draw in the round; the still drawing shows the same.",
  lost: "The picture in the round was lost; the still drawing shows the same.",
};

export function made(name, attributes = {}, ...inside) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...inside);
  return element;
}

export const spoken = (part) => part.replaceAll("_", " ").split(".").join(", ");

/** The share of its limit that a part uses, as its words have it. */
export const percent = (use) => (use.words.match(/([<>]?-?[\d.]+\s?%) used/) || ["", ""])[1];

/** Everything but the drawing itself, put into the host. */
export function stageOf(host, data, words, heard) {
  const name = `round-${Math.random().toString(36).slice(2)}`;
  const canvas = made("canvas", {tabindex: "0", role: "application", "aria-roledescription": "drawing that can be turned", "aria-label": `${data.round.title}. ${words.keys}`, "aria-describedby": `${name}-told`});
  const told = made("p", {id: `${name}-told`, class: "round-told"}, data.round.told);
  const labels = made("div", {class: "round-labels", "aria-hidden": "true"});
  const tip = made("p", {class: "round-tip", hidden: ""});
  const stage = made("div", {class: "round-stage"}, canvas, labels, tip, told);
  const legend = made("ul", {class: "round-legend"});
  const choices = ["stuff", "use"].map((by) => {
    const input = made("input", {type: "radio", name, value: by});
    input.addEventListener("change", () => heard.colourBy(by));
    return made("label", {}, input, ` ${words[by]}`);
  });
  const through = made("input", {type: "checkbox"});
  through.addEventListener("change", () => heard.seeThrough(through.checked));
  const act = (key, does) => {
    const button = made("button", {type: "button"}, words[key]);
    button.addEventListener("click", does);
    return button;
  };
  const moves = made("div", {class: "round-moves"}, act("left", () => heard.turn(-20, 0)), act("right", () => heard.turn(20, 0)), act("nearer", () => heard.nearer(0.8)), act("farther", () => heard.nearer(1.25)), act("again", heard.again));
  const hasUses = Object.keys(data.uses || {}).length > 0;
  const colour = made("fieldset", {class: "round-colour"}, made("legend", {}, words.colour), ...choices);
  colour.hidden = !hasUses;
  const tools = made("div", {class: "round-tools"}, colour, made("label", {class: "round-through"}, through, ` ${words.through}`), moves);
  const keys = made("p", {class: "round-keys"}, words.keys);
  host.append(made("div", {class: "round"}, stage, keys, tools, legend, partsOf(data, words, heard)));
  return {canvas, labels, tip, stage, legend, choose: (by) => choices.forEach((label) => { const input = label.firstChild; input.checked = input.value === by; })};
}

/** Every part as a button that lights it. */
function partsOf(data, words, heard) {
  const parts = [...new Map(data.round.solids.filter((solid) => solid.part).map((solid) => [solid.part, solid.label])).entries()];
  const list = made("ul", {});
  for (const [part, label] of parts) {
    const use = data.uses?.[part];
    const told = [label && !part.split(".").includes(label) && !label.startsWith(part) ? `${spoken(part)} (${label})` : spoken(part), use?.words].filter(Boolean).join(": ");
    const button = made("button", {type: "button", "data-part": part}, told);
    for (const kind of ["focus", "pointerenter", "click"]) button.addEventListener(kind, () => heard.point(part));
    for (const kind of ["blur", "pointerleave"]) button.addEventListener(kind, () => heard.point(""));
    list.append(made("li", {}, button));
  }
  return made("details", {class: "round-parts"}, made("summary", {}, `${words.parts} (${parts.length})`), list);
}

/** The legend for a way of colouring. */
export function tellLegend(legend, bodies, uses, by, colours) {
  const kinds = by === "use" ? bodies.filter((body) => !["water", "outline"].includes(body.stuff)).map((body) => stepOf(uses[body.part])) : bodies.map((body) => body.stuff);
  legend.replaceChildren(...legendOf(kinds, by).map(({words, look}) => made("li", {}, sample(look, colours), ` ${words}`)));
}

/** Words on the picture: names of vessels; by use also the share at what is near or fails, worst first. */
export function wordsOn(round, bodies, uses, by) {
  const names = round.tags.filter((tag) => tag.at.every((part) => part !== null)).map((tag) => ({at: tag.at, words: tag.words, kind: "name"}));
  if (by !== "use") return names;
  const told = bodies.filter((body) => ["near", "fails"].includes(uses[body.part]?.verdict) && !["water", "outline"].includes(body.stuff));
  told.sort((one, other) => (uses[other.part].use ?? Infinity) - (uses[one.part].use ?? Infinity));
  return [...told.map((body) => ({at: body.middle, words: percent(uses[body.part]) || uses[body.part].verdict, kind: uses[body.part].verdict})), ...names];
}

/** Puts words where they stand, or over or under there; those that would still lie on others are left to the list. `flat` gives a place in pixels, or null. */
export function setWords(labels, told, flat, colours) {
  const taken = [];
  labels.replaceChildren();
  for (const {at, words, kind} of told) {
    const place = flat(at);
    if (!place) continue;
    const label = made("span", {class: `round-word round-${kind}`}, words);
    labels.append(label);
    const [wide, tall] = [label.offsetWidth, label.offsetHeight];
    const boxes = [0, -1, 1, -2, 2].map((step) => {
      const [left, top] = [place[0] - wide / 2, place[1] - tall / 2 + step * (tall + 2)];
      return [left, top, left + wide, top + tall];
    });
    const box = boxes.find((one) => !taken.some((other) => other[0] < one[2] && one[0] < other[2] && other[1] < one[3] && one[1] < other[3]));
    if (!box) {
      label.remove();
      continue;
    }
    taken.push(box);
    label.style.transform = `translate(${Math.round(box[0])}px,${Math.round(box[1])}px)`;
    label.style.color = css(colours.ink);
  }
}
