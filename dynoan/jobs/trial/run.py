"""Noting a trial's runs: results as typed, or from a table of times; striking one out with its reason."""

from __future__ import annotations

import datetime
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.trials.power import following
from dynoan.errors import CallError, QuantityError
from dynoan.jobs.answering import Answer, about
from dynoan.jobs.assumptions import FAR_OF_A_DAY, FAR_RESULT
from dynoan.jobs.trial.judged import JudgedTrial, judged_trial
from dynoan.jobs.trial.plain import run_rows, trial_dict, trial_warnings
from dynoan.jobs.trial.results import TimedRun, timed_runs
from dynoan.model.dates import iso_date
from dynoan.model.results import result_factor, result_kind, result_of
from dynoan.model.trial import Trial, TrialRun, TrialSide
from dynoan.units import brief

if TYPE_CHECKING:
    from pathlib import Path

    from dynoan.workbench import Workbench

#: kinds of results of which none is zero or less, in words
_POSITIVE = {"time": "time", "velocity": "speed"}


@dataclass(frozen=True)
class TrialRunQuestion:
    """A trial, and what is to be noted in it: typed results, a table of them, or a run to strike out."""

    name: str
    setting: str | None = None
    results: tuple[str, ...] = ()  #: as typed
    table: Path | None = None  #: a CSV of results
    column: str | None = None  #: of it; None: found
    strike: int | None = None  #: number of a run, from 1
    reason: str = ""  #: why it is struck out; empty: it counts again
    date: str | None = None  #: None: now
    remarks: str = ""
    sure: bool = False  #: note a result however far it is from the others

    @classmethod
    def asked(
        cls, name: str, setting: str | None = None, results: Sequence[str] = (), *, table: Path | None = None,
        column: str | None = None, strike: int | None = None, reason: str = "", date: str | None = None,
        remarks: str = "", sure: bool = False,
    ) -> TrialRunQuestion:  # fmt: skip
        """Return the question from values as people give them.

        Raises
        ------
        CallError
            If not exactly one of a result, a table and a run to strike out is given, or the setting is not a or b.
        QuantityError
            If the date is none.
        """
        ways = (bool(results), table is not None, strike is not None)
        if sum(ways) != 1:
            raise CallError("note a result, a table of results, or strike a run out: one of them", need="run")
        side = None if setting is None else setting.strip().lower()
        if results and side not in ("a", "b"):
            raise CallError(f"'{(setting or '')[:20]}' is no setting of a trial", hint="it is a or b", part="setting")
        if reason and strike is None:
            raise CallError(
                "a reason belongs to a run that is struck out", hint="say which", part="reason", need="strike"
            )
        with about("date"):
            day = iso_date(date) if date else None
        return cls(name, side, tuple(results), table, column, strike, reason, day, remarks, sure)


@dataclass(frozen=True)
class TrialRunAnswer(Answer):
    """The trial after the runs were noted, judged."""

    job: ClassVar[str] = "trial run"
    question: TrialRunQuestion
    found: JudgedTrial
    noted: tuple[TrialRun, ...]  #: none where a run was struck out
    how: str = ""  #: how a table was understood

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan trial run --json`` prints it."""
        return trial_dict(self.found) | {"noted": len(self.noted), "understood": self.how or None}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a run."""
        return run_rows(self.found.trial)


def answer(bench: Workbench, question: TrialRunQuestion) -> TrialRunAnswer:
    """Note runs in a trial, or strike one out, and return it judged.

    Raises
    ------
    LookupFault
        If there is no such trial.
    QuantityError
        If a result is none, of another kind than the trial's, or a time or speed that is not above zero.
    CallError
        If a time or a speed is far from the trial's others and not said to be right, there is no run of that number,
        the table's columns cannot be told apart, or all its results are noted already.
    ReadError, LibraryError
        If a file cannot be read or written.
    """
    shelf = bench.library.trials
    if question.strike is not None:
        runs = shelf.trial(question.name).runs
        if not question.reason and 0 < question.strike <= len(runs) and not runs[question.strike - 1].struck:
            raise CallError(
                f"run {question.strike} counts already", hint="it takes a reason to strike it out", part="strike",
            )  # fmt: skip
        trial = shelf.strike(question.name, question.strike - 1, question.reason)
    else:
        trial = shelf.trial(question.name)
        noted, how = _runs(trial, question)
        far = _far(trial, noted)
        warnings = (*_off_plan(trial, noted), *([f"{far}? Then strike it out"] if far else []))
        found = judged_trial(bench.library, shelf.add_runs(question.name, noted))
        return TrialRunAnswer(
            question=question, found=found, noted=noted, how=how, warnings=(*warnings, *trial_warnings(found))
        )
    found = judged_trial(bench.library, trial)
    return TrialRunAnswer(question=question, found=found, noted=(), warnings=trial_warnings(found))


def _runs(trial: Trial, question: TrialRunQuestion) -> tuple[tuple[TrialRun, ...], str]:
    when = question.date or datetime.datetime.now().isoformat(timespec="minutes")
    if question.table is None:
        timed, how = [TimedRun(question.setting, text) for text in question.results], ""
    else:
        timed, how = timed_runs(question.table, trial, question.column)
        timed, how = (timed, how) if question.sure else _new_ones(trial, timed, how)
    done = len(trial.counted)
    runs = []
    for number, run in enumerate(timed):
        setting = run.setting or following(trial.plan, done + number)
        with about("result"):
            value = result_of(run.text, trial.unit)
        _check_possible(run.text, value, trial)
        side: TrialSide = "a" if setting == "a" else "b"
        runs.append(TrialRun(side, value, run.text, when, "", question.remarks))
    far = _far(trial, runs)
    if far and not question.sure:
        raise CallError(far, part="result", need="sure")
    return tuple(runs), how


def _new_ones(trial: Trial, timed: list[TimedRun], how: str) -> tuple[list[TimedRun], str]:
    """Return the results of a table that are not noted yet: the same file again, or grown since, is noted once.

    Raises
    ------
    CallError
        If all of them stand in the trial already, one behind the other.
    """
    before, texts = [run.text for run in trial.runs], [run.text for run in timed]
    many = len(texts)
    if many > 1 and any(before[n : n + many] == texts for n in range(len(before) - many + 1)):
        raise CallError(f"all {many} results stand in {trial.name} already", part="result", need="sure")
    if len(before) > 1 and texts[: len(before)] == before:
        return timed[len(before) :], f"{how}; the first {len(before)} were noted before"
    return timed, how


def _check_possible(text: str, value: float, trial: Trial) -> None:
    """Raise where a time or a speed is zero or less, which none is."""
    kind = result_kind(trial.unit)
    if kind in _POSITIVE and value <= 0:
        raise QuantityError(f"'{brief(text)}' is no {_POSITIVE[kind]}: it is not above zero", part="result")


def _far(trial: Trial, runs: Sequence[TrialRun]) -> str:
    """Return what is to be asked of the first time or speed that is far from the trial's others; empty without one."""
    if result_kind(trial.unit) not in _POSITIVE:
        return ""
    before = [trial.runs[n] for n in trial.counted]
    for n, run in enumerate(runs):
        others = [*before, *(r for m, r in enumerate(runs) if m != n)]
        that_day = [r.result for r in others if r.day == run.day]
        usual = statistics.median(that_day or [r.result for r in others] or [run.result])
        far = FAR_OF_A_DAY if that_day else FAR_RESULT
        if usual > 0 and not usual / far <= run.result <= usual * far:
            shown = f"{usual / result_factor(trial.unit):.4g} {trial.unit}".rstrip()
            return (f"'{brief(run.text)}' is {run.result / usual:.2g} times the {shown} of this trial's other runs: "
                    "did a point slip, is its unit another, or was the run broken off")  # fmt: skip
    return ""


def _off_plan(trial: Trial, noted: Sequence[TrialRun]) -> tuple[str, ...]:
    """Return a word where runs do not follow the plan, which is what takes the day's drift out."""
    done = len(trial.counted)
    wanted = [following(trial.plan, done + n) for n in range(len(noted))]
    if [run.setting for run in noted] == wanted:
        return ()
    return (f"the plan wanted {'-'.join(wanted)} here; it is noted as driven, and the drift is taken out as well as "
            "this order allows",)  # fmt: skip
