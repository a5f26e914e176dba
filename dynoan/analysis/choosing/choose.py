"""Packs and clicks for wanted damping ratios: the best of each pack, ranked over packs, axles and corners."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import permutations, product
from math import sqrt

from dynoan.analysis.choosing.aims import Group
from dynoan.analysis.choosing.assumptions import MISS_STEP
from dynoan.analysis.choosing.choice import PlaceChoice, choice
from dynoan.analysis.choosing.one_pack import PlaceCandidate, Rules, best_of_pack
from dynoan.analysis.choosing.score import unpacked
from dynoan.errors import CallError
from dynoan.model.clickmap import ClickMap


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
    parts = zip(*(_handicapped(c) for c in draft), strict=True)
    return sum(not c.fits for c in draft), *(sum(part) for part in parts)


def _handicapped(candidate: PlaceCandidate) -> tuple[int, int, int]:
    miss, sensitivity, distance = unpacked(candidate.key)
    if candidate.handicap:
        miss = round((sqrt(miss * MISS_STEP) + candidate.handicap) ** 2 / MISS_STEP)
    return miss, sensitivity, distance


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
