"""What all jobs about trials share: a trial judged by its runs, with the scatter that earlier ones lend it."""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from dynoan.analysis.trials.assumptions import FEWEST, ROUNDING
from dynoan.analysis.trials.difference import RunOrder, Scatter, design, drift_fit
from dynoan.analysis.trials.judging import Judged, judge
from dynoan.analysis.trials.power import extended, following, further_runs, power
from dynoan.jobs.trial.changed import Changed, changed_by
from dynoan.model.results import result_kind
from dynoan.model.trial import Trial

if TYPE_CHECKING:
    from dynoan.library import Library


@dataclass(frozen=True)
class JudgedTrial:
    """A trial, what its runs tell, and how to go on."""

    trial: Trial
    judged: Judged | None  #: None before any run counts
    changed: Changed
    sought: float | None  #: the difference that further runs are to find, as the results
    more_runs: int | None  #: that find it on four days of five; 0 once there is a verdict; None: too many
    power: float | None  #: share of days on which the whole plan finds it; None where scatter is not known [1]
    lent: Scatter | None  #: what earlier days tell of a run's scatter
    lent_by: tuple[str, ...] = ()  #: the names of those trials

    @property
    def next(self) -> str:
        """The setting of the next run."""
        return following(self.trial.plan, len(self.trial.counted))

    @property
    def verdict(self) -> str:
        """The verdict in the words that JSON has."""
        return "cannot tell" if self.judged is None else self.judged.verdict

    @property
    def changed_once(self) -> bool:
        """Whether on each day all runs of one setting came before all of the other, so that a step looks the same."""
        return bool(self.trial.counted) and _once(self.trial)

    @property
    def below_worth(self) -> bool:
        """Whether the difference, whichever way, is smaller than what is worth knowing."""
        found, worth = (None if self.judged is None else self.judged.found), self.trial.worth
        return found is not None and worth is not None and max(abs(found.low), abs(found.high)) < worth


def judged_trial(library: Library, trial: Trial, others: Iterable[Trial] | None = None) -> JudgedTrial:
    """Return what a trial's runs tell; `others` are those that lend it their scatter, by default the library's."""
    every = library.trials.readable()[0] if others is None else tuple(others)
    lent = lent_scatter(trial, every)
    counted = [trial.runs[n] for n in trial.counted]
    judged = judge(order_of(trial), [run.result for run in counted], less=trial.less, lent=lent) if counted else None
    scatter = lent if judged is None else judged.scatter
    sought = trial.worth if trial.worth is not None else _difference(judged)
    settings = "".join(run.setting for run in counted)
    told = judged is not None and judged.verdict != "cannot tell"
    known = scatter is not None and scatter.dof >= FEWEST and bool(sought)
    base = None if scatter is None or not known else Scatter(scatter.sd, 0.0 if lent is None else lent.dof)
    more = 0 if told else further_runs(trial.plan, settings, sought or 0.0, base)
    return JudgedTrial(
        trial,
        judged,
        changed_by(library, trial),
        sought if known else None,
        more,
        _power(trial, sought, base, 0.0 if scatter is None else scatter.dof),
        lent,
        tuple(other.name for other in lenders(trial, every)),
    )


def _difference(judged: Judged | None) -> float | None:
    """Return the difference that was seen; None of none, or of one that is but rounding."""
    if judged is None or judged.found is None:
        return None
    found = judged.found
    seen = abs(found.difference)
    return seen if seen > ROUNDING * (found.high - found.low) else None


def _power(trial: Trial, sought: float | None, scatter: Scatter | None, known_by: float) -> float | None:
    if sought is None or scatter is None:
        return None
    runs = max(len(trial.counted), len(trial.plan))
    return power(design(RunOrder.of(extended(trial.plan, "", runs))), sought, scatter, known_by=known_by)


def order_of(trial: Trial) -> RunOrder:
    """Return which setting ran when, of the runs that count; one struck out keeps its place in the day's order."""
    days = {day: n for n, day in enumerate(dict.fromkeys(run.day for run in trial.runs))}
    place: dict[str, int] = {}
    rows = []
    for run in trial.runs:
        place[run.day] = place.get(run.day, -1) + 1
        if not run.struck:
            rows.append((ord(run.setting) - ord("a"), place[run.day], days[run.day]))
    table = np.array(rows, dtype=int).reshape(-1, 3)
    return RunOrder(table[:, 0], table[:, 1].astype(float), table[:, 2])


_DAY = len("2026-05-02")


def lent_scatter(trial: Trial, others: Iterable[Trial]) -> Scatter | None:
    """Return a run's scatter as earlier trials of the same measure, unit and surface tell it; None where none does.

    What is noted later changes no verdict.
    """
    squares = dof = 0.0
    for other in lenders(trial, others):
        own = _own_scatter(other)
        if own is not None:
            squares, dof = squares + own.sd**2 * own.dof, dof + own.dof
    return Scatter(float(np.sqrt(squares / dof)), dof) if dof else None


def lenders(trial: Trial, others: Iterable[Trial]) -> tuple[Trial, ...]:
    """Return the earlier trials of the same measure, unit and surface that tell how a run scatters."""
    return tuple(
        other for other in others
        if other.name != trial.name and _alike(trial, other) and _over_before(other, trial)
        and _own_scatter(other) is not None
    )  # fmt: skip


def _own_scatter(trial: Trial) -> Scatter | None:
    return drift_fit(order_of(trial), [trial.runs[n].result for n in trial.counted]).scatter


def _once(trial: Trial) -> bool:
    """Tell whether the settings change at most once on each day, and somewhere they do."""
    days: dict[str, str] = {}
    for n in trial.counted:
        days[trial.runs[n].day] = days.get(trial.runs[n].day, "") + trial.runs[n].setting
    changes = [sum(x != y for x, y in itertools.pairwise(settings)) for settings in days.values()]
    return max(changes) == 1


def _over_before(other: Trial, trial: Trial) -> bool:
    """Whether a trial's last run was before another's first, by their dates; one without runs is to come."""
    last = max((other.runs[n].date for n in other.counted), default="")
    first = min((run.date for run in trial.runs), default=None)
    return bool(last) and (first is None or last < first or (last == first and len(last) > _DAY))


def _alike(trial: Trial, other: Trial) -> bool:
    def key(one: Trial) -> tuple[str, str | None, str]:
        return one.measure.casefold(), result_kind(one.unit) or one.unit, (one.surface or "").casefold()

    return bool(trial.measure) and key(trial) == key(other)
