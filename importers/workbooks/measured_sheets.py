"""Sheets of a workbook that are no run of their own: targets, averages of the others, one record filtered again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np

from dynoan.model.sweep import Sweep
from importers.assumptions.sweeps import FEWEST_AVERAGED, ONE_MOTION
from importers.words.channels import MEANS, WANTED
from importers.words.spelling import plain, word_set

_FILTERED = word_set(
    "filtered, filt, gefiltert, smoothed, smooth, geglattet, filtre, filtree, filtrado, filtrato, lissee, lowpass"
)


def measured_sheets(found: Sequence[Sweep], hidden: Sequence[str] = ()) -> tuple[Sweep, ...]:
    """Return the sweeps of a workbook's sheets without those that are no run of their own, or hidden; each is told."""
    sheets = list(dict.fromkeys(one.source.part for one in found))
    unseen = [part for part in sheets if any(f"{part}, ".startswith(f"{title}, ") for title in hidden)]
    wanted = [title for title in sheets if _has(title, WANTED)]
    means = [title for title in sheets if _has(title, MEANS)]
    left, out = list(found), tuple(found)
    for aside, why, least in (
        (unseen, "it is hidden in the workbook; show it there to have it read", 1),
        (wanted, "by its name it holds what is wanted, not what was measured", 1),
        (means, "by its name it is the mean of the others", FEWEST_AVERAGED),
        (list(_filtered_again(found)), "it holds the same record filtered, and a filter's lag opens the loop", 1),
    ):
        rest = [one for one in left if one.source.part not in aside]
        if aside and len({one.source.part for one in rest}) >= least:
            names = " and ".join(f"'{title}'" for title in aside)
            said = f"sheet {names} was left out: {why}"
            left = [replace(one, warnings=(*one.warnings, said)) for one in rest]
            out = tuple(left)
    return out


def _has(title: str, words: frozenset[str]) -> bool:
    return bool({*plain(title).split()} & words)


def _filtered_again(found: Sequence[Sweep]) -> Iterable[str]:
    """Yield the sheets called filtered that hold the motion of another sheet, sample by sample."""
    plainer = [one for one in found if not _has(one.source.part, _FILTERED)]
    for one in found:
        if _has(one.source.part, _FILTERED) and any(_one_motion(one, other) for other in plainer):
            yield one.source.part


def _one_motion(one: Sweep, other: Sweep) -> bool:
    if one.layout != "trace" or other.layout != "trace" or one.samples != other.samples:
        return False
    x, y = (s.channels.get("displacement", s.channels["force"]) for s in (one, other))
    span = float(np.nanmax(y) - np.nanmin(y))
    return bool(np.nanmedian(np.abs(x - y)) < ONE_MOTION * span)
