"""Packs and clicks for wanted damping ratios: every setting of every pack is scored, exactly.

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
from itertools import permutations, product
from math import sqrt

from dynoan.analysis.choosing.aims import Group, Place
from dynoan.analysis.choosing.assumptions import COUNT, LOOKED_AT, MISS_STEP, OPEN_SHARE, OTHER_PACK, TOLERANCE
from dynoan.analysis.choosing.choice import PlaceChoice, choice
from dynoan.analysis.choosing.ranges import Ranges, allowed
from dynoan.analysis.choosing.score import missed, ranked, unpacked, with_miss
from dynoan.analysis.choosing.search import best_pairs, contenders, only_fitting
from dynoan.analysis.choosing.settle import fewest_turned, miss_of, settled
from dynoan.errors import CallError
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Direction


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


@dataclass(frozen=True)
class ChoicePlan:
    """A choice for each of several places that depend on one another."""

    choices: tuple[PlaceChoice, ...]

    @property
    def fits(self) -> bool:
        """Whether every place keeps every wanted ratio within the tolerance."""
        return all(choice.fits for choice in self.choices)


#: adjusters meant for a direction; others that act on it are cross-talk
_OWN: dict[Direction, set[str]] = {"compression": {"lsc", "hsc", "c", "cr"}, "rebound": {"lsr", "hsr", "r", "cr"}}
Draft = tuple[PlaceCandidate, ...]  #: a plan before it is worked out: one candidate a place


def _rank(draft: Draft) -> tuple[int, ...]:
    """Return how many places do not fit, then the sums of misses, sensitivities and distances."""
    parts = zip(*(_handicapped(c) for c in draft), strict=True)
    return sum(not c.fits for c in draft), *(sum(part) for part in parts)


def _handicapped(candidate: PlaceCandidate) -> tuple[int, int, int]:
    miss, sensitivity, distance = unpacked(candidate.key)
    if candidate.handicap:
        miss = round((sqrt(miss * MISS_STEP) + candidate.handicap) ** 2 / MISS_STEP)
    return miss, sensitivity, distance


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
    which = contenders(misses[0], misses[1], count)
    up, down = (
        ranked(place, click_map, d, ranges, miss, keep) for d, miss, keep in zip(DIRECTIONS, misses, which, strict=True)
    )
    fitting = best_pairs(only_fitting(up), only_fitting(down), count)
    keep = {tuple(sorted(offsets.items())) for offsets, _ in fitting}
    rest: list[tuple[dict[str, int], int]] = []
    if len(fitting) < count:
        rest = [p for p in best_pairs(up, down, count) if tuple(sorted(p[0].items())) not in keep]
    pairs = [(o, k, True) for o, k in fitting] + [(o, k, False) for o, k in rest]
    other = bool(place.packs_now) and click_map.pack not in place.packs_now
    found: dict[tuple[tuple[str, int], ...], PlaceCandidate] = {}
    if rules.stay and pairs:
        room = max(rules.stay, OPEN_SHARE * rules.tolerance) if _open(place, click_map) else rules.stay
        few = fewest_turned(place, ranges, misses, pairs[0][0], room)
        pairs = [(few, *pairs[0][1:]), *pairs]
    else:
        room = rules.stay
    for offsets, key, fits in pairs[:count]:
        if rules.stay:
            offsets = settled(place, ranges, misses, offsets, rules.stay)
            key = with_miss(key, miss_of(misses, offsets))
        clicks = _clicks(place, click_map, ranges, offsets)
        one = PlaceCandidate(place, click_map, clicks, fits, key + OTHER_PACK * other, rules.stay * other)
        found.setdefault(tuple(sorted(clicks.items())), one)
    ordered = _nearest_first(sorted(found.values(), key=lambda c: (not c.fits, c.key)), room)
    return tuple(ordered)[: rules.count]


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


def plans(groups: Sequence[Group], maps: Sequence[ClickMap], rules: Rules) -> tuple[ChoicePlan, ...]:
    """Return the best plans over groups that may not share a pack, best first, with all that is told of them.

    Parameters and errors as of `search`.
    """
    drafts = search(groups, maps, rules)
    return tuple(ChoicePlan(tuple(_build(candidate, rules) for candidate in draft)) for draft in drafts)


def search(groups: Sequence[Group], maps: Sequence[ClickMap], rules: Rules) -> list[Draft]:
    """Return the best candidates over groups that may not share a pack, best first, one for each place.

    Parameters
    ----------
    groups
        Within one all places have the same pack. With one group this is the ranking of packs and clicks for it.
    maps
        Of the packs at hand.
    rules
        Of the search; `count` is how many are returned at most.

    Returns
    -------
    :
        Those whose places all fit first, then those of the least sum of squared misses; equal plans in the order of the
        packs as given.

    Raises
    ------
    CallError
        If nothing is wanted at a place, no pack is allowed, or there are fewer packs than groups.
    """
    if len(maps) < len(groups):
        raise CallError(f"{len(groups)} axles but {len(maps)} packs at hand", hint="each pack once is not possible")
    by_pack = [[_of_group(group, click_map, rules) for click_map in maps] for group in groups]
    found: list[Draft] = []
    for order in permutations(range(len(maps)), len(groups)):
        lists = [by_pack[g][m] for g, m in enumerate(order)]
        found += [tuple(c for part in parts for c in part) for parts in product(*lists)]
    if not found:
        raise CallError("no pack may be used under these limits", need="limits")
    # Sorting is stable: equal plans stay in the order of the packs as given.
    return sorted(found, key=_rank)[: rules.count]


def _of_group(group: Group, click_map: ClickMap, rules: Rules) -> list[Draft]:
    """Return the best drafts of a group with one pack: a sum of the best needs no more than the best of each."""
    lists = [best_of_pack(place, click_map, rules) for place in group.places]
    return sorted(product(*lists), key=_rank)[: rules.count]


def _build(candidate: PlaceCandidate, rules: Rules) -> PlaceChoice:
    return choice(candidate.place, candidate.click_map, dict(candidate.clicks), rules.tolerance)
