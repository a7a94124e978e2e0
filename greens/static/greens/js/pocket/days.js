// Which day was it? Asked where the page is of another day than the club's day now.
import { inWords } from "./here.js";

export function askWhichDay(shown, present) {
  const dialog = document.createElement("dialog");
  dialog.className = "asked";
  dialog.setAttribute("aria-labelledby", "asked-day");
  const heading = Object.assign(document.createElement("h2"), { id: "asked-day", textContent: "On which day was it done?" });
  const why = Object.assign(document.createElement("p"), { textContent: `This page is of ${inWords(shown)}; it is ${inWords(present)} now.` });
  const buttons = document.createElement("div");
  buttons.className = "buttons";
  buttons.append(button(inWords(present), present), button(inWords(shown), shown), button("Not now", ""));
  const sheet = document.createElement("form");
  sheet.method = "dialog";
  sheet.append(heading, why, buttons);
  dialog.append(sheet);
  document.body.append(dialog);
  return answered(dialog);
}

function button(words, value) {
  return Object.assign(document.createElement("button"), { textContent: words, value, className: value ? "button--tap" : "button--quiet" });
}

export function answered(dialog) {
  return new Promise((resolve) => {
    dialog.addEventListener("close", () => { dialog.remove(); resolve(dialog.returnValue); }, { once: true });
    dialog.showModal();
  });
}
