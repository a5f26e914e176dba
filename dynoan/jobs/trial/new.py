"""Planning a trial: which settings, in which order, measured how."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import CallError
from dynoan.jobs.answering import Answer, about
from dynoan.jobs.trial.judged import JudgedTrial, judged_trial
from dynoan.jobs.trial.plain import trial_dict, trial_warnings
from dynoan.library.trial_file import plan_of
from dynoan.model.dates import iso_date
from dynoan.model.results import result_of
from dynoan.model.trial import Trial

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class TrialNewQuestion:
    """The trial that is to be kept."""

    trial: Trial

    @classmethod
    def asked(
        cls, name: str, a: str, b: str, *, less: bool | None = None, unit: str = "s", plan: str = "abba",
        question: str = "", measure: str = "", worth: str | float | None = None, car: str | None = None,
        surface: str | None = None, date: str | None = None, remarks: str = "",
    ) -> TrialNewQuestion:  # fmt: skip
        """Return the question from values as people give them.

        Parameters
        ----------
        name
            Of the trial.
        a, b
            Setups, clicks, packs or the team's own words.
        less
            Whether less is better; None: less for times, an error for other units.
        unit
            Of the results; empty where they have none.
        plan
            The order of runs.
        question, measure, car, surface, date, remarks
            In the team's words; the date is today where left out.
        worth
            The smallest difference worth knowing, in the unit of the results.

        Raises
        ------
        CallError
            If a and b are the same, or it cannot be told whether less or more is better.
        QuantityError
            If plan, worth or date are none.
        """
        if a.strip() == b.strip():
            raise CallError(f"a and b are both '{a.strip()[:60]}'", hint="a trial compares two settings", part="b")
        with about("plan"):
            order = plan_of(plan)
        with about("worth"):
            least = None if worth is None else result_of(str(worth), unit)
        if least is not None and least <= 0:
            raise CallError(f"'{worth}' is no difference", hint="give a number above zero", part="worth")
        with about("date"):
            day = iso_date(date) if date else datetime.date.today().isoformat()
        return cls(Trial(
            name=name, a=a, b=b, less=_less(less, unit), unit=unit.strip(), plan=order, question=question,
            measure=measure, worth=least, car=car, surface=surface, date=day, remarks=remarks,
        ))  # fmt: skip


def _less(less: bool | None, unit: str) -> bool:
    from dynoan.model.results import result_kind

    if less is None and result_kind(unit) != "time":
        raise CallError("is less or more better? only times say that by themselves", need="better")
    return less is not False


@dataclass(frozen=True)
class TrialNewAnswer(Answer):
    """The trial as it was kept, and what its plan can tell."""

    job: ClassVar[str] = "trial new"
    question: TrialNewQuestion
    found: JudgedTrial

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan trial new --json`` prints it."""
        return trial_dict(self.found)

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return the planned runs, one row each."""
        return [{"number": n, "setting": s} for n, s in enumerate(self.found.trial.plan, 1)]


def answer(bench: Workbench, question: TrialNewQuestion) -> TrialNewAnswer:
    """Keep a new trial and return it, with what its plan can tell.

    Raises
    ------
    CallError
        If there is one of that name, or the name can be no file's.
    LookupFault
        If the library knows no such car.
    QuantityError, LibraryError
        If it cannot be kept.
    """
    if question.trial.car is not None:
        bench.library.car(question.trial.car)
    kept = bench.library.trials.keep_new(question.trial)
    found = judged_trial(bench.library, kept)
    return TrialNewAnswer(question=question, found=found, warnings=trial_warnings(found))
