"""The trials kept, each with its verdict."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.jobs.answering import Answer
from dynoan.jobs.listing import UnreadableFile, is_asked_for, left_out
from dynoan.jobs.trial.judged import JudgedTrial, judged_trial
from dynoan.jobs.trial.plain import trial_dict

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class TrialListQuestion:
    """Which trials; by default all."""

    surface: str | None = None
    car: str | None = None


@dataclass(frozen=True)
class TrialListAnswer(Answer):
    """The trials that fit, oldest first, judged."""

    job: ClassVar[str] = "trial list"
    columns: ClassVar[tuple[str, ...] | None] = (
        "name", "date", "surface", "car", "a", "b", "runs", "verdict", "difference", "low", "high", "unit_si",
        "more_runs", "next",
    )  # fmt: skip
    question: TrialListQuestion
    trials: tuple[JudgedTrial, ...]
    unreadable: tuple[UnreadableFile, ...] = ()  #: files that may hold more of them

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan trial list --json`` prints it."""
        return {"trials": [trial_dict(t) for t in self.trials], "unreadable": [vars(one) for one in self.unreadable]}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a trial."""
        return [self._row(t) for t in self.trials]

    def _row(self, found: JudgedTrial) -> dict[str, Any]:
        plain = trial_dict(found) | {"runs": len(found.trial.counted)}
        return {key: plain[key] for key in self.columns or ()}


def answer(bench: Workbench, question: TrialListQuestion) -> TrialListAnswer:
    """Return the trials kept, each judged; a file that cannot be read is a warning."""
    trials, faults = bench.library.trials.readable()
    unreadable = left_out(faults)
    chosen = [t for t in trials if is_asked_for(t.surface, question.surface) and is_asked_for(t.car, question.car)]
    return TrialListAnswer(
        question=question, trials=tuple(judged_trial(bench.library, t, trials) for t in chosen),
        unreadable=unreadable, warnings=tuple(one.warning for one in unreadable),
    )  # fmt: skip
