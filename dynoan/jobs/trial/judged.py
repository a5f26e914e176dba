"""What all jobs about trials share: a trial judged by its runs, and the same as plain values."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from dynoan.analysis.trials.assumptions import FEWEST, ROUNDING
from dynoan.analysis.trials.difference import RunOrder, Scatter, design, drift_fit
from dynoan.analysis.trials.judging import Judged, judge
from dynoan.analysis.trials.power import extended, following, further_runs, power
from dynoan.jobs.trial.changed import Changed, changed_by
from dynoan.library.names import printable
from dynoan.model.results import result_kind
from dynoan.model.trial import Trial
from dynoan.units import SI_UNITS

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


def trial_dict(found: JudgedTrial) -> dict[str, Any]:
    """Return a judged trial as plain values, as JSON has them."""
    trial, judged = found.trial, found.judged
    limits = None if judged is None else judged.found
    difference = None if judged is None else judged.fit.difference
    return {
        "name": trial.name, "question": trial.question, "a": trial.a, "b": trial.b, "measure": trial.measure,
        "unit": trial.unit, "unit_si": SI_UNITS.get(result_kind(trial.unit) or "", trial.unit),
        "better": "less" if trial.less else "more", "plan": trial.plan, "car": trial.car, "surface": trial.surface,
        "date": trial.date, "remarks": trial.remarks, "worth": trial.worth, "runs": run_rows(trial),
        "difference": difference, "low": None if limits is None else limits.low,
        "high": None if limits is None else limits.high, "verdict": found.verdict, "more_runs": found.more_runs,
        "next": found.next, "below_worth": found.below_worth, "sought": found.sought, "power": found.power,
        "changed": list(found.changed.what) if found.changed.known else None, "file": trial.file,
        "changed_once": found.changed_once, "lent_by": list(found.lent_by),
    } | _evidence(judged)  # fmt: skip


def _evidence(judged: Judged | None) -> dict[str, Any]:
    ranks = None if judged is None else judged.ranks
    scatter = None if judged is None else judged.scatter
    return {
        "p": None if judged is None else judged.p, "p_ranks": None if ranks is None else ranks.p,
        "least_p_ranks": None if ranks is None else ranks.least, "scatter": None if scatter is None else scatter.sd,
        "scatter_dof": None if scatter is None else scatter.dof,
        "drift_bends": judged is not None and judged.bent is not None,
        "bend_looks_alike": judged is not None and judged.bend_alike,
    }  # fmt: skip


def run_rows(trial: Trial) -> list[dict[str, Any]]:
    """Return the runs of a trial as rows of a table, numbered from 1."""
    return [
        {"number": n, "setting": run.setting, "result": run.result, "text": run.text, "date": run.date,
         "struck": run.struck or None, "remarks": run.remarks}
        for n, run in enumerate(trial.runs, 1)
    ]  # fmt: skip


def trial_warnings(found: JudgedTrial) -> tuple[str, ...]:
    """Return what is doubtful about a trial."""
    said = []
    trial, judged = found.trial, found.judged
    if not trial.runs:
        said += _plan_doubts(trial.plan)
    if judged is not None and judged.bent is not None:
        said.append("the day's drift was not even over these runs (it bends): the verdict stands only where it is the "
                    "same with the bend taken out; runs in the order abbabaab tell it best")  # fmt: skip
    if judged is not None and judged.bend_alike and judged.verdict != "cannot tell":
        said.append("a day whose middle was faster or slower than its ends would look the same in this order of runs: "
                    "before you lean on it, run on as planned, or in the order abbabaab")  # fmt: skip
    if found.changed_once and found.verdict != "cannot tell":
        said.append("the setting was changed only once a day: whatever else changed then, such as the sun or "
                    "the driver, would look the same; before you lean on it, go on in the order a-b-b-a")  # fmt: skip
    if len({run.day for run in trial.runs}) > 1 and any(not run.day for run in trial.runs):
        said.append("some runs have no date: they are taken as one day of their own")
    if found.changed.known and len(found.changed.what) > 1:
        said.append(f"{len(found.changed.what)} things differ between a and b ({_some(found.changed.what)}): whatever "
                    "comes of it, which of them did it is not known")  # fmt: skip
    if found.changed.known and not found.changed.what:
        said.append("a and b are the same as far as the library can tell")
    return tuple(said)


def _plan_doubts(plan: str) -> list[str]:
    """Return what an order of runs cannot tell, before any is driven."""
    order = "-".join(plan)
    if design(RunOrder.of(plan)).weights is None:
        return [f"the runs {order} alone cannot tell b from a day that drifts evenly; take --plan abba"]
    if sum(x != y for x, y in itertools.pairwise(plan)) == 1:
        return [f"in the order {order} the setting changes only once: whatever else changes then, such as the sun or "
                "the driver, looks the same; take --plan abba"]  # fmt: skip
    return []


def _some(what: Sequence[str]) -> str:
    return printable(", ".join(what[:4])) + (" …" if len(what) > 4 else "")
