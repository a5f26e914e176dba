// What every page does: tells when the library was changed elsewhere, and shows how far long work is.
const stamp = document.documentElement.dataset.stamp;
const behind = document.getElementById("behind");

async function asked(path) {
  const answer = await fetch(path, { headers: { Accept: "application/json" } });
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}

export async function look() {
  try {
    const now = await asked("/state");
    if (now.stamp !== stamp && behind) behind.hidden = false;
    return now;
  } catch {
    return null;
  }
}

function follow(card) {
  const step = card.querySelector(".step");
  const bar = card.querySelector("progress");
  const tick = async () => {
    let work;
    try {
      work = await asked("/work/" + card.dataset.work);
    } catch {
      setTimeout(tick, 2000);
      return;
    }
    if (["waiting", "running"].includes(work.state)) {
      step.textContent = work.all ? work.step + " " + work.done + " of " + work.all : work.step;
      bar.max = work.all || 1;
      bar.value = work.done;
      setTimeout(tick, 300);
    } else if (document.querySelector("[data-reload]")) {
      location.reload();
    } else {
      step.textContent = { done: "done", stopped: "stopped", failed: work.error }[work.state] || "";
      bar.value = bar.max;
      card.querySelector("form").hidden = true;
      if (work.state === "done") setTimeout(() => card.remove(), 1500);
    }
  };
  tick();
}

document.querySelectorAll("[data-work]").forEach(follow);
setInterval(() => { if (!document.hidden) look(); }, 4000);
document.addEventListener("visibilitychange", () => { if (!document.hidden) look(); });
// What takes a moment says so, and is not sent twice.
document.addEventListener("submit", (event) => {
  if (event.defaultPrevented || event.target.dataset.sent) { if (event.target.dataset.sent) event.preventDefault(); return; }
  event.target.dataset.sent = "1";
  setTimeout(() => delete event.target.dataset.sent, 4000);
});
window.addEventListener("pageshow", (event) => {
  document.querySelectorAll("form[data-sent]").forEach((form) => delete form.dataset.sent);
  if (event.persisted) location.reload();
});
