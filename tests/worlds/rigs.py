"""The rig: everything between the shock's true force and what stands in the file.

In the mechanics: backlash in the joints (slack where the force passes zero), a series spring of oil and mounts that
may soften near zero force (air), a moving mass on the load cell. In the chain: low-pass filters and pure delay between
channels, noise, zero offset and drift of the cell, converter steps, spikes, few samples, a recorded velocity with a
lag and scale of its own. Ranges are set in `builders`; common practice, no source, unless one is named there.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numba import njit
from scipy import signal

from tests.worlds.motions import FINE_HZ, Path
from tests.worlds.valves import FloatArray, Generator

CELLS = (2.5e3, 5e3, 10e3, 20e3, 50e3)
"""Full scale of load cells [N]; a rig has the smallest that holds 1.2 times the record's peak."""


@dataclass(frozen=True)
class Spring:
    """Oil and mounts in series with the valve; bubbles compress like a gas, so their give falls with force squared."""

    stiffness_n_m: float
    air: float = 0.0  #: give of the bubbles at zero force over that of oil and mounts
    charge_n: float = 100.0  #: force at which that give has fallen to a quarter [N]
    rebound: float = 1.0  #: stiffness in rebound over that in compression


@dataclass(frozen=True)
class Chain:
    """Load cell, electronics and converter."""

    rate_hz: int = 1000
    per_turn: int | None = None  #: samples per turn where an encoder triggers them
    low_pass_hz: float | None = None  #: force channel only [Hz]
    order: int = 1
    bessel: bool = False  #: else Butterworth
    delay_s: float = 0.0  #: force late against displacement; negative: displacement late [s]
    mass_kg: float = 0.0  #: on the cell, moving
    white: float = 0.002  #: noise over peak force, rms
    coloured: float = 0.0  #: the same, correlated over `COLOUR_S`
    offset: float = 0.0  #: cell's zero over peak force
    drift: float = 0.0  #: change of that zero over the record
    bits: int | None = None
    spikes: float = 0.0  #: share of samples hit
    x_noise: float = 1e-4  #: displacement noise over half stroke, rms
    v_lag_hz: float | None = None  #: corner of the analog differentiator; no recorded velocity without it [Hz]
    v_scale: float = 1.0
    kelvin: bool = False  #: temperature recorded


COLOUR_S = 0.01
"""Correlation time of coloured noise [s]: hum, rattle and pressure waves; common practice, no source."""


@dataclass(frozen=True)
class Samples:
    """The channels of a file."""

    time: FloatArray
    displacement: FloatArray
    force: FloatArray
    velocity: FloatArray | None
    offset_n: float  #: the cell's true zero, mean over the record [N]


@njit(cache=True)
def play(driver: FloatArray, half: float) -> FloatArray:  # pragma: no cover
    """Return what follows `driver` through lost motion of +/- `half` (the play operator), at rest in the middle at
    first.
    """
    follower = np.empty_like(driver)
    now = driver[0]
    for n in range(driver.size):
        now = min(max(now, driver[n] - half), driver[n] + half)
        follower[n] = now
    return follower


@njit(cache=True)
def gap(driver: FloatArray, free: FloatArray, width: float, dt: float) -> FloatArray:  # pragma: no cover
    """Return how far the shaft is ahead of the driven end [m], 0 where that pushes, `width` where it pulls.

    `free` is the speed [m/s] at which the shaft would move with no force on it: gas drives it out, friction holds it.
    In the slack it moves so; where that would press it on a face, the face takes it along.
    """
    ahead = np.zeros_like(driver)
    now = 0.0
    for n in range(1, driver.size):
        now = min(max(now + free[n] * dt - (driver[n] - driver[n - 1]), 0.0), width)
        ahead[n] = now
    return ahead


@njit(cache=True)
def through_spring(
    velocity: FloatArray, factor: FloatArray, table: FloatArray, spring: tuple[float, float, float, float], dt: float
) -> FloatArray:  # pragma: no cover
    """Return the force [N] of a valve behind a series spring: ``dF/dt = k(F) (v - u)``, ``F = factor D(u)``, implicit
    steps.

    `table` holds rows u [m/s] and D [N]; beyond its ends D goes on straight. Each step walks from the last root to the
    next, so a law that falls with speed snaps through as the real thing does.
    """
    force = np.empty_like(velocity)
    stiffness, air, charge, rebound = spring
    now, i, last = 0.0, table.shape[1] // 2, table.shape[1] - 2
    for n in range(velocity.size):
        step = dt * stiffness * (rebound if now < 0.0 else 1.0) / (1.0 + air / (1.0 + abs(now) / charge) ** 2)
        goal = now + step * velocity[n]
        while i < last and factor[n] * table[1, i + 1] + step * table[0, i + 1] < goal:
            i += 1
        while i > 0 and factor[n] * table[1, i] + step * table[0, i] > goal:
            i -= 1
        low = factor[n] * table[1, i] + step * table[0, i]
        high = factor[n] * table[1, i + 1] + step * table[0, i + 1]
        now = factor[n] * (table[1, i] + (table[1, i + 1] - table[1, i]) * (goal - low) / (high - low))
        force[n] = now
    return force


def cell(peak: float) -> float:
    """Return the full scale [N] of the smallest cell that holds 1.2 times a peak [N]."""
    return next(size for size in CELLS if size > 1.2 * peak)


def low_passed(force: FloatArray, chain: Chain) -> FloatArray:
    """Return the force behind the chain's filter, settled on its first value."""
    if chain.low_pass_hz is None:
        return force
    if chain.bessel:
        sos = signal.bessel(chain.order, chain.low_pass_hz, fs=FINE_HZ, norm="mag", output="sos")
    else:
        sos = signal.butter(chain.order, chain.low_pass_hz, fs=FINE_HZ, output="sos")
    passed: FloatArray = signal.sosfilt(sos, force, zi=signal.sosfilt_zi(sos) * force[0])[0]
    return passed


def stepped(values: FloatArray, full_scale: float, bits: int | None) -> FloatArray:
    """Return values as a converter of so many bits over +/- full scale gives them.

    Beyond full scale it is at its end; without bits it has no steps.
    """
    within: FloatArray = np.clip(values, -full_scale, full_scale)
    if bits is None:
        return within
    step = 2.0 * full_scale / 2**bits
    rounded: FloatArray = step * np.round(within / step)
    return rounded


def noise(rng: Generator, time: FloatArray, white: float, coloured: float) -> FloatArray:
    """Return noise of unit peak force: white plus first-order coloured (`COLOUR_S`), rms as given."""
    keep = np.exp(-float(np.median(np.diff(time))) / COLOUR_S)
    shocks = rng.standard_normal(time.size) * np.sqrt(1.0 - keep**2)
    tint: FloatArray = signal.lfilter([1.0], [1.0, -keep], shocks)
    sum_of_both: FloatArray = white * rng.standard_normal(time.size) + coloured * tint
    return sum_of_both


def sampling(path: Path, chain: Chain) -> FloatArray:
    """Return the times at which the rig samples [s]: by the clock, or by the encoder while the machine turns."""
    if chain.per_turn is None:
        return path.time[:: FINE_HZ // chain.rate_hz]
    marks = np.arange(0.0, path.turns[-1], 1.0 / chain.per_turn)
    moving = np.diff(path.turns, prepend=-1.0) > 0.0
    return np.interp(marks, path.turns[moving], path.time[moving])


def _velocity(path: Path, chain: Chain, times: FloatArray, rng: Generator) -> FloatArray | None:
    if chain.v_lag_hz is None:
        return None
    lagged = chain.v_scale * low_passed(path.v, Chain(low_pass_hz=chain.v_lag_hz))
    return np.interp(times, path.time, lagged) + 1e-3 * path.covered * rng.standard_normal(times.size)


def record(path: Path, force: FloatArray, chain: Chain, rng: Generator) -> Samples:
    """Return the channels of the file for a true force [N] at the cell (moving mass not yet in it)."""
    times = sampling(path, chain)
    seen = low_passed(force + chain.mass_kg * path.a, chain)
    late, early = max(chain.delay_s, 0.0), max(-chain.delay_s, 0.0)
    clean = np.interp(times - late, path.time, seen)
    peak = float(np.abs(clean).max())
    zero = peak * (chain.offset + chain.drift * (times / times[-1] - 0.5))
    noisy = clean + zero + peak * noise(rng, times, chain.white, chain.coloured)
    hit = rng.random(times.size) < chain.spikes
    noisy = np.where(hit, noisy + peak * rng.uniform(0.5, 2.0, times.size) * rng.choice([-1.0, 1.0], times.size), noisy)
    half = float(np.abs(path.x).max())
    x = np.interp(times - early, path.time, path.x) + chain.x_noise * half * rng.standard_normal(times.size)
    velocity = _velocity(path, chain, times - early, rng)
    return Samples(
        times, stepped(x, 1.2 * half, chain.bits), stepped(noisy, cell(peak), chain.bits), velocity, float(zero.mean())
    )
