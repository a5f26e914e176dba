"""From a sweep as recorded to damping force against valve velocity, saying what was found and taken out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.conditioning.assumptions import AGREE, HUBER_POINTS
from dynoan.analysis.conditioning.channels.blocks import Block, cut
from dynoan.analysis.conditioning.channels.mounts import behind
from dynoan.analysis.conditioning.channels.record import prepare
from dynoan.analysis.conditioning.channels.velocity import find_motion
from dynoan.analysis.conditioning.forces.resting import NO_RESTS, Rests, of_records, rests_of
from dynoan.analysis.conditioning.found.result import Conditioned
from dynoan.analysis.conditioning.found.trace_model import TraceModel, trace_model
from dynoan.analysis.conditioning.found.words import DIFFER, MOUNT, PLAY, ROUGHLY, TOGETHER, doubts_of, findings_of
from dynoan.analysis.conditioning.left_open.model_error import loss
from dynoan.analysis.conditioning.samples.play import without_play
from dynoan.analysis.conditioning.samples.rows import Rows, clusters, enough, one_speed, rows_of
from dynoan.analysis.conditioning.samples.together import joined, worth_joining
from dynoan.analysis.conditioning.separating.separation import Separated, least_loss, separate
from dynoan.analysis.conditioning.tables.peak_table import condition_peaks
from dynoan.analysis.parabola import least_of
from dynoan.analysis.statistics import mean_of_stated, robust_scale
from dynoan.errors import FitError
from dynoan.model.sweep import Sweep

#: mounts are tried where oil and mounts give so much together [m/N] and the curve leaves so many times what noise
#: makes; which share of it they may be [1]; believed where that leaves less than this share [1]; and how often what
#: still gives is shared out anew; judged on made worlds
GIVES, UNEXPLAINED, MOUNTS, BETTER, ROUNDS = 1e-7, 2.0, (0.0, 0.4, 0.7, 1.0), 0.8, 2

__all__ = ["Conditioned", "condition", "condition_runs"]


def condition(sweep: Sweep, rod: float | None = None) -> Conditioned:
    """Return a sweep's damping force over valve velocity, with gas, zero, friction and lag found and taken out.

    Parameters
    ----------
    sweep
        A trace with force and displacement or velocity, or a peak table. SI, positive in compression.
    rod
        Diameter of the rod, where known: with a stated pressure it tells a peak table's gas force. [m]

    Returns
    -------
    :
        Velocity [m/s], damping force [N] and the findings in words; nothing is corrected without a line there.

    Raises
    ------
    FitError
        If the record holds too few samples, no motion or a stuck channel, or has no speed.
    """
    if sweep.layout == "peaks":
        return condition_peaks(sweep, rod)
    return _conditioned(sweep, *_taken_apart(sweep))


@dataclass(frozen=True)
class Read:
    """A trace cut and thinned, before anything is fitted to it."""

    rows: Rows
    blocks: tuple[Block, ...]
    lines: tuple[str, ...]
    doubts: tuple[str, ...]
    speed_sd: float = 0.0  #: standard error of the scale of speed, a share
    rests: Rests = NO_RESTS
    steady: bool = False  #: whether cycles of constant speed alone are in it
    joints: tuple[str, ...] = ()  #: which of the lines say what loose or soft joints were taken out


def _taken_apart(sweep: Sweep) -> tuple[Read, Separated]:
    """Return a trace taken apart; behind a mount that gives, where cycles show that this leaves far less of it."""
    read = _read(sweep)
    found = separate(read.rows, gas_out=bool(sweep.gas_removed), rests=read.rests)
    mount = 0.0
    for _ in range(ROUNDS if read.steady else 0):
        left = loss(found.rows, found.rest)
        if found.lag.give < GIVES or left < UNEXPLAINED:
            break
        softer = mount + _mounts(sweep, found.lag.give, mount) * found.lag.give
        if softer == mount:
            break
        one = _read(sweep, softer)
        other = separate(one.rows, gas_out=bool(sweep.gas_removed), rests=one.rests)
        if loss(other.rows, other.rest) > BETTER * left:
            break
        read, found, mount = one, other, softer
    return read, found


def _mounts(sweep: Sweep, give: float, mount: float) -> float:
    """Return which share of what gives beside a known mount is mounts, too [1]; both in [m/N]."""
    losses = []
    for share in MOUNTS:
        one = _read(sweep, mount + share * give)
        losses.append(least_loss(one.rows, gas_out=bool(sweep.gas_removed), rests=one.rests))
    return least_of(np.array(MOUNTS), np.array(losses))


def _read(sweep: Sweep, mount: float = 0.0) -> Read:
    """Return a trace cut and thinned, of a shock behind a mount that gives. [m/N]"""
    record = prepare(sweep)
    signal = record.displacement if record.displacement is not None else record.velocity
    assert signal is not None
    motion = behind(record, find_motion(record, cut(signal, record.stretches)), mount)
    blocks = motion.blocks
    rows, used = rows_of(record, blocks, motion)
    rows, play = without_play(enough(rows))
    if int(np.count_nonzero(rows.count)) < 20:
        raise FitError(
            "hardly anything moves in this record", where=sweep.source.name, hint=f"{len(rows)} usable samples"
        )
    loose = [PLAY.format(play.travel * 1e3)] if play is not None else []
    loose += [MOUNT.format(*(float(f"{1e-3 * by / mount:.2g}") for by in (1.0 / ROUGHLY, ROUGHLY)))] if mount else []
    return Read(rows, blocks, (*used, *record.findings, *motion.findings, *loose), (*record.warnings, *motion.warnings),
                motion.scale_sd, rests_of(record), motion.steady, tuple(loose))  # fmt: skip


def _conditioned(sweep: Sweep, read: Read, found: Separated) -> Conditioned:
    rows = found.rows
    both = min(int(np.sum(rows.velocity > 0)), int(np.sum(rows.velocity < 0))) >= 20
    model = trace_model(found, _middle(rows), _temperature(rows), both)
    lines = (*read.lines, *findings_of(model, sweep, one_speed=one_speed(rows)))
    doubts = (*read.doubts, *doubts_of(model, sweep), *_energy(rows))
    return _result(sweep, replace(read, lines=lines, doubts=doubts), found, model)


def condition_runs(sweeps: Sequence[Sweep], rod: float | None = None) -> list[Conditioned]:
    """Return the runs of one setting, each by itself, or as one record where that tells what one speed cannot.

    Runs of one speed each leave gas, friction and lag open; runs of other speeds beside them tell. They are taken as
    one record where that explains them nearly as well as each by itself does: else a load cell was zeroed between
    them, or another thing changed, and each stands by itself.

    Parameters
    ----------
    sweeps
        Of one setting.
    rod
        As for `condition`. [m]

    Raises
    ------
    FitError
        As `condition`.
    """
    if len(sweeps) < 2 or any(s.layout == "peaks" or s.gas_removed != sweeps[0].gas_removed for s in sweeps):
        return [condition(sweep, rod) for sweep in sweeps]
    reads, fits = zip(*(_taken_apart(sweep) for sweep in sweeps), strict=True)
    gas_out = bool(sweeps[0].gas_removed)
    apart = [_conditioned(*one) for one in zip(sweeps, reads, fits, strict=True)]
    runs = [read.rows for read in reads]
    if not worth_joining(runs):
        return apart
    rows = enough(joined(runs))
    rests = of_records([read.rests for read in reads])
    found = separate(rows, gas_out=gas_out, rests=rests)
    alone = [loss(fit.rows, fit.rest) for fit in fits]
    if loss(found.rows, found.rest) > AGREE * float(np.average(alone, weights=[len(fit.rows) for fit in fits])):
        return [replace(one, findings=(*one.findings, DIFFER)) for one in apart]
    names = [one.name for one in apart]
    doubts = tuple(f"{name}: {text}" for name, read in zip(names, reads, strict=True) for text in read.doubts)
    blocks = tuple(b for one in reads for b in one.blocks)
    joints = dict.fromkeys(line for one in reads for line in one.joints)
    read = Read(rows, blocks, (TOGETHER.format(len(runs)), *joints), doubts, max(read.speed_sd for read in reads),
                rests)  # fmt: skip
    warm = mean_of_stated([sweep.temperature for sweep in sweeps])
    whole = _conditioned(replace(sweeps[0], temperature=warm), read, found)
    return [replace(whole, name=" + ".join(names), samples=sum(sweep.samples for sweep in sweeps))]


def _result(sweep: Sweep, read: Read, found: Separated, model: TraceModel) -> Conditioned:
    rows = found.rows
    off = np.abs(found.rest) / np.sqrt(rows.variance)
    scale = max(robust_scale(off), 1e-9)
    calm = np.minimum(1.0, HUBER_POINTS * scale / np.maximum(off, 1e-12))
    warm = sweep.temperature if rows.temperature is None else float(np.median(rows.temperature))
    return Conditioned(
        name=sweep.source.name, layout="trace", velocity=found.velocity, force=found.damping,
        weight=calm / (rows.variance * scale**2), cluster=clusters(rows), cycle=rows.cycle, block=rows.block,
        gas_force=float("nan") if sweep.gas_removed else model.offset.value,
        gas_rate=model.slope.value if model.slope.clear else float("nan"), offset=model.offset.value,
        offset_sd=model.offset.sd, friction=model.friction.value, friction_sd=model.friction.sd, speed_sd=read.speed_sd,
        temperature=warm, samples=sweep.samples, model=model, open=model.open, rows=rows, blocks=read.blocks,
        findings=read.lines, warnings=read.doubts,
    )  # fmt: skip


def _middle(rows: Rows) -> float:
    """Return mid-stroke. [m]"""
    x = rows.displacement
    return 0.0 if x is None else 0.5 * float(np.min(x) + np.max(x))


def _temperature(rows: Rows) -> float:
    """Return the temperature that forces are taken to, NaN where none was recorded. [°C]"""
    return float("nan") if rows.temperature is None else float(np.mean(rows.temperature))


def _energy(rows: Rows) -> tuple[str, ...]:
    power = rows.force * rows.velocity
    centred = float(np.mean(power)) - float(np.mean(rows.force)) * float(np.mean(rows.velocity))
    if centred < 0:
        return ("force and velocity work against damping (their product is negative): one counts backward",)
    return ()
