// Sending what waits on this phone, by the page that is open; only by whoever wrote it.
import { here } from "./here.js";
import { post, sendThese } from "./post.js";
import { all } from "./slips.js";

const cookie = (name) => document.cookie.split("; ").find((one) => one.startsWith(`${name}=`))?.slice(name.length + 1) || "";
const how = () => ({ token: cookie("csrftoken"), attach: here.attach, list: here.list });

export const send = (slip, when) => post(slip, when, how());

export const isMine = (slip) => slip.club === here.club && slip.member === here.member;

// Everything of this person's that is due. What came of the last one.
export async function sendAll({ evenSoon = false } = {}) {
  return sendThese((await all()).filter(isMine), how, (slip) => evenSoon || slip.notBefore <= Date.now());
}
