"""What is wanted where: points of damping ratio against velocity, for the corners that share one setting."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from dynoan.analysis.corner.ratios import ratio_curve
from dynoan.errors import CallError
from dynoan.model.car import HIGH_VELOCITY, LOW_VELOCITY, Corner, Target, Targets
from dynoan.model.curve import DIRECTIONS, Curve, Direction

#: speeds at which a whole curve is followed, as far as it was measured [m/s]
CURVE_SPEEDS = (0.025, 0.05, 0.1, 0.15, 0.2, 0.25, 0.35, 0.5)


@dataclass(frozen=True)
class Wanted:
    """One damping ratio wanted at one velocity."""

    direction: Direction
    velocity: float  #: at the shock, a magnitude [m/s]
    ratio: float
    weight: float = 1.0


@dataclass(frozen=True)
class Aim:
    """One corner and what is wanted of it."""

    corner: Corner
    wanted: tuple[Wanted, ...]
    now: Mapping[str, int] | None = None  #: clicks on the car, from closed; None where unknown
    last: Mapping[str, int] | None = None  #: the last click of each adjuster of this corner's own shock


@dataclass(frozen=True)
class Place:
    """Corners that get one and the same setting: an axle, or a single corner."""

    name: str
    aims: tuple[Aim, ...]
    low_velocity: float = LOW_VELOCITY  #: where "low" is shown [m/s]
    high_velocity: float = HIGH_VELOCITY  #: where "high" is shown [m/s]

    @property
    def packs_now(self) -> frozenset[str]:
        """The packs on the car at this place."""
        return frozenset(aim.corner.pack for aim in self.aims if aim.corner.pack is not None)


@dataclass(frozen=True)
class Group:
    """Places that must have the same pack: the two corners of an axle, or one place alone."""

    name: str
    places: tuple[Place, ...] = field(default=())


def wanted_from(targets: Targets) -> tuple[Wanted, ...]:
    """Return the points of targets; a direction weighs the same with two points as with a curve of twenty."""
    out = []
    for direction, target in (("compression", targets.compression), ("rebound", targets.rebound)):
        pairs = [
            (velocity, ratio)
            for velocity, ratio in ((targets.low_velocity, target.low), (targets.high_velocity, target.high))
            if ratio is not None
        ]
        pairs += list(target.curve)
        weight = target.weight / max(len(pairs), 1)
        out += [Wanted(direction, v, ratio, weight) for v, ratio in pairs if weight > 0]  # type: ignore[arg-type]
    return tuple(out)


def wanted_like(corner: Corner, curve: Curve) -> tuple[Wanted, ...]:
    """Return the ratios a corner has with a curve, at `CURVE_SPEEDS` as far as the curve was measured."""
    out = []
    for direction in DIRECTIONS:
        speeds = [s for s in CURVE_SPEEDS if s <= curve.side(direction).top_speed * 1.001]
        out += _points(corner, curve, direction, speeds)
    return tuple(out)


def wanted_same(corner: Corner, curve: Curve, low: float, high: float) -> tuple[Wanted, ...]:
    """Return the ratios a corner has with a curve at the low and the high velocity [m/s]."""
    return tuple(w for direction in DIRECTIONS for w in _points(corner, curve, direction, [low, high]))


def _points(corner: Corner, curve: Curve, direction: Direction, speeds: Sequence[float]) -> list[Wanted]:
    v = np.asarray(speeds) * (1 if direction == "compression" else -1)
    ratios = ratio_curve(corner, curve, v)
    return [
        Wanted(direction, s, float(r), 1.0 / len(speeds)) for s, r in zip(speeds, ratios, strict=True) if float(r) > 0
    ]


def filled(targets: Targets, *, rebound_compression: float | None = None) -> Targets:
    """Return targets whose missing direction follows from the other by a wanted rebound:compression ratio.

    Raises
    ------
    CallError
        If neither direction has a target, or both have and a ratio is given too.
    """
    if rebound_compression is None:
        return targets
    up, down = _set(targets.compression), _set(targets.rebound)
    if up == down:
        which = "both directions have targets" if up else "no direction has a target"
        raise CallError(f"rebound:compression needs the target of one direction; {which}")
    if up:
        return replace(targets, rebound=_times(targets.compression, rebound_compression))
    return replace(targets, compression=_times(targets.rebound, 1 / rebound_compression))


def scaled(targets: Targets, factor: float) -> Targets:
    """Return targets with every ratio times a factor, as for one axle from the other."""
    return replace(targets, compression=_times(targets.compression, factor), rebound=_times(targets.rebound, factor))


def _set(target: Target) -> bool:
    return target.low is not None or target.high is not None or bool(target.curve)


def _times(target: Target, factor: float) -> Target:
    return replace(
        target,
        low=None if target.low is None else target.low * factor,
        high=None if target.high is None else target.high * factor,
        curve=tuple((v, r * factor) for v, r in target.curve),
    )
