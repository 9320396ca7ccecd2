// The last screen of the first questions: what is still open, every answer in words, all that is assumed.
import {faultWords} from "./door.js";

export function made(name, words = "", settings = {}) {
  const node = Object.assign(document.createElement(name), settings);
  if (words) node.textContent = words;
  return node;
}

/** A button that leads to a question. */
export function leads(words, section) {
  const button = made("button", words, {type: "button"});
  button.dataset.to = section.dataset.question;
  return button;
}

/** What is wrong with a blank, with the way to it. */
export function faultLine(fault, section, blank) {
  const link = made("a", fault.where, {href: `#${section.dataset.question}`});
  link.dataset.to = section.dataset.question;
  link.dataset.blankTo = blank;
  const line = made("li");
  line.append(link, ` ${faultWords(fault)}`);
  return line;
}

/** A value of the plan without the marks it is written with. */
export function plainly(value) {
  if (Array.isArray(value)) return value.map(plainly).join(", ");
  if (value && typeof value === "object") return Object.entries(value).map(([key, inner]) => `${key} ${plainly(inner)}`).join(", ");
  return value === true ? "yes" : value === false ? "no" : String(value);
}

/** Everything that is missing or wrong, each with the way to it. */
export function openFaults(looked, sections, faulty) {
  const list = made("ul");
  for (const section of sections) {
    for (const blank of faulty(section)) list.append(faultLine(looked.faults[blank.dataset.blank][0], section, blank.dataset.blank));
  }
  for (const fault of looked.faults.plan || []) list.append(made("li", `${fault.where} ${faultWords(fault)}`));
  return [made("p", "The plan can be written when these are answered:"), list];
}

/** Each question with its answers in words, what was left open named below. */
export function answered(sections, askedIn) {
  return sections.filter((one) => one.dataset.question !== "review").map((section) => {
    const place = made("div", "", {className: "said"});
    const head = made("div", "", {className: "said-head"});
    const title = section.querySelector("h2").textContent;
    const change = leads("Change", section);
    change.setAttribute("aria-label", `Change: ${title}`);
    head.append(made("h4", title), change);
    const list = made("dl");
    const left = [];
    for (const blank of askedIn(section)) {
      const words = answerOf(blank);
      const label = blank.querySelector("label, legend").textContent;
      if (words) list.append(made("dt", label), made("dd", words));
      else left.push(label);
    }
    place.append(head, list);
    if (left.length) place.append(made("small", `Left open: ${left.join("; ")}.`));
    return place;
  });
}

/** An answer as its reader would say it; empty where there is none. */
function answerOf(blank) {
  const inputs = [...blank.querySelectorAll("input, select")];
  if (inputs[0].type === "radio") {
    const chosen = inputs.find((one) => one.checked && one.value);
    return chosen ? chosen.closest("label").textContent.trim() : "";
  }
  if (inputs[0].tagName === "SELECT") return inputs[0].value ? inputs[0].selectedOptions[0].textContent.trim() : "";
  return inputs[0].value.trim();
}

/** What is assumed, a heading and a table for each batch, as they come. */
export function taken(assumed) {
  const batches = new Map();
  for (const one of assumed) batches.set(one.title, [...(batches.get(one.title) ?? []), one]);
  return [...batches].flatMap(([title, inside], number) => {
    const head = made("h4", title, {id: `batch-${number}`});
    const table = made("table", "", {className: "taken"});
    table.setAttribute("aria-labelledby", head.id);
    const body = made("tbody");
    body.append(...inside.map(takenRow));
    const heads = made("tr");
    heads.append(...["What", "Taken as", "Why"].map((words) => made("th", words, {scope: "col"})));
    const top = made("thead");
    top.append(heads);
    table.append(top, body);
    return [head, table];
  });
}

function takenRow(one) {
  const row = made("tr");
  row.append(made("th", one.words, {scope: "row"}), made("td", plainly(one.value)), made("td", one.why));
  return row;
}
