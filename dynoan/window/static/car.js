// What if: what is turned is asked of the window, and the ratios are shown anew. The launch is drawn from its lines.
import { Chart, niceStep, shape, written } from "./chart.js";
import { SILENT, answerTo, late, standsAt } from "./page.js";
import { counted, el, stepper } from "./stepper.js";

const here = document.getElementById("data");
const start = here ? JSON.parse(here.textContent) : {};
const ran = document.getElementById("ran");
let drawn = null;
if (ran) drawAll(JSON.parse(ran.textContent));
if (start.what) begin();

function begin() {
  const form = /** @type {HTMLFormElement} */ (document.getElementById("tried"));
  const told = document.getElementById("tried-said");
  const turned = { front: {}, rear: {} };
  let asked = 0;
  let then = start.then;
  const steppers = [];
  const fields = () => [...form.querySelectorAll("input[name], select[name]")].map((f) => /** @type {HTMLInputElement} */ (f));
  const as_is = () => ({ front: { ...turned.front }, rear: { ...turned.rear }, values: fields().map((f) => f.value) });
  // What the page shows is of these values: they come back where no answer comes.
  const back = () => {
    for (const axle of ["front", "rear"]) turned[axle] = { ...settled[axle] };
    fields().forEach((f, i) => { f.value = settled.values[i]; });
    steppers.forEach((show) => show());
  };
  const curves = [...form.querySelectorAll("[data-curve]")].map(pictured);
  form.querySelectorAll(".plain-only").forEach((/** @type {HTMLElement} */ e) => { e.hidden = true; });

  for (const axle of ["front", "rear"]) {
    const place = form.querySelector('[data-axle="' + axle + '"]');
    const plain = /** @type {HTMLElement} */ (place.querySelector(".plain-clicks"));
    plain.hidden = true;
    const field = plain.querySelector("input");
    const at = Object.fromEntries(start.what[axle].knobs.map((k) => [k.name, k.click]));
    for (const part of field.value.split(",")) { const [k, v] = part.split("="); if (k && v) turned[axle][k.trim()] = Number(v); }
    const knobs = start.what[axle].knobs;
    place.querySelector(".live-clicks").replaceChildren(...knobs.map((knob) => {
      const id = axle + "-" + knob.name;
      const now = () => turned[axle][knob.name] ?? at[knob.name];
      const turn = (way) => {
        const click = Math.min(Math.max(now() + way, 0), knob.last);
        if (!Number.isFinite(click)) return;
        input.value = String(click);
        if (click === at[knob.name]) delete turned[axle][knob.name]; else turned[axle][knob.name] = click;
        field.value = Object.entries(turned[axle]).map(([k, v]) => k + "=" + v).join(",");
        ask();
      };
      const line = stepper(knob, knobs, { id, label: axle + " ", more: { value: now(), onchange: () => turn(Number(input.value) - now()) }, turn });
      const input = line.querySelector("input");
      steppers.push(() => { input.value = String(now()); });
      return line;
    }), counted(knobs));
  }

  let settled = as_is();

  // The curve of one corner of an axle, now and then; drawn anew where it became another.
  function pictured(/** @type {HTMLElement} */ place) {
    const corner = place.querySelector("select"), under = place.querySelector(".under"), what = corner.value;
    if (!what) return () => {};
    place.hidden = false;
    const { velocity, force } = start.units;
    const number = (value, kind) => written(value / kind.factor, kind.digits);
    const chart = new Chart(place.querySelector(".chart"), start.units, (speed, values) => {
      under.textContent = speed === null ? "Touch or point at the picture, or press the arrow keys on it, to read values. The shading holds 95 %."
        : number(speed, velocity) + " " + velocity.unit + ": " + values.map((v, i) => ["now ", "then "][i] + (v ? number(v.force, force) + " " + force.unit
          + " (" + number(v.low, force) + " to " + number(v.high, force) + ")" : "beyond its tests")).join(", ");
    });
    let drawn = "";
    const redraw = () => {
      const was = start.curves[corner.value], is = then[corner.value];
      const both = is && is.what !== was.what ? [was, is] : [was];
      const key = corner.value + both.map((c) => c.what).join();
      if (key === drawn) return;
      drawn = key;
      chart.show(both);
      if (chart.at === undefined || chart.at === null) chart.read(null);
    };
    corner.addEventListener("change", (event) => { event.stopPropagation(); redraw(); });
    redraw();
    return redraw;
  }

  function wanted() {
    const out = new URLSearchParams({ car: start.car });
    for (const field of /** @type {Iterable<HTMLInputElement>} */ (/** @type {unknown} */ (form.elements))) {
      if (!field.name || field.name === "car" || !field.value) continue;
      const axle = field.name.split(".")[0];
      if (field.name.endsWith(".pack") && field.value === start.what[axle].pack) continue;
      out.set(field.name, field.value);
    }
    for (const surface of start.surfaces) out.append("surface", surface);
    return out;
  }

  async function ask() {
    const mine = ++asked;
    const query = wanted();
    late(true);
    const answer = await answerTo("/car/data?" + query);
    if (mine !== asked) return;
    if (answer?.status === 202) { setTimeout(() => { if (mine === asked) ask(); }, 400); return; }
    const found = await answer?.json().catch(() => null);
    if (mine !== asked) return;
    late(false);
    told.textContent = answer?.ok && found ? "" : found?.error || SILENT;
    if (!answer || !found) { back(); return; }
    if (!answer.ok) return;
    settled = as_is();
    document.querySelectorAll("[data-then]").forEach((cell) => show(cell, found.corners, found.how));
    then = found.curves;
    curves.forEach((redraw) => redraw());
    standsAt("/car?" + query);
    document.dispatchEvent(new CustomEvent("turned"));
    // A launch takes longer than a turn and would slow the next one: it waits until nothing was turned for a moment.
    if (document.querySelector(".motion")) setTimeout(() => launch(mine, query), 400);
  }

  function show(cell, corners, how) {
    const [corner, direction, level] = cell.dataset.then.split(".");
    cell.dataset.how = how[corner]?.[direction][level] || "";
    const one = corners[corner];
    if (!one || !one.ratio) { cell.textContent = "cannot tell"; return; }
    const limits = one.ratio_limits[direction][level];
    const now = start.now[corner].ratio[direction][level];
    const then = one.ratio[direction][level];
    const off = 100 * (then / now - 1);
    cell.replaceChildren(written(then, 2) + " ", el("small", { text: written(limits.low, 2) + " to " + written(limits.high, 2) }),
      ...(Math.abs(off) >= 0.5 ? [" ", el("b", { text: (off > 0 ? "+" : "") + written(off, 0) + " %" })] : []));
  }

  async function launch(mine, query) {
    for (let i = 0; i < 60 && mine === asked; i += 1) {
      const answer = await fetch("/car/launch/data?" + query).catch(() => null);
      if (mine !== asked || !answer) return;
      if (answer.status === 202) { await new Promise((r) => setTimeout(r, 250)); continue; }
      if (answer.ok) drawAll(await answer.json());
      return;
    }
  }

  form.addEventListener("change", (event) => {
    const field = /** @type {HTMLInputElement} */ (event.target);
    const kind = { spring: "stiffness", mass: "mass" }[(field.name || "").split(".")[1]];
    if (kind && /^\s*\d+([.,]\d+)?\s*$/.test(field.value)) field.value = field.value.trim() + " " + start.units[kind].unit;
    if (!field.closest(".live-clicks")) ask();
  });
}

function drawAll(found) {
  if (!drawn) addEventListener("resize", () => drawAll(drawn));
  drawn = found;
  document.querySelectorAll("[data-run]").forEach((/** @type {HTMLElement} */ card) => {
    const run = found.runs[Number(card.dataset.run)];
    if (!run) return;
    draw(card.querySelector(".motion"), run, found.length);
    card.querySelector("tbody").replaceChildren(...run.figures.map((f) => el("tr", {}, el("th", { scope: "row", text: f.words }),
      el("td", { class: "num", "data-how": f.how }, f.value, ...(f.value === f.high && f.value.startsWith(f.low) ? []
        : [el("br"), el("small", { text: f.low + " to " + f.high })])))));
  });
}

function draw(place, run, length) {
  const width = Math.max(place.clientWidth, 260), height = Math.round(Math.min(Math.max(width * 0.5, 220), 340));
  const left = 46, right = width - 10, top = 10, bottom = height - 34;
  const lines = Object.entries(run.lines);
  const bands = Object.keys(run.low).filter((name) => run.low[name].length === run.time_s.length);
  const all = [...lines.flatMap(([, values]) => values), ...bands.flatMap((name) => [...run.low[name], ...run.high[name]])];
  const most = Math.max(...all, 0.01), least = Math.min(...all, -0.01);
  const last = run.time_s[run.time_s.length - 1];
  const x = (t) => left + t / last * (right - left);
  const y = (v) => top + (most - v) / (most - least) * (bottom - top);
  const svg = shape("svg", { class: "curve", viewBox: "0 0 " + width + " " + height, height, role: "img",
    "aria-label": "How nose and rear move over " + last.toFixed(1) + " s, " + run.label });
  const step = niceStep((most - least) / length.factor, 5);
  for (let v = Math.ceil(least / length.factor / step) * step; v <= most / length.factor; v += step) {
    const at = y(v * length.factor);
    svg.append(shape("line", { class: Math.abs(v) < step / 100 ? "zero" : "grid", x1: left, x2: right, y1: at, y2: at }),
      shape("text", { class: "tick end", x: left - 5, y: at + 4 }, written(v, step < 1 ? 1 : 0)));
  }
  for (let t = 0; t <= last + 0.01; t += 0.5) svg.append(shape("text", { class: "tick mid", x: x(t), y: bottom + 16 }, written(t, 1)));
  svg.append(shape("text", { class: "tick end", x: right, y: height - 2 }, "time [s]"), shape("text", { class: "tick", x: left + 4, y: top + 8 }, "rise [" + length.unit + "]"));
  const order = { front_rise_m: 0, rear_rise_m: 1, front_wheel_height_m: 2 };
  const path = (values) => values.map((v, i) => x(run.time_s[i]).toFixed(1) + " " + y(v).toFixed(1));
  bands.forEach((name) => svg.append(shape("path", { class: "band s" + order[name],
    d: "M" + path(run.low[name]).join("L") + "L" + path(run.high[name]).reverse().join("L") + "Z" })));
  lines.forEach(([name, values]) => svg.append(shape("path", { class: "line s" + order[name],
    d: "M" + path(values).join("L") })));
  place.replaceChildren(svg);
}
