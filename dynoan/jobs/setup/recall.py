"""The last good setup of a surface, or one by name."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import CallError, DynoanError, LibraryError, LookupFault
from dynoan.jobs.answering import Answer
from dynoan.jobs.listing import UnreadableFile, left_out
from dynoan.jobs.setup.plain import SETUP_COLUMNS, chosen, setup_dict, setup_row
from dynoan.jobs.setup.season import season_of
from dynoan.jobs.trial.changed import differing
from dynoan.jobs.trial.listing import TrialListQuestion
from dynoan.jobs.trial.listing import answer as trials
from dynoan.library.setup_file import car_text_of
from dynoan.model.setup import Setup
from dynoan.model.shock import Shock

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class SetupRecallQuestion:
    """A setup by name, else the last good one of a surface and a car, where they are named."""

    name: str | None = None
    surface: str | None = None
    car: str | None = None
    card: bool = False  #: shown as a card for whoever turns the screws, not as its file stands


@dataclass(frozen=True)
class SetupRecallAnswer(Answer):
    """The setup and its file's text; the answer is no where no good one is kept."""

    job: ClassVar[str] = "setup recall"
    columns: ClassVar[tuple[str, ...] | None] = SETUP_COLUMNS
    question: SetupRecallQuestion
    setup: Setup | None = None
    text: str = ""  #: of its file
    counted: str = "clicks from closed"  #: how its clicks count, in words

    @property
    def no(self) -> bool:
        """Whether no such setup is kept."""
        return self.setup is None

    @property
    def car_text(self) -> str:
        """The text of its car's file, word for word as the team wrote it.

        Raises
        ------
        LookupFault
            If no such setup is kept.
        """
        if self.setup is None:
            raise LookupFault("no such setup is kept, so there is no car in it")
        return car_text_of(self.text, self.setup.file)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan setup recall --json`` prints it."""
        if self.setup is None:
            return {"setup": None, "unreadable": []}
        return {"setup": setup_dict(self.setup), "text": self.text}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return the setup as one row, or none."""
        return [] if self.setup is None else [setup_row(self.setup)]


def answer(bench: Workbench, question: SetupRecallQuestion) -> SetupRecallAnswer:
    """Return a setup and its file's text.

    Raises
    ------
    CallError
        If a setup is named and a surface or car, too.
    LookupFault
        If a setup is named that there is none of.
    QuantityError
        If the named setup's file is wrong.
    LibraryError
        If none that can be read is good, and there are others that may be.
    """
    library = bench.library
    if question.name and (question.surface or question.car):
        raise CallError("a setup is named, or the last good one of a surface or car is asked for; not both")
    if question.name:
        found, warnings = library.setup(question.name), tuple[str, ...]()
    else:
        setups, faults = library.readable_setups()
        unreadable = left_out(faults)
        warnings = tuple(one.warning for one in unreadable)
        good = [s for s in chosen(setups, question.surface, question.car) if s.good]
        if not good and unreadable:
            raise _may_be_among(unreadable, question)
        if not good:
            return SetupRecallAnswer(question=question)
        found = good[-1]
        warnings = (*warnings, *_better_supported(bench, found, question.surface, setups))
    text = library.setup_text(found.name)
    counted = _counted(bench, found)
    return SetupRecallAnswer(question=question, setup=found, text=text, counted=counted, warnings=warnings)


def _may_be_among(unreadable: Sequence[UnreadableFile], question: SetupRecallQuestion) -> LibraryError:
    """Return that nobody knows whether a good setup is kept, since files cannot be read."""
    first, *others = unreadable
    more = f" (nor can {', '.join(one.file for one in others)})" if others else ""
    none = f"{no_good(question)} among those that can be read"
    return LibraryError(f"cannot be read: {first.fault}{more}; {none}", where=first.file, hint="see: dynoan check")


def no_good(question: SetupRecallQuestion) -> str:
    """Return what is not there, in words."""
    parts = ("no good setup", f"on {question.surface}" if question.surface else "",
             f"of {question.car}" if question.car else "")  # fmt: skip
    return " ".join(filter(None, parts))


def _better_supported(bench: Workbench, found: Setup, surface: str | None, setups: Sequence[Setup]) -> tuple[str, ...]:
    """Return that the surface's baseline is another than the last good one, where its settings are."""
    if surface is None:
        return ()
    alike = [s for s in chosen(setups, surface) if s.car.name == found.car.name]
    tested = trials(bench, TrialListQuestion(surface)).trials
    base = next((s.baseline for s in season_of(alike, tested) if s.baseline is not None), None)
    if base is None or not differing(base.setup, found):
        return ()
    won = f" ({', '.join(base.won)})" if base.won else ""
    return (f"the last good one on {surface}; better supported there is {base.setup.name}: {base.support}{won}",)


def _counted(bench: Workbench, setup: Setup) -> str:
    """Return how the clicks of a setup count, in words, by shock where they differ."""
    words: dict[str, list[str]] = {}
    for corner in setup.car.corners.values():
        if corner.shock and corner.clicks:
            try:
                way = bench.library.shock(corner.shock).counted_words(corner.clicks)
            except DynoanError:  # a shock that is no longer there: its clicks count as they usually do
                way = Shock(corner.shock).counted_words()
            words.setdefault(way, []).append(corner.shock)
    if len(words) <= 1:
        return next(iter(words), "clicks from closed")
    return "; ".join(f"{', '.join(shocks)}: {way}" for way, shocks in words.items())
