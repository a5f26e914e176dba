"""A compression block and a rebound block of one setting joined into one sweep."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from dynoan.model.sweep import Sweep
from importers.parts import both_knobs_said

_BOTH = {"compression", "rebound"}


class DirectedSweep(NamedTuple):
    """A sweep, and the one direction that its block is of."""

    sweep: Sweep
    direction: str | None
    run: str = ""  #: what the columns of its run are called by, of several beside one another


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
    own = len({(one.run, *one.sweep.clicks.items()) for one in first}) == half
    if not apart or not own or not all(_other_half(a, b) for a, b in zip(first, second, strict=True)):
        return list(made)
    return [one for pair in zip(first, second, strict=True) for one in pair]


def knobs_together(made: Sequence[DirectedSweep]) -> list[DirectedSweep]:
    """Return the sweeps of each number of clicks as one, where each is of one direction and states its knob alone.

    Compression at 0, 4, 8 and rebound at 0, 4, 8: both knobs were there. With other numbers each stays a half.
    """
    ways: dict[str, dict[tuple[object, ...], DirectedSweep]] = {"c": {}, "r": {}}
    for half in made:
        (key, number), *more = [*half.sweep.clicks.items(), *[("", 0)] * (not half.sweep.clicks)]
        way = _way_of_peaks(half.sweep)
        if more or way is None or key == "cr" or key[-1:] != way:
            return list(made)
        ways[way][(half.sweep.shock, half.sweep.pack, number)] = half
    if ways["c"].keys() != ways["r"].keys() or sum(map(len, ways.values())) < len(made):
        return list(made)
    return [_with_both_knobs(half, ways["r"][at]) for at, half in ways["c"].items()]


def _way_of_peaks(sweep: Sweep) -> str | None:
    """Return the letter of the one direction that a peak table is of; None for others."""
    v = sweep.channels.get("velocity")
    signs = {*np.sign(v[np.isfinite(v)])} - {0.0} if v is not None and sweep.layout == "peaks" else set()
    return {1.0: "c", -1.0: "r"}[signs.pop()] if len(signs) == 1 else None


def _with_both_knobs(down: DirectedSweep, up: DirectedSweep) -> DirectedSweep:
    clicks = {**down.sweep.clicks, **up.sweep.clicks}
    label = " ".join(f"{key}={n}" for key, n in clicks.items())
    said = both_knobs_said(("compression", "rebound"), clicks)
    whole = _joined(down.sweep, up.sweep)
    source = replace(whole.source, part=label)
    return DirectedSweep(replace(whole, clicks=clicks, source=source, warnings=(*whole.warnings, said)), None)


def _other_half(first: DirectedSweep, second: DirectedSweep) -> bool:
    same = all(getattr(first.sweep, k) == getattr(second.sweep, k) for k in ("layout", "shock", "pack", "clicks"))
    both = {first.direction, second.direction} == _BOTH
    return same and both and first.run == second.run and second.sweep.layout == "peaks"


def _joined(first: Sweep, second: Sweep) -> Sweep:
    channels = {c: np.concatenate([first.channels[c], second.channels[c]]) for c in first.channels}
    return replace(first, channels=channels, warnings=tuple(dict.fromkeys((*first.warnings, *second.warnings))))
