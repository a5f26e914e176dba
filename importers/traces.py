"""A continuous trace: samples in time of force and of displacement or velocity or both."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import ChannelDecision, Source, Sweep
from importers import quality, sign
from importers.columns import Column
from importers.facts import Facts
from importers.motion import agreement, derived
from importers.roles import Roles
from importers.scaling import Scaled, scale
from importers.text import Table

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
            f"{part.name}: {part.rows} rows from line {part.table.first_line}; a trace needs at least {_LEAST_ROWS}"
        )
    rate, why_rate = _stated_rate(part)
    scaled = scale(raw, columns, part.table, part.facts.units, name=part.name, rate=None if "time" in raw else rate)
    rate, why_rate, warnings = _rate(scaled, rate, why_rate)
    quality.refuse(scaled.values, columns, part.name, rate)
    signs = _signs(part, scaled, columns, rate)
    values, decisions = _turned(scaled, columns, signs)
    if why_rate and "time" not in values:
        decisions["time"] = ChannelDecision("from the sample rate", "", evidence=why_rate)
    warnings = [*part.facts.warnings, *part.table.warnings, *scaled.warnings, *warnings, *signs.warnings,
                *quality.warnings(values, rate, over=part.table.over)]  # fmt: skip
    return make(part, source, values, decisions, layout="trace", rate=rate, warnings=warnings)


def make(part: Part, source: Source, values: Mapping[str, FloatArray], decisions: Mapping[str, ChannelDecision], *,
         layout: str, rate: float | None, warnings: list[str]) -> Sweep:  # fmt: skip
    """Return the sweep of a part with its facts."""
    facts = part.facts
    temperature = facts.temperature
    if temperature is None and "temperature" in values:
        first = values["temperature"][np.isfinite(values["temperature"])]
        temperature = float(first[0]) if len(first) else None
    return Sweep(
        layout=layout, channels=dict(values), source=source, shock=facts.shock, pack=facts.pack, clicks=dict(facts.clicks),  # type: ignore[arg-type]
        date=facts.date, temperature=temperature, gas_pressure=facts.gas_pressure, stroke=facts.stroke, rate=rate,
        gas_removed=facts.gas_removed, decisions=decisions, facts=dict(facts.lines), warnings=tuple(dict.fromkeys(warnings)),
    )  # fmt: skip


def _needed(columns: Mapping[str, Column], part: Part) -> None:
    there = ", ".join(f"'{c.text}'" for c in part.table.columns if c.text) or "none named"
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
            f"{part.name}: no velocity and no displacement column; the columns are: {there}; name one with --column velocity=NAME"
        )


def _stated_rate(part: Part) -> tuple[float | None, str]:
    if part.table.options.rate:
        return part.table.options.rate, f"{part.table.options.rate:g} Hz, stated by the user"
    return part.facts.rate, f"{part.facts.rate:g} Hz, stated in the file" if part.facts.rate else ""


def _rate(scaled: Scaled, stated: float | None, why: str) -> tuple[float | None, str, list[str]]:
    """Return the sample rate, why, and warnings."""
    time = scaled.values.get("time")
    if time is not None:
        step = float(np.nanmedian(np.diff(time)))
        rate = 1 / step if step > 0 else None
        if rate and stated and abs(rate / stated - 1) > 0.05:
            return (
                rate,
                "",
                [f"the time column gives {rate:.4g} Hz, though {stated:.4g} Hz is stated: the column was believed"],
            )
        return rate, "", []
    if stated:
        return stated, why, []
    x, v = scaled.values.get("displacement"), scaled.values.get("velocity")
    if x is not None and v is not None:
        found = agreement(x, v, 1.0)
        if abs(found.fit) > 0.95:
            return 1 / abs(found.scale), f"{1 / abs(found.scale):.4g} Hz, from displacement and velocity", []
    if v is None:
        return None, "", []
    return None, "", ["the sample rate is not known: no time column and none stated; --rate '1000 Hz' gives it"]


def _signs(part: Part, scaled: Scaled, columns: Mapping[str, Column], rate: float | None) -> sign.Signs:
    x, v, force = (scaled.values.get(k) for k in ("displacement", "velocity", "force"))
    if v is None and rate is None:
        raise ReadError(
            f"{part.name}: no velocity, no time and no sample rate, so velocity cannot be derived; give --rate '1000 Hz' or --column time=NAME"
        )
    said = {c: columns[c].positive for c in columns if columns[c].positive}
    said |= part.said
    if part.table.options.positive:
        said = {"all": part.table.options.positive}
    follows = 1
    if x is not None and v is not None:
        step = 1.0 if rate is None else 1 / rate
        follows = 1 if agreement(x, v, step).scale >= 0 else -1
    velocity = v if v is not None else derived(x, 1 / rate)  # type: ignore[arg-type, operator]
    motion = sign.Motion(force, velocity, x, recorded=v is not None)  # type: ignore[arg-type]
    return sign.orient(
        motion, {k: w for k, w in said.items() if w}, x_follows=follows, gas_removed=part.facts.gas_removed
    )


def _turned(
    scaled: Scaled, columns: Mapping[str, Column], signs: sign.Signs
) -> tuple[dict[str, FloatArray], dict[str, ChannelDecision]]:
    turn = {"force": signs.force, "velocity": signs.velocity, "displacement": signs.displacement}
    values, decisions = {}, {}
    for channel, found in scaled.values.items():
        by = turn.get(channel, 1)
        values[channel] = np.ascontiguousarray(found if by == 1 else -found, dtype=np.float64)
        why = scaled.why[channel] + (f"; {signs.evidence}" if channel in turn else "")
        decisions[channel] = ChannelDecision(
            columns[channel].text or f"column {columns[channel].index + 1}", scaled.units[channel], by, why
        )
    return values, decisions
