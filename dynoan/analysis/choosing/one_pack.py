"""The best settings of one pack for a place: every setting is scored, exactly.

The miss of a setting is the root of the weighted mean square of (ratio over wanted ratio, less 1), over all wanted
points of all corners that share the setting. Settings that keep every wanted ratio within the tolerance come first;
then the lower miss; equal misses go to the setting whose ratios a click changes least, then to the one nearest to
what is on the car, then to the lower clicks. With `Rules.stay` what the targets do not decide stays: clicks of the
settings found are turned back to those on the car as far as the miss hardly minds, and another pack comes first only
where it is better by as much.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import sqrt
from typing import NamedTuple

from dynoan.analysis.choosing.aims import Place
from dynoan.analysis.choosing.assumptions import COUNT, LOOKED_AT, MISS_STEP, OPEN_SHARE, OTHER_PACK, TOLERANCE
from dynoan.analysis.choosing.ranges import Ranges, allowed
from dynoan.analysis.choosing.score import Scored, missed, ranked, unpacked, with_miss
from dynoan.analysis.choosing.search import best_pairs, contenders, only_fitting
from dynoan.analysis.choosing.settle import fewest_turned, miss_of, settled
from dynoan.errors import CallError
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Direction

#: adjusters meant for a direction; others that act on it are cross-talk
_OWN: dict[Direction, set[str]] = {"compression": {"lsc", "hsc", "c", "cr"}, "rebound": {"lsr", "hsr", "r", "cr"}}


@dataclass(frozen=True)
class Rules:
    """How to search."""

    tolerance: float = TOLERANCE  #: share of each wanted ratio
    inside: bool = False  #: stay between the tested clicks of every adjuster
    within: int | None = None  #: stay within so many clicks of what is on the car
    count: int = COUNT  #: how many to rank
    #: a miss this much smaller is not worth a turn or another pack [share]; 0: every least gain counts
    stay: float = 0.0


@dataclass(frozen=True)
class PlaceCandidate:
    """One setting for one place, found and scored."""

    place: Place
    click_map: ClickMap
    clicks: Mapping[str, int]  #: from closed
    fits: bool  #: every wanted ratio within the tolerance
    key: int  #: miss, sensitivity and distance in one number, the lower the better
    handicap: float = 0.0  #: what another pack than the one on the car must be better by [share]


class _ScoredPair(NamedTuple):
    """A setting of both directions, as the search knows it."""

    offsets: dict[str, int]  #: from the first allowed click, by adjuster
    key: int  #: as of `PlaceCandidate`
    fits: bool


def best_of_pack(place: Place, click_map: ClickMap, rules: Rules) -> tuple[PlaceCandidate, ...]:
    """Return the best settings of one pack for a place, best first; empty where the rules forbid the pack.

    Parameters
    ----------
    place
        With something wanted.
    click_map
        Of the pack.
    rules
        Of the search; `count` is how many are returned at most.

    Raises
    ------
    CallError
        If nothing is wanted there.
    """
    if not any(aim.wanted for aim in place.aims):
        raise CallError(
            "no target is set", where=place.name, hint="write [targets.…] into the car file", need="targets"
        )
    ranges = allowed(click_map, place, inside=rules.inside, within=rules.within)
    if ranges is None:
        return ()
    misses = [missed(place, click_map, d, ranges, rules.tolerance) for d in DIRECTIONS]
    count = max(rules.count, COUNT) * LOOKED_AT if rules.stay else rules.count
    pairs = _best_scored(place, click_map, ranges, misses, count)
    room = rules.stay
    if rules.stay and pairs:
        if _open(place, click_map):
            room = max(rules.stay, OPEN_SHARE * rules.tolerance)
        few = fewest_turned(place, ranges, misses, pairs[0].offsets, room)
        pairs = [pairs[0]._replace(offsets=few), *pairs]
    found: dict[tuple[tuple[str, int], ...], PlaceCandidate] = {}
    for pair in pairs[:count]:
        if rules.stay:
            pair = _settled(place, ranges, misses, pair, rules.stay)
        one = _candidate(place, click_map, ranges, pair, rules)
        found.setdefault(tuple(sorted(one.clicks.items())), one)
    ordered = _nearest_first(sorted(found.values(), key=lambda c: (not c.fits, c.key)), room)
    return tuple(ordered)[: rules.count]


def _best_scored(
    place: Place, click_map: ClickMap, ranges: Ranges, misses: Sequence[Scored], count: int
) -> list[_ScoredPair]:
    """Return so many of the best settings of both directions together, those that fit first."""
    which = contenders(misses[0], misses[1], count)
    up, down = (
        ranked(place, click_map, d, ranges, miss, keep) for d, miss, keep in zip(DIRECTIONS, misses, which, strict=True)
    )
    fitting = best_pairs(only_fitting(up), only_fitting(down), count)
    known = {tuple(sorted(offsets.items())) for offsets, _ in fitting}
    every = best_pairs(up, down, count) if len(fitting) < count else []
    rest = [pair for pair in every if tuple(sorted(pair[0].items())) not in known]
    return [*(_ScoredPair(*pair, True) for pair in fitting), *(_ScoredPair(*pair, False) for pair in rest)]


def _settled(place: Place, ranges: Ranges, misses: Sequence[Scored], pair: _ScoredPair, stay: float) -> _ScoredPair:
    """Return a setting with what the targets do not decide turned back to what is on the car, and its miss there."""
    offsets = settled(place, ranges, misses, pair.offsets, stay)
    return pair._replace(offsets=offsets, key=with_miss(pair.key, miss_of(misses, offsets)))


def _candidate(place: Place, click_map: ClickMap, ranges: Ranges, pair: _ScoredPair, rules: Rules) -> PlaceCandidate:
    """Return a setting with its clicks; with another pack than the one on the car it must be better by `stay`."""
    other = bool(place.packs_now) and click_map.pack not in place.packs_now
    clicks = _clicks(place, click_map, ranges, pair.offsets)
    return PlaceCandidate(place, click_map, clicks, pair.fits, pair.key + OTHER_PACK * other, rules.stay * other)


def _open(place: Place, click_map: ClickMap) -> bool:
    """Return whether a direction has fewer wanted points than adjusters: then many settings give what is wanted."""
    return any(
        0 < len({w.velocity for aim in place.aims for w in aim.wanted if w.direction == d})
        < len(_OWN[d] & set(click_map.direction(d).adjusters))
        for d in DIRECTIONS
    )  # fmt: skip


def _nearest_first(found: list[PlaceCandidate], stay: float) -> list[PlaceCandidate]:
    """Return candidates, of those that miss hardly more than the first the one nearest to the car in front."""
    if not stay or not found:
        return found
    first = found[0]
    least = sqrt(unpacked(first.key)[0] * MISS_STEP)
    equal = [c for c in found if c.fits == first.fits and sqrt(unpacked(c.key)[0] * MISS_STEP) <= least + stay]
    near = min(equal, key=_away)
    return [replace(near, key=min(first.key, near.key)), *(c for c in found if c is not near)]


def _away(candidate: PlaceCandidate) -> tuple[int, int]:
    """Return how many adjusters are turned, and by how many clicks in all, from what is on the car."""
    turned = [abs(click - aim.now[n]) for aim in candidate.place.aims if aim.now
              for n, click in candidate.clicks.items() if n in aim.now]  # fmt: skip
    return sum(t > 0 for t in turned), sum(turned)


def _clicks(place: Place, click_map: ClickMap, ranges: Ranges, offsets: Mapping[str, int]) -> dict[str, int]:
    """Return clicks for every adjuster; one that no table knows stays as it is on the car."""
    clicks = {name: ranges[name].first + offset for name, offset in offsets.items()}
    now = place.aims[0].now or {}
    idle = {a.name: now[a.name] for a in click_map.adjusters if a.name not in clicks and a.name in now}
    return click_map.complete(clicks | idle)
