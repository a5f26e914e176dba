"""Are two shocks or settings a pair: an equivalence test by direction and speed, and what to turn.

Two one-sided tests at once: a pair is matched where the whole interval of the difference lies inside the tolerance (D.
J. Schuirmann, "A comparison of the two one-sided tests procedure and the power approach…", J. Pharmacokinet. Biopharm.
15 (1987) 657-680, from memory). Not finding a difference is not enough, so a noisy comparison ends in "cannot tell".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import LEAST_FORCE
from dynoan.analysis.matching.assumptions import (
    BAND_REACH,
    FELT,
    MATCH_SPEEDS,
    MOST_REPEATS,
    REPEATABILITY,
    TOLERANCE_PCT,
    Z_BOTH,
)
from dynoan.analysis.statistics import Z95
from dynoan.errors import CallError, QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import DIRECTIONS, Curve, Direction
from dynoan.model.side import Side

Verdict = Literal["matched", "not matched", "cannot tell"]


@dataclass(frozen=True)
class Band:
    """The difference in one direction around one speed, in % of the mean force, with its interval."""

    direction: Direction
    speed: float  #: [m/s]
    difference: float  #: first minus second [%]
    low: float  #: [%]
    high: float  #: [%]
    newtons: float  #: first minus second [N]


@dataclass(frozen=True)
class Match:
    """Whether two curves are a pair."""

    verdict: Verdict
    tolerance: float  #: [%]
    bands: tuple[Band, ...]
    #: how many more runs of each shock would settle it; None where settled, or where no number would
    repeats: int | None = None

    @property
    def worst(self) -> Band:
        """The band with the largest difference."""
        return max(self.bands, key=lambda band: abs(band.difference))


@dataclass(frozen=True)
class Basis:
    """What a comparison rests on beside the two curves."""

    runs: tuple[int, int] = (1, 1)  #: how many runs each curve rests on
    repeatability: float = REPEATABILITY  #: scatter of one run, standard deviation as a share of force
    #: standard errors of friction where both records tell it: force is then compared with friction in it, as the car
    #: feels it, and what of the bands comes from telling friction from damping drops out [N]
    friction_sd: tuple[float, float] | None = None
    speeds: Sequence[float] = MATCH_SPEEDS  #: middles of the bands, where both curves hold them [m/s]


def match(a: Curve, b: Curve, *, tolerance: float = TOLERANCE_PCT, basis: Basis | None = None) -> Match:
    """Return how two curves differ, and whether they are a pair.

    Parameters
    ----------
    a, b
        The curves.
    tolerance
        What a pair may differ by. [%]
    basis
        Runs, repeatability, friction and speeds; else one run each at the usual speeds.

    Raises
    ------
    CallError
        If the curves share no speeds.
    QuantityError
        If the tolerance is not above 0 and below 100 %.
    """
    if not 0 < tolerance < 100:
        raise QuantityError(f"wanted a number of percent above 0 and below 100, not {tolerance:g}", part="tolerance")
    rests = basis or Basis()
    bands = tuple(band for d in DIRECTIONS for band in _bands(d, (a, b), rests))
    if not bands:
        raise CallError("the two curves share no speeds", hint="test both over the same speeds")
    verdict = _verdict(bands, tolerance)
    return Match(
        verdict, tolerance, bands, _repeats(bands, tolerance, rests.runs) if verdict == "cannot tell" else None
    )


def band_edges(speeds: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return where bands around speeds begin and end: near enough that what is told is so at the speed. [m/s]"""
    return speeds * (1.0 - BAND_REACH), speeds * (1.0 + BAND_REACH)


def common_speeds(a: Side, b: Side, wanted: Sequence[float] = MATCH_SPEEDS) -> FloatArray:
    """Return the wanted speeds that both sides hold, and their common top where that is well beyond them. [m/s]"""
    top, low = min(a.top_speed, b.top_speed), max(a.low_speed, b.low_speed)
    speeds = [s for s in wanted if low * 0.95 <= s <= top * 1.001]
    if top > 0 and (not speeds or top > 1.2 * speeds[-1]):
        speeds.append(top)
    return np.array(speeds)


def band_grid(speeds: FloatArray, top: float) -> FloatArray:
    """Return speeds through the bands around speeds, none above the top speed, shape (9, bands). [m/s]"""
    low, high = band_edges(speeds)
    return np.asarray(np.minimum(np.linspace(low, high, 9), top))


def mean_force(side: Side, speeds: FloatArray, top: float | None = None) -> tuple[FloatArray, FloatArray]:
    """Return the mean force in the bands around speeds, and half of its 95 % interval. [N]

    No speed above `top` counts, which must be the same for all that is held against one another.
    """
    grid = band_grid(speeds, side.top_speed if top is None else top)
    below, above = side.band(grid)
    return np.asarray(side.force(grid).mean(axis=0)), np.asarray(((above - below) / 2).mean(axis=0))


def sums_known(*curves: Curve) -> bool:
    """Return whether all curves tell damping and friction together: then that is what is compared.

    It is known better than its parts; and a peak table or a run at one speed knows nothing else.
    """
    return all(curve.side(d).total is not None or not curve.side(d).top_speed for curve in curves for d in DIRECTIONS)


def common_top(*sides: Side) -> float:
    """Return the highest speed that all sides hold. [m/s]"""
    return min(side.top_speed for side in sides)


def mean_total(curve: Curve, direction: Direction, speeds: FloatArray, top: float) -> tuple[FloatArray, FloatArray]:
    """Return the mean of damping and friction together in the bands around speeds, and half of its interval. [N]"""
    grid = band_grid(speeds, top) * (1.0 if direction == "compression" else -1.0)
    below, above = curve.total_band(grid)
    return np.asarray(np.abs(curve.total(grid)).mean(axis=0)), np.asarray(((above - below) / 2).mean(axis=0))


def _bands(direction: Direction, curves: tuple[Curve, Curve], basis: Basis) -> list[Band]:
    a, b = (curve.side(direction) for curve in curves)
    speeds = common_speeds(a, b, basis.speeds)
    if not len(speeds):
        return []
    both = sums_known(*curves)
    top = common_top(a, b)
    (fa, ha), (fb, hb) = (
        mean_total(c, direction, speeds, top) if both else mean_force(c.side(direction), speeds, top) for c in curves
    )
    newtons, middle = fa - fb, (fa + fb) / 2
    sa, sb = ha / Z95, hb / Z95
    if basis.friction_sd is not None and not both:
        newtons = newtons + curves[0].friction - curves[1].friction
        middle = middle + (curves[0].friction + curves[1].friction) / 2
        sa, sb = (_without(sd, known) for sd, known in zip((sa, sb), basis.friction_sd, strict=True))
    mean = np.maximum(middle, FELT)
    scatter = basis.repeatability * np.sqrt(1 / basis.runs[0] + 1 / basis.runs[1]) * np.minimum(middle / mean, 1.0)
    half = 100 * Z_BOTH * np.sqrt((sa**2 + sb**2) / mean**2 + scatter**2)
    off = 100 * newtons / mean
    return [
        Band(direction, float(v), float(d), float(d - h), float(d + h), float(n))
        for v, d, h, n in zip(speeds, off, half, newtons, strict=True)
    ]


def _without(sd: FloatArray, friction: float) -> FloatArray:
    """Return standard errors without the part that friction has in them, a third of them at least. [N]"""
    return np.asarray(np.sqrt(np.maximum(sd**2 - friction**2, (sd / 3) ** 2)))


def _verdict(bands: Sequence[Band], tolerance: float) -> Verdict:
    if any(band.low > tolerance or band.high < -tolerance for band in bands):
        return "not matched"
    if all(band.low >= -tolerance and band.high <= tolerance for band in bands):
        return "matched"
    return "cannot tell"


def _repeats(bands: Sequence[Band], tolerance: float, runs: tuple[int, int]) -> int | None:
    """Return how many more runs of each shock would bring every undecided interval off the tolerance."""
    need = 1.0
    for band in bands:
        half, room = (band.high - band.low) / 2, abs(tolerance - abs(band.difference))
        if abs(band.difference) <= tolerance and half <= room:
            continue
        need = max(need, (half / max(room, 1e-6)) ** 2)
    # Intervals shrink with the square root of the number of runs; a tenth more for the difference's own change.
    more = int(np.ceil(1.1 * need * min(runs))) - min(runs)
    return max(more, 1) if more <= MOST_REPEATS else None


def scatter(repeats: Sequence[Sequence[Curve]]) -> float:
    """Return the scatter from run to run, standard deviation as a share of force, from repeats of settings. [1]

    The usual scatter counts as four degrees of freedom beside them, so that two runs that happen to agree do not make
    a rig perfect.

    Parameters
    ----------
    repeats
        Curves of single runs, one sequence a setting.
    """
    squares, freedom = 4 * REPEATABILITY**2, 4
    for curves in repeats:
        logs = [_mean_log(curve, curves) for curve in curves]
        squares += float(np.sum((np.array(logs) - np.mean(logs)) ** 2))
        freedom += len(curves) - 1
    return float(np.sqrt(squares / freedom))


def _mean_log(curve: Curve, curves: Sequence[Curve]) -> float:
    """Return the mean logarithm of force over the speeds that all the curves hold."""
    total = []
    for direction in DIRECTIONS:
        top = min(c.side(direction).top_speed for c in curves)
        speeds = np.array([s for s in MATCH_SPEEDS if s <= top * 1.001])
        total += list(np.log(np.maximum(curve.side(direction).force(speeds), LEAST_FORCE)))
    return float(np.mean(total)) if total else 0.0
