"""Verifying every file of the library."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.jobs.answering import Answer
from dynoan.library import Fault
from dynoan.library.names import printable

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class CheckQuestion:
    """The whole library: there is nothing to choose."""


@dataclass(frozen=True)
class CheckAnswer(Answer):
    """How many files were verified, and what is wrong with which; the answer is no where one is faulty."""

    job: ClassVar[str] = "check"
    columns: ClassVar[tuple[str, ...] | None] = ("file", "fault")
    question: CheckQuestion
    files: int
    faults: tuple[Fault, ...]

    @property
    def no(self) -> bool:
        """Whether any file is faulty."""
        return bool(self.faults)

    def lines(self) -> list[str]:
        """Return a line a faulty file, with nothing in it that could steer a screen."""
        return [f"{printable(fault.file)}: {printable(fault.fault)}" for fault in self.faults]

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan check --json`` prints it."""
        return {"files": self.files, "faults": list(self.rows())}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a faulty file."""
        return [{"file": fault.file, "fault": fault.fault} for fault in self.faults]


def answer(bench: Workbench, question: CheckQuestion) -> CheckAnswer:
    """Return what is wrong with checksums and formats of all sweeps, and with the text that people edit.

    Raises
    ------
    LibraryError
        If the library is gone.
    """
    report = bench.library.check()
    return CheckAnswer(question=question, files=report.files, faults=report.faults)
