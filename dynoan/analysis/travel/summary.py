"""What logged travel tells of a shock: time by velocity, time about each knee, energy by range, the ends of the stroke.

Shares are of the time the shock moves: what lies within the noise of the velocity counts as standing still.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.travel.velocity import Motion
from dynoan.errors import QuantityError
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.curve import DIRECTIONS, Curve, Direction

STILL = 3.0  #: times the noise of the velocity below which a shock counts as standing
LEAST_STILL = 2e-3  #: and never less than this [m/s]
NEAR = 1e-3  #: this near to an end of the stroke counts as there [m]
BIN = 0.01  #: width of a bin of the histogram [m/s]
LAUNCH = 3.0  #: how long after the start counts as the launch [s]
BEFORE = 0.1  #: what of the time before the start belongs to it [s]
ROLLING = 0.5  #: a car faster than this has left the line [m/s]
STIRRING = 0.02  #: rms shock velocity above which something is going on [m/s]


@dataclass(frozen=True)
class Part:
    """A named stretch of the run."""

    name: str
    start: float  #: [s]
    end: float  #: [s]


@dataclass(frozen=True)
class Ends:
    """Travel of the shock to its ends, from the zero of the log; None where unknown."""

    bump: float | None = None  #: compression [m]
    droop: float | None = None  #: extension, positive [m]


@dataclass(frozen=True)
class Knee:
    """How long the shock moves slower and faster than a knee of its curve."""

    direction: Direction
    velocity: float  #: [m/s]
    below: float  #: share of the moving time in this direction
    above: float


@dataclass(frozen=True)
class Range:
    """The energy a range of speeds takes out."""

    direction: Direction
    start: float  #: [m/s]
    end: float  #: infinite for the last [m/s]
    energy: float  #: [J]
    share: float  #: of all energy in both directions
    time: float  #: share of the moving time in this direction


@dataclass(frozen=True)
class Histogram:
    """Time by velocity: signed bins of equal width, zero at an edge."""

    edges: FloatArray  #: shape (n + 1,) [m/s]
    share: FloatArray  #: of all time, shape (n,)


@dataclass(frozen=True)
class PartTravel:
    """One part of the run of one shock."""

    name: str
    seconds: float
    still: float  #: share of the time
    moving: Mapping[Direction, float]  #: share of the time
    peak: Mapping[Direction, float]  #: [m/s]
    typical: Mapping[Direction, float]  #: rms of the moving samples [m/s]
    most: Mapping[Direction, float]  #: 95 % of the moving time is slower [m/s]
    histogram: Histogram
    knees: tuple[Knee, ...]
    ranges: tuple[Range, ...]
    deepest: float  #: compression from zero [m]
    longest: float  #: extension from zero, positive [m]
    bottomed: tuple[int, float] | None  #: times, seconds; None where the end is not known
    topped: tuple[int, float] | None
    beyond_tested: float  #: share of the time faster than the curve's tests


@dataclass(frozen=True)
class CornerTravel:
    """One shock over the whole run and its parts."""

    corner: str
    motion: Motion
    still_below: float  #: [m/s]
    parts: Mapping[str, PartTravel]
    curve: Curve | None = None


def corner_travel(
    corner: str, moved: Motion, parts: Sequence[Part], *, curve: Curve | None = None, ends: Ends | None = None
) -> CornerTravel:
    """Return what a shock did in the whole run ("all"), in each part, and in what no part covers ("the rest").

    Parameters
    ----------
    curve
        Of what was on the car; without one there are no knees and no energies.
    ends
        Of the stroke; without them bottoming and topping out cannot be told.

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
    made = {name: _part(name, moved, mask, (still, edges), curve, ends or Ends()) for name, mask in masks.items()}
    return CornerTravel(corner, moved, still, made, curve)


def _part(
    name: str, moved: Motion, mask: BoolArray, grid: tuple[float, FloatArray], curve: Curve | None, ends: Ends
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
        typical={d: float(np.sqrt(np.mean(u**2))) if len(u) else 0.0 for d, u in by.items()},
        most={d: float(np.quantile(u, 0.95)) if len(u) else 0.0 for d, u in by.items()},
        histogram=Histogram(edges, counts / len(v)),
        knees=() if curve is None else _knees(by, curve),
        ranges=() if curve is None else _ranges(by, curve, moved.step),
        deepest=float(x.max()), longest=float(-x.min()),
        bottomed=_at_end(moved.travel, mask, ends.bump, moved.step),
        topped=_at_end(-moved.travel, mask, ends.droop, moved.step), beyond_tested=beyond,
    )  # fmt: skip


def _knees(by: Mapping[Direction, FloatArray], curve: Curve) -> tuple[Knee, ...]:
    out = []
    for direction, speeds in by.items():
        for knee in curve.side(direction).knees:
            above = float(np.mean(speeds > knee.velocity)) if len(speeds) else float("nan")
            out.append(Knee(direction, knee.velocity, 1.0 - above, above))
    return tuple(out)


def _ranges(by: Mapping[Direction, FloatArray], curve: Curve, step: float) -> tuple[Range, ...]:
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
            out.append(Range(direction, low, high, energy, share, float(np.mean(inside)) if len(speeds) else 0.0))
    return tuple(out)


def _at_end(travel: FloatArray, mask: BoolArray, end: float | None, step: float) -> tuple[int, float] | None:
    if end is None:
        return None
    there = (travel >= end - NEAR) & mask
    starts = int(np.count_nonzero(there[1:] & ~there[:-1])) + int(there[0])
    return starts, float(np.count_nonzero(there)) * step


def start_from_speed(time: FloatArray, speed: FloatArray) -> float | None:
    """Return when a standing car leaves the line by its speed [m/s]; None if it never stands and then rolls. [s]"""
    known = np.isfinite(speed)
    t, v = time[known], speed[known]
    rolling = v > ROLLING
    leaving = np.flatnonzero(rolling[1:] & ~rolling[:-1])
    return float(t[leaving[0]]) if len(leaving) else None


def start_from_shocks(moved: Sequence[Motion]) -> float | None:
    """Return when the shocks begin to move after standing still; None if they move from the beginning. [s]"""
    starts = []
    for m in moved:
        width = max(round(0.1 / m.step), 3)
        power = np.convolve(m.velocity**2, np.ones(width) / width, mode="same")
        stirring = power > max(STIRRING, 5 * m.smoothing.noise) ** 2
        if stirring.any():
            starts.append(float(m.time[np.argmax(stirring)] - m.time[0]))
    if not starts or min(starts) < 0.3:
        return None
    return min(starts) + float(moved[0].time[0])


def launch_part(start: float, length: float = LAUNCH) -> Part:
    """Return the launch that begins at `start`. [s]"""
    return Part("launch", start - BEFORE, start + length)


def at_rest(time: FloatArray, travel: FloatArray, start: float | None) -> tuple[float, str]:
    """Return the zero of a channel and where it comes from: the median before the start, else of the whole log."""
    before = (time < start - BEFORE) & np.isfinite(travel) if start is not None else np.zeros(len(time), dtype=bool)
    if np.count_nonzero(before) >= 10:
        return float(np.median(travel[before])), "the median before the start"
    return float(np.nanmedian(travel)), "the median of the whole log"
