"""What to be careful of in a choice, and what would fit where nothing does: data, from which doors make sentences."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from dynoan.analysis.choosing.advice import Reach, reach, spring_that_fits
from dynoan.analysis.choosing.aims import Group
from dynoan.analysis.choosing.choice import PlaceChoice, Reached, beyond
from dynoan.analysis.choosing.choose import ChoicePlan, Rules, plans
from dynoan.errors import CallError
from dynoan.jobs.choose.ranking import ChosenPlan
from dynoan.model.car import Car, Targets
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Direction

#: a change of the springs smaller than this share is none
NO_CHANGE = 1e-9


@dataclass(frozen=True)
class NeverTested:
    """Shocks that were never on the rig with the pack."""

    where: str
    shocks: tuple[str, ...]
    pack: str
    through: str | None = None  #: the pack by which they are known; None where they are taken for the mean shock


@dataclass(frozen=True)
class OutsideTested:
    """The clicks lie outside what was tested."""

    where: str


@dataclass(frozen=True)
class NotSure:
    """Every ratio fits, but not at the limits of its band."""

    where: str


@dataclass(frozen=True)
class NothingFits:
    """Nothing at hand keeps every ratio within the tolerance."""

    where: str
    tolerance: float  #: share
    miss: float  #: of the best there is, share
    worst: Reached  #: the ratio that is off most


@dataclass(frozen=True)
class OutOfReach:
    """A wanted ratio that no click of any pack reaches."""

    where: str
    reach: Reach
    end: Literal["most", "least"]  #: which end of the reach stands in the way


@dataclass(frozen=True)
class NotTogether:
    """Each ratio can be had alone, but not all together."""

    where: str


@dataclass(frozen=True)
class ForceNeeded:
    """How much more force, at one velocity, would give the wanted ratio."""

    direction: Direction
    velocity: float  #: at the shock, a magnitude [m/s]
    more: float  #: share of the force there is; negative for less


@dataclass(frozen=True)
class PackThatFits:
    """How the force of a pack that fits would differ from that of the best one at its clicks."""

    where: str
    pack: str
    needs: tuple[ForceNeeded, ...]


@dataclass(frozen=True)
class LimitInTheWay:
    """The limits of the search without which there is a fit."""

    limits: tuple[str, ...]  #: parts of the question
    plan: ChosenPlan


@dataclass(frozen=True)
class SpringThatFits:
    """Springs with which something at hand would fit."""

    factor: float  #: on the rate of all of them
    rates: tuple[float, ...]  #: that there are now [N/m]
    plan: ChosenPlan


@dataclass(frozen=True)
class NoSpringFits:
    """No springs of any rate bring a fit, all rates changed by one factor: every rate that could was looked for."""

    where: tuple[str, ...]  #: the places that were looked at together


@dataclass(frozen=True)
class ProposedTargets:
    """Targets for an axle whose file has none, and where they come from."""

    axle: str
    targets: Targets
    smoothest: float | None  #: ratio of least body acceleration on a random road; None without a tyre rate
    steadiest: float | None  #: ratio of least swing of the tyre load
    surface: str = ""  #: that they are for; "" for none
    swing: float | None = (
        None  #: by what share of its load the road swings the tyre's there, at the steadiest ratio [1]
    )
    middle: float | None = None  #: ratio between compression and rebound at the low velocity
    replaces: bool = False  #: whether the file has targets of its own, which hold for no surface


Advice = (
    ProposedTargets | NeverTested | OutsideTested | NotSure | NothingFits | OutOfReach | NotTogether | PackThatFits
    | LimitInTheWay | SpringThatFits | NoSpringFits
)  # fmt: skip


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
        found = _first(search, changed) if changed != rules else None
        if found is not None:
            yield LimitInTheWay(limits, search.counted(found))
            return


def _first(search: Searched, rules: Rules) -> ChoicePlan | None:
    try:
        best = plans(search.groups, search.maps, rules)[0]
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
