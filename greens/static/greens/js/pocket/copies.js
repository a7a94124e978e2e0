// Copies of the pages that work without signal, in this phone's cache; they belong to one person in one club.
import { here } from "./here.js";

export const COPIES = "pages";
const OWNER = "pocket copies of";

export async function refresh() {
  if (!("caches" in window) || here.isCopy) return;
  try {
    const { digest, pages } = await (await fetch(here.pages, { headers: { Accept: "application/json" } })).json();
    const owner = `${here.club} ${here.member}`;
    if (localStorage.getItem(OWNER) === `${owner} ${digest}`) return;
    if (!(localStorage.getItem(OWNER) || "").startsWith(`${owner} `)) await forget();
    if (await copyAll(pages)) localStorage.setItem(OWNER, `${owner} ${digest}`);
  } catch {
    // No signal: the copies of before stand.
  }
}

async function copyAll(pages) {
  const cache = await caches.open(COPIES);
  for (const page of pages) {
    const answer = await fetch(page, { credentials: "same-origin" });
    if (!answer.ok || answer.redirected) return false;
    await cache.put(page, answer);
  }
  const wanted = new Set(pages);
  const old = (await cache.keys()).filter((request) => !wanted.has(new URL(request.url).pathname));
  await Promise.all(old.map((request) => cache.delete(request)));
  return true;
}

export async function forget() {
  localStorage.removeItem(OWNER);
  if ("caches" in window) await caches.delete(COPIES);
}
