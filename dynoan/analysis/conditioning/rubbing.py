"""Friction laws along a motion, each for a level of one newton, worked out sample by sample.

Rows average samples; a law that turns around within one row must be averaged as force was, not taken at its middle.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from dynoan.analysis.conditioning.assumptions import PRESLIDING, STRIBECK_SPEEDS, TURNING_SPEEDS
from dynoan.model.arrays import FloatArray

#: what turns friction around and over which speed [m/s] or travel [m], in the order of `frictions`
LAWS = (
    *(("turn", u) for u in TURNING_SPEEDS),
    *(("breakaway", s) for s in STRIBECK_SPEEDS),
    *(("slide", s) for s in PRESLIDING),
)


def frictions(velocity: FloatArray, dt: float) -> FloatArray:
    """Return unit friction by each of `LAWS` along velocities [m/s] in steps of `dt` [s], shape (n, laws). [1]"""
    way, turns = _path(velocity, dt)
    sign = np.where(velocity >= 0, 1.0, -1.0)
    out = np.empty((len(velocity), len(LAWS)))
    for i, (what, scale) in enumerate(LAWS):
        out[:, i] = dahl(sign, way, turns, scale) if what == "slide" else law(what, scale, velocity)
    return out


def law(what: str, scale: float, velocity: FloatArray) -> FloatArray:
    """Return a law's unit friction in long sliding at velocities [m/s], shape (n,). [1]

    Breakaway falls off as Stribeck's does, ``exp(−(v/s)²)``.
    """
    if what == "turn":
        return np.tanh(velocity / scale)
    if what == "breakaway":
        return np.asarray(np.tanh(velocity / min(0.3 * scale, 0.002)) * np.exp(-((velocity / scale) ** 2)))
    return np.sign(velocity)


def steady(names: Sequence[str], coefficients: FloatArray, velocity: FloatArray) -> FloatArray:
    """Return the friction of long sliding of given laws at velocities, shape (n,). [N]"""
    out = np.zeros(len(velocity))
    for name, c in zip(names, coefficients, strict=True):
        what, _, scale = name.partition(" ")
        out += c * law(what, float(scale), velocity)
    return out


def dahl(sign: FloatArray, way: FloatArray, turns: tuple[FloatArray, FloatArray], length: float) -> FloatArray:
    """Return unit friction that turns over a travel after each reversal (Dahl, 1976), shape (n,). [1]

    Parameters
    ----------
    sign
        Direction of each sample, 1 or -1, shape (n,).
    way
        Travel up to each sample, shape (n,). [m]
    turns
        Sample after each reversal, and the travel up to the reversal itself, shape (r,) each. [m]
    length
        Travel over which friction turns. [m]
    """
    after, at = turns
    first, start = np.concatenate([[0], after]).astype(int), np.concatenate([way[:1], at])
    begin = np.empty(len(first))
    begin[0] = now = sign[0]
    fade = np.exp(-np.diff(start) / length)
    for i, left in enumerate(fade):
        now = sign[first[i]] + (now - sign[first[i]]) * left
        begin[i + 1] = now
    stroke = np.searchsorted(first, np.arange(len(way)), side="right") - 1
    return np.asarray(sign + (begin[stroke] - sign) * np.exp(-(way - start[stroke]) / length))


def _path(velocity: FloatArray, dt: float) -> tuple[FloatArray, tuple[FloatArray, FloatArray]]:
    """Return the travel up to each sample, and the sample after each reversal with the travel up to it.

    Velocity runs straight from sample to sample, so a reversal lies between two.
    """
    size: FloatArray = np.abs(velocity)
    turned = np.diff(velocity >= 0)
    both = size[1:] + size[:-1]
    before = 0.5 * size[:-1] ** 2 / np.maximum(both, 1e-12) * dt
    after = 0.5 * size[1:] ** 2 / np.maximum(both, 1e-12) * dt
    way: FloatArray = np.concatenate([[0.0], np.cumsum(np.where(turned, before + after, 0.5 * both * dt))])
    last = np.flatnonzero(turned)
    return way, (np.asarray(last + 1, dtype=float), np.asarray(way[last] + before[last]))
