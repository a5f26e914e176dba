"""What the library holds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import LookupFault
from dynoan.jobs.answering import Answer
from dynoan.jobs.kept import RECORD_COLUMNS, record_dict, record_row
from dynoan.jobs.listing import UnreadableFile, left_out
from dynoan.library import SweepRecord
from dynoan.library.names import nearest, printable
from dynoan.workbench.resolving import Wanted, parse_wanted

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class SweepsQuestion:
    """Which sweeps; by default all."""

    wanted: Wanted = field(default_factory=Wanted)
    filters: tuple[str, ...] = ()  #: the same as people gave it
    names: tuple[str, ...] = ()  #: of packs or shocks, without a key before them

    @classmethod
    def asked(cls, *filters: str) -> SweepsQuestion:
        """Return the question from filters such as "pack=gravel", "shock=FL-01,lsc=6" or "gravel"; all must fit.

        Raises
        ------
        CallError
            If a filter is neither a name nor KEY=VALUE with a known key.
        """
        names = tuple(name.strip() for name in filters if name.strip() and not set(name) & {"=", "@", ","})
        keyed = [text for text in filters if text.strip() not in names]
        return cls(parse_wanted(",".join(keyed)), filters, names)

    def fits(self, record: SweepRecord) -> bool:
        """Return whether a sweep is wanted."""
        return self.wanted.fits(record) and all(name in (record.shock, record.pack) for name in self.names)


@dataclass(frozen=True)
class SweepsAnswer(Answer):
    """The sweeps of the library that fit, in order of id."""

    job: ClassVar[str] = "sweeps"
    columns: ClassVar[tuple[str, ...] | None] = RECORD_COLUMNS
    question: SweepsQuestion
    records: tuple[SweepRecord, ...]
    held: int  #: how many there are in all
    unreadable: tuple[UnreadableFile, ...] = ()  #: files that cannot be listed
    meant: str = ""  #: where nothing fits: the name that was likely meant, as a question

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
    LookupFault
        If a name without a key is that of no shock and no pack.
    LibraryError
        If the library is gone.
    """
    found = bench.library.listed()
    unreadable = left_out(found.faults)
    records = found.records
    _be_known(question.names, records)
    fitting = tuple(r for r in records if question.fits(r))
    return SweepsAnswer(
        question=question, records=fitting, held=len(records), unreadable=unreadable,
        meant="" if fitting else _meant(question, records),
        warnings=tuple(f"{one.warning} (see: dynoan check)" for one in unreadable),
    )  # fmt: skip


def _be_known(names: Sequence[str], records: Sequence[SweepRecord]) -> None:
    known = {name for r in records for name in (r.shock, r.pack) if name}
    for name in names:
        if name not in known:
            raise LookupFault(
                f"'{printable(name[:60])}' is no shock and no pack of the library{nearest(name, sorted(known))}",
                hint="write KEY=VALUE, such as pack=gravel or lsc=6",
            )


def _meant(question: SweepsQuestion, records: Sequence[SweepRecord]) -> str:
    known = {name for r in records for name in (r.shock, r.pack) if name}
    asked = (question.wanted.shock, question.wanted.pack)
    return "".join(nearest(name, sorted(known)) for name in asked if name and name not in known)
