"""Verifying every file of the library."""

from __future__ import annotations

import shlex
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.jobs.answering import Answer
from dynoan.library import Fault
from dynoan.library.names import name_of, printable
from dynoan.units import NOTHING

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
    unfilled: tuple[Fault, ...] = ()  #: what is still to be filled in, in files that nothing else is wrong with

    @property
    def no(self) -> bool:
        """Whether any file is faulty."""
        return bool(self.faults)

    def lines(self) -> list[str]:
        """Return a line a faulty file, with nothing in it that could steer a screen."""
        return [f"{printable(fault.file)}: {printable(fault.fault)}" for fault in self.faults]

    def unfilled_lines(self) -> list[str]:
        """Return a line a file that is still to be filled in, with the command that names what it lacks."""
        out = []
        for file, count in Counter(fault.file for fault in self.unfilled).items():
            folder, _, name = file.removesuffix(".toml").partition("/")
            asked = f"dynoan new {folder.removesuffix('s')} {shlex.quote(printable(name_of(name)))}"
            out.append(f"{printable(file)}: {count} value{'s' * (count > 1)} still to be filled in; {asked} names them")
        return out

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan check --json`` prints it."""
        return {"files": self.files, "faults": list(self.rows()), "to_fill_in": _listed(self.unfilled)}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a faulty file."""
        return _listed(self.faults)


def _listed(faults: Sequence[Fault]) -> list[dict[str, str]]:
    return [{"file": fault.file, "fault": fault.fault} for fault in faults]


def answer(bench: Workbench, question: CheckQuestion) -> CheckAnswer:
    """Return what is wrong with checksums and formats of all sweeps, and with the text that people edit.

    Raises
    ------
    LibraryError
        If the library is gone.
    """
    report = bench.library.check()
    faulty = {fault.file for fault in report.faults if f"{NOTHING};" not in fault.fault}
    parts = (tuple(f for f in report.faults if (f.file in faulty) is wrong) for wrong in (True, False))
    return CheckAnswer(question, report.files, *parts)
