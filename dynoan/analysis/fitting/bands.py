"""How sure a curve is: 95 % bands of the curve and of its knees.

Residuals of a trace hang together in time, so the usual formula is far too narrow. Each cycle is taken as one draw (it
errs as a whole), and the scatter between cycles gives the covariance; Student's t with their number. A peak table's
points are draws by themselves, their common scatter estimated with the few degrees of freedom left; their knees are as
sure as the profile of the sum of squares says.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.fitting.assumptions import BINS, KNEE_MISFIT, LEFT_BY_PARABOLA, LUCK
from dynoan.analysis.fitting.cells import Cells, Points
from dynoan.analysis.fitting.choice import Model
from dynoan.analysis.fitting.opening import Opener
from dynoan.analysis.fitting.repeats import between_sweeps
from dynoan.analysis.fitting.row_by_row import between_rows, stands_on_rows
from dynoan.analysis.knees.broken_line import BrokenStick
from dynoan.analysis.knees.errors import jacobian, profile_intervals
from dynoan.analysis.statistics import Z95, t_quantile
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Spread:
    """95 % intervals."""

    half: FloatArray  #: half width of the force on the grid [N]
    knees: FloatArray  #: lowest and highest place of each knee, shape (k, 2) [m/s]


@dataclass(frozen=True)
class Fitted:
    """One direction as fitted."""

    points: Points
    cells: Cells
    stick: BrokenStick
    peaks: bool  #: whether the points are a peak table's
    others: tuple[Model, ...]  #: the models tried, the chosen one among them


def spread_of(fitted: Fitted, grid: FloatArray, opener: Opener | None = None) -> Spread:
    """Return the 95 % half widths of a curve at speeds, shape (s,) [m/s], and the intervals of its knees.

    `opener` tells what the records leave open, which moves the knees too.
    """
    between = between_sweeps(fitted.points, fitted.stick) * np.abs(fitted.stick(grid))
    half, extra, knees = _of_peaks(fitted, grid) if fitted.peaks else _of_trace(fitted, grid)
    if opener is not None and not fitted.peaks and len(fitted.stick.knees):
        open_ = Z95 * _knees_moved(fitted, opener)
        places = fitted.stick.knees
        knees = _around(places, np.hypot(places - knees[:, 0], open_), np.hypot(knees[:, 1] - places, open_))
    return Spread(np.sqrt(half**2 + extra**2 + between**2), knees)


def _of_trace(fitted: Fitted, grid: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return half widths from scatter and from what no scatter shows, and the knees' intervals."""
    stick = fitted.stick
    slopes = jacobian(stick, grid)
    k, unseen = len(stick.knees), _unseen(stick)
    half = _by_clusters(fitted, np.vstack([slopes, np.eye(slopes.shape[1])[slopes.shape[1] - k :]]))
    misfit = np.hypot(_misfit(fitted.cells, stick, grid), unseen)
    # A valve opens more roundly than pieces meet: what they leave over near a knee leaves its place open too.
    reach = np.hypot(half[len(grid) :], KNEE_MISFIT * np.interp(stick.knees, grid, misfit) / _turns(stick))
    return half[: len(grid)], misfit, _around(stick.knees, reach, reach)


def _of_peaks(fitted: Fitted, grid: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return the same for a table: a knee's interval from the profile of the sum of squares, not symmetric."""
    cells, stick = fitted.cells, fitted.stick
    if stands_on_rows(stick, cells.speed):
        return _by_points(fitted, jacobian(stick, grid)), _other_models(fitted, grid), between_rows(stick, cells.speed)
    variance, dof = _scatter(fitted)
    t = t_quantile(0.975, dof)
    limits = profile_intervals((cells.speed, cells.force, cells.weight), stick, variance * t**2)
    # A curve held from falling, or with a power law, is not quite the one of the least sum of squares.
    down, up = np.maximum(stick.knees - limits[:, 0], 0.0), np.maximum(limits[:, 1] - stick.knees, 0.0)
    knees = _around(stick.knees, down, up)
    return _by_points(fitted, jacobian(stick, grid)), _other_models(fitted, grid), knees


def _knees_moved(fitted: Fitted, opener: Opener) -> FloatArray:
    """Return the standard deviation of the knees' places by what is open of friction, to first order. [m/s]"""
    cells, stick = fitted.cells, fitted.stick
    j = jacobian(stick, cells.speed)
    inverse = np.linalg.pinv((j * cells.weight[:, None]).T @ j, rcond=1e-12)
    moved = (opener.off(cells.speed) * cells.weight) @ j @ inverse
    return np.asarray(moved[:, j.shape[1] - len(stick.knees) :].std(axis=0, ddof=1))


def _around(knees: FloatArray, down: FloatArray, up: FloatArray) -> FloatArray:
    return np.column_stack([np.maximum(knees - down, 0.0), knees + up])


def _unseen(stick: BrokenStick) -> float:
    """Return what the shapes taken for the pieces may leave, which no scatter shows. [N]"""
    middle = 0.5 * (stick.knots[1:] + stick.knots[:-1])
    return LEFT_BY_PARABOLA * float(np.max(np.abs(stick(middle) - 0.5 * (stick.values[1:] + stick.values[:-1]))))


def _turns(stick: BrokenStick) -> FloatArray:
    """Return by how much the slope changes at each knee: a force error moves the knee the more the less it turns."""
    start, end = stick.end_slopes()
    return np.maximum(np.abs(start[1:] - end[:-1]), 1e-9)


def _scatter(fitted: Fitted) -> tuple[float, int]:
    """Return the variance of points by themselves, in variances taken for granted, and its degrees of freedom."""
    cells, stick = fitted.cells, fitted.stick
    dof = max(len(cells) - stick.parameters, 1)
    squares = float(np.sum(cells.weight * (cells.force - stick(cells.speed)) ** 2))
    # Scatter far below what a table's points have is luck, met often with two or three degrees of freedom.
    return max(squares, LUCK) / dof, dof


def _by_points(fitted: Fitted, wanted: FloatArray) -> FloatArray:
    """Return half widths of combinations of the parameters, every point a draw by itself."""
    cells = fitted.cells
    j = jacobian(fitted.stick, cells.speed)
    variance, dof = _scatter(fitted)
    covariance = np.asarray(np.linalg.pinv((j * cells.weight[:, None]).T @ j) * variance)
    return t_quantile(0.975, dof) * np.sqrt(_quadratic(wanted, covariance))


def _quadratic(wanted: FloatArray, covariance: FloatArray) -> FloatArray:
    return np.asarray(np.maximum(np.einsum("ij,jk,ik->i", wanted, covariance, wanted), 0.0))


def _by_clusters(fitted: Fitted, wanted: FloatArray) -> FloatArray:
    """Return half widths of combinations of the parameters from the scatter between clusters.

    Degrees of freedom after Satterthwaite (1946), for each combination by itself: where a few cycles reach high speed,
    few cycles speak.
    """
    p, cells, stick = fitted.points, fitted.cells, fitted.stick
    j = jacobian(stick, cells.speed)
    inverse = np.linalg.pinv((j * cells.weight[:, None]).T @ j, rcond=1e-12)
    # A point pulls at its cell's mean by its share of the cell.
    share = p.weight * cells.noise[cells.place] ** 2
    rest = p.force - stick(p.speed)
    # A cell's own lack of fit is the same for all clusters; it is judged apart.
    mean = np.bincount(cells.place, share * rest, len(cells)) / np.bincount(cells.place, share, len(cells))
    pull = share * cells.weight[cells.place] * (rest - mean[cells.place])
    columns = [np.bincount(p.cluster, pull * j[cells.place, c], int(p.cluster.max()) + 1) for c in range(j.shape[1])]
    moved = np.column_stack(columns) @ inverse
    moved = moved[np.any(moved != 0, axis=1)]
    g = max(len(moved), 4)
    each = (moved @ wanted.T) ** 2
    total = each.sum(axis=0)
    dof = np.clip(3 * total**2 / np.maximum((each**2).sum(axis=0), 1e-300), 2, g - 1).astype(int)
    t = np.array([_T.get(int(d)) or _T.setdefault(int(d), t_quantile(0.975, int(d))) for d in dof])
    return np.asarray(t * np.sqrt(total * (g / (g - 2))))


#: quantiles of Student's t at 0.975 worked out so far, by degrees of freedom
_T: dict[int, float] = {}


def _other_models(fitted: Fitted, grid: FloatArray) -> FloatArray:
    """Return how far the models lie apart that a few points cannot choose between, weighed by evidence. [N]

    Weights ``exp(-Δ/2)`` of Akaike's criterion for few points (Burnham and Anderson, 2002, ch. 4).
    """
    scores = np.array([model.evidence for model in fitted.others])
    weight = np.exp(-0.5 * (scores - scores.min()))
    away = np.array([model.stick(grid) for model in fitted.others]) - fitted.stick(grid)
    return np.asarray(2.0 * np.sqrt(np.einsum("m,ms->s", weight / weight.sum(), away**2)))


def _misfit(cells: Cells, stick: BrokenStick, grid: FloatArray) -> FloatArray:
    """Return how far the curve lies from the mean of the points, beyond their noise, smoothed over speed. [N]"""
    rest = cells.force - stick(cells.speed)
    excess = rest**2 - cells.noise**2
    width = max(3, len(cells) // BINS) | 1
    kernel = np.ones(width) / width
    padded = np.pad(excess, width // 2, mode="reflect") if len(excess) > width else excess
    smooth = np.convolve(padded, kernel, mode="valid") if len(excess) > width else np.full(len(excess), excess.mean())
    return np.interp(grid, cells.speed, 2.0 * np.sqrt(np.maximum(smooth, 0.0)))
