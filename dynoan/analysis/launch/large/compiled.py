"""The equations of `motion` for one row at a time, to be compiled: the same arithmetic, written out in numbers.

`compiled_axle` and `compiled_car` hold them; here rows are stepped, kept and watched. `compiled.ll` beside it is their
translation, which `translated` takes; after a change in any of them or in `layout` it is made anew by
``python -m fixtures.make_machine_code``. What stands where is in `layout`. `arrays.Stepper` is the same in arrays,
which needs no compiling, but for a driver's foot; a test holds the two together.
"""

# mypy: disable-error-code="no-untyped-def, no-untyped-call"
# ruff: noqa: ANN001, ANN201, ANN202

from __future__ import annotations

import math

from dynoan.analysis.launch.large.compiled_car import rates
from dynoan.analysis.launch.large.compiling import compiled
from dynoan.analysis.launch.large.layout import (
    AXLES,
    BAR,
    BAR_RATE,
    CHANGE,
    DAMPER,
    DISTANCE,
    DRIVEN,
    ENERGY,
    FORCE,
    FRONT_HEIGHT,
    HEIGHT,
    INERTIA,
    LIFTED,
    LOAD,
    LOAD_LEAST,
    LOAD_SQUARES,
    NOSE_RATE,
    NOSE_RISE,
    OVER,
    PITCH,
    PITCH_PEAK,
    PLACE,
    RADIUS,
    RATES,
    REAR,
    ROAD,
    SLIP,
    SPEED,
    SPRUNG,
    SPUN,
    STATES,
    STATIC,
    TAIL_LIFT,
    TAIL_SQUAT,
    TYRE,
    WHEEL,
    WHEEL_RATE,
    X,
    Z,
)
from dynoan.analysis.launch.large.sealed import seal
from dynoan.analysis.launch.large.tyre import SPINNING_SLIP
from dynoan.units import GRAVITY

_MORE_THAN_ANY = 1e30
_FRONT, _REAR = AXLES


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


_keep = compiled(_keep)


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


_watch = compiled(_watch)


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
        bar = rates(y, k1, p, paths, hinges, row, ground, heights, spacing, forces[n], throttles[n], engine, f, r)
        if keep:
            _keep(kept, states, i, y, p, bar, f, r)
        if i == steps or (over and not keep):
            break
        _watch(g, y, p, step, f, r)
        if over:
            continue
        for k in range(STATES):
            t[k] = y[k] + 0.5 * step * k1[k]
        rates(t, k2, p, paths, hinges, row, ground, heights, spacing, forces[n + 1], throttles[n + 1], engine, f, r)
        for k in range(STATES):
            t[k] = y[k] + 0.5 * step * k2[k]
        rates(t, k3, p, paths, hinges, row, ground, heights, spacing, forces[n + 1], throttles[n + 1], engine, f, r)
        for k in range(STATES):
            t[k] = y[k] + step * k3[k]
        rates(t, k4, p, paths, hinges, row, ground, heights, spacing, forces[n + 2], throttles[n + 2], engine, f, r)
        for k in range(STATES):
            y[k] += step / 6.0 * (k1[k] + 2.0 * (k2[k] + k3[k]) + k4[k])
        along, above = p[_REAR + PLACE], y[REAR] - (p[HEIGHT] - p[RADIUS])
        if y[PITCH] > 0.0 and math.cos(y[PITCH]) * along - math.sin(y[PITCH]) * above >= 0.0:
            over = True
            g[OVER] = (i + 1) * step
    g[DISTANCE], g[SPEED] = y[X] - start[X], y[RATES + X]


_run_row = compiled(_run_row)


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


#: what numba keeps of an earlier source, in whichever of the files it changed, is then not taken for this one's
run_rows.__qualname__ = f"run_rows_{seal()[:12]}"
run_rows = compiled(run_rows)
