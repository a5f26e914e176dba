"""The least-squares problem of a peak table: damping that rises, gas force, friction, and their evidence."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.conditioning.assumptions import LAMINAR_FIRST
from dynoan.analysis.conditioning.forces.shape import centres, smoothness, speed_edges, steps_to_weights
from dynoan.analysis.conditioning.forces.splines import design
from dynoan.analysis.conditioning.separating.posterior import bounded
from dynoan.analysis.conditioning.tables import assumptions as of_table
from dynoan.analysis.conditioning.tables.gas import Gas
from dynoan.model.arrays import BoolArray, FloatArray


class TableProblem:
    """The least-squares problem of one table."""

    def __init__(self, v: FloatArray, f: FloatArray, gas: Gas, ends: FloatArray) -> None:
        self.v, self.gas, self.ends = v, gas, ends
        self.edges = (speed_edges(v[v > 0], of_table.TABLE_EDGES), speed_edges(-v[v < 0], of_table.TABLE_EDGES))
        self.k = len(self.edges[0])
        self.size = self.k + len(self.edges[1])
        self.to_weights = steps_to_weights((self.k, self.size - self.k))
        self.y = f - gas.mean - of_table.TABLE_END[0] * ends
        self.peak = float(np.max(np.abs(f)))
        lines = design(v, self.edges)
        eye = np.eye(self.size)
        splines = np.array([lines.curve(self.to_weights @ one)[0] for one in eye]).T
        self.matrix = np.column_stack([splines, np.ones(len(v)), np.sign(v)])
        self.held: BoolArray = np.concatenate([np.ones(self.size, bool), [False, True]])
        self.guess = np.concatenate([np.diff(centres(e), prepend=0.0) * self.peak / e[-1] for e in self.edges])

    def deviation(self, scatter: float, x: FloatArray | None = None) -> FloatArray:
        """Return the standard deviation of each force [N] by a scatter, share of force and of some of the peak."""
        size = np.abs(self.y)
        return np.hypot(scatter * np.hypot(size, 0.15 * self.peak), of_table.TABLE_END[1] * self.ends)

    def solve(
        self, steps: FloatArray, scatter: float, exponent: float
    ) -> tuple[FloatArray, float, tuple[FloatArray, FloatArray, FloatArray]]:
        """Return the best coefficients [N], their evidence [1], and the scaled system with its scales."""
        n, k = self.size, self.k
        weight = self.deviation(scatter) ** -2.0
        gram = (self.matrix * weight[:, None]).T @ self.matrix
        load = self.matrix.T @ (weight * self.y)
        root = np.zeros_like(gram)
        root[:k, :k] = smoothness(self.edges[0], steps[:k], exponent)
        root[k:n, k:n] = smoothness(self.edges[1], steps[k:n], exponent)
        root[n, n], root[n + 1, n + 1] = 1.0 / self.gas.sd, 1.0 / of_table.TABLE_FRICTION
        full = gram + root.T @ root
        size = np.sqrt(np.diag(full)) + 1e-12
        scaled = full / np.outer(size, size) + 1e-9 * np.eye(n + 2)
        x = bounded(scaled, load / size, self.held)
        lower = np.linalg.cholesky(scaled)
        logdet = np.sum(np.log(np.abs(np.diag(root)))) - np.sum(np.log(np.diag(lower))) - np.sum(np.log(size))
        rest = float(np.sum(weight * self.y**2))
        evidence = (
            logdet + float(load / size @ x) - 0.5 * float(x @ scaled @ x) - 0.5 * rest + 0.5 * np.sum(np.log(weight))
        )
        return x / size, float(evidence), (scaled, load / size, size)

    def scatter(self, x: FloatArray, scatter: float) -> float:
        """Return the scatter of a force, a share [1], learned from the residuals and from what is usual."""
        own = self.ends == 0
        rest = ((self.y - self.matrix @ x) / self.deviation(1.0))[own]
        _, _, (scaled, _, size) = self.solve(np.maximum(x[: self.size], 1e-9), scatter, LAMINAR_FIRST)
        weight = self.deviation(scatter) ** -2.0
        gram = (self.matrix * weight[:, None]).T @ self.matrix / np.outer(size, size)
        used = float(np.trace(np.linalg.solve(scaled, gram)))
        free = max(int(own.sum()) - used, 0.0)
        squares = float(np.sum(rest**2)) + of_table.TABLE_KNOWN * of_table.TABLE_SCATTER**2
        return float(np.sqrt(squares / (free + of_table.TABLE_KNOWN)))
