"""A rig's file looked at before it is kept: what it holds, what is doubtful, and what must be asked."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar, Literal

from dynoan.jobs.add import AddAnswer, AddQuestion, NotKept
from dynoan.jobs.answering import Answer
from dynoan.jobs.keeping import KeptSweep, keep_sweeps, told_together
from dynoan.jobs.read.answering import SweepRead
from dynoan.jobs.read.options import with_layouts
from dynoan.jobs.read.understanding import Understood, understand
from dynoan.model.adjusters import ADJUSTERS
from dynoan.model.dates import both_ways
from dynoan.model.importing import ReadOptions
from dynoan.model.record_motion import peaks, velocity
from dynoan.model.sweep import Sweep
from dynoan.model.warned import OF_DATES

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

Asked = Literal["unit", "column", "rate", "positive", "decimal", "delimiter", "date", "shock", "pack", "clicks"]
#: units offered where one is missing: those that rigs write; common practice, no source
UNITS = {
    "force": ("N", "daN", "kN", "kgf", "lbf"), "displacement": ("mm", "cm", "m", "in"),
    "velocity": ("mm/s", "cm/s", "m/s", "in/s"), "time": ("s", "ms"),
    "temperature": ("°C", "°F"), "pressure": ("bar", "kPa", "psi"),
}  # fmt: skip
_NAMES = re.compile(r"'([^'\n]{1,60})'")
#: what an error or a warning about a file says of the command line, and what is asked instead
_HINTS: tuple[tuple[re.Pattern[str], Asked], ...] = (
    (re.compile(r"--column (\w+)="), "column"), (re.compile(r"--unit (\w+)="), "unit"),
    (re.compile(r"(--rate)"), "rate"), (re.compile(r"(--positive)"), "positive"),
    (re.compile(r"(--decimal)"), "decimal"), (re.compile(r"(--delimiter)"), "delimiter"),
    (re.compile(rf"({OF_DATES})"), "date"),
)  # fmt: skip


@dataclass(frozen=True)
class Ask:
    """One thing that only a person can say of a file."""

    what: Asked
    channel: str = ""  #: that a unit or a column is asked for
    choices: tuple[str, ...] = ()  #: likely answers; others may be right
    needed: bool = False  #: whether the file cannot be read without


@dataclass(frozen=True)
class Brought:
    """A file as somebody brought it, and what he says of it."""

    name: str  #: without folders
    data: bytes = field(repr=False)
    options: ReadOptions = field(default_factory=ReadOptions)
    date: str | None = None  #: of the runs in it, ISO 8601; None: as the file has it


@dataclass(frozen=True)
class LookQuestion:
    """Which file."""

    brought: Brought


@dataclass(frozen=True)
class LookAnswer(Answer):
    """What is in a file, with the evidence, the doubts, and what must be asked."""

    job: ClassVar[str] = "look"
    question: LookQuestion
    sweeps: tuple[SweepRead, ...] = ()
    error: str | None = None
    asks: tuple[Ask, ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """Return the result as plain values: that of `read` for one file, and what is asked."""
        asks = [{"what": a.what, "channel": a.channel, "choices": list(a.choices), "needed": a.needed}
                for a in self.asks]  # fmt: skip
        return {"name": self.question.brought.name, "error": self.error, "asks": asks,
                "sweeps": [s.to_dict() for s in self.sweeps]}  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a sweep."""
        return [found.row(Path(self.question.brought.name)) for found in self.sweeps]


def answer(bench: Workbench | None, question: LookQuestion) -> LookAnswer:
    """Return what is in a file.

    Parameters
    ----------
    bench
        The library whose layouts describe stubborn files; None where none is at hand.

    Raises
    ------
    QuantityError
        If a layout of the library is wrong.
    """
    found = _understood(bench, question.brought)
    if found.error is not None:
        return LookAnswer(question=question, error=found.error, asks=_hinted([found.error], needed=True))
    sweeps = tuple(SweepRead(s, velocity(s), peaks(s)) for s in found.sweeps)
    doubts = [text for s in found.sweeps for text in s.warnings]
    asks = (*_hinted(doubts, needed=False), *_unnamed(found.sweeps))
    return LookAnswer(question=question, sweeps=sweeps, asks=asks, warnings=tuple(dict.fromkeys(doubts)))


def _understood(bench: Workbench | None, brought: Brought) -> Understood:
    found = understand((brought.name, brought.data), with_layouts(brought.options, bench))
    if brought.date is None or found.error is not None:
        return found
    return Understood(tuple(
        replace(s, date=brought.date, warnings=tuple(text for text in s.warnings if OF_DATES not in text))
        for s in found.sweeps
    ))  # fmt: skip


def _hinted(texts: Sequence[str], *, needed: bool) -> tuple[Ask, ...]:
    """Return what the hints of errors or warnings ask for, each once."""
    found: dict[tuple[str, str], Ask] = {}
    for text in texts:
        for pattern, what in _HINTS:
            for named in pattern.findall(text):
                channel = "" if named.startswith("--") else named
                found.setdefault((what, channel), Ask(what, channel, _choices(what, channel, text), needed))
    return tuple(found.values())


def _choices(what: Asked, channel: str, text: str) -> tuple[str, ...]:
    fixed: dict[str, tuple[str, ...]] = {
        "unit": UNITS.get(channel, ()), "positive": ("compression", "rebound"), "decimal": (".", ","),
        "delimiter": (";", ",", "tab", "blanks"), "rate": ("100 Hz", "250 Hz", "500 Hz", "1000 Hz"),
    }  # fmt: skip
    if what == "column":
        return tuple(dict.fromkeys(n for n in _NAMES.findall(text) if not n.endswith(("Hz",))))[:24]
    if what == "date":
        return tuple(day for name in _NAMES.findall(text) for day in both_ways(name))
    return fixed[what]


def _unnamed(sweeps: Sequence[Sweep]) -> tuple[Ask, ...]:
    facts: tuple[Asked, ...] = ("shock", "pack", "clicks")
    return tuple(Ask(what) for what in facts if any(not getattr(s, what) for s in sweeps))


def keep(bench: Workbench, looked: Sequence[LookAnswer], kept: list[KeptSweep]) -> AddAnswer:
    """Keep what was looked at and return what was new; one that cannot be read does not keep the others out.

    What is reported as kept is on the disk. `kept` gets what lies there, also where this ends with an error.

    Raises
    ------
    LibraryError
        If the folder cannot be written to the end.
    """
    library = bench.library
    begun, failed = len(kept), list[NotKept]()
    with library.batch():
        for done, one in enumerate(looked, 1):
            brought = one.question.brought
            place = Path(brought.name)
            sweeps = [s.sweep for s in one.sweeps]
            error = one.error or keep_sweeps(library, place, sweeps, brought.data, kept, complete=False)
            if error is not None:
                failed.append(NotKept(place, error))
            bench.progress("keeping", done, len(looked))
    bench.forget()
    asked = AddQuestion(tuple(Path(one.question.brought.name) for one in looked))
    new = tuple(kept[begun:])
    return AddAnswer(question=asked, sweeps=new, failed=tuple(failed), warnings=told_together(new))


def clicks_in(given: Mapping[str, str]) -> dict[str, int]:
    """Return the clicks among the fields of a form, by adjuster; those that are no whole number are left out."""
    return {name: int(text) for name in ADJUSTERS if (text := given.get(name, "").strip()).isdecimal()}
