"""Forces by speed, both directions, as people read them: the table of every curve."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.jobs.curve_table import is_beyond, speeds_for
from dynoan.model.curve import Curve
from dynoan.show.text.blocks import Block, Paragraph, Table
from dynoan.units import Shown, shown


def forces(curve: Curve, at: Sequence[float] | None, units: Shown) -> list[Block]:
    """Return the table of a curve's damping force and band, at the speeds asked for or the usual ones [m/s]."""
    force, velocity = shown("force", units).unit, shown("velocity", units).unit
    columns = [f"velocity {velocity}", f"compression {force}", "95 % band", f"rebound {force}", "95 % band"]
    rows = [_row(curve, speed, units) for speed in speeds_for(curve, at, units)]
    starred = any("*" in cell for row in rows for cell in row)
    return [Table(columns, rows), *([Paragraph("* beyond the measured speeds")] if starred else [])]


def _row(curve: Curve, speed: float, units: Shown) -> list[str]:
    force, velocity = shown("force", units), shown("velocity", units)
    cells = [velocity.text(speed, unit=False)]
    for signed in (speed, -speed):
        low, high = (float(limit) for limit in curve.band(signed))
        mark = "*" if is_beyond(curve, signed) else ""
        value = float(curve(signed))
        sides = (high - value, value - low) if signed > 0 else (value - low, high - value)
        cells += [force.text(abs(value), unit=False) + mark, force.band(*sides, max(force.digits, 1))]
    return cells
