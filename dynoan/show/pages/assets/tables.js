// Look-up in the tables of the packs. The only arithmetic of the trade here is `ratio`.

const DIRECTIONS = ["compression", "rebound"];
const LEVELS = ["low", "high"];

function bytes(text) {
  const raw = atob(text);
  const out = new Uint8Array(raw.length);
  for (let i = 0; i < raw.length; i += 1) out[i] = raw.charCodeAt(i);
  return out;
}

// Unpacked when first asked for: a pack nobody picks costs nothing.
function unpack(column, wide) {
  if (!column.values) {
    const raw = bytes(column.data);
    if (wide) {
      const out = new Uint16Array(raw.length / 2);
      for (let i = 0; i < out.length; i += 1) out[i] = raw[2 * i] | (raw[2 * i + 1] << 8);
      column.values = out;
    } else {
      column.values = raw;
    }
    column.data = "";
  }
  return column.values;
}

function place(table, closed) {
  let index = 0;
  table.adjusters.forEach((name, axis) => { index = index * table.shape[axis] + closed[name]; });
  return index;
}

function at(column, index, wide) {
  return (column.from || 0) + unpack(column, wide)[index] * column.scale;
}

// Force and half of its 95 % band at one of the velocities that the page gives numbers for. `own` is how much stronger
// the corner's own shock is than the mean one, by speed; then the spread between shocks is no part of the band.
function lookUp(pack, direction, closed, velocity, own) {
  const table = pack[direction];
  const column = table.exact.findIndex((e) => e.velocity === velocity);
  const entry = table.exact[column];
  const index = place(table, closed);
  const force = at(entry.force, index, true) * (own ? own[direction].exact[column] : 1);
  const half = at(entry.half, index, true);
  const apart = own ? 1.96 * table.spread * force : 0;
  const left = own ? Math.sqrt(Math.max(half ** 2 - apart ** 2, (0.01 * force) ** 2)) : half;
  return { force: force, half: left, beyond: entry.beyond };
}

// The points that draw one direction: speed and force, from rest to the highest tested speed.
function points(pack, direction, closed, own) {
  const table = pack[direction];
  const index = place(table, closed);
  const times = (speeds, i) => (own ? own[direction][speeds][i] : 1);
  const out = [[0, 0]];
  table.drawn.forEach((column, i) => out.push([column.velocity, at(column, index, false) * times("drawn", i)]));
  table.exact.forEach((e, i) => {
    if (!e.beyond) out.push([e.velocity, at(e.force, index, true) * times("exact", i)]);
  });
  return out.sort((a, b) => a[0] - b[0]);
}

// Damping ratio of the sprung mass on spring and gas at the wheel: secant damping at the wheel over critical damping.
function ratio(corner, force, velocity) {
  const wheelRate = corner.spring * corner.spring_ratio ** 2 + corner.gas_rate * corner.shock_ratio ** 2;
  const sprung = corner.mass - corner.unsprung;
  return (force / velocity) * corner.shock_ratio ** 2 / (2 * Math.sqrt(wheelRate * sprung));
}

// Where a setting stands: run on the dyno, between runs, or outside them.
function standing(pack, closed) {
  const names = Object.keys(closed);
  if (pack.tested.some((run) => names.every((name) => run[name] === closed[name]))) return "tested";
  const out = names.some((name) => {
    const seen = pack.seen[name];
    return seen && (closed[name] < seen[0] || closed[name] > seen[1]);
  });
  return out ? "outside" : "between";
}
