"""What is wrong with a trace: too wrong to read, or worth a warning."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from importers.channels.agreement import derived
from importers.channels.probe import MOST, Probe
from importers.header.column import Column

_MOST = {"force": 2e5, "velocity": 25.0, "displacement": 2.0}
_SI = {"force": "N", "velocity": "m/s", "displacement": "m"}
_LEAST_PER_CYCLE = 40.0


def refuse(
    raw: Mapping[str, FloatArray], factors: Mapping[str, tuple[float, float]], columns: Mapping[str, Column], name: str
) -> None:
    """Refuse channels that carry nothing.

    Parameters
    ----------
    raw
        The numbers as they stand.
    factors
        By what they become SI.

    Raises
    ------
    ReadError
        If a channel is stuck, mostly missing, of impossible size, or time does not run.
    """
    for channel in ("force", "velocity", "displacement"):
        if channel in factors:
            _refuse_channel(raw[channel], factors[channel][0], channel, f"{name}, column '{columns[channel].text}'")
    if "time" in factors:
        _refuse_time(raw["time"], f"{name}, column '{columns['time'].text}'")


def _refuse_time(time: FloatArray, where: str) -> None:
    step = np.diff(time)
    if step.min() > 0:
        return
    step = step[np.isfinite(step)]
    if len(step) == 0 or not (step > 0).any():
        raise ReadError(f"{where}: time stands still; name another with --column time=NAME or give --rate")
    if (step < 0).mean() > 0.05:
        raise ReadError(f"{where}: time runs backwards in {(step < 0).sum()} places; is it another quantity? "
                        "name it with --column time=NAME or give --rate")  # fmt: skip


def _refuse_channel(x: FloatArray, factor: float, channel: str, where: str) -> None:
    high, low = (float(x.max()), float(x.min())) if len(x) else (np.nan, np.nan)
    if not np.isfinite(high + low):
        there = x[np.isfinite(x)]
        if len(there) < max(5, 0.5 * len(x)):
            raise ReadError(f"{where}: only {len(there)} of {len(x)} rows hold a {channel}; export the run again")
        high, low = float(there.max()), float(there.min())
    if high - low <= 1e-9 * max(abs(high), abs(low), 1e-300):
        raise ReadError(f"{where}: {channel} stands at one value in all {len(x)} rows: a stuck sensor, or a column "
                        f"of something else;"
                        f" name the right one with --column {channel}=NAME")  # fmt: skip
    most = max(abs(high), abs(low)) * factor
    if most > _MOST[channel]:
        raise ReadError(f"{where}: {channel} reaches {most:.3g} {_SI[channel]}, more than any dyno gives;"
                        f" give the right unit with --unit {channel}=…")  # fmt: skip


def warnings(values: Mapping[str, FloatArray], probe: Probe, rate: float | None, *, over: int = 0) -> list[str]:
    """Return what a person should know of a trace in SI."""
    out = [f"{over} cells say that a sensor was beyond its range; they were left out"] if over else []
    out += _missing(values)
    out += _clipped(values["force"])
    out += _timing(values.get("time"))
    out += _too_slow(probe, rate)
    if "temperature" in values and np.isfinite(values["temperature"]).any():
        drift = float(np.nanmax(values["temperature"]) - np.nanmin(values["temperature"]))
        if drift > 10:
            out.append(f"temperature drifts by {drift:.0f} °C within the record: force drifts with it")
    return out


def _missing(values: Mapping[str, FloatArray]) -> list[str]:
    some = [c for c in ("force", "velocity", "displacement", "time") if c in values and np.isnan(values[c].sum())]
    return [f"{int(np.isnan(values[c]).sum())} of {len(values[c])} samples of {c} are missing" for c in some]


def _clipped(force: FloatArray) -> list[str]:
    """Warn where the force's extreme is held for long stretches, as a load cell at its limit does."""
    out = []
    high, low = float(force.max()), float(force.min())
    if not np.isfinite(high + low):
        high, low = float(np.nanmax(force)), float(np.nanmin(force))
    for extreme, word, turn in ((high, "highest", 1.0), (low, "lowest", -1.0)):
        edge = extreme - turn * 1e-6 * (high - low)
        at = force >= edge if turn > 0 else force <= edge
        held = int(np.count_nonzero(at))
        if held < 6:
            continue
        edge = extreme - turn * 0.02 * (high - low)
        near = int(np.count_nonzero(force >= edge if turn > 0 else force <= edge))
        runs = np.diff(np.flatnonzero(np.diff(np.concatenate([[0], at.view(np.int8), [0]]))))[::2]
        if runs.max() >= 5 and held >= 0.5 * near:
            out.append(f"force is clipped: it is held at its {word} value {extreme:.0f} N for {held} samples")
    return out


def _timing(time: FloatArray | None) -> list[str]:
    if time is None:
        return []
    step = np.diff(time)
    usual = float(np.nanmedian(step[:MOST]))
    low, high = float(step.min()), float(step.max())
    if usual > 0 and low > 0.95 * usual and high < 1.05 * usual:
        return []
    return _timing_faults(step[np.isfinite(step)], usual)


def _timing_faults(step: FloatArray, usual: float) -> list[str]:
    out = []
    back, same = int((step < 0).sum()), int((step == 0).sum())
    if back:
        out.append(f"time jumps back in {back} places")
    if usual > 0:
        lost = step > 1.6 * usual
        if lost.any():
            out.append(f"{int(np.round(step[lost] / usual - 1).sum())} samples were dropped in {int(lost.sum())} gaps")
        rest = step[(step > 0) & ~lost][:MOST]
        uneven = len(rest) > 0 and float(np.percentile(np.abs(rest / usual - 1), 95)) > 0.05
        if uneven and len(np.unique(np.round(rest / usual, 1))) > 2:
            out.append("sampling is uneven: the time between samples varies by more than 5 %")
    return [*out, f"{same} samples repeat the time before them"] if same else out


def _too_slow(probe: Probe, rate: float | None) -> list[str]:
    """Warn where the fastest cycle has too few samples to hold its peaks."""
    if rate is None or not probe.has("displacement"):
        return []
    x = probe.joined("displacement")
    if probe.has("velocity"):
        v = probe.joined("velocity")
    else:
        v = np.concatenate([derived(s["displacement"], 1 / rate) for s in probe.stretches])
    low, high = np.nanpercentile(x, (0.5, 99.5))
    peak = float(np.nanpercentile(np.abs(v), 99.8))
    per_cycle = rate * np.pi * float(high - low) / peak if peak > 0 else np.inf
    if per_cycle < _LEAST_PER_CYCLE:
        return [
            f"the sample rate of {rate:.4g} Hz is low for {peak:.2f} m/s: {per_cycle:.0f} samples in the fastest cycle"
        ]
    return []
