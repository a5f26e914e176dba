"""A made world: what a team holds (`Library` and the questions it asks) and, beside it, what is true."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from tests.worlds.packs.adjusters import Clicks, Counting
from tests.worlds.packs.packs import Pack
from tests.worlds.packs.tests_of import Job, Run, Setting, Shop, deliver, truth
from tests.worlds.packs.units import NOMINAL, Unit
from tests.worlds.valves import FloatArray

Task = Literal["map", "retest", "unit", "identify", "match", "health", "plan"]
SLOWEST = 0.02
"""No speed below this is scored [m/s]: there the force is friction's rather than the valve's."""


@dataclass(frozen=True)
class StatedAdjuster:
    """An adjuster as the shock's file has it: positions 0 to `clicks`."""

    name: str
    clicks: int
    counted: Counting


@dataclass(frozen=True, eq=False)
class Library:
    """What a team holds: the only thing, beside a question, that may be handed to what is tried."""

    adjusters: tuple[StatedAdjuster, ...]
    runs: tuple[Run, ...]

    def of(self, pack: str) -> tuple[Run, ...]:
        """Return the runs of a pack."""
        return tuple(run for run in self.runs if run.pack == pack)


@dataclass(frozen=True, eq=False)
class Unknown:
    """A run without a label, and what it is."""

    run: Run
    pack: str | None  #: None: none of the library's
    clicks: Setting


@dataclass(frozen=True, eq=False)
class Pair:
    """Runs of two shocks, and how far apart these are."""

    one: tuple[Run, ...]
    other: tuple[Run, ...]
    tolerance: float  #: asked for, share of mean force
    worst: float  #: true largest difference of damping, over directions and speeds, share of mean force
    worst_sum: float  #: the same of damping and friction together

    def within(self) -> bool | None:
        """Return whether the shocks are a pair; None where damping and the sum with friction say otherwise."""
        both = {self.worst <= self.tolerance, self.worst_sum <= self.tolerance}
        return both.pop() if len(both) == 1 else None


@dataclass(frozen=True, eq=False)
class History:
    """A shock's runs so far, those of today, and what has changed between them."""

    earlier: tuple[Run, ...]
    now: tuple[Run, ...]
    changed: frozenset[str]  #: of `compression`, `rebound`, `gas`, `friction`; what wear does in a year is none


@dataclass(frozen=True, eq=False)
class PackWorld:
    """A library, the questions to it, and the truth. Clicks are as written in the library throughout."""

    task: Task
    library: Library
    packs: tuple[Pack, ...]  #: the first is the one asked about
    units: Mapping[str, Unit]
    shop: Shop
    shock: str  #: the tested one
    asked: tuple[Setting, ...] = ()  #: settings never tested
    fresh: tuple[str, ...] = ()  #: shocks never tested with the pack asked about
    later: tuple[Run, ...] = ()  #: runs that come in a later year
    unknowns: tuple[Unknown, ...] = ()
    pairs: tuple[Pair, ...] = ()
    histories: tuple[History, ...] = ()
    oddities: frozenset[str] = frozenset()  #: present, by name, see `adjusters.ODD`, and `cross-talk`
    row: str = ""
    seed: int = 0

    def force(
        self, clicks: Clicks, velocity: ArrayLike, shock: str | None = None, date: float | None = None
    ) -> FloatArray:
        """Return the true damping [N] of the pack asked about, in cool oil; the kind's mean without a shock, year 0
        without a date.
        """
        unit = NOMINAL if shock is None else self.units[shock]
        return truth(self.packs[0], unit, date or 0.0, clicks, velocity)

    def order(self, clicks: Setting) -> Run:
        """Return one more run of the pack asked about on the tested shock; the same for the same clicks."""
        dice = np.random.default_rng([self.seed, 77, *clicks.values()])
        return deliver(Job(self.packs[0], self.units[self.shock], clicks), self.shop, dice)

    def speeds(self, count: int = 8) -> FloatArray:
        """Return signed speeds to be scored [m/s]."""
        one = np.geomspace(SLOWEST, 0.95 * self.shop.top, count)
        return np.concatenate([-one[::-1], one])
