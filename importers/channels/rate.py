"""The sample rate of a trace: of its time column, as stated, or as the motion tells."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from dynoan.model.arrays import FloatArray
from importers.assumptions.channels import RATE_AGREES, RATE_FIT, RATE_ROUNDING
from importers.channels.agreement import agreement
from importers.channels.clock_steps import JudgedSteps, judged_steps
from importers.channels.scaling import ScaledChannels
from importers.parts import SweepPart
from importers.stated import rates_apart

_GIVE = "--rate 'NUMBER Hz' gives it"
_UNKNOWN = f"the sample rate is not known: no time column and none stated; {_GIVE}"


class SampleRate(NamedTuple):
    """A sample rate and where it comes from."""

    hertz: float | None = None  #: [Hz]; None where it is not known
    why: str = ""  #: empty where it is the time column's and the same throughout
    warnings: tuple[str, ...] = ()
    steps: JudgedSteps | None = None  #: of the time column as it stands, where that gives the rate


def stated_rate(part: SweepPart) -> SampleRate:
    """Return the rate that the user or the file states; that there are several is its warning."""
    if part.table.options.rate:
        who = part.table.stated_by(user=part.table.user.rate)
        return SampleRate(part.table.options.rate, f"{part.table.options.rate:g} Hz, stated by {who}")
    apart = rates_apart(part.facts)
    why = f"{part.facts.rate:g} Hz, stated in the file" if part.facts.rate else ""
    return SampleRate(part.facts.rate, why, () if apart is None else (f"{apart}; {_GIVE}",))


def rate_of_trace(raw: Mapping[str, FloatArray], scaled: ScaledChannels, stated: SampleRate) -> SampleRate:
    """Return the sample rate of a trace: the time column wins over what the file states.

    Parameters
    ----------
    raw
        The trace's numbers as they stand, by channel.
    scaled
        How they become SI.
    stated
        The stated rate.
    """
    if "time" in scaled.scales:
        return rate_of_times(raw["time"], scaled.scales["time"].scale.factor, stated.hertz)
    if stated.hertz:
        return stated
    if scaled.probe.has("displacement", "velocity"):
        found = agreement(scaled.probe.moving(None))
        if abs(found.fit) > RATE_FIT:
            rate = 1 / abs(found.scale)
            return SampleRate(rate, f"{rate:.4g} Hz, from displacement and velocity")
    return SampleRate(warnings=stated.warnings or ((_UNKNOWN,) if "velocity" in scaled.scales else ()))


def rate_of_times(time: FloatArray, factor: float, stated: float | None = None) -> SampleRate:
    """Return the rate of a time column, gaps left out, the quickest where it goes with the speed of the rig.

    It is of the whole record, since single times in a file are rounded.

    Parameters
    ----------
    time
        As it stands, shape (samples,).
    factor
        By which it becomes seconds.
    stated
        What the file states. [Hz]
    """
    judged = judged_steps(time)
    rate = _against(_hertz(judged.usual * factor), stated)._replace(steps=judged)
    if not judged.slowest or rate.hertz is None:
        return rate
    slowest = 1 / (judged.slowest * factor)
    return rate._replace(why=f"the rate goes with the speed of the rig: {slowest:.3g} to {rate.hertz:.4g} Hz")


def _against(rate: float | None, stated: float | None) -> SampleRate:
    """Return the time column's rate, with a warning where another is stated."""
    if rate and stated and abs(rate / stated - 1) > RATE_AGREES:
        said = f"the time column gives {rate:.4g} Hz, though {stated:.4g} Hz is stated: the column was believed"
        return SampleRate(rate, warnings=(said,))
    return SampleRate(rate or stated)


def _hertz(step: float) -> float | None:
    """Return the rate of samples so far apart, which is none where time stands. [Hz]"""
    if not step > 0:
        return None
    rate = 1 / step
    near = float(f"{rate:.6g}")
    return near if abs(near / rate - 1) < RATE_ROUNDING else rate
