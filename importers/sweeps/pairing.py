"""A compression block and a rebound block of one setting joined into one sweep."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from dynoan.model.sweep import Sweep

_BOTH = {"compression", "rebound"}


class DirectedSweep(NamedTuple):
    """A sweep, and the one direction that its block is of."""

    sweep: Sweep
    direction: str | None


def paired(made: Iterable[DirectedSweep]) -> list[Sweep]:
    """Return sweeps in their order, each block joined with the one before where they are the halves of a setting."""
    out: list[DirectedSweep] = []
    for half in made:
        if out and _other_half(out[-1], half):
            out.append(DirectedSweep(_joined(out.pop().sweep, half.sweep), None))
        else:
            out.append(half)
    return [half.sweep for half in out]


def halves_together(made: Sequence[DirectedSweep]) -> list[DirectedSweep]:
    """Return the sweeps with each half of a setting beside its other, where one direction is below the other.

    All settings of rebound in one table, the same settings of compression in the next; else the sweeps in their order.
    """
    ways = [half.direction for half in made]
    half = len(made) // 2
    first, second = made[:half], made[half:]
    apart = len(made) > 2 and len(made) % 2 == 0 and len(set(ways[:half])) == len(set(ways[half:])) == 1
    own = len({tuple(one.sweep.clicks.items()) for one in first}) == half
    if not apart or not own or not all(_other_half(a, b) for a, b in zip(first, second, strict=True)):
        return list(made)
    return [one for pair in zip(first, second, strict=True) for one in pair]


def _other_half(first: DirectedSweep, second: DirectedSweep) -> bool:
    same = all(getattr(first.sweep, k) == getattr(second.sweep, k) for k in ("layout", "shock", "pack", "clicks"))
    return same and second.sweep.layout == "peaks" and {first.direction, second.direction} == _BOTH


def _joined(first: Sweep, second: Sweep) -> Sweep:
    channels = {c: np.concatenate([first.channels[c], second.channels[c]]) for c in first.channels}
    return replace(first, channels=channels, warnings=tuple(dict.fromkeys((*first.warnings, *second.warnings))))
