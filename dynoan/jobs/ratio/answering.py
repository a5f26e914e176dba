"""What the corners of a car are, and the damping ratios they have."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.corner.balance import Balance, balance, linearised_modes
from dynoan.analysis.corner.car_modes import CarModes
from dynoan.analysis.corner.rates import corner_rates
from dynoan.analysis.corner.ratio_measures import CornerRatios, DirectionRatios, SwingMotion
from dynoan.analysis.corner.ratios import corner_ratios, direction_ratios, without_bands
from dynoan.analysis.corner.rough_road import RoadMotion, road_motion
from dynoan.errors import CallError, QuantityError
from dynoan.jobs.answering import Answer
from dynoan.jobs.car_spread import car_ends, widened_ratios
from dynoan.jobs.cars import doubted, untold_of
from dynoan.jobs.measures import as_dict
from dynoan.jobs.ratio.asked import RatioQuestion, motion_of, velocities
from dynoan.jobs.ratio.figures import CORNER, CornerFound, corner_dict, flat_ratios, modes_dict
from dynoan.model.car import Car, Corner, axle_of
from dynoan.model.curve import Curve, Direction
from dynoan.units import enumerated

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class RatioAnswer(Answer):
    """What `ratio` found of a car, by corner: "fl", "fr", "rl", "rr"."""

    job: ClassVar[str] = "ratio"
    question: RatioQuestion
    car: Car
    corners: Mapping[str, CornerFound]
    balance: Balance
    modes: CarModes | None  #: None where the car's file lacks what they need
    #: the car at both ends of each of its uncertain values, for an answer of the same car with other clicks
    ends: Mapping[str, tuple[Car, Car]] = field(default_factory=dict, repr=False, compare=False)
    doubts: tuple[str, ...] = field(default=(), repr=False, compare=False)  #: of the car's file, whatever the clicks

    @property
    def ratios(self) -> dict[str, CornerRatios]:
        """The damping ratios of the corners that have a pack."""
        return {n: c.ratios for n, c in self.corners.items() if c.ratios is not None}

    @property
    def curves(self) -> dict[str, Curve]:
        """The curves on the corners that have a pack."""
        return {n: c.curve for n, c in self.corners.items() if c.curve is not None}

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan ratio --json`` prints it."""
        b = self.balance
        return {
            "car": self.car.name,
            "corners": {name: corner_dict(found) for name, found in self.corners.items()},
            "balance": {
                "front_rear": nested(b.front_rear),
                "left_right": {a: nested({k[1:]: v for k, v in b.left_right.items() if k[0] == a}) for a in _AXLES},
                "rebound_compression": nested(b.rebound_compression),
            },
            "modes": None if self.modes is None else modes_dict(self.modes),
        }

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a corner."""
        return [{"corner": name} | as_dict(CORNER, c) | flat_ratios(c) for name, c in self.corners.items()]


_AXLES = ("front", "rear")


def answer(bench: Workbench, question: RatioQuestion) -> RatioAnswer:
    """Return rates, curves, ratios and modes of a car, with warnings for what cannot be told.

    Raises
    ------
    LookupFault
        If the library knows no such car.
    QuantityError
        If the car's file lacks a mass, a spring or a motion ratio, or a surface its roughness.
    CallError
        If the low velocity is not below the high one, or the car has no such surface.
    """
    return answer_for(bench, bench.library.car(question.car), question)


def answer_for(
    bench: Workbench, car: Car, question: RatioQuestion, known: RatioAnswer | None = None
) -> RatioAnswer:  # fmt: skip
    """Return the same of a car at hand, such as one of a setup.

    Parameters
    ----------
    known
        Of the same library, answered before: where that car differs in packs and clicks alone, the corners that do not
        differ are taken over, which a page that turns one click after the other does not wait for.
    """
    said: list[str] = []
    kept = {} if known is None else _untouched(known, car, question)
    curves: dict[str, Curve] = {}
    for name, corner in car.corners.items():
        curve = kept[name].curve if name in kept else corner_curve(bench, car, corner)
        said += _of_curve(car, corner, curve)
        if curve is not None:
            curves[name] = curve
    same = known if known is not None and _but_clicks(known.car) == _but_clicks(car) else None
    ends, doubts = (None, tuple(doubted(car))) if same is None else (same.ends, same.doubts)
    found = answer_with(car, curves, question, {n: c.ratios for n, c in kept.items() if c.ratios is not None}, ends)
    told = (*doubts, *untold_of(bench, car), *said, *found.warnings)
    return replace(found, doubts=doubts, warnings=told)


def _untouched(known: RatioAnswer, car: Car, question: RatioQuestion) -> dict[str, CornerFound]:
    """Return the corners of an answer that hold for another car too."""
    if question != known.question or question.surface is not None or _but_clicks(known.car) != _but_clicks(car):
        return {}
    return {n: known.corners[n] for n, corner in car.corners.items() if corner == known.car.corners[n]}


def _but_clicks(car: Car) -> Car:
    return replace(car, corners={n: replace(c, pack=None, clicks={}) for n, c in car.corners.items()})


def answer_with(
    car: Car, curves: Mapping[str, Curve], question: RatioQuestion,
    kept: Mapping[str, CornerRatios] = MappingProxyType({}), ends: Mapping[str, tuple[Car, Car]] | None = None,
) -> RatioAnswer:  # fmt: skip
    """Return the same of a car and the curves on its corners; a corner without one has rates and no ratios.

    Parameters
    ----------
    kept
        Ratios of corners that need not be reckoned again.
    ends
        `car_ends` of the car, where they are at hand.
    """
    said: list[str] = []
    ends = car_ends(car) if ends is None else ends
    fresh = {n: curve for n, curve in curves.items() if n not in kept}
    made = {**kept, **_ratios(car, fresh, question, ends)}
    ratios = {n: made[n] for n in curves}
    said += _beyond(ratios)
    corners = {
        n: CornerFound(made[n].rates if n in made else corner_rates(corner), ratios.get(n), curves.get(n))
        for n, corner in car.corners.items()
    }
    modes = _modes(car, ratios, said)
    return RatioAnswer(question, car, corners, balance(ratios), modes, ends, warnings=tuple(said))


def corner_curve(bench: Workbench, car: Car, corner: Corner) -> Curve | None:
    """Return the curve of what is on a corner; None where the car's file names no pack."""
    return None if corner.pack is None else bench.corner_curve(car, corner)


def _of_curve(car: Car, corner: Corner, curve: Curve | None) -> list[str]:
    if curve is None:
        return [f"{car.file or car.name}: {corner.name}.pack is missing, so its damping ratios are left out; "
                'write it like pack = "gravel"']  # fmt: skip
    if curve.standing != "outside":
        return []
    return [
        f"{corner.name}: {curve.what} lies outside the tested clicks; its ratios are a guess, the worse the farther"
    ]


def _road(car: Car, curves: Mapping[str, Curve], question: RatioQuestion) -> dict[str, RoadMotion] | None:
    """Return what the shocks see on the surface asked for, by corner."""
    name, speed = question.surface, question.speed
    if name is None or speed is None:
        return None
    if name not in car.surfaces:
        have = ", ".join(car.surfaces) or "none"
        raise CallError(f"{car.file or car.name} has no surface '{name}'", hint=f"it has {have}")
    if car.surfaces[name].roughness <= 0:
        raise QuantityError(
            f"surfaces.{name}.roughness is missing", where=car.file or car.name, hint='write a class such as "C"'
        )
    return road_motion(car.corners, curves, roughness=car.surfaces[name].roughness, speed=speed)


def _ratios(
    car: Car, curves: Mapping[str, Curve], question: RatioQuestion, ends: Mapping[str, tuple[Car, Car]]
) -> dict[str, CornerRatios]:
    road = _road(car, curves, question)
    out = {}
    for name, curve in curves.items():
        at = velocities(car, axle_of(name), question.low, question.high)
        motion = motion_of(car, question)
        if road is not None:
            motion = replace(motion, sigma=road[name].sigma, speeds=road[name].speeds)
        sides = partial(_sides, without_bands(curve), at, motion)  # once, not for each end of each ±
        out[name] = widened_ratios(corner_ratios(car.corners[name], curve, *at, motion), ends, sides)
    return out


def _sides(
    curve: Curve, at: tuple[float, float], motion: SwingMotion, corner: Corner
) -> dict[Direction, DirectionRatios]:
    return direction_ratios(corner, curve, *at, motion, bands=False)


def _beyond(ratios: Mapping[str, CornerRatios]) -> list[str]:
    """Return which ratios lie beyond the measured speeds, corners of which the same is to be said in one line."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for name, found in ratios.items():
        beyond = tuple(f"{d} {at}" for (d, at), banded in found.secants().items() if banded.extrapolated)
        alike.setdefault(beyond, []).append(name)
    return [
        f"{', '.join(names)}: {enumerated(beyond)} {'lies' if len(beyond) == 1 else 'lie'} beyond the measured speeds; "
        f"{'that value is' if len(beyond) == 1 else 'those values are'} extrapolated"
        for beyond, names in alike.items() if beyond
    ]  # fmt: skip


def _modes(car: Car, ratios: Mapping[str, CornerRatios], said: list[str]) -> CarModes | None:
    try:
        return linearised_modes(car, ratios)
    except QuantityError as error:
        said.append(str(error))
        return None


def nested(flat: Mapping[Any, float]) -> dict[str, dict[str, float]]:
    """Return values by a pair of names as values by the first, then the second. [as given]"""
    out: dict[str, dict[str, float]] = {}
    for (outer, inner), value in flat.items():
        out.setdefault(outer, {})[inner] = value
    return out
