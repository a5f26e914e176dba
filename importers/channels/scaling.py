"""A trace's columns to SI: units as stated, or as the motion leaves no doubt, or a question to the user."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from dynoan.errors import QuantityError, ReadError
from dynoan.model.arrays import FloatArray
from importers.channels.agreement import Agreement, agreement, derived
from importers.channels.probe import Probe
from importers.header.column import Column
from importers.tables.reading import Table
from importers.words.units import KIND, clean_unit, scale_of

_CANDIDATES = {
    "time": ("s", "ms", "µs", "min"),
    "velocity": ("m/s", "mm/s", "in/s", "cm/s"),
    "displacement": ("mm", "m", "in", "cm"),
}
_NEAR = 0.04
#: peak shaft speeds a dyno reaches [m/s]; wider than any, narrower than the factor 1000 between s and ms
_SPEEDS = (0.008, 6.0)
_RATES = (40.0, 3e4)  #: sample rates of rigs [Hz], narrower than the factor 1000
#: factors by which a wrong unit shows
_SLIPS = (10.0, 25.4, 39.3701, 100.0, 1000.0, 60.0, 2.54, 393.701, 30.48, 3.28084)


@dataclass
class Scaled:
    """Channels in SI, with the units used and why."""

    probe: Probe
    factors: dict[str, tuple[float, float]] = field(
        default_factory=dict
    )  #: by which numbers become SI, and what is added
    units: dict[str, str] = field(default_factory=dict)
    why: dict[str, str] = field(default_factory=dict)
    warnings: list[str] = field(default_factory=list)
    agreed: Agreement | None = None  #: displacement against velocity, where both and the time are there


def unit_of(column: Column, channel: str, table: Table, stated: Mapping[str, str], name: str) -> tuple[str, str, str]:
    """Return a column's unit, why, and a warning where the user's is not the file's; an empty unit if none is given.

    Raises
    ------
    ReadError
        If what stands as the unit is none of that kind.
    """
    kind = KIND[channel]
    said = table.options.units.get(channel, "")
    if said:
        _checked(said, kind, f"--unit {channel}={said}")
        differs = bool(column.unit) and clean_unit(said) != clean_unit(column.unit)
        return (
            said,
            "stated by the user",
            f"{channel} is taken in {said} as told, though the file says {column.unit}" if differs else "",
        )
    if column.unknown_unit and channel not in stated:
        raise ReadError(f"{name}, column '{column.text}': '{column.unknown_unit}' is no unit of {kind} that is "
                        f"known here; "
                        f"give --unit {channel}={_EXAMPLE[channel]} with the unit it is")  # fmt: skip
    if column.unit:
        _checked(column.unit, kind, f"{name}, column '{column.text}'")
        return column.unit, "stated at the column", ""
    unit = stated.get(channel, "")
    return unit, "stated in the lines above" if unit else "", ""


_EXAMPLE = {"force": "N", "velocity": "mm/s", "displacement": "mm", "time": "s", "temperature": "°C", "pressure": "bar"}


def _checked(unit: str, kind: str, where: str) -> None:
    try:
        scale_of(unit, kind)
    except QuantityError as error:
        raise ReadError(f"{where}: {error}; the unit must be one of {kind}") from None


def to_si(values: FloatArray, unit: str, channel: str) -> FloatArray:
    """Return numbers in a unit as SI, temperatures in °C."""
    factor, zero = scale_of(unit, KIND[channel])
    return values if factor == 1.0 and zero == 0.0 else values * factor + zero


def scale(
    raw: Mapping[str, FloatArray],
    columns: Mapping[str, Column],
    table: Table,
    stated: Mapping[str, str],
    *,
    name: str,
    rate: float | None,
) -> Scaled:
    """Return a trace's channels in SI.

    Raises
    ------
    ReadError
        If a unit is unknown, or missing and nothing tells it, or two units contradict the motion.
    """
    raw_probe = Probe.of(raw)
    out = Scaled(raw_probe)
    open_ = []
    for channel in raw:
        unit, why, warning = unit_of(columns[channel], channel, table, stated, name)
        out.warnings += [warning] if warning else []
        if not unit:
            open_.append(channel)
            continue
        _keep(out, channel, unit, why)
    for channel in sorted(open_, key=lambda c: c == "time"):
        _infer(channel, raw_probe, out, rate, name, columns)
    out.probe = raw_probe.scaled(out.factors)
    _check(out, rate, name)
    return out


def _keep(out: Scaled, channel: str, unit: str, why: str) -> None:
    out.factors[channel], out.units[channel], out.why[channel] = scale_of(unit, KIND[channel]), unit, why


def _infer(channel: str, raw: Probe, out: Scaled, rate: float | None, name: str, columns: Mapping[str, Column]) -> None:
    if channel in ("temperature", "pressure"):
        out.warnings.append(
            f"{channel} has no unit and was left out; --unit {channel}={_EXAMPLE[channel]} would keep it"
        )
        return
    found = (_by_motion(channel, raw, out, rate) if channel in _CANDIDATES else None) or (
        _time_by_reach(raw, out) if channel == "time" else None
    )
    if found is None:
        raise ReadError(f"{name}, column '{columns[channel].text or columns[channel].index + 1}': {channel} has no "
                        f"unit and nothing tells it; "
                        f"give --unit {channel}={_EXAMPLE[channel]} with the unit it is")  # fmt: skip
    _keep(out, channel, *found)


def _by_motion(channel: str, raw: Probe, out: Scaled, rate: float | None) -> tuple[str, str] | None:
    """Return the one unit with which displacement is the integral of velocity."""
    by = {**out.factors, channel: (1.0, 0.0)}
    needed = ("displacement", "velocity") + (("time",) if raw.has("time") else ())
    if any(c not in by for c in needed) or not (raw.has("time") or rate):
        return None
    found = agreement(raw.scaled({c: by[c] for c in needed}).moving(rate))
    if abs(found.fit) < 0.97:
        return None
    ratio = abs(found.scale)
    for unit in _CANDIDATES[channel]:
        factor = scale_of(unit, KIND[channel])[0]
        if abs(ratio * (factor if channel == "displacement" else 1 / factor) - 1) < _NEAR:
            return unit, f"no unit stated; only {unit} makes displacement the integral of velocity"
    return None


def _time_by_reach(raw: Probe, out: Scaled) -> tuple[str, str] | None:
    """Return the one unit of time with which the motion is one a rig can make."""
    first = raw.stretches[0]
    step = float(np.nanmedian(np.diff(first["time"]))) if len(first["time"]) > 2 else 0.0
    if step <= 0:
        return None
    fits = []
    for unit in ("s", "ms", "µs"):
        factor = scale_of(unit, "time")[0]
        ok = _RATES[0] <= 1 / (step * factor) <= _RATES[1]
        if "displacement" in out.factors:
            x = first["displacement"] * out.factors["displacement"][0]
            speed = float(np.nanpercentile(np.abs(derived(x, step * factor)), 98))
            ok = _SPEEDS[0] <= speed <= _SPEEDS[1] and 5.0 <= 1 / (step * factor) <= 1e6
        fits += [unit] if ok else []
    return (
        (fits[0], f"no unit stated; only {fits[0]} gives a motion and a sample rate that a rig can make")
        if len(fits) == 1
        else None
    )


def _check(out: Scaled, rate: float | None, name: str) -> None:
    """Refuse units that contradict the motion; warn where velocity and displacement disagree otherwise."""
    if not out.probe.has("displacement", "velocity") or not (out.probe.has("time") or rate):
        return
    found = out.agreed = agreement(out.probe.moving(rate))
    ratio = abs(found.scale)
    if abs(found.fit) < 0.9:
        out.warnings.append(
            "displacement does not follow the recorded velocity: check that they are of one run and one clock"
        )
        return
    for slip in (f for s in _SLIPS for f in (s, 1 / s)):
        if abs(ratio / slip - 1) < 0.02:
            raise ReadError(
                f"{name}: displacement [{out.units['displacement']}] moves {ratio:.4g} times as far as velocity "
                f"[{out.units['velocity']}] says, "
                "so one unit is wrong; give --unit velocity=… or --unit displacement=… with the unit it is"
            )
    if abs(ratio - 1) > 0.03:
        out.warnings.append(
            f"velocity disagrees with displacement: displacement moves {100 * (ratio - 1):+.1f} % against the "
            f"integral of velocity"
        )
