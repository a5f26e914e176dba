"""A car and the dampers of many settings as flat arrays, which the compiled half-car takes."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.launch.hinges import HINGES
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.launch.sides import Sides
from dynoan.model.arrays import FloatArray
from tests.oracles.small_angle import layout as at
from tests.oracles.small_angle.layout import BLOCK, LANES, SIDE


def packed(half: HalfCar, grip: float) -> FloatArray:
    """Return the parameters as the compiled half-car takes them, shape (PARAMETERS,). [SI, see `layout`]"""
    f, r, arms, driven = half.front, half.rear, half.arms, half.driven_loads
    out = np.empty(at.PARAMETERS)
    out[at.SPRUNG], out[at.INERTIA], out[at.HEIGHT] = half.sprung, half.pitch_inertia, half.frame.height
    out[at.TO_FRONT], out[at.TO_REAR], out[at.GRIP] = arms.front, arms.rear, grip
    out[at.FRONT_UNSPRUNG], out[at.REAR_UNSPRUNG] = f.unsprung, r.unsprung
    out[at.FRONT_STATIC], out[at.REAR_STATIC] = f.static_load, r.static_load
    out[at.FRONT_TYRE], out[at.REAR_TYRE] = f.tyre, r.tyre
    out[at.FRONT_SLOPE], out[at.REAR_SLOPE] = f.slope, r.slope
    for start, axle in ((at.FRONT_AXLE, f), (at.REAR_AXLE, r)):
        out[start + at.SPRING], out[start + at.GAS], out[start + at.PRELOAD] = axle.spring, axle.gas, axle.preload
        out[start + at.BUMP], out[start + at.DROOP] = axle.bump, axle.droop
        out[start + at.STOP_RATE] = axle.stop_rate
    out[at.FRONT_DRIVEN], out[at.REAR_DRIVEN] = driven.front, driven.rear
    out[at.DRIVEN_STATIC], out[at.DRIVEN_CHANGE] = driven.static, driven.change
    return out


def pack(damping: Sides) -> FloatArray:
    """Return hinge sums of m settings as the compiled half-car takes them, shape (blocks, BLOCK). [SI]

    The last block is filled up with its last setting.
    """
    m = damping.settings
    index = np.minimum(np.arange(-(-m // LANES) * LANES), m - 1)
    out = np.empty((len(index) // LANES, BLOCK))
    for i, side in enumerate(damping):
        both = np.concatenate([side.knots, side.gains], axis=1)[index]
        lanes = both.reshape(-1, LANES, 2 * HINGES).transpose(0, 2, 1)
        out[:, i * SIDE : (i + 1) * SIDE] = lanes.reshape(len(out), SIDE)
    return out
