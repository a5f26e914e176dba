"""The force of a shock at rest, as a trace shows it between the directions: gas pushes out, and lag cancels."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.ranks import finite_median
from importers.assumptions.channels import (
    DRAWN_FROM,
    DRAWN_SAMPLES,
    DRAWN_TO,
    GAS_SAMPLES,
    HELD_SPEED,
    REST_SAMPLES,
    REST_SPEED,
    REST_STRETCHES,
    REST_TURNS,
)


class CountedMotion(NamedTuple):
    """A trace in SI, as the file counts."""

    force: FloatArray  #: [N]
    velocity: FloatArray  #: recorded or derived [m/s]
    displacement: FloatArray | None = None  #: [m]
    recorded: bool = True  #: whether the velocity was recorded; derived, it counts as the displacement does


class RestForce(NamedTuple):
    """Force where velocity passes zero."""

    force: float  #: [N]
    samples: int  #: from how many; 0 where it is not known
    held: float = 0.0  #: what friction and yield hold there, half of what lies between the directions [N]
    rise: float = 0.0  #: from the end where the motion counts least to the one where it counts most [N]


class DrawnForce(NamedTuple):
    """Force drawn down to no speed from slow motion either way."""

    force: float  #: the mean of both directions: gas, and what a cell's zero is off [N]
    held: float  #: half of what lies between them there: friction and yield [N]
    error: float  #: standard error of the force [N]


def rest_force(motion: CountedMotion) -> RestForce:
    """Return the force where velocity passes zero, the mean over both turning points.

    Lag shifts the two turning points opposite ways, so that their mean is nearly free of it.
    """
    return _at_rest(motion, np.abs(motion.velocity))


def _at_rest(motion: CountedMotion, speed: FloatArray) -> RestForce:
    """Return the force where velocity passes zero, by the magnitude of velocity. [m/s]"""
    v, force = motion.velocity, motion.force
    top = _most(speed)
    near = _slow_rows(speed, force, REST_SPEED * top)
    if motion.displacement is None:
        where, middle = np.gradient(v)[near], 0.0
    else:
        where = motion.displacement[near]
        middle = 0.5 * (_most(motion.displacement) + _least(motion.displacement))
    resting = force[near]
    # Samples before or after the motion are at neither end of it.
    high, low = resting[where > middle], resting[where < middle]
    # Where velocity grows at a turn, the motion is at its low end.
    sides = [high, low] if motion.displacement is not None else [low, high]
    if min(len(s) for s in sides) < REST_SAMPLES:
        sides = _at_turns(v, force)[::-1]
    if min(len(s) for s in sides) < REST_TURNS:
        return RestForce(0.0, 0)
    top_end, low_end = finite_median(sides[0]), finite_median(sides[1])
    slow = near if HELD_SPEED == REST_SPEED else _slow_rows(speed, force, HELD_SPEED * top)
    held = _held(v[slow], force[slow])
    if held is None:
        held = _held_at_turns(v, force)
    return RestForce(0.5 * (top_end + low_end), sum(len(s) for s in sides), held, top_end - low_end)


def _slow_rows(speed: FloatArray, force: FloatArray, most: float) -> IntArray:
    """Return the rows slower than a speed [m/s] that hold a force."""
    slow = np.flatnonzero(speed < most)
    return slow[np.isfinite(force[slow])]


def drawn_to_rest(motion: CountedMotion) -> DrawnForce | None:
    """Return the force at rest by a line through the slow samples of each direction, drawn down to no speed.

    A valve that opens early makes much force at a twentieth of the largest speed, which is neither gas nor friction:
    along a line it falls away. Samples of a shock that stands still are of no direction and count for nothing. None
    where a direction has too few samples.
    """
    v, force = motion.velocity, motion.force
    speed = np.abs(v)
    top = _most(speed)
    slow = (speed > DRAWN_FROM * top) & (speed < DRAWN_TO * top) & np.isfinite(force)
    ends = [_at_no_speed(speed[side], force[side]) for side in (slow & (v > 0), slow & (v < 0))]
    if None in ends:
        return None
    (up, off_up), (down, off_down) = (end for end in ends if end is not None)
    return DrawnForce(0.5 * (up + down), 0.5 * abs(up - down), 0.5 * float(np.hypot(off_up, off_down)))


def _at_no_speed(speed: FloatArray, force: FloatArray) -> tuple[float, float] | None:
    """Return where the line of force over speed begins, and its standard error; None of a few samples. [N]"""
    if len(speed) < DRAWN_SAMPLES:
        return None
    off = speed - speed.mean()
    spread = float(np.einsum("i,i->", off, off))
    slope = float(np.einsum("i,i->", off, force)) / spread if spread > 0 else 0.0
    begin = float(force.mean()) - slope * float(speed.mean())
    left = force - begin - slope * speed
    scatter = float(np.einsum("i,i->", left, left)) / (len(speed) - 2)
    return begin, float(np.sqrt(scatter * (1 / len(speed) + speed.mean() ** 2 / max(spread, 1e-300))))


def _held(v: FloatArray, force: FloatArray) -> float | None:
    """Return half the difference of the force between slow motion one way and the other; None without either. [N]"""
    up, down = force[v > 0], force[v < 0]
    return 0.5 * abs(finite_median(up) - finite_median(down)) if len(up) and len(down) else None


def _held_at_turns(v: FloatArray, force: FloatArray) -> float:
    """Return half of what the force changes by from the sample before a turn to the one after it. [N]

    A shock driven at one speed in and the same out is nowhere slow: what lies between its turns is damping, and what
    is alike of it both ways is no gas force where the valve is unlike.
    """
    turns = np.flatnonzero(v[:-1] * v[1:] < 0)
    steps = np.abs(force[turns + 1] - force[turns])
    steps = steps[np.isfinite(steps)]
    return 0.5 * finite_median(steps) if len(steps) else 0.0


def _most(values: FloatArray) -> float:
    """Return the largest value; leaving missing ones out at once takes several times as long."""
    most = float(values.max())
    return most if np.isfinite(most) else float(np.fmax.reduce(values))


def _least(values: FloatArray) -> float:
    """Return the smallest value, missing ones left out."""
    least = float(values.min())
    return least if np.isfinite(least) else float(np.fmin.reduce(values))


def largest(values: FloatArray) -> float:
    """Return the largest magnitude of a channel, missing samples left out; not-a-number where none is there."""
    most = max(float(values.max()), -float(values.min()))
    return most if np.isfinite(most) else float(np.nanmax(np.abs(values)))


def rest_by_stretch(motion: CountedMotion) -> list[RestForce]:
    """Return the force at rest in each stretch of a record in which it can be told."""
    found, speed = [], np.abs(motion.velocity)
    ends = [k * len(motion.force) // REST_STRETCHES for k in range(REST_STRETCHES + 1)]
    for rows in (slice(a, b) for a, b in pairwise(ends)):
        if rows.stop - rows.start < 2 or not np.isfinite(motion.force[rows]).any():
            continue
        where = None if motion.displacement is None else motion.displacement[rows]
        some = CountedMotion(motion.force[rows], motion.velocity[rows], where, recorded=motion.recorded)
        one = _at_rest(some, speed[rows])
        found += [one] if one.samples >= GAS_SAMPLES else []
    return found


def _at_turns(v: FloatArray, force: FloatArray) -> list[FloatArray]:
    """Return the force at rising and at falling passes of zero velocity, between the two samples around each."""
    before, after = v[:-1], v[1:]
    change = force[1:] - force[:-1]
    sides = []
    for turns in ((before <= 0) & (after > 0), (before >= 0) & (after < 0)):
        with np.errstate(invalid="ignore", over="ignore"):  # absurd values are missing ones here
            share = before[turns] / (before[turns] - after[turns])
            found = force[:-1][turns] + share * change[turns]
        sides.append(found[np.isfinite(found)])
    return sides
