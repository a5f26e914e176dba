"""Putting right what a kept setup says of its day; the car in it stays word for word."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import CallError
from dynoan.jobs.answering import Answer, about, temperature_of
from dynoan.jobs.setup.plain import SETUP_COLUMNS, setup_dict, setup_row
from dynoan.model.dates import iso_date
from dynoan.model.setup import Setup

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class SetupEditQuestion:
    """Which setup, and what is right, by the name of a fact; an empty text takes a fact away."""

    name: str
    right: Mapping[str, Any]

    @classmethod
    def asked(
        cls, name: str, *, surface: str | None = None, temperature: float | str | None = None,
        result: str | None = None, good: bool | None = None, remarks: str | None = None, date: str | None = None,
    ) -> SetupEditQuestion:  # fmt: skip
        """Return the question from values as people give them.

        Raises
        ------
        CallError
            If nothing is to be corrected.
        QuantityError
            If date or temperature are none.
        """
        right: dict[str, Any] = {"surface": surface, "result": result, "good": good, "remarks": remarks}
        if date is not None:
            with about("date"):
                right["date"] = iso_date(date)
        if temperature is not None:
            right["temperature"] = temperature_of(temperature) if temperature != "" else ""
        given = {key: value for key, value in right.items() if value is not None}
        if not given:
            raise CallError("nothing to correct", need="setup correction")
        return cls(name, given)


@dataclass(frozen=True)
class SetupEditAnswer(Answer):
    """The setup as it was, and as it is kept now."""

    job: ClassVar[str] = "setup edit"
    columns: ClassVar[tuple[str, ...] | None] = SETUP_COLUMNS
    question: SetupEditQuestion
    before: Setup
    setup: Setup

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan setup edit --json`` prints it."""
        return {"setup": setup_dict(self.setup)}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return the setup as one row."""
        return [setup_row(self.setup)]


def answer(bench: Workbench, question: SetupEditQuestion) -> SetupEditAnswer:
    """Correct a kept setup and return it; its name stays.

    Raises
    ------
    LookupFault
        If there is no such setup.
    QuantityError
        If its file is wrong, or a fact cannot be.
    LibraryError
        If its file cannot be written.
    """
    before = bench.library.setup(question.name)
    empty = {"remarks": ""}
    right: dict[str, Any] = {key: (empty.get(key) if value == "" else value) for key, value in question.right.items()}
    kept = bench.library.edit_setup(replace(before, **right))
    return SetupEditAnswer(question=question, before=before, setup=kept)
