"""The parts of a report: nouns and other jobs' answers, nothing reckoned here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from dynoan.analysis.clickmap.asked.authority import Authority, DeadClicks
from dynoan.analysis.matching.match import Match
from dynoan.jobs.choose import Chosen
from dynoan.jobs.health import HealthAnswer
from dynoan.jobs.launch.answering import LaunchAnswer
from dynoan.jobs.ratio.answering import RatioAnswer
from dynoan.jobs.travel import TravelAnswer
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Curve
from dynoan.model.setup import Setup
from dynoan.model.shock import Shock


@dataclass(frozen=True)
class RunPart:
    """One dyno run that the report rests on."""

    id: str
    date: str
    shock: str
    pack: str
    clicks: Mapping[str, int]  #: as the shock's file counts
    layout: str
    temperature: float | None  #: [°C]
    source: str


@dataclass(frozen=True)
class TestedPart:
    """One tested setting: all runs of a shock, pack and clicks in one curve."""

    shock: str
    clicks: Mapping[str, int]  #: as the shock's file counts
    curve: Curve
    date: str = ""  #: of its runs

    __test__ = False  # test collectors shall pass it by


@dataclass(frozen=True)
class PackPart:
    """One pack: its tests, its click map, and what a click of it does."""

    click_map: ClickMap
    counting: Shock  #: whose counting the clicks in the report use
    tested: tuple[TestedPart, ...]
    authority: tuple[Authority, ...]
    dead: tuple[DeadClicks, ...]


@dataclass(frozen=True)
class ShockPart:
    """One shock's tested settings, over all its packs."""

    shock: Shock
    tested: tuple[tuple[str, TestedPart], ...]  #: pack and test


@dataclass(frozen=True)
class PairPart:
    """Two shocks in one setting, held against each other."""

    first: str
    second: str
    pack: str
    clicks: Mapping[str, int]  #: as the first shock's file counts
    match: Match
    dates: tuple[str, str] = ("", "")  #: of either's runs


@dataclass(frozen=True)
class CarPart:
    """One car: its rates and damping ratios, and the settings nearest to its targets."""

    ratio: RatioAnswer
    choices: tuple[Chosen, ...] = ()
    launch: LaunchAnswer | None = None  #: as its file has it, on each surface
    no_launch: str = ""  #: why there is none
    example: bool = False  #: its numbers are an example's, as its file says

    @property
    def words(self) -> str:
        """The car's name, and that it is an example where it is one."""
        return self.ratio.car.name + (" (example numbers, no real car's)" if self.example else "")


@dataclass(frozen=True)
class Gathered:
    """All parts of a report."""

    runs: tuple[RunPart, ...] = ()
    packs: tuple[PackPart, ...] = ()
    shocks: tuple[ShockPart, ...] = ()
    pairs: tuple[PairPart, ...] = ()
    cars: tuple[CarPart, ...] = ()
    health: tuple[HealthAnswer, ...] = ()  #: of the shocks tested on two dates or more
    setups: tuple[Setup, ...] = ()  #: newest first
    travel: tuple[TravelAnswer, ...] = ()  #: a log each, over the curves of its car
    beside: tuple[str, ...] = ()  #: what `ratio`, `health`, `launch` and `travel` would warn of
