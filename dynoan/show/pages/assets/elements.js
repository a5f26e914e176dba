// Making elements and texts.

const byId = (id) => document.getElementById(id);
const STANDING = {
  tested: "Tested: this setting was on the dyno",
  between: "Between: its clicks lie between tested ones",
  outside: "Outside: beyond all tests, do not rely on it",
};
const LOADS = [
  { key: "spring", name: "Spring", kind: "stiffness", step: { metric: 1, us: 5 }, ways: ["softer", "stiffer"] },
  { key: "mass", name: "Corner weight", kind: "mass", step: { metric: 2, us: 5 }, ways: ["lighter", "heavier"] },
];

function el(tag, facts, ...inside) {
  const node = document.createElement(tag);
  Object.entries(facts || {}).forEach(([key, value]) => {
    if (key === "text") node.textContent = value;
    else if (key === "on") Object.entries(value).forEach(([event, does]) => node.addEventListener(event, does));
    else if (value !== undefined && value !== null) node.setAttribute(key, value);
  });
  node.append(...inside.filter(Boolean));
  return node;
}

function number(value, kind) {
  const unit = DATA.units[kind];
  return fixed(value / unit.factor, unit.digits);
}

function fixed(value, places) {
  const text = value.toFixed(places);
  return Number(text) === 0 ? text.replace("-", "") : text.replace("-", "−");
}

function signed(value, places) {
  const text = fixed(value, places);
  return text.startsWith("−") || Number(text) === 0 ? text : "+" + text;
}

function withUnit(value, kind) {
  return number(value, kind) + " " + DATA.units[kind].unit;
}

function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
