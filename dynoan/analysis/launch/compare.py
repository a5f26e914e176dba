"""What a launch of one setting is found to be, with its band, and whether two of them differ."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from dynoan.analysis.launch.assumptions import ENERGY_MISS, KEPT
from dynoan.analysis.launch.hinges import NOMINAL, AxleDamping, axle_damping
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import Sides
from dynoan.analysis.launch.trace import Trace
from dynoan.analysis.statistics import t_quantile
from dynoan.model.arrays import FloatArray
from dynoan.model.car import AXLES, Car
from dynoan.model.curve import Curve

#: a half fraction of low (-1) and high (1) of the four sides: any three vary independently, all low and all high in it
_EIGHT = tuple((a, b, c, a * b * c) for a in (-1, 1) for b in (-1, 1) for c in (-1, 1))
_LEVELS = ((NOMINAL,) * 4, *(tuple(NOMINAL + sign for sign in signs) for signs in _EIGHT))


#: best and worst closer than this share: nothing decides between them [1]; judged, no source
NO_DIFFERENCE = 0.005


@dataclass(frozen=True)
class LaunchRun:
    """One setting on one scene."""

    label: str
    metrics: Mapping[str, float]
    low: Mapping[str, float]  #: least of each figure over the bands of the curves
    high: Mapping[str, float]
    trace: Mapping[str, FloatArray]  #: of the nominal curves, the unit in each name
    warnings: tuple[str, ...] = ()
    setting: str = ""  #: what is on the car, in words
    surface: str = ""  #: its name
    #: each figure with the nominal curves and with each combination of the ends of their bands, the same order always
    levels: Mapping[str, FloatArray] = field(default_factory=dict)
    #: figures that the road decides, with the nominal curves on each of many roads, the same for every setting
    roads: Mapping[str, FloatArray] = field(default_factory=dict)
    #: how far each figure moves with each uncertain value of the car at its lower, then at its upper end, shape (n, 2)
    of_car: Mapping[str, FloatArray] = field(default_factory=dict)
    #: least and most of what `trace` has, over the bands of the curves and the ± of the car
    trace_low: Mapping[str, FloatArray] = field(default_factory=dict)
    trace_high: Mapping[str, FloatArray] = field(default_factory=dict)


def car_damping(car: Car, curves: Mapping[str, Curve]) -> tuple[AxleDamping, AxleDamping]:
    """Return the damping of the front and of the rear axle.

    Parameters
    ----------
    curves
        At each corner, by its name.
    """
    both = [
        axle_damping([curves[c.name] for c in car.axle(axle)], [c.shock_ratio for c in car.axle(axle)])
        for axle in AXLES
    ]
    return both[0], both[1]


def banded_levels(levels: Sides) -> Sides:
    """Return the nominal dampers, then the combinations of the ends of their bands, of one setting's three levels."""
    return Sides(*(side.take([level[i] for level in _LEVELS]) for i, side in enumerate(levels)))


def kept_trace(
    trace: Trace, half: HalfCar, damping: tuple[AxleDamping, AxleDamping], row: int = 0
) -> dict[str, FloatArray]:
    """Return what is kept of a run for pictures, at every `KEPT` seconds. [SI, the unit in each name]

    Parameters
    ----------
    trace
        Of the nominal curves first, then the combinations of the ends of their bands.
    half, damping
        The car, and what its front and rear axle have.
    row
        Which of them.
    """
    every = max(round(KEPT / (trace.time[1] - trace.time[0])), 1)
    out = {"time_s": trace.time, "pitch_rad": trace.pitch[row], "heave_m": trace.heave[row]}
    for axle, name, moved in zip(damping, AXLES, (trace.front, trace.rear), strict=True):
        out |= {
            f"{name}_rise_m": moved.rise[row], f"{name}_travel_m": moved.travel[row],
            f"{name}_load_n": moved.load[row], f"{name}_drive_n": moved.drive[row],
            f"{name}_shock_velocity_m_s": moved.velocity[row] * axle.ratio, f"{name}_damper_n": moved.damper[row],
            f"{name}_road_m": moved.road,
        }  # fmt: skip
    front, pressed = trace.front, half.front.static_load / half.front.tyre
    out["front_wheel_height_m"] = np.maximum(front.wheel[row] - front.road - pressed, 0.0)
    return {name: np.asarray(values[::every]) for name, values in out.items()}


def launch_warnings(figures: Mapping[str, float], scene: Scene) -> tuple[str, ...]:
    """Return what to be careful of in the figures of a run, in words."""
    out = []
    for axle in AXLES:
        beyond = figures[f"{axle}_beyond_tested_s"]
        if beyond > 0:
            fast = max(figures[f"{axle}_shock_compression_peak_m_s"], figures[f"{axle}_shock_rebound_peak_m_s"])
            out.append(
                f"{axle} shocks move faster than any test for {beyond:.2f} s (up to {fast:.2f} m/s): "
                "the curve's last slope was carried on there"
            )
    if figures["beyond_grip_s"] > 0 and not scene.drive.limited:
        out.append(
            f"the acceleration given asks for more than {scene.surface.name} grips for {figures['beyond_grip_s']:.2f} s"
        )
    if figures["energy_miss_pct"] > ENERGY_MISS:
        out.append(f"the energy of the run is off by {figures['energy_miss_pct']:.2f} %: take the figures with care")
    return tuple(out)


def apart(a: LaunchRun, b: LaunchRun, key: str, *, paired: bool) -> bool:
    """Return whether two runs differ in a figure beyond the bands of their curves and the luck of a road.

    A figure that the road decides must differ beyond the scatter between the roads, all of which both met. Where the
    same curves are on both, what is not known of them is the same on both sides: the difference must then
    have one sign in every combination of the ends of their bands; else the bands must not touch. What is not known of
    the car itself counts as far as it moves the two differently. What roads, curves and car leave open adds by its
    squares, so that no difference is called sure whose limits (`differences.difference`) reach to nothing.
    """
    room = 0.0
    if key in a.roads and key in b.roads:
        off = np.asarray(b.roads[key]) - np.asarray(a.roads[key])
        room = t_quantile(0.975, len(off) - 1) * float(np.std(off, ddof=1)) / np.sqrt(len(off))
        if not abs(float(np.mean(off))) > room:
            return False  # which is better hangs on the road
    change = abs(b.metrics[key] - a.metrics[key])
    if paired and a.levels and b.levels:
        off = np.asarray(b.levels[key]) - np.asarray(a.levels[key])
        gap = float(np.abs(off).min()) if np.all(off > 0) or np.all(off < 0) else 0.0
    else:
        (a_low, a_high), (b_low, b_high) = (of_curves(run, key) for run in (a, b))
        gap = max(b_low - a_high, a_low - b_high)
    return bool(gap > 0 and change > np.linalg.norm([change - gap, car_apart(a, b, key), room]))


def of_curves(run: LaunchRun, key: str) -> tuple[float, float]:
    """Return the band that the curves alone give, where the car's own values are held apart. [of the figure]

    Parameters
    ----------
    run, key
        A run, and the figure's key.
    """
    if key in run.of_car and key in run.levels:
        known = np.asarray(run.levels[key])
        known = known[np.isfinite(known)]
        if len(known):
            return float(np.min(known)), float(np.max(known))
    return run.low[key], run.high[key]


def car_apart(a: LaunchRun, b: LaunchRun, key: str) -> float:
    """Return what the car's uncertain values leave open of a difference: what moves both alike leaves nothing open.

    Of the figure's unit. [SI]

    Parameters
    ----------
    a, b, key
        Two runs, and the figure's key.
    """
    one, two = (run.of_car.get(key, np.zeros((0, 2))) for run in (a, b))
    if one.shape != two.shape:
        return float(np.linalg.norm([*np.abs(one).max(axis=1), *np.abs(two).max(axis=1)]))
    return float(np.linalg.norm(np.abs(two - one).max(axis=1))) if len(one) else 0.0
