"""What a trace was found to be made of beside its damping."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning.assumptions import POLYTROPIC
from dynoan.analysis.conditioning.forces.columns import GAS_COLUMNS
from dynoan.analysis.conditioning.left_open.low_speed_untold import Untold
from dynoan.analysis.conditioning.left_open.open_end import Open
from dynoan.analysis.conditioning.left_open.structure import Unexplained
from dynoan.analysis.conditioning.separating.separation import Separated
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Told:
    """A value with its standard error; not a number where the record cannot tell."""

    value: float = float("nan")
    sd: float = float("nan")

    @property
    def clear(self) -> bool:
        """Whether it stands out of its error."""
        return bool(abs(self.value) > 2.0 * self.sd)

    def text(self, scale: float, digits: int) -> str:
        """Return the value with its 95 % half width, times `scale`."""
        return f"{self.value * scale:.{digits}f} (± {2.0 * self.sd * scale:.{digits}f})"


#: standard error of a lag at least [s], of a give, a share [1], and of either by the other, a share [1]; judged on made
#: worlds: clocks of two channels are told no better, and fits take a third to a half of the one for the other
LAG_LEAST, GIVE_LEAST, ONE_FOR_OTHER = 0.00015, 0.2, 0.45


@dataclass(frozen=True)
class TraceModel:
    """What a fit found beside damping. SI."""

    offset: Told  #: gas and zero at mid-stroke [N]
    slope: Told  #: gas force over travel at mid-stroke, as it is in fast motion [N/m]
    heat: Told  #: how much of that is its warmth, which slow motion lets it give away [N/m]
    bend: float  #: half its second derivative there [N/m²]
    friction: Told  #: in steady sliding [N]
    breakaway: Told  #: more of it about zero speed [N]
    presliding: Told  #: of friction, the part that turns around over travel, not over speed [N]
    tilt: Told  #: by which friction is more in compression, less in rebound, than its mean [N]
    lag: Told  #: of the force channel [s]
    give: Told  #: in series with the valve [m/N]
    air: Told  #: more of it at zero force [m/N]
    mass: Told  #: moving on the cell [kg]
    side: Told  #: friction of a guide under side load where a crank's rod leans most, a share of the force
    fade: Told  #: of damping from the start of the record to its end, share, negative where it weakens
    drift: Told  #: of damping with recorded temperature, share per kelvin
    zero_drift: Told  #: of the cell over the record [N]
    middle: float  #: mid-stroke [m]
    reference_temperature: float  #: the forces belong to [°C]
    noise: float  #: residual of a row, root mean square [N]
    left: tuple[float, float]  #: unexplained at the same place of every cycle, about reversal and above, rms [N]
    most: Unexplained | None  #: where most of it is
    peak: float  #: largest force about its middle [N]
    open: Open
    untold: Untold  #: of damping at low speed

    @property
    def delay(self) -> float:
        """The force channel is late by. [s]"""
        return self.lag.value

    def damping(self, v: FloatArray) -> FloatArray:
        """Return the mean damping force at signed velocities, shape (n,). [N]"""
        return np.asarray(self.open.damping(v).mean(axis=0))


def trace_model(found: Separated, middle: float, temperature: float, both: bool) -> TraceModel:
    """Return what a fit found, by name; friction is not known where `both` directions were not recorded."""

    def one(name: str) -> Told:
        return Told(*found.effects[name]) if name in found.effects else Told()

    at = np.array([0.05, -0.05])
    rubbing = 0.5 * (found.open.friction(at) @ np.array([1.0, -1.0]))
    parts = found.open.parts()
    slope, bend = _gas(found)
    late, give = _lag_and_give(found)
    heat = _of(found.heat_draws / found.reach) if found.reach else Told()
    return TraceModel(
        offset=one("offset"), slope=slope, heat=heat, bend=bend,
        friction=_of(rubbing) if both else Told(),
        breakaway=_of(parts["breakaway"]), presliding=_of(parts["slide"]),
        tilt=_of(0.5 * found.open.friction(at).sum(axis=1)) if both else Told(),
        lag=late, give=give,
        air=Told(found.lag.air, found.lag_sd.air), mass=one("mass"), side=one("side load"),
        fade=one("fade"), drift=one("drift"),
        zero_drift=one("zero drift"), middle=middle, reference_temperature=temperature,
        noise=float(np.sqrt(np.mean(found.rest**2))),
        left=found.left, most=found.most, peak=found.peak, open=found.open, untold=found.untold,
    )  # fmt: skip


def _lag_and_give(found: Separated) -> tuple[Told, Told]:
    """Return how late the force channel is [s], and what gives in series with the valve [m/N].

    Where force follows speed alike at all speeds, oil that gives makes it late by ``give · dF/dv``, and a mass early by
    ``mass / (dF/dv)``: but for how valves bend they are one, and the error of either holds some of the other.
    """
    lag, give, mass = found.lag.lag, found.lag.give, found.effects.get("mass", (0.0, 0.0))[0]
    rate = found.peak / max(float(np.max(np.abs(found.velocity))), 1e-9)
    late_sd = np.linalg.norm((found.lag_sd.lag, LAG_LEAST, ONE_FOR_OTHER * give * rate, ONE_FOR_OTHER * mass / rate))
    give_sd = np.linalg.norm((found.lag_sd.give, LAG_LEAST / rate, GIVE_LEAST * give))
    return Told(lag, float(late_sd)), Told(give, float(give_sd) if give else found.lag_sd.give)


def _of(draws: FloatArray) -> Told:
    return Told(float(np.mean(draws)), float(np.std(draws)))


def _gas(found: Separated) -> tuple[Told, float]:
    """Return the slope of the gas force at mid-stroke and half its second derivative. [N/m], [N/m²]"""
    if not found.reach:
        return Told(), 0.0
    slope, bend = (found.gas_draws + found.heat_draws) / found.reach, 0.0
    for name, (value, _) in found.effects.items():
        if name in GAS_COLUMNS:
            bend += 0.5 * value / found.reach * (POLYTROPIC + 1) / (float(name[4:]) * found.reach)
    bend += found.effects["gas bend"][0] / found.reach**2
    return _of(slope), bend
