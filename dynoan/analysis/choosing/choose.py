"""Packs and clicks for wanted damping ratios: every setting of every pack is scored, exactly.

The miss of a setting is the root of the weighted mean square of (ratio over wanted ratio, less 1), over all wanted
points of all corners that share the setting. Settings that keep every wanted ratio within the tolerance come first;
then the lower miss; equal misses go to the setting whose ratios a click changes least, then to the one nearest to
what is on the car, then to the lower clicks.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations, product

from dynoan.analysis.choosing.aims import Group, Place
from dynoan.analysis.choosing.assumptions import COUNT, OTHER_PACK, TOLERANCE
from dynoan.analysis.choosing.choice import PlaceChoice, choice
from dynoan.analysis.choosing.score import Ranges, allowed, missed, ranked, unpacked
from dynoan.analysis.choosing.search import best_pairs, contenders, only_fitting
from dynoan.errors import CallError
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS


@dataclass(frozen=True)
class Rules:
    """How to search."""

    tolerance: float = TOLERANCE  #: share of each wanted ratio
    inside: bool = False  #: stay between the tested clicks of every adjuster
    within: int | None = None  #: stay within so many clicks of what is on the car
    count: int = COUNT  #: how many to rank


@dataclass(frozen=True)
class PlaceCandidate:
    """One setting for one place, found and scored."""

    place: Place
    click_map: ClickMap
    clicks: Mapping[str, int]  #: from closed
    fits: bool  #: every wanted ratio within the tolerance
    key: int  #: miss, sensitivity and distance in one number, the lower the better


@dataclass(frozen=True)
class ChoicePlan:
    """A choice for each of several places that depend on one another."""

    choices: tuple[PlaceChoice, ...]

    @property
    def fits(self) -> bool:
        """Whether every place keeps every wanted ratio within the tolerance."""
        return all(choice.fits for choice in self.choices)


Draft = tuple[PlaceCandidate, ...]  #: a plan before it is worked out: one candidate a place


def _rank(draft: Draft) -> tuple[int, ...]:
    """Return how many places do not fit, then the sums of misses, sensitivities and distances."""
    parts = zip(*(unpacked(c.key) for c in draft), strict=True)
    return sum(not c.fits for c in draft), *(sum(part) for part in parts)


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
        raise CallError(f"{place.name}: no target is set; write [targets.…] into the car file", need="targets")
    ranges = allowed(click_map, place, inside=rules.inside, within=rules.within)
    if ranges is None:
        return ()
    misses = [missed(place, click_map, d, ranges, rules.tolerance) for d in DIRECTIONS]
    which = contenders(misses[0], misses[1], rules.count)
    up, down = (
        ranked(place, click_map, d, ranges, miss, keep) for d, miss, keep in zip(DIRECTIONS, misses, which, strict=True)
    )
    fitting = best_pairs(only_fitting(up), only_fitting(down), rules.count)
    keep = {tuple(sorted(offsets.items())) for offsets, _ in fitting}
    rest: list[tuple[dict[str, int], int]] = []
    if len(fitting) < rules.count:
        rest = [p for p in best_pairs(up, down, rules.count) if tuple(sorted(p[0].items())) not in keep]
    pairs = [(o, k, True) for o, k in fitting] + [(o, k, False) for o, k in rest]
    away = OTHER_PACK if place.packs_now and click_map.pack not in place.packs_now else 0
    return tuple(
        PlaceCandidate(place, click_map, _clicks(place, click_map, ranges, offsets), fits, key + away)
        for offsets, key, fits in pairs[: rules.count]
    )


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
        raise CallError(f"{len(groups)} axles but {len(maps)} packs at hand; each pack once is not possible")
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
