"""The equations of `motion` for one row at a time, to be compiled: the same arithmetic, written out in numbers.

`compiled.ll` beside it is its translation, which `translated` takes; after a change here or in `layout` it is made anew
by ``python -m fixtures.make_launch_code``. What stands where is in `layout`. `arrays.Stepper` is the same in arrays,
which needs no compiling; a test holds the two together.
"""

# mypy: disable-error-code="no-untyped-def, no-untyped-call"
# ruff: noqa: ANN001, ANN201, ANN202

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numba

from dynoan.analysis.launch.assumptions import BEHIND, FRICTION_TURN
from dynoan.analysis.launch.large.layout import (
    AXLES,
    BAR,
    BAR_ABOVE,
    BAR_BEHIND,
    BAR_RATE,
    CHANGE,
    DAMPER,
    DISTANCE,
    DRIVEN,
    ENERGY,
    FACTOR,
    FORCE,
    FRICTION,
    FRONT,
    FRONT_HEIGHT,
    FRONT_SPIN,
    GAS,
    GRIP,
    HEIGHT,
    HELD,
    INERTIA,
    LIFTED,
    LOAD,
    LOAD_LEAST,
    LOAD_SQUARES,
    NOSE_RATE,
    NOSE_RISE,
    OVER,
    PEAK,
    PITCH,
    PITCH_PEAK,
    PLACE,
    POWERS,
    PRELOAD,
    RADIUS,
    RATES,
    RATIO,
    REAR,
    ROAD,
    SHAPE,
    SHARE,
    SLIP,
    SLIPS,
    SPEED,
    SPIN,
    SPRING,
    SPRUNG,
    SPUN,
    STATES,
    STATIC,
    STOOD,
    STOP_HINGES,
    STOPS,
    TAIL_LIFT,
    TAIL_SQUAT,
    THROUGH,
    TYRE,
    TYRE_DAMPING,
    UNSPRUNG,
    WHEEL,
    WHEEL_RATE,
    WHEELBASE,
    WORK,
    X,
    Z,
)  # fmt: skip
from dynoan.analysis.launch.large.tyre import SLOWEST, SPINNING_SLIP
from dynoan.units import GRAVITY

_MORE_THAN_ANY = 1e30
_FRONT, _REAR = AXLES


def _compiled(function: Callable[..., Any]) -> Any:
    """Return a function compiled and kept; where no place to keep it can be written to, compiled each time.

    What only compiled code calls needs no door for Python, whose compiling takes a quarter of the time.
    """
    inner = function.__name__.startswith("_")
    options: dict[str, Any] = {
        "nogil": True,
        "error_model": "numpy",
        "no_cpython_wrapper": inner,
        "no_cfunc_wrapper": inner,
    }
    try:
        return numba.njit(cache=True, **options)(function)
    except RuntimeError:  # no place for the cache
        return numba.njit(**options)(function)


def _damper(v, hinges, row):
    """Force of a damper; `hinges` is (2 directions, 2 for knots and gains, hinges, rows), knots ascending."""
    side = 0 if v > 0.0 else 1
    s = v if v > 0.0 else -v
    force = 0.0
    for k in range(hinges.shape[2]):
        over = s - hinges[side, 0, k, row]
        if over <= 0.0:
            break
        force += hinges[side, 1, k, row] * over
    return force if v > 0.0 else -force


_damper = _compiled(_damper)


def _path(i, u, paths):
    """Return how far ahead a wheel's path lies at a travel, its slope and bend, and how the axle turns with travel."""
    ahead = slope = bend = turn = 0.0
    for k in range(POWERS - 1, -1, -1):
        bend = bend * u + 2.0 * slope
        slope = slope * u + ahead
        ahead = ahead * u + paths[i, 0, k]
        if k > 0:
            turn = turn * u + k * paths[i, 1, k]
    return ahead, slope, bend, turn


_path = _compiled(_path)


def _road(x, heights, spacing):
    """Return the road's height and slope at a place counted as the roads are, cubic between its samples."""
    place = min(max(x / spacing + BEHIND, 1.0), heights.shape[0] - 2.001)
    j = int(place)
    w = place - j
    h0, h1, h2, h3 = heights[j - 1], heights[j], heights[j + 1], heights[j + 2]
    c1, c2, c3 = (h2 - h0) / 2.0, h0 - 2.5 * h1 + 2.0 * h2 - 0.5 * h3, (h3 - h0) / 2.0 + 1.5 * (h1 - h2)
    return h1 + w * (c1 + w * (c2 + w * c3)), (c1 + w * (2.0 * c2 + w * 3.0 * c3)) / spacing


_road = _compiled(_road)


def _pulled(i, at, y, p, ground, load, arm, vx, force, torque):
    """Return the force along the road, the torque that the links hold, what spins the wheels up, and their slip."""
    if p[at + SHARE] == 0.0:
        return 0.0, 0.0, 0.0, 0.0
    if p[SLIPS] == 0.0:
        most = ground[GRIP] * load
        drive = min(max(p[at + SHARE] * force, -most), most)
        return drive, drive * arm, 0.0, 0.0
    slip = (y[FRONT_SPIN + i] * p[RADIUS] - vx) / max(abs(vx), SLOWEST)
    drive = load * ground[PEAK] * math.sin(ground[SHAPE] * math.atan(ground[FACTOR] * slip))
    over = p[at + SHARE] * torque - drive * arm  # spins wheels and engine up; the engine's part never reaches the axle
    return drive, drive * arm + p[at + THROUGH] * over, over / p[at + SPIN], slip


_pulled = _compiled(_pulled)


def _stopped(u, at, p):
    """Return the force of an axle's stops and the energy in them."""
    stops = squeezed = 0.0
    for k in range(2):
        sign, begin = 1.0 - 2.0 * k, at + STOPS + 2 * k * STOP_HINGES
        for j in range(STOP_HINGES):
            over = sign * u - p[begin + j]
            if over <= 0.0:
                break
            stops += sign * p[begin + STOP_HINGES + j] * over
            squeezed += p[begin + STOP_HINGES + j] * over * over / 2.0
    return stops, squeezed


_stopped = _compiled(_stopped)


def _axle(i, at, y, sine, cosine, p, paths, hinges, row, ground, heights, spacing, force, torque, out):
    """Fill `out` with what one axle adds to the body's equations and what acts on it; see `motion._row`."""
    u, du, turning = y[FRONT + i], y[RATES + FRONT + i], y[RATES + PITCH]
    ahead, slope, bend, turn = _path(i, u, paths)
    along, above = p[at + PLACE] + ahead, u - (p[HEIGHT] - p[RADIUS])
    v1, v2 = slope * du - turning * above, du + turning * along
    dx, dz = cosine * along - sine * above, sine * along + cosine * above
    vx, vz = y[RATES + X] + cosine * v1 - sine * v2, y[RATES + Z] + sine * v1 + cosine * v2
    height = y[Z] + dz
    road = rise = 0.0
    if heights.shape[0] > 1:
        road, rise = _road(y[X] + dx - p[at + PLACE] + (p[WHEELBASE] if i == 0 else 0.0), heights, spacing)
        road -= ground[STOOD + i]
    spring = max(p[at + STATIC] + p[at + TYRE] * (road - height + p[RADIUS]), 0.0)
    load = max(spring + p[at + TYRE_DAMPING] * (rise * vx - vz), 0.0) if spring > 0.0 else 0.0
    arm = height - road
    drive, held, spun, slip = _pulled(i, at, y, p, ground, load, arm, vx, force, torque)
    damper = _damper(du, hinges[i], row)
    friction = p[at + FRICTION] * math.tanh(du / FRICTION_TURN)
    stops, squeezed = _stopped(u, at, p)
    springs = max(p[at + SPRING] * u + p[at + PRELOAD], 0.0) - p[at + PRELOAD] + p[at + GAS] * u
    s = p[at + HELD] + springs + stops + damper + friction
    m = p[at + UNSPRUNG]
    p2 = 1.0 + slope * slope
    root = math.sqrt(p2)
    n1, n2, t1, t2 = 1.0 / root, -slope / root, -above, along
    nt = n1 * t1 + n2 * t2
    b1 = -turning * turning * along - 2.0 * turning * du + du * du * bend
    b2 = -turning * turning * above + 2.0 * turning * du * slope
    nb = m * (n1 * b1 + n2 * b2)
    up = load - m * GRAVITY
    f1, f2 = cosine * drive + sine * up, cosine * up - sine * drive
    right = f1 * slope + f2 - s + held * turn
    share = right / p2
    out[0], out[1], out[2] = n1, n2, nt
    out[3], out[4] = f1 - n1 * nb - slope * share, f2 - n2 * nb - share
    out[5] = f1 * t1 + f2 * t2 + held - nt * nb - (slope * t1 + t2) * share
    out[6], out[7], out[8], out[9], out[10], out[11], out[12] = right, t1, t2, b1, b2, p2, slope
    out[13] = drive * vx + held * (turning + turn * du) + spring * rise * vx + (load - spring) * vz
    out[13] += p[at + SPIN] * spun * y[FRONT_SPIN + i] - (damper + friction) * du
    out[14], out[15], out[16], out[17] = load, drive, damper, height - p[RADIUS]
    out[18], out[19], out[20], out[21], out[22] = vz, road, slip, spun, vx
    out[23] = 0.5 * m * (vx * vx + vz * vz) + m * GRAVITY * out[17] + spring * spring / (2.0 * p[at + TYRE])
    stretched = max(p[at + SPRING] * u + p[at + PRELOAD], 0.0)
    out[23] += stretched * stretched / (2.0 * p[at + SPRING]) - p[at + PRELOAD] * u + p[at + GAS] * u * u / 2.0
    out[23] += squeezed + p[at + HELD] * u
    out[23] += 0.5 * p[at + SPIN] * y[FRONT_SPIN + i] * y[FRONT_SPIN + i]


_axle = _compiled(_axle)


def _torque(y, p, throttle, engine):
    """Return the torque at the driven wheels; `engine` is (2, n): speeds and torques, or (2, 1) for a steady one."""
    if engine.shape[1] == 1:
        return throttle * engine[1, 0]
    spin = (p[_FRONT + SHARE] * y[FRONT_SPIN] + p[_REAR + SHARE] * y[FRONT_SPIN + 1]) * p[RATIO]
    n = engine.shape[1]
    if spin <= engine[0, 0]:
        return throttle * p[RATIO] * engine[1, 0]
    for k in range(1, n):
        if spin < engine[0, k]:
            part = (spin - engine[0, k - 1]) / (engine[0, k] - engine[0, k - 1])
            return throttle * p[RATIO] * (engine[1, k - 1] + part * (engine[1, k] - engine[1, k - 1]))
    return throttle * p[RATIO] * engine[1, n - 1]


_torque = _compiled(_torque)


def _rates(y, dy, p, paths, hinges, row, ground, heights, spacing, force, throttle, engine, f, r):
    """Fill the states' rates; `f` and `r` keep what the axles do. Return the force on the wheelie bar."""
    sine, cosine = math.sin(y[PITCH]), math.cos(y[PITCH])
    torque = _torque(y, p, throttle, engine) if p[SLIPS] != 0.0 else 0.0
    for i in range(2):  # in a loop: called twice with numbers written out it would be compiled twice
        at, out = (_FRONT, f) if i == 0 else (_REAR, r)
        _axle(i, at, y, sine, cosine, p, paths, hinges, row, ground, heights, spacing, force, torque, out)
    bar = moment = 0.0
    if p[BAR_RATE] > 0.0:
        along, above = p[_REAR + PLACE] - p[BAR_BEHIND], p[BAR_ABOVE] - p[HEIGHT]
        bar = max(-p[BAR_RATE] * (y[Z] + sine * along + cosine * above), 0.0)
        moment = bar * (cosine * along - sine * above)
    mf, mr = p[_FRONT + UNSPRUNG], p[_REAR + UNSPRUNG]
    m11 = p[SPRUNG] + mf * f[0] * f[0] + mr * r[0] * r[0]
    m12 = mf * f[0] * f[1] + mr * r[0] * r[1]
    m22 = p[SPRUNG] + mf * f[1] * f[1] + mr * r[1] * r[1]
    m13 = mf * f[0] * f[2] + mr * r[0] * r[2]
    m23 = mf * f[1] * f[2] + mr * r[1] * r[2]
    m33 = p[INERTIA] + mf * f[2] * f[2] + mr * r[2] * r[2]
    weight = bar - p[SPRUNG] * GRAVITY
    q1 = f[3] + r[3] + sine * weight
    q2 = f[4] + r[4] + cosine * weight
    q3 = f[5] + r[5] + moment
    c11, c12, c13 = m22 * m33 - m23 * m23, m13 * m23 - m12 * m33, m12 * m23 - m13 * m22
    c22, c23, c33 = m11 * m33 - m13 * m13, m12 * m13 - m11 * m23, m11 * m22 - m12 * m12
    whole = m11 * c11 + m12 * c12 + m13 * c13
    a1 = (c11 * q1 + c12 * q2 + c13 * q3) / whole
    a2 = (c12 * q1 + c22 * q2 + c23 * q3) / whole
    turn = (c13 * q1 + c23 * q2 + c33 * q3) / whole
    for k in range(RATES):
        dy[k] = y[RATES + k]
    dy[RATES + X], dy[RATES + Z], dy[RATES + PITCH] = cosine * a1 - sine * a2, sine * a1 + cosine * a2, turn
    dy[RATES + FRONT] = (f[6] / mf - f[12] * (a1 + turn * f[7] + f[9]) - (a2 + turn * f[8] + f[10])) / f[11]
    dy[RATES + REAR] = (r[6] / mr - r[12] * (a1 + turn * r[7] + r[9]) - (a2 + turn * r[8] + r[10])) / r[11]
    dy[FRONT_SPIN], dy[FRONT_SPIN + 1], dy[WORK] = f[21], r[21], f[13] + r[13]
    return bar


_rates = _compiled(_rates)


def _keep(kept, states, n, y, p, bar, f, r):
    for k in range(STATES):
        states[k, n] = y[k]
    for i, of in enumerate((f, r)):
        kept[LOAD + i, n], kept[FORCE + i, n], kept[DAMPER + i, n] = of[14], of[15], of[16]
        kept[WHEEL + i, n], kept[WHEEL_RATE + i, n], kept[ROAD + i, n], kept[SLIP + i, n] = (
            of[17],
            of[18],
            of[19],
            of[20],
        )
    v2 = y[RATES + X] * y[RATES + X] + y[RATES + Z] * y[RATES + Z]
    energy = 0.5 * p[SPRUNG] * v2 + 0.5 * p[INERTIA] * y[RATES + PITCH] * y[RATES + PITCH] + p[SPRUNG] * GRAVITY * y[Z]
    if p[BAR_RATE] > 0.0:
        energy += bar * bar / (2.0 * p[BAR_RATE])
    kept[BAR, n], kept[ENERGY, n] = bar, energy + f[23] + r[23]


_keep = _compiled(_keep)


def _watch(g, y, p, step, f, r):
    """Take the figures of one step."""
    sine, cosine = math.sin(y[PITCH]), math.cos(y[PITCH])
    a, b = p[_FRONT + PLACE], -p[_REAR + PLACE]
    nose, tail = y[Z] - p[HEIGHT] + a * sine, y[Z] - p[HEIGHT] - b * sine
    load = p[_FRONT + DRIVEN] * f[14] + p[_REAR + DRIVEN] * r[14]
    g[NOSE_RISE], g[NOSE_RATE] = (
        max(g[NOSE_RISE], nose),
        max(g[NOSE_RATE], y[RATES + Z] + a * cosine * y[RATES + PITCH]),
    )
    g[TAIL_LIFT], g[TAIL_SQUAT], g[PITCH_PEAK] = (
        max(g[TAIL_LIFT], tail),
        max(g[TAIL_SQUAT], -tail),
        max(g[PITCH_PEAK], y[PITCH]),
    )
    off = f[17] - f[19] - p[_FRONT + STATIC] / p[_FRONT + TYRE]
    g[FRONT_HEIGHT], g[LOAD_LEAST] = max(g[FRONT_HEIGHT], off), min(g[LOAD_LEAST], load)
    at_rest = p[_FRONT + DRIVEN] * p[_FRONT + STATIC] + p[_REAR + DRIVEN] * p[_REAR + STATIC]
    short = at_rest + p[CHANGE] * (f[15] + r[15]) - load
    g[LOAD_SQUARES] += short * short
    if max(f[20], r[20]) > SPINNING_SLIP:
        g[SPUN] += step
    if f[14] <= 0.0:
        g[LIFTED] += step


_watch = _compiled(_watch)


def _run_row(
    p, paths, hinges, row, ground, heights, spacing, forces, throttles, engine, start, step, g, states, kept, work
):
    """Run one row; `states` and `kept` of one step keep nothing. `work` is room to reckon in, of `WORK_ROOM`."""
    steps = (forces.shape[0] - 1) // 2
    keep = states.shape[1] > 1
    y, t, k1, k2, k3, k4, f, r = work[0], work[1], work[2], work[3], work[4], work[5], work[6], work[7]
    g[:] = 0.0
    for k in range(STATES):
        y[k] = start[k]
    g[LOAD_LEAST], g[OVER] = _MORE_THAN_ANY, math.nan
    over = False
    for i in range(steps + 1):
        n = 2 * i
        bar = _rates(y, k1, p, paths, hinges, row, ground, heights, spacing, forces[n], throttles[n], engine, f, r)
        if keep:
            _keep(kept, states, i, y, p, bar, f, r)
        if i == steps or (over and not keep):
            break
        _watch(g, y, p, step, f, r)
        if over:
            continue
        for k in range(STATES):
            t[k] = y[k] + 0.5 * step * k1[k]
        _rates(t, k2, p, paths, hinges, row, ground, heights, spacing, forces[n + 1], throttles[n + 1], engine, f, r)
        for k in range(STATES):
            t[k] = y[k] + 0.5 * step * k2[k]
        _rates(t, k3, p, paths, hinges, row, ground, heights, spacing, forces[n + 1], throttles[n + 1], engine, f, r)
        for k in range(STATES):
            t[k] = y[k] + step * k3[k]
        _rates(t, k4, p, paths, hinges, row, ground, heights, spacing, forces[n + 2], throttles[n + 2], engine, f, r)
        for k in range(STATES):
            y[k] += step / 6.0 * (k1[k] + 2.0 * (k2[k] + k3[k]) + k4[k])
        along, above = p[_REAR + PLACE], y[REAR] - (p[HEIGHT] - p[RADIUS])
        if y[PITCH] > 0.0 and math.cos(y[PITCH]) * along - math.sin(y[PITCH]) * above >= 0.0:
            over = True
            g[OVER] = (i + 1) * step
    g[DISTANCE], g[SPEED] = y[X] - start[X], y[RATES + X]


_run_row = _compiled(_run_row)


def run_rows(
    p, paths, hinges, of_row, grounds, heights, spacing, forces, throttles, engine, starts, step, figures, states, kept,
    work,
):  # fmt: skip
    """Run rows one after the other and fill `figures`, and where asked `states` and `kept`.

    Parameters
    ----------
    p, paths
        The car, shapes (PARAMETERS,) and (2, 2, POWERS).
    hinges
        Shape (2 axles, 2 directions, 2 for knots and gains, hinges, settings).
    of_row
        Setting, ground, road and drive of each row, shape (rows, 4).
    grounds, heights, spacing
        Shape (grounds, GROUNDS); roads, shape (roads, n) [m]; their spacing. [m]
    forces, throttles, engine
        At half steps, shape (drives, 2·steps + 1) [N], [1]; speeds and torques, shape (2, k). [rad/s, N·m]
    starts
        States of each drive as the car is let go, shape (drives, STATES).
    step
        [s]
    figures, states, kept
        Out: shape (rows, FIGURES); (rows, STATES, steps + 1) and (rows, KEPT, steps + 1), or of one step to keep none.
    work
        Room to reckon in, shape `WORK_ROOM`.
    """
    for n in range(of_row.shape[0]):
        setting, ground, road, drive = of_row[n, 0], of_row[n, 1], of_row[n, 2], of_row[n, 3]
        _run_row(p, paths, hinges, setting, grounds[ground], heights[road], spacing, forces[drive], throttles[drive],
                 engine, starts[drive], step, figures[n], states[n], kept[n], work)  # fmt: skip


run_rows = _compiled(run_rows)
