"""A continuous trace: samples in time of force and of displacement or velocity or both."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import ChannelDecision, Layout, Source, Sweep
from importers.channels import quality, sign
from importers.channels.agreement import agreement, derived
from importers.channels.probe import MOST
from importers.channels.scaling import Scaled, scale
from importers.header.column import Column
from importers.parts.roles import Roles
from importers.stated.facts import Facts
from importers.tables.reading import Table

_LEAST_ROWS = 8


@dataclass(frozen=True)
class Part:
    """Rows of a table that are one sweep, with what is known of them."""

    table: Table
    roles: Roles
    facts: Facts
    values: Mapping[int, FloatArray]  #: the rows of this part, by column index
    texts: Mapping[int, list[str]]
    name: str
    label: str = ""
    alone: bool = False  #: whether no other part shares its arrays
    direction: str | None = None  #: which direction all rows are of, where a line above says so
    said: Mapping[str, str] = field(default_factory=dict)  #: which direction the lines say is positive, by channel

    @property
    def rows(self) -> int:
        """Number of rows."""
        return len(next(iter(self.values.values()))) if self.values else 0


def read(part: Part, source: Source) -> Sweep:
    """Return a trace in SI, positive in compression.

    Raises
    ------
    ReadError
        If a channel that a curve needs is missing, stuck or of an unknown unit.
    """
    columns = dict(part.roles.channels)
    _needed(columns, part)
    raw = {c: part.values[col.index] for c, col in columns.items() if col.index in part.values}
    if part.rows < _LEAST_ROWS:
        raise ReadError(
            f"{part.name}: only {part.rows} rows from line {part.table.first_line}; a trace needs at least "
            f"{_LEAST_ROWS}"
        )
    stated, why_rate = _stated_rate(part)
    scaled = scale(raw, columns, part.table, part.facts.units, name=part.name, rate=None if "time" in raw else stated)
    quality.refuse(raw, scaled.factors, columns, part.name)
    rate, why_rate, warnings = _rate(scaled, raw, stated, why_rate)
    signs = _signs(part, scaled, columns, rate)
    values, decisions = _turned(part, raw, scaled, signs)
    if why_rate and "time" not in values:
        decisions["time"] = ChannelDecision("from the sample rate", "", evidence=why_rate)
    warnings = [*part.facts.warnings, *part.table.warnings, *scaled.warnings, *warnings, *signs.warnings,
                *quality.warnings(values, scaled.probe, rate, over=part.table.over)]  # fmt: skip
    return make(part, source, values, decisions, layout="trace", rate=rate, warnings=warnings)


def make(part: Part, source: Source, values: Mapping[str, FloatArray], decisions: Mapping[str, ChannelDecision], *,
         layout: Layout, rate: float | None, warnings: list[str]) -> Sweep:  # fmt: skip
    """Return the sweep of a part with its facts."""
    facts = part.facts
    temperature = facts.temperature
    if temperature is None and "temperature" in values:
        first = values["temperature"][np.isfinite(values["temperature"])]
        temperature = float(first[0]) if len(first) else None
    return Sweep(
        layout=layout, channels=dict(values), source=source, shock=facts.shock, pack=facts.pack, 
        clicks=dict(facts.clicks),
        date=facts.date, temperature=temperature, gas_pressure=facts.gas_pressure, stroke=facts.stroke, rate=rate,
        gas_removed=facts.gas_removed, decisions=decisions, facts=dict(facts.lines),
        warnings=tuple(dict.fromkeys(warnings)),
    )  # fmt: skip


def _needed(columns: Mapping[str, Column], part: Part) -> None:
    there = ", ".join(f"'{c.text}'" for c in part.table.columns if c.text) or "none named"
    empty = next(
        (c for c in part.table.columns if c.channel in ("force", "velocity") and c.index not in part.values), None
    )
    if empty is not None and empty.channel not in columns:
        raise ReadError(f"{part.name}, column '{empty.text}': no numbers in it; export the run again, or name "
                        f"another with "
                        f"--column {empty.channel}=NAME")  # fmt: skip
    if part.roles.forces and "velocity" not in columns:
        raise ReadError(f"{part.name}: forces by direction but no velocity column; the columns are: {there}; "
                        "name one with --column velocity=NAME")  # fmt: skip
    if "force" not in columns:
        bad = next(
            (c for c in part.table.columns if c.unknown_unit and c.text.lower().startswith(("force", "load", "kraft"))),
            None,
        )
        hint = f" ('{bad.unknown_unit}' is no unit of force)" if bad else ""
        raise ReadError(
            f"{part.name}: no force column{hint}; the columns are: {there}; name one with --column force=NAME"
        )
    if "velocity" not in columns and "displacement" not in columns:
        raise ReadError(
            f"{part.name}: no velocity and no displacement column; the columns are: {there}; name one with --column "
            f"velocity=NAME"
        )


def _stated_rate(part: Part) -> tuple[float | None, str]:
    if part.table.options.rate:
        return part.table.options.rate, f"{part.table.options.rate:g} Hz, stated by the user"
    return part.facts.rate, f"{part.facts.rate:g} Hz, stated in the file" if part.facts.rate else ""


def _rate(
    scaled: Scaled, raw: Mapping[str, FloatArray], stated: float | None, why: str
) -> tuple[float | None, str, list[str]]:
    """Return the sample rate, why, and warnings."""
    if "time" in scaled.factors:
        rate = sample_rate(raw["time"], scaled.factors["time"][0])
        if rate and stated and abs(rate / stated - 1) > 0.05:
            return (
                rate,
                "",
                [f"the time column gives {rate:.4g} Hz, though {stated:.4g} Hz is stated: the column was believed"],
            )
        return rate, "", []
    if stated:
        return stated, why, []
    if scaled.probe.has("displacement", "velocity"):
        found = agreement(scaled.probe.moving(None))
        if abs(found.fit) > 0.95:
            return 1 / abs(found.scale), f"{1 / abs(found.scale):.4g} Hz, from displacement and velocity", []
    if "velocity" not in scaled.factors:
        return None, "", []
    return None, "", ["the sample rate is not known: no time column and none stated; --rate '1000 Hz' gives it"]


def sample_rate(time: FloatArray, factor: float) -> float | None:
    """Return the usual sample rate [Hz]; the mean one where there are no gaps, since times in a file are rounded."""
    step = float(np.nanmedian(np.diff(time[:MOST]))) * factor
    if not step > 0:
        return None
    span = float(time[-1] - time[0]) * factor
    rate, mean = 1 / step, (len(time) - 1) / span if span > 0 else 0.0
    rate = mean if abs(mean / rate - 1) < 0.02 else rate
    near = float(f"{rate:.6g}")
    return near if abs(near / rate - 1) < 2e-6 else rate


def _signs(part: Part, scaled: Scaled, columns: Mapping[str, Column], rate: float | None) -> sign.Signs:
    probe = scaled.probe
    if not probe.has("velocity") and rate is None:
        raise ReadError(f"{part.name}: no velocity, no time and no sample rate, so velocity cannot be derived; "
                        "give --rate '1000 Hz' or --column time=NAME")  # fmt: skip
    said = {c: way for c in columns if (way := columns[c].positive)} | dict(part.said)
    if part.table.options.positive:
        said = {"all": part.table.options.positive}
    follows = 1
    if probe.has("velocity", "displacement"):
        found = scaled.agreed or agreement(probe.moving(rate))
        follows = 1 if found.scale >= 0 else -1
    if probe.has("velocity"):
        velocity = probe.joined("velocity")
    else:
        velocity = np.concatenate([derived(s["displacement"], 1 / (rate or 1.0)) for s in probe.stretches])
    where = probe.joined("displacement") if probe.has("displacement") else None
    motion = sign.Motion(probe.joined("force"), velocity, where, recorded=probe.has("velocity"))
    return sign.orient(motion, said, x_follows=follows, gas_removed=part.facts.gas_removed)


def _turned(
    part: Part, raw: Mapping[str, FloatArray], scaled: Scaled, signs: sign.Signs
) -> tuple[dict[str, FloatArray], dict[str, ChannelDecision]]:
    turn = {"force": signs.force, "velocity": signs.velocity, "displacement": signs.displacement}
    columns = part.roles.channels
    values, decisions = {}, {}
    for channel, (factor, offset) in scaled.factors.items():
        by = turn.get(channel, 1)
        values[channel] = _scaled(raw[channel], by * factor, offset, in_place=part.alone)
        why = scaled.why[channel] + (f"; {signs.evidence}" if channel in turn else "")
        name = columns[channel].text or f"column {columns[channel].index + 1}"
        decisions[channel] = ChannelDecision(name, scaled.units[channel], by, why)
    return values, decisions


def _scaled(x: FloatArray, factor: float, offset: float, *, in_place: bool) -> FloatArray:
    if in_place and x.flags.owndata and x.flags.writeable:
        if factor != 1.0:
            x *= factor
        if offset:
            x += offset
        return x
    out = np.ascontiguousarray(x if factor == 1.0 else x * factor)
    return out + offset if offset else out
