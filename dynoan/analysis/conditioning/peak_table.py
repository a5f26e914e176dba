"""Peak tables: one force a velocity and direction; whether gas force is still in has to be found out."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.conditioning.result import Conditioned
from dynoan.analysis.statistics import t_quantile
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import Sweep

#: scatter of a peak force that is taken for granted, share of the force; common practice, no source
SCATTER = 0.01


def condition_peaks(sweep: Sweep) -> Conditioned:
    """Return a peak table's damping force over velocity.

    Raises
    ------
    FitError
        If fewer than three rows are complete, or nothing moves.
    """
    name = sweep.source.name
    v, f = (np.asarray(sweep.channels[key], dtype=float) for key in ("velocity", "force"))
    good = np.isfinite(v) & np.isfinite(f) & (v != 0)
    v, f = v[good], f[good]
    if len(v) < 3:
        raise FitError(f"{name}: {len(v)} rows with a velocity and a force are too few for a curve; wanted at least 3")
    if np.ptp(np.abs(f)) <= 1e-9 * max(1.0, float(np.max(np.abs(f)))):
        raise FitError(f"{name}: every force in the table is {float(f[0]):.6g} N; check which column is force")
    offset, sd, lines = _offset(v, f, sweep.gas_removed)
    damping = f - offset
    floor = SCATTER * np.abs(damping) + 0.002 * float(np.ptp(f))
    order = np.lexsort((v, np.abs(v)))
    return Conditioned(
        name=name, layout="peaks", velocity=v[order], force=damping[order], weight=1.0 / floor[order] ** 2,
        cluster=np.arange(len(v)), cycle=np.arange(len(v)), block=np.zeros(len(v), dtype=np.int64),
        gas_force=offset if offset else float("nan"), offset=offset, offset_sd=sd, samples=sweep.samples,
        temperature=sweep.temperature,
        findings=(f"used {len(v)} rows of a peak table", *lines, "friction: a peak table cannot tell; it is still in"),
    )  # fmt: skip


def _offset(v: FloatArray, f: FloatArray, gas_removed: bool | None) -> tuple[float, float, tuple[str, ...]]:
    """Return gas and zero, its standard error, and what was found."""
    if gas_removed:
        return 0.0, 0.0, ("the file says gas force is out; nothing more was taken out",)
    found = meeting_point(v, f)
    if found is None:
        return 0.0, 0.0, ("gas force: cannot tell, too few speeds in both directions; nothing was taken out",)
    offset, sd, dof = found
    reach = t_quantile(0.975, dof) * sd
    text = f"both directions run together at {offset:.0f} N (± {reach:.0f}) at zero speed"
    if offset > max(reach, 5.0):
        return offset, sd, (f"{text}: taken as gas force and zero, taken out",)
    if abs(offset) <= reach and reach < 0.05 * float(np.ptp(f)):
        return 0.0, 0.0, (f"{text}: gas force seems to be out already; nothing was taken out",)
    return 0.0, 0.0, (f"{text}: cannot tell whether gas force is in; nothing was taken out",)


def meeting_point(v: FloatArray, f: FloatArray) -> tuple[float, float, int] | None:
    """Return the force where both directions meet at zero speed, its standard error and degrees of freedom.

    The mean of compression and rebound (signed) is gas and zero plus half the asymmetry of damping, which vanishes at
    zero speed. It is fitted as a constant, a linear and, given enough speeds, a square term in speed, over the speeds
    that both directions share.

    Parameters
    ----------
    v, f
        Signed velocities [m/s] and forces [N] of a peak table.
    """
    up, down = v > 0, v < 0
    if up.sum() < 3 or down.sum() < 3:
        return None
    low = max(v[up].min(), (-v[down]).min())
    high = min(v[up].max(), (-v[down]).max())
    speeds = np.unique(np.round(np.concatenate([v[up], -v[down]]), 6))
    speeds = speeds[(speeds >= low - 1e-6) & (speeds <= high + 1e-6)][:6]
    if len(speeds) < 3:
        return None
    mean = 0.5 * (_at(v[up], f[up], speeds) + _at(-v[down], f[down], speeds))
    size = 0.5 * (_at(v[up], f[up], speeds) - _at(-v[down], f[down], speeds))
    powers = np.array([0.0, 1.0, 2.0])[: 3 if len(speeds) >= 5 else 2]
    weight = 1.0 / np.maximum(SCATTER * np.abs(size), 0.002 * float(np.ptp(f)))
    matrix = (speeds[:, None] / speeds[-1]) ** powers
    found, *_ = np.linalg.lstsq(matrix * weight[:, None], mean * weight, rcond=None)
    rest = (mean - matrix @ found) * weight
    dof = len(speeds) - len(powers)
    # Scatter below what tables have is luck: with two or three degrees of freedom it is met often.
    variance = max(float(np.sum(rest**2)) / dof, 0.25)
    inverse = np.linalg.inv((matrix * weight[:, None] ** 2).T @ matrix)
    return float(found[0]), float(np.sqrt(variance * inverse[0, 0])), dof


def _at(v: FloatArray, f: FloatArray, speeds: FloatArray) -> FloatArray:
    order = np.argsort(v)
    return np.interp(speeds, v[order], f[order])
