"""A compression block and a rebound block of one setting joined into one sweep."""

from __future__ import annotations

from collections.abc import Iterable
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


def _other_half(first: DirectedSweep, second: DirectedSweep) -> bool:
    same = all(getattr(first.sweep, k) == getattr(second.sweep, k) for k in ("layout", "shock", "pack", "clicks"))
    return same and second.sweep.layout == "peaks" and {first.direction, second.direction} == _BOTH


def _joined(first: Sweep, second: Sweep) -> Sweep:
    channels = {c: np.concatenate([first.channels[c], second.channels[c]]) for c in first.channels}
    return replace(first, channels=channels, warnings=tuple(dict.fromkeys((*first.warnings, *second.warnings))))
