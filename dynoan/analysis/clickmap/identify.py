"""Which known pack and clicks an unknown curve is: likelihood under every click of every click map.

The logarithm of measured over predicted force is taken as Gaussian: a factor common to both directions (another shock,
warmer oil), friction taken for damping, errors of the map and of the measurement that hang together over neighbouring
speeds. Every click is tried; a pack's probability is the sum over its clicks, all packs and clicks alike beforehand. An
unknown pack, akin to one of the known, stands among them: what it may be is as wide as packs of a kind differ.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from scipy.special import gammaincc

from dynoan.analysis.clickmap.assumptions import (
    EXPECTED_SPREAD,
    FORCE_ERROR,
    FRICTION_SPLIT,
    IDENTIFY_SPEEDS,
    NEVER_SO_POOR,
    RUN_SCATTER,
    SIDE_SPREAD,
    SMOOTH_SHARE,
    STRANGE_COMMON,
    STRANGE_SHARE,
    SURE,
    SURE_NONE,
    THINNING,
    THINNING_SD,
    UNSAID_WARMTH,
    USUAL_FRICTION_SD,
)
from dynoan.analysis.clickmap.discrepancy import speed_kernel
from dynoan.analysis.clickmap.equivalent import on_all_axes
from dynoan.analysis.clickmap.friction import Rubbing, seen_side, splits
from dynoan.analysis.statistics import Z95
from dynoan.errors import CallError
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import DIRECTIONS, Curve, Direction, Side

Verdict = Literal["pack", "none of these", "cannot tell"]


@dataclass(frozen=True)
class Candidate:
    """One pack an unknown curve may be, at its most probable clicks. Clicks from closed."""

    pack: str
    from_closed: dict[str, int]
    low: dict[str, int]  #: clicks that hold 95 % of this pack's probability, lower ends
    high: dict[str, int]  #: upper ends
    difference: float  #: mean difference from the map at those clicks [%]
    probability: float  #: of the pack; what is missing to 1 over all candidates is that of an unknown one
    surprise: float  #: how often a true one would fit worse, 0 to 1


@dataclass(frozen=True)
class Identification:
    """Which pack an unknown curve is."""

    verdict: Verdict
    candidates: tuple[Candidate, ...]  #: best first
    none: float = 0.0  #: probability that it is none of the known ones


@dataclass(frozen=True)
class _Scores:
    log_likelihood: FloatArray  #: at every click
    strange: FloatArray  #: the same of a pack akin to this one that is not known
    chi: FloatArray
    difference: FloatArray
    freedom: int


@dataclass(frozen=True)
class _Sums:
    """What one direction adds, at every click: sums over whitened speeds of residual and of what errs in common."""

    rr: FloatArray  #: residual squared
    ur: tuple[FloatArray, FloatArray]  #: residual with each common error
    uu: tuple[FloatArray, FloatArray, FloatArray]  #: of the common errors: first, both, second
    log_sd: FloatArray


def identify(curve: Curve, maps: Sequence[ClickMap]) -> Identification:
    """Return which known pack and clicks an unknown curve may be, every click of every pack tried.

    Parameters
    ----------
    curve
        The unknown one.
    maps
        Click maps of the known packs.

    Raises
    ------
    CallError
        If there is no click map, or the curve shares no speeds with them.
    """
    if not maps:
        raise CallError("no known pack to hold this against; add sweeps of known packs first")
    scores = [_score(curve, map) for map in maps]
    evidence = np.array([_log_mean(s.log_likelihood) for s in scores])
    strange = _log_mean(np.array([_log_mean(s.strange) for s in scores]))
    top = max(float(evidence.max()), strange)
    known = (1 - STRANGE_COMMON) / len(maps) * np.exp(evidence - top)
    none = STRANGE_COMMON * float(np.exp(strange - top))
    total = float(known.sum()) + none
    found = [_candidate(m, s, float(p)) for m, s, p in zip(maps, scores, known / total, strict=True)]
    ranked = tuple(sorted(found, key=lambda c: (-c.probability, c.difference, c.pack)))
    return Identification(_verdict(ranked, none / total), ranked, none / total)


def _verdict(ranked: Sequence[Candidate], none: float) -> Verdict:
    # An unknown pack akin to none of the known fits none of what was weighed.
    fits = max(c.surprise for c in ranked if c.probability >= (1 - SURE) * (1 - none))
    if none >= SURE_NONE or fits < NEVER_SO_POOR:
        return "none of these"
    return "pack" if ranked[0].probability >= SURE else "cannot tell"


def _log_mean(values: FloatArray) -> float:
    top = float(values.max())
    return top + float(np.log(np.mean(np.exp(values - top))))


def _score(curve: Curve, map: ClickMap) -> _Scores:
    freedom = 0
    sums: dict[bool, list[_Sums]] = {False: [], True: []}
    off: FloatArray = np.zeros(tuple(a.clicks + 1 for a in map.adjusters))
    for direction in DIRECTIONS:
        table = map.direction(direction)
        speeds = _speeds(curve.side(direction), table)
        seen = _seen(curve, direction, speeds, map)
        for strange in sums:
            part, mean = _direction(seen, table, speeds, strange=strange)
            sums[strange].append(_on_all_axes(part, table, map))
        off = off + on_all_axes(mean, table, map) / 2
        freedom += len(speeds)
    warmer = _warmer(curve, map)
    warm = UNSAID_WARMTH if warmer is None else THINNING_SD * warmer
    common = float(np.hypot(_spread(map), warm))
    rubbing = FRICTION_SPLIT if splits(curve) else USUAL_FRICTION_SD
    log_l, chi = _joined(sums[False], common, rubbing)
    strange_l, _ = _joined(sums[True], float(np.hypot(common, STRANGE_SHARE)), rubbing)
    return _Scores(log_l, strange_l, chi, off, freedom)


def _warmer(curve: Curve, map: ClickMap) -> float | None:
    """Return by how much the oil of a curve was warmer than what a map is brought to; None where untold. [K]"""
    if curve.temperature is None or map.reference_c is None:
        return None
    return curve.temperature - map.reference_c


def _spread(map: ClickMap) -> float:
    """Return how far a shock lies from the one or the mean of those that a map rests on, standard deviation. [1]"""
    table = map.compression
    if len(map.shocks) > 1 and table.spread > 0:
        return table.spread
    return float(np.sqrt(2.0) * EXPECTED_SPREAD)


@dataclass(frozen=True)
class _Seen:
    force: FloatArray  #: damping as far as it can be told, at the map's temperature, (S,) [N]
    sd: FloatArray  #: of that, shares of force, friction's split apart, (S,) [1]


def _seen(curve: Curve, direction: Direction, speeds: FloatArray, map: ClickMap) -> _Seen:
    if np.isfinite(map.friction):
        side = seen_side(curve, direction, speeds, Rubbing(map.friction))
    else:
        # No test of the pack told friction, so that the map holds it too: the sum is what both know.
        side = seen_side(replace(curve, friction=float("nan")), direction, speeds, Rubbing(0.0))
    force = np.exp(side.logs + THINNING * (_warmer(curve, map) or 0.0))
    return _Seen(force, np.sqrt(side.variance + RUN_SCATTER**2 + (FORCE_ERROR / force) ** 2))


def _on_all_axes(part: _Sums, table: DirectionMap, map: ClickMap) -> _Sums:
    def wide(values: FloatArray) -> FloatArray:
        return on_all_axes(np.asarray(values), table, map)

    return _Sums(wide(part.rr), (wide(part.ur[0]), wide(part.ur[1])),
                 (wide(part.uu[0]), wide(part.uu[1]), wide(part.uu[2])), wide(part.log_sd))  # fmt: skip


def _joined(sums: Sequence[_Sums], common: float, friction: float) -> tuple[FloatArray, FloatArray]:
    """Return log-likelihood and chi-squared at every click, what both directions err by in common taken out.

    A shock's own factor [1] and friction taken for damping [N] are Gaussian; a rank of two is all that needs solving.
    """
    first, second = sums
    rr, log_sd = first.rr + second.rr, first.log_sd + second.log_sd
    r0, r1 = (common * (first.ur[0] + second.ur[0]), friction * (first.ur[1] + second.ur[1]))
    a = 1.0 + common**2 * (first.uu[0] + second.uu[0])
    b = common * friction * (first.uu[1] + second.uu[1])
    c = 1.0 + friction**2 * (first.uu[2] + second.uu[2])
    determinant = a * c - b**2
    chi = rr - (c * r0**2 - 2 * b * r0 * r1 + a * r1**2) / determinant
    return np.asarray(-0.5 * (chi + np.log(determinant)) - log_sd), np.asarray(chi)


def _speeds(side: Side, table: DirectionMap) -> FloatArray:
    top = min(side.top_speed, table.top_speed)
    low = side.low_speed * 0.95
    speeds = [s for s in IDENTIFY_SPEEDS if low <= s <= top * 1.001]
    if not speeds and top <= 0:
        raise CallError("the unknown curve and the known packs share no speeds; test it over the usual speeds")
    return np.array(speeds or [top])


def _direction(seen: _Seen, table: DirectionMap, speeds: FloatArray, *, strange: bool) -> tuple[_Sums, FloatArray]:
    """Return the sums of one direction at every click, and the mean difference [%].

    `strange`: of a pack akin to this one, which no test tells of.
    """
    force, half = table.at(speeds)
    force = np.maximum(force, 1.0)
    of_map = np.maximum((half / (Z95 * force)) ** 2 - table.spread**2, 0.0)
    sd = np.sqrt(seen.sd**2 + of_map + SIDE_SPREAD**2 + (STRANGE_SHARE**2 if strange else 0.0))
    residual = np.log(seen.force / force)
    # Errors hang together over neighbouring speeds: whiten with their correlation.
    alike = SMOOTH_SHARE * speed_kernel(speeds, speeds) + (1 - SMOOTH_SHARE) * np.eye(len(speeds))
    root = np.linalg.inv(np.linalg.cholesky(alike))
    z, ones, newtons = (residual / sd) @ root.T, (1.0 / sd) @ root.T, (1.0 / (seen.force * sd)) @ root.T

    def dot(x: FloatArray, y: FloatArray) -> FloatArray:
        return np.asarray(np.sum(x * y, axis=-1))

    sums = _Sums(dot(z, z), (dot(z, ones), dot(z, newtons)),
                 (dot(ones, ones), dot(ones, newtons), dot(newtons, newtons)), np.sum(np.log(sd), axis=-1))  # fmt: skip
    return sums, 100 * np.mean(np.abs(np.expm1(residual)), axis=-1)


def _candidate(map: ClickMap, scores: _Scores, probability: float) -> Candidate:
    weight = np.exp(scores.log_likelihood - scores.log_likelihood.max())
    names = [a.name for a in map.adjusters]
    limits = [_limits(weight, axis) for axis in range(weight.ndim)]
    index = tuple(middle for _, middle, _ in limits)
    best = np.unravel_index(int(np.argmax(scores.log_likelihood)), weight.shape)
    # The clicks were chosen to fit: each adjuster takes one degree of freedom.
    freedom = max(scores.freedom - sum(a.clicks > 0 for a in map.adjusters), 1)
    surprise = float(gammaincc(freedom / 2, float(scores.chi[best]) / 2))
    return Candidate(
        pack=map.pack, from_closed=dict(zip(names, index, strict=True)),
        low=dict(zip(names, (a for a, _, _ in limits), strict=True)),
        high=dict(zip(names, (b for _, _, b in limits), strict=True)),
        difference=float(scores.difference[index]), probability=probability, surprise=surprise,
    )  # fmt: skip


def _limits(weight: FloatArray, axis: int) -> tuple[int, int, int]:
    """Return the clicks below which 2.5, 50 and 97.5 % of the probability along one adjuster lie."""
    others = tuple(i for i in range(weight.ndim) if i != axis)
    share = np.cumsum(weight.sum(axis=others))
    low, middle, high = (int(np.searchsorted(share, p * share[-1])) for p in (0.025, 0.5, 0.975))
    return low, middle, high
