"""What is to be said of a choice: what to be careful of, and what would fit where nothing does."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from dynoan.analysis.choosing.advice import Reach, reach, spring_that_fits
from dynoan.analysis.choosing.aims import Group
from dynoan.analysis.choosing.choice import PlaceChoice, beyond
from dynoan.analysis.choosing.choose import ChoicePlan, plans
from dynoan.analysis.choosing.one_pack import Rules
from dynoan.errors import CallError
from dynoan.jobs.choose.advice import (
    Advice,
    EachSideItsOwn,
    ForceNeeded,
    LimitInTheWay,
    NeverTested,
    NoSpringFits,
    NothingFits,
    NotSure,
    NotTogether,
    OutOfReach,
    OutsideTested,
    PackThatFits,
    SpringThatFits,
)
from dynoan.jobs.choose.ranking import ChosenPlan
from dynoan.model.car import Car
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Direction

#: a change of the springs smaller than this share is none
NO_CHANGE = 1e-9


@dataclass(frozen=True)
class Searched:
    """What was searched: a car's places, the packs at hand, the rules, and how a plan's clicks are counted."""

    car: Car
    groups: Sequence[Group]
    maps: Sequence[ClickMap]
    rules: Rules
    counted: Callable[[ChoicePlan], ChosenPlan]


def advise(search: Searched, ranked: Sequence[Sequence[ChoicePlan]], *, own: bool = True) -> tuple[Advice, ...]:
    """Return advice: for places without a fit what would fit, for the others what to be careful of.

    Parameters
    ----------
    search
        What was searched.
    ranked
        Best plans first: one list for all groups together, or one a group.
    own
        Whether the targets are the team's own: nobody buys springs or valves for what was proposed to begin with.
    """
    together = len(ranked) < len(search.groups)
    found: list[Advice] = []
    for number, ranking in enumerate(ranked):
        best = ranking[0]
        for choice in best.choices:
            found += _careful(search, choice)
        if not best.fits:
            missed = search if together else replace(search, groups=[search.groups[number]])
            found += _what_would_fit(missed, best) if own else [_nearest(c, search) for c in best.choices if not c.fits]
    return tuple(found)


def _careful(search: Searched, choice: PlaceChoice) -> Iterator[Advice]:
    click_map = next(m for m in search.maps if m.pack == choice.pack)
    named = [search.car.corners[name].shock for name in dict.fromkeys(r.corner for r in choice.reached)]
    untested = tuple(shock for shock in named if shock is not None and shock not in click_map.shocks)
    through = {one.shock: one.through for one in click_map.carried}
    for pack in dict.fromkeys(through.get(shock) for shock in untested):
        alike = tuple(shock for shock in untested if through.get(shock) == pack)
        yield NeverTested(choice.where, alike, choice.pack, pack)
    if choice.standing == "outside":
        yield OutsideTested(choice.where)
    if choice.fits and not choice.sure:
        yield NotSure(choice.where)


def _nearest(choice: PlaceChoice, search: Searched) -> NothingFits:
    worst = max(choice.reached, key=lambda r: abs(r.off))
    return NothingFits(choice.where, search.rules.tolerance, choice.miss, worst)


def _what_would_fit(search: Searched, best: ChoicePlan) -> Iterator[Advice]:
    places = {place.name: place for group in search.groups for place in group.places}
    slack = search.rules.tolerance
    for choice in (c for c in best.choices if not c.fits):
        yield _nearest(choice, search)
        yield from _out_of_reach(choice.where, reach(places[choice.where], search.maps, search.rules), slack)
        yield _pack(choice, slack)
    yield from _loosened(search)
    yield from _each_side_its_own(search)
    yield from _spring(search)


def _out_of_reach(where: str, found: Sequence[Reach], slack: float) -> list[Advice]:
    out: list[Advice] = []
    for r in found:
        if r.most < r.wanted * (1 - slack):
            out.append(OutOfReach(where, r, "most"))
        elif r.least > r.wanted * (1 + slack):
            out.append(OutOfReach(where, r, "least"))
    return out or [NotTogether(where)]


def _pack(choice: PlaceChoice, slack: float) -> PackThatFits:
    needs: dict[tuple[Direction, float], list[float]] = {}
    for r in choice.reached:
        if beyond(r.off, slack):
            needs.setdefault((r.wanted.direction, r.wanted.velocity), []).append(1 / (1 + r.off) - 1)
    return PackThatFits(choice.where, choice.pack,
                        tuple(ForceNeeded(d, v, sum(c) / len(c)) for (d, v), c in needs.items()))  # fmt: skip


def _loosened(search: Searched) -> Iterator[LimitInTheWay]:
    rules = search.rules
    looser: dict[tuple[str, ...], Rules] = {
        ("inside",): replace(rules, inside=False),
        ("within",): replace(rules, within=None),
    }
    if all(changed != rules for changed in looser.values()):  # dropping both says something new only where both are set
        looser |= {("inside", "within"): replace(rules, inside=False, within=None)}
    for limits, changed in looser.items():
        found = _first(search.groups, search, changed) if changed != rules else None
        if found is not None:
            yield LimitInTheWay(limits, search.counted(found))
            return


def _each_side_its_own(search: Searched) -> Iterator[EachSideItsOwn]:
    for group in search.groups:
        whole = group.places[0]
        if len(group.places) > 1 or len(whole.aims) < 2:
            continue
        sides = tuple(replace(whole, name=aim.corner.name, aims=(aim,)) for aim in whole.aims)
        found = _first([replace(group, places=sides)], search, search.rules)
        if found is not None:
            yield EachSideItsOwn(whole.name, search.counted(found))


def _first(groups: Sequence[Group], search: Searched, rules: Rules) -> ChoicePlan | None:
    try:
        best = plans(groups, search.maps, rules)[0]
    except CallError:
        return None
    return best if best.fits else None


def _spring(search: Searched) -> Iterator[Advice]:
    found = spring_that_fits(search.groups, search.maps, search.rules)
    if found is None:
        yield NoSpringFits(tuple(place.name for group in search.groups for place in group.places))
        return
    if abs(found.factor - 1) >= NO_CHANGE:
        rates = {aim.corner.spring for group in search.groups for place in group.places for aim in place.aims}
        yield SpringThatFits(found.factor, tuple(sorted(rates)), search.counted(found.plan))
