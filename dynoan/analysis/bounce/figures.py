"""From a corner's rates to its frequency and damping ratio at a stated travel."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from dynoan.analysis.bounce.assumptions import AMPLITUDE
from dynoan.analysis.bounce.swing import COMPRESSION, FAST, KAPPA, KNEE_AT, REBOUND, TAU, TYRE_DAMPING, WHEEL
from dynoan.model.arrays import FloatArray

_PHASES = 400
_ROUNDS = 40
_SETTLED = 1e-10


def frequency_and_ratio(p: FloatArray, amplitude: float = AMPLITUDE) -> tuple[float, float]:
    """Return undamped frequency and damping ratio of the body's swing, friction left out. [Hz, 1]

    The shock counts with the linear one that takes as much energy out a cycle (`∮F dx/(π ω X²)`); then the eigenvalue.

    Parameters
    ----------
    p
        Parameters as `swing` has them.
    amplitude
        Of the shock's travel at the wheel. [m]
    """
    phase = (np.arange(_PHASES) + 0.5) * np.pi / _PHASES

    def linear(omega: float) -> float:
        speed = amplitude * omega * np.sin(phase)
        bent = np.where(speed <= p[KNEE_AT], speed, p[KNEE_AT] + p[FAST] * (speed - p[KNEE_AT]))
        slope = float(np.mean(bent * speed)) * 2 / (amplitude * omega) ** 2
        return slope * 0.5 * float(p[COMPRESSION] + p[REBOUND])

    return with_shock(p, linear)


def with_shock(p: FloatArray, linear: Callable[[float], float]) -> tuple[float, float]:
    """Return undamped frequency and damping ratio of the body's swing with a shock of any law. [Hz, 1]

    Parameters
    ----------
    p
        Rates and masses as `swing` has them.
    linear
        Of the angular frequency [rad/s]: the linear shock that stands for it there, over the sprung mass. [1/s]
    """
    omega = float(np.sqrt(p[KAPPA]))
    root = complex(0.0, omega)
    for _ in range(_ROUNDS):
        root = _body(p, linear(omega))
        if abs(abs(root) - omega) < _SETTLED:
            break
        omega = abs(root)
    return omega / (2 * np.pi), -root.real / abs(root)


def free_frequency(p: FloatArray) -> float:
    """Return the frequency of the body's swing as if there were no shock: spring, tyre and masses alone. [Hz]"""
    k, t, m = p[KAPPA], p[TAU], p[WHEEL]
    total, product = k + (k + t) / m, k * t / m
    return float(np.sqrt(0.5 * (total - np.sqrt(total**2 - 4 * product)))) / (2 * np.pi)


def _body(p: FloatArray, c: float) -> complex:
    """Return the eigenvalue of the body's swing with a linear shock."""
    k, t, m, b = p[KAPPA], p[TAU], p[WHEEL], p[TYRE_DAMPING]
    matrix = np.array([[0, 1, 0, 0], [-k, -c, k, c], [0, 0, 0, 1], [k / m, c / m, -(k + t) / m, -(c + b) / m]])
    roots = np.linalg.eigvals(matrix)
    swinging = roots[np.imag(roots) > 0]
    if len(swinging):
        return complex(swinging[np.argmin(np.abs(swinging))])
    slow = np.sort(-np.real(roots))[:2]
    return complex(-float(np.sqrt(slow[0] * slow[1])), 0.0)
