"""Shocks in time: each shock on a date is a state; and the temperature all tests of a pack are brought to."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

import numpy as np

from dynoan.analysis.clickmap import assumptions as a
from dynoan.analysis.clickmap.tested import Tested
from dynoan.model.arrays import FloatArray, IntArray


class TestedState(NamedTuple):
    """A shock between two dates, within which it is taken not to change."""

    shock: str
    first: str  #: date of its first runs, ISO; empty where nobody wrote it
    last: str


def day_of(text: str | None) -> date | None:
    """Return the day that an ISO date names; None where it names none."""
    try:
        return date.fromisoformat((text or "")[:10])
    except ValueError:
        return None


def states_of(tested: Sequence[Tested]) -> tuple[tuple[TestedState, ...], IntArray]:
    """Return the states of all shocks, by shock and date, and which of them each test is of, shape (T,).

    Runs no further apart than `SAME_STATE_DAYS` from the first of a state are of that state; runs without a date are
    of a shock's last.
    """
    states: list[TestedState] = []
    where = np.zeros(len(tested), dtype=int)
    for shock in sorted({t.shock for t in tested}):
        mine = [i for i, t in enumerate(tested) if t.shock == shock]
        dated = sorted((day, i) for i in mine if (day := day_of(tested[i].date)) is not None)
        begun: date | None = None
        for day, i in dated:
            if begun is None or (day - begun).days > a.SAME_STATE_DAYS:
                begun = day
                states.append(TestedState(shock, day.isoformat(), day.isoformat()))
            states[-1] = states[-1]._replace(last=day.isoformat())
            where[i] = len(states) - 1
        undated = [i for i in mine if day_of(tested[i].date) is None]
        if undated and begun is None:
            states.append(TestedState(shock, "", ""))
        where[undated] = len(states) - 1
    return tuple(states), where


def reference(tested: Sequence[Tested]) -> float | None:
    """Return the temperature that a pack's tests are brought to; None where none tells its own. [°C]

    `REFERENCE_C`, or the nearest temperature that a test had.
    """
    known = [t.curve.temperature for t in tested if t.curve.temperature is not None]
    return float(np.clip(a.REFERENCE_C, min(known), max(known))) if known else None


def kelvin(tested: Sequence[Tested]) -> FloatArray:
    """Return how far above the reference each test's oil was, 0 where it is not told, shape (T,). [K]"""
    at = reference(tested)
    warm = [0.0 if at is None or t.curve.temperature is None else t.curve.temperature - at for t in tested]
    return np.array(warm, dtype=float)
