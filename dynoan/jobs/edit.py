"""Putting right what a kept sweep says of itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import CallError
from dynoan.jobs.answering import Answer, about, temperature_of
from dynoan.jobs.kept import check_clicks, record_dict, record_row
from dynoan.jobs.reading_options import asked_clicks
from dynoan.library import SweepRecord
from dynoan.model.dates import iso_date

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class EditQuestion:
    """Which sweep, and what is right; None leaves a fact as it is, what is empty takes it away."""

    sweep: str  #: its id, or the beginning of it
    shock: str | None = None
    pack: str | None = None
    clicks: Mapping[str, int] | None = None  #: as the shock counts; adjusters not named keep theirs
    date: str | None = None  #: ISO 8601
    temperature: float | None = None  #: [°C]

    @classmethod
    def asked(
        cls, sweep: str, *, shock: str | None = None, pack: str | None = None,
        clicks: str | Mapping[str, int] | None = None, date: str | None = None, temperature: float | str | None = None,
    ) -> EditQuestion:  # fmt: skip
        """Return the question from values as people give them: numbers (°C) or text with a unit.

        Raises
        ------
        CallError
            If nothing is to be corrected, or the clicks are none.
        QuantityError
            If date or temperature are none.
        """
        if (shock, pack, clicks, date, temperature) == (None,) * 5:
            raise CallError("nothing to correct", need="correction")
        if date:
            with about("date"):
                date = iso_date(date)
        degrees = None if temperature is None else temperature_of(temperature)
        return cls(sweep, shock, pack, asked_clicks(clicks), date, degrees)


@dataclass(frozen=True)
class EditAnswer(Answer):
    """The sweep as it was, and as the library holds it now."""

    job: ClassVar[str] = "edit"
    question: EditQuestion
    before: SweepRecord
    record: SweepRecord

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan edit --json`` prints it."""
        return {"sweeps": [record_dict(self.record)]}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return the sweep as one row."""
        return [record_row(self.record)]


def answer(bench: Workbench, question: EditQuestion) -> EditAnswer:
    """Correct a sweep and return it; its id, channels and the rig's own bytes stay as they are.

    Raises
    ------
    LookupFault
        If no sweep, or more than one, has an id that begins so.
    CallError
        If the shock's file states other adjusters or fewer clicks, or a name cannot be.
    LibraryError
        If its file is damaged or cannot be written.
    """
    library = bench.library
    before = library.record(question.sweep)
    clicks = merged_clicks(before, question.clicks)
    if clicks is not None:
        check_clicks(library, question.shock or before.shock, clicks)
    record = library.edit(
        before.id, shock=question.shock, pack=question.pack, clicks=clicks, date=question.date,
        temperature=question.temperature,
    )  # fmt: skip
    bench.forget()
    return EditAnswer(question=question, before=before, record=record)


def merged_clicks(record: SweepRecord, given: Mapping[str, int] | None) -> dict[str, int] | None:
    """Return a sweep's clicks with those given in their place; none where nothing is in it; None leaves them."""
    if given is None:
        return None
    return dict(record.clicks) | dict(given) if given else {}
