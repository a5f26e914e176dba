"""A trace on an even time base, with what is wrong in its channels found and said."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning.channels.joints import cut_at, joints
from dynoan.analysis.conditioning.channels.noise import count_of, resolution, white_noise, without_spikes
from dynoan.analysis.conditioning.channels.timing import evened
from dynoan.errors import FitError
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.clipped import CLIPPED, clipped_at
from dynoan.model.repeats import on_the_motion, repeated
from dynoan.model.sweep import Sweep

FEWEST_SAMPLES = 20  #: complete ones that carry a curve; judged
#: a sample put on an even grid is new where its neighbours are to this share [1]; judged
WHOLE = 0.99
#: samples beside one held at the channel's end of range that are left out too: a filter after it has smeared it; judged
BESIDE_CLIPPED = 3
CLIPS = (
    CLIPPED
    + " at its {}, {:.0f} N, it seems: what the channel held there is left out, the curve ends before; a larger "
    "cell or range would tell the rest"
)
MISSING = "{} samples with a missing value are left out"
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
    recorded = np.asarray(sweep.channels["force"], dtype=float)
    x, v, temperature = (_channel(sweep, key) for key in ("displacement", "velocity", "temperature"))
    time = _channel(sweep, "time")
    good = _complete(name, recorded, x, v)
    missing = [] if good.all() else [MISSING.format(int((~good).sum()))]
    x, v, temperature = (None if c is None else _filled(c, good) for c in (x, v, temperature))
    force, lone = without_spikes(_filled(recorded, good))
    _check_alive(name, force, x, v)
    clipped, clipping = _clipping(force, x)
    good &= ~clipped
    step = resolution(force)
    x, again = _on_the_motion(x, time, len(force))
    displacement_noise = 0.0 if x is None else max(white_noise(x), count_of(x) / np.sqrt(12.0))
    # No load cell is better than a ten-thousandth of what it measures.
    force_noise = max(white_noise(force), 1e-4 * float(np.ptp(force)))
    even = evened(time, sweep.rate, [force, x, v, temperature, np.asarray(~again, dtype=float)], good)
    evened_force, x, v, temperature, new = even.channels
    assert evened_force is not None
    fresh = new > WHOLE if new is not None and again.any() else None
    cuts = joints(x) if x is not None else np.empty(0, dtype=np.int64)
    return Record(
        even.dt, evened_force, x, v, temperature, even.good, even.own, step, force_noise, displacement_noise,
        findings=(*even.notes, *_findings(lone, step, float(again.mean()), len(cuts))),
        warnings=(*missing, *clipping),
        stretches=cut_at(even.stretches, cuts, len(evened_force)), fresh=fresh,
    )  # fmt: skip


def _complete(name: str, force: FloatArray, x: FloatArray | None, v: FloatArray | None) -> BoolArray:
    """Return which samples have a force and a motion, shape (n,).

    Raises
    ------
    FitError
        If no motion was recorded, or too few samples are complete.
    """
    if x is None and v is None:
        raise FitError("neither displacement nor velocity was recorded, so force has no speed to lie over", where=name)
    good = np.isfinite(force)
    for channel in (x, v):
        if channel is not None:
            good &= np.isfinite(channel)
    if int(good.sum()) < FEWEST_SAMPLES:
        what = f"{int(good.sum())} complete samples are too few for a curve"
        raise FitError(what, where=name, hint=f"wanted at least {FEWEST_SAMPLES}")
    return good


def _on_the_motion(x: FloatArray | None, time: FloatArray | None, rows: int) -> tuple[FloatArray | None, BoolArray]:
    """Return displacement with the rows in which the logger repeated it put on the motion, and which those are."""
    if x is None:
        return None, np.zeros(rows, dtype=bool)
    again = repeated(x)
    return (on_the_motion(x, time, again) if again.any() else x), again


def _findings(lone: int, step: float, again: float, joined: int) -> Iterator[str]:
    """Yield in words what was found in the channels: lone spikes, resolution, share of repeated rows, joints."""
    if lone:
        many = "one lone sample of force far off both of its neighbours is" if lone == 1 else (
            f"{lone} lone samples of force far off both of their neighbours are")  # fmt: skip
        yield f"{many} put between them"
    if step:
        yield f"force resolution {step:.3g} N, counted into the bands"
    if again:
        yield REPEATS.format(100 * again)
    if joined:
        yield JOINED.format(joined)


def _channel(sweep: Sweep, key: str) -> FloatArray | None:
    if key not in sweep.channels:
        return None
    values = np.asarray(sweep.channels[key], dtype=float)
    return values if np.isfinite(values).any() else None


def _filled(values: FloatArray, good: BoolArray) -> FloatArray:
    if np.isfinite(values).all():
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
