"""The setups kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.jobs.answering import Answer
from dynoan.jobs.listing import UnreadableFile, left_out
from dynoan.jobs.setup.plain import SETUP_COLUMNS, chosen, setup_dict, setup_row
from dynoan.jobs.setup.season import SeasonSurface, season_of
from dynoan.jobs.trial.listing import TrialListQuestion
from dynoan.jobs.trial.listing import answer as trials
from dynoan.model.setup import Setup

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class SetupListQuestion:
    """Which setups; by default all."""

    surface: str | None = None
    by_surface: bool = False  #: as a season: what was changed when, what followed, and the baseline of each surface


@dataclass(frozen=True)
class SetupListAnswer(Answer):
    """The setups that fit, oldest first."""

    job: ClassVar[str] = "setup list"
    columns: ClassVar[tuple[str, ...] | None] = SETUP_COLUMNS
    question: SetupListQuestion
    setups: tuple[Setup, ...]
    season: tuple[SeasonSurface, ...] = ()  #: where it was asked for by surface
    unreadable: tuple[UnreadableFile, ...] = ()  #: files that may hold more of them

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan setup list --json`` prints it."""
        setups = [setup_dict(s) for s in self.setups]
        listed: dict[str, Any] = {"setups": setups, "unreadable": [vars(one) for one in self.unreadable]}
        return listed | ({"season": [s.to_dict() for s in self.season]} if self.question.by_surface else {})

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a setup."""
        return [setup_row(s) for s in self.setups]


def answer(bench: Workbench, question: SetupListQuestion) -> SetupListAnswer:
    """Return the setups kept, and the season by surface where it is wanted; a file that cannot be read is a warning."""
    setups, faults = bench.library.readable_setups()
    kept, unreadable = tuple(chosen(setups, question.surface)), left_out(faults)
    warnings = tuple(one.warning for one in unreadable)
    if not question.by_surface:
        return SetupListAnswer(question=question, setups=kept, unreadable=unreadable, warnings=warnings)
    tested = trials(bench, TrialListQuestion(question.surface))
    return SetupListAnswer(
        question=question, setups=kept, season=season_of(kept, tested.trials),
        unreadable=(*unreadable, *tested.unreadable), warnings=(*warnings, *tested.warnings),
    )  # fmt: skip
