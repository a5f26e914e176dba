"""Which column of a log is its time, and in which unit: as loggers on a car and phones write it.

They name it as they like ("Time", "Zeit", "Timestamp", "seconds_elapsed") and count it in seconds, milliseconds or
nanoseconds, often without a word.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.bounce.assumptions import PHONE_STEPS
from dynoan.errors import CallError
from dynoan.model.arrays import FloatArray
from dynoan.model.log import Log, LogColumn
from dynoan.units import FACTORS, normal_unit

_TIME = frozenset((
    "time", "t", "zeit", "temps", "tiempo", "timestamp", "seconds", "second", "sec", "ms", "ns", "millis", "elapsed",
    "sekunden", "uptime",
))  # fmt: skip
_OTHER_TIME = frozenset(("lap", "runde"))
_FIRST = frozenset(("time", "t", "zeit", "temps", "tiempo"))
_RISES = 0.99  #: share of steps that must not fall


@dataclass(frozen=True)
class LogTime:
    """Time of each row, and the unit where it was told by its steps."""

    seconds: FloatArray  #: [s], shape (n,)
    told: str = ""  #: the unit that the steps of a column without one tell


def log_time(log: Log, told: str | None = None) -> LogTime:
    """Return the time of each row of a log.

    A column without a unit is in that of s, ms, µs and ns in which a logger could have written its steps.

    Parameters
    ----------
    log
        As it was read.
    told
        The column that is the time; None: found by its name.

    Raises
    ------
    CallError
        If no column is named time, or its unit cannot be told.
    """
    named = [log.named(told)] if told else sorted((c for c in log.columns if _is_time(c)), key=_plainly)
    have = f"it has {log.names}"
    if not named:
        raise CallError("no column is named time", where=log.file, hint=have, need="time")
    for column in named:
        stated = normal_unit(column.unit) in FACTORS["time"]
        if not _rises(column.values):
            continue
        if stated:
            return LogTime(column.si("time"))
        if not column.unit and (unit := _unit_of_steps(column.values)):
            return LogTime((column.values - _first(column.values)) * PHONE_STEPS[unit][0], unit)
    if normal_unit(named[0].unit) in FACTORS["time"]:
        return LogTime(named[0].si("time"))  # it does not rise: who reads the motion says so
    raise CallError(
        f"column '{named[0].name}' is no time of a log, or its unit cannot be told",
        where=log.file,
        hint=f"write it in the header, such as '{named[0].name} [s]'",
    )


def words_of(name: str) -> list[str]:
    """Return the words of a name, "accelerometerAccelerationX" and "Acceleration (m/s²) X" taken apart."""
    bare = re.sub(r"\([^)]*\)|\[[^\]]*\]", " ", name)
    bare = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", bare.replace("gF", "gf"))
    return re.sub(r"[\W_]+", " ", bare.replace("ó", "o").replace("é", "e").replace("è", "e")).lower().split()


def _is_time(column: LogColumn) -> bool:
    words = set(words_of(column.name))
    return bool(words & _TIME) and not words & _OTHER_TIME


def _plainly(column: LogColumn) -> tuple[bool, bool]:
    """Return what puts columns of time in order: a unit stated, and plainly called time."""
    words = words_of(column.name)
    return normal_unit(column.unit) not in FACTORS["time"], not words or words[0] not in _FIRST


def _first(values: FloatArray) -> float:
    return float(values[np.isfinite(values)][0])


def _rises(values: FloatArray) -> bool:
    known = values[np.isfinite(values)]
    return len(known) > 1 and known[-1] > known[0] and bool(np.mean(np.diff(known) >= 0) > _RISES)


def _unit_of_steps(values: FloatArray) -> str:
    step = float(np.median(np.diff(values[np.isfinite(values)])))
    return next((unit for unit, (_, low, high) in PHONE_STEPS.items() if low <= step <= high), "")
