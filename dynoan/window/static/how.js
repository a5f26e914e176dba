// How was this got? Each number can be asked: by pressing it, or with Enter and the arrow keys inside its table.
export {};
const box = /** @type {HTMLDialogElement} */ (document.getElementById("how"));
const TOLD = "[data-how]";
const closing = box.querySelector("button");
closing.addEventListener("click", () => box.close());
box.addEventListener("click", (event) => { if (event.target === box) box.close(); });

// A cell with a number in it and nothing to press: of a card that says how its numbers were got.
const card = (/** @type {Element} */ node) => node.closest(".card, section, article");
const general = (/** @type {Element} */ node) => {
  for (let at = card(node); at; at = at.parentElement && card(at.parentElement)) {
    const text = at.querySelector("details.how > p, details.how > dl")?.textContent;
    if (text) return text;
  }
  return "";
};
const asked = (/** @type {Element} */ node) => {
  const cell = /** @type {HTMLElement | null} */ (node.closest(TOLD + ", main td"));
  if (!cell || !cell.closest("main") || node.closest("a, button, input, select, textarea, summary, label")) return null;
  if (!/\d/.test(cell.textContent) || cell.querySelector("form, input, button")) return null;
  return cell.dataset.how || general(cell) ? cell : null;
};

function heading(cell) {
  const td = /** @type {HTMLTableCellElement | null} */ (cell.closest("td"));
  if (!td) return cell.dataset.what || "How was this got?";
  const row = /** @type {HTMLTableRowElement} */ (td.parentElement);
  const head = td.closest("table").tHead?.rows;
  const words = (node) => node ? node.innerText.replace(/\s+/g, " ").trim() : "";
  const column = td.dataset.level || td.dataset.label || words(head?.[head.length - 1]?.cells[td.cellIndex]);
  const group = td.closest(".scroll")?.getAttribute("aria-label");
  return [words(card(cell)?.querySelector("h3") || null) || group, words(row.querySelector("th")), column].filter(Boolean).join(", ");
}

function tell(cell) {
  box.querySelector("h2").textContent = heading(cell);
  const [value, own, all] = box.querySelectorAll("p");
  value.textContent = cell.innerText.replace(/\s*\n\s*/g, "; ").replace(/,;/g, ",");
  own.textContent = cell.dataset.how || "";
  own.hidden = !cell.dataset.how;
  all.textContent = general(cell);
  all.hidden = !general(cell);
  box.showModal();
}

document.addEventListener("click", (event) => {
  const cell = asked(/** @type {Element} */ (event.target));
  if (cell && !String(getSelection())) tell(cell);
});

// In a table that has the focus: Enter goes to its numbers, arrow keys from one to the next, Escape out again.
const numbers = (/** @type {Element} */ group) => [.../** @type {NodeListOf<HTMLElement>} */ (group.querySelectorAll(TOLD + ", td"))]
  .filter((cell) => asked(cell) === cell && !cell.querySelector(TOLD));

function next(cell, group, key) {
  const all = numbers(group);
  const at = all.indexOf(cell);
  if (key === "ArrowRight") return all[at + 1];
  if (key === "ArrowLeft") return all[at - 1];
  const mine = cell.getBoundingClientRect();
  const way = key === "ArrowDown" ? 1 : -1;
  return (way > 0 ? all.slice(at + 1) : all.slice(0, Math.max(at, 0)).reverse())
    .find((one) => { const r = one.getBoundingClientRect(); return Math.abs(r.left - mine.left) < 4 && way * (r.top - mine.top) > 4; });
}

document.addEventListener("keydown", (event) => {
  const from = /** @type {HTMLElement} */ (event.target);
  const group = /** @type {HTMLElement | null} */ (from.closest(".scroll"));
  if (event.key === "Enter" && from.matches("p" + TOLD + ", li" + TOLD)) { tell(from); return; }
  if (!group || from.matches("a, button, input, select, textarea, summary")) return;
  const first = from === group;
  let to = null;
  if (event.key === "Enter") {
    if (!first) { event.preventDefault(); tell(from); return; }
    to = numbers(group)[0];
  } else if (!first && event.key === "Escape") to = group;
  else if (!first && event.key.startsWith("Arrow")) to = next(from, group, event.key) || from;
  if (!to) return;
  event.preventDefault();
  if (to !== group) to.tabIndex = -1;
  to.focus();
});

document.querySelectorAll("main .scroll").forEach((group) => {
  if (numbers(group).length) group.setAttribute("aria-description", "Enter goes to the numbers, the arrow keys from one to the next; Enter on one says how it was got");
});
document.querySelectorAll("main p" + TOLD + ", main li" + TOLD).forEach((/** @type {HTMLElement} */ line) => { if (asked(line)) line.tabIndex = 0; });
document.documentElement.classList.add("asks");
