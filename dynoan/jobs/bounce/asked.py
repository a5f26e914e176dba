"""What is asked of a log of a pushed car: which columns, and what they are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from dynoan.analysis.bounce.assumptions import FALLEN_ROWS, OVER_SWING, SLOWEST_RATE
from dynoan.analysis.bounce.axis import Upward, upward
from dynoan.analysis.sensors.clipping import clipped
from dynoan.errors import CallError, QuantityError
from dynoan.jobs.log_time import LogTime, log_time
from dynoan.jobs.phone_log import phone_axes
from dynoan.jobs.travel.asked import TravelScale, by_corner
from dynoan.jobs.travel.channels import travel_columns
from dynoan.jobs.travel.sensed import sensed_travel
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.car import CORNERS
from dynoan.model.log import Log, LogColumn
from dynoan.units import FACTORS, normal_unit

_AXLES = {"front": ("fl", "fr"), "rear": ("rl", "rr")}


@dataclass(frozen=True)
class BounceQuestion:
    """A log of a car that was pushed, and where."""

    log: Log
    car: str | None = None  #: whose prediction to hold it against
    where: tuple[str, ...] = ()  #: the corners that were pushed: one, or an axle's two
    columns: Mapping[str, str] = field(default_factory=dict)  #: of travel, by corner
    scales: Mapping[str, TravelScale] = field(default_factory=dict)  #: by corner
    time: str | None = None  #: the column that is the time; None: told by its name

    @classmethod
    def asked(
        cls, log: Log, *, car: str | None = None, corner: str | None = None, axle: str | None = None,
        column: Mapping[str, str] | None = None, scale: str | Mapping[str, str] | None = None,
        time: str | None = None,
    ) -> BounceQuestion:  # fmt: skip
        """Return the question from values as people give them.

        Raises
        ------
        CallError
            If neither or both of a corner and an axle are named, or there is no such.
        QuantityError
            If a scale is none.
        """
        if (corner is None) == (axle is None):
            raise CallError("say which corner was pushed, or which axle", need="pushed")
        if corner is not None and corner not in CORNERS:
            raise CallError(f"'{corner}' is no corner (corners: {', '.join(CORNERS)})", part="corner")
        if axle is not None and axle not in _AXLES:
            raise CallError(f"'{axle}' is no axle (front, rear)", part="axle")
        scales = {c: TravelScale.parsed(text) for c, text in by_corner(scale, "scale").items()}
        where = (corner,) if corner is not None else _AXLES[axle or "front"]
        return cls(log, car, where, by_corner(column, "column"), scales, time)

    @property
    def place(self) -> str:
        """What was pushed, as it was named: a corner or an axle."""
        return self.where[0] if len(self.where) == 1 else ("front" if self.where == _AXLES["front"] else "rear")


@dataclass(frozen=True)
class BounceChannel:
    """What is fitted, and how it was understood."""

    time: FloatArray  #: [s]
    values: FloatArray  #: shock travel [m], or acceleration upward [m/s²]; about zero at rest
    acceleration: bool
    how: str
    ends: BoolArray  #: samples at an end of the sensor's range
    lost: int = 0  #: drop-outs left out [samples]

    @property
    def rate(self) -> float:
        """Samples a second. [Hz]"""
        return 1.0 / float(np.median(np.diff(self.time)))


def bounce_channel(question: BounceQuestion) -> BounceChannel:
    """Return the channel of a log that holds the swing: travel of what was pushed, else a phone's acceleration.

    Raises
    ------
    CallError
        If the log holds neither, or is too slow.
    QuantityError
        If a unit does not fit or cannot be told.
    """
    axes = () if question.columns else phone_axes(question.log)
    found = _phone(question, axes) if axes else _shocks(question)
    known = np.isfinite(found.time) & np.isfinite(found.values)
    time, values = found.time[known], found.values[known]
    rising = _rising(time)
    if len(time) < 20 or np.mean(~rising) > FALLEN_ROWS:
        raise CallError("too few samples, or a time that does not rise from row to row", where=question.log.file)
    channel = replace(found, time=time[rising], values=values[rising], ends=found.ends[known][rising])
    if channel.rate < SLOWEST_RATE:
        raise CallError(
            f"{channel.rate:.0f} samples a second do not follow a swing",
            where=question.log.file,
            hint=f"it takes {SLOWEST_RATE:.0f}, better 50",
        )
    return channel


def _rising(time: FloatArray) -> BoolArray:
    """Return the rows whose time is later than that of every row before, shape (n,)."""
    latest = np.maximum.accumulate(np.concatenate([[-np.inf], time[:-1]]))
    return np.asarray(time > latest)


def _phone(question: BounceQuestion, axes: tuple[LogColumn, ...]) -> BounceChannel:
    time = log_time(question.log, question.time)
    unit = normal_unit(axes[0].unit)
    if any(normal_unit(c.unit) != unit for c in axes):
        raise QuantityError("the three axes have different units", where=axes[0].place)
    values = np.column_stack([c.values for c in axes])
    known = values[np.all(np.isfinite(values), axis=1)]
    try:
        up: Upward = upward(known, FACTORS["acceleration"][unit] if unit else None)
    except QuantityError as error:
        raise error.again(where=question.log.file) from None
    rest = np.nanmedian(values, axis=0)
    factor = (
        FACTORS["acceleration"][unit] if unit else (1.0 if np.linalg.norm(rest) > 5 else FACTORS["acceleration"]["g"])
    )
    along = (values - rest) * factor @ up.axis
    how = (f"a phone's acceleration, up is nearest to its {'xyz'[up.nearest]}, {np.degrees(up.tilt):.0f}° off, by "
           + ("gravity" if up.by_gravity else "the way it moves")
           + _told(time))  # fmt: skip
    ends = np.any([clipped(c.values).either for c in axes], axis=0)
    return BounceChannel(time.seconds, along, True, how, ends)


def _shocks(question: BounceQuestion) -> BounceChannel:
    columns = travel_columns(question.log, question.columns)
    lacking = [c for c in question.where if c not in columns]
    if lacking:
        raise CallError(
            f"no column for {', '.join(lacking)}",
            where=question.log.file,
            hint=f"it has {question.log.names}",
            need="column of a corner",
        )
    time = log_time(question.log, question.time)
    moved = [sensed_travel(columns[c], question.scales.get(c)) for c in question.where]
    mean = np.mean([m.values - np.nanmedian(m.values) for m in moved], axis=0)
    ends = np.any([m.ends.either for m in moved], axis=0)
    names = " and ".join(f"'{columns[c].name}'" for c in question.where)
    how = f"shock travel, column {names}, zero where it mostly stands" + _told(time)
    falls = not question.scales and not ends.any() and _pushed_negative(mean)
    said = f"{how}; its number falls as the shock gets shorter, so it is turned round" if falls else how
    return BounceChannel(time.seconds, -mean if falls else mean, False, said, ends, sum(m.lost for m in moved))


def _pushed_negative(travel: FloatArray) -> bool:
    """Tell whether a hand pushed a channel below its rest, not above: what it swings back is less."""
    return bool(-np.nanmin(travel) > OVER_SWING * np.nanmax(travel))


def _told(time: LogTime) -> str:
    return f", time in {time.told} by its steps" if time.told else ""
