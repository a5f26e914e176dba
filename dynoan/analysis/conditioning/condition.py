"""From a sweep as recorded to damping force against valve velocity, saying what was found and taken out."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.conditioning.blocks import Block, cut
from dynoan.analysis.conditioning.joint import ENOUGH, clusters, enough, middle, take_apart, warm, with_terms
from dynoan.analysis.conditioning.peak_table import condition_peaks
from dynoan.analysis.conditioning.record import prepare
from dynoan.analysis.conditioning.result import Conditioned
from dynoan.analysis.conditioning.rows import Rows, rows_of
from dynoan.analysis.conditioning.trace_model import Parts, Terms, corrected, gas_column, static
from dynoan.analysis.conditioning.velocity import find_motion
from dynoan.analysis.conditioning.words import drift_words, offset_words, parts_words
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import Sweep

__all__ = ["Conditioned", "condition"]

#: delay and compliance are told apart where their errors are tied less than this
TIED = 0.985
#: and the delay is known to this [s]
KNOWN = 4e-4
#: share of friction that is not clear enough to take out, or of its error, that is doubted: most often none is there
MISSED = 0.1
#: gas force over travel beyond this is none [N/m]
STEEPEST = 4000.0


def condition(sweep: Sweep) -> Conditioned:
    """Return a sweep's damping force over valve velocity, with gas, zero, friction and lag found and taken out.

    Parameters
    ----------
    sweep
        A trace with force and displacement or velocity, or a peak table. SI, positive in compression.

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
        return condition_peaks(sweep)
    record = prepare(sweep)
    signal = record.displacement if record.displacement is not None else record.velocity
    assert signal is not None
    blocks = cut(signal)
    motion = find_motion(record, blocks)
    rows, used = rows_of(record, blocks, motion)
    if len(rows) < 20:
        raise FitError(f"{sweep.source.name}: hardly anything moves in this record; {len(rows)} usable samples")
    parts, said = _separate(enough(rows), record.dt is not None)
    result = _result(sweep, rows, parts, blocks)
    lines = (*used, *record.findings, *motion.findings, *parts_words(parts, sweep.gas_removed, said))
    doubts = (*record.warnings, *motion.warnings, *offset_words(parts, sweep), *drift_words(parts), *_energy(rows))
    return replace(result, findings=lines, warnings=doubts)


def _separate(rows: Rows, timed: bool) -> tuple[Parts, tuple[str, ...]]:
    """Return the parts of a trace, each effect kept only where the record carries it, and what stays open."""
    both = min(int(np.sum(rows.velocity > 0)), int(np.sum(rows.velocity < 0))) >= 20
    terms = Terms(slope=rows.displacement is not None, friction=both, delay=timed, compliance=timed)
    said: list[str] = []
    if not both:
        said.append("one direction alone was recorded: friction cannot be told from gas and zero")
    if timed and terms.slope and _one_speed(rows):
        return _settle_friction(rows, _at_one_speed(rows, terms, said), said), tuple(said)
    parts = take_apart(rows, terms)
    if terms.slope and not 0.0 <= parts.slope + 3 * parts.sd.get("slope", 0.0) <= STEEPEST:
        # Gas pushes harder the further the rod is in, but never like a spring: what looks so is lag.
        parts = take_apart(rows, replace(terms, slope=False))
    parts = _settle_lag(rows, parts, said) if timed else parts
    parts = _settle_friction(rows, parts, said)
    if rows.displacement is not None:
        parts = _polytropic(rows, _try(rows, parts, "bow", 4.0))
    if rows.temperature is not None and np.ptp(rows.temperature) >= 3.0:
        parts = _try(rows, parts, "drift", 6.0)
    return parts, tuple(said)


def _at_one_speed(rows: Rows, terms: Terms, said: list[str]) -> Parts:
    """Return the parts of a record at one speed, where gas over travel, delay and compliance look much alike.

    Of the pairs of them the one is taken that fits best with plausible values.
    """
    pairs = [replace(terms, **{left_out: False}) for left_out in ("delay", "slope", "compliance")]
    ways = [take_apart(rows, pair, Parts(pair, middle=middle(rows), warm=warm(rows))) for pair in pairs]
    plausible = [way for way in ways if 0.0 <= way.slope <= STEEPEST and way.compliance >= 0 and abs(way.delay) < 0.005]
    said.append("one speed alone: gas force over travel, delay and compliance look alike there; two of them that "
                "explain the record are taken out, each by itself stays open")  # fmt: skip
    best = min(plausible or ways, key=lambda way: way.loss)
    # What the ways do not agree on is not known, however little each of them scatters.
    apart = {
        name: float(np.hypot(best.sd[name], np.std([getattr(way, name) for way in plausible or ways])))
        for name in ("offset", "friction")
        if name in best.sd
    }
    return replace(best, sd=best.sd | apart, pulls=None if len(plausible) > 1 else best.pulls)


def _one_speed(rows: Rows) -> bool:
    tops = [float(np.percentile(np.abs(rows.velocity[rows.block == b]), 80)) for b in np.unique(rows.block)]
    return max(tops) < 1.5 * min(tops)


def _settle_lag(rows: Rows, parts: Parts, said: list[str]) -> Parts:
    """Keep delay and compliance where several speeds, or a bent curve, tell them apart; else one, and say so."""
    stiff = parts.compliance < 2 * parts.sd.get("compliance", np.inf)
    apart = abs(parts.tie) < TIED and parts.sd.get("delay", np.inf) < KNOWN
    if stiff:
        return take_apart(rows, replace(parts.terms, compliance=False), replace(parts, compliance=0.0))
    if apart:
        return parts
    late = take_apart(rows, replace(parts.terms, compliance=False), replace(parts, compliance=0.0))
    soft = take_apart(rows, replace(parts.terms, delay=False), replace(parts, delay=0.0))
    better = late if late.cost <= soft.cost else soft
    said.append("this record cannot tell a delay of the force channel from compliance in series; the one that fits "
                f"better ({'delay' if better is late else 'compliance'}) is taken")  # fmt: skip
    return better


def _settle_friction(rows: Rows, parts: Parts, said: list[str]) -> Parts:
    if not parts.terms.friction:
        return parts
    sd = parts.sd.get("friction", np.inf)
    if parts.friction >= 4 * sd and parts.friction > 0:
        return parts
    if not np.isfinite(sd):
        said.append("friction: cannot tell, none taken out")
    elif sd > 10.0:
        said.append(f"friction: cannot tell ({parts.friction:.0f} ± {2 * sd:.0f} N), none taken out")
    else:
        said.append(f"no friction found ({parts.friction:.1f} ± {2 * sd:.1f} N)")
    none = 0.0 if sd <= 10.0 else float("nan")
    missed = MISSED * max(sd, abs(parts.friction)) if np.isfinite(sd) else 0.0
    without = replace(parts, friction=0.0, none_found=none, missed=missed)
    return with_terms(rows, without, replace(parts.terms, friction=False))


def _try(rows: Rows, parts: Parts, name: str, least: float) -> Parts:
    """Return the parts with one more effect where it stands out of its error by `least`, else as they were."""
    more = with_terms(rows, parts, replace(parts.terms, **{name: True}))
    value, sd = float(getattr(more, name)), more.sd.get(name, np.inf)
    clear = abs(value) > least * sd and (name != "drift" or abs(value) > 3e-4)
    kept = more.sd.get("offset", np.inf) < 3 * parts.sd.get("offset", 0.0) + 1.0
    return more if clear and kept else parts


def _polytropic(rows: Rows, parts: Parts) -> Parts:
    """Return the parts with the gas bent as a polytropic column of gas is, where it bends as one can."""
    if not parts.terms.bow or rows.displacement is None:
        return parts
    reach = float(np.max(np.abs(rows.displacement - parts.middle)))
    for _ in range(3):
        column = gas_column(parts.slope, parts.bow, reach)
        if column == parts.column:
            break
        parts = with_terms(rows, replace(parts, column=column), parts.terms)
    return parts


def _result(sweep: Sweep, rows: Rows, parts: Parts, blocks: tuple[Block, ...]) -> Conditioned:
    velocity, force, _ = corrected(rows, parts)
    damping = force - static(rows, parts)
    if parts.drift and rows.temperature is not None:
        damping = damping / (1 + parts.drift * (rows.temperature - parts.warm))
    rest = np.abs(damping - parts.damping(velocity)[0]) / np.sqrt(rows.variance)
    scale = max(float(np.median(rest)) / 0.6745, 1e-9)
    calm = np.minimum(1.0, 3.0 * scale / np.maximum(rest, 1e-12))
    return Conditioned(
        name=sweep.source.name, layout="trace", velocity=velocity, force=damping,
        weight=calm / (rows.variance * scale**2),
        cluster=clusters(rows), pulls=_pulls(rows, parts), cycle=rows.cycle, block=rows.block,
        gas_force=float("nan") if sweep.gas_removed else parts.offset, offset=parts.offset,
        offset_sd=parts.sd.get("offset", float("nan")), friction=_friction(parts),
        friction_sd=float(np.hypot(parts.sd.get("friction", 0.0), parts.missed)),
        temperature=_warm(sweep, rows), samples=sweep.samples,
        parts=parts, rows=rows, blocks=blocks,
    )  # fmt: skip


def _pulls(rows: Rows, parts: Parts) -> FloatArray | None:
    """Return the pulls by cluster where the parts were found from all of the rows."""
    whole = parts.pulls is not None and len(parts.pulls) == int(clusters(rows)[-1]) + 1
    return parts.pulls if whole and len(rows) <= ENOUGH else None


def _friction(parts: Parts) -> float:
    return parts.friction if parts.terms.friction else parts.none_found


def _warm(sweep: Sweep, rows: Rows) -> float | None:
    return sweep.temperature if rows.temperature is None else float(np.median(rows.temperature))


def _energy(rows: Rows) -> tuple[str, ...]:
    power: FloatArray = rows.force * rows.velocity
    centred = float(np.mean(power)) - float(np.mean(rows.force)) * float(np.mean(rows.velocity))
    if centred < 0:
        return ("force and velocity work against damping (their product is negative): one counts backward",)
    return ()
