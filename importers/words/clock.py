"""Clock times in cells: "10:33:05.123", "2026-05-02 10:33:05,123", "05:12.4"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.words import CLOCK_SHARE, WRAP_SHARE

_FORM = r"(?:(?:(\d{4})-(\d\d)-(\d\d)|(\d{1,2})[./](\d{1,2})[./](\d{4}))[ T])?(?:(\d{1,3}):)?(\d{1,3}):$"

#: how far a clock lies off that of Greenwich, as phones write it: the same all day, so it does not matter
_ZONE = re.compile(r"(?<=\d)\s?(?:[+-]\d\d:?\d\d)$")
_HALF_DAY = re.compile(r"\s*([AaPp])\.?[Mm]\.?$")
_DAY, _HALF = 86400.0, 43200.0  #: [s]


def clock_seconds(texts: Sequence[str]) -> FloatArray | None:
    """Return clock times in seconds since the first, NaN where a cell holds none, shape (n,) [s].

    None where the cells are no clock times.
    """
    if not texts or ":" not in texts[0]:
        return None
    if _ZONE.search(texts[0].strip()):
        texts = [_ZONE.sub("", text.strip()) for text in texts]
    bases: dict[str, float | None] = {}
    out = np.full(len(texts), np.nan)
    for i, text in enumerate(texts):
        head, _, tail = text.rpartition(":")
        base = bases.setdefault(head, _base(head + ":")) if head not in bases else bases[head]
        seconds, half = tail.rstrip("Zz"), _HALF_DAY.search(tail)
        if half is not None:
            seconds = tail[: half.start()]
            base = None if base is None else _of_half_day(base, half[1])
        try:
            out[i] = float(seconds.replace(",", ".")) + (base if base is not None else np.nan)
        except ValueError:
            continue
    if np.isfinite(out).mean() < CLOCK_SHARE:
        return None
    first = float(out[np.isfinite(out)][0])
    return np.asarray(out - first)


def unwrapped(time: FloatArray, ranges: Sequence[float]) -> FloatArray:
    """Return a time that runs on where it fell back by one of the ranges of a clock, as at midnight; shape (n,)."""
    if not (time[1:] < time[:-1]).any():
        return time
    step = np.diff(time)
    for whole in ranges:
        back = (step < -WRAP_SHARE * whole) & (step > -whole)
        if back.any():
            return np.asarray(time + whole * np.concatenate([[0], np.cumsum(back)]))
    return time


def _of_half_day(seconds: float, half: str) -> float:
    """Return a time of a clock of twelve hours as one of twenty-four: 12 AM is midnight. [s]"""
    hours = seconds % _DAY // 3600
    if hours > 12:
        return seconds
    return seconds - (hours == 12) * _HALF + (half in "pP") * _HALF


def _base(head: str) -> float | None:
    match = re.fullmatch(_FORM, head.strip())
    if match is None:
        return None
    year, month, day, d, m, y, hours, minutes = match.groups()
    try:
        days = date(int(year or y), int(month or m), int(day or d)).toordinal() - 700_000 if year or y else 0
    except ValueError:
        return None
    return 86400.0 * days + 3600.0 * int(hours or 0) + 60.0 * int(minutes)
