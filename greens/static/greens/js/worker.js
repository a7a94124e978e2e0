// Pages with and without signal. What people write never passes here: forms are kept and sent by the page itself.
// Before this line the site says KEEPS: { version, files, no_signal }.
const SHELL = `shell ${KEEPS.version}`, COPIES = "pages";
const PAGE_MS = 4000, PAGE_ALONE_MS = 30000, FILE_MS = 2500;
let isWithoutSignal = false;

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));
if (typeof sendBehind === "function") {
  self.addEventListener("sync", (event) => { if (event.tag === "pocket") event.waitUntil(sendBehind()); });
}
self.addEventListener("fetch", (event) => {
  const { request } = event, { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== location.origin) return;
  if (pathname.startsWith("/static/")) event.respondWith(file(request));
  else if (request.mode === "navigate") event.respondWith(page(request));
});

async function install() {
  const cache = await caches.open(SHELL);
  await cache.addAll(KEEPS.files.map((name) => new Request(name, { cache: "reload" })));
  await self.skipWaiting();
}

// Only shells of older versions go; copies of pages and what people wrote stay.
async function takeOver() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith("shell ") && name !== SHELL).map((name) => caches.delete(name)));
  await self.clients.claim();
}

function within(milliseconds, answer) {
  const late = new Promise((_, reject) => { setTimeout(() => reject(new Error("late")), milliseconds); });
  return Promise.race([answer, late]);
}

async function file(request) {
  const kept = await caches.match(request, { cacheName: SHELL, ignoreSearch: true });
  if (kept && isWithoutSignal) return kept;
  try {
    return await within(kept ? FILE_MS : PAGE_ALONE_MS, fetch(request));
  } catch {
    return kept || Response.error();
  }
}

async function page(request) {
  const copies = await caches.open(COPIES);
  const kept = await copyFor(copies, request);
  try {
    const answer = await within(kept ? PAGE_MS : PAGE_ALONE_MS, fetch(request));
    isWithoutSignal = false;
    if (answer.ok && !answer.redirected && !new URL(request.url).search && (await copies.match(request))) {
      await copies.put(request, answer.clone());
    }
    return answer;
  } catch {
    isWithoutSignal = true;
    return kept ? asCopy(kept) : elsewhere(copies, request);
  }
}

const copyFor = (copies, request) => copies.match(request, { ignoreSearch: true });

// The sheet of one green is that of every green, with this one chosen; of other pages there is no copy.
async function elsewhere(copies, request) {
  const { pathname, searchParams } = new URL(request.url);
  const [whole, green, rest] = pathname.match(/\/greens\/(\d+)(\/readings\/new\/[^/]*\/?)$/) || [];
  const path = whole && pathname.replace(whole, rest);
  if (path && (await copies.match(path))) {
    searchParams.set("green", green);
    return Response.redirect(`${path}?${searchParams}`, 302);
  }
  return caches.match(KEEPS.no_signal, { cacheName: SHELL });
}

async function asCopy(kept) {
  const text = (await kept.text()).replace('data-source="site"', 'data-source="phone"');
  return new Response(text, { headers: kept.headers });
}
