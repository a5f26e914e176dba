"""Decays of published cases, as a logger would see them."""

from __future__ import annotations

import numpy as np


def linear_quarter_car(given: dict[str, float]) -> tuple[np.ndarray, np.ndarray]:
    """Time and shock travel of a quarter car whose body is let go, wheel at rest under it; compression positive."""
    m, u, k, t, c = (given[key] for key in ("sprung_kg", "unsprung_kg", "wheel_rate_n_m", "tyre_n_m", "damping_n_s_m"))
    matrix = np.array([
        [0, 1, 0, 0], [-k / m, -c / m, k / m, c / m], [0, 0, 0, 1], [k / u, c / u, -(k + t) / u, -c / u],
    ])  # fmt: skip
    values, vectors = np.linalg.eig(matrix)
    start = np.linalg.solve(vectors, np.array([given["release_m"], 0.0, 0.0, 0.0], complex))
    at = np.arange(0.0, 3.0, 0.005)
    y = np.real(vectors @ (start[:, None] * np.exp(np.outer(values, at))))
    return at, y[0] - y[2]


def damped_and_dry(given: dict[str, float], frequency: float, start: float) -> tuple[np.ndarray, np.ndarray]:
    """Time and travel of a mass on spring, damper and dry friction, let go, half cycle by half cycle in closed form.

    Peaks over the first hang on the ratio and on friction over stiffness and start alone: the same case at another
    frequency and from another start has the same peaks over it.
    """
    z, omega = given["damping_ratio"], 2 * np.pi * frequency
    turning, rubbing = (
        omega * np.sqrt(1 - z**2),
        start * given["friction_n"] / given["stiffness_n_m"] / given["start_m"],
    )
    at = np.arange(0.0, 4.0, 0.005)
    peak, begun, way, out = start, 0.0, 1.0, np.full(len(at), np.nan)
    while abs(peak) > rubbing:
        middle, t = way * rubbing, at - begun
        inside = (t >= 0) & (t < np.pi / turning)
        fall = np.exp(-z * omega * t) * (np.cos(turning * t) + z * omega / turning * np.sin(turning * t))
        out[inside] = (middle + (peak - middle) * fall)[inside]
        peak = middle - (peak - middle) * np.exp(-np.pi * z / np.sqrt(1 - z**2))
        begun, way = begun + np.pi / turning, -way
    out[np.isnan(out)] = peak
    return at, out
