"""What a history of tests is made of: measured values, tests, changes, findings, the verdict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from dynoan.analysis.clickmap.tested.loss_per_kelvin import OilTold
from dynoan.analysis.matching.points import Points
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import Curve, Direction

Verdict = Literal["as before", "changed", "cannot tell"]


@dataclass(frozen=True)
class Measured:
    """A value with its standard error; NaN where the record cannot tell."""

    value: float = float("nan")
    sd: float = 0.0


@dataclass(frozen=True)
class Test:
    """What one setting showed on one date. SI."""

    date: str
    setting: tuple[str, ...]  #: shock, pack and clicks: what must be alike to be compared
    curve: Curve
    runs: int = 1
    gas: Measured = field(default_factory=Measured)  #: at mid-stroke, load-cell zero in it [N]
    friction: Measured = field(default_factory=Measured)  #: [N]
    give: Measured = field(default_factory=Measured)  #: of oil and mounts in series [m/N]
    fade: Measured = field(default_factory=Measured)  #: of damping force within the record [1/K]
    temperature: float | None = None  #: [°C]
    expected: Curve | None = None  #: of the pack's click map at this setting

    #: what a click of its adjusters is worth there, by direction: speeds [m/s] and shares of force [1]
    click_share: tuple[tuple[FloatArray, FloatArray], ...] | None = None

    #: of a peak table alone at its setting, its speeds [m/s] and forces [N] by direction: see `matching.points`
    points: Mapping[Direction, Points] | None = None

    #: what damping loses in warmer oil as tests of its pack tell, None where they do not
    oil: OilTold | None = None

    __test__ = False  # test collectors shall pass it by


@dataclass(frozen=True)
class Change:
    """A quantity of the last session less that of the first, with its interval."""

    quantity: str  #: "force" [%], "gas" [N], "friction" [N], "give" [%], "fade" [% per 10 °C]
    value: float
    low: float
    high: float
    direction: Direction | None = None
    speed: float | None = None  #: [m/s]


@dataclass(frozen=True)
class Point:
    """One session in the trend."""

    date: str
    quantity: str
    value: float
    half: float  #: half of the 95 % interval
    direction: Direction | None = None


@dataclass(frozen=True)
class Since:
    """When a quantity stepped: between two sessions, and between which at 95 %."""

    quantity: str
    direction: Direction | None
    before: str  #: last session of the first level
    after: str  #: first session of the other
    earliest: str  #: the step came after this session at the earliest
    latest: str  #: and before this one at the latest
    change: float  #: in the units of `Point`


@dataclass(frozen=True)
class Finding:
    """Something that changed."""

    name: str  #: such as "less rebound force"
    evidence: str
    meaning: str  #: what it usually is
    direction: Direction | None = None
    change: Change | None = None  #: the force [N] that the evidence tells first, where it tells one


@dataclass(frozen=True)
class Health:
    """A shock's state against its first tests."""

    verdict: Verdict
    first: str  #: date of the session that is the baseline
    last: str
    findings: tuple[Finding, ...]
    changes: tuple[Change, ...]
    trend: tuple[Point, ...]
    notes: tuple[str, ...] = ()
    since: tuple[Since, ...] = ()  #: where there are sessions enough to tell
