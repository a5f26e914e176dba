"""What a phone's logger wrote: which columns are the three axes of acceleration.

Loggers name them as they like ("ax", "gFx", "Acceleration x", "accelerometerAccelerationX") and put others beside.
"""

from __future__ import annotations

import re

from dynoan.jobs.log_time import words_of
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
    words = words_of(column.name)
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


def _rank(words: tuple[str, ...]) -> tuple[bool, bool, int]:
    """Return what puts sets of axes in order: gravity in it, called an acceleration rather than "g", briefest."""
    return any(w in _LINEAR | _TAKEN_OUT for w in words), words == ("g",), len(words)
