"""One direction of a curve: pieces with their character, knees and bands."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.fitting.assumptions import APART, GRID, LINEAR, TOLD_FALL, TRUST
from dynoan.analysis.fitting.bands import Fitted, Spread, spread_of
from dynoan.analysis.fitting.cells import Points, cells_of
from dynoan.analysis.fitting.choice import choose
from dynoan.analysis.fitting.monotone import hold_up
from dynoan.analysis.fitting.opening import Opener
from dynoan.analysis.fitting.repeats import between_sweeps
from dynoan.analysis.fitting.row_by_row import stands_on_rows
from dynoan.analysis.knees.broken_line import BrokenStick
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.side import Character, Knee, Segment, Side


def fit_side(p: Points, opener: Opener | None, *, peaks: bool) -> Side:
    """Return the curve of one direction.

    Parameters
    ----------
    p
        Its points, gas, zero and friction out.
    peaks
        Whether they are a peak table's: few, each by itself.
    opener
        What the records leave open of damping and friction; None leaves the scatter of the points alone.
    """
    cells = cells_of(p, None if opener is None or peaks else opener.at_start)
    chosen = choose(cells.speed, cells.force, cells.weight, trust=TRUST if peaks else 0, spare=cells.spare)
    stick = _never_pushing(chosen.stick, (cells.speed, cells.force, cells.weight))
    grid = np.concatenate([[0.0], np.geomspace(max(0.002, 1e-3 * stick.knots[-1]), stick.knots[-1], GRID - 1)])
    spread = spread_of(Fitted(p, cells, stick, peaks, chosen.models), grid, opener)
    force = stick(grid)
    low, high = force - spread.half, force + spread.half
    total: tuple[FloatArray, FloatArray, FloatArray] | None = None
    if opener is not None:
        now, between = opener(grid), between_sweeps(p, stick) * np.abs(force)
        half, wide = (np.hypot(Z95 * sd, between) for sd in (now.damping_sd, now.total_sd))
        low, high = around(now.damping, half, force)
        both = force + now.taken
        total = (both, *around(now.total, wide, both))
    rest = p.force - stick(p.speed)
    return Side(
        segments=segments_of(stick), knees=_knees(stick, spread), speeds=grid, low=low, high=high, total=total,
        top_speed=float(p.speed[-1]), low_speed=float(p.speed[0]), rms=float(np.sqrt(np.mean(rest**2))), samples=len(p),
        notes=(*_notes(stick), *_between(stick, cells.speed, peaks=peaks)),
    )  # fmt: skip


def around(middle: FloatArray, half: FloatArray, curve: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return a band about the middle of the draws that holds the curve of a few pieces inside, not at its edge. [N]

    `half` are its half widths below and above, shape (2, s).
    """
    apart = APART * np.abs(curve - middle)
    return np.minimum(middle, curve) - np.hypot(half[0], apart), np.maximum(middle, curve) + np.hypot(half[1], apart)


def _never_pushing(stick: BrokenStick, points: tuple[FloatArray, FloatArray, FloatArray]) -> BrokenStick:
    """Return a curve that nowhere acts with the motion: damping cannot."""
    if float(np.min(stick(np.linspace(0.0, stick.knots[-1], 400)))) >= -1e-9 * float(np.max(np.abs(stick.values))):
        return stick
    return hold_up(replace(stick, power=float("nan")), *points)


def nobody_measured() -> Side:
    """Return the side of a direction that the record does not hold: not a number everywhere."""
    speeds, unknown = np.array([0.0, 1e-6]), np.full(2, np.nan)
    return Side((), (), speeds, unknown, unknown, top_speed=0.0, forces=unknown,
                notes=("this direction was not recorded",))  # fmt: skip


def segments_of(stick: BrokenStick) -> tuple[Segment, ...]:
    """Return the pieces of a curve with their character."""
    out = []
    for j, (a, b) in enumerate(zip(stick.knots[:-1], stick.knots[1:], strict=True)):
        h = float(b - a)
        slope, bend = float(stick.slopes[j]), float(stick.heights[j]) / h
        law = (slope + bend, -bend / h, 2.0)
        if j == 0 and stick.power == stick.power:
            law = (0.0, float(stick.values[1]) / h**stick.power, stick.power)
        out.append(Segment(
            start=float(a), end=float(b), start_force=float(stick.values[j]), slope_in=law[0], bend=law[1],
            exponent=law[2], character=character(stick, float(a), float(b)),
        ))  # fmt: skip
    return tuple(out)


def character(stick: BrokenStick, start: float, end: float) -> Character:
    """Return how force grows over a piece: by the exponent of the power law |F| ~ v^m fitted to it."""
    at = np.linspace(max(start, 0.25 * end), end, 40)
    force = stick(at)
    if not np.all(force > 0) or float(force[-1]) <= 0:
        return "progressive" if force[-1] > force[0] else "digressive"
    m = float(np.polyfit(np.log(at), np.log(force), 1, w=force)[0])
    return "linear" if abs(m - 1) <= LINEAR else "progressive" if m > 1 else "digressive"


def _knees(stick: BrokenStick, spread: Spread) -> tuple[Knee, ...]:
    return tuple(
        Knee(float(k), float(low), float(high), float(stick(k)))
        for k, (low, high) in zip(stick.knees, spread.knees, strict=True)
    )


def _between(stick: BrokenStick, rows: FloatArray, *, peaks: bool) -> tuple[str, ...]:
    if not (peaks and stands_on_rows(stick, rows)):
        return ()
    return ("straight from row to row: where between few rows the slope changes, nobody measured",)


def _notes(stick: BrokenStick) -> tuple[str, ...]:
    at: FloatArray = np.linspace(stick.knots[0], stick.knots[-1], 200)
    force = stick(at)
    fall = np.maximum.accumulate(force) - force
    if float(fall.max()) <= TOLD_FALL * float(force.max()):
        return ()
    where = at[int(np.argmax(fall))]
    return (f"force falls by {fall.max():.0f} N up to {where * 1e3:.0f} mm/s: the data insist on it",)
