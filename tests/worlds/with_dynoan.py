"""The curves of `dynoan.fit` held against worlds made apart from it.

python -m tests.worlds.score tests.worlds.with_dynoan:fit --rows clean,any --records 18 --jobs 2
"""

from __future__ import annotations

import numpy as np

from dynoan.analysis.fitting.fit import fit as fit_sweeps
from dynoan.errors import FitError
from dynoan.model.sweep import Source, Sweep
from tests.worlds.score import Band, Estimate
from tests.worlds.world import Record


def sweep_of(record: Record) -> Sweep:
    """Return a record as an importer would hand it over."""
    source, stated = Source(f"{record.row}-{record.seed}", "0" * 64), record.stated
    if record.peaks is not None:
        p = record.peaks
        velocity = np.concatenate([p.speed, -p.speed])
        force = np.concatenate([p.compression, p.rebound if p.signed else -np.abs(p.rebound)])
        return Sweep("peaks", {"velocity": velocity, "force": force}, source,
                     gas_pressure=stated.gas_gauge_pa, gas_removed=stated.gas_removed)  # fmt: skip
    named = {
        "time": record.time,
        "displacement": record.displacement,
        "velocity": record.velocity,
        "force": record.force,
        "temperature": None if record.temperature is None else record.temperature - 273.15,
    }
    channels = {k: v for k, v in named.items() if v is not None}
    return Sweep("trace", channels, source, rate=record.rate_hz, gas_pressure=stated.gas_gauge_pa,
                 gas_removed=stated.gas_removed)  # fmt: skip


def fit(record: Record) -> Estimate:
    """Return what the program says of a record."""
    try:
        curve = fit_sweeps(sweep_of(record), record.stated.rod_m)
    except FitError as error:
        return Estimate(refused=str(error))

    def damping(v: np.ndarray) -> Band:
        low, high = curve.band(v)
        return Band(curve(v), low, high)

    def total(v: np.ndarray) -> Band:
        low, high = curve.total_band(v)
        return Band(curve.total(v), low, high)

    knees = [k.velocity for k in curve.compression.knees] + [-k.velocity for k in curve.rebound.knees]
    return Estimate(damping, total, knees=knees)
