"""The same push on the simulated corner: what its log would hold, so that like is held against like."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.bounce.assumptions import (
    AMPLITUDE,
    FIRST_PUSH,
    LET_GO_TIME,
    MADE_PUSHES,
    MADE_SEED,
    MADE_STEP,
    TURN,
)
from dynoan.analysis.bounce.figures import free_frequency, with_shock
from dynoan.analysis.bounce.finding import free_swings
from dynoan.analysis.bounce.fitting import fit_swings, thinned
from dynoan.analysis.bounce.limits import SwingFit
from dynoan.analysis.bounce.problem import KnownCorner, Logged
from dynoan.analysis.bounce.pushes import noise_of
from dynoan.analysis.bounce.swing import KAPPA, PARAMETERS, TAU, WHEEL
from dynoan.analysis.corner.equivalent_damping import in_swing
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

    @property
    def free_and_ratio(self) -> tuple[float, float]:
        """Frequency without the shock, and damping ratio with its curve as it is, friction left out. [Hz, 1]"""
        p = np.zeros(PARAMETERS)
        p[KAPPA], p[TAU], p[WHEEL] = np.array([self.rate, self.tyre, self.unsprung]) / self.sprung
        ratio = with_shock(p, lambda w: in_swing(self.damping, amplitude=AMPLITUDE, omega=w).damping / self.sprung)[1]
        return free_frequency(p), ratio


@dataclass(frozen=True)
class MadePushes:
    """How a log was made, so that another can be made like it."""

    rate: float  #: [Hz]
    acceleration: bool  #: whether a phone on the body logs, or travel
    depths: tuple[float, ...]  #: travel at the wheel [m]
    noise: float = 0.0  #: standard deviation of a sample [as logged]


def pushes_like(logged: Logged, corner: MadeCorner, rate: float) -> MadePushes:
    """Return pushes on a simulated corner that reach as far as those of a log, some of them where there are many.

    A fit of two slopes reads a shock that is bent otherwise by how deep it was pushed, and by how much noise there is.

    Parameters
    ----------
    logged
        What was logged of a real corner.
    corner
        What stands for it.
    rate
        Of the log to make. [Hz]

    Raises
    ------
    FitError
        As of `free_swings`.
    """
    slow = thinned(logged)
    peaks = sorted(swing.peak for swing in free_swings(slow))
    picked = [peaks[round(n)] for n in np.linspace(0, len(peaks) - 1, min(len(peaks), MADE_PUSHES))]
    first = MadePushes(rate, logged.acceleration, (FIRST_PUSH,))
    reached = free_swings(made_log(corner, first))[0].peak
    return replace(first, depths=tuple(FIRST_PUSH * p / reached for p in picked), noise=noise_of(slow.values))


def predicted_fit(corner: MadeCorner, pushes: MadePushes) -> SwingFit:
    """Return what the log of such pushes on a corner as its file has it would be read as.

    Raises
    ------
    FitError
        If such a corner does not swing.
    """
    return fit_swings(made_log(corner, pushes), corner.known)


def predicted_within(corners: Sequence[MadeCorner], pushes: MadePushes) -> SwingFit:
    """Return what the log of a corner would be read as where it may be any of several: the first's, limits round all.

    Parameters
    ----------
    corners
        The likeliest first.
    pushes
        How each is pushed and logged.

    Raises
    ------
    FitError
        If one does not swing.
    """
    fits = [predicted_fit(corner, pushes) for corner in corners]

    def around(figure: str) -> Banded:
        each: list[Banded] = [getattr(fit, figure) for fit in fits]
        return Banded(each[0].value, min(b.low for b in each), max(b.high for b in each))

    return replace(fits[0], frequency=around("frequency"), ratio=around("ratio"), free=around("free"))


def made_log(corner: MadeCorner, pushes: MadePushes) -> Logged:
    """Return the log of pushes on a corner; its noise is the same every time."""
    each = {deep: _pushed(corner, deep)[1 if pushes.acceleration else 0] for deep in pushes.depths}
    pieces = [each[deep] for deep in pushes.depths]
    still = np.zeros(round(LET_GO_TIME / MADE_STEP))  # so that the first push begins somewhere
    values = np.concatenate([part for piece in pieces for part in (still, piece)])
    time = np.arange(len(values)) * MADE_STEP
    at = np.arange(0.0, time[-1], 1.0 / pushes.rate)
    noise = np.random.default_rng(MADE_SEED).normal(0.0, pushes.noise, len(at))
    return Logged(at, np.interp(at, time, values) + noise, pushes.acceleration)


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
