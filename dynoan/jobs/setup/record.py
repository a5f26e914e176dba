"""Keeping what is on a car now, and how it went. Facts only."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import CallError
from dynoan.jobs.ahead import doubted
from dynoan.jobs.answering import Answer, about, temperature_of
from dynoan.jobs.setup.plain import setup_dict, setup_row
from dynoan.library.names import meant
from dynoan.library.setup_file import car_text_of, setup_from_text
from dynoan.library.toml_text import read_text
from dynoan.model.dates import iso_date
from dynoan.model.setup import Setup

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class DayFacts:
    """What is known of the day; None leaves a fact out, or as a setup file has it."""

    surface: str | None = None  #: in the team's words
    temperature: float | None = None  #: air or track, as the team notes it [°C]
    result: str | None = None  #: a time, a place, whatever tells how it went
    good: bool | None = None  #: the team's own verdict; recalling goes by it
    remarks: str | None = None
    date: str | None = None  #: ISO 8601; now where nothing says when


@dataclass(frozen=True)
class SetupRecordQuestion:
    """Whose setup, and how it went: of a car as its file has it now, or of a setup file."""

    car: str | None = None  #: a name in the library, or a car file's path
    file: Path | None = None  #: a setup file, as the phone page saves it
    facts: DayFacts = field(default_factory=DayFacts)

    @classmethod
    def asked(
        cls, car: str | None = None, *, file: str | Path | None = None, surface: str | None = None,
        temperature: float | str | None = None, result: str | None = None, good: bool | None = None,
        remarks: str | None = None, date: str | None = None,
    ) -> SetupRecordQuestion:  # fmt: skip
        """Return the question from values as people give them: numbers (°C) or text with a unit.

        Raises
        ------
        CallError
            If both a car and a file are named, or neither.
        QuantityError
            If date or temperature are none.
        """
        if (car is None) == (file is None):
            raise CallError("name either a car or a setup file", need="car or file")
        if date is not None:
            with about("date"):
                date = iso_date(date)
        degrees = None if temperature is None else temperature_of(temperature)
        facts = DayFacts(surface, degrees, result, good, remarks, date)
        return cls(car, None if file is None else Path(file), facts)


@dataclass(frozen=True)
class SetupRecordAnswer(Answer):
    """The setup as it was kept."""

    job: ClassVar[str] = "setup record"
    question: SetupRecordQuestion
    setup: Setup

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan setup record --json`` prints it."""
        return {"setup": setup_dict(self.setup)}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return the setup as one row."""
        return [setup_row(self.setup)]


def answer(bench: Workbench, question: SetupRecordQuestion) -> SetupRecordAnswer:
    """Keep a setup and return it; the car's own text goes into it word for word.

    Raises
    ------
    LookupFault
        If the library knows no such car.
    QuantityError
        If the car's file or the setup file is wrong, or a fact cannot be.
    LibraryError
        If a file cannot be read or written.
    """
    made, car_text = _from_car(bench, question.car) if question.car else _from_file(question.file)
    given = {key: value for key, value in vars(question.facts).items() if value is not None}
    misspelt = [*_misspelt(bench, replace(made, **given))]  # before it is kept and so known
    kept = bench.library.record_setup(replace(made, **given), car_text)
    return SetupRecordAnswer(question=question, setup=kept, warnings=(*misspelt, *doubted([kept.date])))


def _misspelt(bench: Workbench, setup: Setup) -> Iterator[str]:
    """Yield that a surface nobody named before is spelled nearly like one that the car or the log book knows."""
    if setup.surface is None or setup.surface in setup.car.surfaces:
        return
    before, _faults = bench.library.readable_setups()
    known = {*setup.car.surfaces, *(day.surface for day in before if day.surface)}
    if setup.surface.casefold() not in {name.casefold() for name in known} and (near := meant(setup.surface, known)):
        yield (f"surface '{setup.surface}' is new (did you mean '{near}'?): the last good setup is looked for by "
               "this name")  # fmt: skip


def _from_car(bench: Workbench, name: str) -> tuple[Setup, str]:
    made = Setup(name="", car=bench.library.car(name), date=datetime.datetime.now().isoformat(timespec="seconds"))
    return made, bench.library.car_text(name)


def _from_file(file: Path | None) -> tuple[Setup, str]:
    if file is None:
        raise CallError("name either a car or a setup file", need="car or file")
    text = read_text(file, str(file))
    return setup_from_text(text, str(file), file.stem), car_text_of(text, str(file))
