"""The compiled half-car: one fourth-order Runge-Kutta step of 16 settings at once, without a branch.

Damper curves are sums of hinges ``gain·max(0, v − knot)``; stops, tyres and the grip limit are a maximum or a minimum.
So a whole step is straight-line code, time outside and settings inside, and the compiler turns 16 settings into
vector instructions. `LANES` must stay a constant of this module, and the step stays written out in the loop: as an
argument, or as a function of its own, either would switch that off, silently (a test watches).
The order of a block's flat arrays is [quantity · LANES + lane].
"""

from __future__ import annotations

from typing import Any

import numba

LANES = 16  #: settings side by side
HINGES = 8  #: per direction and axle; `_side` is written out for this many
SIDE = 2 * HINGES * LANES  #: knots then gains of one direction of one axle, in a block
BLOCK = 4 * SIDE  #: front compression, front rebound, rear compression, rear rebound
STATES = 8  #: heave, pitch, front and rear wheel, then their velocities; up and nose-up positive
FIGURES = 12

_FAST = {"contract", "nnan", "nsz"}
_INLINE: dict[str, Any] = {"forceinline": True, "fastmath": _FAST}


@numba.njit(**_INLINE)
def _over(x):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
    return x if x > 0.0 else 0.0


@numba.njit(**_INLINE)
def _side(v, d, at):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
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
def _both(v, d, at):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
    return _side(v, d, at) - _side(-v, d, at + SIDE)


@numba.njit(**_INLINE)
def _one(v, d, at):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
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
def _axle(u, w, p, damper, d, at):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
    """Force between wheels and body above static: spring that can go slack, gas, stops, damper. Compression > 0."""
    rate, gas, preload, bump, droop, stop = p
    spring = _over(rate * u + preload) - preload + gas * u
    stops = stop * (_over(u - bump) - _over(-u - droop))
    return spring + stops + damper(w, d, at)


@numba.njit(**_INLINE)
def _push(static, rate, road, wheel):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
    return _over(static + rate * (road - wheel))


@numba.njit(**_INLINE)
def _held(want, grip, load):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
    most = grip * load
    up = want if want < most else most
    return up if up > -most else -most


@numba.njit(**_INLINE)
def _rhs(x, v, tab, damper, d, at, car, fa, ra):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
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
def _plus(x, k, v):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
    return (x[0] + k * v[0], x[1] + k * v[1], x[2] + k * v[2], x[3] + k * v[3])


@numba.njit(**_INLINE)
def _mean(x, k, a, b):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
    q, r = a
    s, t = b
    return (
        x[0] + k * (q[0] + 2.0 * (r[0] + s[0]) + t[0]),
        x[1] + k * (q[1] + 2.0 * (r[1] + s[1]) + t[1]),
        x[2] + k * (q[2] + 2.0 * (r[2] + s[2]) + t[2]),
        x[3] + k * (q[3] + 2.0 * (r[3] + s[3]) + t[3]),
    )


@numba.njit(**_INLINE)
def _row(table, i):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
    return (table[i, 0], table[i, 1], table[i, 2], table[i, 3])


@numba.njit(**_INLINE)
def _car(p):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
    """Body, front axle, rear axle."""
    return (
        (p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], p[8], p[9], p[10], p[11], p[12], p[13]),
        (p[14], p[15], p[16], p[17], p[18], p[19]),
        (p[20], p[21], p[22], p[23], p[24], p[25]),
    )


@numba.njit(**_INLINE)
def _watch(x, v, out, car, driven):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
    """What the figures are made of: nose, its rate, tail, driven load and its lack, drive, front lifted, on stops."""
    body, fa, ra = car
    df, dr, dn, dx = driven
    nf, nr, xf, xr = out
    nose, tail = x[0] + body[2] * x[1], x[0] - body[3] * x[1]
    load = df * nf + dr * nr
    uf, ur = x[2] - nose, x[3] - tail
    on = (uf > fa[3]) | (-uf > fa[4]) | (ur > ra[3]) | (-ur > ra[4])
    short = dn + dx * (xf + xr) - load
    lifted = 1.0 if nf <= 0.0 else 0.0
    return nose, v[0] + body[2] * v[1], tail, load, short, xf + xr, lifted, 1.0 if on else 0.0


@numba.njit(cache=True, nogil=True, fastmath=_FAST)
def run_block(p, table, d, step, f, trace):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN201
    """Run 16 settings over `table` and fill `f` and `trace`.

    Parameters
    ----------
    p
        The car, see `launch_model.Half.packed`.
    table
        At half steps, shape (2·steps + 1, 4): road front, road rear [m], wanted drive front, rear [N].
    d
        Hinges of this block, shape (BLOCK,).
    step
        [s]
    f
        Out: the figures, shape (FIGURES · LANES,), in the order of `launch_run.FIGURE_NAMES`.
    trace
        Out: the states, shape (records, STATES · LANES), every steps//(records − 1)-th; one record: nothing kept.
    """
    car = _car(p)
    body, fa, ra = car
    half, sixth = 0.5 * step, step / 6.0
    driven = (p[26], p[27], p[28], p[29])
    steps = (table.shape[0] - 1) // 2
    keep = trace.shape[0] > 1
    every = steps // (trace.shape[0] - 1) if keep else steps + 1
    s = trace[0].copy()
    s[:] = 0.0
    f[:] = 0.0
    f[4 * LANES : 5 * LANES] = 1e30
    for i in range(steps):
        if keep and i % every == 0:
            trace[i // every] = s
        t0, t1, t2 = _row(table, 2 * i), _row(table, 2 * i + 1), _row(table, 2 * i + 2)
        for j in range(LANES):
            x = (s[j], s[LANES + j], s[2 * LANES + j], s[3 * LANES + j])
            v = (s[4 * LANES + j], s[5 * LANES + j], s[6 * LANES + j], s[7 * LANES + j])
            a1, out = _rhs(x, v, t0, _both, d, j, body, fa, ra)
            v2 = _plus(v, half, a1)
            a2, _ = _rhs(_plus(x, half, v), v2, t1, _both, d, j, body, fa, ra)
            v3 = _plus(v, half, a2)
            a3, _ = _rhs(_plus(x, half, v2), v3, t1, _both, d, j, body, fa, ra)
            v4 = _plus(v, step, a3)
            a4, _ = _rhs(_plus(x, step, v3), v4, t2, _both, d, j, body, fa, ra)
            nose, rate, tail, load, short, drive, lifted, on = _watch(x, v, out, car, driven)
            f[j] = max(f[j], nose)
            f[LANES + j] = max(f[LANES + j], rate)
            f[2 * LANES + j] = max(f[2 * LANES + j], tail)
            f[3 * LANES + j] = max(f[3 * LANES + j], -tail)
            f[4 * LANES + j] = min(f[4 * LANES + j], load)
            f[5 * LANES + j] = max(f[5 * LANES + j], short)
            f[6 * LANES + j] += short * short
            f[7 * LANES + j] = max(f[7 * LANES + j], x[1])
            f[8 * LANES + j] = max(f[8 * LANES + j], v[1])
            f[9 * LANES + j] += drive
            f[10 * LANES + j] += lifted
            f[11 * LANES + j] += on
            s[j], s[LANES + j], s[2 * LANES + j], s[3 * LANES + j] = _mean(x, sixth, (v, v2), (v3, v4))
            s[4 * LANES + j], s[5 * LANES + j], s[6 * LANES + j], s[7 * LANES + j] = _mean(v, sixth, (a1, a2), (a3, a4))
    if keep:
        trace[trace.shape[0] - 1] = s


@numba.njit(cache=True, nogil=True, fastmath=_FAST)
def run_one(p, table, d, step, trace):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN201
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
        for k in range(4):
            trace[k, i + 1] = x[k]
            trace[k + 4, i + 1] = v[k]
