"""A part and its channels to the sweep they are."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import Source, Sweep
from importers.channels import ForceLead, SweepChannels, peak_channels, trace_channels
from importers.parts import SweepPart, one_pressure
from importers.stated import RatesApart
from importers.sweeps.kind import is_peak_table
from importers.words.unit_text import is_unit, scale_of


class MadeSweep(NamedTuple):
    """A sweep, and which way its file's force counts."""

    sweep: Sweep
    lead: ForceLead | None
    directed: bool = False  #: whether the file names the direction of each force


def make_sweep(part: SweepPart, source: Source) -> MadeSweep:
    """Return the sweep of a part with its facts.

    Raises
    ------
    ReadError
        If a channel is missing, stuck, or of an unknown unit.
    """
    peaks = is_peak_table(part)
    channels = peak_channels(part) if peaks else trace_channels(part)
    facts = part.facts
    said = (warning for warning in facts.warnings if not isinstance(warning, RatesApart))  # settled, or said below
    warnings = (*said, *part.table.warnings, *channels.warnings)
    sweep = Sweep(
        layout="peaks" if peaks else "trace", channels=dict(channels.values), source=source, shock=facts.shock,
        pack=facts.pack, clicks=dict(facts.clicks), date=facts.date, temperature=_temperature(part, channels),
        gas_pressure=_gas_pressure(part), rod=facts.rod, stroke=facts.stroke, rate=channels.rate,
        gas_removed=facts.gas_removed, decisions=channels.decisions, facts=dict(facts.lines),
        warnings=tuple(dict.fromkeys(warnings)), counted=_counted(part),
    )  # fmt: skip
    return MadeSweep(sweep, channels.lead, channels.directed)


def _counted(part: SweepPart) -> dict[str, str]:
    """Return from where the file counts each adjuster's clicks; clicks that the user states are as the shock counts."""
    own = [key for key in part.facts.clicks if key not in part.table.user.clicks]
    said = part.facts.counted
    return {key: way for key in own if (way := said.get(key) or said.get(""))}


def _gas_pressure(part: SweepPart) -> float | None:
    """Return the gas pressure that a column gives the run, else the one that is stated. [Pa]"""
    of_run = None if "gas" in part.roles.keys else one_pressure(part.roles.channels.get("pressure"), part.values)
    return part.facts.gas_pressure if of_run is None else of_run


def _beside_peaks(part: SweepPart) -> FloatArray:
    """Return the temperatures that stand beside the rows of a peak table, shape (rows,); none without unit. [°C]"""
    column = part.roles.channels.get("temperature")
    if column is None or not is_unit(column.unit, "temperature") or column.index not in part.values:
        return np.empty(0)
    return scale_of(column.unit, "temperature").si(part.values[column.index])


def _temperature(part: SweepPart, channels: SweepChannels) -> float | None:
    """Return the temperature stated for the run, else the first recorded one. [°C]"""
    if part.facts.temperature is not None:
        return part.facts.temperature
    recorded = channels.values["temperature"] if "temperature" in channels.values else _beside_peaks(part)
    first = recorded[np.isfinite(recorded)]
    return float(first[0]) if len(first) else None
