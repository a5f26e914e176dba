"""Which known pack and clicks an unknown curve is: every click of every pack tried.

All packs and clicks are alike beforehand; a pack's probability is the sum over its clicks. An unknown pack, akin to one
of the known, stands among them: what it may be is as wide as packs of a kind differ. One akin to none of them takes
what a poor fit leaves of the others' probability.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from scipy.special import gammaincc

from dynoan.analysis.clickmap.asked.authority import moved
from dynoan.analysis.clickmap.asked.likelihood import likelihood
from dynoan.analysis.clickmap.assumptions.identify import (
    IDENTIFY_EVIDENCE,
    REFUSED,
    STRANGE_COMMON,
    STRANGE_SHARES,
    SURE,
    SURE_NONE,
)
from dynoan.analysis.clickmap.every_click.one_shock import named_shock, tells_of
from dynoan.errors import CallError
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Curve
from dynoan.model.shock import ACTS_ON

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
    #: adjusters that no test of a pack moved, by pack: at other clicks of these it may be that one all the same
    untested: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True)
class _Scores:
    log_likelihood: FloatArray  #: at every click
    strange: FloatArray  #: the same of a pack akin to this one that is not known, one more axis over how near it is
    chi: FloatArray
    difference: FloatArray
    freedom: int


def identify(
    curve: Curve, maps: Sequence[ClickMap], shock: str | None = None, date: str | None = None
) -> Identification:
    """Return which known pack and clicks an unknown curve may be, every click of every pack tried.

    Parameters
    ----------
    curve
        The unknown one.
    maps
        Click maps of the known packs.
    shock, date
        The shock it is of, and when it was run, where known: a pack that tells of this shock is held against it as the
        shock was then, worn or not.

    Raises
    ------
    CallError
        If there is no click map, or the curve shares no speeds with them.
    """
    if not maps:
        raise CallError("no known pack to hold this against", hint="add sweeps of known packs first")
    scores = [_score(curve, map, shock, date) for map in maps]
    # Each pack's evidence, known or akin to a known one, counts by so much; how common they are counts whole.
    evidence = IDENTIFY_EVIDENCE * np.array([_log_mean(s.log_likelihood) for s in scores])
    strange = _log_mean(IDENTIFY_EVIDENCE * np.array([_log_mean(each) for s in scores for each in s.strange]))
    top = max(float(evidence.max()), strange)
    known = (1 - STRANGE_COMMON) / len(maps) * np.exp(evidence - top)
    total = float(known.sum()) + STRANGE_COMMON * float(np.exp(strange - top))
    found = [_candidate(m, s, float(p)) for m, s, p in zip(maps, scores, known / total, strict=True)]
    ranked = tuple(sorted(found, key=lambda c: (-c.probability, c.difference, c.pack)))
    none = 1.0 - sum(c.probability for c in ranked)
    verdict = _verdict(ranked, none)
    untested = {m.pack: names for m in maps if (names := _left_open(curve, m))} if verdict == "none of these" else {}
    return Identification("cannot tell" if untested else verdict, ranked, none, untested)


def _left_open(curve: Curve, map: ClickMap) -> tuple[str, ...]:
    """Return the adjusters that no test of a pack moved, where the rest of a curve does fit the pack; else none."""
    still = tuple(a.name for a in map.adjusters if a.clicks and not moved(map, a.name))
    if not still:
        return ()
    known = [d for d in DIRECTIONS if not any(d in ACTS_ON[name] for name in still)]
    if not known:
        return still
    log_l, chi, _, freedom = likelihood(curve, map, 0.0, known)
    acting = sum(a.clicks > 0 and any(d in ACTS_ON[a.name] for d in known) for a in map.adjusters)
    best = float(chi.flat[int(np.argmax(log_l))])
    return still if gammaincc(max(freedom - acting, 1) / 2, best / 2) >= REFUSED else ()


def _verdict(ranked: Sequence[Candidate], none: float) -> Verdict:
    if none >= SURE_NONE:
        return "none of these"
    return "pack" if ranked[0].probability >= SURE else "cannot tell"


def _log_mean(values: FloatArray) -> float:
    top = float(values.max())
    return top + float(np.log(np.mean(np.exp(values - top))))


def _score(curve: Curve, map: ClickMap, shock: str | None, date: str | None) -> _Scores:
    own = tells_of(map, shock)
    held = named_shock(map, shock or "", date) if own else map
    log_l, chi, off, freedom = likelihood(curve, held, 0.0, own=own)
    strange = np.array([likelihood(curve, held, share, own=own)[0] for share in STRANGE_SHARES])
    return _Scores(log_l, strange, chi, off, freedom)


def _candidate(map: ClickMap, scores: _Scores, probability: float) -> Candidate:
    weight = np.exp(scores.log_likelihood - scores.log_likelihood.max())
    names = [a.name for a in map.adjusters]
    limits = [_limits(weight, axis) for axis in range(weight.ndim)]
    index = tuple(middle for _, middle, _ in limits)
    best = np.unravel_index(int(np.argmax(scores.log_likelihood)), weight.shape)
    # The clicks were chosen to fit: each adjuster takes one degree of freedom.
    freedom = max(scores.freedom - sum(a.clicks > 0 for a in map.adjusters), 1)
    surprise = float(gammaincc(freedom / 2, float(scores.chi[best]) / 2))
    # What is unlike all that was weighed fits none of it: a pack that fits poorly leaves its share to such a one.
    probability *= min(surprise / REFUSED, 1.0)
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
