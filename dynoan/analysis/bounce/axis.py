"""Which way is up in what a phone logged."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.bounce.assumptions import GRAVITY_WITHIN
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.units import GRAVITY


@dataclass(frozen=True)
class Upward:
    """Acceleration of the body upward, and how up was found."""

    values: FloatArray  #: about zero, shape (n,) [m/s²]
    axis: FloatArray  #: up, in the phone's own axes, shape (3,)
    by_gravity: bool  #: False: by the direction it moves along, and pushes that go down

    @property
    def tilt(self) -> float:
        """How far up lies off the nearest of the phone's axes. [rad]"""
        return float(np.arccos(min(1.0, float(np.max(np.abs(self.axis))))))

    @property
    def nearest(self) -> int:
        """Which of the phone's axes is nearest to up, from 0."""
        return int(np.argmax(np.abs(self.axis)))


def upward(axes: FloatArray, unit: float | None) -> Upward:
    """Return the acceleration upward of three axes.

    Parameters
    ----------
    axes
        As logged, shape (n, 3); or one axis, shape (n, 1).
    unit
        Of them in m/s²; None: told by what gravity shows, 1 or 9.8. [m/s²]

    Raises
    ------
    QuantityError
        If no unit is told and gravity shows none, gravity shows another unit than was told, or nothing moves.
    """
    rest = np.median(axes, axis=0)
    size = float(np.linalg.norm(rest))
    factor = _unit(size) if unit is None else _stated(size, unit)
    moved = (axes - rest) * factor
    if not np.any(np.std(moved, axis=0) > 0):
        raise QuantityError("the acceleration does not change", hint="is this the right log?")
    if abs(size * factor / GRAVITY - 1.0) < GRAVITY_WITHIN:
        up = rest / size
        return Upward(moved @ up, up, True)
    _, _, rows = np.linalg.svd(moved, full_matrices=False)
    along = moved @ rows[0]
    sign = 1.0 if along.max() >= -along.min() else -1.0  # let go, a car that was pushed down goes up
    return Upward(sign * along, sign * rows[0], False)


def _stated(size: float, unit: float) -> float:
    """Return the unit that was told, unless gravity shows that it is the other of g and m/s². [m/s²]"""
    other = GRAVITY if unit == 1.0 else 1.0
    if unit in (1.0, GRAVITY) and abs(size * other / GRAVITY - 1.0) < GRAVITY_WITHIN:
        says, shows = ("m/s²", "g") if unit == 1.0 else ("g", "m/s²")
        raise QuantityError(
            f"the header says {says}, but at rest the axes show {size:.2f}, gravity in {shows}",
            hint="write that in the header",
        )
    return unit


def _unit(size: float) -> float:
    for unit in (1.0, GRAVITY):
        if abs(size * unit / GRAVITY - 1.0) < GRAVITY_WITHIN:
            return unit
    raise QuantityError(
        "the acceleration has no unit, and no gravity in it tells one", hint="write it in the header: [g] or [m/s2]"
    )
