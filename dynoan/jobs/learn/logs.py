"""Logs of launches as learning takes them: which columns, which scale and zero, when the car leaves the line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from dynoan.analysis.learning.logged import LoggedLaunch, logged_launch
from dynoan.analysis.travel.start import start_from_shocks, start_from_speed
from dynoan.analysis.travel.velocity import shock_motion
from dynoan.errors import CallError, DynoanError, QuantityError
from dynoan.jobs.assumptions import EVENED_OVER, FORWARD_FOR, HAS_LEFT
from dynoan.jobs.log_time import log_time
from dynoan.jobs.travel.asked import TravelScale
from dynoan.jobs.travel.channels import in_metres, in_si, travel_columns, zero_of
from dynoan.model.arrays import FloatArray
from dynoan.model.car import AXLES, axle_of
from dynoan.model.log import Log, LogColumn
from dynoan.units import FACTORS, normal_unit

#: columns of the car as a whole, told beside those of corners, and what they hold
OF_CAR = {"acceleration": "acceleration", "speed": "velocity"}
_SPEED = r"\b(speed|v car|geschwindigkeit|vitesse)\b"
_ALONG = ("long", "acc", "beschl", "g force")
_NOT_ALONG = ("lat", "vert", "quer", "hoch")


@dataclass(frozen=True)
class LearnHints:
    """What is told of the logs' columns; the same for all."""

    columns: Mapping[str, str] = field(default_factory=dict)  #: of travel by corner, and by `OF_CAR`
    scales: Mapping[str, TravelScale] = field(default_factory=dict)  #: by the same
    zeros: Mapping[str, str] = field(default_factory=dict)  #: readings at rest, by the same


@dataclass(frozen=True)
class LearnLog:
    """One log, understood."""

    launch: LoggedLaunch
    understood: tuple[str, ...]  #: a line a column, in words


def learn_log(log: Log, hints: LearnHints) -> LearnLog:
    """Return the launch in a log.

    Raises
    ------
    CallError
        If the log names no time, or holds neither travel nor acceleration nor speed.
    FitError
        If the car does not stand before the launch, or the log ends too soon after it.
    QuantityError
        If a column's unit or scale does not fit.
    """
    time = log_time(log).seconds
    shocks = _shocks(log, hints)
    speed, along = _told(log, hints, "speed") or _speed(log), _told(log, hints, "acceleration") or _along(log)
    if not shocks and speed is None and along is None:
        raise CallError(
            "neither travel of a shock nor acceleration nor speed",
            where=log.file,
            hint=f"it has {log.names}",
            need="corner",
        )
    known = np.isfinite(time)
    time = time[known]
    travel = {c: _filled(in_metres(column, hints.scales.get(c))[known]) for c, column in shocks.items()}
    rolling = None if speed is None else _filled(_of_car(speed, hints, "speed")[known])
    pushed = None if along is None else _filled(_of_car(along, hints, "acceleration")[known])
    seen, how = _seen(log, time, travel, rolling, pushed)
    said = [how]
    columns: dict[str, FloatArray] = {}
    told = {c for c in shocks if c in hints.zeros}
    for axle in AXLES:
        mine = {c: _zeroed(c, v, hints) for c, v in travel.items() if axle_of(c) == axle}
        if mine:
            columns[axle] = np.asarray(np.mean(list(mine.values()), axis=0))
        said += [_shock_words(c, shocks[c], travel[c], time, seen, hints) for c in mine]
    if pushed is not None and along is not None:
        columns["acceleration"], words = _forward(time, pushed, seen, along, hints)
        said.append(words)
    if rolling is not None and speed is not None:
        columns["speed"] = rolling
        said.append(f"speed: column {_column_words(speed, hints.scales.get('speed'))}")
    zeroed = frozenset(a for a in AXLES if told and all(c in told for c in shocks if axle_of(c) == a))
    alone = frozenset(a for a in AXLES if sum(axle_of(c) == a for c in shocks) == 1)
    return LearnLog(logged_launch(log.file, time, columns, seen, zeroed=zeroed, one_sided=alone), tuple(said))


def _shocks(log: Log, hints: LearnHints) -> dict[str, LogColumn]:
    told = {c: name for c, name in hints.columns.items() if c not in OF_CAR}
    try:
        return travel_columns(log, told)
    except CallError:
        if told:
            raise
        return {}


def _told(log: Log, hints: LearnHints, part: str) -> LogColumn | None:
    return log.named(hints.columns[part]) if part in hints.columns else None


def _of_car(column: LogColumn, hints: LearnHints, part: str) -> FloatArray:
    """Return a column of the car as a whole, less its reading at rest where one is told. [SI]"""
    scale, zero = hints.scales.get(part), hints.zeros.get(part)
    values = in_si(column, scale, OF_CAR[part])
    return values if zero is None else values - zero_of(zero, scale, OF_CAR[part])


def _column_words(column: LogColumn, scale: TravelScale | None) -> str:
    return f"'{column.name}', {scale.text}" if scale else f"'{column.name} [{column.unit}]'"


def _speed(log: Log) -> LogColumn | None:
    import re

    fitting = [c for c in log.columns if normal_unit(c.unit) in FACTORS["velocity"]]
    return next((c for c in fitting if re.search(_SPEED, c.name.lower())), None)


def _along(log: Log) -> LogColumn | None:
    """Return the acceleration along the car: named so, or the only one that is not named otherwise."""
    fitting = [c for c in log.columns if normal_unit(c.unit) in FACTORS["acceleration"]]
    named = [c for c in fitting if not any(word in c.name.lower() for word in _NOT_ALONG)]
    for word in _ALONG:
        for column in named:
            if word in column.name.lower():
                return column
    return named[0] if len(named) == 1 else None


def _filled(values: FloatArray) -> FloatArray:
    known = np.isfinite(values)
    if not known.any():
        return values
    at = np.arange(len(values))
    return np.asarray(np.interp(at, at[known], values[known]))


def _seen(
    log: Log, time: FloatArray, travel: Mapping[str, FloatArray], rolling: FloatArray | None, pushed: FloatArray | None
) -> tuple[float, str]:
    """Return when the launch is seen, and by what."""
    if rolling is not None and (start := start_from_speed(time, rolling)) is not None:
        return start, f"the car leaves the line at about {start:.2f} s, by its speed"
    if travel:
        try:
            start = start_from_shocks([shock_motion(time, moved) for moved in travel.values()])
        except DynoanError as error:
            raise error.again(where=log.file, kind=CallError) from None
        if start is not None:
            return start, f"the car leaves the line at about {start:.2f} s, when the shocks begin to move"
    if pushed is not None and (start := _start_from_push(time, pushed)) is not None:
        return start, f"the car leaves the line at about {start:.2f} s, by its acceleration"
    raise CallError(
        "no launch found: it does not begin with the car standing and then leaving the line", where=log.file
    )


def _start_from_push(time: FloatArray, pushed: FloatArray) -> float | None:
    step = float(np.median(np.diff(time)))
    width = max(1, round(EVENED_OVER / step))
    even = np.convolve(pushed - np.median(pushed[: max(10, round(0.5 / step))]), np.ones(width) / width, mode="same")
    over = np.flatnonzero(np.abs(even) > HAS_LEFT)
    return float(time[over[0]]) if len(over) else None


def _zeroed(corner: str, values: FloatArray, hints: LearnHints) -> FloatArray:
    reading = hints.zeros.get(corner)
    return values if reading is None else values - zero_of(reading, hints.scales.get(corner))


def _shock_words(
    corner: str, column: LogColumn, travel: FloatArray, time: FloatArray, seen: float, hints: LearnHints
) -> str:
    named = _column_words(column, hints.scales.get(corner))
    reading = hints.zeros.get(corner)
    if reading is not None:
        return f"{corner}: column {named}, compression taken as positive, zero the reading {reading}"
    rest = travel[time < seen - 0.35]
    zero = f"{1e3 * float(np.median(rest)):.1f} mm" if len(rest) else "unknown"
    return f"{corner}: column {named}, compression taken as positive, zero {zero} (where the car stood)"


def _forward(
    time: FloatArray, pushed: FloatArray, seen: float, column: LogColumn, hints: LearnHints
) -> tuple[FloatArray, str]:
    after, before = (time > seen) & (time < seen + FORWARD_FOR), time < seen - 0.35
    rest = float(np.median(pushed[before])) if before.any() else 0.0
    if not after.any():
        raise QuantityError("nothing was logged after the start", where=column.place)
    back = float(np.mean(pushed[after])) < rest
    named = _column_words(column, hints.scales.get("acceleration"))
    words = f"acceleration: column {named}, zero {rest:.2f} m/s² (where the car stood)"
    return (-pushed if back else pushed), words + (", counted backward: turned round" if back else "")
