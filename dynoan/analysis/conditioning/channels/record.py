"""A trace on an even time base, with what is wrong in its channels found and said."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning.channels.joints import cut_at, joints
from dynoan.analysis.conditioning.channels.timing import evened
from dynoan.analysis.statistics import sample_noise
from dynoan.errors import FitError
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.clipped import CLIPPED, clipped_at
from dynoan.model.repeats import on_the_motion, repeated
from dynoan.model.sweep import Sweep

#: a sample may be a spike from so many standard deviations of the noise off its neighbours on [1]; judged
SPIKE = 8.0
#: a sample put on an even grid is new where its neighbours are to this share [1]; judged
WHOLE = 0.99
#: samples beside one held at the channel's end of range that are left out too: a filter after it has smeared it; judged
BESIDE_CLIPPED = 3
CLIPS = (
    CLIPPED
    + " at its {}, {:.0f} N, it seems: what the channel held there is left out, the curve ends before; a larger "
    "cell or range would tell the rest"
)
JOINED = "displacement jumps at {} rows: taken for runs put together there, each read by itself"
REPEATS = (
    "the logger wrote the last displacement again in {:.0f} % of its rows while the machine moved on: they are put on "
    "the motion between the others; log displacement as often as force, or force comes early by part of a row"
)


@dataclass(frozen=True)
class Record:
    """Channels of equal length on an even time base; samples that cannot be used are False in `good`."""

    dt: float | None  #: [s]; None where time is unknown
    force: FloatArray  #: [N]
    displacement: FloatArray | None  #: [m]
    velocity: FloatArray | None  #: as recorded [m/s]
    temperature: FloatArray | None  #: [°C]
    good: BoolArray
    own: BoolArray  #: samples beside one that was recorded; others were put between them, to follow the motion
    force_step: float  #: resolution of the force channel, 0 where finer than its noise [N]
    force_noise: float  #: standard deviation of a sample [N]
    displacement_noise: float  #: standard deviation [m]
    findings: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    #: first sample, and that after the last, of what lies between pauses of the logger and changes of its rate
    stretches: tuple[tuple[int, int], ...] = ()
    #: samples whose displacement is a new one, where the logger repeats others; else None
    fresh: BoolArray | None = None

    @property
    def samples(self) -> int:
        """Number of samples."""
        return len(self.force)


def prepare(sweep: Sweep) -> Record:
    """Return a trace's channels on an even time base.

    Raises
    ------
    FitError
        If there are too few samples, no motion, or a channel that is stuck.
    """
    name = sweep.source.name
    force = np.asarray(sweep.channels["force"], dtype=float)
    x, v, temperature = (_channel(sweep, key) for key in ("displacement", "velocity", "temperature"))
    time = _channel(sweep, "time")
    if x is None and v is None:
        raise FitError("neither displacement nor velocity was recorded, so force has no speed to lie over", where=name)
    good = np.isfinite(force)
    for channel in (x, v):
        if channel is not None:
            good &= np.isfinite(channel)
    if int(good.sum()) < 20:
        raise FitError(
            f"{int(good.sum())} complete samples are too few for a curve", where=name, hint="wanted at least 20"
        )
    notes: list[str] = []
    warnings: list[str] = []
    if not good.all():
        warnings.append(f"{int((~good).sum())} samples with a missing value are left out")
    force_, x, v, temperature = (_filled(c, good) for c in (force, x, v, temperature))
    assert force_ is not None
    force_, lone = without_spikes(force_)
    if lone:
        many = "one lone sample of force far off both of its neighbours is" if lone == 1 else (
            f"{lone} lone samples of force far off both of their neighbours are")  # fmt: skip
        notes.append(f"{many} put between them")
    _check_alive(name, force_, x, v)
    clipped, told = _clipping(force_, x)
    warnings += told
    good &= ~clipped
    step = _resolution(force_)
    if step:
        notes.append(f"force resolution {step:.3g} N, counted into the bands")
    again = np.zeros(len(good), dtype=bool) if x is None else repeated(x)
    if x is not None and again.any():
        x = on_the_motion(x, time, again)
        notes.append(REPEATS.format(100 * float(again.mean())))
    noise = 0.0 if x is None else max(_white_noise(x), _count_of(x) / np.sqrt(12.0))
    # No load cell is better than a ten-thousandth of what it measures.
    force_noise = max(_white_noise(force_), 1e-4 * float(np.ptp(force_)))
    even = evened(time, sweep.rate, [force_, x, v, temperature, np.asarray(~again, dtype=float)], good)
    force_, x, v, temperature, new = even.channels
    assert force_ is not None
    fresh = new > WHOLE if new is not None and again.any() else None
    cuts = joints(x) if x is not None else np.empty(0, dtype=np.int64)
    stretches = cut_at(even.stretches, cuts, len(force_))
    notes += [JOINED.format(len(cuts))] if len(cuts) else []
    return Record(even.dt, force_, x, v, temperature, even.good, even.own, step, force_noise, noise,
                  (*even.notes, *notes), tuple(warnings), stretches, fresh)  # fmt: skip


def _channel(sweep: Sweep, key: str) -> FloatArray | None:
    if key not in sweep.channels:
        return None
    values = np.asarray(sweep.channels[key], dtype=float)
    return values if np.isfinite(values).any() else None


def _filled(values: FloatArray | None, good: BoolArray) -> FloatArray | None:
    if values is None or np.isfinite(values).all():
        return values
    have = np.isfinite(values)
    at = np.arange(len(values))
    return np.interp(at, at[have], values[have])


def _check_alive(name: str, force: FloatArray, x: FloatArray | None, v: FloatArray | None) -> None:
    if np.ptp(force) <= 1e-9 * max(1.0, abs(float(force[0]))):
        raise FitError(
            f"the force channel is stuck at {float(force[0]):.6g} N", where=name, hint="check load cell and column"
        )
    moving = v if x is None else x
    assert moving is not None
    if np.ptp(moving) <= 1e-9:
        what = "velocity" if x is None else "displacement"
        raise FitError(
            f"the {what} channel is stuck at {float(moving[0]):.6g}", where=name, hint="the shock did not move"
        )


def without_spikes(force: FloatArray) -> tuple[FloatArray, int]:
    """Return force with lone spikes put between their neighbours, and how many there were. [N]

    A spike is as far off its neighbours as off those beyond, and these lie at one height: on a bend or a step of the
    force they do not.
    """
    out, n = force.copy(), len(force)
    if n < 5:
        return out, 0
    left, right, before, after = force[1 : n - 3], force[3 : n - 1], force[: n - 4], force[4:]
    off = force[2 : n - 2] - 0.5 * (left + right)
    beyond = force[2 : n - 2] - 0.5 * (before + after)
    level = np.maximum(np.abs(right - left), np.abs(after - before))
    far = np.abs(off) > SPIKE * max(_white_noise(force), 1e-4 * float(np.ptp(force)))
    spike = far & (np.abs(beyond - off) < 0.3 * np.abs(off)) & (level < 0.5 * np.abs(off))
    out[2 : n - 2][spike] = 0.5 * (left + right)[spike]
    return out, int(spike.sum())


def _clipping(force: FloatArray, x: FloatArray | None) -> tuple[BoolArray, list[str]]:
    """Return which samples a channel held at its end of range, those beside them too, shape (n,), and that in words.

    On ramps of one speed a force that stands still is the valve's.
    """
    clipped, words = np.zeros(len(force), dtype=bool), []
    high, low = float(force.max()), float(force.min())
    for end, value, other in (("top", high, low), ("bottom", low, high)):
        held = clipped_at(force, value, other, x)
        if held is not None:
            words.append(CLIPS.format(end, value))
            clipped |= held
    beside = np.convolve(clipped, np.ones(2 * BESIDE_CLIPPED + 1), mode="same") > 0.5 if words else clipped
    return beside, words


def _resolution(force: FloatArray) -> float:
    """Return the smallest step between values of the force channel where it is coarse against its noise. [N]"""
    step, noise = _count_of(force), _white_noise(force)
    return step if step > 0.5 * noise and step > 1e-3 * float(np.ptp(force)) else 0.0


def _count_of(values: FloatArray) -> float:
    """Return the step between the values of a channel that counts in steps; 0 of any other. [as the values]"""
    levels = np.unique(np.round(values[:200_000], 9))
    if len(levels) < 3:
        return 0.0
    steps = np.diff(levels)
    steps = steps[steps > 1e-6 * float(np.ptp(values))]
    step = float(np.median(steps))
    even = np.abs(steps / step - np.round(steps / step)) < 0.02
    return step if float(np.mean(even)) > 0.95 else 0.0


def _white_noise(values: FloatArray) -> float:
    """Return the standard deviation of a channel's noise; a long one is thinned first. [as the values]"""
    return sample_noise([values[:: max(1, len(values) // 400_000)] if len(values) > 800_000 else values])
