// A knob and its two buttons, the same on every screen: which way is stiffer is said on them.
export const KNOBS = { lsc: "low-speed compression", hsc: "high-speed compression", lsr: "low-speed rebound", hsr: "high-speed rebound",
  c: "compression", r: "rebound", cr: "compression and rebound" };

export function el(tag, facts, ...inside) {
  const node = document.createElement(tag);
  for (const key in facts || {}) {
    if (key === "text") node.textContent = facts[key];
    else if (key.startsWith("on")) node.addEventListener(key.slice(2), facts[key]);
    else if (facts[key] !== undefined && facts[key] !== null && facts[key] !== false) node.setAttribute(key, facts[key]);
  }
  node.append(...inside);
  return node;
}

const counting = (knob) => "0 to " + knob.last + ", counted " + knob.counted;

// One line for all knobs of a shock that count alike; else each says its own.
export function counted(knobs) {
  return new Set(knobs.map(counting)).size === 1 ? el("p", { class: "small counting", text: "Clicks " + counting(knobs[0]) }) : "";
}

// `turn` takes by how many clicks; `more` are facts of the field.
export function stepper(knob, knobs, { id, label = "", more, turn }) {
  const stiffer = knob.counted === "from closed" ? -1 : 1;
  const words = KNOBS[knob.name] || knob.name;
  const input = el("input", { id, type: "number", inputmode: "numeric", min: 0, max: knob.last, ...more });
  const button = (sign, way, to) => el("button", { type: "button", "aria-label": label + words + ", one click " + to, onclick: () => turn(way) },
    el("span", { class: "sign", text: sign, "aria-hidden": "true" }), el("span", { class: "way", text: to }));
  return el("div", { class: "stepper" }, el("label", { for: id }, el("b", { text: knob.name }), el("span", { class: "small", text: " " + (KNOBS[knob.name] || "") })),
    el("div", { class: "turns" }, button("−", -1, stiffer < 0 ? "stiffer" : "softer"), input, button("+", 1, stiffer < 0 ? "softer" : "stiffer")),
    counted(knobs) ? "" : el("span", { class: "small", text: counting(knob) }));
}
