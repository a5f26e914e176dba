r"""A corner over a made-up random road, in time: which velocities its shock really sees.

Statistical linearisation takes the velocity for a Gaussian. Under a damper that is weaker in compression and gives way
at speed it is none: it is skewed and has heavy tails, and linearisation then misses its size by 10 to 20 % and the
equivalent ratios by more. So the quarter car of `quarter_car` is driven over several roads, with the shock's own curve.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.road import PROFILE_BAND, SEED, profile
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Corner
from dynoan.model.curve import DIRECTIONS, Curve, Direction

#: roads, and the time on each, of which the beginning is left out [s]: the rms velocity is then known to some 2 %
#: (numerics)
ROADS, TIME, SETTLING = 12, 10.0, 2.0
#: step [s]: a twentieth of the period of the fastest wheel hop (numerics)
STEP = 2e-3
#: speed up to which a curve is tabulated [m/s], and the points of the table (numerics)
FASTEST, POINTS = 6.0, 4001
#: velocities kept of each direction, as evenly spread quantiles
KEPT = 2048


@dataclass(frozen=True)
class RoadMotion:
    """The velocities of one shock on a road."""

    sigma: float  #: root mean square, at the shock [m/s]
    speeds: Mapping[Direction, FloatArray]  #: magnitudes by direction, equally likely, shape (KEPT,) [m/s]


def road_motion(
    corners: Mapping[str, Corner], curves: Mapping[str, Curve], *, roughness: float, speed: float
) -> dict[str, RoadMotion]:
    """Return what the shocks of corners see on a road, by corner.

    Parameters
    ----------
    corners, curves
        By name; corners with tyre rates.
    roughness
        Gd(n0) at 0.1 cycle/m. [m³]
    speed
        Of the car. [m/s]

    Raises
    ------
    QuantityError
        If a corner has no tyre rate.
    """
    for name in curves:
        if corners[name].tyre is None:
            raise QuantityError(f"{name}.tyre is missing", hint="a rough surface acts through the tyre")
    velocity = _driven([corners[n] for n in curves], [curves[n] for n in curves], roughness, speed)
    return {name: _of(v.ravel()) for name, v in zip(curves, velocity, strict=True)}


def _of(velocity: FloatArray) -> RoadMotion:
    shares = (np.arange(KEPT) + 1 / 2) / KEPT
    signs = {d: 1.0 if d == "compression" else -1.0 for d in DIRECTIONS}
    speeds = {d: np.quantile(sign * velocity[sign * velocity > 0], shares) for d, sign in signs.items()}
    return RoadMotion(float(np.sqrt(np.mean(velocity**2))), speeds)


def _driven(corners: list[Corner], curves: list[Curve], roughness: float, speed: float) -> FloatArray:
    """Return the shocks' velocities, compression positive, shape (corners, times kept, roads). [m/s]"""
    steps = round(TIME / STEP)
    place = speed * np.arange(2 * steps + 1) * STEP / 2
    roads = [
        profile(roughness, place, seed=SEED + n, band=PROFILE_BAND, length=max(200.0, place[-1])) for n in range(ROADS)
    ]
    road = np.stack([r - r[0] for r in roads], axis=1)
    sprung, unsprung, rate = (np.array([[getattr(c, n)] for c in corners]) for n in ("sprung", "unsprung", "rate"))
    tyre = np.array([[c.tyre or np.nan] for c in corners])
    grid = np.linspace(-FASTEST, FASTEST, POINTS)
    table = np.stack([c.shock_ratio * curve(c.shock_ratio * grid) for c, curve in zip(corners, curves, strict=True)])
    rise, table = np.diff(table, axis=1, append=0.0).ravel(), table.ravel()
    first = POINTS * np.arange(len(corners))[:, None]

    def rates(y: FloatArray, at: int) -> FloatArray:
        out = np.empty_like(y)
        out[:2] = y[2:]
        v = y[3] - y[2]
        place_in = np.minimum(np.maximum((v + FASTEST) / (2 * FASTEST) * (POINTS - 1), 0.0), POINTS - 1.001)
        low = place_in.astype(int)
        in_table = first + low
        force = rate * (y[1] - y[0]) + (table[in_table] + (place_in - low) * rise[in_table])
        np.divide(force, sprung, out=out[2])
        np.divide(tyre * (road[at] - y[1]) - force, unsprung, out=out[3])
        return out

    y = np.zeros((4, len(corners), ROADS))
    kept = []
    for i in range(steps):
        k1 = rates(y, 2 * i)
        k2 = rates(y + STEP / 2 * k1, 2 * i + 1)
        k3 = rates(y + STEP / 2 * k2, 2 * i + 1)
        k4 = rates(y + STEP * k3, 2 * i + 2)
        y = y + STEP / 6 * (k1 + 2 * (k2 + k3) + k4)
        if i * STEP >= SETTLING:
            kept.append(y[3] - y[2])
    ratios = np.array([c.shock_ratio for c in corners])[:, None, None]
    return np.asarray(np.stack(kept, axis=1) * ratios)
