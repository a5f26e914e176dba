"""What conditioning leaves."""

from __future__ import annotations

from dataclasses import dataclass

from dynoan.analysis.conditioning.channels.blocks import Block
from dynoan.analysis.conditioning.found.trace_model import TraceModel
from dynoan.analysis.conditioning.left_open.open_end import Open
from dynoan.analysis.conditioning.samples.rows import Rows
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.sweep import Layout


@dataclass(frozen=True)
class Conditioned:
    """Damping force over valve velocity of one sweep, gas, zero, friction and lag out. One entry a row. SI."""

    name: str
    layout: Layout
    velocity: FloatArray  #: of the valve, signed [m/s]
    force: FloatArray  #: damping alone, signed [N]
    weight: FloatArray  #: one over the variance of the force, less for outliers [1/N²]
    cluster: IntArray  #: rows of one number (a cycle) err together; from 0
    cycle: IntArray
    block: IntArray
    gas_force: float = float("nan")  #: gas and load-cell zero together at mid-stroke; NaN where taken out before [N]
    gas_rate: float = float("nan")  #: gas force over travel at mid-stroke; NaN where the record does not tell it [N/m]
    offset: float = 0.0  #: what was taken out at mid-stroke [N]
    offset_sd: float = float("nan")  #: standard error of it [N]
    friction: float = float("nan")  #: NaN where the record cannot tell [N]
    friction_sd: float = 0.0  #: standard error of it [N]
    speed_sd: float = 0.0  #: standard error of the scale of speed, a share, where nothing could hold it [1]
    temperature: float | None = None  #: that the force belongs to [°C]
    samples: int = 0  #: of the sweep
    model: TraceModel | None = None  #: of a trace
    open: Open | None = None  #: what the record leaves open of damping and friction
    rows: Rows | None = None  #: of a trace: what was measured
    blocks: tuple[Block, ...] = ()
    findings: tuple[str, ...] = ()  #: what was found and taken out, one line each
    warnings: tuple[str, ...] = ()
