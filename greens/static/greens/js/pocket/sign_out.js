// Signing out with something still on the phone: said first, and kept.
import { forget } from "./copies.js";
import { answered } from "./days.js";
import { here } from "./here.js";
import { isMine, sendAll } from "./send.js";
import { all } from "./slips.js";

export function begin() {
  document.querySelector("form[data-signs-out]")?.addEventListener("submit", async (event) => {
    event.preventDefault();
    const form = event.target;
    if (await mayLeave()) {
      await forget();
      HTMLFormElement.prototype.submit.call(form);
    }
  });
}

async function mayLeave() {
  const waiting = (await all().catch(() => [])).filter(isMine).length;
  if (!waiting) return true;
  const choice = await asked(waiting);
  if (choice !== "send") return choice === "leave";
  await sendAll({ evenSoon: true });
  return (await all()).filter(isMine).length === 0 || mayLeave();
}

function asked(count) {
  const dialog = document.querySelector("#leaving").content.cloneNode(true).firstElementChild;
  dialog.querySelector("[data-count]").textContent = count === 1 ? "1 entry has" : `${count} entries have`;
  dialog.querySelector("[data-name]").textContent = here.name;
  document.body.append(dialog);
  return answered(dialog);
}
