"""How sure a launch is of the car's own values: cars drawn from its ±, every ± turned to its ends, and what to measure.

What no car's file has a ± of counts too (`not_in_file`): the friction that the dyno told, how the drive comes in.
The band of every figure holds what cars drawn from the ± of the file do (`analysis.launch.unsure`), beside the curves':
the squares added. Every value with a ± is moved to both its ends, too, one after the other, all else as stated: the
largest shift says what to measure first. Nothing is fitted for it: a changed car keeps its curves. Some 0.02 s a car,
2 for each value and 24 drawn (4 a value where there are more than 6).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.analysis.launch.compare import LaunchRun
from dynoan.analysis.launch.large.compare import SHADED, Nominal, launch_large, nominal
from dynoan.analysis.launch.unsure import draws, open_to
from dynoan.analysis.statistics import Z95
from dynoan.errors import DynoanError
from dynoan.jobs.launch.not_in_file import anything, ends_of
from dynoan.library.car_changes import moved, shifted_car
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Car, Surface

if TYPE_CHECKING:
    from dynoan.jobs.launch.drive import RunAsked
    from dynoan.jobs.launch.settings import LaunchCase

#: figures that say how well the reckoning or the roads serve, not what the car does
NOT_OF_CAR = ("energy_miss_pct", "driven_load_rms_roads_n", "goes_over_s")


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


@dataclass(frozen=True)
class Unsure:
    """What a car's uncertain values do to its launch on one surface."""

    shifts: tuple[Shift, ...] = ()  #: of each value alone
    #: change of each figure with each of the cars drawn; not-a-number where such a car has no such figure
    drawn: Mapping[str, FloatArray] = field(default_factory=dict)
    #: least of each figure over all the cars, the stated one too
    least: Mapping[str, float] = field(default_factory=dict)
    #: what no car's file has a ± of, see `not_in_file`
    beside: tuple[Shift, ...] = ()
    may_go_over: bool = False  #: some drawn car does, the stated one not

    @property
    def all(self) -> tuple[Shift, ...]:
        """Values of the car's file, of the dyno and of the drive."""
        return (*self.shifts, *self.beside)

    def lowest(self, name: str, value: float) -> float:
        """Return the least of a figure over all the cars, given that of the stated one. [as it]"""
        return min(self.least.get(name, value), value)


def unsure_of(case: LaunchCase, asked: RunAsked, surface: Surface, said: list[str]) -> Unsure:
    """Return what the ± of a car do to its launch; a value that cannot be moved is told in `said`."""
    here = case.car.surfaces.get(surface.name, surface)
    if not case.car.plus_minus and not anything(case, asked, here):
        return Unsure()
    base = _found(case, case.car, asked, surface)
    shifts = []
    for key, half_width in case.car.plus_minus.items():
        try:
            ends = [_found(case, moved(case.car, key, sign), asked, surface) for sign in (-1.0, 1.0)]
        except DynoanError as error:
            said.append(f"{key} ±: {error.text}")
            continue
        shifts.append(_shift(key, half_width, base, ends))
    found = _drawn(case, base, shifts, (asked, surface))
    open_ = ends_of(case, asked, here)
    beside = tuple(_shift(e.key, e.half_width, base, e.found) for e in open_)
    return replace(found, beside=beside, least=_least(found.least, base, [of for e in open_ for of in e.found]))


def _least(known: Mapping[str, float], base: Nominal, others: Sequence[Nominal]) -> dict[str, float]:
    """Return the least of each figure over what is known, the stated car and others. [as it]"""
    return {
        name: min(known.get(name, value), value, *_finite(np.array([of.figures[name] for of in others])))
        for name, value in base.figures.items()
    }


def _shift(key: str, half_width: float, base: Nominal, ends: Sequence[Nominal]) -> Shift:
    low, high = ({name: end.figures[name] - value for name, value in base.figures.items()} for end in ends)
    return Shift(key, half_width, _known(low), _known(high), (_moves(base, ends[0]), _moves(base, ends[1])))


def _drawn(case: LaunchCase, base: Nominal, shifts: Sequence[Shift], where: tuple[RunAsked, Surface]) -> Unsure:
    """Return the spread over cars drawn from the ± that could be moved alone."""
    if not shifts:
        return Unsure()
    halves = np.array([shift.half_width for shift in shifts]) / Z95
    found = []
    for row in draws(len(shifts)) * halves:
        try:
            off = {shift.key: float(by) for shift, by in zip(shifts, row, strict=True)}
            found.append(_found(case, shifted_car(case.car, off), *where).figures)
        except DynoanError:
            continue  # no such car can be, so none stands there
    drawn = {name: np.array([of[name] for of in found]) - value for name, value in base.figures.items()}
    least = {
        name: value + min(0.0, *_finite(drawn[name]), *(s.low[name] for s in shifts), *(s.high[name] for s in shifts))
        for name, value in base.figures.items()
    }  # fmt: skip
    over = any(np.isfinite(of["goes_over_s"]) for of in found) and not np.isfinite(base.figures["goes_over_s"])
    return Unsure(tuple(shifts), drawn, least, may_go_over=over)


def _finite(values: FloatArray) -> list[float]:
    return [float(v) for v in values[np.isfinite(values)]]


def _found(case: LaunchCase, car: Car, asked: RunAsked, surface: Surface) -> Nominal:
    """Return figures and trace of the nominal curves on a car that is nearly that of the case."""
    from dynoan.jobs.launch.settings import changed_case

    return _of_case(case if car is case.car else changed_case(case, car), asked, surface)


def _of_case(case: LaunchCase, asked: RunAsked, surface: Surface) -> Nominal:
    scene = asked.scene(case, case.car.surfaces.get(surface.name, surface))
    return nominal(case.large, scene, case.damping)


def _known(changes: dict[str, float]) -> dict[str, float]:
    """Return changes, none where one of the two cars has no such figure."""
    return {name: value if np.isfinite(value) else 0.0 for name, value in changes.items()}


def _moves(base: Nominal, end: Nominal) -> dict[str, FloatArray]:
    whole = len(end.trace["time_s"]) == len(base.trace["time_s"])  # neither goes over before the other
    return {name: end.trace[name] - base.trace[name] for name in SHADED} if whole else {}


def widened(found: LaunchRun, of: Unsure) -> LaunchRun:
    """Return a run whose bands hold the car's own values too: the squares of all parts added."""
    if not of.all:
        return found
    low, high = dict(found.low), dict(found.high)
    for name, value in found.metrics.items():
        if name in NOT_OF_CAR or not np.isfinite(value):
            continue
        below, above = _reach(name, of)
        low[name] = value - float(np.hypot(value - low[name], below))
        high[name] = value + float(np.hypot(high[name] - value, above))
        if min(value, found.low[name], of.lowest(name, value)) >= 0:
            low[name] = max(low[name], 0.0)  # no car's figure is below it
        if name.endswith("_s") and not name.endswith(("m_s", "rad_s")):
            high[name] = min(high[name], max(value, float(found.trace["time_s"][-1])))  # no time is longer than the run
    of_car = {name: np.array([[s.low[name], s.high[name]] for s in of.all]) for name in of.all[0].low}
    said = f"{found.label or 'the car'} may go over on {found.surface}: it does within the ± of its file"
    return replace(
        found, low=low, high=high, of_car=of_car, trace_low=_shaded(found, of.all, -1.0),
        trace_high=_shaded(found, of.all, 1.0), warnings=(*found.warnings, *((said,) if of.may_go_over else ())),
    )  # fmt: skip


def _reach(name: str, of: Unsure) -> tuple[float, float]:
    """Return how far the cars reach below and above a figure: those drawn, or values moved alone where that is more."""
    drawn = open_to(of.drawn[name]) if name in of.drawn else (0.0, 0.0)
    alone, beside = ([_square_sum(each, name, way) for way in (-1.0, 1.0)] for each in (of.shifts, of.beside))
    below, above = (float(np.hypot(max(d, a), r)) for d, a, r in zip(drawn, alone, beside, strict=True))
    return below, above


def _square_sum(shifts: Sequence[Shift], name: str, way: float) -> float:
    return float(np.linalg.norm([max(way * s.low[name], way * s.high[name], 0.0) for s in shifts]))


def unsure_run(case: LaunchCase, asked: RunAsked, surface: Surface, said: list[str]) -> LaunchRun:
    """Return a setting's launch with bands of curves and of the car's ±; what cannot be moved is told in `said`."""
    found = launch_large(case.large, asked.scene(case, surface), case.damping, case.label)
    return widened(replace(found, setting=case.label), unsure_of(case, asked, surface, said))


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
