"""What a log says against the sign and the zero of its travel: how a car moves at the launch, and where it stands."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from dynoan.analysis.travel.assumptions import CREPT, DRIFTED, MOVED, SHIFT_WITHIN, STOOD
from dynoan.analysis.travel.start import Standing
from dynoan.jobs.travel.found import LoggedShock
from dynoan.model.car import CORNER_NAMES


def sign_doubts(shocks: Sequence[LoggedShock], start: float | None) -> list[str]:
    """Return a word where a car's front goes down and its rear up as it leaves the line, which none does."""
    if start is None:
        return []
    shifts = {s.corner: _between(s, start, start + SHIFT_WITHIN) for s in shocks}
    front = [v for c, v in shifts.items() if c[0] == "f" and np.isfinite(v)]
    rear = [v for c, v in shifts.items() if c[0] == "r" and np.isfinite(v)]
    if not front or not rear or min(front) < MOVED or max(rear) > -MOVED:
        return []
    return ["at the launch the front goes down and the rear up, as no car does: does the number rise as the shock gets "
            "longer? Then give a scale with a minus, such as \"-1 mm per mm\""]  # fmt: skip


def zero_doubts(shock: LoggedShock, stood: Sequence[Standing], start: float | None) -> list[str]:
    """Return words where a shock stands elsewhere at the end than at the start, or moved while the car stood there."""
    where = CORNER_NAMES[shock.corner]
    said: list[str] = []
    before = [run for run in stood if start is None or run.start < start]
    if not before:
        return said
    first, last = before[0], before[-1]
    end = min(last.end, last.end if start is None else start)
    begun, left = _between(shock, first.start, first.start + STOOD), _between(shock, end - STOOD, end)
    if abs(begun - left) > CREPT:
        said.append(f"{where}: before the start it moved by {abs(begun - left) * 1e3:.1f} mm as the car stood: did "
                    "somebody get in, or does the sensor drift? Tell the zero with a reading at rest")  # fmt: skip
    after = [run for run in stood if start is not None and run.start > start]
    if after:
        back = _between(shock, after[-1].end - STOOD, after[-1].end)
        if abs(back - left) > DRIFTED:
            said.append(f"{where}: at the end it stands {abs(back - left) * 1e3:.1f} mm from where it stood before the "
                        "start: the sensor slips or drifts, or the car stands on another slope or without its driver"
                        )  # fmt: skip
    return said


def _between(shock: LoggedShock, start: float, end: float) -> float:
    """Return the median travel of a stretch; NaN where nothing was logged. [m]"""
    moved = shock.travel.motion
    inside = moved.travel[(moved.time >= start) & (moved.time <= end)]
    return float(np.median(inside)) if len(inside) else float("nan")
