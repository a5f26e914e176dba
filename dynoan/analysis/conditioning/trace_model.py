"""What a trace is taken apart into, and what each does to velocity and force."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from dynoan.analysis.conditioning.assumptions import POLYTROPIC
from dynoan.analysis.conditioning.rows import Rows
from dynoan.analysis.conditioning.splines import spline_at
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Terms:
    """Which effects a joint fit holds."""

    slope: bool = True  #: gas force over displacement
    gas_curvature: bool = False  #: its curvature
    friction: bool = True
    delay: bool = True
    compliance: bool = True
    drift: bool = False


@dataclass(frozen=True)
class TraceModel:
    """What a joint fit found. `sd` holds standard errors by name, from the scatter between half cycles."""

    terms: Terms
    offset: float = 0.0  #: gas and zero at mid-stroke [N]
    slope: float = 0.0  #: [N/m]
    gas_curvature: float = 0.0  #: [N/m²]
    column: float = float("inf")  #: length of the gas at mid-stroke, its volume over the rod's area [m]
    friction: float = 0.0  #: [N]
    none_found: float = float("nan")  #: 0 where the record tells that there is no friction [N]
    bias: float = 0.0  #: error of friction beside its scatter: left in, or by how fast it turns around [N]
    turning: float = 0.002  #: v0 of the friction [m/s]
    delay: float = 0.0  #: the force channel is late by [s]
    compliance: float = 0.0  #: [m/N]
    drift: float = 0.0  #: of the damping force, per kelvin
    middle: float = 0.0  #: mid-stroke [m]
    reference_temperature: float = float("nan")  #: temperature the damping force belongs to [°C]
    noise: float = float("nan")  #: residual of a row, root mean square [N]
    cost: float = float("inf")  #: weighted sum of squares, for weights held
    loss: float = float("inf")  #: mean square in standard deviations, outliers bounded; for comparing any two fits
    sd: dict[str, float] = field(default_factory=dict)
    influence: FloatArray | None = None  #: what each cluster of rows pulled offset and friction by, shape (g, 2) [N]
    correlation: float = 0.0  #: correlation of the errors of delay and compliance
    spline: tuple[FloatArray, FloatArray, FloatArray, FloatArray] | None = None  #: edges and weights, both directions

    def damping(self, v: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return the smooth damping force and its slope at signed velocities. [N], [N·s/m]"""
        assert self.spline is not None
        edges_c, w_c, edges_r, w_r = self.spline
        c, steep_c = spline_at(np.maximum(v, 0.0), edges_c, w_c)
        r, steep_r = spline_at(np.maximum(-v, 0.0), edges_r, w_r)
        return c - r, np.where(v >= 0, steep_c, steep_r)


def corrected(rows: Rows, model: TraceModel) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return velocity of the valve [m/s], force with the delay taken out [N], and its force_rate [N/s]."""
    force, force_rate = rows.force, rows.force_rate
    if model.delay:
        # Spans are far apart on this clock, so nothing is interpolated from one into the next.
        apart = rows.span * 1e3
        force = np.interp(rows.time + model.delay + apart, rows.time + apart, rows.force)
        force_rate = np.interp(rows.time + model.delay + apart, rows.time + apart, rows.force_rate)
    velocity = rows.velocity
    if model.compliance or model.terms.compliance:
        velocity = rows.velocity - model.compliance * valve_force_rate(rows, model, force_rate)
    return velocity, force, force_rate


def valve_force_rate(rows: Rows, model: TraceModel, force_rate: FloatArray) -> FloatArray:
    """Return the force_rate of the damping force alone: friction and gas do not load the series spring. [N/s]"""
    out = force_rate - model.slope * rows.velocity
    if model.friction:
        back = np.gradient(np.tanh(rows.velocity / model.turning)) / np.maximum(np.gradient(rows.time), 1e-9)
        edge = np.diff(rows.span, prepend=-1, append=-1) != 0
        out = out - model.friction * np.where(edge[1:] | edge[:-1], 0.0, back)
    return np.asarray(out)


def gas_bend(z: FloatArray, column: float) -> FloatArray:
    """Return what gas force over travel has beyond its slope, per curvature: z² to second order, then polytropic. [m²]

    ``p V^n = const`` makes a column of gas of length h push with ``(s·h/n)·((1 − z/h)^(−n) − 1)``, its slope s at z = 0
    and its second derivative ``s·(n+1)/h``.
    """
    if not np.isfinite(column):
        return z * z
    n = POLYTROPIC
    share = np.minimum(z / column, 0.9)
    return np.asarray((column / n * ((1 - share) ** -n - 1) - z) * 2 * column / (n + 1))


def gas_column(slope: float, gas_curvature: float, reach: float) -> float:
    """Return the length of a polytropic gas column by its slope and curvature; infinite where no such column shows. [m]

    `reach` is the largest travel from mid-stroke, which the gas must have room for. [m]
    """
    if slope <= 0 or gas_curvature <= 0:
        return float("inf")
    column = 0.5 * (POLYTROPIC + 1) * slope / gas_curvature
    return column if column > 1.15 * reach else float("inf")


def static(rows: Rows, model: TraceModel) -> FloatArray:
    """Return gas, zero and friction at the rows. [N]"""
    out = model.offset + model.friction * np.tanh(rows.velocity / model.turning)
    if rows.displacement is not None:
        z = rows.displacement - model.middle
        out = out + model.slope * z + model.gas_curvature * gas_bend(z, model.column)
    return np.asarray(out)
