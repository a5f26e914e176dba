"""What the library holds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.jobs.answering import Answer
from dynoan.jobs.kept import RECORD_COLUMNS, record_dict, record_row
from dynoan.jobs.setup.plain import UnreadableFile, left_out
from dynoan.library import SweepRecord
from dynoan.workbench.resolving import Wanted, parse_wanted

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class SweepsQuestion:
    """Which sweeps; by default all."""

    wanted: Wanted = field(default_factory=Wanted)
    filters: tuple[str, ...] = ()  #: the same as people gave it

    @classmethod
    def asked(cls, *filters: str) -> SweepsQuestion:
        """Return the question from filters such as "pack=gravel" or "shock=FL-01,lsc=6"; all must fit.

        Raises
        ------
        CallError
            If a filter is not KEY=VALUE with a known key.
        """
        return cls(parse_wanted(",".join(filters)), filters)


@dataclass(frozen=True)
class SweepsAnswer(Answer):
    """The sweeps of the library that fit, in order of id."""

    job: ClassVar[str] = "sweeps"
    columns: ClassVar[tuple[str, ...] | None] = RECORD_COLUMNS
    question: SweepsQuestion
    records: tuple[SweepRecord, ...]
    held: int  #: how many there are in all
    unreadable: tuple[UnreadableFile, ...] = ()  #: files that cannot be listed

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan sweeps --json`` prints it."""
        return {"sweeps": [record_dict(r) for r in self.records], "unreadable": [vars(one) for one in self.unreadable]}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a sweep."""
        return [record_row(r) for r in self.records]


def answer(bench: Workbench, question: SweepsQuestion) -> SweepsAnswer:
    """Return what fits; a file that cannot be listed is a warning.

    Raises
    ------
    LibraryError
        If the library is gone.
    """
    found = bench.library.listed()
    unreadable = left_out(found.faults)
    records = found.records
    return SweepsAnswer(
        question=question, records=tuple(r for r in records if question.wanted.fits(r)), held=len(records),
        unreadable=unreadable, warnings=tuple(f"{one.warning} (see: dynoan check)" for one in unreadable),
    )  # fmt: skip
