// What people type: numbers with or without a unit. Without one it is in the unit at the field.

const TYPED = /^\s*([-+−]?(?:\d+(?:[.,]\d+)?|[.,]\d+))\s*(.*?)\s*$/;
// 1,190 is 1190 to one reader and 1.19 to another.
const EITHER = /^\s*[-+−]?([1-9]\d{0,2}),(\d{3})(?![\d.,])/;
// As `dynoan.units.read.normal_unit` has it.
const ONE_FORM = { lbs: "lb", pound: "lb", pounds: "lb", foot: "ft", feet: "ft", inch: "in", inches: "in", sec: "s", second: "s",
  seconds: "s", degree: "deg", degrees: "deg", centigrade: "celsius" };
const DEGREES = DATA.system === "us" ? "°F" : "°C";

function split(text) {
  const found = TYPED.exec(text);
  return found && { value: Number(found[1].replace(",", ".").replace("−", "-")), unit: found[2] };
}

function plainUnit(unit) {
  return unit.toLowerCase().replace(/^[[({](.*)[\])}]$/, "$1").trim().replace(/[”″]/g, '"').replace(/#/g, "lb").replace(/[·⋅]/g, "*")
    .replace(/\.(?![a-z0-9])/g, "").replace(/\./g, "*").replace(/\s*(?:\/|\bper\b)\s*/g, "/").replace(/\s*-\s*|\s+/g, "*")
    .replace(/[a-z]+/g, (word) => ONE_FORM[word] || word);
}

// In SI; null where it is no such quantity.
function quantity(text, kind) {
  const found = split(text);
  if (!found || EITHER.test(text)) return null;
  const factor = found.unit === "" ? DATA.units[kind].factor : DATA.forms[kind][plainUnit(found.unit)];
  return factor === undefined ? null : found.value * factor;
}

// A temperature as the setup's file takes it, "" for an empty field, null where it is none.
function temperature(text) {
  if (text.trim() === "") return "";
  const found = split(text);
  if (!found) return null;
  const unit = (found.unit === "" ? DEGREES : found.unit).toLowerCase().replace(/[º˚]/, "°").replace(/degrees?\.?/, "deg").replace(/\s/g, "");
  const to = { c: (t) => t, f: (t) => (t - 32) / 1.8, k: (t) => t - 273.15 };
  const letter = (/^(?:°|deg)?([cf])$|^(?:°|deg)?(c)elsius$|^(c)entigrade$|^(?:°|deg)?(f)ahrenheit$|^(k)(?:elvin)?$/.exec(unit) || []).slice(1).find(Boolean);
  if (!letter) return null;
  const celsius = to[letter](found.value);
  if (celsius < DATA.weather[0] || celsius > DATA.weather[1]) return null;
  return found.value + " " + { c: "°C", f: "°F", k: "K" }[letter];
}
