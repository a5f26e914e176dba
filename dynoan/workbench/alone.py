"""Single runs fitted by themselves: how far repeats of a setting scatter about their pooled curve."""

from __future__ import annotations

import hashlib
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dynoan.model.curve import Curve
    from dynoan.model.sweep import Sweep


class _Run:
    """A sweep, told from others by all that its curve depends on: the same repeats are asked for again and again."""

    def __init__(self, sweep: Sweep) -> None:
        self.sweep = sweep
        digest = hashlib.sha256(repr((sweep.layout, sweep.rate, sweep.gas_removed)).encode())
        for name, values in sorted(sweep.channels.items()):
            digest.update(name.encode())
            digest.update(values.tobytes())
        self.key = digest.digest()

    def __hash__(self) -> int:
        return hash(self.key)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Run) and other.key == self.key and other.sweep.source == self.sweep.source


def fitted_alone(sweep: Sweep) -> Curve:
    """Return the curve of one run, from memory where this process has fitted it before."""
    return _fitted(_Run(sweep))


@lru_cache(maxsize=64)
def _fitted(run: _Run) -> Curve:
    from dynoan.analysis.fitting.fit import fit

    return fit(run.sweep)
