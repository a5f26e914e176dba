"""What a report shows: nouns and results as they were gathered, nothing computed here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from dynoan.analysis.choosing.choice import Choice
from dynoan.analysis.clickmap.authority import Authority, DeadClicks
from dynoan.analysis.corner.ratios import CornerRatios
from dynoan.analysis.matching.match import Match
from dynoan.model.car import Car
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Curve
from dynoan.model.shock import Shock
from dynoan.units import Shown


@dataclass(frozen=True)
class SweepView:
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
class TestedView:
    """One tested setting: all runs of a shock, pack and clicks in one curve."""

    shock: str
    clicks: Mapping[str, int]  #: as the shock's file counts
    curve: Curve


@dataclass(frozen=True)
class PackView:
    """One pack: its tests, its click map, and what a click of it does."""

    click_map: ClickMap
    counting: Shock  #: whose counting the clicks in the report use
    tested: tuple[TestedView, ...]
    authority: tuple[Authority, ...]
    dead: tuple[DeadClicks, ...]


@dataclass(frozen=True)
class ShockView:
    """One shock's tested settings, over all its packs."""

    shock: Shock
    tested: tuple[tuple[str, TestedView], ...]  #: pack and test


@dataclass(frozen=True)
class PairView:
    """Two shocks in one setting, held against each other."""

    first: str
    second: str
    pack: str
    clicks: Mapping[str, int]
    match: Match


@dataclass(frozen=True)
class ChoiceView:
    """One ranked setting of an axle, its clicks as the shock's file counts."""

    choice: Choice
    clicks: Mapping[str, int]


@dataclass(frozen=True)
class CarView:
    """One car: what is on it, its damping ratios, and the settings nearest to its targets."""

    car: Car
    curves: Mapping[str, Curve]  #: by corner; a corner without a pack is left out
    ratios: Mapping[str, CornerRatios]  #: by corner
    choices: tuple[ChoiceView, ...] = ()


@dataclass(frozen=True)
class ReportView:
    """Everything one report shows."""

    title: str
    scope: str  #: what the report is about, in words
    made: str  #: date and time, in words
    units: Shown = "metric"
    sweeps: tuple[SweepView, ...] = ()
    packs: tuple[PackView, ...] = ()
    shocks: tuple[ShockView, ...] = ()
    pairs: tuple[PairView, ...] = ()
    cars: tuple[CarView, ...] = ()
    warnings: tuple[str, ...] = field(default=())
