"""The compiled half-car: one fourth-order Runge-Kutta step of 16 settings at once, without a branch.

Damper curves are sums of hinges ``gain·max(0, v − knot)``; stops, tyres and the grip limit are a maximum or a minimum.
So a whole step is straight-line code, time outside and settings inside, and the compiler turns 16 settings into
vector instructions. `LANES` must stay a module's constant, and the step stays written out in the loop: as an
argument, or as a function of its own, either would switch that off, silently (a test watches).
What stands where in the arrays is in `layout`. All that is compiled stays in this file: what numba keeps goes by the
text of the file that the loop is in, so a change elsewhere is not seen. After one of `layout` empty `__pycache__`.
"""

from __future__ import annotations

from typing import Any

import numba

from tests.oracles.small_angle.layout import (
    BUMP,
    DRIVE_SUM,
    DRIVEN_CHANGE,
    DRIVEN_STATIC,
    DROOP,
    FRONT_AXLE,
    FRONT_DRIVEN,
    FRONT_LIFTED,
    FRONT_ROAD,
    FRONT_SLOPE,
    FRONT_STATIC,
    FRONT_TYRE,
    FRONT_UNSPRUNG,
    FRONT_WANTED,
    FRONT_WHEEL,
    GAS,
    GRIP,
    HEAVE,
    HEIGHT,
    HINGES,
    INERTIA,
    LANES,
    LOAD_DIP,
    LOAD_LEAST,
    LOAD_SQUARES,
    NOSE_RATE,
    NOSE_RISE,
    ON_STOPS,
    PITCH,
    PITCH_PEAK,
    PITCH_RATE_PEAK,
    PRELOAD,
    RATES,
    REAR_AXLE,
    REAR_DRIVEN,
    REAR_ROAD,
    REAR_SLOPE,
    REAR_STATIC,
    REAR_TYRE,
    REAR_UNSPRUNG,
    REAR_WANTED,
    REAR_WHEEL,
    SIDE,
    SPRING,
    SPRUNG,
    STOP_RATE,
    TAIL_LIFT,
    TAIL_SQUAT,
    TO_FRONT,
    TO_REAR,
)  # fmt: skip

_FAST = {"contract", "nnan", "nsz"}
_MORE_THAN_ANY = 1e30  #: load of tyres [N]
_INLINE: dict[str, Any] = {"forceinline": True, "fastmath": _FAST}


@numba.njit(**_INLINE)
def _over(x):  # type: ignore[no-untyped-def]
    return x if x > 0.0 else 0.0


@numba.njit(**_INLINE)
def _side(v, d, at):  # type: ignore[no-untyped-def]
    return (
        d[at + 8 * LANES] * _over(v - d[at])
        + d[at + 9 * LANES] * _over(v - d[at + 1 * LANES])
        + d[at + 10 * LANES] * _over(v - d[at + 2 * LANES])
        + d[at + 11 * LANES] * _over(v - d[at + 3 * LANES])
        + d[at + 12 * LANES] * _over(v - d[at + 4 * LANES])
        + d[at + 13 * LANES] * _over(v - d[at + 5 * LANES])
        + d[at + 14 * LANES] * _over(v - d[at + 6 * LANES])
        + d[at + 15 * LANES] * _over(v - d[at + 7 * LANES])
    )


@numba.njit(**_INLINE)
def _both(v, d, at):  # type: ignore[no-untyped-def]
    return _side(v, d, at) - _side(-v, d, at + SIDE)


@numba.njit(**_INLINE)
def _one(v, d, at):  # type: ignore[no-untyped-def]
    """As `_both` for one setting alone: only the hinges that are open, of the side that moves; knots ascend."""
    s, sign = (v, 1.0) if v > 0.0 else (-v, -1.0)
    i = at if v > 0.0 else at + SIDE
    force = 0.0
    for k in range(HINGES):
        over = s - d[i + k * LANES]
        if over <= 0.0:
            break
        force += d[i + (HINGES + k) * LANES] * over
    return sign * force


@numba.njit(**_INLINE)
def _axle(u, w, p, damper, d, at):  # type: ignore[no-untyped-def]
    """Force between wheels and body above static: spring that can go slack, gas, stops, damper. Compression > 0."""
    rate, gas, preload, bump, droop, stop = p
    spring = _over(rate * u + preload) - preload + gas * u
    stops = stop * (_over(u - bump) - _over(-u - droop))
    return spring + stops + damper(w, d, at)


@numba.njit(**_INLINE)
def _push(static, rate, road, wheel):  # type: ignore[no-untyped-def]
    return _over(static + rate * (road - wheel))


@numba.njit(**_INLINE)
def _held(want, grip, load):  # type: ignore[no-untyped-def]
    most = grip * load
    up = want if want < most else most
    return up if up > -most else -most


@numba.njit(**_INLINE)
def _rhs(x, v, tab, damper, d, at, car, fa, ra):  # type: ignore[no-untyped-def]
    """Accelerations of heave, pitch and both wheels; and tyre loads and drive forces."""
    z, t, zf, zr = x
    vz, vt, vf, vr = v
    roadf, roadr, wantf, wantr = tab
    ms, iy, a, b, h, muf, mur, nf0, nr0, ktf, ktr, sf, sr, grip = car
    nf = _push(nf0, ktf, roadf, zf)
    nr = _push(nr0, ktr, roadr, zr)
    xf = _held(wantf, grip, nf)
    xr = _held(wantr, grip, nr)
    front = _axle(zf - z - a * t, vf - vz - a * vt, fa, damper, d, at) + sf * xf
    rear = _axle(zr - z + b * t, vr - vz + b * vt, ra, damper, d, at + 2 * SIDE) + sr * xr
    return (
        ((front + rear) / ms, (a * front - b * rear + h * (xf + xr)) / iy, (nf - nf0 - front) / muf,
         (nr - nr0 - rear) / mur),
        (nf, nr, xf, xr),
    )  # fmt: skip


@numba.njit(**_INLINE)
def _plus(x, k, v):  # type: ignore[no-untyped-def]
    return (x[0] + k * v[0], x[1] + k * v[1], x[2] + k * v[2], x[3] + k * v[3])


@numba.njit(**_INLINE)
def _mean(x, k, a, b):  # type: ignore[no-untyped-def]
    q, r = a
    s, t = b
    return (
        x[0] + k * (q[0] + 2.0 * (r[0] + s[0]) + t[0]),
        x[1] + k * (q[1] + 2.0 * (r[1] + s[1]) + t[1]),
        x[2] + k * (q[2] + 2.0 * (r[2] + s[2]) + t[2]),
        x[3] + k * (q[3] + 2.0 * (r[3] + s[3]) + t[3]),
    )


@numba.njit(**_INLINE)
def _row(table, i):  # type: ignore[no-untyped-def]
    return (table[i, FRONT_ROAD], table[i, REAR_ROAD], table[i, FRONT_WANTED], table[i, REAR_WANTED])


@numba.njit(**_INLINE)
def _of_axle(p, at):  # type: ignore[no-untyped-def]
    return (p[at + SPRING], p[at + GAS], p[at + PRELOAD], p[at + BUMP], p[at + DROOP], p[at + STOP_RATE])


@numba.njit(**_INLINE)
def _car(p):  # type: ignore[no-untyped-def]
    """Body, front axle, rear axle; each in the order of the layout."""
    return (
        (p[SPRUNG], p[INERTIA], p[TO_FRONT], p[TO_REAR], p[HEIGHT], p[FRONT_UNSPRUNG], p[REAR_UNSPRUNG],
         p[FRONT_STATIC], p[REAR_STATIC], p[FRONT_TYRE], p[REAR_TYRE], p[FRONT_SLOPE], p[REAR_SLOPE], p[GRIP]),
        _of_axle(p, FRONT_AXLE),
        _of_axle(p, REAR_AXLE),
    )  # fmt: skip


@numba.njit(**_INLINE)
def _watch(x, v, out, car, driven):  # type: ignore[no-untyped-def]
    """What the figures are made of: nose, its rate, tail, driven load and its lack, drive, front lifted, on stops."""
    body, fa, ra = car
    df, dr, dn, dx = driven
    nf, nr, xf, xr = out
    nose, tail = x[HEAVE] + body[TO_FRONT] * x[PITCH], x[HEAVE] - body[TO_REAR] * x[PITCH]
    load = df * nf + dr * nr
    uf, ur = x[FRONT_WHEEL] - nose, x[REAR_WHEEL] - tail
    on = (uf > fa[BUMP]) | (-uf > fa[DROOP]) | (ur > ra[BUMP]) | (-ur > ra[DROOP])
    short = dn + dx * (xf + xr) - load
    lifted = 1.0 if nf <= 0.0 else 0.0
    return nose, v[HEAVE] + body[TO_FRONT] * v[PITCH], tail, load, short, xf + xr, lifted, 1.0 if on else 0.0


@numba.njit(cache=True, nogil=True, fastmath=_FAST)
def run_block(p, table, d, step, f, trace):  # type: ignore[no-untyped-def]
    """Run 16 settings over `table` and fill `f` and `trace`.

    Parameters
    ----------
    p
        The car, see `packing.packed`, shape (PARAMETERS,).
    table
        At half steps, shape (2·steps + 1, 4): road front, road rear [m], wanted drive front, rear [N].
    d
        Hinges of this block, shape (BLOCK,).
    step
        [s]
    f
        Out: the figures, shape (FIGURES · LANES,).
    trace
        Out: the states, shape (records, STATES · LANES), every steps//(records − 1)-th; one record: nothing kept.
    """
    car = _car(p)
    body, fa, ra = car
    half, sixth = 0.5 * step, step / 6.0
    driven = (p[FRONT_DRIVEN], p[REAR_DRIVEN], p[DRIVEN_STATIC], p[DRIVEN_CHANGE])
    steps = (table.shape[0] - 1) // 2
    keep = trace.shape[0] > 1
    every = steps // (trace.shape[0] - 1) if keep else steps + 1
    s = trace[0].copy()
    s[:] = 0.0
    f[:] = 0.0
    f[LOAD_LEAST * LANES : (LOAD_LEAST + 1) * LANES] = _MORE_THAN_ANY
    for i in range(steps):
        if keep and i % every == 0:
            trace[i // every] = s
        t0, t1, t2 = _row(table, 2 * i), _row(table, 2 * i + 1), _row(table, 2 * i + 2)
        for j in range(LANES):
            x = (s[j + HEAVE * LANES], s[j + PITCH * LANES], s[j + FRONT_WHEEL * LANES], s[j + REAR_WHEEL * LANES])
            r = j + RATES * LANES
            v = (s[r + HEAVE * LANES], s[r + PITCH * LANES], s[r + FRONT_WHEEL * LANES], s[r + REAR_WHEEL * LANES])
            a1, out = _rhs(x, v, t0, _both, d, j, body, fa, ra)
            v2 = _plus(v, half, a1)
            a2, _ = _rhs(_plus(x, half, v), v2, t1, _both, d, j, body, fa, ra)
            v3 = _plus(v, half, a2)
            a3, _ = _rhs(_plus(x, half, v2), v3, t1, _both, d, j, body, fa, ra)
            v4 = _plus(v, step, a3)
            a4, _ = _rhs(_plus(x, step, v3), v4, t2, _both, d, j, body, fa, ra)
            nose, rate, tail, load, short, drive, lifted, on = _watch(x, v, out, car, driven)
            f[j + NOSE_RISE * LANES] = max(f[j + NOSE_RISE * LANES], nose)
            f[j + NOSE_RATE * LANES] = max(f[j + NOSE_RATE * LANES], rate)
            f[j + TAIL_LIFT * LANES] = max(f[j + TAIL_LIFT * LANES], tail)
            f[j + TAIL_SQUAT * LANES] = max(f[j + TAIL_SQUAT * LANES], -tail)
            f[j + LOAD_LEAST * LANES] = min(f[j + LOAD_LEAST * LANES], load)
            f[j + LOAD_DIP * LANES] = max(f[j + LOAD_DIP * LANES], short)
            f[j + LOAD_SQUARES * LANES] += short * short
            f[j + PITCH_PEAK * LANES] = max(f[j + PITCH_PEAK * LANES], x[PITCH])
            f[j + PITCH_RATE_PEAK * LANES] = max(f[j + PITCH_RATE_PEAK * LANES], v[PITCH])
            f[j + DRIVE_SUM * LANES] += drive
            f[j + FRONT_LIFTED * LANES] += lifted
            f[j + ON_STOPS * LANES] += on
            x = _mean(x, sixth, (v, v2), (v3, v4))
            v = _mean(v, sixth, (a1, a2), (a3, a4))
            s[j + HEAVE * LANES], s[j + PITCH * LANES] = x[HEAVE], x[PITCH]
            s[j + FRONT_WHEEL * LANES], s[j + REAR_WHEEL * LANES] = x[FRONT_WHEEL], x[REAR_WHEEL]
            s[r + HEAVE * LANES], s[r + PITCH * LANES] = v[HEAVE], v[PITCH]
            s[r + FRONT_WHEEL * LANES], s[r + REAR_WHEEL * LANES] = v[FRONT_WHEEL], v[REAR_WHEEL]
    if keep:
        trace[trace.shape[0] - 1] = s


@numba.njit(cache=True, nogil=True, fastmath=_FAST)
def run_one(p, table, d, step, trace):  # type: ignore[no-untyped-def]
    """Run the first setting of a block alone; `trace` is filled with its states at every step, (STATES, steps + 1)."""
    body, fa, ra = _car(p)
    half, sixth = 0.5 * step, step / 6.0
    x = (0.0, 0.0, 0.0, 0.0)
    v = (0.0, 0.0, 0.0, 0.0)
    for i in range((table.shape[0] - 1) // 2):
        t0, t1, t2 = _row(table, 2 * i), _row(table, 2 * i + 1), _row(table, 2 * i + 2)
        a1, _ = _rhs(x, v, t0, _one, d, 0, body, fa, ra)
        v2 = _plus(v, half, a1)
        a2, _ = _rhs(_plus(x, half, v), v2, t1, _one, d, 0, body, fa, ra)
        v3 = _plus(v, half, a2)
        a3, _ = _rhs(_plus(x, half, v2), v3, t1, _one, d, 0, body, fa, ra)
        v4 = _plus(v, step, a3)
        a4, _ = _rhs(_plus(x, step, v3), v4, t2, _one, d, 0, body, fa, ra)
        x = _mean(x, sixth, (v, v2), (v3, v4))
        v = _mean(v, sixth, (a1, a2), (a3, a4))
        for k in range(RATES):
            trace[k, i + 1] = x[k]
            trace[k + RATES, i + 1] = v[k]
