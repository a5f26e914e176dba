"""What to be careful of in a choice, and what would fit where nothing does: data, from which doors make sentences."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from dynoan.analysis.choosing.advice import Reach
from dynoan.analysis.choosing.choice import Reached
from dynoan.jobs.choose.ranking import ChosenPlan
from dynoan.model.car import Targets
from dynoan.model.curve import Direction


@dataclass(frozen=True)
class NeverTested:
    """Shocks that were never on the rig with the pack."""

    where: str
    shocks: tuple[str, ...]
    pack: str
    through: str | None = None  #: the pack by which they are known; None where they are taken for the mean shock


@dataclass(frozen=True)
class OutsideTested:
    """The clicks lie outside what was tested."""

    where: str


@dataclass(frozen=True)
class NotSure:
    """Every ratio fits, but not at the limits of its band."""

    where: str


@dataclass(frozen=True)
class NothingFits:
    """Nothing at hand keeps every ratio within the tolerance."""

    where: str
    tolerance: float  #: share
    miss: float  #: of the best there is, share
    worst: Reached  #: the ratio that is off most


@dataclass(frozen=True)
class OutOfReach:
    """A wanted ratio that no click of any pack reaches."""

    where: str
    reach: Reach
    end: Literal["most", "least"]  #: which end of the reach stands in the way


@dataclass(frozen=True)
class NotTogether:
    """Each ratio can be had alone, but not all together."""

    where: str


@dataclass(frozen=True)
class ForceNeeded:
    """How much more force, at one velocity, would give the wanted ratio."""

    direction: Direction
    velocity: float  #: at the shock, a magnitude [m/s]
    more: float  #: share of the force there is; negative for less


@dataclass(frozen=True)
class PackThatFits:
    """How the force of a pack that fits would differ from that of the best one at its clicks."""

    where: str
    pack: str
    needs: tuple[ForceNeeded, ...]


@dataclass(frozen=True)
class LimitInTheWay:
    """The limits of the search without which there is a fit."""

    limits: tuple[str, ...]  #: parts of the question
    plan: ChosenPlan


@dataclass(frozen=True)
class EachSideItsOwn:
    """A fit that is there where the two sides of an axle have clicks of their own: their shocks or loads differ."""

    where: str
    plan: ChosenPlan  #: which fits


@dataclass(frozen=True)
class SpringThatFits:
    """Springs with which something at hand would fit."""

    factor: float  #: on the rate of all of them
    rates: tuple[float, ...]  #: that there are now [N/m]
    plan: ChosenPlan


@dataclass(frozen=True)
class NoSpringFits:
    """No springs of any rate bring a fit, all rates changed by one factor: every rate that could was looked for."""

    where: tuple[str, ...]  #: the places that were looked at together


@dataclass(frozen=True)
class ProposedTargets:
    """Targets for an axle whose file has none, and where they come from."""

    axle: str
    targets: Targets
    smoothest: float | None  #: ratio of least body acceleration on a random road; None without a tyre rate
    steadiest: float | None  #: ratio of least swing of the tyre load
    surface: str = ""  #: that they are for; "" for none
    swing: float | None = (
        None  #: by what share of its load the road swings the tyre's there, at the steadiest ratio [1]
    )
    middle: float | None = None  #: ratio between compression and rebound at the low velocity
    replaces: bool = False  #: whether the file has targets of its own, which hold for no surface


Advice = (
    ProposedTargets | NeverTested | OutsideTested | NotSure | NothingFits | OutOfReach | NotTogether | PackThatFits
    | LimitInTheWay | EachSideItsOwn | SpringThatFits | NoSpringFits
)  # fmt: skip
