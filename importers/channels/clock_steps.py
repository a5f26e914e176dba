"""The time between samples, judged on the whole record: stamps are rounded, jitter, and leave out what was dropped."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.assumptions import PAUSE_STEPS
from dynoan.model.ranks import median
from dynoan.model.sampling import rate_range, running_middle
from importers.assumptions.channels import COARSE_TICKS, EVEN_STEP, GAP_STEPS, LONGEST_RETIMED, RATE_ALIKE

_LOOK = 1 << 15  #: of a long record so many steps are looked at a time: all at once are as large as a channel [samples]


class JudgedSteps(NamedTuple):
    """The steps of a time column."""

    usual: float  #: mean time between samples, gaps left out; 0 where time stands, in the unit of the column
    gaps: BoolArray  #: which steps leave out samples, shape (samples - 1,)
    even: bool  #: whether all steps are alike, or as rounding of alike ones leaves them
    alike: bool = False  #: whether every single step is about the usual one
    slowest: float = 0.0  #: where the rate changes with the speed: the longest steps, `usual` being the shortest
    pauses: BoolArray | None = None  #: which of the gaps are too long for samples that were dropped


def judged_steps(time: FloatArray) -> JudgedSteps:
    """Return how the samples of a record follow one another.

    Stamps that lie within their own scatter of a straight line are evenly sampled however they are rounded; else a step
    that is far longer than the middle one leaves out samples.
    """
    none = np.zeros(max(len(time) - 1, 0), bool)
    mean = float(time[-1] - time[0]) / len(none) if len(none) else 0.0
    if len(none) and all(_within(np.diff(time[k : k + _LOOK + 1]), mean) for k in range(0, len(none), _LOOK)):
        return JudgedSteps(mean, none, even=True, alike=True)
    step = np.diff(time)
    known = step[np.isfinite(step)]
    if not len(known):
        return JudgedSteps(0.0, none, even=True)
    middle, mean = median(known), float(known.mean())
    if _within(known, middle):
        return JudgedSteps(mean, none, even=True)
    if not middle > 0:
        return _of_coarse(time, step, none)
    if mean > 0 and len(known) == len(step) and _on_a_line(time, step, mean):
        return JudgedSteps(mean, none, even=True)
    return _uneven(step, middle)


def _uneven(step: FloatArray, middle: float) -> JudgedSteps:
    """Return steps that are not alike: some are left out, or the rate changes with the speed of the rig."""
    local = running_middle(np.where(np.isfinite(step) & (step > 0), step, middle))
    changing = rate_range(local, middle)
    gaps = step > GAP_STEPS * (local if changing else middle)
    pauses = gaps & (step > PAUSE_STEPS * local)
    if changing:
        # Stamps are rounded: the mean of the quickest tells more than one of them.
        quickest = step[(local <= RATE_ALIKE * changing[0]) & ~gaps & (step > 0)]
        usual = float(quickest.mean()) if len(quickest) else changing[0]
        return JudgedSteps(usual, gaps, even=False, slowest=changing[1], pauses=pauses)
    kept = step[~gaps & (step > 0)]
    return JudgedSteps(float(kept.mean()), gaps, even=False, pauses=pauses)


def retimed(channels: Mapping[str, FloatArray], judged: JudgedSteps) -> Mapping[str, FloatArray]:
    """Return a record whose rate changes with the speed as if sampled at its quickest, pauses left as they are.

    The record itself where its rate does not change, or where that would be longer than `LONGEST_RETIMED`.
    """
    time = channels["time"]
    if not judged.slowest or judged.pauses is None or not np.isfinite(time).all():
        return channels
    step = np.where(judged.pauses, judged.usual, np.maximum(np.diff(time), 0.0))
    run = np.concatenate([[0.0], np.cumsum(step)])
    if run[-1] > LONGEST_RETIMED * judged.usual:
        return channels
    even = np.arange(0.0, run[-1], judged.usual)
    return {c: np.interp(even, run, x) for c, x in channels.items()}


def _of_coarse(time: FloatArray, step: FloatArray, none: BoolArray) -> JudgedSteps:
    """Return the steps of a clock that stands for several samples, such as one of whole seconds."""
    ticks = np.flatnonzero(step > 0)
    if len(ticks) < 2:
        return JudgedSteps(float(step[ticks[0]]) if len(ticks) else 0.0, none, even=False)
    first, last = int(ticks[0]), int(ticks[-1])
    usual = float(time[last + 1] - time[first + 1]) / (last - first)
    off = float(np.nanmax(time - usual * np.arange(len(time))) - np.nanmin(time - usual * np.arange(len(time))))
    return JudgedSteps(usual, none, even=off <= COARSE_TICKS * median(step[ticks]))


def _within(step: FloatArray, usual: float) -> bool:
    """Whether all steps are about the usual one; false where one is missing."""
    low, high = float(step.min()), float(step.max())
    return usual > 0 and low > (1 - EVEN_STEP) * usual and high < (1 + EVEN_STEP) * usual


def _on_a_line(time: FloatArray, step: FloatArray, mean: float) -> bool:
    """Whether stamps lie as near a straight line as the usual scatter of their steps allows."""
    low, high = np.percentile(step, (1.0, 99.0))
    off = time - time[0] - mean * np.arange(len(time))
    return bool(float(np.ptp(off)) <= 1.5 * float(high - low)) and float(step.min()) >= 0
