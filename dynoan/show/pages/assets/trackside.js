// The page: builds what depends on what one looks at, and redraws the numbers at every tap.

let speech = 0;

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
  select.addEventListener("change", () => does("surface", () => { state.surface = select.value; }));
}

function buildPacks() {
  const select = byId("pack");
  const on = pair(members().map((name) => state.now[name].pack));
  const other = pair(members().map((name) => (state.now[name].other && state.now[name].other.pack) || ""));
  const none = on.length > 1 ? "left and right differ" : on[0] !== null ? "" : other.length === 1 && other[0] ? other[0] + " (not on this page)" : NOT_KNOWN;
  const first = none ? [el("option", { value: "", text: none })] : [];
  select.replaceChildren(...first, ...DATA.packs.map((p) => el("option", { value: p.name, text: p.name })));
  select.value = none ? "" : on[0];
}

function stepButton(sign, way, words, does) {
  return el("button", { type: "button", "aria-label": words, on: { click: does } },
    el("span", { class: "sign", text: sign, "aria-hidden": "true" }),
    el("span", { class: "way", text: way, "aria-hidden": "true" }));
}

function buildKnobs() {
  const names = members();
  const counts = Object.assign({}, ...names.map((name) => countsOf(name, state.now[name])).reverse());
  byId("knobs-none").hidden = Object.keys(counts).length > 0;
  byId("knobs").replaceChildren(...Object.keys(counts).map((adjuster) => {
    const label = DATA.labels[adjuster] || adjuster;
    const ways = counts[adjuster].soft ? ["softer", "stiffer"] : ["stiffer", "softer"];
    const kind = /^(ls|hs)?c$/.test(adjuster) ? "compression" : /r$/.test(adjuster) && adjuster !== "cr" ? "rebound" : "";
    const press = (step) => () => { if (canTurn(adjuster, step)) { act(label, () => turn(adjuster, step)); changed(adjuster); } };
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
    const input = el("input", { type: "text", inputmode: "text", autocomplete: "off", maxlength: 24,
      "aria-label": load.name + " in " + DATA.units[load.kind].unit, "aria-describedby": load.key + "-fault",
      on: { input: () => { state.drafts[draftKey(load)] = input.value; remember(noteNow()); }, change: () => typed(load, input),
        blur: () => draw() } });
    return el("div", { class: "knob", role: "group", "aria-label": load.name, "data-load": load.key },
      stepButton("−", load.ways[0], load.name + ", " + load.ways[0], () => shift(load, -step)),
      el("div", { class: "middle" }, el("span", { class: "name", text: load.name + ", " + DATA.units[load.kind].unit }),
        input, el("span", { class: "said" })),
      stepButton("+", load.ways[1], load.name + ", " + load.ways[1], () => shift(load, step)),
      el("p", { class: "fault", id: load.key + "-fault", role: "alert", hidden: "" }));
  }));
}

function possible(load, name, value) {
  return Number.isFinite(value) && value > (load.key === "mass" ? DATA.corners[name].unsprung : 0) && value < 1e7;
}

function shift(load, step) {
  const names = members();
  delete state.drafts[draftKey(load)];
  if (names.every((name) => possible(load, name, state.now[name][load.key] + step))) {
    act(load.name, () => names.forEach((name) => { state.now[name][load.key] += step; }));
  }
  changed(load.key);
}

function typed(load, input) {
  const value = quantity(input.value, load.kind);
  const names = members();
  if (input.value.trim() === "") delete state.drafts[draftKey(load)];
  else if (value !== null && names.every((name) => possible(load, name, value))) {
    delete state.drafts[draftKey(load)];
    act(load.name, () => names.forEach((name) => { state.now[name][load.key] = value; }));
  } else state.drafts[draftKey(load)] = input.value;
  changed(load.key);
}

// Something that changes more than one number: done, built anew, told.
function does(what, how) {
  keepingDrafts(() => act(what, how));
  build();
  byId("surface").value = state.surface;
  announce(capital(what) + ". ");
}

// What was typed and refused goes only where springs or weights change under it.
function keepingDrafts(how) {
  const loads = () => JSON.stringify(ORDER.map((name) => LOADS.map((load) => state.now[name][load.key])));
  const before = loads();
  how();
  if (loads() !== before) state.drafts = {};
}

function takeBack() {
  let what = "";
  keepingDrafts(() => { what = undo(); });
  if (!what) return;
  build();
  byId("surface").value = state.surface;
  announce("Undone: " + what + ". ");
}

function build() {
  buildPlaces();
  buildPacks();
  buildKnobs();
  buildLoads();
  buildChoices();
  buildSetups();
  remember(noteNow());
  draw();
}

function changed(what, remark) {
  remember(noteNow());
  draw();
  announce((remark || "") + (what in DATA.labels ? DATA.labels[what] + " " + pair(members().map((n) => orDash(state.now[n].clicks[what], String))).join(" and ") + ". " : ""));
}

// Said once the tapping stops, so that a screen reader is not flooded.
function announce(words) {
  clearTimeout(speech);
  speech = setTimeout(() => {
    const found = figures(members()[0]);
    byId("live").textContent = words + DIRECTIONS.map((d) => d + " ratio " + LEVELS.map((l) => orDash(found[d][l].ratio, (r) => fixed(r, 2)) + " " + l).join(", ")).join("; ");
  }, 450);
}

function about() {
  const packs = DATA.packs.map((p) => p.name + (p.loo === null ? "" : ": a run guessed from the others is off by " + fixed(p.loo, 1) + " % (median)"));
  byId("about").textContent = "Made " + DATA.made + ". Forces come from the click map of each pack (" + packs.join("; ") + "), where a shock was tested from its own curve, with half of the 95 % band after ±. "
    + "The damping ratio is force over velocity at the shock, brought to the wheel by the shock's motion ratio squared, over critical damping of the sprung mass on its wheel rate. "
    + "Low and high velocity are at the shock. \"Met\": the whole band lies within " + fixed(100 * DATA.tolerance, 0) + " % of the target; \"likely\": the value does, an end of the band does not; \"cannot tell apart\": the band is wider than that.";
}

start();
const kept = recall();
if (kept) fillNote(kept.note);
buildSurfaces();
byId("note-date").value = today();
buildTrial();
byId("note-degrees").textContent = "Temperature, " + DEGREES;
byId("pack").addEventListener("change", () => {
  const name = byId("pack").value;
  if (name) does("pack " + name, () => members().forEach((corner) => fitPack(corner, name)));
});
byId("reset").addEventListener("click", () => does("whole car to baseline", toBaseline));
document.querySelectorAll(".undo").forEach((button) => button.addEventListener("click", takeBack));
byId("note").addEventListener("input", () => remember(noteNow()));
byId("note-temperature").addEventListener("change", checkTemperature);
byId("note").addEventListener("submit", saveFile);
byId("copy").addEventListener("click", copyText);
window.addEventListener("resize", () => requestAnimationFrame(draw));
new ResizeObserver(() => requestAnimationFrame(draw)).observe(byId("curve-title"));  // larger text, without a larger window
about();
build();
if (kept && kept.changed) announce("What you had turned before is on again. ");
