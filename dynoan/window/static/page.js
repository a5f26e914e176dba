// What every page does: tells when the library was changed elsewhere, and shows how far long work is.
const stamp = document.documentElement.dataset.stamp;
const behind = document.getElementById("behind");
const said = document.getElementById("said");
let unheard = 0, heardAt = 0;

async function asked(path) {
  const answer = await fetch(path, { headers: { Accept: "application/json" } });
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}

export async function look() {
  try {
    const now = await asked("/state");
    unheard = 0;
    heardAt = Date.now();
    document.getElementById("away")?.remove();
    if (now.stamp !== stamp && behind) behind.hidden = false;
    const table = document.getElementById("drop");
    if (table && table.dataset.mark !== now.table && !table.dataset.busy && behind.hidden) {
      behind.querySelector("p").textContent = "The files here were changed in another window: this page shows them as they were.";
      behind.hidden = false;
    }
    return now;
  } catch {
    unheard += 1;
    if (unheard >= 2) away();
    return null;
  }
}

function away() {
  return document.getElementById("away") || Object.assign(tell("The program does not answer: is it still running? Start it again, and this page goes on in the window that opens.", true), { id: "away" });
}

// Where the program was not heard of, what is pressed waits until it is: the browser would leave the page with all that was typed.
const heard = async (goOn) => { if (await look()) goOn(); else away().scrollIntoView({ block: "center" }); };
// It may have ended since it was last heard of. It is asked in step with the press: the browser leaves the page once this returns.
const JUST = 300; // [ms]
function silent() {
  if (unheard || Date.now() - heardAt < JUST) return unheard > 0;
  const ask = new XMLHttpRequest();
  ask.open("GET", "/static/mark.svg?" + Date.now(), false);
  try { ask.send(); heardAt = Date.now(); } catch { unheard += 1; }
  return unheard > 0;
}
document.addEventListener("submit", (event) => {
  if (!silent()) return;
  event.preventDefault();
  event.stopImmediatePropagation();
  heard(() => /** @type {HTMLFormElement} */ (event.target).requestSubmit(event.submitter));
}, true);
document.addEventListener("click", (event) => {
  const link = /** @type {HTMLAnchorElement | null} */ (/** @type {Element} */ (event.target).closest('a[href^="/"]'));
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey || !silent()) return;
  event.preventDefault();
  heard(() => link.click());
}, true);

// What is shown is of an earlier setting until the answer is there: it is greyed, where that takes longer than a look. A
// transition that waits as long draws the page anew all the while, each turn.
const A_LOOK = 100; // [ms]
let greying = 0;
export function late(is) {
  const main = document.getElementById("main");
  main.setAttribute("aria-busy", String(is));
  clearTimeout(greying);
  if (is) greying = setTimeout(() => main.classList.add("late"), A_LOOK);
  else main.classList.remove("late");
}

// The address of what is shown, so that back and reload find it: once nothing was turned for a moment, since each new one
// takes the browser longer than drawing a curve.
const A_MOMENT = 200; // [ms]
let stands = "", standing = 0;
const stood = () => { if (stands) history.replaceState(null, "", stands); stands = ""; };
export function standsAt(address) {
  stands = address;
  clearTimeout(standing);
  standing = setTimeout(stood, A_MOMENT);
}
export function standsApart(address) {
  stands = "";
  history.pushState(null, "", address);
}
addEventListener("beforeunload", stood);
addEventListener("pagehide", stood);

// The answer to a turn; null where none comes.
export const answerTo = (path) => fetch(path, { signal: AbortSignal.timeout(20000) }).catch(() => null);
export const SILENT = "The window did not answer, so this was put back; is the program still running?";

// A line told on this page.
export function tell(text, wrong) {
  const line = document.createElement("div");
  line.className = wrong ? "said wrong" : "said";
  line.append(Object.assign(document.createElement("p"), { textContent: text }));
  said.append(line);
  return line;
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
      step.textContent = work.all ? (work.step ? work.step + ": " : "") + work.done + " of " + work.all : work.step;
      bar.max = work.all || 1;
      bar.value = work.done;
      setTimeout(tick, 300);
    } else if (document.querySelector("[data-reload]")) {
      again();
    } else {
      step.textContent = { done: "done", stopped: "stopped", failed: work.error }[work.state] || "";
      bar.value = bar.max;
      card.querySelector("form").hidden = true;
      if (work.state === "done") setTimeout(() => card.remove(), 1500);
    }
  };
  tick();
}

// What was typed and what was told outlive a page that shows itself anew; a form that was refused comes back as it was sent,
// and what stands in the other forms of a page outlives the one that is sent.
const posting = () => [...document.forms].filter((form) => form.method === "post");
const fields = (form) => [...form.elements].filter((f) => f.name && f.matches("select, textarea, input:not([type=hidden], [type=file], [type=submit])"));
const chosen = (field) => (field.type === "checkbox" || field.type === "radio" ? field.checked : field.value);
const place = (form, field) => [form.getAttribute("action"), ...[...form.querySelectorAll("input[type=hidden]")].map((h) => h.value.slice(0, 80)),
  field.name, field.type === "checkbox" || field.type === "radio" ? field.value : ""].join("|");
const first = new Map(posting().flatMap((form) => fields(form).map((field) => [field, chosen(field)])));
const typed = (forms) => Object.fromEntries(forms.flatMap((form) => fields(form)
  .filter((field) => first.has(field) && chosen(field) !== first.get(field)).map((field) => [place(form, field), chosen(field)])));

function lay(values) {
  posting().forEach((form) => fields(form).forEach((field) => {
    const value = values[place(form, field)];
    if (value === undefined) return;
    if (typeof value === "boolean") field.checked = value; else field.value = value;
    const folded = field.closest("details");
    if (folded) folded.open = true;
  }));
}

// Showing itself anew would call back a page that was just asked for. A file that is fetched leaves the page where it is.
let leaving = 0;
window.addEventListener("beforeunload", () => { leaving = Date.now(); });

function again() {
  if (Date.now() - leaving < 4000) { setTimeout(again, 500); return; }
  const lines = [...said.children].map((line) => [line.querySelector("p").textContent, line.classList.contains("wrong"), !!line.querySelector("form")]);
  const at = /** @type {HTMLInputElement} */ (document.activeElement);
  sessionStorage.setItem("again", JSON.stringify({ path: location.pathname, lines, typed: typed(posting()),
    at: at && at.form && at.name ? place(at.form, at) : "" }));
  location.reload();
}

function taken(key) {
  const kept = JSON.parse(sessionStorage.getItem(key) || "null");
  sessionStorage.removeItem(key);
  return kept;
}

const left = taken("left");
if (left && left.path === location.pathname) lay(left.typed);
const refused = taken("sent");
if (refused && said.querySelector(".wrong")) lay(refused);
const before = taken("again");
if (before && before.path === location.pathname) {
  lay(before.typed);
  const here = new Set([...said.querySelectorAll("p")].map((p) => p.textContent));
  const undo = document.querySelector('footer form[action="/undo"]');
  before.lines.filter(([text]) => !here.has(text)).forEach(([text, wrong, undoable]) => {
    const line = tell(text, wrong);
    if (!undoable || !undo) return;
    const form = /** @type {HTMLFormElement} */ (undo.cloneNode(true));
    form.querySelector("button").textContent = "Undo";
    line.append(form);
  });
  if (before.at) posting().forEach((form) => fields(form).forEach((f) => { if (place(form, f) === before.at) f.focus(); }));
}

// What was asked to be made is saved as soon as it is there: one press for both.
document.querySelectorAll("form[data-saves]").forEach((/** @type {HTMLFormElement} */ form) => form.addEventListener("submit", () => {
  sessionStorage.setItem("saves", JSON.stringify({ what: form.dataset.saves, since: Date.now() }));
}));
const wished = JSON.parse(sessionStorage.getItem("saves") || "null");
if (wished && Date.now() - wished.since > 600000) sessionStorage.removeItem("saves");
else if (wished) {
  const link = [...document.querySelectorAll("a[data-saves]")].map((a) => /** @type {HTMLAnchorElement} */ (a)).find((a) => a.dataset.saves === wished.what);
  if (link) { sessionStorage.removeItem("saves"); link.click(); }
}

document.querySelectorAll("[data-work]").forEach(follow);

const GLANCE = 200; // until what a page waits for is asked for again; the answer comes once it is there, or after a second [ms]
// A page that waits for some packs alone shows itself as soon as those are there, whatever else is under way.
const waits = /** @type {HTMLElement | null} */ (document.querySelector("[data-packs]"));
const awaited = JSON.parse(waits?.dataset.packs || "[]");
if (awaited.length) {
  const what = waits.dataset.lacking || "lacking";
  const query = awaited.map((pack) => "pack=" + encodeURIComponent(pack)).join("&") + "&until=" + what;
  const tick = async () => {
    try {
      if (!(await asked("/state?" + query))[what].length) { again(); return; }
    } catch { /* told by `look` */ }
    setTimeout(tick, GLANCE);
  };
  tick();
}
// Once the address has led to its place, which takes the focus away, and what is not shown is hidden.
addEventListener("load", () => setTimeout(() => {
  /** @type {HTMLElement | null} */ (document.querySelector('main [aria-invalid="true"]'))?.focus();
}));
setInterval(() => { if (!document.hidden) look(); }, 4000);
document.addEventListener("visibilitychange", () => { if (!document.hidden) look(); });
// What takes a moment says so, and is not sent twice.
document.addEventListener("submit", (event) => {
  const form = /** @type {HTMLFormElement} */ (event.target);
  if (event.defaultPrevented || form.dataset.sent) { if (form.dataset.sent) event.preventDefault(); return; }
  form.dataset.sent = "1";
  if (form.method === "post") {
    sessionStorage.setItem("sent", JSON.stringify(typed([form])));
    sessionStorage.setItem("left", JSON.stringify({ path: location.pathname, typed: typed(posting().filter((other) => other !== form)) }));
  }
  setTimeout(() => delete form.dataset.sent, 4000);
});
window.addEventListener("pageshow", (event) => {
  document.querySelectorAll("form[data-sent]").forEach((/** @type {HTMLFormElement} */ form) => delete form.dataset.sent);
  if (event.persisted) location.reload();
});
