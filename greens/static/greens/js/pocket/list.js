// The page of what is still on this phone: what waits, what was refused and why, what is somebody else's.
import { atTime, here } from "./here.js";
import { NO_SIGNAL, SIGNED_OUT } from "./post.js";
import { isMine, sendAll } from "./send.js";
import { all, CONFLICT, onChange, REFUSED, remove } from "./slips.js";

const page = document.querySelector("[data-pocket-list]");
const STATES = { waiting: "waits", refused: "refused", conflict: "kept otherwise" };
const OUTCOMES = { [NO_SIGNAL]: "No signal: nothing was sent.", [SIGNED_OUT]: "You are signed out. Sign in again, then it is sent." };

async function show() {
  const slips = await all();
  const mine = slips.filter(isMine);
  const list = page.querySelector("[data-slips]");
  list.replaceChildren(...mine.map(row));
  page.querySelector("[data-none]").hidden = mine.length > 0;
  page.querySelector("[data-send]").hidden = !mine.some((slip) => slip.state === "waiting");
  sayOthers(slips.filter((slip) => !isMine(slip)));
}

function row(slip) {
  const one = page.querySelector("template").content.cloneNode(true).firstElementChild;
  one.querySelector("[data-words]").textContent = slip.words;
  one.querySelector("[data-state]").textContent = STATES[slip.state];
  one.querySelector("[data-state]").classList.add(slip.state === "waiting" ? "state--waiting" : "state--not-met");
  one.querySelector("[data-kept]").textContent = `Written at ${atTime(slip.keptAt)} by this phone's clock${slip.files.length ? `, with ${slip.files.length} files` : ""}.`;
  one.querySelector("[data-why]").replaceChildren(...(slip.wrongs || []).map(wrong));
  const mend = one.querySelector("[data-mend]");
  mend.hidden = ![REFUSED, CONFLICT].includes(slip.state);
  mend.href = `${slip.from}?mend=${slip.number}`;
  const stands = one.querySelector("[data-stands]");
  stands.hidden = !slip.stands;
  if (slip.stands) stands.href = slip.stands;
  one.querySelector("[data-drop]").addEventListener("click", (event) => drop(event.target, slip));
  return one;
}

function wrong([label, sentence]) {
  return Object.assign(document.createElement("li"), { textContent: label ? `${label}: ${sentence}` : sentence });
}

// A second tap, so that nothing goes by a slip of the thumb.
function drop(button, slip) {
  if (button.dataset.sure) return remove(slip);
  button.dataset.sure = "yes";
  button.textContent = "Tap again: it is gone then";
  return null;
}

function sayOthers(slips) {
  const names = [...new Set(slips.map((slip) => (slip.club === here.club ? slip.name : `${slip.name} in another club`)))];
  const said = page.querySelector("[data-others]");
  said.hidden = !slips.length;
  said.textContent = `${slips.length} more on this phone, by ${names.join(", ")}; sent once they sign in here themselves.`;
}

async function sendNow() {
  page.querySelector("[data-said]").textContent = "Sending.";
  const outcome = await sendAll({ evenSoon: true });
  page.querySelector("[data-said]").textContent = OUTCOMES[outcome?.is] || "";
  await show();
}

if (page) {
  page.querySelector("[data-send]").addEventListener("click", sendNow);
  onChange(show);
  show();
}
