"""Settings ranked by how near their ratios come, with the clicks as each corner's shock counts them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from dynoan.analysis.choosing.aims import Group
from dynoan.analysis.choosing.choice import PlaceChoice
from dynoan.analysis.choosing.choose import ChoicePlan, plans
from dynoan.analysis.choosing.one_pack import Rules
from dynoan.analysis.corner.ratio_measures import SecantKey
from dynoan.jobs.choose.aims import RatioWish, groups
from dynoan.jobs.choose.limits import Limits
from dynoan.model.shock import Shock, clicks_text

if TYPE_CHECKING:
    from dynoan.model.car import Car
    from dynoan.model.clickmap import ClickMap
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class Chosen:
    """A setting for one place, and the shocks it goes on."""

    choice: PlaceChoice
    shocks: Mapping[str, Shock]  #: whose counting the clicks use, by corner

    @cached_property
    def clicks(self) -> dict[str, dict[str, int]]:
        """The clicks by corner, as each corner's shock counts."""
        return {name: shock.to_counted(self.choice.clicks) for name, shock in self.shocks.items()}

    @property
    def clicks_text(self) -> str:
        """The clicks as text; by corner where the shocks count differently."""
        if len({clicks_text(c) for c in self.clicks.values()}) == 1:
            return clicks_text(next(iter(self.clicks.values())))
        return "; ".join(f"{name} {clicks_text(c)}" for name, c in self.clicks.items())

    @property
    def per_click(self) -> dict[str, dict[SecantKey, float]]:
        """The change of each ratio by one click up, by adjuster, as the first corner's shock counts. [1]"""
        first = next(iter(self.shocks.values()))
        soft = {a.name for a in first.adjusters if a.counted == "from soft"}
        return {n: {k: -v if n in soft else v for k, v in per.items()} for n, per in self.choice.sensitivity.items()}


@dataclass(frozen=True)
class ChosenPlan:
    """A setting for each of several places that depend on one another."""

    choices: tuple[Chosen, ...]

    @property
    def fits(self) -> bool:
        """Whether every place keeps every wanted ratio within the tolerance."""
        return all(chosen.choice.fits for chosen in self.choices)


def rank(
    places: Sequence[Group], maps: Sequence[ClickMap], rules: Rules, *, once: bool
) -> list[tuple[ChoicePlan, ...]]:
    """Return ranked plans: one list for all groups where packs are there only once, else one a group.

    Raises
    ------
    CallError
        If no pack may be used, or there are fewer packs than groups that may not share one.
    """
    return [plans(places, maps, rules)] if once else [plans([group], maps, rules) for group in places]


def counted_plan(bench: Workbench, car: Car, plan: ChoicePlan) -> ChosenPlan:
    """Return a plan with the shocks its settings go on."""
    return ChosenPlan(tuple(Chosen(choice, _shocks(bench, car, choice)) for choice in plan.choices))


def _shocks(bench: Workbench, car: Car, choice: PlaceChoice) -> dict[str, Shock]:
    names = dict.fromkeys(r.corner for r in choice.reached)
    return {name: bench.corner_shock(car.corners[name], choice.pack) for name in names}


def best_settings(bench: Workbench, car: Car, maps: Sequence[ClickMap], count: int) -> tuple[Chosen, ...]:
    """Return the `count` settings ranked highest for each axle that the car's file sets targets for, best first.

    Raises
    ------
    CallError
        If no pack may be used.
    """
    if not car.targets:
        return ()
    wanted = groups(bench, car, RatioWish())
    ranked = rank(wanted, maps, Limits(count=count).rules, once=False)
    corners = {p.name: [a.corner for a in p.aims] for group in wanted for p in group.places}

    def chosen(choice: PlaceChoice) -> Chosen:
        return Chosen(choice, {c.name: bench.corner_shock(c, choice.pack) for c in corners[choice.where]})

    return tuple(chosen(choice) for plans_here in ranked for plan in plans_here for choice in plan.choices)
