// Long work: says how far it is, and looks again when it is over. Without this file there is a link for it.
const line = document.querySelector("[data-job]");
const EVERY_MS = 1500;

function words(job) {
  if (job.state === "queued") return "waiting for its turn";
  return job.of ? `${Math.round((100 * job.done) / job.of)} %` : "begun";
}

async function look() {
  try {
    const answer = await fetch(line.dataset.job, { headers: { Accept: "application/json" } });
    const job = await answer.json();
    if (!job.is_open) return location.reload();
    const said = line.querySelector("[data-job-words]");
    if (said.textContent !== words(job)) said.textContent = words(job);
    const bar = document.querySelector("[data-job-bar]");
    [bar.max, bar.value] = [job.of || 1, job.done];
  } catch {
    // No connection, or signed out: the link stays.
  }
  return setTimeout(look, EVERY_MS);
}

if (line) setTimeout(look, EVERY_MS);
