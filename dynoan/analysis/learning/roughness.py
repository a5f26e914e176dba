"""What no model tells of a logger's figures: the road's hits, sensors, the model's own error; as covariances of blocks.

The road that was driven over is unknown, so the launch is run over many made roads: what each adds to every channel,
block by block, says how its hits hang together. Its size is read from the logs (`fitting`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.launch.drive import Drive
from dynoan.analysis.learning.assumptions import (
    ACCELERATION_ZERO,
    AFTER,
    BEFORE,
    LEANING,
    LEANING_AT,
    LEANING_TIMES,
    MODEL_ERROR,
    MODEL_TIME,
    ROAD_APART,
    ROADS,
    SEEN_LATE,
    SENSOR_DRIFT,
    SENSOR_ZERO,
    SUNK_OFF,
)
from dynoan.analysis.learning.logged import CHANNELS, SHOCKS, LoggedLaunch
from dynoan.analysis.learning.predicting import RunnableCar, motions
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Surface


@dataclass(frozen=True)
class RoadHits:
    """What made roads of one roughness add to a launch."""

    roughness: float  #: [m³]
    shift: FloatArray  #: their mean, shape (channels, blocks): shocks stiffer one way than the other pull a car down
    each: FloatArray  #: about the mean, shape (roads, channels, blocks)
    #: how far beside its middle friction may let the car stand, front and rear at the shock, standard deviations [m]
    stuck: tuple[float, float] = (0.0, 0.0)


def road_hits(car: RunnableCar, drive: Drive, surface: Surface, launch: LoggedLaunch, roughness: float) -> RoadHits:
    """Return what roads of a roughness add to a launch.

    Parameters
    ----------
    car, drive, surface
        As they are thought to be.
    launch
        Whose blocks are taken.
    roughness
        Gd(n0). [m³]
    """
    rough, even = replace(surface, roughness=roughness), replace(surface, roughness=0.0)
    time, level = motions(car, [drive], even, launch.length)
    _, found = motions(car, [drive] * ROADS, rough, launch.length, tuple(range(ROADS)))
    added = np.stack([launch.averaged(time, found[c] - level[c]) for c in CHANNELS], axis=1)
    shift = added.mean(axis=0)
    return RoadHits(roughness, shift, added - shift, _stood(car))


def _stood(car: RunnableCar) -> tuple[float, float]:
    """Return how far the seals' friction may let either axle stand beside its middle: an even law over all of it."""
    half, friction = car.large.half, car.large.friction
    one, two = (
        ratio * rub / (axle.spring + axle.gas) / np.sqrt(3.0)
        for ratio, rub, axle in zip(car.ratios, friction, (half.front, half.rear), strict=True)
    )
    return float(one), float(two)


def covariance(
    launch: LoggedLaunch,
    predicted: FloatArray,
    hits: RoadHits,
    roughness: float,
    *,
    names: tuple[str, ...] | None = None,
) -> FloatArray:
    """Return the covariance of what was logged about what is predicted, channels one behind the other, shape (n, n).

    Parameters
    ----------
    launch
        As logged.
    predicted
        Shape (channels, blocks), in the order of `CHANNELS`.
    hits
        Of the road, at some roughness.
    roughness
        At which they are taken. [m³]
    names
        Channels, where others than the logged ones are asked for.
    """
    names = launch.names if names is None else names
    middles, blocks = launch.middles, launch.blocks
    apart = np.abs(middles[:, None] - middles[None, :])
    taper = np.exp(-((apart / ROAD_APART) ** 2))
    smooth = np.sum([np.exp(-((apart / t) ** 2)) for t in MODEL_TIME], axis=0)
    at = [CHANNELS.index(n) for n in names]
    each = hits.each[:, at, :blocks].reshape(len(hits.each), -1)
    road = each.T @ each / (len(each) - 1) * np.tile(taper, (len(at), len(at)))
    out = road * (1 + 1 / len(each)) * roughness / hits.roughness
    sunk = hits.shift[at, :blocks].reshape(-1) * SUNK_OFF
    out = out + np.outer(sunk, sunk)
    noises = {c.name: c.noise for c in launch.channels}
    leaning = {c.name for c in launch.channels if c.one_sided}
    for n, name in enumerate(names):
        part = slice(n * blocks, (n + 1) * blocks)
        size = MODEL_ERROR * float(np.abs(predicted[at[n]]).max())
        own = size**2 * smooth + _sensor(name, middles)
        own[np.diag_indices(blocks)] += noises.get(name, _usual_noise(name)) ** 2 + (1e-3 * size) ** 2 + 1e-14
        if name in leaning:
            own += _leaning(middles, apart, roughness)
        if name in SHOCKS:
            left = hits.stuck[SHOCKS.index(name)] * (middles > BEFORE - SEEN_LATE)  # it counts once the car moves
            own += np.outer(left, left)
        out[part, part] += own
    return np.asarray(out)


def _sensor(name: str, middles: FloatArray) -> FloatArray:
    """Return what zero and drift of a sensor do."""
    one = np.ones((len(middles), len(middles)))
    if name == "speed":
        return 0.0 * one
    if name == "acceleration":
        return np.asarray(ACCELERATION_ZERO**2 * one)
    walk = np.minimum(middles[:, None], middles[None, :])  # as a walk from the zero on
    return np.asarray(SENSOR_ZERO**2 * one + SENSOR_DRIFT**2 * walk)


def _leaning(middles: FloatArray, apart: FloatArray, roughness: float) -> FloatArray:
    """Return what the car's leaning does to one side: it grows with the speed, which grows with time."""
    grown = np.sqrt(np.maximum(middles - BEFORE, 0.0) / AFTER)
    size = LEANING**2 * roughness / LEANING_AT
    alike = np.sum([share * np.exp(-((apart / time) ** 2)) for time, share in LEANING_TIMES], axis=0)
    return np.asarray(size * grown[:, None] * grown[None, :] * alike)


def _usual_noise(name: str) -> float:
    """Return the noise of a block of a channel that was not logged, where one is imagined. [m, m/s² or m/s]"""
    return {"acceleration": 0.15, "speed": 0.03}.get(name, 5e-5)
