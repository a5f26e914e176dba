"""Velocity: from a crank motion fitted to each block, else from local polynomials; a recorded one is checked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import cast

import numpy as np

from dynoan.analysis.conditioning.assumptions import ENOUGH_CYCLES, NOISY_SPEED, UNCHECKED_SCALE
from dynoan.analysis.conditioning.channels.blocks import Block, lone_cycles, mostly_steady
from dynoan.analysis.conditioning.channels.crank import crank, crank_at
from dynoan.analysis.conditioning.channels.record import Record
from dynoan.analysis.conditioning.channels.slopes import (
    EVEN,
    TURNING,
    local_slope,
    longest_window,
    slope_noise,
    steady_slopes,
)
from dynoan.analysis.conditioning.channels.standing import pauses, stops
from dynoan.errors import FitError
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.ramps import ramps
from dynoan.model.repeats import white

#: a crank motion is fitted to this many cycles at once, so that a slow drift of the motor does no harm
TOGETHER = 8
#: lone cycles are cranks' where so many are [1], and such a share of all; judged: of a chirp hardly any is
LEAST_LONE, MOST_LONE = 2, 0.7
#: a motion is a crank's also where samples stray from it by so much of its stroke at most [1], none as the one before:
#: where their time trembles they do so the more, the faster it is; judged
STRAYS = 0.005
OPPOSITE = "recorded velocity has the opposite sign of the slope of displacement, which is used in its place"
DISAGREES = (
    "recorded velocity does not agree with the slope of displacement, which is used in its place; check the unit of "
    "both channels"
)


@dataclass(frozen=True)
class StrokeMotion:
    """Velocity of every sample, and which samples move as their block does."""

    velocity: FloatArray  #: [m/s]
    settled: BoolArray  #: True inside steady blocks, and beside them where the motion is still theirs
    error: FloatArray  #: standard error of each by the noise of displacement, zero where a crank motion gave it [m/s]
    findings: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    scale_sd: float = 0.0  #: standard error of the velocity's scale, a share
    blocks: tuple[Block, ...] = ()  #: of the record; a lone cycle that turns evenly is steady, too
    steady: bool = True  #: whether the steady ones are used alone


def find_motion(record: Record, blocks: tuple[Block, ...]) -> StrokeMotion:
    """Return the velocity of a record, derived or checked.

    Raises
    ------
    FitError
        If velocity was not recorded and time is unknown.
    """
    if record.displacement is None or record.dt is None:
        if record.velocity is None:
            raise FitError("velocity was not recorded and time is unknown", hint="state the sample rate")
        why = "displacement was not recorded" if record.displacement is None else "time is unknown"
        settled = np.zeros(record.samples, dtype=bool)
        for block in blocks:
            settled[block.start : block.stop] = block.kind == "steady"
        steady = mostly_steady(blocks, pauses(record.velocity, record.displacement, record.dt))
        return StrokeMotion(
            record.velocity,
            settled,
            np.zeros(record.samples),
            (
                f"velocity as recorded; {why}, so it could not be checked: it may read {200 * UNCHECKED_SCALE:.0f} % "
                "too fast or too slow, and the band allows for that",
            ),
            scale_sd=UNCHECKED_SCALE,
            blocks=blocks,
            steady=steady,
        )
    derived = _derive(record, blocks, record.displacement, record.dt)
    return derived if record.velocity is None else _check(record, record.velocity, derived, record.dt)


def _derive(record: Record, blocks: tuple[Block, ...], x: FloatArray, dt: float) -> StrokeMotion:
    n = len(x)
    velocity = np.full(n, np.nan)
    settled = np.zeros(n, dtype=bool)
    cranked = total = 0
    for block in blocks:
        if block.kind != "steady":
            continue
        for first in range(0, block.cycles, TOGETHER):
            last = block.cycles if block.cycles - first < 2 * TOGETHER else first + TOGETHER
            span, inner = (block.bounds[first], block.bounds[last]), block.bounds[first + 1 : last]
            fits = _crank_block(record, span, block.period, velocity, settled)
            if not fits and len(inner) >= 3:
                # The first cycle and the last may still come up to speed, or run out.
                fits = _crank_block(record, (inner[0], inner[-1]), block.period, velocity, settled)
            cranked += fits
            total += 1
            if last == block.cycles:
                break
    if total:
        blocks = tuple(_evenly(record, block, velocity, settled) for block in blocks)
    else:
        blocks, cranked = _lone_cycles(record, blocks, velocity, settled)
        total = cranked
    open_ = np.isnan(velocity)
    window, steady = _local_window(blocks, record, x)
    error = np.zeros(n)
    if open_.any():
        # Where most cycles are no crank's, as triangles are not, a long window would take the edge off their corners.
        even = steady and 2 * cranked >= total
        slope, noise = _by_polynomials(record, x, window) if even else _adaptively(record, x)
        velocity[open_], error[open_] = slope[open_] / dt, noise[open_] / dt
    for block in blocks:
        if block.kind == "steady":
            settled[block.start : block.stop] = True
    if total and cranked == total:
        how = "velocity from a crank motion fitted to each block of constant speed"
    elif cranked:
        how = "velocity from fitted crank motions where the speed held, from the slope of displacement elsewhere"
    else:
        how = "velocity from the slope of displacement"
    return StrokeMotion(velocity, settled, error, (how,), blocks=blocks, steady=steady)


def _by_polynomials(record: Record, x: FloatArray, window: int) -> tuple[FloatArray, FloatArray]:
    """Return the slope of displacement within each stretch, zero in the pauses between them, and its standard error.

    Shape (n,) each. [m/sample]
    """
    slope, order = np.zeros(len(x)), 4 if window <= 5 else 3
    for a, b in record.stretches or ((0, len(x)),):
        if b - a >= 3:
            # A window of five leaves nothing to smooth: with few samples a cycle the polynomial goes through them all.
            slope[a:b] = local_slope(x[a:b], window, order)
    return slope, np.full(len(x), slope_noise(window, order) * record.displacement_noise)


def _adaptively(record: Record, x: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the same over windows as long as the motion allows, longer ones on ramps and where the shock stands."""
    slope, error, dt = np.zeros(len(x)), np.zeros(len(x)), cast(float, record.dt)
    for a, b in record.stretches or ((0, len(x)),):
        if b - a >= 5:
            turning, even = steady_slopes(x[a:b], record.displacement_noise, (TURNING, EVEN))
            evenly = stops(even[0] / dt, x[a:b], dt) | ramps(even[0] / dt)
            slope[a:b], error[a:b] = (np.where(evenly, e, t) for e, t in zip(even, turning, strict=True))
    return slope, error


def _evenly(record: Record, block: Block, velocity: FloatArray, settled: BoolArray) -> Block:
    """Return a lone cycle as a steady block where a crank motion fits it, with its velocity written; else as it is."""
    if block.kind == "steady" or block.cycles != 1:
        return block
    fits = _crank_block(record, (block.start, block.stop), block.period, velocity, settled)
    return replace(block, kind="steady") if fits else block


def _lone_cycles(
    record: Record, blocks: tuple[Block, ...], velocity: FloatArray, settled: BoolArray
) -> tuple[tuple[Block, ...], int]:
    """Return the same of a record of lone cycles, one a speed, cut where most are a crank's, and how many are.

    As it is where not most are: a motion whose speed changes all the time has cycles that look nearly so.
    """
    best, cranked = blocks, 0
    for lone in lone_cycles(cast(FloatArray, record.displacement)):
        tried, moves = np.full(record.samples, np.nan), np.zeros(record.samples, dtype=bool)
        least = max(LEAST_LONE, MOST_LONE * len(lone), cranked + 1)
        found, many = list[Block](), 0
        for block in lone:
            found.append(_evenly(record, block, tried, moves))
            many += found[-1].kind == "steady"
            if many + len(lone) - len(found) < least:
                break  # those that are left are too few
        if many >= least:
            best, cranked = tuple(found), many
            velocity[:], settled[:] = tried, moves
    return best, cranked


def _local_window(blocks: tuple[Block, ...], record: Record, x: FloatArray) -> tuple[int, bool]:
    """Return the window of local polynomials, and whether steady blocks alone are used.

    They are where they hold most of what moves, or where noise of displacement hides how fast it moves elsewhere.
    """
    periods = [b.period for b in blocks if b.cycles >= 1 and (len(blocks) > 1 or b.kind == "steady")]
    # A cubic over a seventh of a cycle is off by a thousandth of the peak.
    longest = int(min(periods) / 7) if periods else 10**6
    wide = max(5, min(longest_window(x, record.displacement_noise), longest)) | 1
    runs = sum(b.cycles for b in blocks if b.kind == "steady")
    noise = slope_noise(wide) * record.displacement_noise / cast(float, record.dt)
    if mostly_steady(blocks, pauses(x, x, record.dt)) or (runs >= ENOUGH_CYCLES and noise > NOISY_SPEED):
        # Nothing outside the steady blocks is used but to see where the shock stands still.
        return max(5, min(longest, 31)) | 1, True
    return wide, False


def _crank_block(
    record: Record, span: tuple[int, int], period: float, velocity: FloatArray, settled: BoolArray
) -> bool:
    """Fit one run of cycles; write its velocity, also beside it as long as the motion stays the same."""
    x, dt, (a, b) = cast(FloatArray, record.displacement), cast(float, record.dt), span
    middle = 0.5 * (a + b - 1) * dt
    harmonics, omega, fitted, rest, all_ = 0, 2 * np.pi / (period * dt), np.empty(0), np.inf, False
    recorded = period * float(np.mean(record.own[a:b]))
    # Any lone cycle closes on itself: with many harmonics two halves of different speed would fit, too.
    lone = b - a < 1.5 * period
    size = (1.5, 1e-4) if lone else (3.0, 3e-4)
    limit = max(size[0] * record.displacement_noise, size[1] * float(np.ptp(x[a:b])))
    for harmonics in (4,) if lone else (4, 8, 14):
        at = a + np.flatnonzero((record.good & record.own & (True if record.fresh is None else record.fresh))[a:b])
        # Small enough for BLAS to start no threads.
        good = at[:: max(1, len(at) * (2 * harmonics + 2) // 9000)]
        if harmonics > recorded / 3 or len(good) < 3 * harmonics:
            break
        omega, fitted, rest = crank(np.asarray(good * dt - middle), x[good], omega, harmonics)
        if record.fresh is not None or (harmonics == 4 and rest < STRAYS * float(np.ptp(x[a:b]))):
            all_ = white(x[good] - crank_at(np.asarray(good * dt - middle), omega, fitted)[0])
        if rest < 1.3 * record.displacement_noise or all_:
            break
    if not (rest <= limit or all_):
        return False
    reach = round(period)
    lo, hi = max(a - reach, 0), min(b + reach, len(x))
    xs, vs = crank_at(np.asarray(np.arange(lo, hi) * dt - middle), omega, fitted)
    same = np.abs(x[lo:hi] - xs) < 6 * max(record.displacement_noise, rest) + 1e-7
    same[a - lo : b - lo] = True
    # Displacement shows a change of motion later than velocity does, hence the margin.
    margin = max(2, round(0.05 * period))
    first = a - lo - max(int(np.argmin(np.append(same[: a - lo][::-1], False))) - margin, 0)
    last = b - lo + max(int(np.argmin(np.append(same[b - lo :], False))) - margin, 0)
    # A block beside this one has its own fit: only fill what is still open.
    part = slice(lo + first, lo + last)
    fresh = np.isnan(velocity[part])
    velocity[part][fresh] = vs[first:last][fresh]
    velocity[a:b] = vs[a - lo : b - lo]
    settled[part] = True
    return True


def _check(record: Record, recorded: FloatArray, derived: StrokeMotion, dt: float) -> StrokeMotion:
    """Hold the recorded velocity against the derivative of displacement: scale, sign and delay."""
    use = record.good & (np.abs(derived.velocity) > 0.05 * np.max(np.abs(derived.velocity)))
    if not use.any():
        return derived
    d, r = derived.velocity[use], recorded[use]
    rate = np.gradient(derived.velocity)[use] / dt
    (scale, late), *_ = np.linalg.lstsq(np.column_stack([d, -rate]), r, rcond=None)
    delay = float(late / scale) if abs(scale) > 1e-6 else 0.0
    rest = float(np.std(r - scale * d + late * rate)) / max(float(np.std(r)), 1e-12)
    late_by = f"{abs(delay) * 1e3:.2f} ms {'late' if delay >= 0 else 'early'}"
    findings = f"recorded velocity is {scale:.3f} times what the displacement gives, {late_by}"
    if scale < 0:
        return replace(derived, findings=(findings,), warnings=(OPPOSITE,))
    if abs(scale - 1) > 0.02 or rest > 0.2:
        return replace(derived, findings=(findings,), warnings=(DISAGREES,))
    return replace(derived, findings=(findings, f"{derived.findings[0]}; it agrees with the recorded one"))
