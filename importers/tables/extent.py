"""What many checks ask of a column alike, found once while its numbers are at hand: its ends, and whether it rises."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple
from weakref import ref

import numpy as np

from dynoan.model.arrays import FloatArray

_FIRST = 16  #: a column that does not rise shows it soon [samples]


class Extent(NamedTuple):
    """The ends of a column; not-a-number where one of its numbers is missing, or it has none."""

    high: float
    low: float
    rises: bool = False  #: whether each number is known to be larger than the one before

    @classmethod
    def of(cls, x: FloatArray) -> Extent:
        """Return the extent of a column, shape (rows,)."""
        if not len(x):
            return cls(np.nan, np.nan)
        return cls(float(x.max()), float(x.min()), rises=_rises(x[:_FIRST]) and _rises(x))

    @property
    def complete(self) -> bool:
        """Whether every number is there, and none is infinite."""
        return bool(np.isfinite(self.high) and np.isfinite(self.low))

    def joined(self, other: Extent, *, rises: bool) -> Extent:
        """Return the extent of this column and one below it; `rises` tells whether it does from one to the other."""
        ends = float(np.maximum(self.high, other.high)), float(np.minimum(self.low, other.low))
        return Extent(*ends, rises=self.rises and rises and other.rises)

    def scaled(self, factor: float, offset: float) -> Extent:
        """Return the extent of the column times a factor plus an offset, each rounded as the column's numbers are."""
        high, low = self.high * factor + offset, self.low * factor + offset
        return Extent(high, low) if factor >= 0 else Extent(low, high)


def _rises(x: FloatArray) -> bool:
    return bool((x[1:] > x[:-1]).all())


class KnownExtents:
    """Extents that are known already, each of its very column: no other is taken for it, and none is kept alive."""

    def __init__(self, columns: Iterable[tuple[FloatArray, Extent]] = ()) -> None:
        self._known = [(ref(column), extent) for column, extent in columns]

    def of(self, x: FloatArray) -> Extent:
        """Return the extent of a column, looked up or found."""
        return next((extent for column, extent in self._known if column() is x), None) or Extent.of(x)
