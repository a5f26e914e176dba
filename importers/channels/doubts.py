"""What a person should know of a trace: missing and clipped samples, gaps in time, a rate too low, drift."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import chain

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray, IntArray
from dynoan.model.clipped import CLIPPED, clipped_at
from dynoan.model.ranks import median
from importers.assumptions.channels import (
    CYCLE_SAMPLES,
    NORMAL_MAD,
    SPIKE_NOISE,
    SPIKE_SHARE,
    SPIKES_FEW,
    STROKE_PERCENTILES,
    TEMPERATURE_DRIFT,
)
from importers.channels.clock_steps import JudgedSteps
from importers.channels.in_threads import each_in_threads
from importers.channels.probe import Probe
from importers.channels.timing import timing_doubts
from importers.tables import Extent

_LOOK = 1 << 14  #: samples that are looked at together: more do not stay in the processor's own memory
_FEW = 200_000  #: samples whose span is taken without the outermost; more cost more time than it is worth


def doubts(
    values: Mapping[str, FloatArray],
    extents: Mapping[str, Extent],
    probe: Probe,
    rate: float | None,
    fast: float,
    *,
    over: int = 0,
    judged: JudgedSteps | None = None,
    set_by: Callable[[BoolArray], str] | None = None,
) -> tuple[str, ...]:
    """Return what a person should know of a trace in SI.

    Parameters
    ----------
    values
        Its channels in SI.
    extents
        Their ends.
    probe
        Stretches of them, as the file counts.
    rate
        Sample rate. [Hz]
    fast
        The speed that is reached. [m/s]
    over
        How many cells say that a sensor was beyond its range.
    judged
        The steps of its time, where they are known already.
    set_by
        Names the column that changes where steps are gaps, so that those are pauses; empty where none does.
    """
    force, time = values["force"], values.get("time")
    looks: tuple[Callable[[], list[str]], ...] = (
        lambda: _missing(values, extents),
        lambda: _clipped(force, extents["force"], values.get("displacement")),
        lambda: _spikes(force, extents["force"]),
        lambda: timing_doubts(time, judged, set_by),
        lambda: _too_slow(probe, rate, fast),
        lambda: _drift(values.get("temperature")),
    )
    found = each_in_threads(_looked, looks, len(force))
    return (*over_range(over), *chain.from_iterable(found))


def _looked(look: Callable[[], list[str]]) -> list[str]:
    return look()


def over_range(cells: int) -> tuple[str, ...]:
    """Return the warning of cells that say a sensor was beyond its range; none where there are none."""
    many = "1 cell says" if cells == 1 else f"{cells} cells say"
    left = "it was" if cells == 1 else "they were"
    return (f"{many} that a sensor was beyond its range; {left} left out",) if cells else ()


def _drift(temperature: FloatArray | None) -> list[str]:
    if temperature is None or not np.isfinite(temperature).any():
        return []
    drift = float(np.nanmax(temperature) - np.nanmin(temperature))
    said = f"temperature drifts by {drift:.0f} °C within the record: force drifts with it"
    return [said] if drift > TEMPERATURE_DRIFT else []


def _missing(values: Mapping[str, FloatArray], extents: Mapping[str, Extent]) -> list[str]:
    some = [c for c in ("force", "velocity", "displacement", "time") if c in values and np.isnan(extents[c].high)]
    return [f"{int(np.isnan(values[c]).sum())} of {len(values[c])} samples of {c} are missing" for c in some]


def _spikes(force: FloatArray, extent: Extent) -> list[str]:
    """Warn of lone samples far off the line of their neighbours, as a disturbed cable makes them."""
    if len(force) < 5 or (not extent.complete and np.isnan(force).all()):
        return []
    if len(force) < _FEW:
        step = np.diff(force)
        if _spans(force, min(float(np.fmax.reduce(step)), -float(np.fmin.reduce(step))) / SPIKE_SHARE, (1.0, 99.0)):
            return []
        low, high = np.percentile(force if extent.complete else force[np.isfinite(force)], (1, 99))
    else:
        low, high = extent.low, extent.high
    edge = SPIKE_SHARE * float(high - low)
    off = _there_and_back(force, edge)
    off = off[(off > 1) & (off < len(force) - 2)]
    aside = 0.5 * (force[off - 1] + force[off + 1])
    far = np.abs(force[off] - aside)
    lone = (far > edge) & (np.abs(force[off - 1] - force[off + 1]) < 0.5 * far)
    calm = np.fmax(np.abs(force[off - 1] - force[off - 2]), np.abs(force[off + 2] - force[off + 1])) < 0.5 * far
    count = int(np.sum(lone & calm))
    if not 0 < count < SPIKES_FEW * len(force) + 1:
        return []
    beyond = lone & calm & (far > SPIKE_NOISE * _noise(force))
    count = int(np.sum(beyond))
    if not count:
        return []
    most = float(np.max(far[beyond]))
    return [f"force has {count} lone spike{'s' if count > 1 else ''} of up to {most:.0f} N beside its neighbours"]


def _noise(force: FloatArray) -> float:
    """Return how far samples usually lie off the middle of their neighbours, as a standard deviation. [N]"""
    off = np.abs(force[1:-1] - 0.5 * (force[:-2] + force[2:]))
    known = off[np.isfinite(off)]
    return NORMAL_MAD * median(known) if len(known) else 0.0


def _spans(x: FloatArray, least: float, percentiles: tuple[float, float]) -> bool:
    """Whether two percentiles lie at least so far apart; False where that takes more than counting to know."""
    if len(x) >= _FEW or not np.isfinite(total := float(x.sum())):
        return False
    low, high = (total / len(x) + share * least for share in (-0.5, 0.5))
    below, above = (np.count_nonzero(side) for side in (x <= low, x >= high))
    # A percentile lies between two ranks, so one sample more than its share lies beyond it.
    return bool(below > percentiles[0] / 100 * len(x) + 1 and above > (1 - percentiles[1] / 100) * len(x) + 1)


def _there_and_back(x: FloatArray, edge: float) -> IntArray:
    """Return the samples that lie beyond an edge from both neighbours, on the same side of them."""
    found = []
    for start in range(0, len(x) - 2, _LOOK):
        step = np.diff(x[start : start + _LOOK + 2])
        if np.fmax.reduce(step) > edge and np.fmin.reduce(step) < -edge:
            up, down = step > edge, step < -edge
            found.append(np.flatnonzero((up[:-1] & down[1:]) | (down[:-1] & up[1:])) + start + 1)
    return np.concatenate(found) if found else np.empty(0, np.int64)


def _clipped(force: FloatArray, extent: Extent, displacement: FloatArray | None = None) -> list[str]:
    """Warn where the force's extreme is held for long stretches, as a load cell at its limit does, not a valve."""
    high, low = extent.high, extent.low
    if not extent.complete:
        high, low = float(np.nanmax(force)), float(np.nanmin(force))
    ends = (("highest", high, low), ("lowest", low, high))
    found = [(word, end, clipped_at(force, end, other, displacement)) for word, end, other in ends]
    return [f"{CLIPPED}: it is held at its {word} value {extreme:.0f} N for {np.count_nonzero(held)} samples"
            for word, extreme, held in found if held is not None]  # fmt: skip


def _too_slow(probe: Probe, rate: float | None, peak: float) -> list[str]:
    """Warn where the fastest cycle has too few samples to hold its peaks."""
    if rate is None or not probe.has("displacement"):
        return []
    x = probe.joined("displacement")
    x = x if np.isfinite(x.sum()) else x[np.isfinite(x)]
    if not len(x):
        return []
    if peak > 0 and _spans(x, CYCLE_SAMPLES * peak / (rate * np.pi), STROKE_PERCENTILES):
        return []
    low, high = np.percentile(x, STROKE_PERCENTILES)
    per_cycle = rate * np.pi * float(high - low) / peak if peak > 0 else np.inf
    if not per_cycle < CYCLE_SAMPLES:
        return []
    return [f"the sample rate of {rate:.4g} Hz is low for {peak:.2f} m/s: {per_cycle:.0f} samples in the fastest cycle"]
