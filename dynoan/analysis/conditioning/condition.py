"""From a sweep as recorded to damping force against valve velocity, saying what was found and taken out."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.conditioning.assumptions import (
    CLEAR_CURVATURE,
    CLEAR_DRIFT,
    CLEAR_FRICTION,
    ENOUGH,
    HUBER_POINTS,
    KNOWN_DELAY,
    LEAST_DRIFT,
    LEAST_WARMING,
    MOST_CORRELATION,
    NO_FRICTION,
    ONE_SPEED,
    PLAUSIBLE_DELAY,
    SPLIT_BIAS,
    STEEPEST,
)
from dynoan.analysis.conditioning.blocks import Block, cut
from dynoan.analysis.conditioning.joint import clusters, enough, middle, reference_temperature, take_apart, with_terms
from dynoan.analysis.conditioning.peak_table import condition_peaks
from dynoan.analysis.conditioning.record import prepare
from dynoan.analysis.conditioning.result import Conditioned
from dynoan.analysis.conditioning.rows import Rows, rows_of
from dynoan.analysis.conditioning.trace_model import Terms, TraceModel, corrected, gas_column, static
from dynoan.analysis.conditioning.velocity import find_motion
from dynoan.analysis.conditioning.words import drift_words, model_words, offset_words
from dynoan.analysis.statistics import robust_scale
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import Sweep

__all__ = ["Conditioned", "condition"]


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
    model, said = _separate(enough(rows), record.dt is not None)
    result = _result(sweep, rows, model, blocks)
    lines = (*used, *record.findings, *motion.findings, *model_words(model, sweep.gas_removed, said))
    doubts = (*record.warnings, *motion.warnings, *offset_words(model, sweep), *drift_words(model), *_energy(rows))
    return replace(result, findings=lines, warnings=doubts)


def _separate(rows: Rows, timed: bool) -> tuple[TraceModel, tuple[str, ...]]:
    """Return the model of a trace, each effect kept only where the record carries it, and what stays open."""
    both = min(int(np.sum(rows.velocity > 0)), int(np.sum(rows.velocity < 0))) >= 20
    terms = Terms(slope=rows.displacement is not None, friction=both, delay=timed, compliance=timed)
    said: list[str] = []
    if not both:
        said.append("one direction alone was recorded: friction cannot be told from gas and zero")
    if timed and terms.slope and _one_speed(rows):
        return _settle_friction(rows, _at_one_speed(rows, terms, said), said), tuple(said)
    model = take_apart(rows, terms)
    if terms.slope and not 0.0 <= model.slope + 3 * model.sd.get("slope", 0.0) <= STEEPEST:
        # Gas pushes harder the further the rod is in, but never like a spring: what looks so is lag.
        model = take_apart(rows, replace(terms, slope=False))
    model = _settle_lag(rows, model, said) if timed else model
    model = _settle_friction(rows, model, said)
    if rows.displacement is not None:
        model = _polytropic(rows, _try(rows, model, "gas_curvature", CLEAR_CURVATURE))
    if rows.temperature is not None and np.ptp(rows.temperature) >= LEAST_WARMING:
        model = _try(rows, model, "drift", CLEAR_DRIFT)
    return model, tuple(said)


def _at_one_speed(rows: Rows, terms: Terms, said: list[str]) -> TraceModel:
    """Return the model of a record at one speed, where gas over travel, delay and compliance look much alike.

    Of the pairs of them the one is taken that fits best with plausible values.
    """
    pairs = [replace(terms, **{left_out: False}) for left_out in ("delay", "slope", "compliance")]
    ways = [
        take_apart(rows, pair, TraceModel(pair, middle=middle(rows), reference_temperature=reference_temperature(rows)))
        for pair in pairs
    ]
    plausible = [
        way for way in ways if 0.0 <= way.slope <= STEEPEST and way.compliance >= 0 and abs(way.delay) < PLAUSIBLE_DELAY
    ]
    said.append("one speed alone: gas force over travel, delay and compliance look alike there; two of them that "
                "explain the record are taken out, each by itself stays open")  # fmt: skip
    best = min(plausible or ways, key=lambda way: way.loss)
    # What the ways do not agree on is not known, however little each of them scatters.
    apart = {
        name: float(np.hypot(best.sd[name], np.std([getattr(way, name) for way in plausible or ways])))
        for name in ("offset", "friction")
        if name in best.sd
    }
    return replace(best, sd=best.sd | apart, influence=None if len(plausible) > 1 else best.influence)


def _one_speed(rows: Rows) -> bool:
    tops = [float(np.percentile(np.abs(rows.velocity[rows.block == b]), 80)) for b in np.unique(rows.block)]
    return max(tops) < ONE_SPEED * min(tops)


def _settle_lag(rows: Rows, model: TraceModel, said: list[str]) -> TraceModel:
    """Keep delay and compliance where several speeds, or a bent curve, tell them apart; else one, and say so."""
    stiff = model.compliance < 2 * model.sd.get("compliance", np.inf)
    apart = abs(model.correlation) < MOST_CORRELATION and model.sd.get("delay", np.inf) < KNOWN_DELAY
    if stiff:
        return take_apart(rows, replace(model.terms, compliance=False), replace(model, compliance=0.0))
    if apart:
        return model
    late = take_apart(rows, replace(model.terms, compliance=False), replace(model, compliance=0.0))
    soft = take_apart(rows, replace(model.terms, delay=False), replace(model, delay=0.0))
    better = late if late.cost <= soft.cost else soft
    said.append("this record cannot tell a delay of the force channel from compliance in series; the one that fits "
                f"better ({'delay' if better is late else 'compliance'}) is taken")  # fmt: skip
    return better


def _settle_friction(rows: Rows, model: TraceModel, said: list[str]) -> TraceModel:
    if not model.terms.friction:
        return model
    sd = model.sd.get("friction", np.inf)
    if model.friction >= CLEAR_FRICTION * sd and model.friction > 0:
        return model
    if not np.isfinite(sd):
        said.append("friction: cannot tell, none taken out")
    elif sd > NO_FRICTION:
        said.append(f"friction: cannot tell ({model.friction:.0f} ± {2 * sd:.0f} N), none taken out")
    else:
        said.append(f"no friction found ({model.friction:.1f} ± {2 * sd:.1f} N)")
    none = 0.0 if sd <= NO_FRICTION else float("nan")
    bias = SPLIT_BIAS * max(sd, abs(model.friction)) if np.isfinite(sd) else 0.0
    without = replace(model, friction=0.0, none_found=none, bias=bias)
    return with_terms(rows, without, replace(model.terms, friction=False))


def _try(rows: Rows, model: TraceModel, name: str, least: float) -> TraceModel:
    """Return the model with one more effect where it stands out of its error by `least`, else as they were."""
    more = with_terms(rows, model, replace(model.terms, **{name: True}))
    value, sd = float(getattr(more, name)), more.sd.get(name, np.inf)
    clear = abs(value) > least * sd and (name != "drift" or abs(value) > LEAST_DRIFT)
    kept = more.sd.get("offset", np.inf) < 3 * model.sd.get("offset", 0.0) + 1.0
    return more if clear and kept else model


def _polytropic(rows: Rows, model: TraceModel) -> TraceModel:
    """Return the model with the gas bent as a polytropic column of gas is, where it bends as one can."""
    if not model.terms.gas_curvature or rows.displacement is None:
        return model
    reach = float(np.max(np.abs(rows.displacement - model.middle)))
    for _ in range(3):
        column = gas_column(model.slope, model.gas_curvature, reach)
        if column == model.column:
            break
        model = with_terms(rows, replace(model, column=column), model.terms)
    return model


def _result(sweep: Sweep, rows: Rows, model: TraceModel, blocks: tuple[Block, ...]) -> Conditioned:
    velocity, force, _ = corrected(rows, model)
    damping = force - static(rows, model)
    if model.drift and rows.temperature is not None:
        damping = damping / (1 + model.drift * (rows.temperature - model.reference_temperature))
    rest = np.abs(damping - model.damping(velocity)[0]) / np.sqrt(rows.variance)
    scale = max(robust_scale(rest), 1e-9)
    calm = np.minimum(1.0, HUBER_POINTS * scale / np.maximum(rest, 1e-12))
    return Conditioned(
        name=sweep.source.name, layout="trace", velocity=velocity, force=damping,
        weight=calm / (rows.variance * scale**2),
        cluster=clusters(rows), influence=_influence(rows, model), cycle=rows.cycle, block=rows.block,
        gas_force=float("nan") if sweep.gas_removed else model.offset, offset=model.offset,
        offset_sd=model.sd.get("offset", float("nan")), friction=_friction(model),
        friction_sd=float(np.hypot(model.sd.get("friction", 0.0), model.bias)),
        temperature=_warm(sweep, rows), samples=sweep.samples,
        model=model, rows=rows, blocks=blocks,
    )  # fmt: skip


def _influence(rows: Rows, model: TraceModel) -> FloatArray | None:
    """Return the influence by cluster where the model were found from all of the rows."""
    whole = model.influence is not None and len(model.influence) == int(clusters(rows)[-1]) + 1
    return model.influence if whole and len(rows) <= ENOUGH else None


def _friction(model: TraceModel) -> float:
    return model.friction if model.terms.friction else model.none_found


def _warm(sweep: Sweep, rows: Rows) -> float | None:
    return sweep.temperature if rows.temperature is None else float(np.median(rows.temperature))


def _energy(rows: Rows) -> tuple[str, ...]:
    power: FloatArray = rows.force * rows.velocity
    centred = float(np.mean(power)) - float(np.mean(rows.force)) * float(np.mean(rows.velocity))
    if centred < 0:
        return ("force and velocity work against damping (their product is negative): one counts backward",)
    return ()
