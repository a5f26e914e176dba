"""The equations of a corner that swings freely, all over the sprung mass, and their integration.

Body z and wheel w, downward positive, so that shock travel x = z − w (at the wheel) is positive in compression::

    z'' = −F
    μ·w'' = F − τ·w − b·w'
    F = κ·x + D(x') + s,   s' = (f/δ)·x'·(1 − s·sign(x')/f)

with κ and τ the wheel's and the tyre's rate, b the tyre's damping, f friction, μ the wheel's mass, each over the sprung
mass, and D of two slopes in each direction: `c` below the knee, `q·c` above. Friction is Dahl's: it turns over a travel
δ, so that a shock can stop (P. R. Dahl, AIAA J. 14 (1976) 1675-1682, from memory). Runge and Kutta's fourth order. What
is logged is x, or F, which is the body's acceleration upward.
"""

from __future__ import annotations

import numba
import numpy as np

from dynoan.model.arrays import FloatArray

#: places of the parameters, all positive
KAPPA, TAU, COMPRESSION, REBOUND, FAST, KNEE_AT, DRY, WHEEL, TURN, TYRE_DAMPING = range(10)
PARAMETERS = 10
FINEST = 1.5e-3  #: longest step [s]; numerics
QUICKEST = 1e-3  #: friction needs so long to turn at least, or fast motion would need shorter steps [s]; numerics
_STABLE = 2.0  #: of Runge and Kutta's fourth order, with room to spare


@numba.njit(cache=True)
def _force(x: float, v: float, s: float, p: FloatArray) -> float:
    speed = abs(v)
    c = p[COMPRESSION] if v > 0 else p[REBOUND]
    damped = c * (speed if speed <= p[KNEE_AT] else p[KNEE_AT] + p[FAST] * (speed - p[KNEE_AT]))
    return float(p[KAPPA] * x + (damped if v > 0 else -damped) + s)


_State = tuple[float, float, float, float, float]


@numba.njit(cache=True)
def _slopes(y: _State, p: FloatArray) -> _State:
    v = y[1] - y[3]
    f = _force(y[0] - y[2], v, y[4], p)
    turning = (p[DRY] * v - abs(v) * y[4]) / max(p[TURN], abs(v) * QUICKEST)
    return y[1], -f, y[3], (f - p[TAU] * y[2] - p[TYRE_DAMPING] * y[3]) / p[WHEEL], turning


@numba.njit(cache=True)
def _on(y: _State, h: float, a: _State) -> _State:
    return y[0] + h * a[0], y[1] + h * a[1], y[2] + h * a[2], y[3] + h * a[3], y[4] + h * a[4]


@numba.njit(cache=True)
def _stepped(y: _State, h: float, p: FloatArray) -> _State:
    a = _slopes(y, p)
    b = _slopes(_on(y, 0.5 * h, a), p)
    c = _slopes(_on(y, 0.5 * h, b), p)
    d = _slopes(_on(y, h, c), p)
    return _on(_on(_on(_on(y, h / 6.0, a), h / 3.0, b), h / 3.0, c), h / 6.0, d)


@numba.njit(cache=True)
def swing(time: FloatArray, begin: FloatArray, p: FloatArray) -> FloatArray:
    """Return shock travel and upward acceleration at times, from a beginning.

    Parameters
    ----------
    time
        Ascending, shape (n,). [s]
    begin
        Body travel and its speed at the first time; the wheel follows as if it had no mass. [m, m/s]
    p
        Parameters by the places above.

    Returns
    -------
    :
        Shape (2, n). [m, m/s²]
    """
    out = np.empty((2, len(time)))
    real = max(p[COMPRESSION], p[REBOUND]) * max(1.0, p[FAST]) * (1.0 + 1.0 / p[WHEEL]) + p[TYRE_DAMPING] / p[WHEEL]
    stiff = np.sqrt((p[KAPPA] + p[DRY] / p[TURN]) * (1.0 + 1.0 / p[WHEEL]) + p[TAU] / p[WHEEL])
    longest = min(FINEST, _STABLE / (real + stiff))
    soft = p[KAPPA] / (p[TAU] + p[KAPPA])
    z, v = begin[0], begin[1]
    stuck = p[DRY] if v > 0 else -p[DRY]
    y = (z, v, soft * z + _force(0.0, v * (1.0 - soft), stuck, p) / (p[TAU] + p[KAPPA]), v * soft, stuck)
    for n in range(len(time)):
        if n > 0:
            span = time[n] - time[n - 1]
            steps = int(np.ceil(span / longest))
            h = span / steps
            for _ in range(steps):
                y = _stepped(y, h, p)
        out[0, n] = y[0] - y[2]
        out[1, n] = _force(y[0] - y[2], y[1] - y[3], y[4], p)
    return out
