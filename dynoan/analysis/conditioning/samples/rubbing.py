"""Friction laws along a motion, each for a level of one newton, worked out sample by sample.

Rows average samples; a law that turns around within one row must be averaged as force was, not taken at its middle.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning.assumptions import PRESLIDING, STRIBECK_SPEEDS, TURNING_SPEEDS
from dynoan.model.arrays import FloatArray, IntArray


@dataclass(frozen=True)
class Law:
    """One law of a level of one newton: its kind, the speed or travel it changes over, and a travel beside a speed."""

    what: str  #: "turn", "breakaway", "slide", "away" (builds up over a travel), "flex" or "tilt" (between directions)
    scale: float  #: [m/s], of "slide" and "flex" [m]
    travel: float = 0.0  #: of "away" [m]

    @property
    def name(self) -> str:
        """As it stands in results."""
        return f"{self.what} {self.scale:g}" + (f" {self.travel:g}" if self.travel else "")

    @classmethod
    def named(cls, name: str) -> Law:
        """Return the law of a name."""
        what, *numbers = name.split()
        return cls(what, *map(float, numbers))

    def sliding(self, velocity: FloatArray) -> FloatArray:
        """Return the friction of long sliding at velocities [m/s], shape (n,): none of what flexes. [1]

        Breakaway falls off as Stribeck's does, ``exp(−(v/s)²)``.
        """
        if self.what == "turn":
            return np.tanh(velocity / self.scale)
        if self.what == "tilt":
            return np.abs(np.tanh(velocity / self.scale))
        if self.what == "slide":
            return np.sign(velocity)
        if self.what == "flex":
            return np.zeros_like(velocity)
        fall = np.exp(-((velocity / self.scale) ** 2))
        turned = np.sign(velocity) if self.travel else np.tanh(velocity / min(0.3 * self.scale, 0.002))
        return np.asarray(fall * turned)


#: where in a width of speeds laws are taken that are averaged over it [1]; numerics
ACROSS = tuple((2 * k - 8) / 9 for k in range(9))
#: samples whose friction is worked out at a time; numerics
TOGETHER = 20_000
#: in the order of the columns of `frictions`
LAWS = (
    *(Law("turn", u) for u in TURNING_SPEEDS),
    *(Law("breakaway", s) for s in STRIBECK_SPEEDS),
    *(Law("slide", s) for s in PRESLIDING),
    *(Law("away", speed, travel) for travel in PRESLIDING[:-2] for speed in STRIBECK_SPEEDS),
    *(Law("flex", s) for s in PRESLIDING),
)


def frictions(velocity: FloatArray, dt: float, off: FloatArray | None = None) -> FloatArray:
    """Return unit friction by each of `LAWS` along velocities [m/s] in steps of `dt` [s], shape (n, laws). [1]

    Where velocities may be `off` by so much either way, shape (n,) [m/s], what turns over a speed is the mean over
    that: noise makes every turn look wider. Of what flexes, the rate at which friction builds up: bristles that are
    bent resist by their rate too (Canudas de Wit et al., 1995). [1/s]
    """
    return Rubbed.along(velocity, dt, off).at(np.arange(len(velocity)))


@dataclass(frozen=True)
class Rubbed:
    """A motion with what tells the friction at any of its samples; for all at once it takes ten times their memory."""

    velocity: FloatArray  #: [m/s]
    off: FloatArray | None
    way: FloatArray  #: travel up to each sample [m]
    strokes: Strokes

    @classmethod
    def along(cls, velocity: FloatArray, dt: float, off: FloatArray | None) -> Rubbed:
        """Return the motion of velocities [m/s] in steps of `dt` [s], which may be `off` as `frictions` has it."""
        way, turns = _path(velocity, dt)
        return cls(velocity, off if off is not None and off.any() else None, way, strokes_of(velocity, way, turns))

    def rows(self, which: IntArray, averaged: int) -> FloatArray:
        """Return the friction of some rows by their numbers, so many samples `averaged` to each, (rows, laws). [1]"""
        out = np.empty((len(which), len(LAWS)))
        for first in range(0, len(which), many := max(1, TOGETHER // averaged)):
            some = which[first : first + many]
            at = (some[:, None] * averaged + np.arange(averaged)).ravel()
            out[first : first + many] = self.at(at).reshape(len(some), averaged, len(LAWS)).mean(axis=1)
        return out

    def at(self, some: IntArray) -> FloatArray:
        """Return unit friction by each of `LAWS` at samples, by their numbers, shape (samples, laws). [1]"""
        velocity = self.velocity[some]
        sign = np.where(velocity >= 0, 1.0, -1.0)
        slides = self.strokes.slides(some, sign, self.way[some])
        falls = {speed: np.exp(-((velocity / speed) ** 2)) for speed in STRIBECK_SPEEDS}
        out = np.empty((len(velocity), len(LAWS)))
        for i, law in enumerate(LAWS):
            if law.what == "slide":
                out[:, i] = slides[law.scale]
            elif law.what == "flex":
                out[:, i] = (np.abs(velocity) / law.scale) * (sign - slides[law.scale])
            else:
                out[:, i] = slides[law.travel] * falls[law.scale] if law.travel else law.sliding(velocity)
        if self.off is not None:
            off = self.off[some]
            at = np.flatnonzero(off)
            across = [velocity[at] + part * off[at] for part in ACROSS]
            for i, law in enumerate(LAWS):
                if law.what in ("turn", "breakaway"):
                    out[at, i] = np.mean([law.sliding(v) for v in across], axis=0)
        return out


def steady(names: Sequence[str], velocity: FloatArray) -> FloatArray:
    """Return the unit friction of long sliding by given laws at velocities [m/s], shape (laws, n). [1]"""
    return np.array([Law.named(name).sliding(velocity) for name in names]).reshape(len(names), len(velocity))


@dataclass(frozen=True)
class Strokes:
    """From reversal to reversal: where each stroke begins, and how friction stands there, which turns over a travel."""

    first: IntArray  #: its first sample
    start: FloatArray  #: travel up to where it begins [m]
    begin: dict[float, FloatArray]  #: unit friction there, by the travel over which friction turns [1]

    def slides(self, some: IntArray, sign: FloatArray, way: FloatArray) -> dict[float, FloatArray]:
        """Return unit friction that turns over each travel after a reversal (Dahl, 1976), shape (samples,) each. [1]

        Of `some` samples by their numbers, with the direction of each, 1 or -1, and the travel up to it. [m]
        """
        stroke = np.searchsorted(self.first, some, side="right") - 1
        gone = way - self.start[stroke]
        return {travel: sign + (begin[stroke] - sign) * np.exp(-gone / travel) for travel, begin in self.begin.items()}


def strokes_of(velocity: FloatArray, way: FloatArray, turns: tuple[FloatArray, FloatArray]) -> Strokes:
    """Return the strokes of a motion.

    Parameters
    ----------
    velocity
        Of each sample, shape (n,). [m/s]
    way
        Travel up to each, shape (n,). [m]
    turns
        Sample after each reversal, and the travel up to the reversal itself, shape (r,) each. [m]
    """
    after, at = turns
    first, start = np.concatenate([[0], after]).astype(int), np.concatenate([way[:1], at])
    sign = np.where(velocity[first] >= 0, 1.0, -1.0)
    return Strokes(first, start, {travel: _begins(sign, start, travel) for travel in PRESLIDING})


def _begins(sign: FloatArray, start: FloatArray, length: float) -> FloatArray:
    """Return the unit friction at the beginning of each stroke, shape (strokes,). [1]"""
    begin = np.empty(len(sign))
    begin[0] = now = sign[0]
    for i, left in enumerate(np.exp(-np.diff(start) / length)):
        now = sign[i] + (now - sign[i]) * left
        begin[i + 1] = now
    return begin


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
