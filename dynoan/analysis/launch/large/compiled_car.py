"""The compiled car's equations: what drives it, the driver's foot, and the rates of its states from both axles."""

# mypy: disable-error-code="no-untyped-def, no-untyped-call"
# ruff: noqa: ANN001, ANN201, ANN202

from __future__ import annotations

import math

from dynoan.analysis.launch.large.compiled_axle import axle_acts
from dynoan.analysis.launch.large.compiling import compiled
from dynoan.analysis.launch.large.layout import (
    AXLES,
    BAR_ABOVE,
    BAR_BEHIND,
    BAR_RATE,
    FOOT,
    FOOT_TIME,
    FRONT,
    FRONT_SPIN,
    HEIGHT,
    HOLDS,
    INERTIA,
    PITCH,
    PLACE,
    RATES,
    RATIO,
    REAR,
    SHARE,
    SLIPS,
    SPRUNG,
    UNSPRUNG,
    WORK,
    X,
    Z,
)
from dynoan.units import GRAVITY

_FRONT, _REAR = AXLES


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


_torque = compiled(_torque)


def _foot(down, slip, ground):
    """Return how fast the foot of a driver who holds a slip moves; it stops at the floor and where it is off."""
    if ground[HOLDS] <= 0.0:
        return 0.0
    off = min(max((ground[HOLDS] - slip) / ground[HOLDS], -1.0), 1.0)
    if (down >= 1.0 and off > 0.0) or (down <= 0.0 and off < 0.0):
        return 0.0
    return off / ground[FOOT_TIME]


_foot = compiled(_foot)


def rates(y, dy, p, paths, hinges, row, ground, heights, spacing, force, throttle, engine, f, r):
    """Fill the states' rates; `f` and `r` keep what the axles do. Return the force on the wheelie bar."""
    sine, cosine = math.sin(y[PITCH]), math.cos(y[PITCH])
    torque = _torque(y, p, throttle, engine) if p[SLIPS] != 0.0 else 0.0
    if ground[HOLDS] > 0.0:
        torque *= min(max(y[FOOT], 0.0), 1.0)
    for i in range(2):  # in a loop: called twice with numbers written out it would be compiled twice
        at, out = (_FRONT, f) if i == 0 else (_REAR, r)
        axle_acts(i, at, y, sine, cosine, p, paths, hinges, row, ground, heights, spacing, force, torque, out)
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
    dy[FOOT] = _foot(y[FOOT], max(f[20], r[20]), ground)
    return bar


rates = compiled(rates)
