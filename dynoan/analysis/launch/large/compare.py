"""One setting leaving the line at large angles: figures, bands, roads and trace, as `launch.compare` has them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, NamedTuple

import numpy as np

from dynoan.analysis.launch.assumptions import COARSE_STEP, DRAWN_ROADS, FASTEST_TREAD
from dynoan.analysis.launch.compare import LaunchRun, banded_levels, kept_trace, launch_warnings
from dynoan.analysis.launch.hinges import NOMINAL, AxleDamping
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.model import LargeCar
from dynoan.analysis.launch.large.rows import RowsMotion, run
from dynoan.analysis.launch.large.tyre import SPINNING_SLIP, load_sensitivity
from dynoan.analysis.launch.metrics import LEVEL, body_figures, metrics
from dynoan.analysis.launch.scene import Scene, level
from dynoan.analysis.launch.sides import Sides, sides
from dynoan.analysis.launch.trace import AxleTrace, Trace
from dynoan.analysis.statistics import Z95
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray

#: made-up roads every setting meets, so that none is judged by its luck on one; judged
ROADS = 12
#: time step of a launch that is shown [s] (numerics): pitch and travels within 1e-5 of their range on a rough road,
#: see `tests/benchmarks/bench_large_launch.py`; searches and spreads take `rows.STEP`
EXACT_STEP = 5e-4
#: what of a trace has a band
SHADED = ("front_rise_m", "rear_rise_m", "front_load_n", "rear_load_n", "front_shock_velocity_m_s",
          "rear_shock_velocity_m_s", "front_wheel_height_m")  # fmt: skip
#: figures that hang on the road more than on the setting: their mean over the roads is given
OF_THE_ROAD = {"driven_load_rms_n": at.LOAD_SQUARES, "wheelspin_s": at.SPUN, "distance_m": at.DISTANCE,
               "speed_end_m_s": at.SPEED}  # fmt: skip
#: of these, what a road does in proportion; the others it adds to or takes from
_AS_A_SHARE = "driven_load_rms_n"


def launch_large(car: LargeCar, scene: Scene, damping: tuple[AxleDamping, AxleDamping], label: str = "") -> LaunchRun:
    """Return one setting on one scene: figures, bands, what many roads make of it, and the trace.

    Parameters
    ----------
    car
        At large angles.
    scene
        Drive, ground and time.
    damping
        Front and rear axle.
    label
        What to call the setting.

    Returns
    -------
    :
        As `launch.compare.launch`; figures that the road decides are means over `ROADS` roads. Where the car goes over
        all figures but when it does are NaN: no model of this kind knows what comes then.

    Raises
    ------
    QuantityError
        If the car does not stay finite.
    """
    levels = banded_levels(sides(*damping))
    count = levels.settings
    still = level(scene)
    found = run(car, levels, (scene, still), [(i, n) for n in (0, 1) for i in range(count)], keep=True, step=EXACT_STEP)
    if not np.all(np.isfinite(found.states)):
        raise QuantityError(
            f"the launch of {label or 'this car'} does not stay finite", hint="check masses, rates and ratios"
        )
    rough, alone = (_traced(car, s, _part(found, n * count, count)) for n, s in ((0, scene), (1, still)))
    figures = _figures(car, scene, damping, (rough, alone), _part(found, 0, count))
    roads = _roads(car, scene, levels.take([0]), figures)
    over = figures["goes_over_s"]
    gone = np.isfinite(over)
    figures = {k: v if k == "goes_over_s" else np.where(gone, np.nan, v) for k, v in figures.items()}
    nominal = {k: float(v[0]) for k, v in figures.items()}
    spoken = () if gone[0] else (*launch_warnings(nominal, scene), *_spun_up(car, scene, found))
    if gone.any() and not gone[0]:
        spoken = (
            *spoken,
            f"{label or 'the car'} may go over on {scene.surface.name}: it does within the bands of the curves",
        )
    low, high = ({k: _end(f, v) for k, v in figures.items()} for f in (np.min, np.max))
    traces = [_until(kept_trace(rough, car.half, damping, row), float(over[0])) for row in range(count)]
    ends = [{name: np.asarray(end([t[name] for t in traces], axis=0)) for name in SHADED} for end in (np.min, np.max)]
    return LaunchRun(label, nominal, low, high, traces[0], spoken, surface=scene.surface.name, levels=figures,
                     roads=roads, trace_low=ends[0], trace_high=ends[1])  # fmt: skip


def _spun_up(car: LargeCar, scene: Scene, found: RowsMotion) -> tuple[str, ...]:
    """Return that wheels spin up faster than any engine turns them, where a torque without an engine does that."""
    most = car.radius * float(np.max(found.states[0, [at.FRONT_SPIN, at.REAR_SPIN]]))
    if scene.drive.turning is None or most <= FASTEST_TREAD:
        return ()
    return (
        f"the driven wheels spin up to {3.6 * most:.0f} km/h on {scene.surface.name}: no gear does that, and what they "
        "do to the loads is too much; a smaller torque, or [engine] with its limit in the car's file, keeps them real",
    )


def _figures(
    car: LargeCar, scene: Scene, damping: tuple[AxleDamping, AxleDamping], traces: tuple[Trace, Trace],
    found: RowsMotion,
) -> dict[str, FloatArray]:  # fmt: skip
    """Return every figure of rows on one road, and what the drive alone does, each of shape (m,)."""
    rough, alone = traces
    figures = metrics(car.half, rough, damping, scene.surface.grip, load_sensitivity(scene.surface)) | _of_large(
        car, scene, found
    )
    figures |= _left_and_right(car, figures)
    return figures | {f"level_{name}": values for name, values in body_figures(alone).items() if name in LEVEL}


class Nominal(NamedTuple):
    """A launch of the nominal curves alone, for a car that is held beside others."""

    figures: dict[str, float]  #: by key, SI; all but `goes_over_s` NaN where the car goes over
    trace: dict[str, FloatArray]  #: a run that goes over ends there


def nominal(car: LargeCar, scene: Scene, damping: tuple[AxleDamping, AxleDamping]) -> Nominal:
    """Return figures and trace of the nominal curves; what the road decides is a mean over `DRAWN_ROADS` roads.

    Parameters
    ----------
    car, scene, damping
        As of `launch_large`.

    Raises
    ------
    QuantityError
        If the car does not stay finite.
    """
    levels, still = sides(*damping).take([NOMINAL]), level(scene)
    found = run(car, levels, (scene, still), [(0, 0), (0, 1)], keep=True)
    if not np.all(np.isfinite(found.states)):
        raise QuantityError("a car within the ± does not stay finite")
    one, two = _part(found, 0, 1), _part(found, 1, 1)
    rough = _traced(car, scene, one)
    figures = _figures(car, scene, damping, (rough, _traced(car, still, two)), one)
    if scene.surface.roughness:
        scenes = [replace(scene, seed=scene.seed + n) for n in range(DRAWN_ROADS)]
        each = run(car, levels, scenes, [(0, n) for n in range(DRAWN_ROADS)], keep=False, step=COARSE_STEP).figures
        figures |= {k: np.mean(each[:, [w]], axis=0) for k, w in OF_THE_ROAD.items() if np.isfinite(figures[k][0])}
    over = float(figures["goes_over_s"][0])
    values = {k: float(v[0]) if k == "goes_over_s" or np.isnan(over) else np.nan for k, v in figures.items()}
    values["driven_load_rms_roads_n"] = 0.0
    return Nominal(values, _until(kept_trace(rough, car.half, damping), over))


def _end(which: Callable[[FloatArray], Any], values: FloatArray) -> float:
    known = values[np.isfinite(values)]
    return float(which(known)) if len(known) and np.isfinite(values[0]) else float("nan")


def _part(found: RowsMotion, begin: int, count: int) -> RowsMotion:
    cut = slice(begin, begin + count)
    return RowsMotion(found.time, found.states[cut], found.kept[cut], found.figures[cut])


def _until(trace: Mapping[str, FloatArray], over: float) -> dict[str, FloatArray]:
    """Return a trace up to where the car goes over."""
    last = trace["time_s"] <= over if np.isfinite(over) else slice(None)
    return {name: values[last] for name, values in trace.items()}


def _traced(car: LargeCar, scene: Scene, found: RowsMotion) -> Trace:
    """Return the motion as the figures take it, heights and rises as at small angles."""
    y, half = found.states, car.half
    sine, cosine = np.sin(y[:, at.PITCH]), np.cos(y[:, at.PITCH])
    heave, rate, turning = y[:, at.Z] - car.height, y[:, at.RATES + at.Z], y[:, at.RATES + at.PITCH]
    asked = np.interp(found.time, scene.drive.time, scene.drive.asked) * half.frame.mass
    axles = []
    for i, (axle, arm) in enumerate(((half.front, half.arms.front), (half.rear, -half.arms.rear))):
        kept = found.kept
        axles.append(
            AxleTrace(
                rise=heave + arm * sine, rise_rate=rate + arm * cosine * turning, wheel=kept[:, at.WHEEL + i],
                travel=y[:, at.FRONT + i], velocity=y[:, at.RATES + at.FRONT + i], load=kept[:, at.LOAD + i],
                drive=kept[:, at.FORCE + i], damper=kept[:, at.DAMPER + i], road=kept[0, at.ROAD + i],
                wanted=asked * axle.share,
            )
        )  # fmt: skip
    return Trace(found.time, heave, rate, y[:, at.PITCH], turning, axles[0], axles[1], found.energy_off)


def _of_large(car: LargeCar, scene: Scene, found: RowsMotion) -> dict[str, FloatArray]:
    """Return the figures that only large angles have, each of shape (m,)."""
    kept, step, g = found.kept, found.time[1] - found.time[0], found.figures
    slip = np.maximum(kept[:, at.SLIP], kept[:, at.SLIP + 1])
    out = {
        "front_wheel_height_m": np.maximum(g[:, at.FRONT_HEIGHT], 0.0),
        "goes_over_s": g[:, at.OVER].copy(),
        "distance_m": g[:, at.DISTANCE].copy(),
        "speed_end_m_s": g[:, at.SPEED].copy(),
        "wheelie_bar_n": kept[:, at.BAR].max(axis=1) if car.bar is not None else np.full(len(kept), np.nan),
    }
    most = kept[:, at.FORCE].max(axis=1) + kept[:, at.FORCE + 1].max(axis=1)
    out["shaft_moves_n"] = np.full(len(kept), np.nan) if car.reaction is None else most * car.reaction
    if scene.drive.turning is not None:
        out["wheelspin_s"] = np.count_nonzero(slip[:, :-1] > SPINNING_SLIP, axis=1) * step
    else:
        out["wheelspin_s"] = np.full(len(kept), np.nan)
    return out


def _left_and_right(car: LargeCar, figures: dict[str, FloatArray]) -> dict[str, FloatArray]:
    """Return the loads of the driven axle's tyres at the end, with what the driveshaft moves between them."""
    names = ("driven_left_load_end_n", "driven_right_load_end_n")
    axle = figures["front_load_end_n" if car.half.driven == "front" else "rear_load_end_n"]
    if car.reaction is None:
        return dict.fromkeys(names, np.full(len(axle), np.nan))
    force = figures["acceleration_end_m_s2"] * car.half.frame.mass
    off = np.clip(car.uneven / 2 + car.reaction * force, -axle / 2, axle / 2)  # an unloaded tyre does not pull
    return dict(zip(names, (axle / 2 + off, axle / 2 - off), strict=True))


def _roads(car: LargeCar, scene: Scene, nominal: Sides, figures: dict[str, FloatArray]) -> dict[str, FloatArray]:
    """Return figures on each of many roads, and put their means in the place of one road's."""
    figures["driven_load_rms_roads_n"] = np.zeros_like(figures[_AS_A_SHARE])
    if not scene.surface.roughness:
        return {}
    scenes = [replace(scene, seed=scene.seed + n) for n in range(ROADS)]
    found = run(car, nominal, scenes, [(0, n) for n in range(ROADS)], keep=False).figures
    out = {}
    for key, where in OF_THE_ROAD.items():
        each = found[:, where]
        if not np.all(np.isfinite(figures[key])):
            continue  # no such figure of this drive
        out[key] = each
        if key == _AS_A_SHARE:
            figures[key] = figures[key] * (np.mean(each) / each[0] if each[0] > 0 else 1.0)
            open_ = Z95 * np.std(each, ddof=1) / np.sqrt(len(each))
            figures["driven_load_rms_roads_n"] = np.full(len(figures[key]), open_)
        else:
            figures[key] = np.maximum(figures[key] + np.mean(each) - each[0], 0.0)
    return out
