// What every page does: follow the plan, undo and redo, point between checks and drawings, open working, show other pictures.
import {Idiomorph} from "./vendor/idiomorph.js";
import {base, goAndSay, inTurn, isGoing, post, say, setBase} from "./door.js";
import {lightUp, pointing} from "./pointing.js";
import {wakeRound} from "./round_host.js";
import {anyTrial, endTrial, readTrial} from "./trial.js";

const main = document.getElementById("main");
let isFaulty = Boolean(document.getElementById("faulty"));
let wanted = new Set();
let timer = 0;
let later = 0;
let running = null;
let gone = false;

const FIELDS = "input, select, textarea";
/** What is not taken out by a renewal: what is not saved, and why something was not done. */
const STAY = "[data-dirty], .refused";
/** Whether there is nothing to change: a field may hold other words than its attributes say. */
const alike = (old, fresh) => old.isEqualNode(fresh) && !old.matches(FIELDS) && !old.querySelector(FIELDS);

/** Whether somebody is choosing or typing a name here, which is no field of the plan and is not saved by itself. */
function isBeingFilled(old) {
  if (!old.matches("input:not([type=radio]), select") || old.matches("[data-words]")) return false;
  return old === document.activeElement || ([...old.options ?? []].length ? old.selectedIndex > 0 : old.value !== old.defaultValue);
}

const settings = {
  morphStyle: "innerHTML",
  callbacks: {
    beforeNodeRemoved: (node) => !(node instanceof Element && (node.matches(STAY) || node.querySelector(STAY))),
    beforeNodeMorphed: (old, fresh) => {
      if (!(old instanceof Element)) return true;
      if (old.matches("[data-dirty]")) return false;
      if (old.matches("[data-kept]") || isBeingFilled(old)) return false;
      if (alike(old, fresh)) return false;
      if (old.matches("#trial-told, .tried")) return false; // filled here, anew whenever the page is
      if (old.matches(".drawn") && fresh.matches?.("[data-fetch]") && old.querySelector("svg")) {
        old.dataset.fetch = fresh.dataset.fetch; // the last drawing stays until the new one is made
        return false;
      }
      if (old.tagName === "DETAILS" && fresh.tagName === "DETAILS") fresh.open = old.open;
      if (old.matches(".steps[data-loaded]")) return false;
      return true;
    },
  },
};

function fetched(name, url) {
  const folded = document.querySelector("details.folded");
  return fetch(url, {headers: {"X-Part": name, "X-Folded": folded && !folded.open ? "closed" : "open"}});
}

async function part(name, url) {
  const reply = await fetched(name, url);
  if (!reply.ok) throw new Error(`${reply.status}`);
  return reply.text();
}

/** Brings the page's own part up to date, unless what it shows is gone from the plan. */
async function renewMain() {
  const reply = await fetched("main", location.href);
  if (reply.redirected || reply.status === 404) return leave();
  if (!reply.ok) throw new Error(`${reply.status}`);
  const text = await reply.text();
  gone = false;
  inPlace(() => Idiomorph.morph(main, text, settings));
  return main.dispatchEvent(new CustomEvent("renewed", {bubbles: true}));
}

/**
 * What the page shows is gone, by one's own doing perhaps, which says so itself: what was typed stays to be copied, or
 * until the part is back; else the plan is shown instead.
 */
async function leave() {
  await inTurn(() => {});
  if (isGoing()) return;
  if (!document.querySelector("[data-dirty]") && !isFaulty) return goAndSay("/plan", "What that page showed is no longer in the plan, or has another name.", {isNews: true});
  if (!gone && !isFaulty) say("What this page shows is no longer in the plan, or has another name. What you typed stays here until you leave; it cannot be saved here.", {isNews: true});
  gone = true;
  const whole = document.createElement("template");
  whole.innerHTML = await part("main", "/plan");
  const notices = whole.content.getElementById("notices");
  inPlace(() => Idiomorph.morph(document.getElementById("notices"), notices.innerHTML, settings));
  document.dispatchEvent(new CustomEvent("renewed"));
}

/** Changes the page so that what has the focus stays where it is on the screen; a focus that is lost goes near by. */
function inPlace(change) {
  const held = document.activeElement;
  const at = () => (main.contains(document.activeElement) ? document.activeElement.getBoundingClientRect().top : null);
  const before = at();
  const isTop = document.querySelector(".top").contains(held);
  change();
  const after = at();
  if (before !== null && after !== null && before !== after) window.scrollBy({top: after - before, behavior: "instant"});
  const isLost = held !== document.body && (document.activeElement === document.body || held.disabled);
  if (isLost && (isTop || before !== null)) ((isTop && document.querySelector(".top [data-act]:not(:disabled)")) || main).focus({preventScroll: true});
}

/** Brings up to date what is wanted; done when it is. */
function refresh() {
  running ??= renew().finally(() => { running = null; });
  return running;
}

async function renew() {
  try {
    while (wanted.size) {
      const now = wanted;
      wanted = new Set();
      if (now.has("top")) { // first: a button there must not offer what the rest already shows
        const text = await part("top", location.href);
        inPlace(() => Idiomorph.morph(document.querySelector(".top"), text, settings));
      }
      if (now.has("main") && main.dataset.follows) await renewMain();
      if (now.has("nav")) Idiomorph.morph(document.getElementById("questions"), await part("nav", location.href), settings);
    }
  } catch {
    say("The page could not be brought up to date. Is Tidestead still running?");
  }
}

function soon(...names) {
  names.forEach((name) => wanted.add(name));
  clearTimeout(timer);
  timer = setTimeout(refresh, 15);
}

/** For what somebody waits for. */
function atOnce(...names) {
  names.forEach((name) => wanted.add(name));
  clearTimeout(timer);
  return refresh();
}

function fileWords(news) {
  if (news.faults) return `The plan's file ${news.missing ? "is gone" : "has a fault now"}; the top of the page tells what to do.`;
  return "The plan's file can be read again.";
}

/** Says, once, that the plan's file has a fault now or can be read again. */
function tellFile(news) {
  if (isFaulty !== news.faults > 0) say(fileWords(news), {isNews: true});
  isFaulty = news.faults > 0;
}

function heard(news) {
  if (news.kind === "plan") {
    setBase(news);
    const question = main.querySelector("article.question");
    question?.classList.add("stale"); // its answer is on its way; the last one stays, grey
    const noticed = news.faults || document.querySelector("#faulty, #trial");
    tellFile(news);
    soon("top", ...(question && !noticed ? [] : ["main", "nav"]));
  } else if (news.kind === "closing") {
    say("Tidestead has ended. Start it again to go on; nothing typed is lost while this page stays open.");
  } else if (news.kind === "units") {
    document.body.dataset.system = news.system;
    soon("top");
  } else if (news.kind === "remedies") {
    document.dispatchEvent(new CustomEvent("remedies", {detail: news}));
  } else if (news.kind === "trial" || news.purpose === "trial") {
    if (news.kind === "trial") soon("main");
    readTrial(news.kind !== "trial");
  } else {
    const follows = main.dataset.follows;
    const ours = follows === "*" || follows === news.subject;
    if (ours && news.kind === "begun" && main.querySelector("article.stale")) return;
    if (ours && ["answer", "same", "fault"].includes(news.kind)) return atOnce("main", "nav");
    if (ours) return soon("main", "nav");
    clearTimeout(later);
    later = setTimeout(() => soon("nav"), 120);
  }
}

function listen() {
  const stream = new EventSource("/events");
  let first = true;
  stream.addEventListener("hello", (event) => {
    const hello = JSON.parse(event.data);
    if (!first || hello.told !== Number(document.body.dataset.told)) {
      tellFile(hello); // what came before this page listened
      soon("top", "main", "nav");
      readTrial();
    }
    setBase(hello, {anew: !first}); // it may have been started again
    first = false;
  });
  stream.onmessage = (event) => heard(JSON.parse(event.data));
}

async function act(button) {
  const name = button.dataset.act;
  if (name === "print") return print();
  if (name === "keep" || name === "drop") {
    const goOn = await endTrial(button);
    if (!goOn) return;
    await atOnce("top", "main", "nav");
    return void goOn();
  }
  const routes = {undo: "/api/undo", redo: "/api/redo", units: "/api/units", again: "/api/again", sound: "/api/undo"};
  const body = () => (name === "units" ? {system: button.dataset.system} : {base: base()});
  const reply = await inTurn(() => post(routes[name], body()));
  if (!reply.ok) return say(reply.words);
  setBase(reply);
  const told = {undo: `Taken back: ${reply.words}.`, redo: `Done again: ${reply.words}.`, units: "Units changed.", again: "The file is written again.", sound: "The last sound version is back."};
  say(told[name]);
  soon("top", "main", "nav");
}

/** A drawing that is wider than its place can be scrolled with the keyboard too. */
function tellScroll() {
  for (const place of document.querySelectorAll(".drawn")) {
    const wider = place.scrollWidth > place.clientWidth + 1;
    place.toggleAttribute("tabindex", wider);
    if (!wider) continue;
    const title = place.closest("figure")?.querySelector(".caption")?.textContent ?? "Drawing";
    Object.entries({tabindex: "0", role: "group", "aria-label": `${title}, may scroll sideways`}).forEach(([name, value]) => place.setAttribute(name, value));
  }
}

/** Times as the reader's own clock and language tell them. */
function tellTimes() {
  document.querySelectorAll("time[datetime]").forEach((one) => {
    const when = new Date(one.dateTime);
    if (!Number.isNaN(when.getTime())) one.textContent = when.toLocaleString([], {dateStyle: "medium", timeStyle: "short"});
  });
}

/** Prints once all that is counted on the page is on it. */
async function print() {
  const folded = document.querySelector("details.folded");
  if (folded?.querySelector("[data-wanted]")) {
    folded.open = true;
    wanted.add("main");
    await refresh();
  }
  window.print();
}

async function loadWorking(details) {
  const place = details.querySelector(".steps");
  if (!details.open || place.dataset.loaded) return;
  try {
    place.innerHTML = await part("main", details.dataset.load);
    place.dataset.loaded = "yes";
  } catch {
    say("The working could not be fetched.");
  }
}

/** Working that was fetched may be of an answer before: what is open is fetched anew, what is closed when it is opened. */
function renewWorking() {
  for (const place of document.querySelectorAll("details.working .steps[data-loaded]")) {
    const details = place.closest("details");
    delete place.dataset.loaded;
    if (details.open) loadWorking(details);
    else place.replaceChildren();
  }
}

async function fetchDrawings() {
  for (const place of document.querySelectorAll(".drawn[data-fetch]")) {
    const url = place.dataset.fetch;
    delete place.dataset.fetch;
    try {
      place.innerHTML = await part("main", url);
    } catch {
      place.dataset.fetch = url;
    }
  }
  lightUp();
  tellScroll();
}

function showPicture(href) {
  history.replaceState(null, "", href);
  soon("main");
}

document.addEventListener("wanted", () => soon("main"));
document.addEventListener("settled", () => { if (gone) soon("main"); });
document.addEventListener("picture", (event) => {
  const url = new URL(location.href);
  url.searchParams.set("picture", event.detail);
  showPicture(url.href);
});

document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-act]");
  if (button) return void act(button);
  const shown = event.target.closest("a[data-shows]");
  if (shown && !event.ctrlKey && !event.metaKey) {
    event.preventDefault();
    document.querySelector("figure.picture")?.scrollIntoView({block: "start"}); // the list of pictures is below it
    return void showPicture(shown.href);
  }
  const working = event.target.closest("a[data-working]");
  if (working) {
    const found = document.querySelector(`details.working[data-for="${CSS.escape(working.dataset.working)}"]`);
    if (found) {
      event.preventDefault();
      found.open = true;
      found.scrollIntoView({block: "start"});
      found.querySelector("summary").focus();
    }
  }
});

const unfolded = new Set();
window.addEventListener("beforeprint", () => {
  document.querySelectorAll("details.folded:not([open]), details.printed:not([open]), figcaption details:not([open])").forEach((one) => { one.open = true; unfolded.add(one); });
});
window.addEventListener("afterprint", () => { unfolded.forEach((one) => { one.open = false; }); unfolded.clear(); });

document.addEventListener("toggle", (event) => {
  if (event.target.matches?.("details.folded") && event.target.open && event.target.querySelector("[data-wanted]")) soon("main");
  if (event.target.matches?.("details.working")) loadWorking(event.target);
}, true);

document.addEventListener("keydown", (event) => {
  const typing = event.target.closest?.("input, textarea, select, [contenteditable]");
  if (!(event.ctrlKey || event.metaKey) || typing) return;
  const name = event.key.toLowerCase() === "z" ? (event.shiftKey ? "redo" : "undo") : event.key.toLowerCase() === "y" ? "redo" : "";
  const button = name && document.querySelector(`[data-act=${name}]`);
  if (!button) return;
  event.preventDefault(); // or the browser takes back letters in some field
  if (button.disabled) say(button.title);
  else act(button);
});

pointing(document);
fetchDrawings();
wakeRound(document);
document.addEventListener("renewed", () => { lightUp(); renewWorking(); fetchDrawings(); wakeRound(document); if (anyTrial()) readTrial(); tellTimes(); tellScroll(); });
window.addEventListener("resize", tellScroll);
const left = sessionStorage.getItem("tidestead-said");
if (left) {
  sessionStorage.removeItem("tidestead-said");
  say(left);
}
tellTimes();
tellScroll();
listen();
if (anyTrial()) readTrial();
