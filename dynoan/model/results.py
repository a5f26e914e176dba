"""Results of runs as people type them: a time, a speed, points; a unit or none."""

from __future__ import annotations

import math
import re

from dynoan.errors import QuantityError
from dynoan.units import FACTORS, brief, normal_unit, split_quantity

#: kinds of quantity a run's result may be, in the order in which a unit is looked up
KINDS = ("time", "velocity", "length", "acceleration", "angle", "force", "ratio")
_CLOCK = re.compile(r"(?:(\d{1,3}):)?(\d{1,3}):(\d\d(?:[.,]\d+)?)$")


def result_kind(unit: str) -> str | None:
    """Return the kind of quantity a unit belongs to, None where it is the team's own, such as "points"."""
    plain = normal_unit(unit)
    return next((kind for kind in KINDS if plain and plain in FACTORS[kind]), None)


def result_factor(unit: str) -> float:
    """Return what a result in a unit is multiplied by; 1 for a unit of the team's own. [SI per unit]"""
    kind = result_kind(unit)
    return 1.0 if kind is None else FACTORS[kind][normal_unit(unit)]


def result_of(text: str, unit: str) -> float:
    """Return a result in SI where its unit is of a known kind, else as it stands. [SI, or the unit]

    Parameters
    ----------
    text
        Such as "4.83", "4.83 s", "1:23.45", "62 mph"; without a unit of its own it is in `unit`.
    unit
        The trial's.

    Raises
    ------
    QuantityError
        If it is no number, not finite, or its unit is of another kind than the trial's.

    Examples
    --------
    >>> result_of("1:23.5", "s"), result_of("4.83 s", "s"), result_of("4830 ms", "s")
    (83.5, 4.83, 4.83)
    """
    clock = _CLOCK.match(text.strip())
    kind = result_kind(unit)
    if clock is not None and kind == "time":
        hours, minutes, seconds = clock.groups()
        return float(hours or 0) * 3600 + float(minutes) * 60 + float(seconds.replace(",", "."))
    try:
        number, own = split_quantity(text)
    except QuantityError:
        raise QuantityError(f"'{brief(text)}' is no result", hint=f"write a number, such as {_example(unit)}") from None
    if not math.isfinite(number):
        raise QuantityError(f"'{brief(text)}' is not a finite number")
    if not own or normal_unit(own) == normal_unit(unit):
        return number * result_factor(unit)
    if kind is None or normal_unit(own) not in FACTORS[kind]:
        wanted = f"this trial's results are in {unit}" if unit else "this trial's results have no unit"
        raise QuantityError(f"'{brief(text)}': {wanted}", hint=f"write it like {_example(unit)}")
    return number * FACTORS[kind][normal_unit(own)]


def _example(unit: str) -> str:
    return f"'4.83 {unit}'" if unit else "'4.83'"
