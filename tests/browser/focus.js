// What has the focus though nothing of it is to be seen: it lies outside of the window, or something else covers it.
() => {
  const e = document.activeElement;
  if (!e || e === document.body || e.closest(".skip")) return null;
  const part = e.type === "radio" && getComputedStyle(e).opacity === "0" ? e.parentElement : e;
  const b = part.getBoundingClientRect();
  const name = e.tagName + "#" + (e.id || e.className) + " '" + (e.textContent || "").trim().slice(0, 30) + "'";
  const [left, right] = [Math.max(b.left, 0), Math.min(b.right, document.documentElement.clientWidth)];
  const [top, bottom] = [Math.max(b.top, 0), Math.min(b.bottom, innerHeight)];
  if (right - left < 1 || bottom - top < 1) return "out of sight: " + name;
  const own = (x, y) => { const hit = document.elementFromPoint(x, y); return hit && (part.contains(hit) || hit.contains(part)); };
  const shares = [0.1, 0.5, 0.9];
  return shares.some((i) => shares.some((j) => own(left + i * (right - left), top + j * (bottom - top)))) ? null : "covered: " + name;
}
