"""A continuous trace: samples in time of force and of displacement or velocity or both."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import ChannelDecision
from importers.assumptions.channels import RATE_AGREES, RATE_SAME
from importers.assumptions.sweeps import TRACE_ROWS
from importers.channels.agreement import agreement
from importers.channels.clock_steps import judged_steps
from importers.channels.decided import ForceLead, SweepChannels
from importers.channels.doubts import doubts
from importers.channels.motion_kind import motion_warnings, top_speed
from importers.channels.needed import refuse_lacking
from importers.channels.nominal_rate import nominal_rate
from importers.channels.plausible import (
    against_pressure,
    against_stroke,
    below_usual,
    beyond_usual,
    magnitudes_of_force,
    stated_gas_force,
)
from importers.channels.rate import SampleRate, rate_of_trace, stated_rate
from importers.channels.refusals import refuse_channels, refuse_pull
from importers.channels.rest_force import CountedMotion, largest, rest_force
from importers.channels.scaling import ScaledChannels, scale_channels
from importers.channels.set_between import set_between
from importers.channels.sign import Signs, orient
from importers.channels.unit_inference import ChannelScale
from importers.channels.units import unit_of
from importers.parts import SweepPart
from importers.stated import rates_apart
from importers.tables import Extent
from importers.words.unit_text import UnitScale


def trace_channels(part: SweepPart) -> SweepChannels:
    """Return the channels of a trace.

    Raises
    ------
    ReadError
        If a channel that a curve needs is missing, stuck or of an unknown unit.
    """
    refuse_lacking(part)
    raw = {c: part.values[col.index] for c, col in part.roles.channels.items() if col.index in part.values}
    if part.rows < TRACE_ROWS:
        raise ReadError(
            f"only {part.rows} rows from line {part.table.first_line}",
            where=part.name,
            hint=f"a trace needs at least {TRACE_ROWS}",
        )
    stated = stated_rate(part)
    column = _rate_column_beaten(part, raw, stated)
    if column.apart:
        raw.pop("time")
    elif column.said:
        raw["time"] = raw["time"] * column.stretch
    scaled = scale_channels(part, raw, None if "time" in raw else stated.hertz)
    refuse_channels(part, raw, scaled.scales)
    rate = rate_of_trace(raw, scaled, stated)
    if rate.hertz is None:
        rate = nominal_rate(part, scaled.probe) or rate
    _refuse_unmoved(part, scaled, rate.hertz)
    v = scaled.probe.velocity(rate.hertz or 1.0)
    signs = _signs(part, scaled, v, rate.hertz)
    ends = _ends(part, raw, scaled, signs)  # before the values are scaled where they are
    values = _values(part, raw, scaled, signs)
    fast = top_speed(v) if rate.hertz or scaled.probe.has("velocity") else 0.0
    if rate.hertz:
        refuse_pull(part, _counted(scaled, v), fast)
    judged = rate.steps if rate.steps and scaled.scales["time"].scale == UnitScale(1.0, 0.0) else None
    warnings = (*column.said, *scaled.warnings, *rate.warnings, *signs.warnings,
                *_unusual(part, _counted(scaled, v), fast),
                *_kind(scaled, v, rate.hertz, fast),
                *doubts(values, ends, scaled.probe, rate.hertz, fast, over=part.table.over, judged=judged,
                        set_by=set_between(part)))  # fmt: skip
    decisions = _decisions(part, scaled, signs, rate)
    return SweepChannels(values, decisions, rate.hertz, warnings, ForceLead(signs.force, signs.by))


class _BeatenColumn(NamedTuple):
    """A time column against a rate that the user states, which wins."""

    said: tuple[str, ...] = ()  #: the warning; none where both are one rate
    stretch: float = 1.0  #: what its stamps are multiplied by, so that they are at the stated rate [1]
    apart: bool = False  #: whether it is so far off that its stamps are none


def _rate_column_beaten(part: SweepPart, raw: Mapping[str, FloatArray], stated: SampleRate) -> _BeatenColumn:
    """Return how a rate that the user states wins over a time column: a little off keeps its gaps, far off nothing."""
    if "time" not in raw or not part.table.options.rate or not stated.hertz:
        return _BeatenColumn()
    found = unit_of(part, "time", part.roles.channels["time"])
    step = judged_steps(raw["time"]).usual * (ChannelScale.of("time", found.unit, "").scale.factor if found.unit else 0)
    stretch = 1 / (step * stated.hertz) if step > 0 else 0.0
    if abs(stretch - 1) < RATE_SAME:
        return _BeatenColumn()
    column = f"gives {1 / step:.5g} Hz" if step > 0 else "gives no rate"
    said = f"the time column {column}, you say {stated.hertz:.5g} Hz: you were believed"
    return _BeatenColumn((said,), stretch, apart=abs(stretch - 1) >= RATE_AGREES)


def _unusual(part: SweepPart, motion: CountedMotion, fast: float) -> tuple[str, ...]:
    """Return the warnings of values that no shock on a dyno shows, for the speed that is reached. [m/s]"""
    where = motion.displacement
    rest = rest_force(motion._replace(displacement=None)) if part.facts.rod and part.facts.gas_pressure else None
    gas = against_pressure(part.facts, rest.force if rest and rest.samples else None)
    most = largest(motion.force)
    weak = below_usual(np.inf, most)  # a slow trace is told of as what it is
    stroke = against_stroke(part.facts, where)
    magnitudes = magnitudes_of_force(motion.force, motion.velocity)
    return (*beyond_usual(fast, most), *weak, *gas, *stroke, *magnitudes)


def _kind(scaled: ScaledChannels, velocity: FloatArray, rate: float | None, fast: float) -> tuple[str, ...]:
    time = scaled.probe.joined("time") if scaled.probe.has("time") else None
    return motion_warnings(velocity, rate, fast, time) if rate else ()


def _counted(scaled: ScaledChannels, velocity: FloatArray) -> CountedMotion:
    probe = scaled.probe
    return CountedMotion(
        probe.joined("force"), velocity, probe.joined("displacement") if probe.has("displacement") else None
    )


def _refuse_unmoved(part: SweepPart, scaled: ScaledChannels, rate: float | None) -> None:
    """Refuse a record of which the velocity is not known and cannot be derived.

    Raises
    ------
    ReadError
        That it is so.
    """
    if not scaled.probe.has("velocity") and rate is None:
        raise ReadError(
            rates_apart(part.facts) or "no velocity, no time and no sample rate, so velocity cannot be derived",
            where=part.name,
            hint="give --rate 'NUMBER Hz' or --column time=NAME; of samples evenly spaced in time a line such as "
            "'Frequency: 1.6 Hz' or 'Peak speed: 250 mm/s' above them will do",
        )


def _signs(part: SweepPart, scaled: ScaledChannels, velocity: FloatArray, rate: float | None) -> Signs:
    probe = scaled.probe
    follows = 1
    if probe.has("velocity", "displacement"):
        found = scaled.agreed or agreement(probe.moving(rate))
        follows = 1 if found.scale >= 0 else -1
    motion = _counted(scaled, velocity)._replace(recorded=probe.has("velocity"))
    return orient(motion, _said(part), x_follows=follows, gas_removed=part.facts.gas_removed, agreed=part.agreed,
                  gas_force=stated_gas_force(part.facts))  # fmt: skip


def _said(part: SweepPart) -> dict[str, str]:
    """Return which direction is said to be positive: by the user, else in the lines, else at the columns."""
    if part.table.options.positive:
        return {"all": part.table.options.positive}
    at_columns = {c: column.positive for c, column in part.roles.channels.items() if column.positive}
    return at_columns | dict(part.said)


def _sign(signs: Signs, channel: str) -> int:
    return {"force": signs.force, "velocity": signs.velocity, "displacement": signs.displacement}.get(channel, 1)


def _values(
    part: SweepPart, raw: Mapping[str, FloatArray], scaled: ScaledChannels, signs: Signs
) -> dict[str, FloatArray]:
    values = {}
    for channel, s in scaled.scales.items():
        sign = _sign(signs, channel)
        if scaled.whole and sign == 1:
            values[channel] = np.ascontiguousarray(scaled.probe.joined(channel))
        else:
            values[channel] = _scaled(raw[channel], sign * s.scale.factor, s.scale.zero, in_place=part.alone)
    return values


def _ends(part: SweepPart, raw: Mapping[str, FloatArray], scaled: ScaledChannels, signs: Signs) -> dict[str, Extent]:
    """Return the extents of the channels in SI."""
    return {
        channel: part.table.extents.of(raw[channel]).scaled(_sign(signs, channel) * s.scale.factor, s.scale.zero)
        for channel, s in scaled.scales.items()
    }


def _scaled(x: FloatArray, factor: float, offset: float, *, in_place: bool) -> FloatArray:
    if in_place and x.flags.owndata and x.flags.writeable:
        if factor != 1.0:
            x *= factor
        if offset:
            x += offset
        return x
    out = np.ascontiguousarray(x if factor == 1.0 else x * factor)
    return out + offset if offset else out


def _decisions(part: SweepPart, scaled: ScaledChannels, signs: Signs, rate: SampleRate) -> dict[str, ChannelDecision]:
    signed = ("force", "velocity", "displacement")
    decisions = {}
    for channel, s in scaled.scales.items():
        column = part.roles.channels[channel]
        why = f"{s.why}; {signs.evidence}" if channel in signed else s.why
        why = f"{why}; {rate.why}" if channel == "time" and rate.why else why
        decisions[channel] = ChannelDecision(column.shown, s.unit, _sign(signs, channel), why)
    if rate.why and "time" not in scaled.scales:
        decisions["time"] = ChannelDecision("from the sample rate", "", evidence=rate.why)
    return decisions
