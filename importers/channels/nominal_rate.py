"""The sample rate of a block without time, of which the lines state how fast the rig ran: its speed or frequency."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.motion import derived_velocity
from importers.assumptions.channels import CLOSED_CYCLE, NOMINAL_AGREES
from importers.channels.motion_kind import top_speed
from importers.channels.probe import Probe
from importers.channels.rate import SampleRate
from importers.stated import StatedFacts, stated_motions


def nominal_rate(facts: StatedFacts, probe: Probe, decimal: str) -> SampleRate | None:
    """Return the rate at which a block's travel has the speed or the frequency that its lines state.

    Its samples are taken as evenly spaced in time. None where nothing is stated, or it states no whole cycle.

    Parameters
    ----------
    facts
        Of the block.
    probe
        Its channels in SI.
    decimal
        Mark of the decimals in its lines.
    """
    if not probe.has("displacement") or probe.has("velocity") or len(probe.stretches) > 1:
        return None
    x, said = probe.joined("displacement"), stated_motions(facts.lines, decimal)
    by_speed = _by_speed(x, said.speed.amount) if said.speed else None
    by_cycles = _by_cycles(x, said.frequency.amount) if said.frequency else None
    rate, motion = (by_cycles, said.frequency) if by_cycles else (by_speed, said.speed)
    if not rate or motion is None:
        return None
    warnings = [f"no time column: samples are taken as evenly spaced, so that the travel has '{motion.line}'"]
    if by_cycles and by_speed and said.speed and abs(by_speed / by_cycles - 1) > NOMINAL_AGREES:
        both = f"'{motion.line}' and '{said.speed.line}'"
        warnings.append(f"{both} do not agree with the travel; the first was believed")
    return SampleRate(rate, f"{rate:.4g} Hz, at which the travel has the stated '{motion.line}'", tuple(warnings))


def _by_speed(x: FloatArray, speed: float) -> float | None:
    """Return the rate at which travel reaches a peak speed. [Hz]"""
    fastest = top_speed(derived_velocity(x, 1.0))
    return speed / fastest if fastest > 0 else None


def _by_cycles(x: FloatArray, hertz: float) -> float | None:
    """Return the rate at which travel turns so often a second. [Hz]"""
    x = x[np.isfinite(x)]
    if len(x) < 2:
        return None
    middle, half = 0.5 * (x.max() + x.min()), 0.5 * float(np.ptp(x))
    above = x > middle + np.where(np.arange(len(x)) == 0, 0.0, 0.1 * half)
    rising = np.flatnonzero(above[1:] & ~above[:-1])
    if len(rising) >= 3:
        return hertz * float(rising[-1] - rising[0]) / (len(rising) - 1)
    step = float(np.abs(np.diff(x)).max())
    closes = abs(float(x[-1] - x[0])) <= CLOSED_CYCLE * step and 1 <= len(rising) + int(above[0]) <= 2
    return hertz * len(x) if closes else None
