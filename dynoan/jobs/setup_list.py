"""The setups kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.jobs.answering import Answer
from dynoan.jobs.setups import SETUP_COLUMNS, chosen, readable, setup_dict, setup_row
from dynoan.model.setup import Setup

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class SetupListQuestion:
    """Which setups; by default all."""

    surface: str | None = None


@dataclass(frozen=True)
class SetupListAnswer(Answer):
    """The setups that fit, oldest first."""

    job: ClassVar[str] = "setup list"
    columns: ClassVar[tuple[str, ...] | None] = SETUP_COLUMNS
    question: SetupListQuestion
    setups: tuple[Setup, ...]

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan setup list --json`` prints it."""
        return {"setups": [setup_dict(s) for s in self.setups]}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a setup."""
        return [setup_row(s) for s in self.setups]


def answer(bench: Workbench, question: SetupListQuestion) -> SetupListAnswer:
    """Return the setups kept; a file that cannot be read is a warning."""
    setups, warnings = readable(bench.library)
    return SetupListAnswer(question=question, setups=tuple(chosen(setups, question.surface)), warnings=tuple(warnings))
