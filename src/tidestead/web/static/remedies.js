// Remedies: found in a process of their own, told as they come, tried and done like any change.
import {base, inTurn, post, say, setBase} from "./door.js";
import {readTrial} from "./trial.js";

let goTo = ""; // what is to have the focus when the page has been renewed: a panel, or the trial

const panelOf = (check) => document.getElementById(`remedies-${check}`);
const wanted = () => document.dispatchEvent(new CustomEvent("wanted"));

function show(place) {
  place.scrollIntoView({block: "center"});
  place.focus({preventScroll: true});
}

/** Begins a search, or goes to what was found already. */
async function find(check) {
  const panel = panelOf(check);
  if (panel && ["working", "done"].includes(panel.dataset.state)) return show(panel);
  if (panel) show(panel);
  const reply = await post("/api/remedies/find", {check, base: base()});
  if (!reply.ok) return say(reply.words);
  say("Searching for remedies. The page can be used meanwhile.");
  goTo = `remedies-${check}`;
  return wanted();
}

async function stop(check) {
  const reply = await post("/api/remedies/stop", {check});
  say(reply.ok ? "The search is given up." : reply.words);
  goTo = `remedies-${check}`;
  wanted();
}

/** Tries a remedy as any change: what it would turn stands at the top of the page, with what keeps and leaves it. */
async function tryOut(button) {
  const reply = await inTurn(() => post("/api/try", {edits: JSON.parse(button.dataset.try), base: base()}));
  if (!reply.ok) return say(reply.words);
  say("Being tried, not saved. Keep it or leave it at the top of the page.");
  goTo = "trial";
  wanted();
  return readTrial(true);
}

/** Saves a remedy. */
async function doIt(button) {
  const reply = await inTurn(() => post("/api/remedies/write", {check: button.dataset.of, number: Number(button.dataset.do), base: base()}));
  if (!reply.ok) return say(reply.words);
  setBase(reply);
  say(`Done: ${reply.words}. Undo brings the plan back as it was.`);
  goTo = `remedies-${button.dataset.of}`;
  return wanted();
}

/** News of a search: how far it is at once, what it has found with the page. */
function heard(news) {
  const panel = panelOf(news.check);
  if (!panel) return;
  const isFurther = news.state === "working" && panel.dataset.state === "working" && news.stage !== "pricing";
  const line = panel.querySelector("[data-progress]");
  if (line && line.textContent !== news.words) line.textContent = news.words;
  if (isFurther) return;
  const count = `${news.changes} ${news.changes === 1 ? "remedy" : "remedies"}`;
  if (news.state === "done") say(news.changes ? `The search is done: ${count} found.` : "The search is done: nothing that was tried helps.", {isNews: true});
  wanted();
}

function renewed() {
  const place = goTo && document.getElementById(goTo);
  if (!place) return;
  const isFree = [document.body, document.getElementById("main")].includes(document.activeElement);
  if (goTo === "trial" || isFree) show(place);
  goTo = "";
}

document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-find], [data-stop], [data-try], [data-do]");
  if (!button) return;
  const {find: sought, stop: stopped} = button.dataset;
  if (sought !== undefined) find(sought);
  else if (stopped !== undefined) stop(stopped);
  else if (button.dataset.try) tryOut(button);
  else doIt(button);
});
document.addEventListener("remedies", (event) => heard(event.detail));
document.addEventListener("renewed", renewed);
