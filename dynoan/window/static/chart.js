// Curves with bands as SVG, by table look-up alone. Low speeds, where clicks act, can be drawn wider.
const SVG = "http://www.w3.org/2000/svg";

export function shape(tag, facts, text) {
  const node = document.createElementNS(SVG, tag);
  for (const key in facts) node.setAttribute(key, facts[key]);
  if (text !== undefined) node.textContent = text;
  return node;
}

export function niceStep(span, wanted) {
  const raw = span / wanted;
  const power = 10 ** Math.floor(Math.log10(raw));
  return [1, 2, 2.5, 5, 10].map((m) => m * power).find((step) => step >= raw);
}

export function written(value, digits) {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace("-", "") : text.replace("-", "−");
}

// Value of a line at a speed, linear between the table's speeds; null beyond them.
export function lookUp(speeds, values, speed) {
  const last = speeds.length - 1;
  if (speed > speeds[last] * 1.0001 || speed < speeds[0]) return null;
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (speeds[middle] <= speed) low = middle; else high = middle;
  }
  const share = high === low ? 0 : (speed - speeds[low]) / (speeds[high] - speeds[low]);
  return values[low] + (values[high] - values[low]) * share;
}

export class Chart {
  constructor(place, units, told) {
    this.place = place;
    this.units = units;
    this.told = told;
    this.wide = true;
    this.svg = shape("svg", { class: "curve", tabindex: "0", role: "img" });
    this.cursor = shape("g", { class: "cursor" });
    place.replaceChildren(this.svg);
    this.svg.addEventListener("pointermove", (event) => this.point(event));
    this.svg.addEventListener("pointerleave", () => this.read(null));
    this.svg.addEventListener("keydown", (event) => this.key(event));
    const watch = new ResizeObserver(() => this.draw());
    watch.observe(place);
    const heading = document.querySelector("h1");
    if (heading) watch.observe(heading);  // larger text, without a larger window
  }

  show(curves) {
    this.curves = curves;
    this.draw();
  }

  limits() {
    let speed = 0, up = 0, down = 0;
    for (const one of this.curves) {
      const { compression, rebound } = one.lines;
      speed = Math.max(speed, ...[compression, rebound].map((l) => l.velocity_m_s[l.velocity_m_s.length - 1]));
      up = Math.max(up, ...compression.high_n);
      down = Math.max(down, ...rebound.high_n);
    }
    return { speed, up: up * 1.03, down: down * 1.03 };
  }

  draw() {
    if (!this.curves || !this.place.clientWidth) return;
    this.width = Math.max(this.place.clientWidth, 260);
    this.letters = parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
    const least = 220 * this.letters;
    this.height = Math.round(Math.max(least, Math.min(this.width * 0.6, 520, innerHeight * 0.68)));
    this.svg.setAttribute("viewBox", "0 0 " + this.width + " " + this.height);
    this.svg.setAttribute("height", String(this.height));
    this.svg.setAttribute("aria-label", "Damping force against velocity of " + this.curves.map((c) => c.what).join(", ")
      + "; the table below holds the values");
    const limits = this.limits();
    const box = { left: 52 * this.letters, right: this.width - 12, top: 10, bottom: this.height - 34 * this.letters };
    const bend = this.wide ? 0.5 : 1;
    const half = (box.right - box.left) / 2;
    this.x = (v) => box.left + half + Math.sign(v) * (Math.abs(v) / limits.speed) ** bend * half;
    this.velocity = (x) => {
      const share = Math.min(Math.max((x - box.left - half) / half, -1), 1);
      return Math.sign(share) * Math.abs(share) ** (1 / bend) * limits.speed;
    };
    this.y = (f) => box.top + (limits.up - f) / (limits.up + limits.down) * (box.bottom - box.top);
    this.box = box;
    this.top = limits.speed;
    const parts = [...this.axes(limits)];
    this.curves.forEach((one, i) => parts.push(...this.line(one, i)));
    this.cursor = shape("g", { class: "cursor" });
    this.svg.replaceChildren(...parts, this.cursor);
    if (this.at !== null && this.at !== undefined) this.read(this.at);
  }

  *axes(limits) {
    const { velocity, force } = this.units;
    const { left, right, top, bottom } = this.box;
    const speeds = this.wide ? this.fewSpeeds(limits.speed / velocity.factor) : null;
    const step = niceStep(2 * limits.speed / velocity.factor, this.width / (80 * this.letters));
    const ticks = speeds || Array.from({ length: Math.floor(limits.speed / velocity.factor / step) }, (_, i) => (i + 1) * step);
    for (const v of [...ticks.map((t) => -t), 0, ...ticks]) {
      const x = this.x(v * velocity.factor);
      yield shape("line", { class: v ? "grid" : "zero", x1: x, x2: x, y1: top, y2: bottom });
      yield shape("text", { class: "tick mid", x, y: bottom + 14 * this.letters }, written(v, Number.isInteger(v) ? 0 : 1));
    }
    const up = niceStep((limits.up + limits.down) / force.factor, this.height / (44 * this.letters));
    for (let f = Math.ceil(-limits.down / force.factor / up) * up; f <= limits.up / force.factor; f += up) {
      const y = this.y(f * force.factor);
      yield shape("line", { class: Math.abs(f) < up / 100 ? "zero" : "grid", x1: left, x2: right, y1: y, y2: y });
      yield shape("text", { class: "tick end", x: left - 6, y: y + 4 * this.letters }, written(f, up < 1 ? 1 : 0));
    }
    yield shape("text", { class: "tick end", x: right, y: this.height - 4 }, "velocity [" + velocity.unit + "]" + (this.wide ? ", low speeds drawn wider" : ""));
    yield shape("text", { class: "tick", x: left + 4, y: top + 10 * this.letters }, "force [" + force.unit + "]");
  }

  // Few speeds, each about twice the one before, that do not crowd.
  fewSpeeds(most) {
    const all = most > 100 ? [25, 50, 100, 200, 300, 400, 500, 700, 1000, 1500, 2000] : [1, 2, 4, 8, 12, 16, 20, 30, 40, 60, 80];
    const kept = [];
    for (const one of all) {
      if (one <= most * 1.001 && this.x(one * this.units.velocity.factor)
        - this.x((kept[kept.length - 1] || 0) * this.units.velocity.factor) > 34 * this.letters) kept.push(one);
    }
    return kept;
  }

  line(one, i) {
    const path = (direction, key, back) => {
      const sign = direction === "compression" ? 1 : -1;
      const line = one.lines[direction];
      const at = line.velocity_m_s.map((v, k) => this.x(sign * v).toFixed(1) + " " + this.y(sign * line[key][k]).toFixed(1));
      return (back ? at.reverse() : at).join("L");
    };
    const parts = [];
    for (const direction of ["compression", "rebound"]) {
      parts.push(shape("path", { class: "band s" + i, d: "M" + path(direction, "low_n") + "L" + path(direction, "high_n", true) + "Z" }));
    }
    parts.push(shape("path", { class: "line s" + i + (one.standing === "outside" ? " outside" : ""),
      d: "M" + path("rebound", "force_n", true) + "L" + path("compression", "force_n") }));
    return parts;
  }

  point(event) {
    const frame = this.svg.getBoundingClientRect();
    this.read(this.velocity((event.clientX - frame.left) * this.width / frame.width));
  }

  key(event) {
    const way = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (way) {
      event.preventDefault();
      const x = this.at === null || this.at === undefined ? this.x(0) : this.x(this.at);
      this.read(this.velocity(x + way * (event.shiftKey ? 40 : 8)));
    } else if (event.key === "Escape") this.read(null);
  }

  read(velocity) {
    this.at = velocity;
    if (velocity === null) {
      this.cursor.replaceChildren();
      this.told(null, []);
      return;
    }
    const direction = velocity < 0 ? "rebound" : "compression";
    const sign = velocity < 0 ? -1 : 1;
    if (!this.x) return;  // not drawn yet: its place has no width
    const x = this.x(velocity);
    const values = this.curves.map((one) => {
      const line = one.lines[direction];
      const [force, low, high] = ["force_n", "low_n", "high_n"].map((k) => lookUp(line.velocity_m_s, line[k], Math.abs(velocity)));
      return force === null ? null : { force: sign * force, low: Math.min(sign * low, sign * high), high: Math.max(sign * low, sign * high) };
    });
    this.cursor.replaceChildren(shape("line", { class: "pointer", x1: x, x2: x, y1: this.box.top, y2: this.box.bottom }),
      ...values.flatMap((v, i) => v ? [shape("circle", { class: "dot s" + i, cx: x, cy: this.y(v.force), r: 4.5 })] : []));
    this.told(velocity, values);
  }
}
