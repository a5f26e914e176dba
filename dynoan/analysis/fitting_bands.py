"""How sure a curve is: 95 % bands of the curve and of its knees.

Residuals of a trace hang together in time, so the usual formula is far too narrow. Each half cycle is taken as one
draw (it errs as a whole), and the scatter between half cycles gives the covariance; Student's t with their number. A
peak table's points are draws by themselves, their common scatter estimated with the few degrees of freedom left.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.fitting_cells import Cells, Points
from dynoan.analysis.knees import BrokenStick
from dynoan.analysis.knees_errors import jacobian, t_quantile
from dynoan.model.arrays import FloatArray

#: bins over speed in which the lack of fit is judged
BINS = 24


@dataclass(frozen=True)
class Spread:
    """Half widths of 95 % intervals."""

    half: FloatArray  #: of the force on the grid [N]
    knees: FloatArray  #: of each knee [m/s]


def spread_of(p: Points, cells: Cells, stick: BrokenStick, grid: FloatArray, *, peaks: bool) -> Spread:
    """Return the 95 % half widths of a curve and its knees.

    Parameters
    ----------
    p, cells
        The points of one direction and their cells.
    stick
        The curve fitted to the cells.
    grid
        Speeds to give the band at, shape (s,). [m/s]
    peaks
        Whether the points are a peak table's.
    """
    covariance, dof = _by_points(p, cells, stick) if peaks else _by_clusters(p, cells, stick)
    t = t_quantile(0.975, dof)
    sd = np.sqrt(np.maximum(np.einsum("ij,jk,ik->i", g := jacobian(stick, grid), covariance, g), 0.0))
    k = len(stick.knees)
    knees = np.sqrt(np.maximum(np.diag(covariance)[len(covariance) - k :], 0.0))
    misfit = np.zeros(len(grid)) if peaks else _misfit(p, cells, stick, grid)
    between = _between_sweeps(p, stick) * np.abs(stick(grid))
    return Spread(np.sqrt((t * sd) ** 2 + misfit**2 + between**2), t * knees)


def _by_points(p: Points, cells: Cells, stick: BrokenStick) -> tuple[FloatArray, int]:
    j = jacobian(stick, cells.speed)
    dof = max(len(cells) - stick.parameters, 1)
    rest = cells.force - stick(cells.speed)
    variance = float(np.sum(cells.weight * rest**2)) / dof
    return np.asarray(np.linalg.pinv((j * cells.weight[:, None]).T @ j) * max(variance, 0.05)), dof


def _by_clusters(p: Points, cells: Cells, stick: BrokenStick) -> tuple[FloatArray, int]:
    """Return the sandwich covariance over clusters; the weights are those of the fit."""
    j = jacobian(stick, cells.speed)
    inverse = np.linalg.pinv((j * cells.weight[:, None]).T @ j, rcond=1e-12)
    # A point pulls at its cell's mean by its share of the cell.
    share = p.weight * cells.noise[cells.place] ** 2
    pull = share * cells.weight[cells.place] * (p.force - stick(p.speed))
    # The cell's own lack of fit is the same for all clusters; it is judged apart.
    mean = np.bincount(cells.place, pull, len(cells)) / np.maximum(np.bincount(cells.place, share, len(cells)), 1e-300)
    pull = pull - share * mean[cells.place]
    ids, group = np.unique(p.cluster, return_inverse=True)
    scores = np.zeros((len(ids), j.shape[1]))
    for column in range(j.shape[1]):
        scores[:, column] = np.bincount(group, pull * j[cells.place, column], len(ids))
    g = len(ids)
    middle = scores.T @ scores * (g / max(g - 1, 1))
    return inverse @ middle @ inverse, max(g - 1, 1)


def _misfit(p: Points, cells: Cells, stick: BrokenStick, grid: FloatArray) -> FloatArray:
    """Return how far the curve lies from the mean of the points, beyond their noise, smoothed over speed. [N]"""
    rest = cells.force - stick(cells.speed)
    excess = rest**2 - cells.noise**2
    width = max(3, len(cells) // BINS) | 1
    kernel = np.ones(width) / width
    padded = np.pad(excess, width // 2, mode="reflect") if len(excess) > width else excess
    smooth = np.convolve(padded, kernel, mode="valid") if len(excess) > width else np.full(len(excess), excess.mean())
    return np.interp(grid, cells.speed, 2.0 * np.sqrt(np.maximum(smooth, 0.0)))


def _between_sweeps(p: Points, stick: BrokenStick) -> float:
    """Return the 95 % half width, as a share of force, that the scatter between pooled sweeps leaves in their mean."""
    ids = np.unique(p.sweep)
    if len(ids) < 2:
        return 0.0
    model = stick(p.speed)
    gains = []
    for one in ids:
        mine = p.sweep == one
        w = p.weight[mine]
        gains.append(float(np.sum(w * model[mine] * p.force[mine]) / np.sum(w * model[mine] ** 2)))
    return t_quantile(0.975, len(ids) - 1) * float(np.std(gains, ddof=1) / np.sqrt(len(ids)))
