"""The clicks that keep the damping ratios after a change to the car."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.choosing.carry import Carried, Moved, carry
from dynoan.analysis.corner.ratio_measures import SECANTS
from dynoan.cautions import CAUTIONS
from dynoan.jobs.answering import Answer
from dynoan.jobs.car_spread import OF_RATIO, ratio_spread
from dynoan.jobs.carry.found import CarriedCornerFound, CarriedCurves, CarriedPlace, place_dict, ratio_row
from dynoan.jobs.cars import doubted
from dynoan.jobs.choose.limits import Limits, packs_at_hand
from dynoan.jobs.choose.ranking import Chosen
from dynoan.jobs.ratio.asked import shock_velocity, velocities
from dynoan.jobs.said_once import once
from dynoan.model.car import AXLES, Car, Corner
from dynoan.model.shock import clicks_text

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class CarryQuestion:
    """Which two cars, at which velocities of the shock, and what may be used."""

    car: str  #: as it is now: a name in the library, or a car file's path
    other: str  #: the car after the change
    low: float | None = None  #: [m/s]; None: the targets' own, else 0.05
    high: float | None = None  #: [m/s]; None: the targets' own, else 0.25
    per_corner: bool = False  #: each corner its own clicks, even where left and right are set alike now
    limits: Limits = field(default_factory=Limits)  #: no packs named: the one on the other car

    @classmethod
    def asked(
        cls, car: str, other: str, limits: Limits | None = None, *, low: float | str | None = None,
        high: float | str | None = None, per_corner: bool = False,
    ) -> CarryQuestion:  # fmt: skip
        """Return the question from values as people give them: velocities in m/s, or text with a unit.

        Raises
        ------
        QuantityError
            If a velocity is none.
        """
        slow, fast = (None if v is None else shock_velocity(v, p) for v, p in ((low, "low"), (high, "high")))
        return cls(car, other, slow, fast, per_corner, limits or Limits())


@dataclass(frozen=True)
class CarryAnswer(Answer):
    """The settings that keep the ratios of a car on the car after a change."""

    job: ClassVar[str] = "carry"
    question: CarryQuestion
    car: Car
    other: Car
    places: tuple[CarriedPlace, ...]
    curves: Callable[[], tuple[CarriedCurves, ...]] = field(default=tuple, compare=False, repr=False)

    @property
    def corners(self) -> tuple[CarriedCornerFound, ...]:
        """All corners, front left first."""
        return tuple(corner for place in self.places for corner in place.corners)

    @property
    def kept(self) -> bool:
        """Whether every ratio is kept within the tolerance."""
        return all(place.chosen.choice.fits for place in self.places)

    @property
    def no(self) -> bool:
        """Whether a ratio is lost."""
        return not self.kept

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan carry --json`` prints it."""
        return {
            "carried": [place_dict(place) for place in self.places],
            "kept": self.kept,
            "tolerance": self.question.limits.tolerance,
            "cautions": CAUTIONS,
        }

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a ratio of a corner."""
        return [ratio_row(corner, key) for corner in self.corners for key in SECANTS]


def answer(bench: Workbench, question: CarryQuestion) -> CarryAnswer:
    """Return the clicks on the car after a change that keep the damping ratios the car has now.

    Both sides of an axle get the same clicks where they are set alike now.

    Raises
    ------
    LookupFault
        If the library knows no such car or pack.
    QuantityError
        If a car's file lacks a mass, a spring or a motion ratio, or the first car's a pack or its clicks.
    CallError
        If the low velocity is not below the high one, or no pack may be used.
    """
    found = answer_between(bench, bench.library.car(question.car), bench.library.car(question.other), question)
    if question.car != question.other:
        return found
    same = f"{question.car} is both the car before and the one after: name the file of the car as it is changed"
    return replace(found, warnings=(*found.warnings, same))


def answer_between(bench: Workbench, car: Car, other: Car, question: CarryQuestion) -> CarryAnswer:
    """Return the same of two cars that may stand in no file. Errors as of `answer`."""
    job = _Carrying(bench, car, other, question)
    places = tuple(place for axle in AXLES for place in job.axle(axle))
    return CarryAnswer(question, car, other, places, partial(_curves, job, places),
                       warnings=once([*doubted(car), *doubted(other)]))  # fmt: skip


def _curves(job: _Carrying, places: Sequence[CarriedPlace]) -> tuple[CarriedCurves, ...]:
    """Return the curves of each place's first corner."""
    out = []
    for place in places:
        first = place.corners[0]
        pack = place.chosen.choice.pack
        carried = job.bench.corner_curve(job.other, first.after, clicks=first.clicks, pack=pack)
        was = job.bench.corner_curve(job.car, first.before)
        out.append(CarriedCurves(place.chosen.choice.where, first.before, was, first.after, carried))
    return tuple(out)


@dataclass(frozen=True)
class _Carrying:
    bench: Workbench
    car: Car
    other: Car
    question: CarryQuestion

    def axle(self, axle: str) -> list[CarriedPlace]:
        """Return the places of an axle: itself, or its corners where they cannot share clicks."""
        at = velocities(self.car, axle, self.question.low, self.question.high)
        moved = [self._moved(corner, self.other.corners[corner.name]) for corner in self.car.axle(axle)]
        alike = len({(m.before.pack, clicks_text(m.before.clicks)) for m in moved}) == 1
        one_pack = len({m.after.pack for m in moved}) == 1
        together = alike and one_pack and not self.question.per_corner
        parts = [(axle, moved)] if together else [(m.after.name, [m]) for m in moved]
        return [self._place(name, part, at) for name, part in parts]

    def _moved(self, before: Corner, after: Corner) -> Moved:
        curve = self.bench.corner_curve(self.car, before, pieces=False)
        spread, own = self._spread(before, after), ratio_spread(self.other, after.name)
        if after.pack is None:
            return Moved(before, curve, after, None, spread=spread, own=own)
        shock = self.bench.corner_shock(after, after.pack)
        last = {a.name: a.clicks for a in shock.adjusters} if shock.stated else None
        now = shock.to_closed(after.clicks) if after.clicks else None
        return Moved(
            before, curve, after, self.bench.corner_curve(self.other, after, pieces=False), now, last, spread, own
        )

    def _spread(self, before: Corner, after: Corner) -> float:
        """Return how unsure the change of a ratio is: a value that both cars share is off by the same on both."""
        corner_key = {"axle_mass": "mass"}
        same = tuple(k for k in OF_RATIO if len({getattr(c, corner_key.get(k, k)) for c in (before, after)}) == 1)
        return math.hypot(*(ratio_spread(car, after.name, without=same) for car in (self.car, self.other)))

    def _place(self, name: str, moved: Sequence[Moved], at: tuple[float, float]) -> CarriedPlace:
        limits, on_it = self.question.limits, moved[0].after.pack
        packs = packs_at_hand(self.bench, limits.packs or ((on_it,) if on_it else ()))
        maps = list(self.bench.click_maps(packs).values())
        return self._counted(
            carry(name, moved, maps, replace(limits.rules, stay=0.0), at), {m.after.name: m.before for m in moved}
        )

    def _counted(self, carried: Carried, before: Mapping[str, Corner]) -> CarriedPlace:
        choice = carried.choice
        shocks = {c.name: self.bench.corner_shock(self.other.corners[c.name], choice.pack) for c in carried.corners}
        chosen = Chosen(choice, shocks)
        return CarriedPlace(
            chosen,
            tuple(CarriedCornerFound(before[c.name], self.other.corners[c.name], chosen, c) for c in carried.corners),
        )
