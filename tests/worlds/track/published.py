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
