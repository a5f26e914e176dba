"""What is wanted where: points of damping ratio against velocity, for the corners that share one setting."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.choosing.assumptions import CURVE_SPEEDS
from dynoan.analysis.corner.ratio_measures import Level
from dynoan.analysis.corner.secants import ratio_curve
from dynoan.errors import CallError
from dynoan.model.car import HIGH_VELOCITY, LOW_VELOCITY, Corner, Target, Targets
from dynoan.model.curve import DIRECTIONS, NEAR_TOP, Curve, Direction


@dataclass(frozen=True)
class WantedRatio:
    """One damping ratio wanted at one velocity."""

    direction: Direction
    velocity: float  #: at the shock, a magnitude [m/s]
    ratio: float
    weight: float = 1.0  #: beside the other points of the place


@dataclass(frozen=True)
class CornerAim:
    """One corner and what is wanted of it."""

    corner: Corner
    wanted: tuple[WantedRatio, ...]
    now: Mapping[str, int] | None = None  #: clicks on the car, from closed; None where unknown
    last: Mapping[str, int] | None = None  #: the last click of each adjuster of this corner's own shock
    spread: float = 0.0  #: how unsure its ratios are of the car's own values, as a share of them (95 %)


@dataclass(frozen=True)
class Place:
    """Corners that get one and the same setting: an axle, or a single corner."""

    name: str
    aims: tuple[CornerAim, ...]
    low_velocity: float = LOW_VELOCITY  #: where "low" is shown [m/s]
    high_velocity: float = HIGH_VELOCITY  #: where "high" is shown [m/s]

    @property
    def velocities(self) -> dict[Level, float]:
        """The low and the high velocity at the shock. [m/s]"""
        return {"low": self.low_velocity, "high": self.high_velocity}

    @property
    def packs_now(self) -> frozenset[str]:
        """The packs on the car at this place."""
        return frozenset(aim.corner.pack for aim in self.aims if aim.corner.pack is not None)


@dataclass(frozen=True)
class Group:
    """Places that must have the same pack: the two corners of an axle, or one place alone."""

    name: str
    places: tuple[Place, ...]


def wanted_from(targets: Targets) -> tuple[WantedRatio, ...]:
    """Return the points of targets.

    Parameters
    ----------
    targets
        What a team left open is left out.

    Returns
    -------
    :
        Weights such that a direction counts the same with two points as with a curve of twenty.

    Examples
    --------
    >>> [(w.velocity, w.ratio, w.weight) for w in wanted_from(Targets(rebound=Target(0.65, 0.45)))]
    [(0.05, 0.65, 0.5), (0.25, 0.45, 0.5)]
    """
    out = []
    of: dict[Direction, Target] = {"compression": targets.compression, "rebound": targets.rebound}
    for direction, target in of.items():
        pairs = [
            (velocity, ratio)
            for velocity, ratio in ((targets.low_velocity, target.low), (targets.high_velocity, target.high))
            if ratio is not None
        ]
        pairs += list(target.curve)
        weight = target.weight / max(len(pairs), 1)
        out += [WantedRatio(direction, v, ratio, weight) for v, ratio in pairs if weight > 0]
    return tuple(out)


def wanted_like(corner: Corner, curve: Curve) -> tuple[WantedRatio, ...]:
    """Return the ratios a corner has with a curve, at `CURVE_SPEEDS` as far as the curve was measured.

    Parameters
    ----------
    corner
        Of the car that is to be equalled.
    curve
        Of the setting on it.

    Raises
    ------
    QuantityError
        If sprung mass or wheel rate is not a finite number above zero.
    """
    out = []
    for direction in DIRECTIONS:
        speeds = [s for s in CURVE_SPEEDS if s <= curve.side(direction).top_speed * NEAR_TOP]
        out += _points(corner, curve, direction, speeds)
    return tuple(out)


def wanted_same(corner: Corner, curve: Curve, low: float, high: float) -> tuple[WantedRatio, ...]:
    """Return the ratios a corner has with a curve at the low and the high velocity.

    Parameters
    ----------
    corner
        Of the car whose ratios are to be kept.
    curve
        Of the setting on it.
    low, high
        Velocities at the shock. [m/s]

    Raises
    ------
    QuantityError
        If sprung mass or wheel rate is not a finite number above zero.
    """
    return tuple(w for direction in DIRECTIONS for w in _points(corner, curve, direction, [low, high]))


def _points(corner: Corner, curve: Curve, direction: Direction, speeds: Sequence[float]) -> list[WantedRatio]:
    v = np.asarray(speeds) * (1 if direction == "compression" else -1)
    ratios = ratio_curve(corner, curve, v)
    return [
        WantedRatio(direction, s, float(r), 1.0 / len(speeds))
        for s, r in zip(speeds, ratios, strict=True)
        if float(r) > 0
    ]


def filled(targets: Targets, *, rebound_compression: float | None = None) -> Targets:
    """Return targets whose missing direction follows from the other by a wanted rebound:compression ratio.

    Parameters
    ----------
    targets
        With at most one direction set where a ratio is given.
    rebound_compression
        Rebound over compression, at every velocity; None leaves the targets as they are. [1]

    Raises
    ------
    CallError
        If neither direction has a target, or both have and a ratio is given too.

    Examples
    --------
    >>> filled(Targets(compression=Target(low=0.4)), rebound_compression=1.5).rebound.low
    0.6000000000000001
    """
    if rebound_compression is None:
        return targets
    up, down = _set(targets.compression), _set(targets.rebound)
    if up == down:
        which = "both directions have targets" if up else "no direction has a target"
        raise CallError("rebound:compression needs the target of one direction", hint=which)
    if up:
        return replace(targets, rebound=_times(targets.compression, rebound_compression))
    return replace(targets, compression=_times(targets.rebound, 1 / rebound_compression))


def scaled(targets: Targets, factor: float) -> Targets:
    """Return targets with every ratio times a factor, as for one axle from the other.

    Parameters
    ----------
    targets
        Of the axle that has them.
    factor
        On every ratio. [1]
    """
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
