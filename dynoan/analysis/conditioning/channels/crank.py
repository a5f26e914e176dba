"""A crank motion fitted to displacement: harmonics of one frequency, the frequency fitted too."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import FloatArray


def crank(t: FloatArray, x: FloatArray, omega: float, harmonics: int) -> tuple[float, FloatArray, float]:
    """Fit a periodic motion by least squares, the frequency included.

    Parameters
    ----------
    t, x
        Time about its middle [s] and displacement [m], shape (n,).
    omega
        Starting value of the angular frequency [rad/s].
    harmonics
        How many.

    Returns
    -------
    :
        Angular frequency [rad/s], complex amplitudes of harmonics 0 to `harmonics` (x = Re Σ a e^{ihωt}) [m], and the
        residual, root mean square [m].

    Notes
    -----
    Gauss-Newton with the frequency as one more parameter; a slider-crank has a fundamental and quickly falling even
    harmonics.
    """
    h = np.arange(1, harmonics + 1)
    for _ in range(6):
        phase = np.cumprod(np.repeat(np.exp(1j * omega * t)[:, None], harmonics, axis=1), axis=1)
        c, s = phase.real, phase.imag
        columns = np.column_stack([np.ones_like(t), c, s])
        found = _least_squares(columns, x)
        a, b = found[1 : harmonics + 1], found[harmonics + 1 :]
        speed = t * ((c * h) @ b - (s * h) @ a)
        # The columns are nearly orthogonal, so the normal equations lose nothing.
        step = float(_least_squares(np.column_stack([columns, speed]), x - columns @ found)[-1])
        if abs(step) < 1e-8 * omega:
            break
        omega += float(np.clip(step, -0.02 * omega, 0.02 * omega))
    rest = x - columns @ found
    amplitudes = np.concatenate([[found[0]], a - 1j * b])
    return omega, amplitudes, float(np.sqrt(np.mean(rest**2)))


def _least_squares(matrix: FloatArray, y: FloatArray) -> FloatArray:
    scale = np.sqrt(np.add.reduce(matrix * matrix, axis=0)) + 1e-300
    matrix = matrix / scale
    gram = matrix.T @ matrix
    gram.reshape(-1)[:: len(scale) + 1] += 1e-13
    return np.asarray(np.linalg.solve(gram, matrix.T @ y) / scale)


def crank_at(t: FloatArray, omega: float, amplitudes: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return displacement [m] and velocity [m/s] of a fitted crank motion at times about its middle [s]."""
    turn = np.exp(1j * omega * t)
    power = np.ones_like(turn)
    x, v = np.zeros(len(t), dtype=complex), np.zeros(len(t), dtype=complex)
    for k, amplitude in enumerate(amplitudes):
        x += amplitude * power
        v += 1j * k * omega * amplitude * power
        power = power * turn
    return x.real, v.real
