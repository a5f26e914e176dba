"""The hydraulic view's valve: bleed, leak and blow-off side by side, a port in series; only what force can tell apart.

Flow over piston area is shaft speed, and pressure times piston area is force, so the valve is written in speeds and
forces and nobody has to know an area. At a valve force ``p`` the speeds through the three ways add up,

``v = bleed·(p/1000 N)^e + leak·p/1000 N + blow·(over(p)/1000 N)^b·(p/1000 N)^q``,

with ``e`` near 1/2 (orifice law), ``over`` the force above the opening force with a rounded corner (a spread in newtons
that follows the opening force as a power of it, from none to all), ``b`` near 1 (an area that grows with lift) and
``q`` between 0 and 1/2 (1/2 where that area is an orifice). The port adds ``1000 N·(v/port)²``, a plate under a spring
in series with all of it a force that stays at rest. Low-speed clicks open the bleed, high-speed clicks lower the
opening force (and may soften the spring behind it). Each opens along
``g(x) = (1 − e^(−s·x))/(1 − e^(−s))``, straight at s = 0, saturating above, monotone always.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import LEAST_LEFT
from dynoan.model.arrays import FloatArray

#: the force at which speeds through a way are stated [N] (numerics)
UNIT = 1000.0


#: the parameters, in the order of the vectors: logarithms unless said otherwise
PARAMETERS = (
    "bleed",  #: speed at 1000 N through the bleed at closed [m/s]
    "bleed_gain",  #: speed added by the whole turn of the low-speed adjuster [m/s]
    "bleed_shape",  #: s of its opening, not a logarithm
    "opening",  #: opening force of the blow-off at closed [N]
    "opening_drop",  #: by how many e-folds the whole turn of the high-speed adjuster lowers it
    "opening_shape",  #: s of that, not a logarithm
    "blow",  #: speed through the blow-off 1000 N above its opening force [m/s]
    "blow_power",  #: b, not a logarithm
    "blow_flow",  #: q, not a logarithm
    "blow_gain",  #: by how many e-folds the high-speed adjuster widens the blow-off, not a logarithm
    "port",  #: speed that makes 1000 N through the port [m/s]
    "leak",  #: speed at 1000 N through the leak [m/s]
    "corner",  #: rounding of the opening at closed as a share of the opening force there
    "bleed_power",  #: e, not a logarithm
    "corner_power",  #: of the opening force that the rounding goes with: 0 the same newtons, 1 the same share; as it is
    "crossing",  #: bleed added by the whole turn of the other direction's adjuster, share of the bleed at closed
    "rest",  #: force that stays as the shaft comes to rest, as a plate held by a spring takes it; not a logarithm [N]
)


INDEX = {name: i for i, name in enumerate(PARAMETERS)}


@dataclass(frozen=True)
class Roles:
    """Which column of the clicks turns which part; None where no adjuster does, or no test moved it."""

    bleed: int | None
    opening: int | None
    crossing: int | None = None
    rest: bool = False  #: whether a force that stays at rest is looked for


@dataclass(frozen=True)
class Ways:
    """The valve at n settings: per-setting values of shape (n, 1), common ones as floats."""

    bleed: FloatArray
    opening: FloatArray
    blow: FloatArray
    corner: FloatArray
    leak: float
    port: float
    bleed_power: float
    blow_power: float
    blow_flow: float

    def speed(self, valve: FloatArray) -> FloatArray:
        """Return the speed at valve forces, (n, k) or (k,). [m/s]"""
        return np.asarray(sum(self._through(valve, self._above(valve)[0])))

    def over(self, valve: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return the valve force above the opening, its corner rounded, and its derivative. [N], [1]"""
        over, x, tail = self._above(valve)
        return over, np.where(x >= 0, 1.0, tail) / (1.0 + tail)

    def speed_and_slope(self, valve: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return the speed at valve forces and its derivative. [m/s], [m/s/N]"""
        return self.speed_over(valve, *self.over(valve))

    def speed_over(self, valve: FloatArray, over: FloatArray, share: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return speed and slope where what is `over` the opening is known, as `over` gives it. [m/s], [m/s/N]"""
        bleed, leak, blow = self._through(valve, over)
        slope = (self.bleed_power * bleed + self.blow_flow * blow) / valve + self.leak / UNIT
        slope = slope + self.blow_power * blow / over * share
        return np.asarray(bleed + leak + blow), np.asarray(slope)

    def _above(self, valve: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Return the force above the opening, how many corners above it is, and the tail of the rounding there."""
        x = (valve - self.opening) / self.corner
        tail = np.exp(-np.abs(x))
        over = self.corner * (np.maximum(x, 0.0) + np.log1p(tail) - np.log1p(np.exp(-self.opening / self.corner)))
        return np.maximum(over, 1e-9), x, tail

    def _through(self, valve: FloatArray, over: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Return the speeds through bleed, leak and blow-off."""
        logs = np.log(valve / UNIT)
        bleed = self.bleed * np.exp(self.bleed_power * logs)
        blow = self.blow * np.exp(self.blow_power * np.log(over / UNIT) + self.blow_flow * logs)
        return bleed, self.leak / UNIT * valve, blow

    def port_force(self, speed: FloatArray) -> FloatArray:
        """Return the force the port adds. [N]"""
        return np.asarray(UNIT * (speed / self.port) ** 2)


def opened(x: FloatArray, shape: float) -> FloatArray:
    """Return the share opened at a share `x` of the turn: 0 at 0, 1 at 1, monotone, saturating for shape > 0. [1]"""
    if abs(shape) < 1e-6:
        return x
    return np.asarray(np.expm1(-shape * x) / np.expm1(-shape))


def column(turned: FloatArray, i: int | None) -> FloatArray:
    """Return one column of the turns, (n, 1), zeros where no adjuster turns the part. [1]"""
    return turned[:, [i]] if i is not None else np.zeros((len(turned), 1))


def ways(theta: FloatArray, turned: FloatArray, roles: Roles) -> Ways:
    """Return the valve at settings whose adjusters are turned by shares `turned` (n, A) of their range."""

    t = dict(zip(PARAMETERS, theta, strict=True))
    turn = np.exp(t["bleed_gain"]) if roles.bleed is not None else 0.0
    gain = turn * opened(column(turned, roles.bleed), t["bleed_shape"])
    closed = np.exp(t["bleed"])
    crossed = closed * t["crossing"] * column(turned, roles.crossing)
    high = opened(column(turned, roles.opening), t["opening_shape"])
    fallen = np.exp(-np.exp(t["opening_drop"]) * high)
    opening = np.exp(t["opening"]) * fallen
    return Ways(
        bleed=np.maximum(closed + crossed + gain, 0.02 * closed), opening=opening,
        blow=np.exp(t["blow"] + t["blow_gain"] * high),
        corner=np.exp(t["corner"] + t["opening"]) * fallen ** t["corner_power"],
        leak=float(np.exp(t["leak"])), port=float(np.exp(t["port"])),
        bleed_power=float(t["bleed_power"]), blow_power=float(t["blow_power"]), blow_flow=float(t["blow_flow"]),
    )  # fmt: skip


#: valve forces between which speeds are looked up [N]
_VALVE = np.geomspace(0.02, 60000.0, 300)


_AT_ONCE = 64  #: settings whose tables are laid out together


#: from how many settings on the look-up is not polished
MANY = 1000


def valve_force(at: Ways, speeds: FloatArray) -> FloatArray:
    """Return the valve force at speeds (S,) for every setting, shape (n, S), to 1e-8 of it. [N]"""
    valve = look_up(at, speeds)
    for _ in range(2):
        speed, slope = at.speed_and_slope(valve)
        valve = np.clip(valve - (speed - speeds) / slope, valve * 0.5, valve * 2.0)
    return valve


def look_up(at: Ways, speeds: FloatArray) -> FloatArray:
    """Return the valve force at speeds for every setting by interpolation in a table, to about 3e-4 of it. [N]"""
    # Many settings share an opening force: what hangs on it is worked out once each.
    _, first, which = np.unique(at.opening[:, 0], return_index=True, return_inverse=True)
    few = replace(at, bleed=np.zeros((len(first), 1)), opening=at.opening[first], blow=at.blow[first],
                  corner=at.corner[first])  # fmt: skip
    rest, bleed = few.speed(_VALVE), np.power(_VALVE / UNIT, at.bleed_power)
    logs = np.log(_VALVE)
    out = np.empty((len(at.bleed), len(speeds)))
    top = 2.0 * float(np.max(speeds, initial=0.0)) + 1e-9
    for i in range(0, len(out), _AT_ONCE):
        some = slice(i, i + _AT_ONCE)
        tables = np.minimum(rest[which[some]] + at.bleed[some] * bleed, top)
        # One table after the other on one axis: a call for each takes several times as long.
        apart = 2.0 * top * np.arange(len(tables))[:, None]
        found = np.interp(np.ravel(speeds + apart), np.ravel(tables + apart), np.tile(logs, len(tables)))
        out[some] = found.reshape(len(tables), -1)
    return np.asarray(np.exp(out))


def log_force(theta: FloatArray, turned: FloatArray, roles: Roles, speeds: FloatArray) -> FloatArray:
    """Return ln(force / 1 N) at settings and speeds, shape (n, S). [1]"""
    # Tables of all clicks need no more than the look-up's accuracy.
    if len(turned) < MANY:
        return log_force_at(theta, solved(theta, turned, roles, speeds), speeds)
    at = ways(theta, turned, roles)
    return log_force_at(theta, (at, look_up(at, speeds)), speeds)


def solved(theta: FloatArray, turned: FloatArray, roles: Roles, speeds: FloatArray) -> tuple[Ways, FloatArray]:
    """Return the valve at settings and its forces at speeds, (n, S), from which force and slopes follow. [N]"""
    at = ways(theta, turned, roles)
    return at, valve_force(at, speeds)


def log_force_at(theta: FloatArray, now: tuple[Ways, FloatArray], speeds: FloatArray) -> FloatArray:
    """Return ln(force / 1 N), (n, S), of a valve and its forces `now`. [1]"""
    at, valve = now
    return np.asarray(np.log(with_rest(valve + at.port_force(speeds), theta)))


def with_rest(force: FloatArray, theta: FloatArray) -> FloatArray:
    """Return force with what stays at rest; what is taken off leaves at least `LEAST_LEFT` of it. [N]"""
    return np.asarray(np.maximum(force + theta[INDEX["rest"]], LEAST_LEFT * force))
