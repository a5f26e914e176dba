"""What a record leaves open: draws of its damping and of its friction."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning.forces.effects import yielding
from dynoan.analysis.conditioning.forces.splines import spline_at
from dynoan.analysis.conditioning.samples.rubbing import steady
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Open:
    """Draws of the damping and of the friction in steady sliding, each as likely as the other."""

    edges: tuple[FloatArray, FloatArray]  #: of the splines, compression's first [m/s]
    weights: FloatArray  #: of the splines, compression's first, shape (draws, p) [N]
    laws: tuple[str, ...]  #: names of the friction laws
    friction_draws: FloatArray  #: their coefficients, shape (draws, f) [N]
    yield_draws: FloatArray  #: of what yields, compression's first, shape (draws, 2 y) [N]

    def damping(self, v: FloatArray) -> FloatArray:
        """Return draws of the damping force at signed velocities, shape (draws, n). [N]"""
        n = len(self.edges[0])
        out = np.empty((len(self.weights), len(v)))
        up, down = np.maximum(v, 0.0), np.maximum(-v, 0.0)
        for k, w in enumerate(self.weights):
            out[k] = spline_at(up, self.edges[0], w[:n])[0] - spline_at(down, self.edges[1], w[n:])[0]
        return np.asarray(out + self.yield_draws @ yielding(np.asarray(v))[0])

    def friction(self, v: FloatArray) -> FloatArray:
        """Return draws of the friction in steady sliding at signed velocities, shape (draws, n). [N]"""
        return np.asarray(self.friction_draws @ steady(self.laws, np.asarray(v, dtype=float)))

    def parts(self) -> dict[str, FloatArray]:
        """Return draws of the friction by what turns it around: "turn", "breakaway", "slide", shape (draws,). [N]"""
        kinds = ["breakaway" if law.startswith("away") else law.split()[0] for law in self.laws]
        return {
            kind: self.friction_draws[:, [k == kind for k in kinds]].sum(axis=1)
            for kind in ("turn", "breakaway", "slide")
        }

    def beside(self, other: Open) -> Open:
        """Return the draws of both, of one shape."""
        return Open(
            self.edges, np.concatenate([self.weights, other.weights]), self.laws,
            np.concatenate([self.friction_draws, other.friction_draws]),
            np.concatenate([self.yield_draws, other.yield_draws]),
        )  # fmt: skip
