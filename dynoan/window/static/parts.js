// A long screen in parts: one is shown, the address says which. Without this script all stand below each other.
const links = [...document.querySelectorAll(".parts a")].map((link) => /** @type {HTMLAnchorElement} */ (link));
const line = /** @type {HTMLElement | null} */ (document.querySelector(".car-line"));
const high = () => document.documentElement.style.setProperty("--line-height", line.offsetHeight + "px");
if (line) {
  high();
  new ResizeObserver(high).observe(line);
}
const cards = [...document.querySelectorAll("[data-part]")].map((card) => /** @type {HTMLElement} */ (card));

function show() {
  const at = document.getElementById(location.hash.slice(1));
  const card = /** @type {HTMLElement | null} */ (at?.closest("[data-part]"));
  const part = card?.dataset.part || cards[0].dataset.part;
  cards.forEach((one) => { one.hidden = one.dataset.part !== part; });
  links.forEach((link) => {
    if (link.hash === "#" + part) link.setAttribute("aria-current", "true"); else link.removeAttribute("aria-current");
  });
  if (card) at.scrollIntoView();  // below the line that stays, now that the other parts are gone
  dispatchEvent(new Event("resize"));  // what is drawn to the width of its place had none
}

if (cards.length && links.length) {
  addEventListener("hashchange", show);
  show();
}
