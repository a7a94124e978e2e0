// Forms that were kept, sent: by a page, or by the worker while none is open.
import { CONFLICT, keep, one, REFUSED, remove, WAITING } from "./slips.js";

const PATIENCE_MS = 15_000, PAUSES_S = [5, 15, 60, 300, 900];
export const SENT = "sent", NO_SIGNAL = "no signal", SIGNED_OUT = "signed out", LATER = "later";

// In the order in which they were written, each until it is answered, one page or worker at a time.
// How each goes: { token, attach, list }; nothing where it does not go now. What came of the last one.
export async function sendThese(slips, howOf, isDue = () => true) {
  const round = () => roundOf(slips, howOf, isDue);
  return navigator.locks ? navigator.locks.request("pocket", { ifAvailable: true }, (lock) => lock && round()) : round();
}

async function roundOf(slips, howOf, isDue) {
  let last = null;
  for (const { number } of slips) {
    const slip = await one(number);
    const how = slip?.state === WAITING && isDue(slip) && (await howOf(slip));
    if (!how) continue;
    last = await post(slip, "later", how);
    await note(slip, last);
    if ([NO_SIGNAL, SIGNED_OUT].includes(last.is)) break;
  }
  return last;
}

// What came of one: { is: SENT | REFUSED | CONFLICT | NO_SIGNAL | SIGNED_OUT | LATER, page?, wrongs? }.
export async function post(slip, when, how) {
  if (!slip.page) {
    const answer = await posted(slip.path, slip.fields, headOf(slip, when), how.token);
    if (answer.is !== SENT) return answer;
    slip.page = answer.page || how.list;
    if (slip.files.length) await keep(slip);
  }
  return attached(slip, how);
}

// Photographs and voice notes after their entry, each under a number of its own.
async function attached(slip, how) {
  for (const file of slip.files.filter((one) => !one.isSent)) {
    const fields = [["of", slip.id], ["client_id", file.id], ["file", new File([file.bytes], file.name, { type: file.type })]];
    const answer = await posted(how.attach, fields, { Accept: "application/json" }, how.token);
    if (answer.is !== SENT) return { ...answer, page: slip.page };
    file.isSent = true;
    await keep(slip);
  }
  return { is: SENT, page: slip.page };
}

function headOf(slip, when) {
  return {
    Accept: "application/json",
    "X-Pocket": when,
    "X-Pocket-Id": slip.id,
    "X-Pocket-Member": slip.member,
    "X-Pocket-Kept": slip.keptAt,
    "X-Pocket-Clock": new Date().toISOString(),
  };
}

async function posted(path, fields, head, token) {
  const body = new FormData();
  fields.forEach(([name, value]) => body.append(name, value));
  const giveUp = new AbortController();
  const timer = setTimeout(() => giveUp.abort(), PATIENCE_MS);
  const headers = { ...head, "X-CSRFToken": token };
  const asked = { method: "POST", body, headers, credentials: "same-origin", redirect: "manual", signal: giveUp.signal };
  try {
    return await read(await fetch(path, asked));
  } catch {
    return { is: NO_SIGNAL };
  } finally {
    clearTimeout(timer);
  }
}

async function read(answer) {
  if (answer.type === "opaqueredirect") return { is: SIGNED_OUT };
  const isOurs = (answer.headers.get("Content-Type") || "").includes("application/json");
  if (!isOurs) return answer.status === 404 ? refused("What this was for is not there any more.") : { is: LATER };
  const said = await answer.json();
  if (said.state === "kept") return { is: SENT, page: said.page };
  if (said.state === "another's") return { is: SIGNED_OUT };
  if (said.state === "conflict") return { is: CONFLICT, wrongs: said.wrongs, page: said.page };
  return { is: REFUSED, wrongs: said.wrongs || Object.entries(said.errors || {}) };
}

const refused = (sentence) => ({ is: REFUSED, wrongs: [["", sentence]] });

// Refused or kept otherwise: no sending will change that.
export const isNo = (outcome) => outcome.is === REFUSED || outcome.is === CONFLICT;

// What is refused stays with its reason and holds nothing up; what failed is tried again after a pause.
export async function note(slip, outcome) {
  if (outcome.is === SENT) return remove(slip);
  if (isNo(outcome)) {
    return keep({ ...slip, state: outcome.is, wrongs: outcome.wrongs, stands: outcome.page || "" });
  }
  if (outcome.is !== LATER) return slip;
  const tries = (slip.tries || 0) + 1;
  const pause = PAUSES_S[Math.min(tries, PAUSES_S.length) - 1];
  return keep({ ...slip, tries, notBefore: Date.now() + pause * 1000 });
}
