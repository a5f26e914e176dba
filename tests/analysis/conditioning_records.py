"""Made-up records for the tests of conditioning and fitting: other shocks, rigs and seeds than the demo's."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.model.sweep import Source, Sweep
from fixtures import rig

#: neither of the demo's packs: a soft one with a late knee, and a stiff one with a hard port
SOFT = rig.MadeShock(
    compression=rig.Valve(0.16, 0.004, 300.0, 6.0, 6.5e-4, 2.3, leak=6e-6, soft=25.0),
    rebound=rig.Valve(0.11, 0.004, 420.0, 6.0, 4.0e-4, 2.1, leak=5e-6, soft=60.0),
    gas_pressure=5e5, friction=11.0, stiffness=1.6e6,
)  # fmt: skip
STIFF = rig.MadeShock(
    compression=rig.Valve(0.05, 0.003, 700.0, 10.0, 3.0e-4, 1.1, soft=70.0),
    rebound=rig.Valve(0.04, 0.003, 900.0, 10.0, 2.0e-4, 1.2, soft=50.0),
    gas_pressure=14e5, gas_volume=7e-5, friction=27.0, stiffness=4.0e6,
)  # fmt: skip
RUN = rig.Run(peak_speeds=(0.025, 0.06, 0.15, 0.4, 0.65), stroke=0.06, rate=1200.0, cycles=4)


def trace(time, displacement, force, **more) -> Sweep:
    channels = {"time": time, "displacement": displacement, "force": force, **more.pop("channels", {})}
    return Sweep("trace", {k: v for k, v in channels.items() if v is not None}, Source("made.csv", "0"), **more)


def recorded(shock: rig.MadeShock, seed: int, run: rig.Run = RUN, clicks=None, **channels) -> Sweep:
    """A sweep of a made-up shock with noise of 0.5 % of its force range."""
    reach = np.abs(shock.damping(np.array([-1.0, 1.0]) * max(run.peak_speeds), clicks or {})).max()
    record = rig.record(shock, clicks or {}, replace(run, noise=0.005 * reach), seed)
    kept = {name: getattr(record, name) for name in channels if channels[name]}
    return trace(record.time, record.displacement, record.force, channels=kept)


def driven(velocity, dt: float, shock: rig.MadeShock, noise: float = 4.0, seed: int = 0) -> Sweep:
    """A sweep of a shock driven by any velocity."""
    rng = np.random.default_rng(seed)
    x = np.cumsum(velocity) * dt
    grid = np.linspace(-3, 3, 20001)
    damping = rig._with_compliance(velocity, grid, shock.damping(grid, {}), shock.stiffness, dt)
    force = damping + shock.friction * np.tanh(velocity / 0.002) + shock.gas(x + 0.05)
    n = len(velocity)
    return trace(np.arange(n) * dt, x + rng.normal(0, 1e-5, n), force + rng.normal(0, noise, n))


def errors(curve, shock: rig.MadeShock, top: float, clicks=None):
    """Error of a curve in % of the force range, from 0.02 m/s to 90 % of the top speed: rms and worst."""
    v = np.linspace(0.02, 0.9 * top, 150)
    v = np.concatenate([-v[::-1], v])
    truth = shock.damping(v, clicks or {})
    error = 100 * (curve(v) - truth) / np.ptp(truth)
    return float(np.sqrt(np.mean(error**2))), float(np.abs(error).max())


SPEEDS = np.array([0.0, 0.06, 0.2, 0.5])
FORCES = {1.0: np.array([0.0, 300.0, 550.0, 1000.0]), -1.0: np.array([0.0, 420.0, 800.0, 1500.0])}
FEW = np.array([0.02, 0.04, 0.06, 0.08, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.42, 0.5])


def broken_line(v):
    """Exact piecewise-linear truth, knees at 0.06 and 0.2 m/s in both directions."""
    return np.where(v >= 0, np.interp(v, SPEEDS, FORCES[1.0]), -np.interp(-v, SPEEDS, FORCES[-1.0]))


def exact_trace(seed: int, *, noise: str = "independent", samples: int = 20_000, cycles: int = 20) -> Sweep:
    """A trace of that truth with 1 % noise: independent, or half of it whole cycles that lie high, low or steep."""
    rng = np.random.default_rng(seed)
    t = np.arange(samples) / 1000.0
    omega = 2 * np.pi * cycles / (samples / 1000.0)
    v, x = 0.5 * np.sin(omega * t), -0.5 / omega * np.cos(omega * t)
    error = rng.normal(0, 10.0, samples)
    if noise == "cycles":
        cycle = np.arange(samples) * cycles // samples
        error = 0.5 * error + rng.normal(0, 6.0, cycles)[cycle] + broken_line(v) * rng.normal(0, 0.01, cycles)[cycle]
    return trace(t, x, broken_line(v) + error, channels={"velocity": v})


def table(seed: int, truth=broken_line, scatter: float = 0.01, gas: float = 0.0, removed: bool | None = True) -> Sweep:
    """A peak table of 12 speeds in both directions."""
    rng = np.random.default_rng(seed)
    v = np.concatenate([FEW, -FEW])
    force = truth(v) * (1 + rng.normal(0, scatter, len(v))) + gas
    return Sweep("peaks", {"velocity": v, "force": force}, Source("table.csv", "0"), gas_removed=removed)
