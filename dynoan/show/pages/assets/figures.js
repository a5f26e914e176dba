// The numbers of a corner: forces, damping ratios, how they stand to the targets. Null where what is on it is not known.

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

function forceOf(name, setting, direction, velocity) {
  if (!known(name, setting)) return { force: null, half: null, beyond: false };
  const own = DATA.corners[name].own[setting.pack];
  const runs = DATA.corners[name].tested[setting.pack];
  return lookUp(PACKS.get(setting.pack), direction, fromClosed(name, setting), velocity, own, runs);
}

function ratioOf(name, setting, force, velocity) {
  return force === null ? null : ratio(Object.assign({}, DATA.corners[name], setting), force, velocity);
}

// Everything shown for one corner: force, band, ratio, and the same for the baseline.
function figures(name) {
  const now = state.now[name];
  const base = state.base[name];
  const axle = DATA.axles[DATA.corners[name].axle];
  const out = { standing: known(name, now) ? standing(PACKS.get(now.pack), fromClosed(name, now)) : "unknown" };
  DIRECTIONS.forEach((direction) => {
    out[direction] = {};
    LEVELS.forEach((level) => {
      const velocity = axle[level];
      const found = forceOf(name, now, direction, velocity);
      const was = forceOf(name, base, direction, velocity);
      out[direction][level] = {
        velocity: velocity, force: found.force, half: found.half, beyond: found.beyond, before: was.force,
        ratio: ratioOf(name, now, found.force, velocity), band: ratioOf(name, now, found.half, velocity),
        ratioBefore: ratioOf(name, base, was.force, velocity), target: axle[direction][level],
      };
    });
  });
  return out;
}

// By the rule of `choose`: met where the whole band is within the tolerance, likely where only the value is; a band wider
// than the tolerance cannot tell.
function verdict(one) {
  const edge = DATA.tolerance + DATA.slack;
  const low = (one.ratio - one.band) / one.target - 1;
  const high = (one.ratio + one.band) / one.target - 1;
  if (low >= -edge && high <= edge) return "met";
  if (low > edge || high < -edge) return "off";
  if (one.band / one.target > edge) return "cannot tell apart";
  return Math.abs(one.ratio / one.target - 1) <= edge ? "likely" : "off";
}
