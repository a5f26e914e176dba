"""The time between samples, judged on the whole record: stamps are rounded, jitter, and leave out what was dropped."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray
from importers.assumptions import EVEN_STEP, GAP_STEPS


class JudgedSteps(NamedTuple):
    """The steps of a time column."""

    usual: float  #: mean time between samples, gaps left out; 0 where time stands, in the unit of the column
    gaps: BoolArray  #: which steps leave out samples, shape (samples - 1,)
    even: bool  #: whether all steps are alike, or as rounding of alike ones leaves them


def judged_steps(time: FloatArray) -> JudgedSteps:
    """Return how the samples of a record follow one another.

    Stamps that lie within their own scatter of a straight line are evenly sampled however they are rounded; else a step
    that is far longer than the middle one leaves out samples.
    """
    step = np.diff(time)
    none = np.zeros(len(step), bool)
    if len(step) and _within(step, float(step.mean())):
        return JudgedSteps(float(step.mean()), none, even=True)
    known = step[np.isfinite(step)]
    if not len(known):
        return JudgedSteps(0.0, none, even=True)
    middle, mean = float(np.median(known)), float(known.mean())
    if _within(known, middle):
        return JudgedSteps(mean, none, even=True)
    if mean > 0 and len(known) == len(step) and _on_a_line(time, step, mean):
        return JudgedSteps(mean, none, even=True)
    if not middle > 0:
        positive = known[known > 0]
        return JudgedSteps(float(np.median(positive)) if len(positive) else 0.0, none, even=False)
    gaps = step > GAP_STEPS * middle
    kept = step[~gaps & (step > 0)]
    return JudgedSteps(float(kept.mean()), gaps, even=False)


def _within(step: FloatArray, usual: float) -> bool:
    """Whether all steps are about the usual one; false where one is missing."""
    low, high = float(step.min()), float(step.max())
    return usual > 0 and low > (1 - EVEN_STEP) * usual and high < (1 + EVEN_STEP) * usual


def _on_a_line(time: FloatArray, step: FloatArray, mean: float) -> bool:
    """Whether stamps lie as near a straight line as the usual scatter of their steps allows."""
    low, high = np.percentile(step, (1.0, 99.0))
    off = time - time[0] - mean * np.arange(len(time))
    return bool(float(np.ptp(off)) <= 1.5 * float(high - low)) and float(step.min()) >= 0
