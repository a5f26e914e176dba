"""What logged travel tells of a shock: time by velocity, time about each knee, energy by range, the ends of the stroke.

Shares are of the time the shock moves: what lies within the noise of the velocity counts as standing still.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from dynoan.analysis.travel.assumptions import (
    BIN,
    LEAST_STILL,
    MOST_OF_THE_TIME,
    NEAR,
    STILL,
)  # fmt: skip
from dynoan.analysis.travel.velocity import ShockMotion
from dynoan.errors import QuantityError
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.curve import DIRECTIONS, Curve, Direction


@dataclass(frozen=True)
class LogPart:
    """A named stretch of the run."""

    name: str
    start: float  #: [s]
    end: float  #: [s]


@dataclass(frozen=True)
class StrokeEnds:
    """Travel of the shock to its ends, from the zero of the log; None where unknown."""

    bump: float | None = None  #: compression [m]
    droop: float | None = None  #: extension, positive [m]


@dataclass(frozen=True)
class KneeTimes:
    """How long the shock moves slower and faster than a knee of its curve."""

    direction: Direction
    velocity: float  #: [m/s]
    below: float  #: share of the moving time in this direction
    above: float


@dataclass(frozen=True)
class EnergyRange:
    """The energy a range of speeds takes out."""

    direction: Direction
    start: float  #: [m/s]
    end: float  #: infinite for the last [m/s]
    energy: float  #: [J]
    share: float  #: of all energy in both directions
    time: float  #: share of the moving time in this direction


@dataclass(frozen=True)
class VelocityHistogram:
    """Time by velocity: signed bins of equal width, zero at an edge."""

    edges: FloatArray  #: shape (n + 1,) [m/s]
    share: FloatArray  #: of all time, shape (n,)


class EndVisits(NamedTuple):
    """How often a shock came to an end of its stroke, and how long it was there."""

    times: int
    seconds: float  #: [s]


@dataclass(frozen=True)
class PartTravel:
    """One part of the run of one shock."""

    name: str
    seconds: float  #: how long it lasted, gaps aside [s]
    still: float  #: share of the time
    moving: Mapping[Direction, float]  #: share of the time
    peak: Mapping[Direction, float]  #: [m/s]
    rms: Mapping[Direction, float]  #: of the moving samples [m/s]
    quantile_95: Mapping[Direction, float]  #: 95 % of the moving time is slower [m/s]
    histogram: VelocityHistogram
    knees: tuple[KneeTimes, ...]
    ranges: tuple[EnergyRange, ...]
    deepest: float  #: compression from zero [m]
    longest: float  #: extension from zero, positive [m]
    bottomed: EndVisits | None  #: at the end of compression; None where that end is not known
    topped: EndVisits | None  #: at the end of extension
    beyond_tested: float  #: share of the time faster than the curve's tests


@dataclass(frozen=True)
class CornerTravel:
    """One shock over the whole run and its parts."""

    corner: str
    motion: ShockMotion
    still_below: float  #: [m/s]
    parts: Mapping[str, PartTravel]
    curve: Curve | None = None


def corner_travel(
    corner: str,
    moved: ShockMotion,
    parts: Sequence[LogPart],
    *,
    curve: Curve | None = None,
    ends: StrokeEnds | None = None,
) -> CornerTravel:
    """Return what a shock did in the whole run ("all"), in each part, and in what no part covers ("the rest").

    Parameters
    ----------
    corner
        "fl", "fr", "rl" or "rr", for the result.
    moved
        Its travel, zero where the car stands, and velocity.
    parts
        Named stretches of the run; they may overlap.
    curve
        Of what was on the car; without one there are no knees and no energies.
    ends
        Of the stroke; without them bottoming and topping out cannot be told.

    Returns
    -------
    :
        Velocities in [m/s] as magnitudes by direction, energies in [J] from the curve's damping force, shares of 1.

    Raises
    ------
    QuantityError
        If a part holds no sample.
    """
    still = max(STILL * moved.smoothing.noise, LEAST_STILL)
    limit = max(np.abs(moved.velocity).max(), BIN)
    edges = np.arange(-np.ceil(limit / BIN), np.ceil(limit / BIN) + 1) * BIN
    masks: dict[str, BoolArray] = {"all": np.ones(len(moved.time), dtype=bool)}
    rest = masks["all"].copy()
    for part in parts:
        masks[part.name] = (moved.time >= part.start) & (moved.time < part.end)
        if not masks[part.name].any():
            raise QuantityError(f"part {part.name} ({part.start:g} to {part.end:g} s) holds nothing of the log")
        rest &= ~masks[part.name]
    if parts and rest.any():
        masks["the rest"] = rest
    made = {name: _part(name, moved, mask, (still, edges), curve, ends or StrokeEnds()) for name, mask in masks.items()}
    return CornerTravel(corner, moved, still, made, curve)


def _part(
    name: str,
    moved: ShockMotion,
    mask: BoolArray,
    grid: tuple[float, FloatArray],
    curve: Curve | None,
    ends: StrokeEnds,
) -> PartTravel:
    still, edges = grid
    v, x = moved.velocity[mask], moved.travel[mask]
    split = {"compression": v[v > still], "rebound": -v[v < -still]}
    by: dict[Direction, FloatArray] = {d: split[d] for d in DIRECTIONS}
    counts, _ = np.histogram(v, edges)
    beyond = 0.0 if curve is None else float(np.mean(curve.extrapolated(v)))
    return PartTravel(
        name=name, seconds=len(v) * moved.step, still=1.0 - sum(len(u) for u in by.values()) / len(v),
        moving={d: len(u) / len(v) for d, u in by.items()},
        peak={d: float(u.max()) if len(u) else 0.0 for d, u in by.items()},
        rms={d: float(np.sqrt(np.mean(u**2))) if len(u) else 0.0 for d, u in by.items()},
        quantile_95={d: float(np.quantile(u, MOST_OF_THE_TIME)) if len(u) else 0.0 for d, u in by.items()},
        histogram=VelocityHistogram(edges, counts / len(v)),
        knees=() if curve is None else _knees(by, curve),
        ranges=() if curve is None else _ranges(by, curve, moved.step),
        deepest=float(x.max()), longest=float(-x.min()),
        bottomed=_at_end(moved.travel, mask, ends.bump, moved.step),
        topped=_at_end(-moved.travel, mask, ends.droop, moved.step), beyond_tested=beyond,
    )  # fmt: skip


def _knees(by: Mapping[Direction, FloatArray], curve: Curve) -> tuple[KneeTimes, ...]:
    out = []
    for direction, speeds in by.items():
        for knee in curve.side(direction).knees:
            above = float(np.mean(speeds > knee.velocity)) if len(speeds) else float("nan")
            out.append(KneeTimes(direction, knee.velocity, 1.0 - above, above))
    return tuple(out)


def _ranges(by: Mapping[Direction, FloatArray], curve: Curve, step: float) -> tuple[EnergyRange, ...]:
    """Return the energy between the knees, ∫F·v dt, force from the curve."""
    work = {d: curve.side(d).force(speeds) * speeds * step for d, speeds in by.items()}
    total = sum(float(w.sum()) for w in work.values())
    out = []
    for direction, speeds in by.items():
        edges = [0.0, *(k.velocity for k in curve.side(direction).knees), float("inf")]
        for low, high in itertools.pairwise(edges):
            inside = (speeds >= low) & (speeds < high)
            energy = float(work[direction][inside].sum())
            share = energy / total if total > 0 else float("nan")
            out.append(EnergyRange(direction, low, high, energy, share, float(np.mean(inside)) if len(speeds) else 0.0))
    return tuple(out)


def _at_end(travel: FloatArray, mask: BoolArray, end: float | None, step: float) -> EndVisits | None:
    if end is None:
        return None
    there = (travel >= end - NEAR) & mask
    starts = int(np.count_nonzero(there[1:] & ~there[:-1])) + int(there[0])
    return EndVisits(starts, float(np.count_nonzero(there)) * step)
