"""Which known pack and clicks an unknown curve is: likelihood under every click of every click map.

The logarithm of measured over predicted force is taken as Gaussian: a factor on each direction (unit-to-unit spread
and mounting), errors of the map and of the measurement that hang together over neighbouring speeds. Every click is
tried; a pack's probability is the sum over its clicks, all packs and clicks alike beforehand.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.special import gammaincc

from dynoan.analysis.clickmap.assumptions import (
    FORCE_ERROR,
    IDENTIFY_SPEEDS,
    REFUSED,
    RUN_SCATTER,
    SMOOTH_SHARE,
    SURE,
    UNIT_SPREAD,
)
from dynoan.analysis.clickmap.discrepancy import speed_kernel
from dynoan.analysis.clickmap.equivalent import on_all_axes
from dynoan.errors import CallError
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import DIRECTIONS, Curve, Side

Verdict = Literal["pack", "none of these", "cannot tell"]


@dataclass(frozen=True)
class Candidate:
    """One pack an unknown curve may be, at its most probable clicks. Clicks from closed."""

    pack: str
    from_closed: dict[str, int]
    low: dict[str, int]  #: clicks that hold 95 % of this pack's probability, lower ends
    high: dict[str, int]  #: upper ends
    difference: float  #: mean difference from the map at those clicks [%]
    probability: float  #: of the pack, among the known ones
    surprise: float  #: how often a true one would fit worse, 0 to 1


@dataclass(frozen=True)
class Identification:
    """Which pack an unknown curve is."""

    verdict: Verdict
    candidates: tuple[Candidate, ...]  #: best first


@dataclass(frozen=True)
class _Scores:
    log_likelihood: FloatArray
    chi: FloatArray
    difference: FloatArray
    freedom: int


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
    share = np.exp(evidence - evidence.max())
    share = share / share.sum()
    found = [_candidate(m, s, float(p)) for m, s, p in zip(maps, scores, share, strict=True)]
    ranked = tuple(sorted(found, key=lambda c: (-c.probability, c.difference, c.pack)))
    return Identification(_verdict(ranked), ranked)


def _verdict(ranked: Sequence[Candidate]) -> Verdict:
    if max(c.surprise for c in ranked if c.probability > 1 - SURE) < REFUSED:
        return "none of these"
    return "pack" if ranked[0].probability >= SURE else "cannot tell"


def _log_mean(values: FloatArray) -> float:
    top = float(values.max())
    return top + float(np.log(np.mean(np.exp(values - top))))


def _score(curve: Curve, map: ClickMap) -> _Scores:
    shape = tuple(a.clicks + 1 for a in map.adjusters)
    total, chi, off = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    freedom = 0
    for direction in DIRECTIONS:
        table = map.direction(direction)
        speeds = _speeds(curve.side(direction), table)
        log_l, x2, mean = _direction(curve.side(direction), table, speeds)
        total = total + on_all_axes(log_l, table, map)
        chi = chi + on_all_axes(x2, table, map)
        off = off + on_all_axes(mean, table, map) / 2
        freedom += len(speeds)
    return _Scores(total, chi, off, freedom)


def _speeds(side: Side, table: DirectionMap) -> FloatArray:
    top = min(side.top_speed, table.top_speed)
    low = side.low_speed * 0.95
    speeds = [s for s in IDENTIFY_SPEEDS if low <= s <= top * 1.001]
    if not speeds and top <= 0:
        raise CallError("the unknown curve and the known packs share no speeds; test it over the usual speeds")
    return np.array(speeds or [top])


def _direction(side: Side, table: DirectionMap, speeds: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return log-likelihood, chi-squared and mean difference [%] at every click of one direction."""
    force, half = table.at(speeds)
    force = np.maximum(force, 1.0)
    seen = np.maximum(side.force(speeds), 1.0)
    low, high = side.band(speeds)
    spread = table.spread if table.spread > 0 else UNIT_SPREAD
    own = ((high - low) / (2 * 1.96) / seen) ** 2 + RUN_SCATTER**2 + (FORCE_ERROR / seen) ** 2
    of_map = np.maximum((half / (1.96 * force)) ** 2 - table.spread**2, 0.0)
    sd = np.sqrt(own + of_map)
    residual = np.log(seen / force)
    # Errors hang together over neighbouring speeds: whiten with their correlation, then take the common factor out.
    alike = SMOOTH_SHARE * speed_kernel(speeds, speeds) + (1 - SMOOTH_SHARE) * np.eye(len(speeds))
    root = np.linalg.inv(np.linalg.cholesky(alike))
    z, ones = (residual / sd) @ root.T, (1.0 / sd) @ root.T
    zz, z1, oo = np.sum(z**2, axis=-1), np.sum(z * ones, axis=-1), np.sum(ones**2, axis=-1)
    chi = zz - z1**2 / (1 / spread**2 + oo)
    log_l = -0.5 * (chi + np.log1p(spread**2 * oo)) - np.sum(np.log(sd), axis=-1)
    return log_l, chi, 100 * np.mean(np.abs(np.expm1(residual)), axis=-1)


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
