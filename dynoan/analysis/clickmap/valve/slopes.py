"""How the force of the hydraulic view's valve moves with each of its parameters."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import LEAST_LEFT
from dynoan.analysis.clickmap.valve.law import INDEX, PARAMETERS, UNIT, Roles, Ways, column, opened, solved, with_rest
from dynoan.model.arrays import FloatArray


def _opened_slope(x: FloatArray, shape: float) -> FloatArray:
    """Return the derivative of `opened` by its shape."""
    if abs(shape) < 1e-4:
        return np.asarray(0.5 * x * (1.0 - x))
    whole = np.expm1(-shape)
    return np.asarray((np.exp(-shape) * np.expm1(-shape * x) / whole - x * np.exp(-shape * x)) / whole)


def speed_slopes(
    theta: FloatArray, turned: FloatArray, roles: Roles, now: tuple[Ways, FloatArray],
    above: tuple[FloatArray, FloatArray],
) -> dict[str, FloatArray]:  # fmt: skip
    """Return the derivatives of speed by every parameter but the port. [m/s]

    For the valve and its forces (n, S) `now`, and what these are `above` its opening.
    """
    at, valve = now
    over, lift = above
    t = dict(zip(PARAMETERS, theta, strict=True))
    u = valve / UNIT
    through = np.power(u, at.bleed_power)
    closed, share, high = np.exp(t["bleed"]), column(turned, roles.bleed), column(turned, roles.opening)
    crossed = column(turned, roles.crossing)
    gain = np.exp(t["bleed_gain"]) if roles.bleed is not None else 0.0
    free = np.asarray(at.bleed > 0.02 * closed)  # elsewhere the least bleed holds
    # What the blow-off lets through by the force above its opening, and that force by opening and corner.
    x, r = (valve - at.opening) / at.corner, at.opening / at.corner
    blow = at.blow * np.power(over / UNIT, at.blow_power) * np.power(u, at.blow_flow)
    steep = np.where(over > 1e-9, at.blow_power * blow / over, 0.0)
    by_corner = steep * (over - at.corner * (lift * x + r / (1.0 + np.exp(np.minimum(r, 500.0)))))
    by_opening = steep * (over - lift * valve)
    by_fall = by_opening - (1.0 - t["corner_power"]) * by_corner
    drop = np.exp(t["opening_drop"])
    bent = _opened_slope(high, t["opening_shape"])
    return {
        "bleed": np.where(free, closed * (1.0 + t["crossing"] * crossed), 0.02 * closed) * through,
        "bleed_gain": np.where(free, gain * opened(share, t["bleed_shape"]), 0.0) * through,
        "bleed_shape": np.where(free, gain * _opened_slope(share, t["bleed_shape"]), 0.0) * through,
        "opening": by_opening,
        "opening_drop": -drop * opened(high, t["opening_shape"]) * by_fall,
        "opening_shape": bent * (t["blow_gain"] * blow - drop * by_fall),
        "blow": blow,
        "blow_power": blow * np.log(over / UNIT),
        "blow_flow": blow * np.log(u),
        "blow_gain": opened(high, t["opening_shape"]) * blow,
        "leak": at.leak * u,
        "corner": by_corner,
        "corner_power": -drop * opened(high, t["opening_shape"]) * by_corner,
        "bleed_power": at.bleed * through * np.log(u),
        "crossing": np.where(free, closed * crossed, 0.0) * through,
    }


def log_force_slopes(
    theta: FloatArray, turned: FloatArray, roles: Roles, speeds: FloatArray, now: tuple[Ways, FloatArray] | None = None
) -> tuple[FloatArray, FloatArray]:
    """Return ln(force) (n, S) and its derivatives by the parameters (n, S, P), of what was `solved` if given. [1]

    By implicit differentiation of ``speed(p; θ) = v``: ``dp/dθ = −(∂speed/∂θ)/(∂speed/∂p)``.
    """
    at, valve = now or solved(theta, turned, roles, speeds)
    port = at.port_force(speeds)
    flowing = valve + port
    force = with_rest(flowing, theta)
    whole = force > LEAST_LEFT * flowing
    above = at.over(valve)
    changes = speed_slopes(theta, turned, roles, (at, valve), above)
    share = np.where(whole, 1.0 / force, 1.0 / flowing)
    by_valve = -share / at.speed_over(valve, *above)[1]
    out = np.zeros((*valve.shape, len(theta)))
    for name, change in changes.items():
        out[:, :, INDEX[name]] = change * by_valve
    out[:, :, INDEX["port"]] = -2.0 * port * share
    out[:, :, INDEX["rest"]] = np.where(whole, 1.0 / force, 0.0)
    return np.log(force), out
