"""Which velocities logged travel shows, and how they fall on the curves of what was on the car."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from dynoan.analysis.travel.assumptions import FASTEST_SHOCK, LEAST_STILL, LEAST_STROKE, LONGEST_STROKE, SLOW_LOGGER
from dynoan.analysis.travel.start import (
    WHOLE_LOG,
    Standing,
    at_rest,
    launch_part,
    standing,
    start_from_shocks,
    start_from_speed,
)
from dynoan.analysis.travel.summary import CornerTravel, LogPart, StrokeEnds, corner_travel
from dynoan.analysis.travel.velocity import ShockMotion, shock_motion
from dynoan.errors import CallError, DynoanError
from dynoan.jobs.log_time import log_time
from dynoan.jobs.travel.asked import TravelQuestion
from dynoan.jobs.travel.channels import travel_columns, zero_of
from dynoan.jobs.travel.doubts import sign_doubts, zero_doubts
from dynoan.jobs.travel.found import LoggedShock, TravelAnswer
from dynoan.jobs.travel.sensed import SensedTravel, sensed_travel
from dynoan.model.arrays import FloatArray
from dynoan.model.car import CORNER_NAMES
from dynoan.model.curve import Curve
from dynoan.model.log import LogColumn, like

if TYPE_CHECKING:
    from dynoan.workbench.bench import Workbench

__all__ = ["TravelAnswer", "TravelQuestion", "answer"]

_SPEED = r"\b(speed|v car|geschwindigkeit|vitesse)\b"


def answer(bench: Workbench | None, question: TravelQuestion) -> TravelAnswer:
    """Return which velocities a log shows; with a car, how they fall on the curves of what is on it.

    Raises
    ------
    CallError
        If the log names no time or no shock, a column carries no travel, or a car is asked for without a library.
    QuantityError
        If a column's unit or scale does not fit, or a part holds nothing of the log.
    LookupFault
        If the library knows no such car or pack.
    """
    clock, found = log_time(question.log, question.time), travel_columns(question.log, question.columns)
    time = clock.seconds
    sensed = {corner: sensed_travel(column, question.scales.get(corner)) for corner, column in found.items()}
    moved = [shock_motion(time, s.values) for s in sensed.values()]
    start, how = _start(question, time, moved)
    parts = question.parts or (() if start is None else (launch_part(start),))
    stood = standing(moved)
    channels = [
        _channel(question, (corner, column, sensed[corner]), time, (start, stood)) for corner, column in found.items()
    ]
    curves, ends = _on_car(bench, question.car, tuple(found))
    shocks = tuple(_shock(c, parts, curves.get(c.corner), ends.get(c.corner)) for c in channels)
    told = f"time has no unit; by its steps it is in {clock.told}"
    warnings = (
        ([told] if clock.told else [])
        + ([how] if start is None and not question.parts else [])
        + [w for s in shocks for w in [*_warnings(s.travel), *_doubts(s), *_sensor(s)]]
    )
    warnings += [*sign_doubts(shocks, start), *(w for s in shocks for w in zero_doubts(s, stood, start))]
    return TravelAnswer(
        question=question, shocks=shocks, parts_from="as given" if question.parts else how,
        warnings=tuple(dict.fromkeys(warnings)),
    )  # fmt: skip


def _start(question: TravelQuestion, time: FloatArray, moved: Sequence[ShockMotion]) -> tuple[float | None, str]:
    """Return when the car leaves the line, by its speed or else by its shocks, and how that was found."""
    speed = like(question.log.columns, _SPEED)
    if speed is not None and speed.unit:
        start = start_from_speed(time, speed.si("velocity"))
        if start is not None:
            return start, f"the launch begins at {start:.2f} s, by the column '{speed.name}'"
    start = start_from_shocks(moved)
    if start is None:
        return None, "no launch found: the log does not begin at rest; name it as a part such as 2.0..5.0"
    return start, f"the launch begins at {start:.2f} s, when the shocks begin to move"


@dataclass(frozen=True)
class _Channel:
    corner: str
    column: LogColumn
    at: float  #: travel that counts as zero [m]
    zero: str
    scale: str
    motion: ShockMotion
    sensed: SensedTravel


def _channel(
    question: TravelQuestion,
    logged: tuple[str, LogColumn, SensedTravel],
    time: FloatArray,
    rest: tuple[float | None, tuple[Standing, ...]],
) -> _Channel:
    corner, column, sensed = logged
    scale, reading, raw = question.scales.get(corner), question.zeros.get(corner), sensed.values
    if reading is None:
        zero, whence = at_rest(time, raw, *rest)
    else:
        zero, whence = zero_of(reading, scale), f"the reading {reading}"
    try:
        moved = shock_motion(time, raw - zero, window=question.window)
    except DynoanError as error:
        raise error.again(where=column.place, kind=CallError) from None
    return _Channel(corner, column, zero, whence, scale.text if scale else column.unit, moved, sensed)


def _on_car(
    bench: Workbench | None, name: str | None, corners: Sequence[str]
) -> tuple[dict[str, Curve], dict[str, StrokeEnds]]:
    """Return the curve at each logged corner and the ends of its stroke."""
    if name is None:
        return {}, {}
    if bench is None:
        raise CallError("the curves of a car are in a library, and none is open", need="library")
    car = bench.library.car(name)
    curves, ends = {}, {}
    for key in corners:
        corner = car.corners[key]
        curves[key] = bench.corner_curve(car, corner)
        stops = (None if t is None else t * corner.shock_ratio for t in (corner.bump_travel, corner.droop_travel))
        ends[key] = StrokeEnds(*stops)
    return curves, ends


def _shock(channel: _Channel, parts: tuple[LogPart, ...], curve: Curve | None, ends: StrokeEnds | None) -> LoggedShock:
    found = corner_travel(channel.corner, channel.motion, parts, curve=curve, ends=ends)
    return LoggedShock(channel.column, channel.scale, channel.zero, found, channel.at, channel.sensed)


def _warnings(found: CornerTravel) -> list[str]:
    where, moved, said = CORNER_NAMES[found.corner], found.motion, []
    if round(1 / moved.step) < SLOW_LOGGER:
        lost = f"peaks of fast wheel motion are lost below {SLOW_LOGGER:.0f} Hz"
        said.append(f"{where}: logged at {1 / moved.step:.0f} Hz; {lost}")
    if moved.gaps:
        said.append(f"{where}: {moved.gaps} gap(s) in the log were left out")
    if (beyond := found.parts["all"].beyond_tested) > 0:
        said.append(f"{where}: {100 * beyond:.1f} % of the time is faster than any test of its curve")
    return said


def _sensor(shock: LoggedShock) -> list[str]:
    """Return what is wrong with what a shock's sensor wrote."""
    where, said = CORNER_NAMES[shock.corner], []
    if shock.sensed.lost:
        many = f"{shock.sensed.lost} sample" + ("s" if shock.sensed.lost > 1 else "")
        said.append(f"{where}: {many} of drop-outs, to zero or to one level and back, were left out; check the "
                    "sensor's wire and plug")  # fmt: skip
    ends = " and ".join(f"{100 * share:.1f} % of the time in {d}" for d, share in shock.sensed.shares.items() if share)
    if ends:
        said.append(f"{where}: the sensor runs out of its range, flat for {ends}: it went at least as far as stands "
                    "here, and speeds, rms and the time it is still are not right; set it for the stroke")  # fmt: skip
    return said


def _doubts(shock: LoggedShock) -> list[str]:
    """Return what makes a channel's scale or zero doubtful."""
    where, moved = CORNER_NAMES[shock.corner], shock.travel.motion
    said = []
    if shock.zero == WHOLE_LOG:
        said.append(f"{where}: the car never stands in this log, so the zero of travel is its median; tell it with a "
                    "reading at rest")  # fmt: skip
    fastest, span = float(np.max(np.abs(moved.velocity))), float(np.ptp(moved.travel))
    if fastest > FASTEST_SHOCK or span > LONGEST_STROKE:
        less = f"{fastest / 25.4:.1f} m/s and {span * 1e3 / 25.4:.0f} mm"
        said.append(f"{where}: {fastest:.0f} m/s and {span * 1e3:.0f} mm of travel are no shock's; is the scale right? "
                    f"Divided by 25.4 (inches taken twice) it would be {less}")  # fmt: skip
    elif moved.smoothing.travel_noise < span < LEAST_STROKE and fastest > LEAST_STILL:
        said.append(f"{where}: only {span * 1e3:.1f} mm of travel in the whole log; is the scale right? Times 25.4 (an "
                    f"inch short) it would be {span * 1e3 * 25.4:.0f} mm")  # fmt: skip
    return said
