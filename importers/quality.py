"""What is wrong with a trace: too wrong to read, or worth a warning."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from importers.columns import Column
from importers.motion import derived, stretch

_MOST = {"force": 2e5, "velocity": 25.0, "displacement": 2.0}
_SI = {"force": "N", "velocity": "m/s", "displacement": "m"}
_LEAST_PER_CYCLE = 40.0


def refuse(values: Mapping[str, FloatArray], columns: Mapping[str, Column], name: str, rate: float | None) -> None:
    """Refuse channels that carry nothing.

    Raises
    ------
    ReadError
        If a channel is stuck, mostly missing, of impossible size, or time does not run.
    """
    for channel in ("force", "velocity", "displacement"):
        if channel in values:
            _refuse_channel(values[channel], channel, columns[channel].text, name)
    if "time" in values:
        step = np.diff(values["time"])
        step = step[np.isfinite(step)]
        if len(step) == 0 or not (step > 0).any():
            raise ReadError(
                f"{name}, column '{columns['time'].text}': time stands still; name another with --column time=NAME or give --rate"
            )
        if (step < 0).mean() > 0.05:
            raise ReadError(f"{name}, column '{columns['time'].text}': time runs backwards in {(step < 0).sum()} places; "
                            "is it another quantity? name it with --column time=NAME or give --rate")  # fmt: skip


def _refuse_channel(x: FloatArray, channel: str, column: str, name: str) -> None:
    there = x[np.isfinite(x)]
    where = f"{name}, column '{column}'"
    if len(there) < max(5, 0.5 * len(x)):
        raise ReadError(f"{where}: only {len(there)} of {len(x)} rows hold a {channel}; export the run again")
    if there.max() - there.min() <= 1e-9 * max(1.0, abs(float(there.max()))):
        raise ReadError(f"{where}: {channel} stands at one value in all {len(x)} rows: a stuck sensor, or a column of something else;"
                        f" name the right one with --column {channel}=NAME")  # fmt: skip
    if float(np.abs(there).max()) > _MOST[channel]:
        raise ReadError(f"{where}: {channel} reaches {np.abs(there).max():.3g} {_SI[channel]}, more than any dyno gives;"
                        f" give the right unit with --unit {channel}=…")  # fmt: skip


def warnings(values: Mapping[str, FloatArray], rate: float | None, *, over: int = 0) -> list[str]:
    """Return what a person should know of a trace in SI."""
    out = [f"{over} cells say that a sensor was beyond its range; they were left out"] if over else []
    out += _missing(values)
    out += [
        w
        for channel in ("force", "displacement", "velocity")
        if channel in values
        for w in _clipped(values[channel], channel)
    ]
    out += _timing(values.get("time"))
    out += _too_slow(values, rate)
    if "temperature" in values and np.isfinite(values["temperature"]).any():
        drift = float(np.nanmax(values["temperature"]) - np.nanmin(values["temperature"]))
        if drift > 10:
            out.append(f"temperature drifts by {drift:.0f} °C within the record: force drifts with it")
    return out


def _missing(values: Mapping[str, FloatArray]) -> list[str]:
    lost = {c: int(np.isnan(values[c]).sum()) for c in ("force", "velocity", "displacement", "time") if c in values}
    return [f"{n} of {len(values[c])} samples of {c} are missing" for c, n in lost.items() if n]


def _clipped(x: FloatArray, channel: str) -> list[str]:
    """Warn where a channel's extreme is held for long stretches again and again, as a sensor at its limit does."""
    out = []
    top = float(np.nanmax(x) - np.nanmin(x))
    for extreme, word in ((np.nanmax(x), "highest"), (np.nanmin(x), "lowest")):
        at = np.abs(x - extreme) <= 1e-6 * top
        if at.sum() < 6:
            continue
        near = np.abs(x - extreme) <= 0.02 * top
        runs = np.diff(np.flatnonzero(np.diff(np.concatenate([[0], at.view(np.int8), [0]]))))[::2]
        flat = runs.max() >= 5 and at.sum() >= 0.5 * near.sum()
        if flat and channel == "force":
            out.append(f"force is clipped: it is held at its {word} value {extreme:.0f} N for {int(at.sum())} samples")
    return out


def _timing(time: FloatArray | None) -> list[str]:
    if time is None:
        return []
    step = np.diff(time[np.isfinite(time)])
    usual = float(np.median(step))
    out = []
    back = int((step < 0).sum())
    if back:
        out.append(f"time jumps back in {back} places")
    if usual > 0:
        lost = step > 1.6 * usual
        if lost.any():
            out.append(f"{int(np.round(step[lost] / usual - 1).sum())} samples were dropped in {int(lost.sum())} gaps")
        rest = step[(step > 0) & ~lost]
        if (
            len(rest)
            and float(np.percentile(np.abs(rest / usual - 1), 95)) > 0.05
            and len(np.unique(np.round(rest / usual, 1))) > 2
        ):
            out.append("sampling is uneven: the time between samples varies by more than 5 %")
    same = int((step == 0).sum())
    return [*out, f"{same} samples repeat the time before them"] if same else out


def _too_slow(values: Mapping[str, FloatArray], rate: float | None) -> list[str]:
    """Warn where the fastest cycle has too few samples to hold its peaks."""
    x = values.get("displacement")
    if rate is None or x is None:
        return []
    v = values.get("velocity")
    v = derived(x, 1 / rate) if v is None else v
    reach = 0.5 * float(np.nanpercentile(x, 99.5) - np.nanpercentile(x, 0.5))
    peak = float(np.nanpercentile(np.abs(v), 99.8))
    if peak <= 0 or stretch(x) < 1:
        return []
    per_cycle = rate * 2 * np.pi * reach / peak
    if per_cycle < _LEAST_PER_CYCLE:
        return [
            f"the sample rate of {rate:.4g} Hz is low for {peak:.2f} m/s: {per_cycle:.0f} samples in the fastest cycle"
        ]
    return []
