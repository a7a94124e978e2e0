// Forms that may be kept here: written down on the phone first, then sent. Without this the browser sends them itself.
import { askWhichDay } from "./days.js";
import { fill } from "./fill.js";
import { dayNow, here, inWords, newId } from "./here.js";
import { isNo, note, SENT, SIGNED_OUT } from "./post.js";
import { send } from "./send.js";
import { shrunk } from "./shrink.js";
import { keep, one, remove, WAITING } from "./slips.js";

// Whoever has gone on to another page meanwhile is not called back.
let isLeaving = false;

export function begin() {
  window.addEventListener("beforeunload", () => { isLeaving = true; });
  window.addEventListener("pageshow", () => { isLeaving = false; });
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!form.matches("form[data-pocket]") || event.defaultPrevented || event.submitter?.hasAttribute("data-plain")) return;
    event.preventDefault();
    if (!form.dataset.busy) take(form, event.submitter);
  });
}

// What was written is read, and the form cleared, before anything slow: a quick second entry is another one.
async function take(form, submitter) {
  const slip = slipOf(form, submitter);
  form.dataset.busy = "yes";
  try {
    if (isOfAnotherDay(slip) && !(await settleDay(form, submitter, slip))) return;
    clear(form);
    const kept = await keepOr(slip, () => { fill(form, slip.fields); native(form, submitter); });
    if (kept) await sendNow(form, kept, submitter);
  } finally {
    delete form.dataset.busy;
  }
}

function slipOf(form, submitter) {
  const written = [...new FormData(form)].filter(([name]) => name !== "csrfmiddlewaretoken");
  if (submitter?.name) written.push([submitter.name, submitter.value]);
  const fields = written.filter(([name, value]) => !(value instanceof File) && name !== "client_id");
  const [id, path] = [idOf(form), new URL(form.action)];
  return {
    id, state: WAITING, club: here.club, member: here.member, name: here.name,
    path: path.pathname + path.search, from: location.pathname, mends: Number(form.dataset.mends) || 0,
    fields: [...fields, ["client_id", id]], on: valueOf(fields, "on") || here.today, words: wordsOf(form, submitter, fields),
    keptAt: new Date().toISOString(), notBefore: 0, goes: { attach: here.attach, list: here.list, pages: here.pages },
    files: written.map(([, value]) => value).filter((value) => value instanceof File && value.size),
  };
}

// A tap has the number of the page that shows it, so that a second one is the same; anything else a new one.
const idOf = (form) => (form.hasAttribute("data-tap") && form.elements.namedItem("client_id")?.value) || newId();

const valueOf = (fields, name) => fields.find(([key]) => key === name)?.[1];

// "Feed, Fourth, Seventh, Thu 16 April".
function wordsOf(form, submitter, fields) {
  const chosen = form.querySelectorAll("[name=greens]:checked, input[name=green]:checked, [name=green] option:checked:not([value=''])");
  const places = [...chosen].map((one) => (one.labels ? one.labels[0] : one).textContent.trim()).filter(Boolean);
  const day = valueOf(fields, "on");
  return [form.dataset.pocket || submitter?.textContent, places.join(", "), day && inWords(day)].filter(Boolean).join(", ");
}

// A page that is older than the day is asked about; a day that somebody chose is theirs.
const isOfAnotherDay = (slip) => valueOf(slip.fields, "on") === here.today && dayNow() !== here.today;

async function settleDay(form, submitter, slip) {
  const day = await askWhichDay(here.today, dayNow());
  if (!day) return false;
  slip.fields.find(([name]) => name === "on")[1] = slip.on = day;
  slip.fields.find(([name]) => name === "client_id")[1] = slip.id = newId();
  slip.words = wordsOf(form, submitter, slip.fields);
  return true;
}

// The slip as this phone keeps it; where it cannot, it is sent as any form is.
async function keepOr(slip, otherwise) {
  try {
    const before = slip.mends ? await one(slip.mends) : null;
    const files = [...(before?.files || []), ...(await Promise.all(slip.files.map(asBytes)))];
    return await keep({ ...slip, ...(before ? { number: before.number } : {}), files });
  } catch {
    otherwise();
    return null;
  }
}

async function asBytes(file) {
  const small = await shrunk(file);
  return { id: newId(), name: small.name, type: small.type, bytes: await small.arrayBuffer(), isSent: false };
}

async function sendNow(form, slip, submitter) {
  said(form, `Kept on this phone: ${slip.words}. Sending it.`);
  const outcome = await send(slip, "now");
  if (isNo(outcome) && !slip.files.length && !isTouched(form) && !isLeaving) return showRefusal(form, slip, submitter);
  await note(slip, outcome);
  if (isNo(outcome)) return said(form, `Refused: ${slip.words}. It is on this phone, with the reason.`);
  if (outcome.is !== SENT) return waits(form, slip, outcome);
  if (isTouched(form)) return said(form, `Kept in the record: ${slip.words}.`);
  return isLeaving ? null : location.assign(outcome.page);
}

// The page says best itself what is wrong, beside the field; nothing was kept of it.
async function showRefusal(form, slip, submitter) {
  await remove(slip);
  fill(form, slip.fields);
  native(form, submitter);
}

function waits(form, slip, outcome) {
  form.dataset.waits = "yes";
  const when = outcome.is === SIGNED_OUT ? "once you have signed in again" : "when there is signal";
  said(form, `Kept on this phone: ${slip.words}. It is sent ${when}.`);
  wakeWhenThereIsSignal().catch(() => null);
}

// Where the browser can, its worker sends even when no page is open.
async function wakeWhenThereIsSignal() {
  await (await navigator.serviceWorker?.ready)?.sync?.register("pocket");
}

function clear(form) {
  form.reset();
  form.dispatchEvent(new Event("input", { bubbles: true })); // whoever shows sums or lists shows them empty
  delete form.dataset.touched;
  delete form.dataset.mends;
  form.querySelector("[data-refused]")?.remove();
  form.addEventListener("input", () => { form.dataset.touched = "yes"; }, { once: true });
}

const isTouched = (form) => form.dataset.touched === "yes";

// As the browser would have sent it, with the button that was pressed.
function native(form, submitter) {
  if (submitter?.name) {
    form.append(Object.assign(document.createElement("input"), { type: "hidden", name: submitter.name, value: submitter.value }));
  }
  HTMLFormElement.prototype.submit.call(form);
}

export function said(form, sentence) {
  let slip = form.querySelector("[data-said]");
  if (!slip) {
    slip = Object.assign(document.createElement("p"), { className: "slip" });
    slip.dataset.said = "";
    slip.setAttribute("role", "status");
    form.prepend(slip);
  }
  slip.textContent = sentence;
  slip.scrollIntoView({ block: "nearest" });
}
