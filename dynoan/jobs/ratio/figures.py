"""The figures of a corner and of a direction, each declared once, and both as plain values."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from dynoan.analysis.corner.car_modes import CarModes
from dynoan.analysis.corner.modes import Mode
from dynoan.analysis.corner.rates import CornerRates
from dynoan.analysis.corner.ratio_measures import CornerRatios, DirectionRatios
from dynoan.jobs.measures import Measure, as_dict
from dynoan.model.banded import Banded
from dynoan.model.curve import DIRECTIONS, Curve

_NEEDS_CURVE = ("overshoot", "friction_adds", "mean_force_n")
_NOT_EQUIVALENT = ("low", "high", "tangent_low", "tangent_high")


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


def _of(get: Callable[[CornerRatios], float | None]) -> Callable[[CornerFound], float | None]:
    return lambda c: None if c.ratios is None else get(c.ratios)


#: the figures of a corner; a new one is a line here
CORNER: tuple[Measure[CornerFound], ...] = (
    Measure("wheel_rate_n_m", "wheel rate", lambda c: c.rates.wheel_rate, "stiffness"),
    Measure("ride_rate_n_m", "with tyre", lambda c: c.rates.ride_rate, "stiffness", terminal="never", report=False),
    Measure("sprung_mass_kg", "sprung", lambda c: c.rates.sprung, "mass"),
    Measure("ride_frequency_hz", "ride", lambda c: c.rates.frequency, unit="Hz"),
    Measure("ride_frequency_with_tyre_hz", "ride with tyre", lambda c: c.rates.tyre_frequency, unit="Hz"),
    Measure("hop_frequency_hz", "hop", lambda c: c.rates.hop_frequency, unit="Hz", digits=1),
    Measure("static_deflection_m", "sinks", lambda c: c.rates.deflection, "length"),
    Measure("critical_damping_wheel_n_s_m", "critical at wheel", lambda c: c.rates.critical_wheel, "damping"),
    Measure("critical_damping_shock_n_s_m", "critical at shock", lambda c: c.rates.critical_shock, "damping"),
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


def flat_ratios(found: CornerFound) -> dict[str, Any]:
    """Return the damping ratios of a corner in one row, with their limits; empty where no pack is on it."""
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


def corner_dict(found: CornerFound) -> dict[str, Any]:
    """Return a corner as ``dynoan ratio --json`` prints it."""
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


def _limits(banded: Banded) -> dict[str, float | bool]:
    return {"low": banded.low, "high": banded.high, "extrapolated": bool(banded.extrapolated)}


def _equivalent(figures: Mapping[str, Any]) -> dict[str, Any]:
    named = {k: v for k, v in figures.items() if k not in _NOT_EQUIVALENT}
    return {k: {"value": v.value, **_limits(v)} if isinstance(v, Banded) else v for k, v in named.items()}


def modes_dict(modes: CarModes) -> dict[str, Any]:
    """Return the modes of the car as ``dynoan ratio --json`` prints them."""

    def group(found: Mapping[str, Mode]) -> dict[str, Any]:
        return {n: {"frequency_hz": m.frequency, "simple_hz": modes.simple[n], "ratio": m.ratio}
                for n, m in found.items()}  # fmt: skip

    return {"half": group(modes.half), "full": group(modes.full), "spring_centre_ahead_m": modes.spring_centre,
            "estimated": list(modes.estimated)}  # fmt: skip
