"""A corner as its file and its curve state it and as it stands there, and its damping ratios, from the physics alone.

The shock's force over speed bends at a knee. Corner and curve are drawn from the normal law of their half-widths. What
the shock does in a swing is integrated over that swing, in random motion over the normal law of speeds. Nothing here
knows how a band is reckoned.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from scipy.stats import norm

HALVES = 1.959964  #: standard deviations in a ± that holds 95 %
KNEES = {"compression": 0.08, "rebound": 0.07}  #: where the force over speed bends [m/s]
LOW, HIGH = 0.05, 0.25  #: speeds at the shock at which a secant is taken [m/s]
BODY, HOP, SIGMA = 0.020, 0.005, 0.1  #: swing at the wheel in both modes [m], random speed at the shock [m/s]


@dataclass(frozen=True)
class Standing:
    """What a corner's file states, and its curve; a truth of it has the same form. SI."""

    mass: float = 268.0
    unsprung: float = 34.0
    spring: float = 45e3
    spring_ratio: float = 0.95
    shock_ratio: float = 0.92
    tyre: float = 210e3
    push: float = 1.0  #: force in compression over that of the curve
    pull: float = 1.0  #: in rebound

    def force(self, speed, direction: str):
        """Force of the shock at a speed, or at speeds, all magnitudes. [N]"""
        slow, fast, of = (4200.0, 1500.0, self.push) if direction == "compression" else (6400.0, 2300.0, self.pull)
        knee = KNEES[direction]
        return of * (slow * np.minimum(speed, knee) + fast * np.maximum(speed - knee, 0.0))


#: corners of cars unlike one another: a motion ratio of 0.5, a lever that moves the shock further than the wheel
CORNERS = {
    "usual": Standing(),
    "inboard shock": Standing(mass=190.0, unsprung=28.0, spring=160e3, spring_ratio=0.5, shock_ratio=0.5),
    "lever the other way": Standing(mass=320.0, spring=18e3, spring_ratio=1.25, shock_ratio=1.25, tyre=160e3),
    "heavy": Standing(mass=520.0, unsprung=60.0, spring=90e3, tyre=300e3),
    "light": Standing(mass=110.0, unsprung=18.0, spring=14e3, tyre=90e3),
}
#: ± as shares of the value
OFF = {"mass": 0.03, "unsprung": 0.10, "spring": 0.05, "spring_ratio": 0.01, "shock_ratio": 0.025, "tyre": 0.12,
       "push": 0.08, "pull": 0.08}  # fmt: skip


def drawn(stated: Standing, count: int, seed: int = 1) -> list[Standing]:
    """Corners that may stand there, each value's law in as many equally likely parts, paired at random."""
    dice = np.random.default_rng(seed)
    parts = {k: norm.ppf((dice.permutation(count) + dice.uniform(size=count)) / count) for k in OFF}
    return [
        replace(stated, **{k: getattr(stated, k) * (1 + OFF[k] / HALVES * float(part[i])) for k, part in parts.items()})
        for i in range(count)
    ]  # fmt: skip


#: nodes and weights of Gauss's rule: between two bends of the force what is integrated is smooth
NODES, WEIGHTS = np.polynomial.legendre.leggauss(60)


def _integral(of: Callable[[np.ndarray], np.ndarray], *ends: float) -> float:
    """Integral over all pieces between ends in a row."""
    halves = [((b - a) / 2, (b + a) / 2) for a, b in itertools.pairwise(ends)]
    return float(sum(half * (WEIGHTS @ of(middle + half * NODES)) for half, middle in halves))


def _swing(corner: Standing, direction: str, amplitude: float, omega: float) -> float:
    """Coefficient of the linear damper that takes as much out of half a swing. [N s/m]"""
    reach = amplitude * corner.shock_ratio
    bend = KNEES[direction] / (reach * omega)
    bends = (np.arcsin(bend), np.pi - np.arcsin(bend)) if bend < 1 else ()

    def power(phase: np.ndarray) -> np.ndarray:
        return corner.force(reach * omega * np.sin(phase), direction) * reach * np.sin(phase)

    return _integral(power, 0.0, *bends, np.pi) / (np.pi / 2 * omega * reach**2)


def ratios(corner: Standing, direction: str) -> dict[str, float]:
    """What the corner's damping ratios truly are, of the sprung mass on its wheel rate; the hop's of the wheel."""
    sprung, rate = corner.mass - corner.unsprung, corner.spring * corner.spring_ratio**2
    critical, lever = 2 * np.sqrt(rate * sprung), corner.shock_ratio**2
    ride = np.sqrt(rate * corner.tyre / (rate + corner.tyre) / sprung)
    hop = np.sqrt((rate + corner.tyre) / corner.unsprung)
    out = {
        name: corner.force(v, direction) / v * lever / critical for name, v in (("low", LOW), ("high", HIGH))
    }  # fmt: skip
    out["body"] = _swing(corner, direction, BODY, ride) * lever / critical
    out["hop"] = _swing(corner, direction, HOP, hop) * lever / (2 * corner.unsprung * hop)
    bell = 1 / np.sqrt(2 * np.pi) / SIGMA
    spent = _integral(lambda v: corner.force(v, direction) * v * bell * np.exp(-((v / SIGMA) ** 2) / 2),
                      0.0, KNEES[direction], 4 * SIGMA, 8 * SIGMA)  # fmt: skip
    out["random"] = spent / (SIGMA**2 / 2) * lever / critical
    return out
