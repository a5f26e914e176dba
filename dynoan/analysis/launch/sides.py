"""The dampers of many settings at the wheels of a car."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from dynoan.analysis.launch.hinges import AxleDamping, Hinges
from dynoan.model.arrays import IntArray


class Sides(NamedTuple):
    """The dampers of m settings at the wheels, both directions of both axles."""

    front_compression: Hinges
    front_rebound: Hinges
    rear_compression: Hinges
    rear_rebound: Hinges

    @property
    def settings(self) -> int:
        """How many settings."""
        return len(self.front_compression.knots)

    def take(self, index: IntArray | Sequence[int]) -> Sides:
        """Return the settings at an index."""
        return Sides(*(side.take(index) for side in self))


def sides(front: AxleDamping, rear: AxleDamping) -> Sides:
    """Return the hinge sums of low, nominal and high of both axles."""
    return Sides(
        front.hinges("compression"), front.hinges("rebound"), rear.hinges("compression"), rear.hinges("rebound")
    )
