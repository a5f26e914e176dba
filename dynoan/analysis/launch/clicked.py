"""What the shocks of an axle can be set to, and the damping that each setting gives at the wheel."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.launch.hinges import Hinges, hinge_sums, speed_grid
from dynoan.model.arrays import IntArray
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Direction
from dynoan.model.shock import Adjuster


@dataclass(frozen=True)
class Clicked:
    """What one axle can be set to: the click maps and motion ratios of its shocks, left first."""

    maps: tuple[ClickMap, ...]
    ratios: tuple[float, ...]
    now: Mapping[str, int]  #: clicks on the car, from closed
    inside: bool = False  #: keep each adjuster between its tested clicks

    @property
    def adjusters(self) -> tuple[str, ...]:
        """Names, in the order of the columns of an array of clicks."""
        return tuple(a.name for a in self.maps[0].adjusters)

    @property
    def spans(self) -> tuple[range, ...]:
        """The clicks from closed to search, by adjuster."""
        return tuple(range(*self._span(a)) for a in self.maps[0].adjusters)

    def _span(self, adjuster: Adjuster) -> tuple[int, int]:
        tested = [[t[adjuster.name] for t in m.tested if adjuster.name in t] for m in self.maps]
        if not self.inside or not all(tested):
            return 0, adjuster.clicks + 1
        return max(min(t) for t in tested), min(max(t) for t in tested) + 1

    def row_now(self, clicks: IntArray) -> int | None:
        """Return the row of `clicks`, shape (m, adjusters), that is on the car; None where it is none of them."""
        if any(name not in self.now for name in self.adjusters):
            return None
        found = np.flatnonzero((clicks == [self.now[name] for name in self.adjusters]).all(axis=1))
        return int(found[0]) if len(found) else None

    def rows(self, direction: Direction, clicks: IntArray) -> IntArray:
        """Return where in `damping` each setting of `clicks`, shape (m, adjusters), stands; shape (m,)."""
        table = self.maps[0].direction(direction)
        columns = [self.adjusters.index(name) for name in table.adjusters]
        if not columns:
            return np.zeros(len(clicks), dtype=int)
        return np.asarray(np.ravel_multi_index(tuple(clicks[:, columns].T), table.force.shape[:-1]), dtype=int)

    def damping(self, direction: Direction) -> Hinges:
        """Return the hinge sums of every click of one direction, both shocks of the axle added at the wheel."""
        pairs = list(zip(self.maps, self.ratios, strict=True))
        grid = speed_grid(max(m.direction(direction).top_speed / r for m, r in pairs))
        forces = sum(r * m.direction(direction).at(r * grid)[0].reshape(-1, len(grid)) for m, r in pairs)
        return hinge_sums(grid, np.asarray(forces))

    def standing(self, setting: Mapping[str, int]) -> str:
        """Return whether a setting was tested, lies between tested clicks, or outside: the weakest of the shocks."""
        order: Sequence[str] = ("tested", "between", "outside")
        return max((m.standing(setting) for m in self.maps), key=order.index)
