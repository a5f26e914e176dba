// The numbers on the page, filled in anew at every tap.

const NOT_KNOWN = "not known";

// One text for the pair where both agree, else left and right.
function pair(values) {
  return new Set(values).size === 1 ? values.slice(0, 1) : values;
}

function fillCell(cell, found, tops) {
  const texts = pair(found.map((f) => orDash(f.ratio, (r) => fixed(r, 2))));
  const big = el("span", { class: "ratio" + (texts.length > 1 ? " split" : "") });
  texts.forEach((text, i) => big.append(i ? el("span", { class: "gap", text: "|" }) : "", el("span", { text: text })));
  const known = found.filter((f) => f.ratio !== null);
  const mean = known.reduce((sum, f) => sum + f.ratio, 0) / Math.max(known.length, 1);
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

function orDash(value, text) {
  return value === null || value === undefined ? "–" : text(value);
}

function aimText(found, target) {
  if (target === null) return [found.some((f) => f.beyond) ? "beyond the tested speeds" : "no target"];
  const gaps = pair(found.map(gapText));
  return ["target " + fixed(target, 2) + " ", el("b", { text: gaps.join(" | ") }), found.some((f) => f.beyond) ? ", beyond tests" : ""];
}

function gapText(one) {
  if (one.ratio === null) return NOT_KNOWN;
  const found = verdict(one);
  const gap = signed(100 * (one.ratio / one.target - 1), 0) + "\u00a0%";
  return { met: "met", likely: "likely, " + gap, off: gap }[found] || found;
}

function fillRatios(names, all) {
  const axle = DATA.axles[DATA.corners[names[0]].axle];
  byId("ratio-head").textContent = names.length > 1 ? "Left | right" : "Ratio";
  LEVELS.forEach((level) => { byId(level + "-head").textContent = "at " + withUnit(axle[level], "velocity"); });
  const every = DIRECTIONS.flatMap((d) => LEVELS.flatMap((l) => names.map((n) => Math.max(all[n][d][l].ratioBefore || 0, all[n][d][l].target || 0))));
  const tops = Math.max(...every, 0.5) * 1.5;
  DIRECTIONS.forEach((d) => LEVELS.forEach((level) => {
    fillCell(byId(d + "-" + level), names.map((name) => all[name][d][level]), tops);
  }));
  const worst = ["unknown", "outside", "between", "tested"].find((s) => names.some((name) => all[name].standing === s));
  byId("standing").className = "standing " + worst;
  byId("standing").textContent = worst === "unknown" ? unknownText(names) : STANDING[worst];
  const weak = names.map((name) => DATA.corners[name].alert).filter(Boolean);
  byId("weak").hidden = weak.length === 0;
  byId("weak").textContent = [...new Set(weak)].join("; ");
}

function unknownText(names) {
  const open = names.filter((name) => !known(name, state.now[name]));
  const where = open.map((name) => name.toUpperCase()).join(" and ");
  const other = [...new Set(open.map((name) => state.now[name].other && state.now[name].other.pack).filter(Boolean))];
  if (other.length) return "Not known (" + where + "): this page does not hold pack " + other.join(", ");
  return open.some((name) => state.now[name].pack === null) ? "Not known (" + where + "): pick the pack that is on it"
    : "Not known (" + where + "): set every click as it is on the shock";
}

function fillKnobs(names) {
  byId("knobs").querySelectorAll(".knob").forEach((row) => {
    const adjuster = row.dataset.adjuster;
    const own = names.filter((name) => counting(name, adjuster));
    const counts = counting(own[0], adjuster);
    const open = unset(own, adjuster);
    row.querySelector("output").textContent = pair(own.map((name) => orDash(state.now[name].clicks[adjuster], String))).join(" | ");
    const base = pair(own.map((name) => (state.base[name].pack === state.now[name].pack
      ? orDash(state.base[name].clicks[adjuster], String) : "–")));
    row.querySelector(".last").textContent = " of " + counts.last;
    row.querySelector(".said").textContent = (counts.soft ? "from soft" : "from closed")
      + (open.length ? ", not known: − or + sets it to " + usualClick(open[0], adjuster) : ", baseline " + base.join(" | "));
    const buttons = row.querySelectorAll("button");
    buttons[0].setAttribute("aria-disabled", String(!canTurn(adjuster, -1)));
    buttons[1].setAttribute("aria-disabled", String(!canTurn(adjuster, 1)));
  });
}

// What was typed and refused stays in the field until something else is; `drafts` holds it by place and load.
function fillLoads(names) {
  byId("loads").querySelectorAll(".knob").forEach((row) => {
    const load = LOADS.find((l) => l.key === row.dataset.load);
    const draft = state.drafts[draftKey(load)];
    const values = pair(names.map((name) => number(state.now[name][load.key], load.kind)));
    const input = row.querySelector("input");
    const text = draft === undefined ? (values.length > 1 ? "" : values[0]) : draft;
    if (input.value !== text) input.value = text;
    input.classList.toggle("split", values.length > 1);
    input.placeholder = values.length > 1 ? values.join(" | ") : "";
    row.querySelector(".said").textContent = "baseline " + pair(names.map((n) => number(state.base[n][load.key], load.kind))).join(" | ");
    const refused = draft !== undefined && input !== document.activeElement;
    tellFault(input, row.querySelector(".fault"), refused ? loadFault(load, draft, values) : "");
  });
}

function draftKey(load) {
  return state.where + " " + load.key;
}

function loadFault(load, text, values) {
  const unit = DATA.units[load.kind].unit;
  const kept = " Still " + values.join(" | ") + " " + unit + ".";
  const value = quantity(text, load.kind);
  const either = EITHER.exec(text);
  if (either) return "Not taken: it can be read in two ways; write " + either[1] + either[2] + " or " + either[1] + "." + either[2] + "." + kept;
  if (value === null) return "Not taken: write a number, or one with a unit such as " + number(state.now[members()[0]][load.key], load.kind) + " " + unit + "." + kept;
  return "Not taken: " + (load.key === "mass" ? "less than the unsprung mass, or no weight of a car." : "no spring rate of a car.") + kept;
}

// A fault is seen beside its field and said with it.
function tellFault(input, place, text) {
  if (place.textContent !== text) place.textContent = text;
  place.hidden = text === "";
  input.setAttribute("aria-invalid", String(text !== ""));
}

function fillForces(names, all) {
  const heads = pair(names.map((n) => JSON.stringify(forceRow(all[n])))).length === 1 ? [names[0]] : names;
  byId("force-head").replaceChildren(el("tr", {}, el("th", { scope: "col", text: "Force, " + DATA.units.force.unit }),
    ...heads.map((name) => el("th", { scope: "col", text: heads.length > 1 ? name.toUpperCase() : "now" }))));
  byId("force-body").replaceChildren(...DIRECTIONS.flatMap((d) => LEVELS.map((level) => el("tr", { class: d, "data-row": d + "-" + level },
    el("th", { scope: "row", text: capital(d) + " at " + withUnit(all[names[0]][d][level].velocity, "velocity") }),
    ...heads.map((name) => forceCell(all[name][d][level]))))));
}

function forceCell(one) {
  if (one.force === null) return el("td", { text: "–" }, el("small", { text: NOT_KNOWN }));
  const now = [number(one.force, "force") + " ", el("span", { class: "half", text: "± " + number(one.half, "force") })];
  if (one.before === null) return el("td", {}, ...now);
  const change = signed((one.force - one.before) / DATA.units.force.factor, DATA.units.force.digits);
  return el("td", {}, ...now, el("small", { text: Number(change) === 0 ? "as baseline" : change + " from baseline" }));
}

function forceRow(found) {
  return DIRECTIONS.map((d) => LEVELS.map((l) => [found[d][l].force, found[d][l].before, found[d][l].half]));
}

function fillWhole(names, all) {
  byId("whole").replaceChildren(...ORDER.map((name) => el("tr", { class: names.includes(name) ? "on" : "", "data-corner": name },
    el("th", { scope: "row", text: capital(DATA.corners[name].label) },
      DATA.corners[name].alert && el("small", { class: "alarm", text: "shock changed" })),
    ...DIRECTIONS.flatMap((d) => LEVELS.map((l) => el("td", { text: orDash(all[name][d][l].ratio, (r) => fixed(r, 2)) }))))));
}

function fillUndo() {
  const last = state.past[state.past.length - 1];
  document.querySelectorAll(".undo").forEach((button) => {
    button.setAttribute("aria-disabled", String(!last));
    button.setAttribute("aria-label", last ? "Undo: " + last.what : "Undo: nothing to undo");
  });
}

function inWords(names, all) {
  const name = names[0];
  if (!known(name, state.now[name])) return NOT_KNOWN + ".";
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
  fillUndo();
  fillChoices();
  drawCurve(byId("curve"), names, all);
  byId("curve-stretch").textContent = stretchInWords();
  byId("curve-words").textContent = "Curve of " + names.map((n) => DATA.corners[n].label).join(" and ") + ": " + inWords(names, all);
  return all;
}
