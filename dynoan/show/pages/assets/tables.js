// Look-up in the tables of the packs.

const DATA = JSON.parse(document.getElementById("data").textContent);
const DIRECTIONS = ["compression", "rebound"];
const LEAST_BAND = 0.01;  // as the program has it: half of a band is never less than this share of force
const LEVELS = ["low", "high"];

function bytes(text) {
  const raw = atob(text);
  const out = new Uint8Array(raw.length);
  for (let i = 0; i < raw.length; i += 1) out[i] = raw.charCodeAt(i);
  return out;
}

// Unpacked when first asked for: a pack nobody picks costs nothing. Each number was kept as what its neighbours along
// every axis do not foretell, folded so that small ones of either sign are small, low and high bytes apart.
function unpack(column, wide, shape) {
  if (!column.values) {
    const size = shape.reduce((product, n) => product * n, 1);
    const raw = inflate(bytes(column.data), wide ? 2 * size : size);
    const out = wide ? new Uint16Array(size) : new Uint8Array(size);
    for (let i = 0; i < size; i += 1) {
      const folded = wide ? raw[i] | (raw[size + i] << 8) : raw[i];
      out[i] = folded & 1 ? -((folded + 1) >> 1) : folded >> 1;
    }
    sumAlong(out, shape);
    column.values = out;
    column.data = "";
  }
  return column.values;
}

function sumAlong(values, shape) {
  let stride = 1;
  for (let axis = shape.length - 1; axis >= 0; axis -= 1) {
    const length = shape[axis];
    for (let i = 0; i < values.length; i += 1) if (Math.floor(i / stride) % length) values[i] += values[i - stride];
    stride *= length;
  }
}

function place(table, closed) {
  let index = 0;
  table.adjusters.forEach((name, axis) => { index = index * table.shape[axis] + closed[name]; });
  return index;
}

function at(column, index, wide, shape) {
  return (column.from || 0) + unpack(column, wide, shape)[index] * column.scale;
}

// The corner's own curve where its shock was tested at just these clicks from closed; else undefined.
function testedRun(runs, closed) {
  const names = Object.keys(closed);
  return (runs || []).find((run) => names.every((name) => run.clicks[name] === closed[name]));
}

// Force and half of its 95 % band at one of the velocities that the page gives numbers for. `own` tells how much stronger
// the corner's own shock is than the mean one, by speed, and what it adds to the variance that the tables hold, at every
// click alike or at each its own.
function lookUp(pack, direction, closed, velocity, own, runs) {
  const table = pack[direction];
  const column = table.exact.findIndex((e) => e.velocity === velocity);
  const entry = table.exact[column];
  const run = testedRun(runs, closed);
  if (run) return { force: run[direction].force[column], half: run[direction].half[column], beyond: entry.beyond };
  const index = place(table, closed);
  const mean = at(entry.force, index, true, table.shape);
  const half = at(entry.half, index, true, table.shape);
  if (!own || !mean) return { force: mean, half: Math.hypot(half, table.alike), beyond: entry.beyond };
  const force = mean * own[direction].exact[column];
  const added = own[direction].added[column];
  const more = typeof added === "number" ? added : at(added, index, true, table.shape);
  const share = Math.log1p(half / mean) ** 2 + 1.959964 ** 2 * more;
  const alone = force * Math.expm1(Math.sqrt(Math.max(share, LEAST_BAND ** 2)));
  return { force: force, half: Math.hypot(alone, table.alike), beyond: entry.beyond };
}

// The points that draw one direction: speed and force, from rest to the highest tested speed.
function points(pack, direction, closed, own, runs) {
  const table = pack[direction];
  const index = place(table, closed);
  const run = testedRun(runs, closed);
  const times = (speeds, i) => (own ? own[direction][speeds][i] : 1);
  const out = [[0, 0]];
  table.drawn.forEach((column, i) => out.push([column.velocity, run ? run[direction].drawn[i]
    : at(column, index, false, table.shape) * times("drawn", i)]));
  table.exact.forEach((e, i) => {
    if (e.beyond) return;
    out.push([e.velocity, run ? run[direction].force[i] : at(e.force, index, true, table.shape) * times("exact", i)]);
  });
  return out.sort((a, b) => a[0] - b[0]);
}
