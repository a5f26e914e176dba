r"""Damping ratios of a corner from its curve: every measure by its name, with its band.

A nonlinear damper has no one ratio. Secant: force over velocity at a velocity of the shock; tangent: the slope there;
equivalent: the linear damper of equal energy in a swing or in random motion.

Notes
-----
With R the shock's travel per wheel travel, virtual work carries a coefficient c at the shock to :math:`c R^2` at the
wheel, so the critical damping there becomes :math:`2\sqrt{k_w m_s}/R^2` at the shock (T. D. Gillespie, *Fundamentals
of Vehicle Dynamics*, suspension ratios; from memory). Ratios are of the sprung mass on its wheel rate, tyre and
unsprung mass left out, unless their name says hop or coupled.
"""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.checks import positive_number
from dynoan.analysis.corner.assumptions import GAUSSIAN_END, TANGENT_STEP
from dynoan.analysis.corner.equivalent_damping import (
    in_swing,
    random_speeds,
    swing_speeds,
)
from dynoan.analysis.corner.rates import BodyAndHop, CornerRates, corner_rates, quarter_car, uncoupled_rates
from dynoan.analysis.corner.ratio_measures import LEVELS, MOTIONS, CornerRatios, DirectionRatios, SwingMotion
from dynoan.analysis.corner.vibration import overshoot
from dynoan.model.arrays import FloatArray
from dynoan.model.banded import Banded
from dynoan.model.car import HIGH_VELOCITY, LOW_VELOCITY, Corner
from dynoan.model.curve import DIRECTIONS, NEAR_TOP, Curve, Direction
from dynoan.model.side import Side


def corner_ratios(
    corner: Corner,
    curve: Curve,
    low: float = LOW_VELOCITY,
    high: float = HIGH_VELOCITY,
    motion: SwingMotion = MOTIONS["metric"],
) -> CornerRatios:
    """Return the damping ratios of a corner by every measure.

    Parameters
    ----------
    corner
        Mass, spring, motion ratios; a tyre rate for what the tyre has a say in.
    curve
        Of the setting on the corner.
    low, high
        Velocities at the shock. [m/s]
    motion
        Amplitudes of the equivalent values.

    Raises
    ------
    QuantityError
        If sprung mass, spring, a tyre rate, a velocity or an amplitude is not a finite number above zero.
    """
    rates = corner_rates(corner)
    sides = _sides(corner, rates, curve, (low, high), motion)
    up, down = sides["compression"], sides["rebound"]
    body = (up.body.value + down.body.value) / 2
    omega = 2 * np.pi * (rates.tyre_frequency or rates.frequency)
    swing = in_swing(curve, amplitude=motion.body_amplitude * corner.shock_ratio, omega=omega)
    return CornerRatios(
        corner=corner,
        rates=rates,
        low_velocity=low,
        high_velocity=high,
        motion=motion,
        compression=up,
        rebound=down,
        mean=float(np.mean([up.low.value, up.high.value, down.low.value, down.high.value])),
        friction=_friction(corner, rates, curve.friction, motion, omega),
        mean_force=swing.mean_force,
        overshoot=float(overshoot(body)),
        coupled=_coupled(corner, body * rates.critical_wheel),
    )


def direction_ratios(
    corner: Corner, curve: Curve, low: float, high: float, motion: SwingMotion, *, bands: bool = True
) -> dict[Direction, DirectionRatios]:
    """Return what `corner_ratios` holds of each direction, without the rest; without `bands` limits are the values.

    Raises
    ------
    QuantityError
        As `corner_ratios`.
    """
    if not bands:
        curve = without_bands(curve)
    return _sides(corner, uncoupled_rates(corner), curve, (low, high), motion)


class _Unbanded(Side):
    """A side whose limits are its forces: what a value moves by needs no band, and takes a third of the time."""

    def force_and_band(self, speed: ArrayLike) -> tuple[FloatArray, FloatArray, FloatArray]:
        force = self.force(speed)
        return force, force, force


def without_bands(curve: Curve) -> Curve:
    """Return a curve whose limits are its forces; one that has none stays as it is."""
    if isinstance(curve.compression, _Unbanded):
        return curve
    return replace(curve, compression=_unbanded(curve.compression), rebound=_unbanded(curve.rebound))


def _unbanded(side: Side) -> Side:
    return _Unbanded(**{f.name: getattr(side, f.name) for f in fields(side)})


def _sides(
    corner: Corner, rates: CornerRates, curve: Curve, at: tuple[float, float], motion: SwingMotion
) -> dict[Direction, DirectionRatios]:
    return {d: _direction(rates, curve.side(d), d, at, motion, corner.shock_ratio) for d in DIRECTIONS}


def _direction(
    rates: CornerRates, side: Side, direction: Direction, at: tuple[float, float], motion: SwingMotion,
    shock_ratio: float,
) -> DirectionRatios:  # fmt: skip
    unit = 1 / rates.critical_shock
    low, high = (positive_number(f"{level} velocity", v) for level, v in zip(LEVELS, at, strict=True))
    omega = 2 * np.pi * (rates.tyre_frequency or rates.frequency)
    body = swing_speeds(amplitude=motion.body_amplitude * shock_ratio, omega=omega)
    hop = None
    if rates.hop_frequency is not None and rates.critical_hop is not None:
        speeds = swing_speeds(amplitude=motion.hop_amplitude * shock_ratio, omega=2 * np.pi * rates.hop_frequency)
        hop = _equivalent(side, *speeds, shock_ratio**2 / rates.critical_hop)
    # All forces at once: one by one they take longer than the equivalents of all motions.
    step = TANGENT_STEP
    near = np.array([low, high, low - step, low + step, high - step, high + step])
    forces = np.array(side.force_and_band(near))
    slopes = (forces[0, 3::2] - forces[0, 2::2]) / (2 * step) * unit
    secants = [
        _secant(at_speed, speed, unit, side) for at_speed, speed in zip(forces[:, :2].T, (low, high), strict=True)
    ]
    return DirectionRatios(
        low=secants[0],
        high=secants[1],
        tangent_low=float(slopes[0]),
        tangent_high=float(slopes[1]),
        body=_equivalent(side, *body, unit),
        hop=hop,
        random=_random(side, direction, motion, unit),
    )


def _secant(at_speed: FloatArray, speed: float, unit: float, side: Side) -> Banded:
    """Return the ratio of a force, its first entry, at a speed; the other two are its limits."""
    (force, low, high), per = at_speed.tolist(), unit / speed
    # A band wider than the force itself would claim that the shock may push: it ends at no damping.
    return Banded(force * per, max(low, 0.0) * per, high * per, speed > side.top_speed * NEAR_TOP)


def _equivalent(side: Side, speed: FloatArray, weight: FloatArray, unit: float) -> Banded:
    """The limits are those of a curve that runs along its band everywhere: never too narrow."""
    force, low, high = side.force_and_band(speed)
    share = weight * speed  # as `mean_damping` has it, with what is the same of all three reckoned once
    share = share * (unit / float(share @ speed))
    value = float(share @ force)
    least, most = (
        value if limit is force else float(share @ limit)
        for limit in (low if low is force else np.maximum(low, 0.0), high)
    )
    # In a swing the top speed is reached every cycle; the bell at so many standard deviations is as high as this.
    reach = float(np.max(speed[weight > np.exp(-1 / 2 * GAUSSIAN_END**2)]))
    return Banded(value, least, most, reach > side.top_speed * NEAR_TOP)


def _random(side: Side, direction: Direction, motion: SwingMotion, unit: float) -> Banded:
    if motion.speeds is None:
        return _equivalent(side, *random_speeds(motion.sigma), unit)
    speeds = motion.speeds[direction]
    found = _equivalent(side, speeds, np.ones_like(speeds), unit)
    usual = float(np.quantile(speeds, 0.95))  # what comes once in a long while does not make a value extrapolated
    return Banded(found.value, found.low, found.high, usual > side.top_speed * NEAR_TOP)


def _friction(corner: Corner, rates: CornerRates, friction: float, motion: SwingMotion, omega: float) -> float | None:
    if not np.isfinite(friction):
        return None
    amplitude = motion.body_amplitude * corner.shock_ratio
    swing = in_swing(lambda v: friction * np.sign(v), amplitude=amplitude, omega=omega)
    return swing.damping / rates.critical_shock


def _coupled(corner: Corner, damping: float) -> BodyAndHop | None:
    quarter = quarter_car(corner, damping)
    if quarter is None:
        return None
    return BodyAndHop(*(mode.ratio for mode in quarter.modes()))
