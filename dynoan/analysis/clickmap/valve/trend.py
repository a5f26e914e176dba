"""The valve with parameters and openings: ln(force) at clicks and speeds, and how it moves with each."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from dynoan.analysis.clickmap.assumptions import views as a
from dynoan.analysis.clickmap.valve.law import INDEX, MANY, Roles, Ways, log_force, log_force_at, solved
from dynoan.analysis.clickmap.valve.slopes import log_force_slopes
from dynoan.model.arrays import FloatArray

#: a fit asks the same of its tests many times over, as sizes and openings change: so many answers are kept
_KEPT = 8


@dataclass(frozen=True)
class _Asked:
    """Parameters, turns and speeds, as what an answer is kept under."""

    theta: bytes
    turned: bytes
    shape: tuple[int, ...]
    roles: Roles
    speeds: bytes

    @property
    def arrays(self) -> tuple[FloatArray, FloatArray, Roles, FloatArray]:
        """The same as `log_force` takes it."""
        turned = np.frombuffer(self.turned).reshape(self.shape)
        return np.frombuffer(self.theta), turned, self.roles, np.frombuffer(self.speeds)


@lru_cache(maxsize=_KEPT)
def _solved(asked: _Asked) -> tuple[Ways, FloatArray]:
    return solved(*asked.arrays)


@lru_cache(maxsize=_KEPT)
def _by_parameter(asked: _Asked) -> FloatArray:
    return log_force_slopes(*asked.arrays, _kept(_solved, asked))[1]


@lru_cache(maxsize=_KEPT)
def _by_turn(asked: _Asked) -> FloatArray:
    theta, at, roles, speeds = asked.arrays
    out = np.zeros((len(at), len(speeds), at.shape[1]))
    for i in range(at.shape[1]):
        if i not in (roles.bleed, roles.opening, roles.crossing):
            continue
        up, down = at.copy(), at.copy()
        up[:, i], down[:, i] = np.minimum(at[:, i] + a.SLOPE_STEP, 1.0), np.maximum(at[:, i] - a.SLOPE_STEP, 0.0)
        gap = log_force(theta, up, roles, speeds) - log_force(theta, down, roles, speeds)
        out[:, :, i] = gap / (up[:, i] - down[:, i])[:, None]
    return out


def _kept(answer: Any, asked: _Asked) -> Any:
    """Return an answer; of so many settings as tables have, it is not kept."""
    return (answer if asked.shape[0] < MANY else answer.__wrapped__)(asked)


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
        if len(clicks) < MANY:
            return log_force_at(self.theta, _solved(self._asked(clicks, speeds)), speeds)
        return log_force(self.theta, self.turned(clicks), self.roles, speeds)

    def sensitivity(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with one prior deviation of each parameter, (n, S, P). [1]"""
        return np.asarray(_kept(_by_parameter, self._asked(clicks, speeds)) * self.width)

    def slopes(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with a whole turn of each axis, as the slope there, (n, S, A). [1]"""
        return np.asarray(_kept(_by_turn, self._asked(clicks, speeds)))

    def passages(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves as more oil passes beside the blow-off, to scale, (n, S). [1]"""
        return np.asarray(_kept(_by_parameter, self._asked(clicks, speeds))[:, :, INDEX["bleed"]])

    def unseen(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return none, (n, S) zeros: the valve's parameters and openings hold the doubt between tested clicks. [1]"""
        return np.zeros((len(clicks), len(speeds)))

    def _asked(self, clicks: FloatArray, speeds: FloatArray) -> _Asked:
        turned = self.turned(clicks)
        at = np.asarray(speeds, dtype=float)
        return _Asked(self.theta.tobytes(), turned.tobytes(), turned.shape, self.roles, at.tobytes())
