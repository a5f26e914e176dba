"""A judged trial as plain values, and what is doubtful about it."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import Any

from dynoan.analysis.trials.difference import RunOrder, design
from dynoan.analysis.trials.judging import Judged
from dynoan.jobs.trial.judged import JudgedTrial
from dynoan.library.names import printable
from dynoan.model.results import result_kind
from dynoan.model.trial import Trial
from dynoan.units import SI_UNITS


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
