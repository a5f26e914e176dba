"""The same push on the simulated corner: what its log would hold, so that like is held against like."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.bounce.assumptions import LET_GO_TIME, MADE_PUSHES, MADE_STEP, TURN
from dynoan.analysis.bounce.fitting import fit_swings
from dynoan.analysis.bounce.limits import SwingFit
from dynoan.analysis.bounce.problem import KnownCorner, Logged
from dynoan.model.arrays import FloatArray
from dynoan.model.banded import Banded

_FASTEST = 2.0  #: of the table of forces, at the wheel [m/s]
_CELLS = 4000


@dataclass(frozen=True)
class MadeCorner:
    """A corner, or the mean of an axle's two, everything at the wheel."""

    sprung: float  #: [kg]
    unsprung: float  #: [kg]
    rate: float  #: of spring and gas [N/m]
    tyre: float  #: [N/m]
    damping: Callable[[FloatArray], FloatArray]  #: force by velocity, compression positive [N of m/s]
    friction: float  #: [N]
    tyre_stated: bool = True  #: False: the tyre's rate is a guess

    @property
    def known(self) -> KnownCorner:
        """What a fit may take as known of it."""
        return KnownCorner(self.tyre / self.rate, self.unsprung / self.sprung, self.tyre_stated)


def predicted_fit(corner: MadeCorner, rate: float, *, acceleration: bool) -> SwingFit:
    """Return what the log of a push on a corner as its file has it would be read as.

    Parameters
    ----------
    corner
        With the curve of what is on it.
    rate
        Of the log. [Hz]
    acceleration
        Whether a phone on the body logs, or travel.

    Raises
    ------
    FitError
        If such a corner does not swing.
    """
    return fit_swings(made_log(corner, rate, acceleration=acceleration), corner.known)


def predicted_within(corners: Sequence[MadeCorner], rate: float, *, acceleration: bool) -> SwingFit:
    """Return what the log of a corner would be read as where it may be any of several: the first's, limits round all.

    Parameters
    ----------
    corners
        The likeliest first.
    rate, acceleration
        As `predicted_fit`.

    Raises
    ------
    FitError
        If one does not swing.
    """
    fits = [predicted_fit(corner, rate, acceleration=acceleration) for corner in corners]

    def around(figure: str) -> Banded:
        each: list[Banded] = [getattr(fit, figure) for fit in fits]
        return Banded(each[0].value, min(b.low for b in each), max(b.high for b in each))

    return replace(fits[0], frequency=around("frequency"), ratio=around("ratio"), free=around("free"))


def made_log(corner: MadeCorner, rate: float, *, acceleration: bool) -> Logged:
    """Return the log of some pushes on a corner, without noise; parameters as `predicted_fit`."""
    pieces = [_pushed(corner, deep)[1 if acceleration else 0] for deep in MADE_PUSHES]
    still = np.zeros(round(LET_GO_TIME / MADE_STEP))  # so that the first push begins somewhere
    values = np.concatenate([part for piece in pieces for part in (still, piece)])
    time = np.arange(len(values)) * MADE_STEP
    at = np.arange(0.0, time[-1], 1.0 / rate)
    return Logged(at, np.interp(at, time, values), acceleration)


def _pushed(corner: MadeCorner, deep: float) -> tuple[FloatArray, FloatArray]:
    """Return shock travel at the wheel and upward acceleration after a push so deep, held, and let go."""
    cells = np.linspace(-_FASTEST, _FASTEST, 2 * _CELLS + 1)
    table = np.asarray(corner.damping(cells), dtype=float).tolist()
    over = _CELLS / _FASTEST
    hold = 0.3
    count = round((hold + LET_GO_TIME + 3.2) / MADE_STEP)
    x, w = deep, deep * corner.rate / corner.tyre
    z, vz, vw, stuck = x + w, 0.0, 0.0, corner.friction
    travel, up = np.empty(count), np.empty(count)
    for n in range(count):
        hand = corner.rate * deep + corner.friction
        hand *= min(1.0, max(0.0, 1.0 - (n * MADE_STEP - hold) / LET_GO_TIME))
        v = vz - vw
        force = corner.rate * (z - w) + table[min(max(round(v * over) + _CELLS, 0), 2 * _CELLS)] + stuck
        az, aw = (hand - force) / corner.sprung, (force - corner.tyre * w) / corner.unsprung
        travel[n], up[n] = z - w, -az
        vz, vw = vz + az * MADE_STEP, vw + aw * MADE_STEP
        z, w = z + vz * MADE_STEP, w + vw * MADE_STEP
        v = vz - vw
        sliding = math.copysign(corner.friction, v)
        stuck = sliding + (stuck - sliding) * math.exp(-abs(v) * MADE_STEP / TURN)
    return travel, up
