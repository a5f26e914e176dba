// What is on the car now, what was on it when the page was made, and what one looks at.

const DATA = JSON.parse(document.getElementById("data").textContent);
const PACKS = new Map(DATA.packs.map((pack) => [pack.name, pack]));
const ORDER = ["fl", "fr", "rl", "rr"].filter((name) => name in DATA.corners);
const STORE = "dynoan " + DATA.car + " " + DATA.made;
const state = { where: "", surface: "", now: {}, base: {} };

function copy(value) {
  return JSON.parse(JSON.stringify(value));
}

function start() {
  ORDER.forEach((name) => {
    const corner = DATA.corners[name];
    state.base[name] = { pack: corner.pack, clicks: corner.clicks, spring: corner.spring, mass: corner.mass };
  });
  state.now = copy(state.base);
  state.surface = DATA.surfaces[0] || "";
  state.where = places()[0].key;
}

// What can be picked: an axle whose both corners are known, then each corner.
function places() {
  const out = [];
  ["front", "rear"].forEach((axle) => {
    const members = ORDER.filter((name) => DATA.corners[name].axle === axle);
    if (members.length === 2) out.push({ key: axle, text: axle === "front" ? "Front" : "Rear", members: members });
  });
  ORDER.forEach((name) => out.push({ key: name, text: name.toUpperCase(), members: [name] }));
  return out;
}

function members(where) {
  return places().find((p) => p.key === (where || state.where)).members;
}

function counting(name, adjuster) {
  return DATA.corners[name].counting[state.now[name].pack][adjuster];
}

// Clicks are kept as the shock's file counts them; the tables count from closed.
function fromClosed(name, setting) {
  const counts = DATA.corners[name].counting[setting.pack];
  const out = {};
  Object.keys(counts).forEach((adjuster) => {
    const click = setting.clicks[adjuster];
    out[adjuster] = counts[adjuster].soft ? counts[adjuster].last - click : click;
  });
  return out;
}

function opens(name, adjuster, step) {
  return counting(name, adjuster).soft ? -step : step;
}

// Turn one adjuster everywhere one looks; left and right turn the same way even where they count differently.
function turn(adjuster, step) {
  const names = members().filter((name) => counting(name, adjuster));
  const way = opens(names[0], adjuster, step);
  names.forEach((name) => {
    const clicks = state.now[name].clicks;
    const next = clicks[adjuster] + opens(name, adjuster, way);
    clicks[adjuster] = Math.min(Math.max(next, 0), counting(name, adjuster).last);
  });
}

function canTurn(adjuster, step) {
  const names = members().filter((name) => counting(name, adjuster));
  const way = opens(names[0], adjuster, step);
  return names.some((name) => {
    const next = state.now[name].clicks[adjuster] + opens(name, adjuster, way);
    return next >= 0 && next <= counting(name, adjuster).last;
  });
}

// Another pack keeps the clicks that both have; the rest sit where most of its tests sat.
function fitPack(name, packName) {
  const old = fromClosed(name, state.now[name]);
  const counts = DATA.corners[name].counting[packName];
  const usual = PACKS.get(packName).usual;
  const clicks = {};
  Object.keys(counts).forEach((adjuster) => {
    const limit = counts[adjuster].last;
    const closed = Math.min(adjuster in old ? old[adjuster] : usual[adjuster], limit);
    clicks[adjuster] = counts[adjuster].soft ? limit - closed : closed;
  });
  state.now[name].pack = packName;
  state.now[name].clicks = clicks;
}

function reset(names) {
  names.forEach((name) => { state.now[name] = copy(state.base[name]); });
}

// Put a pack and clicks on a corner, as a ranked choice or an earlier setup names them.
function putOn(name, packName, clicks) {
  if (!PACKS.has(packName)) return;
  fitPack(name, packName);
  const counts = DATA.corners[name].counting[packName];
  Object.keys(clicks).filter((a) => a in counts).forEach((a) => {
    state.now[name].clicks[a] = Math.min(Math.max(clicks[a], 0), counts[a].last);
  });
}

// Everything shown for one corner: force, band, ratio, and the same for the baseline.
function figures(name) {
  const corner = Object.assign({}, DATA.corners[name], state.now[name]);
  const axle = DATA.axles[corner.axle];
  const now = fromClosed(name, state.now[name]);
  const base = fromClosed(name, state.base[name]);
  const out = { standing: standing(PACKS.get(corner.pack), now) };
  DIRECTIONS.forEach((direction) => {
    out[direction] = {};
    LEVELS.forEach((level) => {
      const velocity = axle[level];
      const found = lookUp(PACKS.get(corner.pack), direction, now, velocity, corner.own[corner.pack]);
      const was = lookUp(PACKS.get(state.base[name].pack), direction, base, velocity, corner.own[state.base[name].pack]);
      const origin = Object.assign({}, DATA.corners[name], state.base[name]);
      out[direction][level] = {
        velocity: velocity, force: found.force, half: found.half, beyond: found.beyond, before: was.force,
        ratio: ratio(corner, found.force, velocity), band: ratio(corner, found.half, velocity),
        ratioBefore: ratio(origin, was.force, velocity), target: axle[direction][level],
      };
    });
  });
  return out;
}

function remember() {
  try {
    localStorage.setItem(STORE, JSON.stringify({ now: state.now, surface: state.surface }));
  } catch (error) {
    // A phone that keeps nothing for local files still works; it only forgets on closing.
  }
}

function valid(saved) {
  return ORDER.every((name) => {
    const one = saved.now[name];
    const counts = one && DATA.corners[name].counting[one.pack];
    return counts && one.spring > 0 && one.mass > DATA.corners[name].unsprung
      && Object.keys(counts).every((a) => Number.isInteger(one.clicks[a]) && one.clicks[a] >= 0
        && one.clicks[a] <= counts[a].last);
  });
}

function recall() {
  try {
    const saved = JSON.parse(localStorage.getItem(STORE));
    if (saved && valid(saved)) {
      const changed = JSON.stringify(saved.now) !== JSON.stringify(state.now);
      state.now = saved.now;
      if (DATA.surfaces.includes(saved.surface)) state.surface = saved.surface;
      return changed;
    }
  } catch (error) {
    // Nothing kept, or something else's.
  }
  return false;
}
