"""How sure a launch is of the car's own values: each ± turned to its ends, its part of the band, and what to measure.

Every value with a ± in the car's file is moved to both its ends, one after the other, all else as stated; the shifts of
a figure are taken as independent, so that their squares add to the band of the curves. The largest says what to measure
first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.analysis.launch.assumptions import END
from dynoan.analysis.launch.compare import LaunchRun
from dynoan.analysis.launch.drive import level
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.compare import SHADED, launch_large, nominal_trace
from dynoan.analysis.launch.large.rows import run
from dynoan.analysis.launch.run import sides
from dynoan.errors import DynoanError
from dynoan.library.car_changes import moved
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Car, Surface

if TYPE_CHECKING:
    from dynoan.jobs.launch_drive import RunAsked
    from dynoan.jobs.launch_settings import LaunchCase
    from dynoan.workbench import Workbench

#: the figures whose band holds the car's own values too: from the drive alone, and on the road
FIGURES: Mapping[str, tuple[int, bool]] = {
    "level_nose_rise_m": (at.NOSE_RISE, True), "level_nose_rise_rate_m_s": (at.NOSE_RATE, True),
    "level_rear_squat_m": (at.TAIL_SQUAT, True), "level_rear_lift_m": (at.TAIL_LIFT, True),
    "level_pitch_peak_rad": (at.PITCH_PEAK, True), "front_wheel_height_m": (at.FRONT_HEIGHT, False),
    "driven_load_least_n": (at.LOAD_LEAST, False), "distance_m": (at.DISTANCE, False),
    "speed_end_m_s": (at.SPEED, False), "wheelspin_s": (at.SPUN, False),
}  # fmt: skip
ACCELERATION = "acceleration_end_m_s2"  #: taken from the trace, as no figure of a row has it
#: all figures whose band holds the car's own values
OF_CAR = (*FIGURES, ACCELERATION)


@dataclass(frozen=True)
class Shift:
    """What one uncertain value does to the figures of a run."""

    key: str  #: of the car's file
    half_width: float  #: its ±, SI
    low: Mapping[str, float]  #: change of each figure with the value at its lower end
    high: Mapping[str, float]  #: at its upper end
    #: change of what a trace shows, at the lower and at the upper end
    traces: tuple[Mapping[str, FloatArray], Mapping[str, FloatArray]] = field(default=({}, {}), compare=False)

    def size(self, figure: str) -> float:
        """Return the larger of the two shifts of a figure, a magnitude. [of the figure]"""
        return max(abs(self.low[figure]), abs(self.high[figure]))

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain values."""
        return {"key": self.key, "half_width": self.half_width, "low": dict(self.low), "high": dict(self.high)}


def shifts(bench: Workbench, case: LaunchCase, asked: RunAsked, surface: Surface, said: list[str]) -> tuple[Shift, ...]:
    """Return what each uncertain value of a car does to its launch; a value that cannot be moved is told in `said`."""
    base, lines = _figures(bench, case, case.car, asked, surface)
    out = []
    for key, half_width in case.car.plus_minus.items():
        ends, moves = [], []
        for sign in (-1.0, 1.0):
            try:
                found, there = _figures(bench, case, moved(case.car, key, sign), asked, surface)
            except DynoanError as error:
                said.append(f"{key} ±: {error.text}")
                break
            ends.append({name: found[name] - base[name] for name in OF_CAR})
            whole = len(there["time_s"]) == len(lines["time_s"])  # neither goes over before the other
            moves.append({name: there[name] - lines[name] for name in SHADED} if whole else {})
        if len(ends) == 2:
            out.append(Shift(key, half_width, ends[0], ends[1], (moves[0], moves[1])))
    return tuple(out)


def _figures(
    bench: Workbench, case: LaunchCase, car: Car, asked: RunAsked, surface: Surface
) -> tuple[dict[str, float], dict[str, FloatArray]]:
    """Return figures and trace of the nominal curves on a car that is nearly that of the case."""
    from dynoan.jobs.launch_settings import launch_case

    changed = case if car is case.car else launch_case(bench, car, case.label)
    scene = asked.scene(changed, car.surfaces.get(surface.name, surface))
    nominal = sides(*changed.damping).take([1])
    found = run(changed.large, nominal, [scene, level(scene)], [(0, 0), (0, 1)], keep=True)
    values = {name: float(found.figures[int(alone), where]) for name, (where, alone) in FIGURES.items()}
    values["front_wheel_height_m"] = max(values["front_wheel_height_m"], 0.0)
    lines = nominal_trace(changed.large, scene, changed.damping, found)
    values[ACCELERATION] = _end_drive(lines) / changed.large.half.frame.mass
    return values, lines


def _end_drive(lines: Mapping[str, FloatArray]) -> float:
    """Return the mean force of all driven tyres at the end of a trace. [N]"""
    late = lines["time_s"] >= lines["time_s"][-1] * (1 - END)
    return float((lines["front_drive_n"] + lines["rear_drive_n"])[late].mean())


def widened(found: LaunchRun, of: Sequence[Shift]) -> LaunchRun:
    """Return a run whose bands hold the car's own values too: the squares of all parts added."""
    if not of:
        return found
    low, high = dict(found.low), dict(found.high)
    for name in OF_CAR:
        value = found.metrics[name]
        below = [min(s.low[name], s.high[name], 0.0) for s in of]
        above = [max(s.low[name], s.high[name], 0.0) for s in of]
        low[name] = value - float(np.hypot(value - low[name], np.linalg.norm(below)))
        high[name] = value + float(np.hypot(high[name] - value, np.linalg.norm(above)))
        if name.endswith(("_m", "_s", "_n")) and value >= 0:
            low[name] = max(low[name], 0.0)
    of_car = {name: np.array([[s.low[name], s.high[name]] for s in of]) for name in OF_CAR}
    return replace(
        found, low=low, high=high, of_car=of_car, trace_low=_shaded(found, of, -1.0), trace_high=_shaded(found, of, 1.0)
    )


def unsure_run(bench: Workbench, case: LaunchCase, asked: RunAsked, surface: Surface, said: list[str]) -> LaunchRun:
    """Return a setting's launch with bands of curves and of the car's ±; what cannot be moved is told in `said`."""
    found = launch_large(case.large, asked.scene(case, surface), case.damping, case.label)
    return widened(replace(found, setting=case.label), shifts(bench, case, asked, surface, said))


def _shaded(found: LaunchRun, of: Sequence[Shift], way: float) -> dict[str, FloatArray]:
    """Return one side of the bands of a trace, the car's own values in it: linearised, all squares added."""
    out = {}
    for name, end in (found.trace_low if way < 0 else found.trace_high).items():
        nominal = found.trace[name]
        parts = [np.abs(end - nominal)]
        for shift in of:
            moves = [one[name] for one in shift.traces if name in one and len(one[name]) == len(nominal)]
            parts += [np.maximum.reduce([way * move for move in moves] + [np.zeros_like(nominal)])]
        out[name] = np.asarray(nominal + way * np.linalg.norm(parts, axis=0))
    if way < 0 and "front_wheel_height_m" in out:
        out["front_wheel_height_m"] = np.maximum(out["front_wheel_height_m"], 0.0)
    return out
