"""What one axle of the compiled car does: its path, damper, stops, tyre and drive, see `motion._row`."""

# mypy: disable-error-code="no-untyped-def, no-untyped-call"
# ruff: noqa: ANN001, ANN201, ANN202

from __future__ import annotations

import math

from dynoan.analysis.launch.assumptions import BEHIND, FRICTION_GIVES, FRICTION_TURN
from dynoan.analysis.launch.large.compiling import compiled
from dynoan.analysis.launch.large.layout import (
    FACTOR,
    FALLS,
    FRICTION,
    FRONT,
    FRONT_SPIN,
    GAS,
    GRIP,
    GRIPS,
    HEIGHT,
    HELD,
    PEAK,
    PITCH,
    PLACE,
    POWERS,
    PRELOAD,
    RADIUS,
    RATES,
    SHAPE,
    SHARE,
    SLIPS,
    SPIN,
    SPRING,
    STATIC,
    STOOD,
    STOP_HINGES,
    STOPS,
    STUCK,
    THROUGH,
    TYRE,
    TYRE_DAMPING,
    UNSPRUNG,
    WHEELBASE,
    X,
    Z,
)
from dynoan.analysis.launch.large.tyre import SLOWEST
from dynoan.units import GRAVITY


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


_damper = compiled(_damper)


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


_path = compiled(_path)


def _road(x, heights, spacing):
    """Return the road's height and slope at a place counted as the roads are, cubic between its samples."""
    place = min(max(x / spacing + BEHIND, 1.0), heights.shape[0] - 2.001)
    j = int(place)
    w = place - j
    h0, h1, h2, h3 = heights[j - 1], heights[j], heights[j + 1], heights[j + 2]
    c1, c2, c3 = (h2 - h0) / 2.0, h0 - 2.5 * h1 + 2.0 * h2 - 0.5 * h3, (h3 - h0) / 2.0 + 1.5 * (h1 - h2)
    return h1 + w * (c1 + w * (c2 + w * c3)), (c1 + w * (2.0 * c2 + w * 3.0 * c3)) / spacing


_road = compiled(_road)


def _keeps(share, ground):
    """Return the grip at a share of the load at rest, over the grip there; a tyre in the air has none to lose."""
    if ground[FALLS] == 0.0 or share <= 0.0:
        return 1.0
    return math.exp(-ground[FALLS] * math.log(share))


_keeps = compiled(_keeps)


def _pulled(i, at, y, p, ground, load, arm, vx, force, torque):
    """Return the force along the road, the torque that the links hold, what spins the wheels up, and their slip."""
    if p[at + SHARE] == 0.0:
        return 0.0, 0.0, 0.0, 0.0
    keeps = _keeps(load / p[at + STATIC], ground)
    if p[SLIPS] == 0.0:
        most = ground[GRIP] * keeps * load
        drive = min(max(p[at + SHARE] * force, -most), most)
        return drive, drive * arm, 0.0, 0.0
    slip = (y[FRONT_SPIN + i] * p[RADIUS] - vx) / max(abs(vx), SLOWEST)
    drive = load * ground[PEAK] * keeps * math.sin(ground[SHAPE] * math.atan(ground[FACTOR] / keeps * slip))
    over = p[at + SHARE] * torque - drive * arm  # spins wheels and engine up; the engine's part never reaches the axle
    return drive, drive * arm + p[at + THROUGH] * over, over / p[at + SPIN], slip


_pulled = compiled(_pulled)


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


_stopped = compiled(_stopped)


def _gripping(u, grips):
    """Return what is left of the grip that held an axle at rest, at a travel from there."""
    if grips == 0.0:
        return 0.0
    off = u * u / (FRICTION_GIVES * FRICTION_GIVES)
    return grips / (1.0 + off * off)


_gripping = compiled(_gripping)


def axle_acts(i, at, y, sine, cosine, p, paths, hinges, row, ground, heights, spacing, force, torque, out):
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
    friction = p[at + FRICTION] * math.tanh(du / FRICTION_TURN + _gripping(u, p[at + GRIPS]))
    stops, squeezed = _stopped(u, at, p)
    springs = max(p[at + SPRING] * u + p[at + PRELOAD], 0.0) - p[at + PRELOAD] + p[at + GAS] * u - p[at + STUCK]
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
    out[23] += squeezed + (p[at + HELD] - p[at + STUCK]) * u
    out[23] += 0.5 * p[at + SPIN] * y[FRONT_SPIN + i] * y[FRONT_SPIN + i]


axle_acts = compiled(axle_acts)
