// The phone's pocket: work is written down here first and sent when there is signal. Loaded for whoever logs work.
import { prefill } from "./pocket/ahead.js";
import { refresh } from "./pocket/copies.js";
import { begin as takeForms } from "./pocket/forms.js";
import { fill } from "./pocket/fill.js";
import { atTime, here, inWords } from "./pocket/here.js";
import { isMine, sendAll } from "./pocket/send.js";
import { begin as watchSignOut } from "./pocket/sign_out.js";
import { all, onChange, one } from "./pocket/slips.js";

const OFTEN_MS = 30_000;

async function count() {
  const slips = (await all()).filter(isMine);
  const link = document.querySelector("[data-waiting]");
  const refused = slips.filter((slip) => slip.state !== "waiting").length;
  link.hidden = !slips.length;
  link.textContent = refused ? `${refused} refused on this phone` : `${slips.length} on this phone`;
  mark(slips);
}

// A tap that waits is not offered a second time.
function mark(slips) {
  document.querySelectorAll("form[data-pocket][data-tap]").forEach((form) => {
    const [path, id] = [new URL(form.action).pathname, form.elements.namedItem("client_id")?.value];
    const isThis = (slip) => (id ? slip.id === id : slip.path === path && slip.on === here.today);
    if (slips.some(isThis)) form.dataset.waits = "yes";
  });
}

async function mend() {
  const number = Number(new URLSearchParams(location.search).get("mend"));
  const slip = number && (await one(number));
  if (!slip || !isMine(slip)) return;
  const form = [...document.querySelectorAll("form[data-pocket]")].find((form) => new URL(form.action).pathname === slip.path.split("?")[0]);
  if (!form) return;
  form.dataset.mends = String(number);
  form.action = slip.path;
  fill(form, slip.fields);
  const why = document.createElement("ul");
  why.className = "wrongs";
  why.dataset.refused = "";
  why.setAttribute("role", "alert");
  why.append(...(slip.wrongs || []).map(([label, sentence]) => Object.assign(document.createElement("li"), { textContent: label ? `${label}: ${sentence}` : sentence })));
  form.prepend(why);
}

function sayItIsACopy() {
  document.querySelectorAll("[data-needs-signal]").forEach((one) => { one.hidden = true; });
  const strip = document.querySelector("[data-copy]");
  strip.hidden = false;
  strip.textContent = `No signal. This page is of ${inWords(here.today)}, ${atTime(here.madeAt)}; what you log is kept on this phone.`;
}

async function begin() {
  await all(); // a phone that cannot keep anything sends its forms as ever
  takeForms();
  watchSignOut();
  if (here.isCopy) { sayItIsACopy(); prefill(); }
  onChange(count);
  await count();
  await mend();
  const round = () => sendAll().catch(() => null);
  window.addEventListener("online", () => sendAll({ evenSoon: true }));
  setInterval(round, OFTEN_MS);
  await round();
  await takeOnTheWorker();
  await refresh();
}

// A browser that can wake its worker has it with modules, so that it sends as pages do.
async function takeOnTheWorker() {
  const workers = navigator.serviceWorker;
  const plain = () => workers?.register("/sw.js").catch(() => null);
  return "SyncManager" in window ? workers?.register("/sw.js?modules", { type: "module" }).catch(plain) : plain();
}

begin().catch(() => null);
