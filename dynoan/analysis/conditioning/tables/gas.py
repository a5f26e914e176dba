"""What is known of the gas force in a peak table before its forces are looked at."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning.tables import assumptions as of_table
from dynoan.model.sweep import Sweep


@dataclass(frozen=True)
class Gas:
    """What is known of the gas force before the table is looked at, and in words where that is something. [N]"""

    mean: float
    sd: float
    words: str = ""
    stated: bool = False  #: by a pressure on a rod


def gas_before(sweep: Sweep, rod: float | None, peak: float) -> Gas:
    """Return what the file says of gas force, as a mean and a standard deviation. [N]"""
    if sweep.gas_removed:
        return Gas(0.0, of_table.TABLE_ZERO * peak, "the file says gas force is out")
    if sweep.gas_pressure is not None and rod is not None:
        force = sweep.gas_pressure * np.pi / 4 * rod**2
        return Gas(of_table.GAS_AT_MIDDLE * force, of_table.GAS_STATED * force + of_table.TABLE_ZERO * peak,
                   f"stated pressure on a {rod * 1e3:.1f} mm rod makes {force:.0f} N extended",
                   stated=True)  # fmt: skip
    return Gas(*of_table.GAS_UNSTATED)
