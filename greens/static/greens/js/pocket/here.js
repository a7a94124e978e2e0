// Where this page stands: whose it is, of which day, and how far this phone's clock is off.
const DAY_MS = 86_400_000;
const SKEW = "pocket skew ms";
const { club, member, name, zone, today, madeAt, source, pages, list, attach } = document.documentElement.dataset;

// Away from the site's own answer the skew last seen still holds.
function skewMs() {
  if (source !== "site") return Number(localStorage.getItem(SKEW)) || 0;
  const skew = Date.now() - Date.parse(madeAt);
  localStorage.setItem(SKEW, String(skew));
  return skew;
}

const skew = club ? skewMs() : 0;

export const here = { club, member, name, today, madeAt, pages, list, attach, isCopy: source === "phone" };

export const now = () => new Date(Date.now() - skew);

// The calendar day in the club, as 2026-04-16.
function dayOf(moment) {
  const parts = new Intl.DateTimeFormat("en-GB", { timeZone: zone, year: "numeric", month: "2-digit", day: "2-digit" });
  const said = Object.fromEntries(parts.formatToParts(moment).map((part) => [part.type, part.value]));
  return `${said.year}-${said.month}-${said.day}`;
}

// The club's day now: that of the page, and the days that have passed since it was made.
export function dayNow() {
  const passed = Math.round((Date.parse(dayOf(now())) - Date.parse(dayOf(new Date(madeAt)))) / DAY_MS);
  return new Date(Date.parse(today) + passed * DAY_MS).toISOString().slice(0, 10);
}

// "Thu 16 April".
export function inWords(day) {
  const moment = new Date(`${day}T12:00:00Z`);
  if (Number.isNaN(moment.getTime())) return day;
  const word = (options) => new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", ...options }).format(moment);
  return `${word({ weekday: "short" })} ${word({ day: "numeric" })} ${word({ month: "long" })}`;
}

// "16:02", by the club's clock.
export function atTime(moment) {
  return new Intl.DateTimeFormat("en-GB", { timeZone: zone, hour: "2-digit", minute: "2-digit" }).format(new Date(moment));
}

// A number as RFC 4122 wants it; randomUUID is not there on every phone.
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}
