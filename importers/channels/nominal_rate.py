"""The sample rate of a block without time, of which the lines state how fast the rig ran: its speed or frequency."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.motion import derived_velocity
from importers.assumptions.channels import CLOSED_CYCLE, CROSSED, NOMINAL_AGREES
from importers.channels.motion_kind import top_speed
from importers.channels.probe import Probe
from importers.channels.rate import SampleRate
from importers.parts import SweepPart
from importers.stated import StatedMotions, facts_of_lines, stated_motions

_FEWEST = 4  #: samples that a turn has at the least


def nominal_rate(part: SweepPart, probe: Probe) -> SampleRate | None:
    """Return the rate at which a block's travel has the speed or the frequency that its lines state.

    Its samples are taken as evenly spaced in time. None where nothing is stated, or it states no whole cycle.

    Parameters
    ----------
    part
        The block.
    probe
        Its channels in SI.
    """
    if not probe.has("displacement") or probe.has("velocity") or len(probe.stretches) > 1:
        return None
    x, said = probe.joined("displacement"), motions_of(part)
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


def motions_of(part: SweepPart) -> StatedMotions:
    """Return what a block's own lines state of how fast the rig ran; what the file's do where they state nothing."""
    decimal = part.table.grid.decimal
    own = stated_motions(facts_of_lines(part.table.own, decimal).lines, decimal)
    return own if any(own) else stated_motions(part.facts.lines, decimal)


def _by_speed(x: FloatArray, speed: float) -> float | None:
    """Return the rate at which travel reaches a peak speed. [Hz]"""
    fastest = top_speed(derived_velocity(x, 1.0))
    return speed / fastest if fastest > 0 else None


def _by_cycles(x: FloatArray, hertz: float) -> float | None:
    """Return the rate at which travel turns so often a second. [Hz]"""
    x = x[np.isfinite(x)]
    if len(x) < _FEWEST:
        return None
    middle, half = 0.5 * (x.max() + x.min()), 0.5 * float(np.ptp(x))
    side = np.sign(x - middle) * (np.abs(x - middle) > CROSSED * half)
    there = np.flatnonzero(side)
    crossed = there[1:][side[there[1:]] != side[there[:-1]]]
    # From each way over the middle to the next the same way is one turn.
    ways = [crossed[side[crossed] == way] for way in (1.0, -1.0)]
    most = max(ways, key=len)
    if len(most) >= 2:
        return hertz * float(most[-1] - most[0]) / (len(most) - 1)
    fastest = float(np.abs(np.diff(x)).max())
    # The middle is reached twice a turn, the second time the other way.
    alike = abs(float((x[-1] - x[-2]) - (x[1] - x[0]))) <= fastest
    closes = alike and abs(float(x[-1] - x[0])) <= CLOSED_CYCLE * fastest
    return hertz * (len(x) - _ends_as_it_begins(x)) if closes and len(crossed) else None


def _ends_as_it_begins(x: FloatArray) -> bool:
    """Whether the last sample of one turn is the first one again, which leaves the travel's bend as it is there."""
    bend = x[2] - 2 * x[1] + x[0]
    again, next_one = (x[-2] - 2 * x[-1] + first for first in (x[1], x[0]))
    return bool(abs(again - bend) <= abs(next_one - bend))
