"""What the corners of a car are, and the damping ratios they have."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.corner.balance import Balance, balance, linearised_modes
from dynoan.analysis.corner.modes import CarModes, Mode
from dynoan.analysis.corner.rates import CornerRates, corner_rates
from dynoan.analysis.corner.ratios import CornerRatios, DirectionRatios, SwingMotion, corner_ratios
from dynoan.analysis.corner.rough_road import RoadMotion, road_motion
from dynoan.errors import CallError, QuantityError
from dynoan.jobs.answering import Answer, quantity
from dynoan.jobs.car_spread import widened_ratios
from dynoan.jobs.cars import said_of
from dynoan.jobs.measures import Measure, as_dict
from dynoan.model.banded import Banded
from dynoan.model.car import Car, Corner, Targets, axle_of
from dynoan.model.curve import DIRECTIONS, Curve

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

FASTEST = 10.0  #: what may be asked about at a shock [m/s]; common practice, no source


@dataclass(frozen=True)
class RatioQuestion:
    """Which car, at which velocities and motions. Velocities are of the shock."""

    car: str  #: a name in the library, or a car file's path
    low: float | None = None  #: [m/s]; None: the targets' own, else 0.05
    high: float | None = None  #: [m/s]; None: the targets' own, else 0.25
    motion: SwingMotion = field(default_factory=SwingMotion)
    surface: str | None = None  #: of the car's file: sigma follows from its roughness and the speed
    speed: float | None = None  #: of the car on that surface [m/s]

    @classmethod
    def asked(
        cls, car: str, *, low: float | str | None = None, high: float | str | None = None,
        body_amplitude: float | str | None = None, hop_amplitude: float | str | None = None,
        sigma: float | str | None = None, surface: str | None = None, speed: float | str | None = None,
    ) -> RatioQuestion:  # fmt: skip
        """Return the question from values as people give them: SI numbers, or text with a unit.

        Raises
        ------
        QuantityError
            If a value is no such quantity, or impossible.
        CallError
            If surface and speed do not stand together, or beside a sigma.
        """
        if (surface is None) != (speed is None) or (surface is not None and sigma is not None):
            raise CallError("surface and speed go together, and without sigma, which follows from them", need="surface")
        usual = SwingMotion()
        motion = SwingMotion(
            usual.body_amplitude if body_amplitude is None else _amplitude(body_amplitude, "body_amplitude"),
            usual.hop_amplitude if hop_amplitude is None else _amplitude(hop_amplitude, "hop_amplitude"),
            usual.sigma if sigma is None else shock_velocity(sigma, "sigma"),
        )
        return cls(
            car, None if low is None else shock_velocity(low, "low"),
            None if high is None else shock_velocity(high, "high"), motion, surface,
            None if speed is None else quantity(speed, "velocity", "speed"),
        )  # fmt: skip


def _amplitude(value: float | str, part: str) -> float:
    found = quantity(value, "length", part)
    if not 0 < found < math.inf:
        raise QuantityError(f"must be a finite length above zero, found {value}", part=part)
    return found


def shock_velocity(value: float | str, part: str) -> float:
    """Return a velocity of a shock from a number in m/s or text with a unit. [m/s]

    Raises
    ------
    QuantityError
        If it is neither, or not between zero and 10 m/s.
    """
    found = quantity(value, "velocity", part, bare=True)
    if not 0 < found < FASTEST:
        raise QuantityError(f"{value} is no speed of a shock; write it like 0.05 (m/s) or '2 in/s'", part=part)
    return found


@dataclass(frozen=True)
class CornerFound:
    """One corner: what it is, and the ratios it has where a pack is on it."""

    rates: CornerRates
    ratios: CornerRatios | None = None
    curve: Curve | None = None


@dataclass(frozen=True)
class SideFound:
    """One direction of one corner."""

    corner: CornerRatios
    side: DirectionRatios


@dataclass(frozen=True)
class RatioAnswer(Answer):
    """What `ratio` found of a car, by corner: "fl", "fr", "rl", "rr"."""

    job: ClassVar[str] = "ratio"
    question: RatioQuestion
    car: Car
    corners: Mapping[str, CornerFound]
    balance: Balance
    modes: CarModes | None  #: None where the car's file lacks what they need

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
            "corners": {name: _corner_dict(found) for name, found in self.corners.items()},
            "balance": {
                "front_rear": nested(b.front_rear),
                "left_right": {a: nested({k[1:]: v for k, v in b.left_right.items() if k[0] == a}) for a in _AXLES},
                "rebound_compression": nested(b.rebound_compression),
            },
            "modes": None if self.modes is None else _modes_dict(self.modes),
        }

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a corner."""
        return [{"corner": name} | as_dict(CORNER, c) | _flat_ratios(c) for name, c in self.corners.items()]


_AXLES = ("front", "rear")


def _of(get: Callable[[CornerRatios], float | None]) -> Callable[[CornerFound], float | None]:
    return lambda c: None if c.ratios is None else get(c.ratios)


#: the figures of a corner; a new one is a line here
CORNER: tuple[Measure[CornerFound], ...] = (
    Measure("wheel_rate_n_m", "wheel rate", lambda c: c.rates.wheel_rate, "stiffness"),
    Measure("ride_rate_n_m", "with tyre", lambda c: c.rates.ride_rate, "stiffness", terminal="never", report=False),
    Measure("sprung_mass_kg", "sprung", lambda c: c.rates.sprung, "mass"),
    Measure("ride_frequency_hz", "ride", lambda c: c.rates.frequency, unit="Hz"),
    Measure("ride_frequency_with_tyre_hz", "with tyre", lambda c: c.rates.tyre_frequency, unit="Hz"),
    Measure("hop_frequency_hz", "hop", lambda c: c.rates.hop_frequency, unit="Hz", digits=1),
    Measure("static_deflection_m", "sinks", lambda c: c.rates.deflection, "length"),
    Measure("critical_damping_wheel_n_s_m", "critical at wheel", lambda c: c.rates.critical_wheel, "damping"),
    Measure("critical_damping_shock_n_s_m", "at shock", lambda c: c.rates.critical_shock, "damping"),
    Measure("overshoot", "goes past rest by", _of(lambda r: r.overshoot), percent=True, terminal="more",
            report=False),
    Measure("friction_adds", "friction adds", _of(lambda r: r.friction), digits=3, terminal="more", report=False),
    Measure("mean_force_n", "mean force in body swing", _of(lambda r: r.mean_force), "force", terminal="more",
            report=False),
    Measure("smoothest_ride_ratio", "smoothest ride at", lambda c: c.rates.comfort, terminal="more", report=False),
    Measure("steadiest_load_ratio", "steadiest tyre load at", lambda c: c.rates.grip, terminal="more", report=False),
)  # fmt: skip
#: the damping ratios of a direction; a new one is a line here
DIRECTION: tuple[Measure[SideFound], ...] = (
    Measure("low", "low", lambda s: s.side.low),
    Measure("high", "high", lambda s: s.side.high),
    Measure("tangent_low", "slope low", lambda s: s.side.tangent_low),
    Measure("tangent_high", "slope high", lambda s: s.side.tangent_high),
    Measure("body", "body swing", lambda s: s.side.body),
    Measure("hop", "wheel hop", lambda s: s.side.hop),
    Measure("random", "rough road", lambda s: s.side.random),
)


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


def answer_for(bench: Workbench, car: Car, question: RatioQuestion) -> RatioAnswer:
    """Return the same of a car at hand, such as one of a setup."""
    said: list[str] = []
    curves = {n: c for n, corner in car.corners.items() if (c := corner_curve(bench, car, corner, said)) is not None}
    found = answer_with(car, curves, question)
    return replace(found, warnings=(*said_of(bench, car), *said, *found.warnings))


def answer_with(car: Car, curves: Mapping[str, Curve], question: RatioQuestion) -> RatioAnswer:
    """Return the same of a car and the curves on its corners; a corner without one has rates and no ratios."""
    said: list[str] = []
    road = _road(car, curves, question)
    ratios = {n: _ratios(car, n, curve, question, road) for n, curve in curves.items()}
    said += [text for n, found in ratios.items() for text in _beyond(n, found)]
    corners = {n: CornerFound(corner_rates(corner), ratios.get(n), curves.get(n)) for n, corner in car.corners.items()}
    modes = _modes(car, ratios, said)
    return RatioAnswer(question, car, corners, balance(ratios), modes, warnings=tuple(said))


def corner_curve(bench: Workbench, car: Car, corner: Corner, said: list[str]) -> Curve | None:
    """Return the curve of what is on a corner; None, with a warning in `said`, where the car's file names no pack."""
    if corner.pack is None:
        said.append(
            f"{car.file or car.name}: {corner.name}.pack is missing, so its damping ratios are left out; "
            'write it like pack = "gravel"'
        )
        return None
    curve = bench.corner_curve(car, corner)
    if curve.standing == "outside":
        said.append(
            f"{corner.name}: {curve.what} lies outside the tested clicks; its ratios are a guess, the worse the farther"
        )
    return curve


def velocities(car: Car, axle: str, low: float | None, high: float | None) -> tuple[float, float]:
    """Return the low and the high velocity: as asked for, else of the axle's targets. [m/s]

    Raises
    ------
    CallError
        If the low is not below the high.
    """
    usual = car.targets.get(axle, Targets())
    slow = usual.low_velocity if low is None else low
    fast = usual.high_velocity if high is None else high
    if not slow < fast:
        raise CallError(
            f"the low velocity ({slow:g} m/s) must lie below the high one ({fast:g} m/s)", need="velocities"
        )
    return slow, fast


def _road(car: Car, curves: Mapping[str, Curve], question: RatioQuestion) -> dict[str, RoadMotion] | None:
    """Return what the shocks see on the surface asked for, by corner."""
    name, speed = question.surface, question.speed
    if name is None or speed is None:
        return None
    if name not in car.surfaces:
        have = ", ".join(car.surfaces) or "none"
        raise CallError(f"{car.file or car.name} has no surface '{name}'; it has {have}")
    if car.surfaces[name].roughness <= 0:
        raise QuantityError(f'{car.file or car.name}: surfaces.{name}.roughness is missing; write a class such as "C"')
    return road_motion(car.corners, curves, roughness=car.surfaces[name].roughness, speed=speed)


def _ratios(
    car: Car, name: str, curve: Curve, question: RatioQuestion, road: Mapping[str, RoadMotion] | None
) -> CornerRatios:
    low, high = velocities(car, axle_of(name), question.low, question.high)
    motion = (
        question.motion if road is None else replace(question.motion, sigma=road[name].sigma, speeds=road[name].speeds)
    )
    return widened_ratios(
        car,
        corner_ratios(car.corners[name], curve, low, high, motion),
        lambda corner: corner_ratios(corner, curve, low, high, motion),
    )


def _beyond(name: str, found: CornerRatios) -> list[str]:
    beyond = [f"{d} {at}" for (d, at), banded in found.secants().items() if banded.extrapolated]
    return [f"{name}: {', '.join(beyond)} lies beyond the measured speeds; the value is extrapolated"] if beyond else []


def _modes(car: Car, ratios: Mapping[str, CornerRatios], said: list[str]) -> CarModes | None:
    try:
        return linearised_modes(car, ratios)
    except QuantityError as error:
        said.append(str(error))
        return None


def nested(flat: Mapping[Any, float]) -> dict[str, dict[str, float]]:
    """Return values by a pair of names as values by the first, then the second."""
    out: dict[str, dict[str, float]] = {}
    for (outer, inner), value in flat.items():
        out.setdefault(outer, {})[inner] = value
    return out


def _flat_ratios(found: CornerFound) -> dict[str, Any]:
    if found.ratios is None:
        return {}
    out: dict[str, Any] = {}
    for d in DIRECTIONS:
        for key, value in as_dict(DIRECTION, SideFound(found.ratios, found.ratios.side(d))).items():
            out |= _with_ends(f"ratio_{d}_{key}", value)
    return out


def _with_ends(key: str, value: Any) -> dict[str, Any]:
    if isinstance(value, Banded):
        return {key: value.value, f"{key}_lower": value.low, f"{key}_upper": value.high}
    return {key: value}


def _corner_dict(found: CornerFound) -> dict[str, Any]:
    out: dict[str, Any] = as_dict(CORNER, found) | {"quarter_car_hz": found.rates.modes, "ratio": None}
    corner, curve = found.ratios, found.curve
    if corner is None or curve is None:
        return {k: v for k, v in out.items() if k not in _NEEDS_CURVE}
    sides = {d: corner.side(d) for d in DIRECTIONS}
    figures = {d: as_dict(DIRECTION, SideFound(corner, s)) for d, s in sides.items()}
    return out | {
        "pack": curve.pack,
        "clicks": dict(curve.clicks),
        "standing": curve.standing,
        "velocity_m_s": {"low": corner.low_velocity, "high": corner.high_velocity},
        "ratio": {d: {"low": s.low.value, "high": s.high.value} for d, s in sides.items()} | {"mean": corner.mean},
        "ratio_limits": {d: {at: _limits(figures[d][at]) for at in ("low", "high")} for d in sides},
        "tangent": {d: {at: figures[d][f"tangent_{at}"] for at in ("low", "high")} for d in sides},
        "equivalent": {d: _equivalent(f) for d, f in figures.items()},
        "motion": {"body_amplitude_m": corner.motion.body_amplitude, "hop_amplitude_m": corner.motion.hop_amplitude,
                   "sigma_m_s": corner.motion.sigma},
        "quarter_car_ratio": corner.coupled,
    }  # fmt: skip


_NEEDS_CURVE = ("overshoot", "friction_adds", "mean_force_n")
_NOT_EQUIVALENT = ("low", "high", "tangent_low", "tangent_high")


def _limits(banded: Banded) -> dict[str, float | bool]:
    return {"low": banded.low, "high": banded.high, "extrapolated": bool(banded.extrapolated)}


def _equivalent(figures: Mapping[str, Any]) -> dict[str, Any]:
    named = {k: v for k, v in figures.items() if k not in _NOT_EQUIVALENT}
    return {k: {"value": v.value, **_limits(v)} if isinstance(v, Banded) else v for k, v in named.items()}


def _modes_dict(modes: CarModes) -> dict[str, Any]:
    def group(found: Mapping[str, Mode]) -> dict[str, Any]:
        return {n: {"frequency_hz": m.frequency, "simple_hz": modes.simple[n], "ratio": m.ratio}
                for n, m in found.items()}  # fmt: skip

    return {"half": group(modes.half), "full": group(modes.full), "spring_centre_ahead_m": modes.spring_centre,
            "estimated": list(modes.estimated)}  # fmt: skip
