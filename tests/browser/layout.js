// Texts and controls that lie over one another, stick out of the window or their card, or are cut off.
() => {
  const faults = [];
  const width = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth > width) faults.push("page is wider than the window");
  const shown = (e) => { const b = e.getBoundingClientRect(); const s = getComputedStyle(e);
    return e.checkVisibility() && b.width > 1 && b.height > 1 && s.visibility !== "hidden" && !e.closest(".unseen, .skip, [hidden]"); };
  const own = (e) => [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim());
  const leaves = [...document.querySelectorAll("body *")].filter((e) => !e.closest("script, style, noscript, option")
    && shown(e) && (own(e) || ["BUTTON", "INPUT", "SELECT", "TEXTAREA"].includes(e.tagName)));
  const name = (e) => e.tagName + "#" + (e.id || e.className.baseVal || e.className) + " '" + e.textContent.trim().slice(0, 30) + "'";
  const boxes = leaves.map((e) => { const r = document.createRange(); r.selectNodeContents(e);
    const b = own(e) && !["TEXTAREA", "BUTTON"].includes(e.tagName) ? r.getBoundingClientRect() : e.getBoundingClientRect();
    return { e: e, b: b }; });
  boxes.forEach(({ e, b }) => {
    const scroller = e.closest(".scroll, .prose pre, .prose table");
    if (!scroller && (b.left < -0.5 || b.right > width + 0.5)) faults.push("sticks out: " + name(e));
    const card = e.closest(".card, .knob, .entry, section, button");
    if (card && card !== e && !scroller) { const c = card.getBoundingClientRect();
      if (b.left < c.left - 0.5 || b.right > c.right + 0.5 || b.bottom > c.bottom + 0.5) faults.push("out of its card: " + name(e)); }
    if (["BUTTON", "SELECT"].includes(e.tagName) && e.scrollWidth > e.clientWidth + 1) faults.push("cut off: " + name(e));
  });
  const meet = (p, q) => Math.min(p.right, q.right) - Math.max(p.left, q.left) > 1.5 && Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top) > 3;
  // words that run on to the next line fill no rectangle
  const lines = ({ e, b }) => (getComputedStyle(e).display === "inline" ? [...e.getClientRects()] : [b]);
  for (let i = 0; i < boxes.length; i += 1) for (let j = i + 1; j < boxes.length; j += 1) {
    const [p, q] = [boxes[i], boxes[j]];
    if (p.e.contains(q.e) || q.e.contains(p.e)) continue;
    if (p.e.type === "radio" || q.e.type === "radio") continue;
    if (meet(p.b, q.b) && lines(p).some((one) => lines(q).some((other) => meet(one, other)))) faults.push("overlap: " + name(p.e) + " and " + name(q.e));
  }
  return [...new Set(faults)];
}
