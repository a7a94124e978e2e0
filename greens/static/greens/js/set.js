// One value after the other on large keys. The boxes of the form stay where the values live: this
// file writes into them and reads from them, so that the form is sent, kept and mended as it is.
import { counts, judge, mean, meanInterval, moreForMean, shareInterval, spread } from "./settle.js";

const form = document.querySelector("form[data-set]");
const keypad = form.querySelector("[data-keypad]");
const terms = JSON.parse(form.dataset.set);
const find = (name) => keypad.querySelector(`[data-${name}]`);
const [typed, wrong, list, live, settles] = ["typed", "wrong", "taken", "live", "settles"].map(find);
const holds = terms.shape === "number" || terms.shape === "hits" ? inOneBox() : inAnswers();
let mending = null;

// A number or hits: one box a place.
function inOneBox() {
  const boxes = () => [...form.querySelectorAll("[data-boxes] input[name=values]")];
  return {
    read: () => boxes().map((box) => box.value.trim()),
    write: (n, text) => { boxes()[n].value = text; },
  };
}

// Yes or no: two rings a place.
function inAnswers() {
  const places = () => [...form.querySelectorAll("[data-boxes] > fieldset")];
  return {
    read: () => places().map((one) => one.querySelector("input:checked")?.value || ""),
    write: (n, text) => places()[n].querySelectorAll("input").forEach((one) => { one.checked = one.value === text; }),
  };
}

const points = () => form.querySelector("[name=values-points]");
const onGreen = () => terms.greens[form.dataset.green || form.querySelector("[name=green]").value];

// What was typed at one place as it is stored, or nothing where it says nothing.
function stored(text) {
  if (terms.shape === "yesno") return text === "yes";
  const [hits, of] = text.split("/").map((one) => Number(one.replace(",", ".").replace("−", "-")));
  if (terms.shape === "hits") return { hits, points: of ?? Number(points().value) };
  return Number((hits * terms.unit.per + terms.unit.from).toFixed(3));
}

// Why a value cannot be, in a sentence; nothing when it can.
function refusal(text) {
  const value = stored(text);
  if (terms.shape === "yesno") return "";
  const figure = terms.shape === "hits" ? value.hits : value;
  const [low, high] = terms.shape === "hits" ? [0, value.points] : [terms.low, terms.high];
  if (!Number.isFinite(figure)) return `“${text}” is no figure; write it such as 12.5.`;
  if (low !== null && (figure < low || figure > high)) return `${text} cannot be right; it should be from ${shown(low)} to ${shown(high)}.`;
  const whole = terms.whole || terms.shape === "hits";
  return whole && !Number.isInteger(figure) ? `${text} cannot be right; it should be a whole number.` : "";
}

function figure(value, places = terms.unit.places) {
  const kept = places === null ? { maximumSignificantDigits: 3 } : { maximumFractionDigits: places };
  return new Intl.NumberFormat("en-GB", { ...kept, useGrouping: false }).format(value).replace(/^-0$/, "0");
}

// A stored figure in the unit that is read; a spread has no nought of its own.
const read = (value, from = terms.unit.from) => figure((value - from) / terms.unit.per);
const unit = () => (terms.unit.sign ? ` ${terms.unit.sign}` : "");
const shown = (value) => `${read(value)}${unit()}`;

function ofNumbers(values, asked) {
  const centre = mean(values);
  const said = `mean ${shown(centre)}`;
  if (values.length < 2) return said;
  const sd = spread(values);
  const apart = `spread ${read(sd, 0)}${unit()}`;
  if (terms.largest_decides) return `largest ${shown(Math.max(...values))}, ${said}, ${apart}`;
  const [lower, upper] = meanInterval(centre, sd, values.length, terms.quantiles[asked.confidence]);
  return `${said}, ${apart}, likely ${read(lower)} to ${shown(upper)}`;
}

function ofShares(values, asked) {
  const [hits, of] = counts(values);
  const [lower, upper] = shareInterval(hits, of, terms.quantiles[asked.confidence].z);
  const what = terms.shape === "hits" ? `${figure((100 * hits) / of, 1)} %, ${hits} of ${of} points` : `yes at ${hits} of ${of}`;
  return `${what}, likely ${figure(100 * lower, 0)} to ${figure(100 * upper, 0)} %`;
}

// How far the set is from what is asked of it.
function tally(values, asked) {
  if (asked.rules.length) return asked.rules.map((rule) => byRule(judge(rule, values, terms.quantiles))).join(" ");
  const so_far = `${values.length} of ${asked.count} taken`;
  if (values.length < asked.count) return `${so_far}; ${asked.count - values.length} more asked for.`;
  return `${so_far}; ${closer(values, asked)}.`;
}

function byRule({ state, said, more }) {
  if (state !== "not known") return `${said}: ${state}.`;
  return more === null ? `${said}: on the limit, take more.` : `${said}: ${more} more to settle it.`;
}

function closer(values, asked) {
  const half = asked.half_width_share * Math.abs(mean(values.map(Number)));
  if (terms.shape !== "number" || terms.largest_decides || values.length < 2 || !half) return "enough";
  const more = moreForMean(values, half, terms.quantiles[asked.confidence]);
  return more ? `${more} more would tell it within ${figure(100 * asked.half_width_share, 1)} %` : "enough";
}

// The list, the live line and the place that comes next, all from what the boxes hold.
function show() {
  const texts = holds.read();
  const kept = texts.map((text, n) => [text, n]).filter(([text]) => text);
  const values = kept.filter(([text]) => !refusal(text)).map(([text]) => stored(text));
  list.replaceChildren(...kept.map(([text, n]) => entryOf(text, n)));
  const asked = onGreen();
  const said = values.length && (terms.shape === "number" ? ofNumbers(values, asked) : values.length && ofShares(values, asked));
  live.textContent = said ? `${said[0].toUpperCase()}${said.slice(1)}.` : "";
  settles.textContent = asked ? tally(values, asked) : "";
  find("place").textContent = `${terms.place} ${at(texts) + 1}`;
  find("leave").hidden = mending === null;
  offerAgain(kept);
  keypad.dispatchEvent(new CustomEvent("shown", { detail: at(texts) }));
}

// The place that is written next: the one being mended, else the first that is empty.
function at(texts) {
  if (mending !== null) return mending;
  const empty = texts.indexOf("");
  return empty < 0 ? texts.length : empty;
}

function entryOf(text, n) {
  const [item, button] = ["li", "button"].map((name) => document.createElement(name));
  button.type = "button";
  button.textContent = text;
  button.ariaLabel = `${terms.place} ${n + 1}: ${text}, mend it`;
  button.ariaPressed = String(n === mending);
  button.addEventListener("click", () => mend(n, text));
  item.append(button);
  return item;
}

function mend(n, text) {
  mending = n === mending ? null : n;
  if (typed) typed.value = mending === null ? "" : text;
  show();
  (typed || find("answer")).focus();
}

// The last value on a key of its own: joints that are closed, frames that are full.
function offerAgain(kept) {
  const again = find("again");
  if (!again) return;
  again.dataset.again = kept.length ? kept[kept.length - 1][0] : "";
  again.disabled = !kept.length;
  again.textContent = `again ${again.dataset.again}`;
}

function put(text) {
  wrong.textContent = text ? refusal(text) : "";
  if (!text || wrong.textContent) return;
  const n = at(holds.read());
  form.dispatchEvent(new CustomEvent("boxes", { detail: n + 1 }));
  holds.write(n, text);
  keypad.dispatchEvent(new CustomEvent("written", { detail: n }));
  mending = null;
  if (typed) typed.value = "";
  show();
}

function leaveOut() {
  holds.write(mending, "");
  keypad.dispatchEvent(new CustomEvent("leftout", { detail: mending }));
  mending = null;
  if (typed) typed.value = "";
  show();
}

// A key at the end of what is typed; the minus goes before it.
function press(key) {
  wrong.textContent = "";
  if (key === "back") typed.value = typed.value.slice(0, -1);
  else if (key === "-") typed.value = typed.value.startsWith("-") ? typed.value.slice(1) : `-${typed.value}`;
  else if (key !== "." || !typed.value.includes(".")) typed.value += key;
}

keypad.addEventListener("click", ({ target }) => {
  const { key, answer, again, next, all, leave } = target.closest("button")?.dataset || {};
  if (key) press(key);
  else if (answer) put(answer);
  else if (again) put(again);
  else if (all !== undefined) put(points().value);
  else if (next !== undefined) put(typed.value.trim());
  else if (leave !== undefined) leaveOut();
});

typed?.addEventListener("keydown", (event) => {
  if (event.key !== "Enter") return;
  event.preventDefault();
  put(typed.value.trim());
});

// What was typed and not yet confirmed goes along when the set is kept.
form.querySelector("[data-keep]").addEventListener("click", (event) => {
  if (typed?.value.trim()) put(typed.value.trim());
  if (wrong.textContent) event.preventDefault();
});

// Boxes filled by hand, or by the phone when a set that waits to be sent is opened again.
form.addEventListener("input", ({ target }) => { if (target !== typed) show(); });
form.addEventListener("change", show);
form.addEventListener("reset", () => { mending = null; });

keypad.hidden = false;
form.classList.add("set--on");
if (!form.querySelector("[data-boxes] [aria-invalid]")) form.querySelector("[data-by-box]").open = false;
const frame = form.querySelector("[data-points]");
if (frame) keypad.prepend(frame);
show();
