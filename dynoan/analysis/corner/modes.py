"""Natural modes of linear systems.

Source: S. S. Rao, *Mechanical Vibrations*, systems of several degrees of freedom.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.corner.assumptions import SWINGS
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Mode:
    """One natural mode."""

    frequency: float  #: undamped natural frequency, the modulus of the eigenvalue [Hz]
    ratio: float  #: damping ratio of the mode; above 1 where it does not swing
    shape: FloatArray  #: displacement of each coordinate over the largest, real part


def modes(mass: FloatArray, damping: FloatArray, stiffness: FloatArray) -> tuple[Mode, ...]:
    r"""Return the modes of :math:`M\ddot x + C\dot x + Kx = 0`, lowest frequency first.

    Parameters
    ----------
    mass, damping, stiffness
        Square matrices of one size n, the mass not singular. [kg, N·s/m, N/m; with m² for angles]

    Returns
    -------
    :
        n modes, from the eigenvalues of the first-order form. A mode that does not swing has two real eigenvalues
        a, b: its frequency is :math:`\sqrt{ab}`, its ratio :math:`(a+b)/2\sqrt{ab}`, as for a single mass.

    Examples
    --------
    >>> (one,) = modes(np.diag([2.0]), np.diag([8.0]), np.diag([200.0]))
    >>> round(2 * np.pi * one.frequency, 6), round(one.ratio, 6)
    (10.0, 0.2)
    """
    n = len(mass)
    inverse = np.linalg.inv(mass)
    first = np.block([[np.zeros((n, n)), np.eye(n)], [-inverse @ stiffness, -inverse @ damping]])
    values, vectors = np.linalg.eig(first)
    order = np.argsort(np.abs(values), kind="stable")
    swings = [i for i in order if values[i].imag > SWINGS * abs(values[i])]
    still = [i for i in order if abs(values[i].imag) <= SWINGS * abs(values[i])]
    found = [_mode(values[i], values[i].conjugate(), vectors[:n, i]) for i in swings]
    found += [_mode(values[a], values[b], vectors[:n, a]) for a, b in _creeping_pairs(still, np.real(vectors[:n]))]
    return tuple(sorted(found, key=lambda mode: mode.frequency))


def _creeping_pairs(still: list[int], shapes: FloatArray) -> list[tuple[int, int]]:
    """Pair the real eigenvalues, slowest first, each with the other whose shape is most like its own.

    A motion that does not swing creeps back at one rate and stops at another, with much the same shape.
    """
    unit = shapes / np.linalg.norm(shapes, axis=0)
    left, pairs = list(still), []
    while len(left) > 1:
        first = left.pop(0)
        likest = max(left, key=lambda other: abs(float(unit[:, first] @ unit[:, other])))
        left.remove(likest)
        pairs.append((first, likest))
    return pairs


def _mode(first: complex, second: complex, vector: FloatArray) -> Mode:
    omega = float(np.sqrt(abs(first * second)))
    largest = vector[np.argmax(np.abs(vector))]
    ratio = float(-(first + second).real / (2 * omega)) if omega else 0.0
    return Mode(omega / (2 * np.pi), ratio, np.real(vector / largest))
