"""A test at the track: two settings run in turn, and what came of each run."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

TrialSide = Literal["a", "b"]
SIDES: tuple[TrialSide, ...] = ("a", "b")


@dataclass(frozen=True)
class TrialRun:
    """One run and its result."""

    setting: TrialSide
    result: float  #: SI where the trial's unit is of a known kind, else in that unit
    text: str  #: as it was given, such as "4.83 s"
    date: str = ""  #: when, ISO 8601; runs of other days have a level and a drift of their own
    struck: str = ""  #: why it does not count; empty where it does
    remarks: str = ""

    @property
    def day(self) -> str:
        """The day it was run on, empty where that is not known."""
        return self.date[:10]


@dataclass(frozen=True)
class Trial:
    """A question asked of the track: is b better than a?"""

    name: str
    a: str  #: a setup, clicks, a pack, or the team's own words
    b: str
    less: bool  #: whether less is better
    unit: str  #: of the results, as the team writes it; empty where they have none
    plan: str = "abba"  #: the order of runs, begun anew each time it is through
    question: str = ""
    measure: str = ""  #: what is measured, such as "time to 30 m"
    worth: float | None = None  #: the smallest difference worth knowing, as the results
    car: str | None = None
    surface: str | None = None
    date: str = ""  #: when it was planned, ISO 8601
    remarks: str = ""
    runs: tuple[TrialRun, ...] = ()  #: in the order they were driven
    file: str = ""  #: the file it was read from, for messages

    @property
    def counted(self) -> tuple[int, ...]:
        """The places of the runs that count, from 0."""
        return tuple(n for n, run in enumerate(self.runs) if not run.struck)

    @property
    def settings(self) -> str:
        """The settings of all runs as letters, struck out ones included."""
        return "".join(run.setting for run in self.runs)
