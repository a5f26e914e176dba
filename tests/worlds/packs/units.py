"""Shocks of one kind: how they differ, and how each changes.

A shock's damping is the pack's times a factor: one common to both directions (2 to 3 % from shock to shock), a small
one of each direction; wear from year to year, oil that thins with warmth, and a step where something happened to it.
Friction and gas force are the shock's own. All sizes: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike

from tests.worlds.valves import FloatArray, Generator

COOL = 25.0
"""Oil temperature at which the factors hold [degC]."""


@dataclass(frozen=True)
class Spread:
    """How much shocks of one kind differ: standard deviations, shares of force."""

    common: float = 0.025
    side: float = 0.006


@dataclass(frozen=True)
class Change:
    """Something that happened to a shock, and stays."""

    year: float
    compression: float = 0.0  #: share of compression damping gained
    rebound: float = 0.0
    gas: float = 0.0  #: share of gas force gained
    friction_n: float = 0.0

    def named(self) -> frozenset[str]:
        """Return what changed: `compression`, `rebound`, `gas`, `friction`."""
        present = zip(
            ("compression", "rebound", "gas", "friction"),
            (self.compression, self.rebound, self.gas, self.friction_n),
            strict=True,
        )
        return frozenset(name for name, size in present if size)


@dataclass(frozen=True)
class Unit:
    """One shock."""

    name: str
    common: float = 0.0  #: share by which its damping lies above the kind's mean
    compression: float = 0.0  #: the same, of one direction, on top
    rebound: float = 0.0
    friction_n: float = 0.0
    gas_n: float = 0.0
    wear: float = 0.0  #: share of damping lost a year
    kelvin: float = 0.0  #: share of damping lost per kelvin above `COOL`
    changes: tuple[Change, ...] = field(default=())

    def factor(self, velocity: ArrayLike, year: float = 0.0, celsius: float = COOL) -> FloatArray:
        """Return the factor on the pack's nominal damping at signed velocities, in a year, in oil so warm."""
        past = [one for one in self.changes if one.year <= year]
        compression = (1.0 + self.compression) * np.prod([1.0 + one.compression for one in past])
        rebound = (1.0 + self.rebound) * np.prod([1.0 + one.rebound for one in past])
        both = (1.0 + self.common) * (1.0 - self.wear * year) * (1.0 - self.kelvin * (celsius - COOL))
        return np.asarray(both * np.where(np.asarray(velocity, float) >= 0.0, compression, rebound))

    def friction(self, year: float = 0.0) -> float:
        """Return the friction [N] in a year."""
        return self.friction_n + sum(one.friction_n for one in self.changes if one.year <= year)

    def gas(self, year: float = 0.0) -> float:
        """Return the gas force [N] at mid-stroke in a year."""
        return float(self.gas_n * np.prod([1.0 + one.gas for one in self.changes if one.year <= year]))


NOMINAL = Unit("")
"""The kind's mean: the pack alone."""


def draw_spread(rng: Generator) -> Spread:
    """Return how far the shocks of a kind lie apart: 2 to 3 % in common, 0.4 to 0.8 % a direction."""
    return Spread(float(rng.uniform(0.02, 0.03)), float(rng.uniform(0.004, 0.008)))


def draw_unit(rng: Generator, name: str, spread: Spread, changes: Sequence[Change] = ()) -> Unit:
    """Return a shock: 8 to 30 N friction, 60 to 250 N gas, 0 to 1 % wear a year, 1 to 2.5 % less damping per 10 K."""
    common, *sides = rng.standard_normal(3) * [spread.common, spread.side, spread.side]
    return Unit(
        name, float(common), float(sides[0]), float(sides[1]), float(rng.uniform(8.0, 30.0)),
        float(rng.uniform(60.0, 250.0)), float(rng.uniform(0.0, 0.01)), float(rng.uniform(1e-3, 2.5e-3)),
        tuple(changes),
    )  # fmt: skip
