"""How far each click opens an adjuster: evenly, or as the data show: dead ends, steps, a fall back, the other way.

Each oddity is a table of openings over clicks. How likely the tests are under it, beside evenly spaced clicks, comes
from the fitted valve with that table in it; tables are then averaged by their probability, and what they differ by
stays as doubt (averaging over models: J. A. Hoeting et al., "Bayesian Model Averaging: A Tutorial", Statistical Science
14 (1999) 382-417, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from dynoan.analysis.clickmap.assumptions.screws import (
    COMMONNESS,
    DEAD_MOST,
    DEAD_MOST_ALONE,
    EVIDENCE_SHARE,
    FALLS_BACK,
    ODD_DOUBTED,
    SATURATIONS,
    STEPS,
    TAPERS,
)
from dynoan.model.arrays import FloatArray

ALIKE = 1e-9  #: openings that differ by no more are one [1] (numerics)
Oddity = Literal["dead clicks", "stepped", "not monotone", "saturating"]


@dataclass(frozen=True)
class OpeningTable:
    """One way an adjuster may open, and how common it is before any test."""

    kind: Oddity | None  #: None where it opens evenly
    table: FloatArray  #: share of the turn by click from closed, (clicks + 1,)
    common: float


@dataclass(frozen=True)
class ClickOpening:
    """What is known of how an adjuster opens."""

    table: FloatArray  #: mean share of the turn by click from closed, (clicks + 1,)
    doubt: FloatArray  #: covariance of that over clicks, (clicks + 1, clicks + 1)
    kinds: Mapping[str, float]  #: probability of each oddity
    likeliest: OpeningTable
    same: FloatArray  #: how probable it is that two clicks open it alike, (clicks + 1, clicks + 1)


def even(clicks: int, backward: bool = False) -> FloatArray:
    """Return evenly spaced openings, from 0 at closed to 1; from 1 to 0 where the adjuster works backward. [1]"""
    table = np.arange(clicks + 1) / max(clicks, 1)
    return np.asarray(1.0 - table if backward else table)


def tables(clicks: int, backward: bool = False) -> list[OpeningTable]:
    """Return the ways an adjuster with so many clicks may open; their commonness sums to 1.

    Where a click leaves the screw (dead ends, steps, falls back) and what the screw's taper makes of it are put
    together.
    """
    n = np.arange(clicks + 1.0)
    places: dict[Oddity, list[FloatArray]] = {
        "dead clicks": list(_dead(n)), "stepped": list(_stepped(n)), "not monotone": list(_back(n)),
    }  # fmt: skip
    tapers = [(x, common) for x, common in TAPERS.items()]
    whole = sum(TAPERS.values())
    out = [OpeningTable(kind, _turned(_taper(place, power), backward), COMMONNESS[kind] / len(of_kind) * common / whole)
           for kind, of_kind in places.items() for place in of_kind for power, common in tapers]  # fmt: skip
    out += [OpeningTable("saturating", _turned(-np.expm1(-s * n / max(clicks, 1)) / -np.expm1(-s), backward),
                         COMMONNESS["saturating"] / len(SATURATIONS)) for s in SATURATIONS]  # fmt: skip
    regular = 1.0 - sum(one.common for one in out)
    plain = [OpeningTable(None, _turned(_taper(even(clicks), power), backward), regular * common / whole)
             for power, common in tapers]  # fmt: skip
    return [*plain, *out]


def _taper(share: FloatArray, power: float) -> FloatArray:
    return np.asarray(share**power)


def _turned(table: FloatArray, backward: bool) -> FloatArray:
    return np.asarray(1.0 - table if backward else table)


def _dead(n: FloatArray) -> Iterator[FloatArray]:
    """Some of the range does nothing, at one end or, less of it, at both."""
    clicks = n[-1]
    both, one = (max(2, int(share * clicks)) for share in (DEAD_MOST, DEAD_MOST_ALONE))
    ends = [0, *range(2, one + 1)]
    for closed in ends:
        for soft in ends:
            if 0 < closed + soft < clicks and (min(closed, soft) == 0 or max(closed, soft) <= both):
                yield np.clip((n - closed) / (clicks - closed - soft), 0.0, 1.0)


def _stepped(n: FloatArray) -> Iterator[FloatArray]:
    """It acts at every so many clicks, counted from either end."""
    clicks = max(n[-1], 1.0)
    for every in STEPS:
        yield every * np.floor(n / every) / clicks
        yield np.clip(1.0 - every * np.floor((clicks - n) / every) / clicks, 0.0, 1.0)


def _back(n: FloatArray) -> Iterator[FloatArray]:
    """At one click it falls back by some."""
    clicks = int(n[-1])
    for at in range(max(clicks // 4, 1), 3 * clicks // 4 + 2):
        for by in FALLS_BACK:
            if by < at:
                yield np.maximum(n - by * (n >= at), 0.0) / clicks


def averaged(ways: Sequence[OpeningTable], evidence: FloatArray) -> ClickOpening:
    """Return the openings averaged over tables by their probability.

    Parameters
    ----------
    ways
        The tables.
    evidence
        Logarithm of how likely the tests are under each, shape (tables,). [1]
    """
    score = EVIDENCE_SHARE * evidence + np.log([max(way.common, 1e-12) for way in ways])
    share = np.exp(score - score.max())
    share = share / share.sum()
    every = np.array([way.table for way in ways])
    mean = share @ every
    kinds: dict[str, float] = {}
    for way, p in zip(ways, share, strict=True):
        if way.kind is not None:
            kinds[way.kind] = kinds.get(way.kind, 0.0) + float(p)
    away = every - mean
    odd = np.array([1.0 if way.kind is None else ODD_DOUBTED[way.kind] for way in ways])
    wary = share * odd / float(np.sum(share * odd))
    alike = np.tensordot(share, np.abs(every[:, :, None] - every[:, None, :]) < ALIKE, axes=1)
    return ClickOpening(mean, np.asarray((wary * away.T) @ away), kinds, ways[int(np.argmax(share))],
                        np.asarray(alike))  # fmt: skip
