"""The valve with parameters and openings: ln(force) at clicks and speeds, and how it moves with each."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.clickmap.assumptions import views as a
from dynoan.analysis.clickmap.valve import INDEX, Roles, log_force
from dynoan.analysis.clickmap.valve_slopes import log_force_slopes
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class ValveTrend:
    """The valve with its fitted parameters, as a trend over clicks and speed."""

    theta: FloatArray
    roles: Roles
    openings: tuple[FloatArray, ...]  #: of each axis, share of the turn by click, (clicks + 1,)
    prior: FloatArray  #: centre of the prior, (P,)
    width: FloatArray  #: standard deviation of the prior, zero where a parameter is not in play, (P,)

    def turned(self, clicks: FloatArray) -> FloatArray:
        """Return the share that each axis is open at clicks (n, A), the same shape. [1]"""
        out = np.empty_like(clicks, dtype=float)
        for i, table in enumerate(self.openings):
            out[:, i] = np.interp(clicks[:, i], np.arange(len(table)), table)
        return out

    def logs(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return ln(force / 1 N) at clicks (n, A) and speeds (S,), shape (n, S). [1]"""
        return log_force(self.theta, self.turned(clicks), self.roles, speeds)

    def sensitivity(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with one prior deviation of each parameter, (n, S, P). [1]"""
        slopes = log_force_slopes(self.theta, self.turned(clicks), self.roles, speeds)[1]
        return np.asarray(slopes * self.width)

    def slopes(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with a whole turn of each axis, as the slope there, (n, S, A). [1]"""
        at = self.turned(clicks)
        out = np.zeros((len(clicks), len(speeds), clicks.shape[1]))
        for i in range(clicks.shape[1]):
            if i not in (self.roles.bleed, self.roles.opening, self.roles.crossing):
                continue
            up, down = at.copy(), at.copy()
            up[:, i], down[:, i] = np.minimum(at[:, i] + a.SLOPE_STEP, 1.0), np.maximum(at[:, i] - a.SLOPE_STEP, 0.0)
            gap = log_force(self.theta, up, self.roles, speeds) - log_force(self.theta, down, self.roles, speeds)
            out[:, :, i] = gap / (up[:, i] - down[:, i])[:, None]
        return out

    def passages(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves as more oil passes beside the blow-off, to scale, (n, S). [1]"""
        slopes = log_force_slopes(self.theta, self.turned(clicks), self.roles, speeds)[1]
        return np.asarray(slopes[:, :, INDEX["bleed"]])

    def unseen(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return none, (n, S) zeros: the valve's parameters and openings hold the doubt between tested clicks. [1]"""
        return np.zeros((len(clicks), len(speeds)))
