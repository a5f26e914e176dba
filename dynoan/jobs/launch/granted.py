"""What a launch takes for granted: told once, and what moves its figures most before the rest."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from dynoan.analysis.launch.compare import LaunchRun
from dynoan.analysis.launch.from_car import OF_DYNO, STAYS_OFF
from dynoan.jobs.launch.firsts import MEASURED_FOR
from dynoan.jobs.launch.measure_first import Shift
from dynoan.jobs.launch.not_in_file import COMES_IN, NO_BAND, RISE_KEY, STUCK_KEY
from dynoan.jobs.launch.settings import LaunchCase

#: figures by which it is weighed what counts most
_WEIGHED_BY = (*MEASURED_FOR, "distance_m")
#: of a surface whose file lacks a key
_STATES_NO = re.compile(r"(surfaces\.\S+) states no (\w+)(.*)", re.DOTALL)


def granted(notes: Sequence[str], unsure: Mapping[str, Sequence[Shift]], runs: Sequence[LaunchRun]) -> tuple[str, ...]:
    """Return notes in the order in which they count: first what no band holds, then what moves the figures most.

    Parameters
    ----------
    notes
        In words; of several surfaces that lack the same one note is made.
    unsure
        What each unknown does to the figures, by surface.
    runs
        Of which the first on each surface says how large the figures are.
    """
    figures = {run.surface: run.metrics for run in reversed(runs)}
    weights: dict[str, float] = {}
    for surface, shifts in unsure.items():
        for shift in shifts:
            of = figures.get(surface, {})
            shares = [shift.size(f) / abs(of[f]) for f in _WEIGHED_BY if of.get(f) and f in shift.low]
            weights[shift.key] = max([weights.get(shift.key, 0.0), *shares])
    ordered = sorted(notes, key=lambda note: -_weight(note, weights))
    return _together(ordered)


def _weight(note: str, weights: Mapping[str, float]) -> float:
    if NO_BAND in note:
        return float("inf")
    lacking = _STATES_NO.match(note)
    if lacking:
        return weights.get(f"{lacking[1]}.{lacking[2]}", 0.0)
    if COMES_IN in note:
        return weights.get(RISE_KEY, 0.0)
    return max((w for key, w in weights.items() if key.endswith(f".{STUCK_KEY}")), default=0.0) * (STAYS_OFF in note)


def _together(notes: Sequence[str]) -> tuple[str, ...]:
    """Return notes, those that say the same of several surfaces as one where the first of them stands."""
    found: dict[tuple[str, str], list[str]] = {}
    for note in notes:
        lacking = _STATES_NO.match(note)
        what = (lacking[2], lacking[3]) if lacking else (note, "")
        found.setdefault(what, []).append(lacking[1] if lacking else "")
    return tuple(_of_all(places, *what) for what, places in found.items())


def _of_all(places: Sequence[str], what: str, rest: str) -> str:
    *others, last = dict.fromkeys(places)
    if not last:
        return what
    return f"{', '.join(others)} and {last} state no {what}{rest}" if others else f"{last} states no {what}{rest}"


def assumed(cases: Sequence[LaunchCase]) -> tuple[str, ...]:
    """Return what was estimated or left out in any of the cases, each once; what the dyno told of the first alone."""
    return told_once([case.notes for case in cases])


def told_once(notes: Sequence[Sequence[str]]) -> tuple[str, ...]:
    """Return the notes of several cases, each once; what the dyno told, and friction leaves open, of the first alone.

    Parameters
    ----------
    notes
        Of each case.
    """
    first = notes[0] if notes else ()
    told = tuple(f"{note.partition(mark)[0]}{mark}" for mark in (OF_DYNO, STAYS_OFF) for note in first if mark in note)
    others = (note for of in notes[1:] for note in of if not (told and note.startswith(told)))
    return tuple(dict.fromkeys([*first, *others]))
