"""What a trial's runs tell: b minus a with the day's drift taken out, the verdict, and how to go on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.jobs.answering import Answer
from dynoan.jobs.trial.judged import JudgedTrial, judged_trial
from dynoan.jobs.trial.plain import run_rows, trial_dict, trial_warnings

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class TrialShowQuestion:
    """Which trial."""

    name: str


@dataclass(frozen=True)
class TrialShowAnswer(Answer):
    """The trial, judged."""

    job: ClassVar[str] = "trial show"
    columns: ClassVar[tuple[str, ...] | None] = (
        "number", "setting", "result", "text", "date", "struck", "remarks",
    )  # fmt: skip
    question: TrialShowQuestion
    found: JudgedTrial

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan trial show --json`` prints it."""
        return trial_dict(self.found)

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a run."""
        return run_rows(self.found.trial)


def answer(bench: Workbench, question: TrialShowQuestion) -> TrialShowAnswer:
    """Return a trial with what its runs tell.

    Raises
    ------
    LookupFault
        If there is no such trial.
    QuantityError
        If its file is wrong.
    """
    found = judged_trial(bench.library, bench.library.trial(question.name))
    return TrialShowAnswer(question=question, found=found, warnings=trial_warnings(found))
