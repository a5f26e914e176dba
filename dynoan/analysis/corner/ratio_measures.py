"""What a corner's damping ratios are held in: every measure by its name, and the motions that some are taken in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from dynoan.analysis.corner.assumptions import (
    BODY_AMPLITUDE,
    HOP_AMPLITUDE,
    SIGMA,
    US_BODY_AMPLITUDE,
    US_HOP_AMPLITUDE,
    US_SIGMA,
)
from dynoan.analysis.corner.rates import BodyAndHop, CornerRates
from dynoan.model.arrays import FloatArray
from dynoan.model.banded import Banded
from dynoan.model.car import Corner
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.units import Shown

Level = Literal["low", "high"]  #: at the low or at the high velocity of the shock
LEVELS: tuple[Level, Level] = ("low", "high")
SecantKey = tuple[Direction, Level]
#: the four secant ratios that a corner, a target and a choice are told by, in the order they are shown
SECANTS: tuple[SecantKey, ...] = tuple((direction, level) for direction in DIRECTIONS for level in LEVELS)


@dataclass(frozen=True)
class SwingMotion:
    """The motions at which a nonlinear damper is given one number."""

    body_amplitude: float = BODY_AMPLITUDE  #: suspension travel at the wheel, zero to peak, at the ride frequency [m]
    hop_amplitude: float = HOP_AMPLITUDE  #: the same at the wheel-hop frequency [m]
    sigma: float = SIGMA  #: standard deviation of a random velocity at the shock [m/s]
    #: velocities that a road gives, by direction, in the place of a Gaussian of that sigma [m/s]
    speeds: Mapping[Direction, FloatArray] | None = field(default=None, compare=False)


#: the usual motions, round in the units of a car's library
MOTIONS: Mapping[Shown, SwingMotion] = {
    "metric": SwingMotion(), "us": SwingMotion(US_BODY_AMPLITUDE, US_HOP_AMPLITUDE, US_SIGMA)
}  # fmt: skip


@dataclass(frozen=True)
class DirectionRatios:
    """Damping ratios of one direction, of the sprung mass on its wheel rate; `hop` of the unsprung mass."""

    low: Banded  #: secant at the low velocity
    high: Banded  #: secant at the high velocity
    tangent_low: float  #: of the slope at the low velocity
    tangent_high: float  #: at the high velocity
    body: Banded  #: energy equivalent of a swing in the body mode
    hop: Banded | None  #: the same in the wheel-hop mode, over the hop's own critical damping; None without tyre
    random: Banded  #: in random motion


@dataclass(frozen=True)
class CornerRatios:
    """A corner with its damper. All secants at velocities of the shock."""

    corner: Corner
    rates: CornerRates
    low_velocity: float  #: at the shock [m/s]
    high_velocity: float  #: at the shock [m/s]
    motion: SwingMotion
    compression: DirectionRatios
    rebound: DirectionRatios
    mean: float  #: of the four secant ratios
    friction: float | None  #: what friction adds to the ratio in the body-mode swing; None where unknown
    mean_force: float  #: of the damper over the body-mode swing, negative pulls the body down [N]
    overshoot: float  #: how far a released body goes past rest, at the body-mode ratio, a share
    coupled: BodyAndHop | None  #: damping ratios of the quarter car's modes; None without a tyre rate

    def side(self, direction: Direction) -> DirectionRatios:
        """Return one direction."""
        return self.compression if direction == "compression" else self.rebound

    def secants(self) -> dict[SecantKey, Banded]:
        """Return the four secant ratios by direction and "low" or "high"."""
        sides = {d: self.side(d) for d in DIRECTIONS}
        return {(d, at): sides[d].low if at == "low" else sides[d].high for d, at in SECANTS}
