// Fields and the trial: what is tried stands in its field in every tab, until it is kept, left or overtaken.
import {inTurn, post, say} from "./door.js";
import {isDirty, isTried, labelOf, linesOf, lookAt, mark, meanwhile, planFields, preview, putBack, recordOf, renewLines, showSaved, tell, tellTried, typedIn} from "./fields.js";
import {readTrial, trialNow, triedWords} from "./trial.js";

/** The `text` in a field is being tried in the trial of a `number`; `words` is how the plan would have it. */
export function setTried(field, tried) {
  Object.assign(recordOf(field), {tried: {...tried, shown: false}, untried: null, note: ""});
}

/** The plan has what was tried: the field shows it as the plan writes it. */
async function kept(field) {
  field.dataset.was = field.value;
  mark(field);
  const look = await lookAt([typedIn(field)]);
  const told = look.fields?.[field.dataset.key];
  if (told && !isDirty(field)) showSaved(field, told.now);
  return preview(field);
}

/** The plan was changed where it was tried: what was typed stays, and what the plan has is told. */
async function overtaken(field) {
  recordOf(field).left = "";
  const look = await lookAt([typedIn(field)]);
  const told = look.fields?.[field.dataset.key];
  meanwhile(field, told);
  return tell(field, told?.echo ?? "", linesOf(look, field.dataset.key));
}

/** Something else is tried in its place: what was typed here stays, and is not tried along with the next change. */
function replaced(field) {
  Object.assign(recordOf(field), {left: "", note: "No longer tried, and not saved."});
  return preview(field);
}

/** What was tried in a field is tried no more. What was typed since stays. */
function ended(field, was, trial) {
  recordOf(field).tried = null;
  if (field.value !== was.text) return undefined;
  if (trial.ended_number !== was.number) return was.shown ? putBack(field) : replaced(field);
  if (trial.ended === "kept") return kept(field);
  return trial.ended === "overtaken" && !was.shown ? overtaken(field) : putBack(field);
}

/** Shows in a field what is tried at its key, unless something else is typed there. */
function show(field, words, number) {
  const record = recordOf(field);
  if (record.untried === words) return;
  if (record.tried) {
    record.tried.number = number;
    return;
  }
  const isUntouched = !isDirty(field);
  if (isUntouched) field.value = words;
  if (field.value !== words) {
    if (isUntouched) field.value = field.dataset.was; // a choice that is not offered here
    return;
  }
  mark(field);
  Object.assign(record, {left: "try", tried: {text: words, words, number, shown: isUntouched}});
  if (isUntouched) preview(field);
}

function told(trial) {
  const newest = Math.max(trial.number, trial.ended_number);
  for (const field of planFields()) {
    const words = triedWords(field.dataset.key);
    const record = recordOf(field);
    if (record.tried?.number > newest) continue; // what was read of the trial is older than what is tried here
    if (record.tried && record.tried.words !== words) ended(field, record.tried, trial);
    if (words === undefined) record.untried = null; else show(field, words, trial.number);
    tellTried(field);
  }
}

/** What is tried in a field is tried no more; the rest of the trial goes on, where it can. */
export async function outOfTrial(field) {
  const record = recordOf(field);
  record.untried = triedWords(field.dataset.key) ?? null;
  await putBack(field);
  const reply = await inTurn(() => post("/api/trial/drop", {keys: [field.dataset.key]}));
  if (!reply.ok) record.untried = null;
  await readTrial();
  if (reply.ok) return say(`${labelOf(field)} is no longer tried.`);
  return tell(field, "", [`The rest of the trial does not go without this: ${reply.words}`, ...linesOf(reply, field.dataset.key)]);
}

/** Escape: first back to what is tried, then out of the trial; without one, to what the plan has. */
export async function escape(field) {
  const words = triedWords(field.dataset.key);
  if (words === undefined) return putBack(field);
  if (!isDirty(field) || isTried(field)) return outOfTrial(field);
  const record = recordOf(field);
  record.tried ??= {text: words, words, number: trialNow().number, shown: true};
  field.value = record.tried.text;
  mark(field);
  Object.assign(record, {order: null, note: "", left: "try", touched: false});
  return preview(field);
}

document.addEventListener("trial", (event) => told(event.detail));
document.addEventListener("renewed", () => {
  told(trialNow());
  renewLines();
});
told(trialNow());
