// The page: builds what depends on what one looks at, and redraws the numbers at every tap.

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
const DEGREES = DATA.system === "us" ? "°F" : "°C";
let speech = 0;

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

// One text for the pair where both agree, else left and right.
function pair(values) {
  return new Set(values).size === 1 ? values.slice(0, 1) : values;
}

function buildPlaces() {
  byId("places").replaceChildren(...places().map((place) => {
    const input = el("input", { type: "radio", name: "place", value: place.key,
      "aria-label": place.members.length > 1 ? place.text + " axle, left and right" : DATA.corners[place.key].label,
      on: { change: () => { state.where = place.key; build(); } } });
    input.checked = place.key === state.where;
    return el("label", {}, input, el("span", { text: place.text, "aria-hidden": "true" }));
  }));
}

function buildSurfaces() {
  const select = byId("surface");
  byId("surface-field").hidden = DATA.surfaces.length === 0;
  select.replaceChildren(...DATA.surfaces.map((name) => el("option", { value: name, text: name })));
  select.value = state.surface;
  select.addEventListener("change", () => { state.surface = select.value; remember(); buildSetups(); });
}

function buildPacks() {
  const select = byId("pack");
  const on = pair(members().map((name) => state.now[name].pack));
  const differ = on.length > 1 ? [el("option", { value: "", text: "left and right differ" })] : [];
  select.replaceChildren(...differ, ...DATA.packs.map((p) => el("option", { value: p.name, text: p.name })));
  select.value = on.length > 1 ? "" : on[0];
}

function stepButton(sign, way, words, does) {
  return el("button", { type: "button", "aria-label": words, on: { click: does } },
    el("span", { class: "sign", text: sign, "aria-hidden": "true" }),
    el("span", { class: "way", text: way, "aria-hidden": "true" }));
}

function buildKnobs() {
  const names = members();
  const left = names[0];
  const counts = DATA.corners[left].counting[state.now[left].pack];
  byId("knobs").replaceChildren(...Object.keys(counts).map((adjuster) => {
    const label = DATA.labels[adjuster] || adjuster;
    const ways = counts[adjuster].soft ? ["softer", "stiffer"] : ["stiffer", "softer"];
    const kind = /^(ls|hs)?c$/.test(adjuster) ? "compression" : /r$/.test(adjuster) && adjuster !== "cr" ? "rebound" : "";
    const press = (step) => () => { if (canTurn(adjuster, step)) { turn(adjuster, step); changed(adjuster); } };
    return el("div", { class: "knob", role: "group", "aria-label": label, "data-adjuster": adjuster },
      stepButton("−", ways[0], label + ", one click less, " + ways[0], press(-1)),
      el("div", { class: "middle" },
        el("span", { class: "name " + kind, text: capital(label) }),
        el("span", {}, el("output", {}), el("span", { class: "last" })), el("span", { class: "said" })),
      stepButton("+", ways[1], label + ", one click more, " + ways[1], press(1)));
  }));
}

function buildLoads() {
  byId("loads").replaceChildren(...LOADS.map((load) => {
    const step = load.step[DATA.system] * DATA.units[load.kind].factor;
    const input = el("input", { type: "text", inputmode: "decimal", autocomplete: "off",
      "aria-label": load.name + " in " + DATA.units[load.kind].unit,
      on: { change: () => typed(load, input) } });
    return el("div", { class: "knob", role: "group", "aria-label": load.name, "data-load": load.key },
      stepButton("−", load.ways[0], load.name + ", " + load.ways[0], () => shift(load, -step)),
      el("div", { class: "middle" }, el("span", { class: "name", text: load.name + ", " + DATA.units[load.kind].unit }),
        input, el("span", { class: "said" })),
      stepButton("+", load.ways[1], load.name + ", " + load.ways[1], () => shift(load, step)));
  }));
}

function possible(load, name, value) {
  return Number.isFinite(value) && value > (load.key === "mass" ? DATA.corners[name].unsprung : 0) && value < 1e7;
}

function shift(load, step) {
  const names = members();
  if (names.every((name) => possible(load, name, state.now[name][load.key] + step))) {
    names.forEach((name) => { state.now[name][load.key] += step; });
  }
  changed(load.key);
}

function typed(load, input) {
  const value = Number(input.value.trim().replace(",", ".")) * DATA.units[load.kind].factor;
  const names = members();
  const good = input.value.trim() !== "" && names.every((name) => possible(load, name, value));
  if (good) names.forEach((name) => { state.now[name][load.key] = value; });
  changed(load.key, good ? "" : load.name + " was not a number that a car can have; the old one stays. ");
}

function buildChoices() {
  const fits = DATA.choices.filter((c) => c.where === state.where || members().includes(c.where));
  const box = byId("choices");
  if (!fits.length) {
    box.replaceChildren(el("p", { class: "remark", text: DATA.choices.length
      ? "None for this place; look at another axle or corner."
      : "None on this page: the car's file has no targets, or the page was made without them." }));
    return;
  }
  box.replaceChildren(...fits.map((choice, i) => entry({
    title: (i + 1) + ". " + choice.pack,
    chips: choiceChips(choice),
    lines: [...choiceLines(choice), standingWord(choice.standing) + ", misses the targets by " + missText(choice)],
    action: "Put on",
    words: "Put on choice " + (i + 1) + ": " + choice.pack,
    does: () => { ORDER.filter((n) => n in choice.clicks).forEach((n) => putOn(n, choice.pack, choice.clicks[n])); build(); announce("Choice " + (i + 1) + " is on. "); },
  })));
}

function choiceChips(choice) {
  const names = ORDER.filter((name) => name in choice.clicks);
  const alike = pair(names.map((name) => JSON.stringify(choice.clicks[name]))).length === 1;
  return alike ? [["", choice.clicks[names[0]]]] : names.map((name) => [name.toUpperCase(), choice.clicks[name]]);
}

function choiceLines(choice) {
  return DIRECTIONS.filter((d) => choice.ratio[d]).map((d) => capital(d) + " " + LEVELS.map((level) => {
    const value = choice.ratio[d][level];
    return value === null || value === undefined ? "–" : fixed(value, 2);
  }).join(" low, ") + " high");
}

function standingWord(standing) {
  return (STANDING[standing] || "Unknown:").split(":")[0];
}

function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function missText(choice) {
  return choice.miss === null ? "an unknown amount" : fixed(100 * choice.miss, 1) + " %";
}

// One line of clicks, each its own chip so that a line never breaks inside one.
function chipRow(lead, clicks) {
  const chips = Object.keys(clicks).map((a) => el("li", { text: a + " " + clicks[a] }));
  return el("ul", { class: "chips" }, lead && el("li", { class: "lead", text: lead }), ...chips);
}

function entry(facts) {
  return el("article", { class: "entry" },
    el("div", { class: "text" }, el("h3", { text: facts.title }),
      facts.mark && el("p", { class: "mark" + (facts.bad ? " bad" : ""), text: facts.mark })),
    facts.does && el("button", { type: "button", text: facts.action, "aria-label": facts.words, on: { click: facts.does } }),
    el("div", { class: "rest" }, ...facts.chips.map((row) => chipRow(row[0], row[1])),
      ...facts.lines.filter(Boolean).map((line) => el("p", { text: line }))));
}

function buildSetups() {
  const box = byId("setups");
  const here = (setup) => (setup.surface === state.surface ? 0 : 1);
  const sorted = DATA.setups.map((s, i) => [s, i]).sort((a, b) => here(a[0]) - here(b[0]) || a[1] - b[1]).map((p) => p[0]);
  if (!sorted.length) {
    box.replaceChildren(el("p", { class: "remark", text: "None recorded yet." }));
    return;
  }
  box.replaceChildren(...sorted.map((setup) => {
    const usable = Object.values(setup.corners).some((c) => c.known);
    return entry({
      title: [setup.date, setup.surface].filter(Boolean).join(", "),
      mark: setup.good === true ? "Good" + (setup.result ? ": " + setup.result : "")
        : setup.good === false ? "Bad" + (setup.result ? ": " + setup.result : "") : setup.result,
      bad: setup.good === false,
      chips: setupChips(setup),
      lines: [setup.remarks],
      action: "Put on", words: "Put on the setup " + setup.name,
      does: usable ? () => { putOnSetup(setup); build(); announce("The setup of " + setup.date + " is on. "); } : null,
    });
  }));
}

function setupChips(setup) {
  const known = ["fl", "fr", "rl", "rr"].filter((name) => setup.corners[name] && setup.corners[name].pack);
  const same = (a, b) => known.includes(a) && known.includes(b)
    && JSON.stringify([setup.corners[a].pack, setup.corners[a].clicks]) === JSON.stringify([setup.corners[b].pack, setup.corners[b].clicks]);
  const row = (word, name) => [word + " " + setup.corners[name].pack, setup.corners[name].clicks];
  return [["front", "fl", "fr"], ["rear", "rl", "rr"]].flatMap(([word, left, right]) => (same(left, right) ? [row(word, left)]
    : known.filter((name) => name === left || name === right).map((name) => row(name.toUpperCase(), name))));
}

function putOnSetup(setup) {
  ORDER.filter((name) => setup.corners[name] && setup.corners[name].known).forEach((name) => {
    const corner = setup.corners[name];
    putOn(name, corner.pack, corner.clicks);
    state.now[name].spring = corner.spring;
    if (corner.mass > DATA.corners[name].unsprung) state.now[name].mass = corner.mass;
  });
}

function fillCell(cell, found, tops) {
  const texts = pair(found.map((f) => fixed(f.ratio, 2)));
  const big = el("span", { class: "ratio" + (found.length > 1 ? " split" : "") });
  texts.forEach((text, i) => big.append(i ? el("span", { class: "gap", text: "|" }) : "", el("span", { text: text })));
  const mean = found.reduce((sum, f) => sum + f.ratio, 0) / found.length;
  const fill = el("i", { class: "fill" });
  fill.style.width = Math.min(mean / tops * 100, 100) + "%";
  const strip = el("span", { class: "strip", "aria-hidden": "true" }, fill);
  const target = found[0].target;
  if (target !== null) {
    const mark = el("i", { class: "aim-mark" });
    mark.style.left = Math.min(target / tops * 100, 100) + "%";
    strip.append(mark);
  }
  cell.replaceChildren(big, strip, el("span", { class: "aim" }, ...aimText(found, target)));
}

// A target inside the band is met: the page cannot tell the two apart.
function aimText(found, target) {
  if (target === null) return [found.some((f) => f.beyond) ? "beyond the tested speeds" : "no target"];
  const gaps = pair(found.map((f) => (Math.abs(f.ratio - target) <= f.band ? "met" : signed(f.ratio - target, 2))));
  return ["target " + fixed(target, 2) + " ", el("b", { text: gaps.join(" | ") }), found.some((f) => f.beyond) ? ", beyond tests" : ""];
}

function fillRatios(names, all) {
  const axle = DATA.axles[DATA.corners[names[0]].axle];
  byId("ratio-head").textContent = names.length > 1 ? "Left | right" : "Ratio";
  LEVELS.forEach((level) => { byId(level + "-head").textContent = "at " + withUnit(axle[level], "velocity"); });
  const every = DIRECTIONS.flatMap((d) => LEVELS.flatMap((l) => names.map((n) => Math.max(all[n][d][l].ratioBefore, all[n][d][l].target || 0))));
  const tops = Math.max(...every, 0.5) * 1.5;
  DIRECTIONS.forEach((d) => LEVELS.forEach((level) => {
    fillCell(byId(d + "-" + level), names.map((name) => all[name][d][level]), tops);
  }));
  const worst = ["outside", "between", "tested"].find((s) => names.some((name) => all[name].standing === s));
  byId("standing").className = "standing " + worst;
  byId("standing").textContent = STANDING[worst];
}

function fillKnobs(names) {
  byId("knobs").querySelectorAll(".knob").forEach((row) => {
    const adjuster = row.dataset.adjuster;
    const own = names.filter((name) => counting(name, adjuster));
    const counts = counting(own[0], adjuster);
    row.querySelector("output").textContent = pair(own.map((name) => state.now[name].clicks[adjuster])).join(" | ");
    const base = pair(own.map((name) => (state.base[name].pack === state.now[name].pack
      && adjuster in state.base[name].clicks ? String(state.base[name].clicks[adjuster]) : "–")));
    row.querySelector(".last").textContent = " of " + counts.last;
    row.querySelector(".said").textContent = (counts.soft ? "from soft" : "from closed") + ", baseline " + base.join(" | ");
    const buttons = row.querySelectorAll("button");
    buttons[0].setAttribute("aria-disabled", String(!canTurn(adjuster, -1)));
    buttons[1].setAttribute("aria-disabled", String(!canTurn(adjuster, 1)));
  });
}

function fillLoads(names) {
  byId("loads").querySelectorAll(".knob").forEach((row) => {
    const load = LOADS.find((l) => l.key === row.dataset.load);
    const values = pair(names.map((name) => number(state.now[name][load.key], load.kind)));
    const input = row.querySelector("input");
    input.value = values.length > 1 ? "" : values[0];
    input.classList.toggle("split", values.length > 1);
    input.placeholder = values.length > 1 ? values.join(" | ") : "";
    row.querySelector(".said").textContent = "baseline " + pair(names.map((n) => number(state.base[n][load.key], load.kind))).join(" | ");
  });
}

function fillForces(names, all) {
  const heads = pair(names.map((n) => JSON.stringify(forceRow(all[n])))).length === 1 ? [names[0]] : names;
  byId("force-head").replaceChildren(el("tr", {}, el("th", { scope: "col", text: "Force, " + DATA.units.force.unit }),
    ...heads.map((name) => el("th", { scope: "col", text: heads.length > 1 ? name.toUpperCase() : "now" }))));
  byId("force-body").replaceChildren(...DIRECTIONS.flatMap((d) => LEVELS.map((level) => el("tr", { class: d, "data-row": d + "-" + level },
    el("th", { scope: "row", text: capital(d) + " at " + number(all[names[0]][d][level].velocity, "velocity") }),
    ...heads.map((name) => forceCell(all[name][d][level]))))));
}

function forceCell(one) {
  const change = signed((one.force - one.before) / DATA.units.force.factor, DATA.units.force.digits);
  return el("td", { text: number(one.force, "force") + " ± " + number(one.half, "force") },
    el("small", { text: Number(change) === 0 ? "as baseline" : change + " from baseline" }));
}

function forceRow(found) {
  return DIRECTIONS.map((d) => LEVELS.map((l) => [found[d][l].force, found[d][l].before, found[d][l].half]));
}

function fillWhole(names, all) {
  byId("whole").replaceChildren(...ORDER.map((name) => el("tr", { class: names.includes(name) ? "on" : "", "data-corner": name },
    el("th", { scope: "row", text: capital(DATA.corners[name].label) }),
    ...DIRECTIONS.flatMap((d) => LEVELS.map((l) => el("td", { text: fixed(all[name][d][l].ratio, 2) }))))));
}

function inWords(names, all) {
  const name = names[0];
  return DIRECTIONS.map((d) => d + " " + LEVELS.map((l) => withUnit(all[name][d][l].force, "force") + " at "
    + withUnit(all[name][d][l].velocity, "velocity")).join(" and ")).join("; ") + ".";
}

function draw() {
  const names = members();
  const all = Object.fromEntries(ORDER.map((name) => [name, figures(name)]));
  fillRatios(names, all);
  fillKnobs(names);
  fillLoads(names);
  fillForces(names, all);
  fillWhole(names, all);
  drawCurve(byId("curve"), names, all);
  byId("curve-words").textContent = "Curve of " + names.map((n) => DATA.corners[n].label).join(" and ") + ": " + inWords(names, all);
  return all;
}

function build() {
  buildPlaces();
  buildPacks();
  buildKnobs();
  buildLoads();
  buildChoices();
  buildSetups();
  remember();
  draw();
}

function changed(what, remark) {
  remember();
  draw();
  announce((remark || "") + (what in DATA.labels ? DATA.labels[what] + " " + pair(members().map((n) => state.now[n].clicks[what])).join(" and ") + ". " : ""));
}

// Said once the tapping stops, so that a screen reader is not flooded.
function announce(words) {
  clearTimeout(speech);
  speech = setTimeout(() => {
    const found = figures(members()[0]);
    byId("live").textContent = words + DIRECTIONS.map((d) => d + " ratio " + LEVELS.map((l) => fixed(found[d][l].ratio, 2) + " " + l).join(", ")).join("; ");
  }, 450);
}

function fileText() {
  const good = new FormData(byId("note")).get("good");
  const degrees = byId("note-temperature").value.trim().replace(",", ".").replace("−", "-");
  return setupFile({ date: byId("note-date").value, surface: state.surface, good: good,
    temperature: degrees !== "" && Number.isFinite(Number(degrees)) ? degrees + " " + DEGREES : "", result: byId("note-result").value.trim(), remarks: byId("note-remarks").value.trim() });
}

function fileName() {
  const plain = (text) => text.replace(/[^A-Za-z0-9]+/g, "-").replace(/^-+|-+$/g, "").toLowerCase();
  return [byId("note-date").value, plain(DATA.car), plain(state.surface)].filter(Boolean).join("-") + ".toml";
}

function showText(words) {
  byId("written-text").value = fileText();
  byId("written").hidden = false;
  byId("saved").textContent = words;
}

function saveFile(event) {
  event.preventDefault();
  const url = URL.createObjectURL(new Blob([fileText()], { type: "application/toml" }));
  const link = el("a", { href: url, download: fileName() });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 10000);
  showText("Saved as " + fileName() + ". At home: dynoan setup record --from " + fileName());
}

function copyText() {
  showText("The text is selected: copy it, and keep it as " + fileName() + ".");
  byId("written-text").select();
  if (document.execCommand("copy")) byId("saved").textContent = "Copied. Paste it into a file named " + fileName() + ".";
}

function today() {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
}

function about() {
  const packs = DATA.packs.map((p) => p.name + (p.loo === null ? "" : ": left-out runs are predicted within " + fixed(p.loo, 1) + " % (median)"));
  byId("about").textContent = "Made " + DATA.made + ". Forces come from the click map of each pack (" + packs.join("; ") + "), with half of the 95 % band after ±. "
    + "The damping ratio is force over velocity at the shock, brought to the wheel by the shock's motion ratio squared, over critical damping of the sprung mass on its wheel rate. "
    + "Low and high velocity are at the shock. \"Met\" means that the target lies inside the band.";
}

start();
const restored = recall();
buildSurfaces();
byId("note-date").value = today();
byId("note-degrees").textContent = "Temperature, " + DEGREES;
byId("pack").addEventListener("change", () => {
  if (byId("pack").value) { members().forEach((name) => fitPack(name, byId("pack").value)); build(); announce("Pack " + byId("pack").value + ". "); }
});
byId("reset").addEventListener("click", () => { reset(members()); build(); announce("Back to baseline. "); });
byId("note").addEventListener("submit", saveFile);
byId("copy").addEventListener("click", copyText);
window.addEventListener("resize", () => requestAnimationFrame(draw));
about();
build();
if (restored) announce("What you had turned before is on again. ");
