// Fields and the trial: what is tried stands in its field in every tab, until it is kept, left or overtaken.
import {inTurn, post, say} from "./door.js";
import {isDirty, isTried, labelOf, linesOf, lookAt, mark, meanwhile, planFields, preview, putBack, renewLines, showSaved, tell, tellTried, tries, typedIn} from "./fields.js";
import {readTrial, trialNow, triedWords} from "./trial.js";

/** What a field stopped to show on Escape, until the trial is read without it. */
const left = new WeakMap();

/** The `text` in a field is being tried in the trial of a `number`; `words` is how the plan would have it. */
export function setTried(field, tried) {
  tries.set(field, {...tried, shown: false});
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
  delete field.dataset.left;
  const look = await lookAt([typedIn(field)]);
  const told = look.fields?.[field.dataset.key];
  tell(field, told?.echo ?? "", [...meanwhile(field, told), ...linesOf(look, field.dataset.key)]);
}

/** What was tried in a field is tried no more. What was typed since stays. */
function ended(field, was, trial) {
  tries.delete(field);
  if (field.value !== was.text) return undefined;
  if (trial.ended_number !== was.number) return was.shown ? putBack(field) : undefined; // another is tried in its place
  if (trial.ended === "kept") return kept(field);
  return trial.ended === "overtaken" && !was.shown ? overtaken(field) : putBack(field);
}

/** Shows in a field what is tried at its key, unless something else is typed there. */
function show(field, words, number) {
  if (left.get(field) === words) return;
  if (tries.has(field)) {
    tries.get(field).number = number;
    return;
  }
  const untouched = !isDirty(field);
  if (untouched) field.value = words;
  if (field.value !== words) {
    if (untouched) field.value = field.dataset.was; // a choice that is not offered here
    return;
  }
  field.dataset.left = "try";
  tries.set(field, {text: words, words, number, shown: untouched});
  mark(field);
  if (untouched) preview(field);
}

function told(trial) {
  const newest = Math.max(trial.number, trial.ended_number);
  for (const field of planFields()) {
    const words = triedWords(field.dataset.key);
    const was = tries.get(field);
    if (was?.number > newest) continue; // what was read of the trial is older than what is tried here
    if (was && was.words !== words) ended(field, was, trial);
    if (words === undefined) left.delete(field); else show(field, words, trial.number);
    tellTried(field);
  }
}

/** Escape: first back to what is tried, then out of the trial; without one, to what the plan has. */
export async function escape(field) {
  const words = triedWords(field.dataset.key);
  if (words === undefined) return putBack(field);
  if (isDirty(field) && !isTried(field)) {
    field.value = tries.get(field)?.text ?? words;
    mark(field);
    return preview(field);
  }
  left.set(field, words);
  await putBack(field);
  const reply = await inTurn(() => post("/api/trial/drop", {keys: [field.dataset.key]}));
  if (!reply.ok) left.delete(field);
  await readTrial();
  if (reply.ok) return say(`${labelOf(field)} is no longer tried.`);
  return tell(field, "", [`The rest of the trial does not go without this: ${reply.words}`, ...linesOf(reply, field.dataset.key)]);
}

document.addEventListener("trial", (event) => told(event.detail));
document.addEventListener("renewed", () => {
  told(trialNow());
  renewLines();
});
told(trialNow());
