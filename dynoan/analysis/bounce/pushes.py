"""Where in a log the car swings freely: after each push, from letting go until the swing has died or the next push."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.bounce.assumptions import (
    AGAIN,
    BEFORE_PUSH,
    CLOSE_BEHIND,
    DIED,
    DIED_FOR,
    FADED,
    FALL,
    LEFT_BEHIND,
    LONGEST_PERIOD,
    LONGEST_SWING,
    PRESSED,
    PRESSED_OVER,
    PUSH,
    QUIET,
)
from dynoan.analysis.statistics import sample_noise
from dynoan.model.arrays import FloatArray, IntArray


@dataclass(frozen=True)
class Swing:
    """One free swing in a log."""

    start: int  #: first sample
    stop: int  #: behind the last
    peak: float  #: the push's greatest value, as logged


def swings(time: FloatArray, values: FloatArray, let_go: float, rest: float) -> tuple[Swing, ...]:
    """Return the free swings of a log.

    Parameters
    ----------
    time
        Ascending, shape (n,). [s]
    values
        About zero at rest, positive after a push before the car is let go (compression, or upward acceleration).
    let_go
        Share of the greatest value it must have fallen to. [1]
    rest
        How long to follow a swing once it has faded. [s]

    Returns
    -------
    :
        None where nothing was pushed.
    """
    from scipy.signal import find_peaks

    smooth = _smooth(time, values)
    top = float(smooth.max())
    if top <= 0:
        return ()
    step = float(np.median(np.diff(time)))
    peaks, _ = find_peaks(smooth, height=PUSH * top, prominence=0.5 * PUSH * top, distance=max(1, round(0.15 / step)))
    found: list[Swing] = []
    free = [_let_go(time, smooth, int(at), let_go) for at in peaks]
    pushed = [n for n in range(len(peaks)) if n == 0 or _again(time, smooth, peaks[n - 1 : n + 1], free[n - 1])]
    pressed = {int(at) for at in peaks if _pressed(time, smooth, int(at), peaks)}
    for number, at in enumerate(peaks):
        if at in pressed:
            continue
        later = min((_begun(time, smooth, int(peaks[n]), pressed) for n in pushed if n > number), default=len(time))
        if later <= at:  # the next push begins before: this is under its hand
            continue
        start = _let_go(time, smooth[:later], int(at), let_go)
        stop = _stop(time, smooth, start, later, float(smooth[at]), rest)
        if start > at and stop - start > 8 and not any(start == s.start for s in found):
            found.append(Swing(start, stop, float(smooth[at])))
    return tuple(s for s in found if s.peak >= PUSH * top and not _goes_on(found, s, time))


def greatest(time: FloatArray, values: FloatArray) -> float:
    """Return the greatest value of a log, its noise evened out. [as the values]"""
    return float(_smooth(time, values).max())


def _pressed(time: FloatArray, smooth: FloatArray, at: int, peaks: IntArray) -> bool:
    """Tell whether a greatest value is a hand's that stops pressing down, before which the body went down as quickly.

    Of travel none is: it is not below its rest before. Let go at once, a car that was pressed goes up further than it
    was pressed, and swings.
    """
    before, after = _trough(time, smooth, at, -1), _trough(time, smooth, at, 1)
    if before < PRESSED * smooth[at]:
        return False
    later = smooth[peaks[(peaks > at) & (time[peaks] < time[at] + CLOSE_BEHIND)]]
    return before > PRESSED_OVER * after or bool(np.any(later > smooth[at]))


def _trough(time: FloatArray, smooth: FloatArray, at: int, way: int) -> float:
    """Return how far below rest a log goes within the longest period before or after, as a magnitude."""
    other = int(np.searchsorted(time, time[at] + way * LONGEST_PERIOD))
    return max(0.0, -float(smooth[min(at, other) : max(at, other) + 1].min()))


def _begun(time: FloatArray, smooth: FloatArray, at: int, pressed: set[int]) -> int:
    """Return where a push begins to show: before a hand stops pressing, it went down."""
    if at not in pressed:
        return at
    first = int(np.searchsorted(time, time[at] - LONGEST_PERIOD))
    return first + int(np.argmin(smooth[first : at + 1]))


def _let_go(time: FloatArray, smooth: FloatArray, at: int, share: float) -> int:
    """Return where a car that was pushed is free; the greatest value's own place where it never is.

    Under the hand it may swing about where it is held: what counts is the fall that leaves that behind for good.
    """
    far = np.flatnonzero(smooth[at:] <= LEFT_BEHIND * smooth[at])
    if not len(far):
        return at
    left = at + int(far[0])
    before = max(at, int(np.searchsorted(time, time[left] - FALL)))
    held = float(smooth[before : left + 1].max())
    return before + int(np.flatnonzero(smooth[before:left] > share * held)[-1]) + 1


def _again(time: FloatArray, smooth: FloatArray, peaks: IntArray, free: int) -> bool:
    """Tell whether the later of two greatest values is a push of its own, and no swing back from the one before."""
    last, at = peaks
    return bool(smooth[at] > AGAIN * smooth[last] or time[at] - time[max(free, last)] > LONGEST_PERIOD)


def _goes_on(found: list[Swing], swing: Swing, time: FloatArray) -> bool:
    """Tell whether a swing is the tail of an earlier one: a greatest value within the other's own stretch."""
    return any(o.start < swing.start < o.stop and o.peak > swing.peak for o in found)


def _stop(time: FloatArray, smooth: FloatArray, start: int, later: int, peak: float, rest: float) -> int:
    """Return where a swing ends: before the next push begins, once it has faded, or after some seconds."""
    stop = int(np.searchsorted(time, time[start] + LONGEST_SWING))
    if later < len(time):
        quiet = np.flatnonzero(np.abs(smooth[start:later]) < QUIET * abs(smooth[later]))
        begun = time[start + int(quiet[-1])] - BEFORE_PUSH if len(quiet) else time[start]
        stop = min(stop, int(np.searchsorted(time, begun)))
    stop = min(stop, _died(time, smooth, start, peak) or stop)
    loud = np.flatnonzero(np.abs(smooth[start:stop]) > FADED * peak)
    if not len(loud):
        return start
    return min(stop, len(time), int(np.searchsorted(time, time[start + int(loud[-1])] + rest)))


def _died(time: FloatArray, smooth: FloatArray, start: int, peak: float) -> int | None:
    """Return where a swing has died: it stays small for a while, whatever comes after, such as the next push."""
    count = max(2, int(np.searchsorted(time, time[start] + DIED_FOR)) - start)
    small = np.abs(smooth[start:]) < DIED * peak
    runs = np.convolve(small, np.ones(count), mode="valid") >= count
    return start + int(np.argmax(runs)) + count if runs.any() else None


def _smooth(time: FloatArray, values: FloatArray) -> FloatArray:
    """Return values over a twentieth of a second, so that noise makes no peaks."""
    step = float(np.median(np.diff(time)))
    width = 2 * round(0.025 / step) + 1
    if width < 3:
        return values
    kernel = np.hanning(width + 2)[1:-1]
    padded = np.pad(values, width // 2, mode="edge")
    return np.asarray(np.convolve(padded, kernel / kernel.sum(), mode="valid"))


def noise_of(values: FloatArray) -> float:
    """Return the standard deviation of a log's noise. [as the values]"""
    return sample_noise([values])
