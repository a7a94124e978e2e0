// What was written and has not arrived yet, in this phone's own database. Nothing but a taken answer removes a slip.
const NAME = "pocket", VERSION = 1, STORE = "slips";
export const WAITING = "waiting", REFUSED = "refused", CONFLICT = "conflict";
const told = "BroadcastChannel" in globalThis ? new BroadcastChannel("pocket") : null;
let opened = null;

// A newer app only ever adds to what an older one made; an older page opens what it finds.
function open() {
  opened ||= ask(indexedDB.open(NAME, VERSION), (request) => { request.onupgradeneeded = () => make(request.result); })
    .catch((error) => { if (error.name === "VersionError") return ask(indexedDB.open(NAME)); throw error; })
    .then(shared);
  return opened;
}

function make(database) {
  if (!database.objectStoreNames.contains(STORE)) database.createObjectStore(STORE, { keyPath: "number", autoIncrement: true });
}

function shared(database) {
  database.onversionchange = () => { database.close(); opened = null; };
  return database;
}

function ask(request, prepare = () => {}) {
  return new Promise((resolve, reject) => {
    prepare(request);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

// Resolves once the phone has really kept it, not when it was asked to.
async function inStore(mode, deed) {
  const database = await open();
  const transaction = database.transaction(STORE, mode);
  const done = new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = transaction.onerror = () => reject(transaction.error);
  });
  const answer = await ask(deed(transaction.objectStore(STORE)));
  await done;
  return answer;
}

export async function keep(slip) {
  navigator.storage?.persist?.();
  const number = await inStore("readwrite", (store) => store.put(slip));
  changed();
  return { ...slip, number };
}

export async function remove(slip) {
  await inStore("readwrite", (store) => store.delete(slip.number));
  changed();
}

export const all = () => inStore("readonly", (store) => store.getAll());
export const one = (number) => inStore("readonly", (store) => store.get(number));

function changed() {
  told?.postMessage("changed");
  globalThis.document?.dispatchEvent(new Event("pocket:changed"));
}

export function onChange(deed) {
  document.addEventListener("pocket:changed", deed);
  told?.addEventListener("message", deed);
}
