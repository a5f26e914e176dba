// What is on the car now, what was on it when the page was made, and what one looks at.

const PACKS = new Map(DATA.packs.map((pack) => [pack.name, pack]));
const ORDER = ["fl", "fr", "rl", "rr"].filter((name) => name in DATA.corners);
const STORE = "dynoan " + DATA.car + " " + DATA.made;
const DEEP = 200; // steps that can be undone
const state = { where: "", surface: "", now: {}, base: {}, drafts: {}, past: [] };

function copy(value) {
  return JSON.parse(JSON.stringify(value));
}

// `other` is what is on a corner whose pack this page does not hold, as far as its file says.
function start() {
  ORDER.forEach((name) => {
    const { pack, clicks, other, spring, mass } = DATA.corners[name];
    state.base[name] = { pack: pack, clicks: clicks, other: other, spring: spring, mass: mass };
  });
  state.now = copy(state.base);
  state.surface = DATA.surfaces[0] || "";
  state.where = places()[0].key;
}

// What can be picked: an axle whose both corners are there, then each corner.
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

function countsOf(name, setting) {
  return setting.pack === null ? {} : DATA.corners[name].counting[setting.pack];
}

function counting(name, adjuster) {
  return countsOf(name, state.now[name])[adjuster];
}

// Whether the pack and every click are known.
function known(name, setting) {
  const counts = countsOf(name, setting);
  return setting.pack !== null && Object.keys(counts).every((a) => Number.isInteger(setting.clicks[a]));
}

// Clicks are kept as the shock's file counts them; the tables count from closed.
function fromClosed(name, setting) {
  const counts = countsOf(name, setting);
  const out = {};
  Object.keys(counts).forEach((adjuster) => {
    const click = setting.clicks[adjuster];
    if (Number.isInteger(click)) out[adjuster] = counts[adjuster].soft ? counts[adjuster].last - click : click;
  });
  return out;
}

function opens(name, adjuster, step) {
  return counting(name, adjuster).soft ? -step : step;
}

// The click that most tests were run at, as the corner's shock counts it.
function usualClick(name, adjuster) {
  const counts = counting(name, adjuster);
  const closed = PACKS.get(state.now[name].pack).usual[adjuster];
  return counts.soft ? counts.last - closed : closed;
}

function unset(names, adjuster) {
  return names.filter((name) => !Number.isInteger(state.now[name].clicks[adjuster]));
}

// Turn one adjuster everywhere one looks; left and right turn the same way even where they count differently. Where a
// click is not known the first press only sets it.
function turn(adjuster, step) {
  const names = members().filter((name) => counting(name, adjuster));
  const open = unset(names, adjuster);
  if (open.length) {
    open.forEach((name) => { state.now[name].clicks[adjuster] = usualClick(name, adjuster); });
    return;
  }
  const way = opens(names[0], adjuster, step);
  names.forEach((name) => {
    const clicks = state.now[name].clicks;
    const next = clicks[adjuster] + opens(name, adjuster, way);
    clicks[adjuster] = Math.min(Math.max(next, 0), counting(name, adjuster).last);
  });
}

function canTurn(adjuster, step) {
  const names = members().filter((name) => counting(name, adjuster));
  if (unset(names, adjuster).length) return true;
  const way = opens(names[0], adjuster, step);
  return names.some((name) => {
    const next = state.now[name].clicks[adjuster] + opens(name, adjuster, way);
    return next >= 0 && next <= counting(name, adjuster).last;
  });
}

// Another pack keeps the clicks that both have; the others are not known.
function fitPack(name, packName) {
  const old = fromClosed(name, state.now[name]);
  const counts = DATA.corners[name].counting[packName];
  const clicks = {};
  Object.keys(counts).forEach((adjuster) => {
    const limit = counts[adjuster].last;
    const closed = adjuster in old ? Math.min(old[adjuster], limit) : null;
    clicks[adjuster] = closed === null ? null : counts[adjuster].soft ? limit - closed : closed;
  });
  Object.assign(state.now[name], { pack: packName, clicks: clicks, other: null });
}

function toBaseline() {
  state.now = copy(state.base);
}

// Put a pack and clicks on a corner, as a ranked choice or an earlier setup names them; what those leave out is not known.
function putOn(name, packName, clicks) {
  const counts = DATA.corners[name].counting[packName];
  if (!counts) {
    Object.assign(state.now[name], { pack: null, clicks: {}, other: { pack: packName, clicks: copy(clicks) } });
    return;
  }
  const on = {};
  Object.keys(counts).forEach((a) => {
    on[a] = Number.isInteger(clicks[a]) ? Math.min(Math.max(clicks[a], 0), counts[a].last) : null;
  });
  Object.assign(state.now[name], { pack: packName, clicks: on, other: null });
}

// Do something that one undo takes back; `what` says what.
function act(what, does) {
  const before = { now: copy(state.now), surface: state.surface, what: what };
  does();
  if (JSON.stringify(before.now) === JSON.stringify(state.now) && before.surface === state.surface) return false;
  state.past.push(before);
  if (state.past.length > DEEP) state.past.shift();
  return true;
}

function undo() {
  const last = state.past.pop();
  if (!last) return "";
  state.now = last.now;
  state.surface = last.surface;
  return last.what;
}

function remember(note) {
  try {
    const { now, surface, drafts, past } = state;
    localStorage.setItem(STORE, JSON.stringify({ now: now, surface: surface, drafts: drafts, past: past, note: note }));
  } catch (error) {
    // A phone that keeps nothing for local files still works; it only forgets on closing.
  }
}

function validCorner(name, one) {
  const counts = one && (one.pack === null ? {} : DATA.corners[name].counting[one.pack]);
  return counts && one.spring > 0 && one.mass > DATA.corners[name].unsprung
    && Object.keys(counts).every((a) => one.clicks[a] === null || (Number.isInteger(one.clicks[a]) && one.clicks[a] >= 0
      && one.clicks[a] <= counts[a].last));
}

function valid(saved) {
  return ORDER.every((name) => validCorner(name, saved.now[name]));
}

// What was kept when the page was last open: null where nothing was.
function recall() {
  try {
    const saved = JSON.parse(localStorage.getItem(STORE));
    if (!saved || !valid(saved)) return null;
    const changed = JSON.stringify(saved.now) !== JSON.stringify(state.now);
    state.now = saved.now;
    state.drafts = saved.drafts || {};
    state.past = (saved.past || []).filter(valid);
    if (DATA.surfaces.includes(saved.surface)) state.surface = saved.surface;
    return { changed: changed, note: saved.note || {} };
  } catch (error) {
    return null; // Something else's.
  }
}
