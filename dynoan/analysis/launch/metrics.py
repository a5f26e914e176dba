"""The figures of a launch, SI, the unit in each name; `jobs.launch.figures` says how people see them."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.launch.assumptions import BARELY, END, SETTLED, STATED_STOP
from dynoan.analysis.launch.hinges import AxleDamping
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.launch.trace import AxleTrace, Trace, energy_miss
from dynoan.analysis.road import felt_acceleration
from dynoan.model.arrays import BoolArray, FloatArray

#: figures also given from a run on level ground, as `level_` and the name: what the drive alone does
LEVEL = ("nose_rise_m", "nose_rise_rate_m_s", "rear_squat_m", "rear_lift_m", "pitch_peak_rad", "pitch_rate_peak_rad_s",
         "steady_after_s")  # fmt: skip


def metrics(
    half: HalfCar, trace: Trace, damping: tuple[AxleDamping, AxleDamping], grip: float, falls: float = 0.0
) -> dict[str, FloatArray]:
    """Return every figure for m settings by key, each of shape (m,). [SI, the unit in each key]

    NaN where the run cannot tell: no stop is known, or the pitch has not settled by the end.

    Parameters
    ----------
    damping
        Front and rear; for motion ratios and tested speeds.
    grip
        Of the surface, also where it does not limit the drive.
    falls
        By which power of a tyre's load over that at rest it falls. [1]
    """
    out = body_figures(trace) | _tyres(half, trace) | _travelled(half, trace, grip, falls)
    for name, axle, moved, curve in (
        ("front", half.front, trace.front, damping[0]),
        ("rear", half.rear, trace.rear, damping[1]),
    ):
        stops = {"on_bump_stop_s": (moved.travel > axle.bump, axle.bump), "on_droop_stop_s": (
            -moved.travel > axle.droop, axle.droop)}  # fmt: skip
        for key, (on, travel) in stops.items():
            out[f"{name}_{key}"] = _time(trace, on) if travel < STATED_STOP else np.full(len(on), np.nan)
        out |= {f"{name}_{key}": value for key, value in _shock(trace, moved, curve).items()}
    step = float(trace.time[1] - trace.time[0])
    shake = np.gradient(trace.heave_rate, step, axis=1)
    out["ride_felt_m_s2"] = np.array([felt_acceleration(row, step) for row in shake])
    off = energy_miss(half, trace) if trace.energy_off is None else trace.energy_off
    out["energy_miss_pct"] = 100 * off
    return out


def _time(trace: Trace, mask: BoolArray) -> FloatArray:
    return np.asarray(np.count_nonzero(mask[:, :-1], axis=1) * (trace.time[1] - trace.time[0]))


def _end(trace: Trace, values: FloatArray) -> FloatArray:
    late = trace.time >= trace.time[-1] * (1 - END)
    return np.asarray(values[:, late].mean(axis=1))


def body_figures(trace: Trace) -> dict[str, FloatArray]:
    """Return what the body does: rise, squat, pitch, and when it is steady; by key, each of shape (m,). [SI, by key]"""
    return {
        "nose_rise_m": trace.front.rise.max(axis=1),
        "nose_rise_rate_m_s": trace.front.rise_rate.max(axis=1),
        "nose_rise_end_m": _end(trace, trace.front.rise),
        "rear_squat_m": np.maximum(-trace.rear.rise, 0.0).max(axis=1),
        "rear_lift_m": np.maximum(trace.rear.rise, 0.0).max(axis=1),
        "pitch_peak_rad": trace.pitch.max(axis=1),
        "pitch_end_rad": _end(trace, trace.pitch),
        "pitch_rate_peak_rad_s": trace.pitch_rate.max(axis=1),
        "steady_after_s": _steady_after(trace),
    }


def _steady_after(trace: Trace) -> FloatArray:
    """Return when the pitch last was outside `SETTLED` of its end value; NaN where it never stays inside. [s]"""
    end = _end(trace, trace.pitch)
    outside = np.abs(trace.pitch - end[:, None]) > SETTLED * np.abs(end[:, None])
    last = outside.shape[1] - 1 - np.argmax(outside[:, ::-1], axis=1)
    time = np.where(outside.any(axis=1), trace.time[np.minimum(last + 1, len(trace.time) - 1)], 0.0)
    return np.asarray(np.where(time > trace.time[-1] * (1 - END), np.nan, time))


def _tyres(half: HalfCar, trace: Trace) -> dict[str, FloatArray]:
    driven = half.driven_loads
    load = driven.front * trace.front.load + driven.rear * trace.rear.load
    short = driven.static + driven.change * (trace.front.drive + trace.rear.drive) - load
    moved = (trace.rear.load - half.rear.static_load - trace.front.load + half.front.static_load) / 2
    dip = short[:, :-1].max(axis=1)
    return {
        "front_load_end_n": _end(trace, trace.front.load),
        "rear_load_end_n": _end(trace, trace.rear.load),
        "load_transfer_end_n": _end(trace, moved),
        "driven_load_least_n": load[:, :-1].min(axis=1),
        "driven_load_dip_n": dip,
        "driven_load_dip_pct": 100 * dip / driven.static,
        "driven_load_rms_n": np.sqrt((short[:, :-1] ** 2).mean(axis=1)),
        "front_wheel_lift_s": _time(trace, trace.front.load <= 0),
        "rear_wheel_lift_s": _time(trace, trace.rear.load <= 0),
    }


def _travelled(half: HalfCar, trace: Trace, grip: float, falls: float) -> dict[str, FloatArray]:
    force = trace.front.drive + trace.rear.drive
    step = trace.time[1] - trace.time[0]
    speed = np.cumsum(force[:, :-1], axis=1) * step / half.frame.mass
    limited = np.zeros(force.shape, dtype=bool)
    beyond = np.zeros(force.shape, dtype=bool)
    for axle, moved in ((half.front, trace.front), (half.rear, trace.rear)):
        limited |= np.abs(moved.drive) < np.abs(moved.wanted) - BARELY
        most = grip * axle.static_load * (moved.load / axle.static_load) ** (1.0 - falls)
        beyond |= np.abs(moved.drive) > most + BARELY
    return {
        "drive_force_mean_n": force[:, :-1].mean(axis=1),
        "acceleration_end_m_s2": _end(trace, force) / half.frame.mass,
        "speed_end_m_s": speed[:, -1],
        "distance_m": speed.sum(axis=1) * step,
        "grip_limited_s": _time(trace, limited),
        "beyond_grip_s": _time(trace, beyond),
    }


def _shock(trace: Trace, moved: AxleTrace, curve: AxleDamping) -> dict[str, FloatArray]:
    v = moved.velocity * curve.ratio
    fast = (v > curve.tested["compression"]) | (-v > curve.tested["rebound"])
    return {
        "shock_compression_peak_m_s": np.maximum(v, 0.0).max(axis=1),
        "shock_rebound_peak_m_s": np.maximum(-v, 0.0).max(axis=1),
        "shock_rms_m_s": np.sqrt((v**2).mean(axis=1)),
        "beyond_tested_s": _time(trace, fast),
    }
