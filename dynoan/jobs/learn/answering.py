"""What logged launches tell of a car's uncertain values, and whether they predict a launch that was left out."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np

from dynoan.analysis.learning.fitting import LearnFit, LearnScene, fit_launches
from dynoan.analysis.learning.judging import LearnedValue, LearnVerdict, LeftOut, learned_values, left_out, verdict_of
from dynoan.analysis.learning.logged import CHANNELS, LoggedLaunch
from dynoan.analysis.learning.values import uncertain_values
from dynoan.cautions import CLOSED_COURSE
from dynoan.errors import CallError
from dynoan.jobs.answering import Answer
from dynoan.jobs.assumptions import MISFIT
from dynoan.jobs.learn.logs import OF_CAR, LearnHints, LearnLog, learn_log
from dynoan.jobs.travel.asked import TravelScale, by_corner
from dynoan.library.car_edit import LineChange
from dynoan.library.car_learned import NewValue
from dynoan.model.car import Car
from dynoan.model.log import Log
from dynoan.units import SI_UNITS

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

__all__ = ["LearnAnswer", "LearnQuestion", "answer"]
MOST_LOGS = 20


@dataclass(frozen=True)
class LearnQuestion:
    """Logs of launches, of which car and on which of its surfaces."""

    logs: tuple[Log, ...]
    car: str
    surface: str
    hints: LearnHints = field(default_factory=LearnHints)
    write: bool = False  #: whether what the logs tell goes into the car's file

    @classmethod
    def asked(
        cls, logs: Sequence[Log], *, car: str, surface: str, corner: Mapping[str, str] | None = None,
        scale: str | Mapping[str, str] | None = None, zero: str | Mapping[str, str] | None = None, write: bool = False,
    ) -> LearnQuestion:  # fmt: skip
        """Return the question from values as people give them; "acceleration" and "speed" may stand among the corners.

        Raises
        ------
        CallError
            If there is no log or there are too many, or a key is no corner.
        QuantityError
            If a scale is none.
        """
        if not 1 <= len(logs) <= MOST_LOGS:
            raise CallError(f"{len(logs)} logs", hint=f"give 1 to {MOST_LOGS}, a launch each")
        scales = {
            c: TravelScale.parsed(text, OF_CAR.get(c, "length"))
            for c, text in by_corner(scale, "scale", OF_CAR).items()
        }
        hints = LearnHints(by_corner(corner, "corner", OF_CAR), scales, by_corner(zero, "zero", OF_CAR))
        return cls(tuple(logs), car, surface, hints, write)


@dataclass(frozen=True)
class LearnAnswer(Answer):
    """What the logs tell of the car."""

    job: ClassVar[str] = "learn"
    question: LearnQuestion
    logs: tuple[LearnLog, ...]
    values: tuple[LearnedValue, ...]
    fit: LearnFit
    tried: LeftOut | None  #: None where there is one launch alone, or no shock was logged
    changes: tuple[LineChange, ...]  #: of the car's file: written, or to be written
    written: bool
    sound: bool  #: whether what is told may be written: the launch left out is not missed as before, nothing is doubted

    @property
    def launches(self) -> tuple[LoggedLaunch, ...]:
        """The launches."""
        return tuple(log.launch for log in self.logs)

    @property
    def verdict(self) -> LearnVerdict:
        """Whether the car is known better now."""
        found = verdict_of(self.values, self.tried)
        return "cannot tell" if self.doubted else found

    @property
    def doubted(self) -> bool:
        """Whether the launch model follows these logs so badly that nothing it says of the car is to be believed."""
        return not self.sound and verdict_of(self.values, self.tried) != "no better"

    @property
    def no(self) -> bool:
        """Whether nothing was told, or the launch left out is predicted no better."""
        return self.verdict in ("cannot tell", "no better")

    @property
    def fit_rms(self) -> float | None:
        """Travel of the shocks as logged less as fitted, root mean square; None where none was logged. [m]"""
        return _missed(self.fit, self.launches)[0]

    @property
    def new_values(self) -> dict[str, NewValue]:
        """What is told and has a key in a car's file, by key. [SI]"""
        return _new_values(self.values)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan learn --json`` prints it: SI, the unit beside each value."""
        return {
            "car": self.question.car, "surface": self.question.surface,
            "values": {v.before.key: _value_dict(v) for v in self.values},
            "fit_rms": self.fit_rms, "verdict": self.verdict,
            "left_out": None if self.tried is None else {
                "log": self.tried.name, "before_m": self.tried.before, "after_m": self.tried.after,
                "floor_m": self.tried.floor,
                "verdict": self.tried.verdict,
            },
            "roughness_m3": self.fit.state.roughness,
            "logs": [{"file": log.launch.name, "channels": log.launch.names, "understood": log.understood}
                     for log in self.logs],
            "changes": [{"table": c.table, "old": c.old, "new": c.new} for c in self.changes],
            "written": self.written, "caution": CLOSED_COURSE,
        }  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a value, SI."""
        return [{"key": v.before.key} | _value_dict(v) for v in self.values]


def _value_dict(value: LearnedValue) -> dict[str, Any]:
    before, after = value.before, value.after
    return {
        "before": before.value, "before_low": before.value - before.half_width,
        "before_high": before.value + before.half_width, "after": after.value, "low": after.low, "high": after.high,
        "unit": SI_UNITS.get(before.kind, "1"), "told": value.told, "narrower": value.narrower, "stated": before.stated,
        "helped_by": value.helped_by,
    }  # fmt: skip


def _nobody(_what: str, _share: float) -> None:
    """Tell nobody."""


def answer(bench: Workbench, question: LearnQuestion, watch: Callable[[str, float], None] = _nobody) -> LearnAnswer:
    """Return what logs tell of a car; with ``write`` put it into the car's file.

    Raises
    ------
    LookupFault
        If the library knows no such car or pack.
    CallError
        If the car has no such surface, or a log holds nothing to learn from.
    FitError
        If a log does not hold the car standing and a launch after it.
    QuantityError
        If a unit, a scale or the car's file lacks something.
    """
    car = bench.library.car(question.car)
    if question.surface not in car.surfaces:
        have = ", ".join(car.surfaces) or "none"
        raise CallError(
            f"{car.file or car.name} has no surface '{question.surface}'", hint=f"it has {have}", part="surface"
        )
    logs = tuple(learn_log(log, question.hints) for log in question.logs)
    curves = {name: bench.corner_curve(car, corner, pieces=False) for name, corner in car.corners.items()}
    surface = car.surfaces[question.surface]
    scene = LearnScene(car, curves, uncertain_values(car, surface), surface)
    launches = [log.launch for log in logs]
    watch("fitting all launches", 0.0)
    fit = fit_launches(scene, launches)
    if len(launches) > 1:
        watch("predicting the last launch by the others", 0.5)
    tried = left_out(scene, launches)
    values = learned_values(scene, fit)
    doubts = _doubts(fit, launches)
    sound = not doubts and verdict_of(values, tried) != "no better"
    changes, written = _changed(bench, question, values, sound=sound)
    said = (*_warnings(bench, car, launches, tried), *_gentle(values), *doubts)
    return LearnAnswer(question=question, logs=logs, values=values, fit=fit, tried=tried, changes=changes,
                       written=written, sound=sound, warnings=said)  # fmt: skip


def _missed(fit: LearnFit, launches: Sequence[LoggedLaunch]) -> tuple[float | None, float]:
    """Return what the fit leaves of the shocks' travel, None where none was logged, and that travel; rms. [m]"""
    pairs = [
        (c.values - fit.predicted[n][CHANNELS.index(c.name)], c.values)
        for n, launch in enumerate(launches) for c in launch.channels if c.name in ("front", "rear")
    ]  # fmt: skip
    if not pairs:
        return None, 0.0
    left, whole = (float(np.sqrt(np.mean(np.concatenate(x) ** 2))) for x in zip(*pairs, strict=True))
    return left, whole


def _doubts(fit: LearnFit, launches: Sequence[LoggedLaunch]) -> list[str]:
    """Return what to doubt where the model hardly follows the shocks; nothing is written then."""
    left, whole = _missed(fit, launches)
    if left is None or left < MISFIT * whole:
        return []
    share = left / max(whole, 1e-9)
    return [
        f"the launch model misses {100 * share:.0f} % of these shocks' travel: are columns, scale, springs and clicks "
        "right, and is each log one launch from standing? Nothing is written"
    ]


def _gentle(values: Sequence[LearnedValue]) -> list[str]:
    return [
        f"the tyres were not at their limit: these launches used some {v.after.value:.2f}, and "
        f"{v.before.key} is {v.before.value:g} ± {v.before.half_width:.2g}; grip is not told. If the ground has so "
        "little, write it into the car's file with its ±"
        for v in values if v.short_of_limit
    ]  # fmt: skip


def _new_values(values: Sequence[LearnedValue]) -> dict[str, NewValue]:
    return {
        v.before.key: NewValue(v.before.value, v.after.value, 0.5 * (v.after.high - v.after.low))
        for v in values if v.told and v.before.writable
    }  # fmt: skip


def _changed(
    bench: Workbench, question: LearnQuestion, values: Sequence[LearnedValue], *, sound: bool
) -> tuple[tuple[LineChange, ...], bool]:
    """Return the lines of the car's file that change, and whether they were written."""
    new = _new_values(values)
    write = question.write and sound
    return bench.library.write_learned(question.car, new, write=write) if new else (), write and bool(new)


def _warnings(bench: Workbench, car: Car, launches: Sequence[LoggedLaunch], tried: LeftOut | None) -> list[str]:
    said = list(bench.untested(car))
    if car.links is None and car.antisquat is None:
        said.append("the car's file states no antisquat; it is taken as it stands and not learned")
    if len(launches) == 1:
        said.append("one launch alone: nothing is left to try it on; give two or more")
    elif tried is None:
        said.append("no shock was logged in the last log, so its launch cannot be predicted and held against it")
    return said
