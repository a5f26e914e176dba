"""The holes of a driven axle's links side by side: instant centre, anti-squat over travel, and the launch of each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np

from dynoan.analysis.launch.assumptions import FARTHEST, WHEEL_RADIUS
from dynoan.analysis.launch.links import LinkTravel, follow, runs_away
from dynoan.errors import CallError, QuantityError
from dynoan.jobs.answering import Answer
from dynoan.jobs.assumptions import SEPARATION
from dynoan.jobs.launch.answering import Watch, unwatched
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.measures import Measure, as_dict
from dynoan.jobs.what_if.answering import MOST_CASES, WhatCase, WhatIfAnswer, WhatIfQuestion
from dynoan.jobs.what_if.answering import answer as what_if
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Car
from dynoan.model.links import Links

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class HolesQuestion:
    """Which car's holes, and on which launch to compare them."""

    launch: LaunchQuestion


@dataclass(frozen=True)
class HoleFound:
    """One choice of holes."""

    label: str
    holes: Mapping[str, str]  #: by link
    now: bool  #: whether it is the one on the car
    links: LinkTravel
    antisquat: FloatArray  #: at each travel of `links`, 1 is 100 %
    away: bool  #: whether the instant centre runs away within the travel

    def at(self, separation: float) -> float:
        """Return the anti-squat where body and axle are so much further apart than at rest. [1]"""
        return float(np.interp(-separation, self.links.travel, self.antisquat))


@dataclass(frozen=True)
class HolesAnswer(Answer):
    """Every choice of holes, the one on the car first, and the launch with each."""

    job: ClassVar[str] = "holes"
    question: HolesQuestion
    car: Car
    holes: tuple[HoleFound, ...]
    launches: WhatIfAnswer | None  #: None where the car has one hole a link

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan launch --holes --json`` prints it."""
        found = [
            {"label": h.label, "holes": dict(h.holes), "now": h.now, **as_dict(HOLE, h), "runs_away": h.away,
             "travel_m": h.links.travel, "antisquat": h.antisquat}
            for h in self.holes
        ]  # fmt: skip
        return {"holes": found, "launches": None if self.launches is None else self.launches.to_dict()}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a choice of holes."""
        return [{"label": h.label, "now": h.now} | as_dict(HOLE, h) for h in self.holes]


def _centre(values: FloatArray, h: HoleFound) -> float | None:
    at = float(np.interp(0.0, h.links.travel, values))
    return at if np.isfinite(at) else None


#: the figures of a choice of holes; a new one is a line here
HOLE: tuple[Measure[HoleFound], ...] = (
    Measure("centre_ahead_m", "instant centre ahead", lambda h: _centre(h.links.centre_ahead, h), "length"),
    Measure("centre_up_m", "above ground", lambda h: _centre(h.links.centre_up, h), "length"),
    Measure("slope", "slope of the line", lambda h: h.links.at_rest(h.links.slope), digits=3),
    Measure("antisquat_apart", "anti-squat, body up", lambda h: h.at(SEPARATION), percent=True),
    Measure("antisquat_rest", "at ride height", lambda h: h.at(0.0), percent=True),
    Measure("antisquat_close", "body down", lambda h: h.at(-SEPARATION), percent=True),
)


def answer(bench: Workbench, question: HolesQuestion, watch: Watch = unwatched) -> HolesAnswer:
    """Return every choice of holes of a car's links, and its launch with each.

    Raises
    ------
    QuantityError
        If the car's file has no links, or they are no linkage.
    CallError
        If there are more choices than can be laid side by side.
    LookupFault
        If the library knows no such car or pack.
    """
    car = bench.library.car(question.launch.car)
    if car.links is None:
        raise QuantityError(
            "links is missing, and holes are of links",
            where=car.file or car.name,
            hint=(
                'write [links] with lower = { axle = ["0 mm", "240 mm"], body = [["520 mm", "250 mm"], ["520 '
                'mm", "275 mm"]] } and upper likewise'
            ),
        )
    now = {name: link.hole for name, link in car.links.members.items()}
    choices = [dict(zip(now, holes, strict=True)) for holes in product(*(m.body for m in car.links.members.values()))]
    choices.sort(key=lambda one: one != now)
    if len(choices) > MOST_CASES:
        raise CallError(
            f"{len(choices)} choices of holes", hint=f"at most {MOST_CASES} stand side by side: leave some out"
        )
    holes = tuple(_found(car, car.links, one, now) for one in choices)
    cases = tuple(
        WhatCase(tuple((f"links.{n}", h) for n, h in one.items()), label=_label(one, now)) for one in choices[1:]
    )
    launches = what_if(bench, WhatIfQuestion(question.launch, cases), watch) if cases else None
    told = () if launches is None else launches.warnings
    return HolesAnswer(question, car, holes, launches, warnings=told)


def _label(one: Mapping[str, str], now: Mapping[str, str]) -> str:
    words = [f"{name} {hole}" for name, hole in one.items() if hole != now[name]]
    return ", ".join(words) or "as it is"


def _found(car: Car, links: Links, one: Mapping[str, str], now: Mapping[str, str]) -> HoleFound:
    for name, hole in one.items():
        links = links.with_hole(name, hole)
    axle = car.axle("front" if car.driven == "front" else "rear")
    bump, droop = (
        min([FARTHEST, *(v for c in axle if (v := getattr(c, key)) is not None)])
        for key in ("bump_travel", "droop_travel")
    )
    found = follow(links, car.wheel_radius or WHEEL_RADIUS, bump=bump, droop=droop)
    if car.wheelbase is None or car.cg_height is None:
        raise QuantityError("wheelbase and cg_height are needed for anti-squat", where=car.file or car.name)
    squat = found.antisquat(wheelbase=car.wheelbase, height=car.cg_height)
    return HoleFound(_label(one, now), one, one == dict(now), found, squat, runs_away(found, car.wheelbase))
