// The curve as inline SVG: what is on now, the baseline behind it, error bars where numbers are given.

const SVG = "http://www.w3.org/2000/svg";
const BOX = { width: 400, height: 250, left: 46, right: 16, top: 12, bottom: 34, letters: 1 };
const TICK = 30;  // what a speed under the axis takes at the usual size of letters, in pixels

function shape(tag, facts, text) {
  const node = document.createElementNS(SVG, tag);
  Object.keys(facts).forEach((key) => node.setAttribute(key, facts[key]));
  if (text !== undefined) node.textContent = text;
  return node;
}

function niceStep(span, wanted) {
  const raw = span / wanted;
  const power = 10 ** Math.floor(Math.log10(raw));
  return [1, 2, 2.5, 5, 10].map((m) => m * power).find((step) => step >= raw);
}

// The speeds of all packs, and round forces that hold what is drawn: a click moves the curve, hardly ever the paper under it.
function frame(lines) {
  let speed = 0;
  const most = [0, 0];
  PACKS.forEach((pack) => DIRECTIONS.forEach((direction) => { speed = Math.max(speed, pack[direction].top); }));
  lines.forEach((line) => line.at.forEach((p) => { most[line.side] = Math.max(most[line.side], p[1]); }));
  const { factor } = DATA.units.force;
  const step = niceStep(Math.max(most[0] + most[1], 1e-9) / factor, 6) * factor;
  const [up, down] = most.map((force) => Math.max(Math.ceil(1.02 * force / step), 1) * step);
  return { speed: speed, up: up, down: down };
}

// Along the square root of speed: low speeds, where clicks act, take up the middle, and no bend is drawn that a curve has not.
function scales(limits) {
  const half = (BOX.width - BOX.left - BOX.right) / 2;
  const height = BOX.height - BOX.top - BOX.bottom;
  return {
    x: (v) => BOX.left + half + Math.sign(v) * Math.sqrt(Math.abs(v) / limits.speed) * half,
    y: (f) => BOX.top + (limits.up - f) / (limits.up + limits.down) * height,
  };
}

function drawAxes(svg, limits, to) {
  const speed = DATA.units.velocity;
  const force = DATA.units.force;
  const right = BOX.width - BOX.right;
  const foot = BOX.height - BOX.bottom;
  const stepY = niceStep((limits.up + limits.down) / force.factor, BOX.height / (34 * BOX.letters)) * force.factor;
  const marked = markedSpeeds(limits, to);
  [...marked.map((v) => -v), 0, ...marked].forEach((v) => {
    svg.append(shape("line", { class: "grid", x1: to.x(v), x2: to.x(v), y1: BOX.top, y2: foot }));
    svg.append(shape("text", { class: "tick mid", x: to.x(v), y: foot + 14 * BOX.letters }, tidy(v / speed.factor)));
  });
  for (let f = Math.ceil(-limits.down / stepY) * stepY; f <= limits.up; f += stepY) {
    svg.append(shape("line", { class: "grid", x1: BOX.left, x2: right, y1: to.y(f), y2: to.y(f) }));
    svg.append(shape("text", { class: "tick end", x: BOX.left - 5, y: to.y(f) + 4 * BOX.letters }, tidy(f / force.factor)));
  }
  svg.append(shape("line", { class: "zero", x1: BOX.left, x2: right, y1: to.y(0), y2: to.y(0) }));
  svg.append(shape("line", { class: "zero", x1: to.x(0), x2: to.x(0), y1: BOX.top, y2: foot }));
  svg.append(shape("text", { class: "tick end", x: right, y: BOX.height - 5 }, "velocity [" + speed.unit + "]"));
  svg.append(shape("text", { class: "tick", x: to.x(0) + 5, y: BOX.top + 9 * BOX.letters }, "force [" + force.unit + "]"));
}

// Few speeds, the low one that the words below name among them, none so near the next that their figures touch.
function markedSpeeds(limits, to) {
  const factor = DATA.units.velocity.factor;
  const low = DATA.low_speed / factor;
  const apart = (p, q) => Math.abs(to.x(p * factor) - to.x(q * factor)) > TICK * BOX.letters;
  const kept = DATA.low_speed < limits.speed ? [low] : [];
  [2, 3, 4, 6, 8, 12, 16, 20, 0.5, 0.25].map((times) => times * low).forEach((v) => {
    if (v * factor <= limits.speed * 1.0001 && [0, ...kept].every((other) => apart(v, other))) kept.push(v);
  });
  return kept.map((v) => v * factor);
}

// How much of the width the low speeds take, in words, as drawn.
function stretchInWords() {
  const limits = frame([]);
  if (DATA.low_speed >= limits.speed) return "";
  return "Low speeds are drawn larger: those up to " + tidy(DATA.low_speed / DATA.units.velocity.factor) + " " + DATA.units.velocity.unit
    + " take " + Math.round(100 * Math.sqrt(DATA.low_speed / limits.speed)) + " % of the width, where an even axis gives them "
    + Math.round(100 * DATA.low_speed / limits.speed) + " %.";
}

function tidy(value) {
  const rounded = Math.round(value * 100) / 100;
  return String(rounded === 0 ? 0 : rounded).replace("-", "−");
}

// The line of one direction of a corner's setting: speeds and forces, without sign.
function lineOf(name, direction, setting) {
  const corner = DATA.corners[name];
  return { direction: direction, side: direction === "compression" ? 0 : 1,
    at: points(PACKS.get(setting.pack), direction, fromClosed(name, setting), corner.own[setting.pack], corner.tested[setting.pack]) };
}

function trace(to, line) {
  const sign = line.side ? -1 : 1;
  return line.at.map((p, i) => (i ? "L" : "M") + to.x(sign * p[0]).toFixed(1) + " " + to.y(sign * p[1]).toFixed(1)).join("");
}

function drawBars(svg, to, found) {
  DIRECTIONS.forEach((direction) => LEVELS.forEach((level) => {
    const one = found[direction][level];
    if (one.beyond) return;
    const sign = direction === "compression" ? 1 : -1;
    const x = to.x(sign * one.velocity);
    svg.append(shape("line", { class: "bar " + direction, x1: x, x2: x,
      y1: to.y(sign * (one.force - one.half)), y2: to.y(sign * (one.force + one.half)) }));
    const y = to.y(sign * one.force);
    svg.append(direction === "compression"
      ? shape("circle", { class: "dot " + direction, cx: x, cy: y, r: 4 })
      : shape("rect", { class: "dot " + direction, x: x - 3.7, y: y - 3.7, width: 7.4, height: 7.4 }));
  }));
}

// Drawn at the width it is shown at, so that its figures keep their size on a phone.
function fitBox(svg) {
  BOX.width = Math.max(Math.round(svg.clientWidth), 240);
  BOX.letters = parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
  BOX.height = Math.round(Math.min(Math.max(BOX.width * 0.72, 190 * BOX.letters), 400));
  BOX.left = 46 * BOX.letters;
  BOX.bottom = 34 * BOX.letters;
  svg.setAttribute("viewBox", "0 0 " + BOX.width + " " + BOX.height);
}

function drawCurve(svg, names, all) {
  fitBox(svg);
  const lines = (name, setting) => (known(name, setting) ? DIRECTIONS.map((direction) => lineOf(name, direction, setting)) : []);
  const before = lines(names[0], state.base[names[0]]);
  const now = names.map((name) => lines(name, state.now[name]));
  const limits = frame([...before, ...now.flat()]);
  const to = scales(limits);
  svg.replaceChildren();
  drawAxes(svg, limits, to);
  before.forEach((line) => svg.append(shape("path", { class: "before", d: trace(to, line) })));
  names.forEach((name, i) => {
    now[i].forEach((line) => svg.append(shape("path", { class: "now " + line.direction + (i ? " second" : ""), d: trace(to, line) })));
    if (now[i].length) drawBars(svg, to, all[name]);
  });
}
