"""When the samples of a trace were taken, as a person should know it: gaps, pauses, uneven steps, repeats."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray
from importers.assumptions.channels import EVEN_STEP, PROBE_SAMPLES
from importers.channels.clock_steps import JudgedSteps, judged_steps


def timing_doubts(
    time: FloatArray | None, judged: JudgedSteps | None = None, set_by: Callable[[BoolArray], str] | None = None
) -> list[str]:
    """Return what a person should know of when the samples of a trace were taken.

    Parameters
    ----------
    time
        Shape (samples,); None where there is no column of it. [s]
    judged
        Its steps, where they are known already.
    set_by
        Names the column that changes where steps are gaps, so that those are pauses; empty where none does.
    """
    if time is None:
        return []
    judged = judged_steps(time) if judged is None else judged
    if judged.alike or (judged.even and not (time[1:] == time[:-1]).any()):
        return []
    step = np.diff(time)
    named = set_by(judged.gaps) if set_by is not None and judged.gaps.any() else ""
    known = np.isfinite(step)
    some = judged._replace(gaps=judged.gaps[known], pauses=None if judged.pauses is None else judged.pauses[known])
    return _timing_faults(step[known], some, named)


def _timing_faults(step: FloatArray, judged: JudgedSteps, named: str) -> list[str]:
    usual = judged.usual
    back, same = int((step < 0).sum()), int((step == 0).sum())
    out = [f"time jumps back in {back} places"] if back else []
    if usual > 0:
        out += _gaps(step, judged, named)
        if not judged.slowest:
            out += _uneven(step[(step > 0) & ~judged.gaps][:PROBE_SAMPLES], usual)
    return [*out, f"{same} samples repeat the time before them"] if same else out


def _gaps(step: FloatArray, judged: JudgedSteps, named: str) -> list[str]:
    """Warn of samples that were dropped, counted where the rate is known there, or of pauses at a named column."""
    if not judged.gaps.any():
        return []
    paused = judged.pauses is not None and bool((judged.gaps & judged.pauses).any())
    many = int(judged.gaps.sum())
    where = f"in {many} gap{'s' if many > 1 else ''}"
    lost = step[judged.gaps]
    if named:
        pauses = f"{many} pause{'s' if many > 1 else ''} of up to {float(lost.max()):.2g} s"
        return [f"the logger paused as the rig was set anew: {pauses}, at each of which '{named}' changes"]
    said = f"{int(np.round(lost / judged.usual - 1).sum())} samples were dropped {where}"
    said = f"nothing was recorded {where}, {float(lost.max()):.2g} s at the most" if judged.slowest else said
    return [f"{said}, or the logger paused there" if paused else said]


def _uneven(step: FloatArray, usual: float) -> list[str]:
    """Warn of steps that vary by more than their rounding to a few values."""
    varies = len(step) > 0 and float(np.percentile(np.abs(step / usual - 1), 95)) > EVEN_STEP
    rounded = not varies or len(np.unique(np.round(step / usual, 1))) <= 2
    said = f"sampling is uneven: the time between samples varies by more than {100 * EVEN_STEP:.0f} %"
    return [] if rounded else [said]
