// The curve as inline SVG: what is on now, the baseline behind it, error bars where numbers are given.

const SVG = "http://www.w3.org/2000/svg";
const BOX = { width: 400, height: 250, left: 46, right: 16, top: 12, bottom: 34 };

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

// The same axes for every setting, so that the curve moves and not the paper under it.
function frame() {
  let speed = 0;
  const force = { compression: 0, rebound: 0 };
  PACKS.forEach((pack) => DIRECTIONS.forEach((direction) => {
    const table = pack[direction];
    const last = table.drawn[table.drawn.length - 1];
    speed = Math.max(speed, table.top);
    force[direction] = Math.max(force[direction], last.from + 255 * last.scale);
  }));
  return { speed: speed, up: force.compression * 1.04, down: force.rebound * 1.04 };
}

function scales(limits) {
  const width = BOX.width - BOX.left - BOX.right;
  const height = BOX.height - BOX.top - BOX.bottom;
  return {
    x: (v) => BOX.left + (v + limits.speed) / (2 * limits.speed) * width,
    y: (f) => BOX.top + (limits.up - f) / (limits.up + limits.down) * height,
  };
}

function drawAxes(svg, limits, to) {
  const speed = DATA.units.velocity;
  const force = DATA.units.force;
  const right = BOX.width - BOX.right;
  const foot = BOX.height - BOX.bottom;
  const stepX = niceStep(2 * limits.speed / speed.factor, BOX.width / 70) * speed.factor;
  const stepY = niceStep((limits.up + limits.down) / force.factor, BOX.height / 34) * force.factor;
  for (let v = Math.ceil(-limits.speed / stepX) * stepX; v <= limits.speed * 1.0001; v += stepX) {
    svg.append(shape("line", { class: "grid", x1: to.x(v), x2: to.x(v), y1: BOX.top, y2: foot }));
    svg.append(shape("text", { class: "tick mid", x: to.x(v), y: foot + 14 }, tidy(v / speed.factor)));
  }
  for (let f = Math.ceil(-limits.down / stepY) * stepY; f <= limits.up; f += stepY) {
    svg.append(shape("line", { class: "grid", x1: BOX.left, x2: right, y1: to.y(f), y2: to.y(f) }));
    svg.append(shape("text", { class: "tick end", x: BOX.left - 5, y: to.y(f) + 4 }, tidy(f / force.factor)));
  }
  svg.append(shape("line", { class: "zero", x1: BOX.left, x2: right, y1: to.y(0), y2: to.y(0) }));
  svg.append(shape("line", { class: "zero", x1: to.x(0), x2: to.x(0), y1: BOX.top, y2: foot }));
  svg.append(shape("text", { class: "tick end", x: right, y: BOX.height - 5 }, "velocity [" + speed.unit + "]"));
  svg.append(shape("text", { class: "tick", x: to.x(0) + 5, y: BOX.top + 9 }, "force [" + force.unit + "]"));
}

function tidy(value) {
  const rounded = Math.round(value * 100) / 100;
  return String(rounded === 0 ? 0 : rounded).replace("-", "−");
}

function trace(to, name, direction, setting) {
  const sign = direction === "compression" ? 1 : -1;
  const own = DATA.corners[name].own[setting.pack];
  return points(PACKS.get(setting.pack), direction, fromClosed(name, setting), own)
    .map((p, i) => (i ? "L" : "M") + to.x(sign * p[0]).toFixed(1) + " " + to.y(sign * p[1]).toFixed(1)).join("");
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
  BOX.height = Math.round(Math.min(Math.max(BOX.width * 0.62, 190), 360));
  svg.setAttribute("viewBox", "0 0 " + BOX.width + " " + BOX.height);
}

function drawCurve(svg, names, all) {
  fitBox(svg);
  const limits = frame();
  const to = scales(limits);
  svg.replaceChildren();
  drawAxes(svg, limits, to);
  names.forEach((name, i) => {
    DIRECTIONS.forEach((direction) => {
      if (i === 0 && known(name, state.base[name])) svg.append(shape("path", { class: "before", d: trace(to, name, direction, state.base[name]) }));
      if (known(name, state.now[name])) svg.append(shape("path", { class: "now " + direction + (i ? " second" : ""),
        d: trace(to, name, direction, state.now[name]) }));
    });
    if (known(name, state.now[name])) drawBars(svg, to, all[name]);
  });
}
