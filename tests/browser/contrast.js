// Controls whose edge, and whose mark of being in focus, stand out by less than 3 to 1 from what lies around them
// (WCAG 2.2, 1.4.11 and 2.4.11). A control without an edge of its own is a text like others; axe holds those.
() => {
  const channels = (text) => { const n = text.match(/[\d.]+/g).map(Number); return n.length < 4 ? [...n, 1] : n; };
  const over = (top, under) => top.slice(0, 3).map((c, i) => c * top[3] + under[i] * (1 - top[3]));
  const light = (rgb) => { const [r, g, b] = rgb.map((c) => c / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
  const ratio = (p, q) => { const [a, b] = [light(p), light(q)].sort((x, y) => y - x); return (a + 0.05) / (b + 0.05); };
  const ground = (e) => { const own = e ? channels(getComputedStyle(e).backgroundColor) : [255, 255, 255, 1];
    return own[3] === 1 || !e ? own.slice(0, 3) : over(own, ground(e.parentElement)); };
  const name = (e) => e.tagName + "#" + (e.id || e.className) + " '" + (e.textContent || e.value || "").trim().slice(0, 30) + "'";
  const faults = [];
  const seen = (e) => e.checkVisibility() && !e.closest(".unseen, .skip, [hidden]") && !e.disabled && e.getAttribute("aria-disabled") !== "true";
  // what is drawn of a control is its label's other part where the control itself is clear or drawn by ::before
  const drawn = (e) => (e.type === "radio" && getComputedStyle(e).opacity === "0" ? [e.nextElementSibling, null]
    : e.type === "checkbox" ? [e, "::before"] : e.type === "file" ? [e, "::file-selector-button"] : [e, null]);
  const controls = [...document.querySelectorAll("button, .button, input:not([type=hidden]), select, textarea, summary, a[href], [tabindex='0']")].filter(seen);
  controls.forEach((e) => {
    const [part, pseudo] = drawn(e);
    const style = getComputedStyle(part, pseudo);
    const around = ground(pseudo ? part : part.parentElement);
    const edge = channels(style.borderTopColor), fill = channels(style.backgroundColor);
    const edged = parseFloat(style.borderTopWidth) > 0 && style.borderTopStyle !== "none" && edge[3] > 0;
    const link = e.matches("a[href]:not(.button), summary, [tabindex='0']:not(button, input, select, textarea)");
    const told = Math.max(edged ? ratio(over(edge, around), around) : 1, ratio(over(fill, around), around));
    const text = !edged && fill[3] === 0;
    if (!link && !text && e.type !== "radio" && told < 3) faults.push("edge " + told.toFixed(2) + ": " + name(e));
    if (e.type === "radio" && part !== e && told < 3) faults.push("edge " + told.toFixed(2) + ": " + name(part));
    e.focus({ preventScroll: true, focusVisible: true });
    if (document.activeElement !== e) return;
    const ring = getComputedStyle(part);
    const colour = channels(ring.outlineColor);
    const shown = ring.outlineStyle !== "none" && parseFloat(ring.outlineWidth) >= 2
      ? ratio(over(colour, around), parseFloat(ring.outlineOffset) < 0 ? ground(part) : around) : 1;
    if (shown < 3) faults.push("focus " + shown.toFixed(2) + ": " + name(e));
  });
  return [...new Set(faults)];
}
