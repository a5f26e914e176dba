// A long screen in parts: one is shown, the address says which. Without this script all stand below each other.
const links = [...document.querySelectorAll(".parts a")].map((link) => /** @type {HTMLAnchorElement} */ (link));
const line = /** @type {HTMLElement | null} */ (document.querySelector(".car-line"));
const high = () => document.documentElement.style.setProperty("--line-height", line.offsetHeight + "px");
if (line) new ResizeObserver(high).observe(line);  // before it is drawn, and only once what is not shown is hidden
// On a phone a part of its own is what stands beside another elsewhere, and what nobody asked for is folded.
const narrow = matchMedia("(max-width: 679px)");
const partOf = (card) => (narrow.matches && card.dataset.narrowPart) || card.dataset.part;
const folds = [...document.querySelectorAll(".narrow-folds")].map((one) => /** @type {HTMLDetailsElement} */ (one));
const fold = () => folds.forEach((one) => { one.open = !narrow.matches || "asked" in one.dataset; });
// Of ranked settings a phone shows the first: the others go into the fold below, before those that are there everywhere.
const ranked = [...document.querySelectorAll("details.more")].map((/** @type {HTMLDetailsElement} */ more) => ({
  more, label: more.querySelector("summary"), words: more.querySelector("summary").textContent,
  first: more.previousElementSibling.querySelector("tbody"), rest: more.querySelector("tbody"),
  moved: [...more.previousElementSibling.querySelectorAll("tbody > tr")].slice(Number(more.dataset.rows)),
}));
const rank = () => ranked.forEach(({ more, label, words, first, rest, moved }) => {
  if (narrow.matches) rest.prepend(...moved); else first.append(...moved);
  label.textContent = narrow.matches ? more.dataset.words : words;
  more.hidden = !rest.rows.length;
});
const cards = [...document.querySelectorAll("[data-part]")].map((card) => /** @type {HTMLElement} */ (card));

function show() {
  const at = document.getElementById(location.hash.slice(1));
  const card = /** @type {HTMLElement | null} */ (at?.closest("[data-part]"));
  const part = card ? partOf(card) : partOf(cards[0]);
  cards.forEach((one) => { one.hidden = partOf(one) !== part; });
  links.forEach((link) => {
    if (link.hash === "#" + part) link.setAttribute("aria-current", "true"); else link.removeAttribute("aria-current");
  });
  if (card && line) high();
  if (card) at.scrollIntoView();  // below the line that stays, now that the other parts are gone
  dispatchEvent(new Event("resize"));  // what is drawn to the width of its place had none
}

if (cards.length && links.length) {
  addEventListener("hashchange", show);
  narrow.addEventListener("change", () => { fold(); rank(); show(); });
  fold();
  rank();
  folds.forEach((one) => one.addEventListener("toggle", () => dispatchEvent(new Event("resize"))));
  show();
}
