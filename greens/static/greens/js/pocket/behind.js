// Sending while no page is open: the worker is woken once there is signal, where the browser can do that.
import { NO_SIGNAL, sendThese } from "./post.js";
import { all } from "./slips.js";

// Rejected while there is no signal, so that the browser wakes it again.
export async function sendBehind() {
  const token = (await cookieStore.get("csrftoken"))?.value || "";
  const signedIn = new Map();
  const howOf = async (slip) => {
    if (!slip.goes) return null;
    if (!signedIn.has(slip.club)) signedIn.set(slip.club, await whoseSession(slip.goes.pages));
    return signedIn.get(slip.club) === slip.member && { token, ...slip.goes };
  };
  const last = await sendThese(await all(), howOf);
  if (last?.is === NO_SIGNAL) throw new Error("no signal");
}

// The member of that club who is signed in here; nobody where none is.
async function whoseSession(pages) {
  const answer = await fetch(pages, { headers: { Accept: "application/json" }, redirect: "manual" });
  return answer.ok ? (await answer.json()).member : null;
}
