"""Putting right what kept sweeps say of themselves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import CallError
from dynoan.jobs.ahead import doubted
from dynoan.jobs.answering import Answer, about, temperature_of
from dynoan.jobs.kept import check_clicks, record_dict, record_row
from dynoan.jobs.read.options import asked_clicks, asked_name
from dynoan.library import SweepRecord
from dynoan.model.dates import iso_date

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class EditQuestion:
    """Which sweeps, and what is right of all; None leaves a fact as it is, what is empty takes it away."""

    sweeps: tuple[str, ...]  #: their ids, or the beginnings of these
    shock: str | None = None
    pack: str | None = None
    clicks: Mapping[str, int] | None = None  #: as the shock counts; adjusters not named keep theirs
    date: str | None = None  #: ISO 8601
    temperature: float | None = None  #: [°C]

    @classmethod
    def asked(
        cls, *sweeps: str, shock: str | None = None, pack: str | None = None,
        clicks: str | Mapping[str, int] | None = None, date: str | None = None, temperature: float | str | None = None,
    ) -> EditQuestion:  # fmt: skip
        """Return the question from values as people give them: numbers (°C) or text with a unit.

        Raises
        ------
        CallError
            If no sweep is named, nothing is to be corrected, the clicks are none, or a name is clicks.
        QuantityError
            If date or temperature are none.
        """
        if (shock, pack, clicks, date, temperature) == (None,) * 5:
            raise CallError("nothing to correct", need="correction")
        if not sweeps:
            raise CallError("no sweep is named", hint="name one by its id")
        if date:
            with about("date"):
                date = iso_date(date)
        degrees = None if temperature is None else temperature_of(temperature)
        names = asked_name(shock, "shock"), asked_name(pack, "pack")
        return cls(sweeps, *names, asked_clicks(clicks), date, degrees)


@dataclass(frozen=True)
class EditAnswer(Answer):
    """The sweeps as they were, and as the library holds them now, in the order they were named."""

    job: ClassVar[str] = "edit"
    question: EditQuestion
    before: tuple[SweepRecord, ...]
    records: tuple[SweepRecord, ...]

    @property
    def record(self) -> SweepRecord:
        """The first of them as the library holds it now."""
        return self.records[0]

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan edit --json`` prints it."""
        return {"sweeps": [record_dict(record) for record in self.records]}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a sweep."""
        return [record_row(record) for record in self.records]


def answer(bench: Workbench, question: EditQuestion) -> EditAnswer:
    """Correct sweeps and return them; their ids, channels and the rig's own bytes stay as they are.

    All are looked at before the first is changed.

    Raises
    ------
    LookupFault
        If no sweep, or more than one, has an id that begins so.
    CallError
        If a shock's file states other adjusters or fewer clicks, or a name cannot be.
    LibraryError
        If a file is damaged or cannot be written.
    """
    library = bench.library
    before = tuple({record.id: record for record in map(library.record, question.sweeps)}.values())
    clicks = [merged_clicks(record, question.clicks) for record in before]
    for record, now in zip(before, clicks, strict=True):
        if now is not None:
            check_clicks(library, question.shock or record.shock, now)
    records = tuple(
        library.edit(record.id, shock=question.shock, pack=question.pack, clicks=now, date=question.date,
                     temperature=question.temperature)
        for record, now in zip(before, clicks, strict=True)
    )  # fmt: skip
    bench.forget()
    return EditAnswer(question=question, before=before, records=records, warnings=tuple(doubted([question.date])))


def merged_clicks(record: SweepRecord, given: Mapping[str, int] | None) -> dict[str, int] | None:
    """Return a sweep's clicks with those given in their place; none where nothing is in it; None leaves them."""
    if given is None:
        return None
    return dict(record.clicks) | dict(given) if given else {}
