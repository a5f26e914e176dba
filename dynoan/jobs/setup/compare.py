"""What differs between two setups."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.jobs.answering import Answer
from dynoan.library.differences import Difference, differences
from dynoan.model.setup import Setup
from dynoan.units import Shown

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class SetupCompareQuestion:
    """Which two setups, by name."""

    one: str
    other: str


@dataclass(frozen=True)
class SetupCompareAnswer(Answer):
    """The two setups, and every fact they state differently."""

    job: ClassVar[str] = "setup compare"
    columns: ClassVar[tuple[str, ...] | None] = ("what", "a", "b")
    question: SetupCompareQuestion
    one: Setup
    other: Setup

    def differences(self, units: Shown = "metric") -> tuple[Difference, ...]:
        """Return what differs, in the order of a setup file; texts in the units given, values in SI."""
        return differences(self.one, self.other, units)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan setup compare --json`` prints it."""
        return {"a": self.one.name, "b": self.other.name, "differences": list(self.rows())}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a difference, values in SI."""
        return [{"what": d.what, "a": d.one_value, "b": d.other_value} for d in self.differences()]


def answer(bench: Workbench, question: SetupCompareQuestion) -> SetupCompareAnswer:
    """Return two setups laid side by side.

    Raises
    ------
    LookupFault
        If there is no such setup.
    QuantityError
        If a setup file is wrong.
    """
    one, other = (bench.library.setup(name) for name in (question.one, question.other))
    return SetupCompareAnswer(question=question, one=one, other=other)
