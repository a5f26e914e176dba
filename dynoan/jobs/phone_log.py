"""What a phone's logger wrote: which columns are the three axes of acceleration, and which the time.

Loggers name both as they like ("ax", "gFx", "Acceleration x", "accelerometerAccelerationX"), put other sensors beside
them, and count time in seconds, milliseconds or nanoseconds, often without a word.
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

#: words that may stand beside the letter of an axis
_ACCELERATION = frozenset((
    "a", "acc", "accel", "acceleration", "accelerometer", "beschleunigung", "aceleracion", "accelerazione",
    "acelerometro", "accelerometre", "g", "gf", "gforce", "force", "axis", "achse", "axe", "eje", "sensor", "data",
    "value", "raw", "total", "motion", "device", "calibrated", "uncalibrated",
))  # fmt: skip
#: those of an acceleration without gravity: taken only where no other is there
_LINEAR = frozenset(("linear", "user", "lineare", "lin"))
#: "acceleration including gravity" is one, and "without gravity" too; "gravity" alone is only its direction
_OF_GRAVITY = tuple(frozenset((word, "gravity")) for word in ("including", "with", "without", "excluding"))
_TAKEN_OUT = frozenset(("without", "excluding"))
_FUSED = re.compile(r"(acc|accel|acceleration|gf|a|g)([xyz])")
_TIME = frozenset((
    "time", "t", "zeit", "temps", "tiempo", "timestamp", "seconds", "second", "sec", "ms", "ns", "millis", "elapsed",
    "sekunden", "uptime",
))  # fmt: skip
_OTHER_TIME = frozenset(("lap", "runde"))


@dataclass(frozen=True)
class PhoneTime:
    """Time of each row, and the unit where it was told by its steps."""

    seconds: FloatArray  #: [s], shape (n,)
    told: str = ""  #: the unit that the steps of a column without one tell


def phone_axes(log: Log) -> tuple[LogColumn, ...]:
    """Return the columns of a phone's acceleration, three by rule, none where there are no such.

    Axes that hold gravity go before those from which the phone took it out.
    """
    sets: dict[tuple[str, ...], dict[str, LogColumn]] = {}
    for column in log.columns:
        told = _axis_of(column)
        if told is not None:
            sets.setdefault(told[1], {}).setdefault(told[0], column)
    whole = [(words, axes) for words, axes in sets.items() if len(axes) == 3]
    if not whole:
        return ()
    _, best = min(whole, key=lambda pair: _rank(pair[0]))
    return tuple(best[a] for a in "xyz")


def _axis_of(column: LogColumn) -> tuple[str, tuple[str, ...]] | None:
    """Return the axis of a column and the words beside it; None where it is no axis of an acceleration."""
    unit = normal_unit(column.unit)
    if unit and unit not in FACTORS["acceleration"]:
        return None
    words = _words(column.name)
    for i, word in enumerate(words):
        fused = _FUSED.fullmatch(word)
        axis, beside = (fused[2], [fused[1]]) if fused else (word, [])
        if axis in ("x", "y", "z"):
            others = (*words[:i], *beside, *words[i + 1 :])
            known = (
                _ACCELERATION | _LINEAR | frozenset[str]().union(*(pair for pair in _OF_GRAVITY if pair <= set(others)))
            )
            return (axis, others) if set(others) <= known else None
    return None


def _words(name: str) -> list[str]:
    """Return the words of a name, "accelerometerAccelerationX" and "Acceleration (m/s²) X" taken apart."""
    bare = re.sub(r"\([^)]*\)|\[[^\]]*\]", " ", name)
    bare = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", bare.replace("gF", "gf"))
    return re.sub(r"[\W_]+", " ", bare.replace("ó", "o").replace("é", "e").replace("è", "e")).lower().split()


def _rank(words: tuple[str, ...]) -> tuple[bool, bool, int]:
    """Return what puts sets of axes in order: gravity in it, called an acceleration rather than "g", briefest."""
    return any(w in _LINEAR | _TAKEN_OUT for w in words), words == ("g",), len(words)


def phone_time(log: Log) -> PhoneTime:
    """Return the time of each row of a phone's log. [s]

    A column without a unit is in that of s, ms, µs and ns in which a phone could have written its steps.

    Raises
    ------
    CallError
        If no column rises as a time does.
    """
    named = [c for c in log.columns if _is_time(c)]
    stated = [c for c in named if normal_unit(c.unit) in FACTORS["time"]]
    for column in stated:
        seconds = column.si("time")
        if _rises(seconds):
            return PhoneTime(seconds)
    for column in named:
        unit = "" if column in stated or not _rises(column.values) else _unit_of_steps(column.values)
        if unit:
            rise = column.values - column.values[np.isfinite(column.values)][0]
            return PhoneTime(rise * PHONE_STEPS[unit][0], unit)
    have = f"; it has {log.names}"
    if not named:
        raise CallError(f"no column is named time{have}", where=log.file)
    raise CallError(
        f"column '{named[0].name}' is no time of a phone's log, or its unit cannot be told",
        where=log.file,
        hint=f"write it in the header, such as '{named[0].name} [s]'",
    )


def _is_time(column: LogColumn) -> bool:
    words = set(_words(column.name))
    return bool(words & _TIME) and not words & _OTHER_TIME


def _rises(values: FloatArray) -> bool:
    known = values[np.isfinite(values)]
    return len(known) > 1 and known[-1] > known[0] and bool(np.mean(np.diff(known) >= 0) > 0.99)


def _unit_of_steps(values: FloatArray) -> str:
    step = float(np.median(np.diff(values[np.isfinite(values)])))
    return next((unit for unit, (_, low, high) in PHONE_STEPS.items() if low <= step <= high), "")
