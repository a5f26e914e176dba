"""What else is in a force channel, as columns along the motion: friction, gas, mass, drift. One entry a row."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.channels.slopes import local_slope
from dynoan.analysis.conditioning.forces.splines import turning
from dynoan.analysis.conditioning.samples.rows import Rows, one_speed
from dynoan.analysis.conditioning.samples.rubbing import LAWS, Law
from dynoan.model.arrays import FloatArray
from dynoan.model.ranks import median


@dataclass(frozen=True)
class Effect:
    """One column with its prior: normal about zero, or its positive half."""

    name: str
    column: FloatArray
    prior: float  #: standard deviation of the coefficient
    positive: bool = False
    kind: str = ""
    late: bool = False  #: left out until lag is roughly known, since it can look like lag
    mean: float = 0.0  #: of the coefficient, before the record is looked at


def frictions(rows: Rows) -> list[Effect]:
    """Return the friction laws: turning over a speed, with breakaway, over a travel, and growing with travel."""
    out = []
    for law, column in zip(LAWS, rows.friction.T, strict=True):
        prior, kind = a.FRICTION_SCALE, "friction"
        if law.what in ("breakaway", "away"):
            prior, kind = a.BREAKAWAY_SCALE, "breakaway"
        elif law.what == "flex":
            prior, kind = a.BRISTLE * a.USUAL_FRICTION, "flex"
        out.append(Effect(law.name, column, prior, True, kind, law.what != "turn"))
    if rows.displacement is not None:
        z = rows.displacement - 0.5 * (rows.displacement.min() + rows.displacement.max())
        share = a.TRAVEL_SHARE * a.USUAL_FRICTION
        # One speed alone does not tell which of them.
        alone = one_speed(rows)
        for name in a.TRAVEL_LAWS[: 1 if alone else None]:
            column = rows.friction[:, LAWS.index(Law.named(name))] * z / np.abs(z).max()
            called = "by travel any" if alone else f"by travel {name}"
            out.append(Effect(called, column, share, False, "travel", name.startswith("slide")))
    for speed in a.TURNING_SPEEDS:
        turned = np.abs(rows.friction[:, LAWS.index(Law("turn", speed))])
        out.append(Effect(Law("tilt", speed).name, turned, a.TILT_SHARE * a.USUAL_FRICTION, False, "tilt", True))
    return out


def rod_angle(rows: Rows) -> FloatArray:
    """Return the angle of a crank's rod over the steepest, shape (n,). [1]

    Zero where displacement is not recorded, and where the motion is as long on either side of its middle: a yoke has no
    rod that leans. It pushes the slide sideways by the force times the tangent of that angle, ``sin θ`` to first order.
    """
    if rows.displacement is None:
        return np.zeros(len(rows))
    z = rows.displacement - 0.5 * (rows.displacement.min() + rows.displacement.max())
    z = z / np.abs(z).max()
    # A rod of length l on a crank of radius r takes the mean of a turn by r/4l of that radius off the middle.
    if abs(float(np.mean(z))) < a.LEANS:
        return np.zeros(len(rows))
    return np.asarray(np.sqrt(np.maximum(1.0 - z**2, 0.0)))


def acceleration(rows: Rows) -> FloatArray:
    """Return the time derivative of velocity, span by span. [m/s²]"""
    return slope_in_time(rows, rows.velocity, 5)


def slope_in_time(rows: Rows, values: FloatArray, window: int) -> FloatArray:
    """Return the time derivative of a channel, span by span, shape (n,). [as `values`, per second]"""
    out = np.zeros(len(rows))
    edge = np.flatnonzero(np.diff(rows.span, prepend=-1, append=rows.span[-1] + 1))
    for lo, hi in pairwise(edge):
        if hi - lo > window:
            step = median(np.diff(rows.time[lo:hi]))
            out[lo:hi] = local_slope(values[lo:hi], window) / step
    return out


def gradients(rows: Rows, columns: Sequence[FloatArray]) -> list[FloatArray]:
    """Return columns' slopes in time, smoothed as force's is, span by span, shape (n,) each. [as they, per second]"""
    out = [np.zeros(len(rows)) for _ in columns]
    edge = np.flatnonzero(np.diff(rows.span, prepend=-1, append=rows.span[-1] + 1))
    for lo, hi in pairwise(edge):
        if hi - lo <= 5:
            continue
        window = round(float(rows.window[lo])) | 1
        step = max(median(np.diff(rows.time[lo:hi])), 1e-9)
        for slope, values in zip(out, columns, strict=True):
            part = values[lo:hi]
            slope[lo:hi] = (local_slope(part, window) if window > 3 else np.gradient(part)) / step
    return out


def gas_law(z: FloatArray, column: float) -> FloatArray:
    """Return the force of a polytropic column of gas of unit slope at z = 0, straight where endless, shape (n,). [m]

    ``p V^n = const`` makes a column of length h push with ``(h/n)·((1 − z/h)^(−n) − 1)`` beyond its force at z = 0.
    """
    if not np.isfinite(column):
        return z
    return np.asarray(column / a.POLYTROPIC * ((1.0 - z / column) ** -a.POLYTROPIC - 1.0))


def gas_effects(rows: Rows, reach: float) -> list[Effect]:
    """Return gas force over travel: columns of several lengths, none pulling, and a small free bend."""
    if rows.displacement is None:
        return []
    z = rows.displacement - 0.5 * (rows.displacement.min() + rows.displacement.max())
    out = [Effect(f"gas {h}", gas_law(z, h * reach) / reach, a.GAS_RATE * reach, True) for h in a.COLUMNS]
    return [*out, Effect("gas bend", (z / reach) ** 2, a.GAS_BEND)]


def heat_effects(rows: Rows, reach: float) -> list[Effect]:
    """Return the force of gas that has not given its warmth away, by how long that takes it.

    None of one speed alone, which does not tell it from gas over travel and from lag.
    """
    if rows.unsettled is None or not reach or one_speed(rows):
        return []
    return [Effect(f"heat {t:g}", column / reach, a.GAS_STIFFER_FIRST, True, "heat")
            for t, column in zip(a.GAS_SETTLES, rows.unsettled.T, strict=True)]  # fmt: skip


def yielding(u: FloatArray, half: FloatArray | None = None) -> tuple[FloatArray, FloatArray]:
    """Return columns of a fluid that yields over some speeds, compression's first, and their slopes, shape (e, n) each.

    `half` is by how much velocity moves either way within each row, shape (n,). [m/s]
    """
    at, share, middles = turning(u, half)
    over = np.array(a.YIELD_SPEEDS)[:, None]
    whole = np.tanh(u / over)
    force, slope = np.empty((2, len(over), len(u))), np.empty((2, len(over), len(u)))
    for way, (sign, part, middle) in enumerate(((1.0, share, middles[0]), (-1.0, 1.0 - share, middles[1]))):
        weight = np.where(sign * u > 0, 1.0, 0.0)
        weight[at] = part
        turned = whole
        if len(at):
            turned = whole.copy()
            turned[:, at] = np.tanh(middle / over)
        np.multiply(weight, turned, out=force[way])
        np.divide(weight - force[way] * turned, over, out=slope[way])
    return force.reshape(-1, len(u)), slope.reshape(-1, len(u))
